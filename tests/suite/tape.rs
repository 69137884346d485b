//! The tape law against its published figures.

use pegline::tape::TapeClass;

/// Source: Directive 2014/32/EU Annex X, the limits worked out for these lengths, without the hook allowance.
#[test]
fn classes_i_to_iii_give_the_published_limits() {
    let published = [
        (3000.0, [0.4, 0.9, 1.8]),
        (4200.0, [0.6, 1.3, 2.6]),
        (5000.0, [0.6, 1.3, 2.6]),
        (8000.0, [0.9, 1.9, 3.8]),
        (10_000.0, [1.1, 2.3, 4.6]),
    ];
    for (length, limits) in published {
        for (class, limit) in [TapeClass::I, TapeClass::II, TapeClass::III].into_iter().zip(limits) {
            approx::assert_relative_eq!(
                class.maximum_permissible_error(length, false),
                limit,
                epsilon = 1e-12
            );
        }
    }
}

/// Source: Directive 2014/32/EU Annex X, the additional error c of a composite measure's end surface.
#[test]
fn starting_from_the_hook_adds_the_end_surface_allowance() {
    for (class, c) in [(TapeClass::I, 0.1), (TapeClass::II, 0.2), (TapeClass::III, 0.3)] {
        let extra =
            class.maximum_permissible_error(5000.0, true) - class.maximum_permissible_error(5000.0, false);
        approx::assert_relative_eq!(extra, c, epsilon = 1e-12);
    }
}

/// Source: NIST Handbook 44, maintenance tolerances for measuring tapes, in inches, at both ends of each step.
#[test]
fn us_tapes_give_the_handbook_steps() {
    let published = [
        (1.0, 1.0 / 32.0),
        (6.0, 1.0 / 32.0),
        (7.0, 1.0 / 16.0),
        (30.0, 1.0 / 16.0),
        (31.0, 1.0 / 8.0),
        (55.0, 1.0 / 8.0),
        (56.0, 3.0 / 16.0),
        (80.0, 3.0 / 16.0),
        (81.0, 1.0 / 4.0),
        (100.0, 1.0 / 4.0),
    ];
    for (feet, inches) in published {
        approx::assert_relative_eq!(
            TapeClass::Us.maximum_permissible_error(feet * 304.8, false) / 25.4,
            inches,
            epsilon = 1e-12
        );
    }
}
