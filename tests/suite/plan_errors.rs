//! What is wrong with a plan, and where: one short input for each.

use insta::assert_snapshot;
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::plan::{Footprint, PlanError, parse_expression, parse_walk};

fn expression_refusal(text: &str) -> String {
    parse_expression(text, Units::Mm).expect_err(text).to_string()
}

fn walk_refusal(text: &str) -> String {
    parse_walk(text, Units::Mm).expect_err(text).to_string()
}

#[test]
fn a_walk_that_misses_its_start_says_by_how_much_on_which_axis_and_what_could_carry_it() {
    assert_snapshot!(
        walk_refusal("7800 R 3600 R 3000 L 2400 R 4850 R 6000"),
        @"the walk doesn't close: it ends 50 mm too far to the left of A (across); any one of these would close it: AB 7800 -> 7850, EF 4850 -> 4800, CD 3000 -> 2950"
    );
    assert_snapshot!(walk_refusal("7800.4 R 6000 R 7800 R 6000.2"), @"the walk doesn't close: it ends 0.4 mm too far to the right of A (across); any one of these would close it: AB 7800.4 -> 7800, CD 7800 -> 7800.4, and 0.2 mm too far, above A (down the page); any one of these would close it: BC 6000 -> 6000.2, DA 6000.2 -> 6000");
    assert_snapshot!(walk_refusal("26' R 12' R 10' L 8' R 16'1/2\" R 20'"), @"the walk doesn't close: it ends 1/2\" too far to the left of A (across); any one of these would close it: AB 26' -> 26' 0-1/2\", CD 10' -> 9' 11-1/2\", EF 16' 0-1/2\" -> 16'");
    assert_snapshot!(walk_refusal("7.8m R 3.6m R 3m L 2.4m R 4.85m"), @"the walk doesn't close: it ends 50 mm too far to the left of A (across); any one of these would close it: AB 7.800 -> 7.850, EF 4.850 -> 4.800, CD 3.000 -> 2.950");
    assert_snapshot!(walk_refusal("3000 R 3000 L 2000 R 5000 R 6000 R 7000"), @"the walk doesn't close: it ends 1000 mm too far to the left of A (across); any one of these would close it: AB 3000 -> 4000, CD 2000 -> 3000, EF 6000 -> 5000, and 1000 mm short of A, below it (down the page); any one of these would close it: BC 3000 -> 2000, DE 5000 -> 4000, FA 7000 -> 8000; if its last two sides were left out, give the first of them");
    // A side so short that it can't carry the error is no suspect.
    assert_snapshot!(walk_refusal("7800 R 6000 R 40 L 100 R 7860"), @"the walk doesn't close: it ends 100 mm too far to the left of A (across); any one of these would close it: AB 7800 -> 7900, EF 7860 -> 7760");
}

/// Whichever side a usual slip explains comes first, and none is offered that would make the outline cross itself.
#[test]
fn what_would_close_a_walk_is_told_the_likeliest_slip_first() {
    assert_snapshot!(walk_refusal("7800 R 3600 R 3000 L 2400 R 8400 R 6000"), @"the walk doesn't close: it ends 3600 mm too far to the left of A (across); any one of these would close it: EF 8400 -> 4800 (two digits swapped), AB 7800 -> 11400");
    assert_snapshot!(walk_refusal("7800 R 3600 R 300 L 2400 R 4800 R 6000"), @"the walk doesn't close: it ends 2700 mm too far to the right of A (across); any one of these would close it: CD 300 -> 3000 (a digit left out), AB 7800 -> 5100, EF 4800 -> 7500");
    assert_snapshot!(walk_refusal("26' R 12' R 10' L 8' R 16'1\" R 20'"), @"the walk doesn't close: it ends 1\" too far to the left of A (across); any one of these would close it: AB 26' -> 26' 1\", CD 10' -> 9' 11\", EF 16' 1\" -> 16'");
    assert_snapshot!(walk_refusal("26' R 21' R 10' L 8' R 16' R 20'"), @"the walk doesn't close: it ends 9' short of A, below it (down the page); any one of these would close it: BC 21' -> 12' (two digits swapped), FA 20' -> 29'");
    assert_snapshot!(walk_refusal("385 R 335 L 270 R 270 R 440 R 270 L 715 R 335"), @"the walk doesn't close: it ends 500 mm too far to the left of A (across); any one of these would close it: AB 385 -> 885, GH 715 -> 215");
    // The same walk as the first made the other way round names the sides by the same letters.
    assert_snapshot!(walk_refusal("6000 L 8400 L 2400 R 3000 L 3600 L 7800"), @"the walk doesn't close: it ends 3600 mm too far to the right of A (across); any one of these would close it: EF 8400 -> 4800 (two digits swapped), AB 7800 -> 11400");
}

#[test]
fn a_term_that_changes_nothing_is_refused() {
    assert_snapshot!(expression_refusal("9000x3000+3600x2400+1000x500"), @"`1000x500`: it changes nothing, since it lies wholly in another: leave it out, or look at its size and place");
    assert_snapshot!(expression_refusal("9000x6000-1000x1000@bl+3000x1000@0+2000x1000@0"), @"`2000x1000@0`: it changes nothing, since it lies wholly in another: leave it out, or look at its size and place");
    assert!(parse_expression("9000x6000-1000x1000@bl+3000x1000@0+3500x500@1000", Units::Mm).is_ok());
}

/// One short input for each way a plan can be wrong.
#[test]
fn each_expression_error_says_what_where_and_what_to_write_instead() {
    assert_snapshot!(expression_refusal(""), @"the plan is empty: write one such as 7800x6000-3000x2400 (an L) or 9000x3000+3600x2400 (a T)");
    assert_snapshot!(expression_refusal(&"1".repeat(5000)), @"the plan is 5000 characters long: 4096 is the most taken");
    assert_snapshot!(expression_refusal("78OOx6000"), @"`OOx6000` after `78`: write x and the depth, as in 7800x6000");
    assert_snapshot!(expression_refusal("7800xabc"), @"the depth of the plan: `abc` is not a length: write 6435, 6.435m or 21ft1-3/8in");
    assert_snapshot!(expression_refusal("6,000x4000"), @"the width of the plan: `6,000` can be read two ways: write 6.000 for the decimal comma or 6000 for thousands");
    assert_snapshot!(expression_refusal("7800x0"), @"the depth of the plan is zero or less: every dimension must be more than zero");
    assert_snapshot!(expression_refusal("7800x6000-0x2400"), @"the width of the cut-out is zero or less: every dimension must be more than zero");
    assert_snapshot!(expression_refusal("7800"), @"the plan ends after `7800`: write x and the depth, as in 7800x6000");
    assert_snapshot!(expression_refusal("7800x6000*2"), @"`*2` after `7800x6000`: write - and a cut-out, + and a leg, or the end");
    assert_snapshot!(expression_refusal("7800x6000-3000"), @"the plan ends after `7800x6000-3000`: write x and the depth, as in 7800x6000");
    assert_snapshot!(expression_refusal("7800x6000-3000x2400@xx"), @"`@xx` after `7800x6000-3000x2400`: write the cut-out's corner: @tl, @tr, @br or @bl");
    assert_snapshot!(expression_refusal("7800x6000-3000x2400@"), @"`@` after `7800x6000-3000x2400`: write the cut-out's corner: @tl, @tr, @br or @bl");
    assert_snapshot!(expression_refusal("7800x6000-8000x2400"), @"`8000x2400`: the cut-out must be smaller than the plan both ways, 7800 mm x 6000 mm");
    assert_snapshot!(expression_refusal("7800x6000-3000x2400-100x100"), @"`100x100`: this corner is cut out already");
    assert_snapshot!(expression_refusal("9000x3000+9000x2400"), @"`9000x2400`: the leg must be narrower than the bottom side, 9000 mm");
    assert_snapshot!(expression_refusal("9000x3000+3600x2400@6000"), @"`3600x2400@6000`: the leg runs past the end of the bottom side: @ can be 0 to 5400 mm");
    assert_snapshot!(expression_refusal("9000x6000-5000x2000@tl-5000x5000@br"), @"the plan's cut-outs and legs leave separate parts or a hole: it must stay one piece, without holes");
    assert_snapshot!(expression_refusal("9000x6000-5000x3000@tl-4000x3000@br"), @"the plan's cut-outs and legs leave parts that meet only at a point: it must stay one piece, without holes");
    assert_snapshot!(expression_refusal("90000x3000+100x100@0+100x100@1000+100x100@2000+100x100@3000+100x100@4000+100x100@5000+100x100@6000"), @"the outline has 30 corners: 4 to 26 are taken");
}

#[test]
fn each_walk_error_says_what_where_and_what_to_write_instead() {
    assert_snapshot!(walk_refusal(""), @"the plan is empty: write one such as 7800x6000-3000x2400 (an L) or 9000x3000+3600x2400 (a T)");
    assert_snapshot!(walk_refusal("7800"), @"one side is no walk: give at least two, with R or L between them");
    assert_snapshot!(walk_refusal("7800 R abc"), @"side 2 of the walk: `abc` is not a length: write 6435, 6.435m or 21ft1-3/8in");
    assert_snapshot!(walk_refusal("7800 R 0 R 7800"), @"side 2 of the walk is zero or less: every dimension must be more than zero");
    assert_snapshot!(walk_refusal("7800 R -5"), @"side 2 of the walk is zero or less: every dimension must be more than zero");
    assert_snapshot!(walk_refusal("7800 6000"), @"a turn stands between two sides, R for right or L for left: 7800 R 6000 …");
    assert_eq!(parse_walk("7800 right 6000", Units::Mm), parse_walk("7800 R 6000", Units::Mm));
    assert_snapshot!(walk_refusal("7800 R 6000 L 3000 L 2000"), @"the walk's turns don't come round: 3 R and 3 L with the closing corners, but a closed outline has 4 more one way than the other");
    assert_snapshot!(walk_refusal("6000 R 7800 R 6000 R 7800 R 100"), @"the walk doesn't close: it ends 100 mm too far to the right of A (across)");
    assert_snapshot!(walk_refusal("3000 L 2400 R 4800 R 6000 R 7800 R 3600"), @"the walk starts at another corner than A, the left end of the topmost side: write 4800 R 6000 R 7800 R 3600 R 3000 L 2400");
    assert_snapshot!(walk_refusal("5000 R 4000 R 3000 R 2000 R 4000 L 3000"), @"the walk doesn't close: it ends 6000 mm too far to the right of A (across); any one of these would close it: CD 3000 -> 9000, and 1000 mm too far, above A (down the page); any one of these would close it: BC 4000 -> 5000, DE 2000 -> 1000, FA 3000 -> 2000");
    assert_snapshot!(walk_refusal("6000 R 6000 R 5000 R 2000 R 3000 L 2000 L 2000 L 5000 R 2000 R 7000"), @"sides CD and HI cross or touch");
    assert_snapshot!(walk_refusal(&format!("100{}", " R 100".repeat(30))), @"the outline has 27 corners: 4 to 26 are taken");
}

fn points(corners: &[(f64, f64)]) -> Vec<Point> {
    corners.iter().map(|(x, y)| Point::new(*x, *y)).collect()
}

#[test]
fn each_fault_of_bare_points_is_told_with_its_place() {
    let refusal = |corners: &[(f64, f64)]| Footprint::from_points(&points(corners)).unwrap_err().to_string();
    assert_snapshot!(refusal(&[(0., 0.), (5., 0.), (5., 5.)]), @"the outline has 3 corners: 4 to 26 are taken");
    assert_snapshot!(refusal(&[(0., 0.), (5., f64::NAN), (5., 5.), (0., 5.)]), @"a corner's place is not a finite number");
    assert_snapshot!(refusal(&[(0., 0.), (5., 0.), (5., 0.), (5., 5.), (0., 5.)]), @"side BC has no length");
    assert_snapshot!(refusal(&[(0., 0.), (5., 0.), (6., 5.), (0., 5.)]), @"side BC slants: every side must run square to its neighbours");
    assert_snapshot!(refusal(&[(0., 0.), (3., 0.), (5., 0.), (5., 5.), (0., 5.)]), @"the outline goes straight through corner B: leave it out");
    assert_snapshot!(refusal(&[(0., 0.), (5., 0.), (5., 5.), (5., 3.), (0., 3.)]), @"the outline folds back on itself at corner C");
    assert_snapshot!(refusal(&[(0., 0.), (0., 5.), (5., 5.), (5., 0.)]), @"the outline goes round anticlockwise: give its corners clockwise, seen from above");
}

/// Touching is refused as well as crossing: a point, an edge and a true crossing.
#[test]
fn sides_that_cross_or_touch_are_refused_by_their_names() {
    let touches = [
        // A figure of eight.
        (vec![(0., 0.), (10., 0.), (10., 10.), (5., 10.), (5., -5.), (0., -5.)], "BC", "EF"),
        // Two squares that share one corner point.
        (
            vec![(0., 0.), (5., 0.), (5., 5.), (10., 5.), (10., 10.), (5., 10.), (5., 5.), (0., 5.)],
            "BC",
            "FG",
        ),
        // A notch as deep as the plan: its end lies on the far side.
        (
            vec![(0., 0.), (4., 0.), (4., 10.), (6., 10.), (6., 0.), (9., 0.), (9., 10.), (0., 10.)],
            "BC",
            "GH",
        ),
    ];
    for (corners, one, other) in touches {
        match Footprint::from_points(&points(&corners)) {
            Err(PlanError::Touching { first, second }) => {
                assert_eq!((&*first, &*second), (one, other), "{corners:?}");
            }
            other => panic!("{corners:?}: {other:?}"),
        }
    }
}
