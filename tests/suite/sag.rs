//! Sag of lines and tapes against published examples.

use pegline::sag::{Catenary, line_weight, parabola, parabola_at, tape_sag, tape_stretch};
use proptest::prelude::*;

fn close(found: f64, published: f64, within: f64) {
    assert!((found - published).abs() <= within, "{found}, published {published}");
}

/// Source: a published textbook wire: 625 ft long, 2 lb/ft, sag 25 ft; printed c = 1940.625 ft, span 622.33 ft,
/// greatest tension 3931.25 lb. Our horizontal pull is w c.
#[test]
fn the_textbook_wire_hangs_as_printed() {
    let wire = Catenary::new(2.0, 622.33, 2.0 * 1940.625).unwrap();
    close(wire.parameter(), 1940.625, 1e-9);
    close(wire.length().unwrap(), 625.0, 0.005);
    close(wire.sag().unwrap(), 25.0, 0.005);
    close(wire.end_tension().unwrap(), 3931.25, 0.01);
}

/// Source: NIST calibration of a 100 ft steel tape (1991), as quoted: flat at 10 lb 100.0045 ft; supported at its ends
/// at 10, 15, 20, 25 lb. Weight and stretch are the two constants that fit those lines.
#[test]
fn the_calibrated_tape_reads_as_certified_at_each_pull() {
    let (weight, stretch_per_lb) = (0.012_747, 9.3474e-4);
    let at = |pull: f64, supports: f64| {
        let span = 100.0 / (supports - 1.0);
        100.0045 + tape_stretch(100.0, pull, 10.0, 100.0 / stretch_per_lb).unwrap()
            - (supports - 1.0) * tape_sag(weight, span, pull).unwrap()
    };
    for (pull, certified) in [(10.0, 99.9368), (15.0, 99.9791), (20.0, 99.9969), (25.0, 100.0077)] {
        close(at(pull, 2.0), certified, 5e-5);
    }
    // The certificate's pulls for exactly 100.000 ft on 2, 3, 4 and 5 supports.
    for (supports, pull) in [(2.0, 21.23), (3.0, 14.18), (4.0, 11.39), (5.0, 9.85)] {
        close(at(pull, supports), 100.0, 5e-5);
    }
}

/// Ours, recomputed by hand: a 1 g/m line (assumed) over 7.8 m sags 3.7 mm at 20 N, 1.5 at 50 N, 0.75 at 100 N.
#[test]
fn a_site_string_sags_by_millimetres() {
    let weight = line_weight(1.0);
    for (pull, sag) in [(20.0, 3.7), (50.0, 1.5), (100.0, 0.75)] {
        close(parabola(weight, 7800.0, pull).unwrap(), sag, 0.05);
    }
}

proptest! {
    /// Outside check: the parabola drops the catenary's higher terms, the first of which is (4/3)(s/L)² of the sag.
    #[test]
    fn the_parabola_is_the_catenary_but_for_its_next_term(span in 100.0..20_000.0_f64, pull in 5.0..200.0_f64, grams in 0.2..20.0_f64) {
        let weight = line_weight(grams);
        let exact = Catenary::new(weight, span, pull).unwrap().sag().unwrap();
        let working = parabola(weight, span, pull).unwrap();
        let next = exact * 4.0 / 3.0 * (exact / span).powi(2);
        prop_assert!(exact >= working - 1e-9);
        prop_assert!(exact - working <= next * 1.05 + 1e-9, "{exact} {working} {next}");
        prop_assert!((parabola_at(weight, span, pull, span / 2.0).unwrap() - working).abs() < 1e-9);
        prop_assert_eq!(parabola_at(weight, span, pull, 0.0), Some(0.0));
    }

    #[test]
    fn no_input_makes_a_sag_that_cannot_be_written(bits in proptest::array::uniform4(any::<u64>())) {
        let [w, l, t, x] = bits.map(f64::from_bits);
        for sag in [parabola(w, l, t), parabola_at(w, l, t, x), tape_sag(w, l, t), tape_stretch(w, l, t, x)] {
            prop_assert!(sag.is_none_or(f64::is_finite));
        }
        if let Some(line) = Catenary::new(w, l, t) {
            for figure in [line.sag(), line.length(), line.end_tension()] {
                prop_assert!(figure.is_none_or(f64::is_finite));
            }
        }
    }
}
