//! Sag of a line against a published wire and the exact curve.

use approx::assert_relative_eq;
use pegline::sag::{catenary, parabola, pull_for};
use proptest::prelude::*;

const MM_PER_FOOT: f64 = 304.8;
const NEWTONS_PER_POUND: f64 = 4.448_221_615_260_5;

/// Source: a published textbook exercise, seen with its answers: 625 ft of wire at 2 lb/ft sagging 25 ft; the curve's
/// constant is 1940.625 ft, so the level pull 3881.25 lb (greatest pull 3931.25 lb) and the span 622.33 ft.
#[test]
fn the_published_wire_sags_25_feet() {
    let weight = 2.0 * NEWTONS_PER_POUND / (MM_PER_FOOT / 1000.0);
    let pull = 2.0 * 1940.625 * NEWTONS_PER_POUND;
    let sag = catenary(weight, 622.33 * MM_PER_FOOT, pull) / MM_PER_FOOT;
    // The span is given to 0.005 ft, which is 0.0004 ft of sag.
    assert_relative_eq!(sag, 25.0, epsilon = 5e-4);
    let rough = parabola(weight, 622.33 * MM_PER_FOOT, pull) / MM_PER_FOOT;
    assert_relative_eq!(rough, 25.0, epsilon = 0.06);
}

proptest! {
    #[test]
    fn the_parabola_keeps_to_the_exact_curve_for_any_string_on_site(
        grams in 0.1..5.0_f64, span in 500.0..30_000.0_f64, pull in 5.0..200.0_f64
    ) {
        let weight = grams / 1000.0 * 9.806_65;
        let (rough, exact) = (parabola(weight, span, pull), catenary(weight, span, pull));
        // The next term of cosh is w³L⁴/(384·T³), 4/3·(s/L)² of the first; the one after is far below a nanometre.
        let short = 4.0 / 3.0 * (rough / span).powi(2) * rough;
        assert_relative_eq!(exact - rough, short, max_relative = 2e-2, epsilon = 1e-8);
        assert_relative_eq!(parabola(weight, span, pull_for(weight, span, 1.0)), 1.0, max_relative = 1e-12);
    }
}

/// Plain arithmetic from an assumed 1 g/m: 0.00980665 × 7.8² ÷ 8 ÷ T, in metres.
#[test]
fn a_light_line_over_7_8_m_sags_as_worked_by_hand() {
    for (pull, sag) in [(20.0, 3.729), (50.0, 1.492), (100.0, 0.746)] {
        assert_relative_eq!(parabola(0.009_806_65, 7800.0, pull), sag, epsilon = 5e-4);
    }
}
