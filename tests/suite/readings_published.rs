//! The adjustment against published trilateration examples, every printed digit.

use approx::assert_abs_diff_eq as close;
use pegline::geometry::{Point, angle_between};
use pegline::readings::{Adjustment, Datum, Observation, adjust};

use crate::readings_support::line;

fn observe(lines: &[(&str, f64, f64)]) -> Vec<Observation> {
    lines
        .iter()
        .map(|(name, value, sd)| {
            let (from, to) = line(name);
            Observation { from, to, value: *value, sd: *sd }
        })
        .collect()
}

/// Source: Krumm (2020), *Geodetic Network Adjustment Examples* rev. 3.5, example 3.1.1, after Benning (2011) 8-2.
/// Printed in metres and centimetres; here in millimetres.
#[test]
fn a_braced_square_on_two_fixed_points_gives_every_printed_figure() {
    let start = [Point::new(0.0, 1e6), Point::new(1e6, 1e6), Point::new(0.0, 0.0), Point::new(1e6, 0.0)];
    let observations = observe(&[
        ("AC", 1_000_020.0, 10.0),
        ("AD", 1_414_200.0, 10.0),
        ("BC", 1_414_240.0, 10.0),
        ("BD", 999_980.0, 10.0),
        ("CD", 1_000_000.0, 10.0),
    ]);
    let adjusted = adjust(&start, &observations, Datum::Fixed(&[0, 1])).unwrap();
    for (got, printed) in [
        (adjusted.points[2].x, -9.6),
        (adjusted.points[2].y, -22.6),
        (adjusted.points[3].x, 999_993.0),
        (adjusted.points[3].y, 17.4),
    ] {
        close!(got, printed, epsilon = 0.051);
    }
    for (v, printed) in adjusted.residuals.iter().zip([2.60, -3.68, -3.68, 2.60, 2.60]) {
        close!(*v, printed, epsilon = 0.0051);
    }
    // Printed s0 in millimetres; σ is 10 mm, so the unit-free figure is a tenth.
    let sigma0 = adjusted.sigma0().unwrap();
    close!(sigma0 * 10.0, 6.882, epsilon = 0.000_51);
    assert_eq!(adjusted.degrees_of_freedom, 1);
    for (row, printed) in [(4, 9.01), (5, 6.37), (6, 9.01), (7, 6.37)] {
        let sd = sigma0 * adjusted.covariance[(row, row)].sqrt();
        close!(sd, printed, epsilon = 0.0051);
    }
    // Fixed corners stay where they are, without any uncertainty.
    assert_eq!(adjusted.points[..2], start[..2]);
    close!(adjusted.covariance[(0, 0)] + adjusted.covariance[(3, 3)], 0.0);
    // Worked out again from the printed inputs, not printed: redundancy numbers, |w|.
    for (r, figure) in adjusted.redundancy.iter().zip([0.142_852, 0.285_706, 0.285_722, 0.142_863, 0.142_857])
    {
        close!(*r, figure, epsilon = 1e-6);
    }
    for w in &adjusted.w {
        close!(w.unwrap().abs(), 0.688_24, epsilon = 5e-6);
    }
}

/// A start for a quadrilateral ABCD from its sides and the diagonal AC, on either side of which B and D lie.
fn quadrilateral([ab, bc, cd, da, ac]: [f64; 5]) -> [Point; 4] {
    let apex = |from_a: f64, from_c: f64, side: f64| {
        let x = (from_a * from_a - from_c * from_c + ac * ac) / (2.0 * ac);
        Point::new(x, side * (from_a * from_a - x * x).sqrt())
    };
    [Point::new(0.0, 0.0), apex(ab, bc, -1.0), Point::new(ac, 0.0), apex(da, cd, 1.0)]
}

/// 0 when four points with these six distances lie in one plane: the Cayley–Menger determinant.
fn cayley_menger(points: &[Point]) -> f64 {
    let mut m = nalgebra::DMatrix::from_element(5, 5, 1.0);
    m[(0, 0)] = 0.0;
    for i in 0..4 {
        for j in 0..4 {
            m[(i + 1, j + 1)] = points[i].distance(points[j]).powi(2);
        }
    }
    m.determinant()
}

fn braced(lines: &[(&str, f64, f64)], residuals: [f64; 6], digit: f64, sigma0: (f64, f64)) -> Adjustment {
    let value = |name: &str| lines.iter().find(|l| l.0 == name).unwrap().1;
    let start = quadrilateral(["AB", "BC", "CD", "DA", "AC"].map(value));
    let adjusted = adjust(&start, &observe(lines), Datum::Free).unwrap();
    for (v, printed) in adjusted.residuals.iter().zip(residuals) {
        close!(*v, printed, epsilon = 0.51 * digit);
    }
    close!(adjusted.sigma0().unwrap(), sigma0.0, epsilon = 0.51 * sigma0.1);
    assert_eq!(adjusted.degrees_of_freedom, 1);
    close!(adjusted.redundancy.iter().sum::<f64>(), 1.0, epsilon = 1e-9);
    let first = adjusted.w[0].unwrap().abs();
    for w in &adjusted.w {
        close!(w.unwrap().abs(), first, epsilon = 1e-6 * first);
    }
    // A flat figure: nothing is left of the volume, against the product of its squared distances.
    let scale: f64 = (0..3).map(|i| adjusted.points[i].distance(adjusted.points[3]).powi(2)).product();
    close!(cayley_menger(&adjusted.points) / scale, 0.0, epsilon = 1e-12);
    adjusted
}

/// Source: textbook trilateration example 3.3, inputs as printed, metres, unit weights; results worked out
/// independently.
#[test]
fn a_textbook_quadrilateral_gives_its_residuals() {
    let lines = [
        ("AB", 1525.456, 1.0),
        ("BC", 2176.945, 1.0),
        ("CD", 1697.435, 1.0),
        ("DA", 2401.435, 1.0),
        ("AC", 3073.845, 1.0),
        ("BD", 2483.115, 1.0),
    ];
    let v = [0.081_03, 0.112_80, 0.067_22, 0.097_48, -0.142_22, -0.112_86];
    braced(&lines, v, 1e-5, (0.257_44, 1e-5));
}

/// Source: Zaki et al., ISPRS XVII congress (1992), commission B3; inputs as printed, metres, unit weights; results
/// worked out independently.
#[test]
fn a_congress_paper_quadrilateral_gives_its_residuals() {
    let lines = [
        ("AB", 1341.785, 1.0),
        ("BC", 1937.887, 1.0),
        ("CD", 1511.014, 1.0),
        ("DA", 2167.437, 1.0),
        ("AC", 2775.364, 1.0),
        ("BD", 2173.715, 1.0),
    ];
    let v = [-0.003_51, -0.004_93, -0.002_79, -0.004_13, 0.006_18, 0.004_72];
    braced(&lines, v, 1e-5, (0.011_045, 1e-6));
}

/// Source: Ghilani (2010), 5th ed., problem 21.10; inputs as printed, metres, with its standard deviations; results
/// worked out independently.
#[test]
fn a_textbook_problem_with_unlike_weights_gives_its_residuals() {
    let lines = [
        ("AB", 3111.291, 0.010),
        ("BC", 3726.220, 0.012),
        ("CD", 3237.783, 0.010),
        ("DA", 3662.372, 0.012),
        ("AC", 5193.471, 0.016),
        ("BD", 4524.471, 0.014),
    ];
    let v = [0.001_08, 0.001_78, 0.001_05, 0.001_79, -0.004_46, -0.002_98];
    braced(&lines, v, 1e-5, (0.435_79, 1e-5));
}

/// Source: a published triangle of three taped sides and its printed angles.
#[test]
fn three_sides_give_the_printed_angles() {
    let start = [Point::new(0.0, 0.0), Point::new(900.0, 0.0), Point::new(750.0, 490.0)];
    let sides = observe(&[("AB", 923.245, 0.01), ("BC", 517.328, 0.01), ("CA", 896.126, 0.01)]);
    let p = adjust(&start, &sides, Datum::Free).unwrap().points;
    let dms = |d: f64, m: f64, s: f64| d + m / 60.0 + s / 3600.0;
    for (corner, before, after, printed) in
        [(0, 2, 1, dms(32.0, 59.0, 46.9)), (1, 0, 2, dms(70.0, 37.0, 14.7)), (2, 1, 0, dms(76.0, 22.0, 58.4))]
    {
        let side = |i: usize, j: usize| p[i].distance(p[j]);
        let angle = angle_between(side(corner, before), side(corner, after), side(before, after));
        close!(angle.unwrap().to_degrees(), printed, epsilon = 0.15 / 3600.0);
    }
}

/// An L with every line read: name, metres, σ mm (class II on the plan's lengths), then v mm, r, w as worked out
/// independently.
#[expect(clippy::approx_constant, reason = "0.5236 is a redundancy number, not a sixth of π")]
const FIFTEEN: [(&str, f64, f64, f64, f64, f64); 15] = [
    ("AB", 7.802, 1.4844, 0.9871, 0.2197, 1.419),
    ("AC", 8.586, 1.5716, -0.6208, 0.5236, -0.546),
    ("AD", 6.014, 1.3229, -0.3730, 0.4168, -0.437),
    ("AE", 7.669, 1.4844, -0.1729, 0.4453, -0.175),
    ("AF", 6.001, 1.3229, 0.5156, 0.1070, 1.191),
    ("BC", 3.602, 1.1846, 0.9222, 0.1921, 1.776),
    ("BD", 4.689, 1.2503, -0.6237, 0.4465, -0.747),
    ("BE", 6.703, 1.4012, -0.7166, 0.5496, -0.690),
    ("BF", 9.850, 1.6623, -0.1087, 0.6144, -0.083),
    ("CD", 2.983, 1.1269, -0.4918, 0.3691, -0.718),
    ("CE", 3.832, 1.1846, 1.3345, 0.3704, 1.851),
    ("CF", 8.161, 1.5716, -0.3289, 0.6329, -0.263),
    ("DE", 2.379, 1.1269, -0.2571, 0.2999, -0.417),
    ("DF", 5.380, 1.3229, -0.9181, 0.4983, -0.983),
    ("EF", 4.798, 1.2503, 0.9818, 0.3142, 1.401),
];

fn fifteen(slip_of_bf: f64) -> Vec<Observation> {
    FIFTEEN
        .iter()
        .map(|(name, metres, sd, ..)| {
            let (from, to) = line(name);
            // The table's σ to its last digit, then all of it.
            let plan = crate::readings_support::ell();
            let whole = pegline::tape::Tape::default().standard_deviation(plan[from].distance(plan[to]));
            close!(whole, *sd, epsilon = 5.1e-5);
            let slip = if *name == "BF" { slip_of_bf } else { 0.0 };
            Observation { from, to, value: metres * 1000.0 + slip, sd: whole }
        })
        .collect()
}

/// Invented readings; the figures were worked out independently of this program.
#[test]
fn fifteen_readings_of_an_l_give_the_figures_worked_out_elsewhere() {
    let adjusted = adjust(&crate::readings_support::ell(), &fifteen(0.0), Datum::Free).unwrap();
    for (i, (_, _, _, v, r, w)) in FIFTEEN.iter().enumerate() {
        close!(adjusted.residuals[i], *v, epsilon = 5.1e-5);
        close!(adjusted.redundancy[i], *r, epsilon = 5.1e-5);
        close!(adjusted.w[i].unwrap(), *w, epsilon = 5.1e-4);
    }
    assert_eq!(adjusted.degrees_of_freedom, 6);
    close!(adjusted.squares, 4.617_65, epsilon = 5.1e-6);
    // The same corners, A at the origin and B on the x axis; given to the micrometre.
    let placed = pegline::readings::held(
        &[(0.0, 0.0), (7802.987, 0.0), (0.0, 0.0), (0.0, 0.0), (0.0, 0.0), (0.0, 0.0)]
            .map(|(x, y)| Point::new(x, y)),
        &adjusted.points,
        0,
    );
    for (p, (x, y)) in placed.points[1..].iter().zip([
        (7802.987, 0.0),
        (7792.804, 3602.908),
        (4810.302, 3608.976),
        (4791.557, 5987.645),
        (-7.405, 6001.511),
    ]) {
        close!(p.x, x, epsilon = 6e-4);
        close!(p.y, y, epsilon = 6e-4);
    }
}

/// Invented readings, one of them 100 long; the figures were worked out independently of this program.
#[test]
fn a_slip_of_100_in_one_of_fifteen_stands_out_and_is_sized() {
    let observations = fifteen(100.0);
    let start = crate::readings_support::ell();
    let all = adjust(&start, &observations, Datum::Free).unwrap();
    close!(all.squares, 2238.893, epsilon = 5.1e-4);
    let w: Vec<f64> = all.w.iter().map(|w| w.unwrap()).collect();
    close!(w[8], -47.27, epsilon = 0.0051);
    close!(w[4], 32.44, epsilon = 0.0051);
    close!(-all.residuals[8] / all.redundancy[8], 100.12, epsilon = 0.0051);
    // Without it the other fourteen have no more to say against each other than before.
    let mut rest = observations;
    rest.remove(8);
    assert!(adjust(&start, &rest, Datum::Free).unwrap().squares < 4.62);
}
