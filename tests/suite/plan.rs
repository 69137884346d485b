//! From expressions and walks to corners.

use insta::assert_snapshot;
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::plan::{Footprint, Heading, PlanError, Turn, parse_expression, parse_sides, parse_walk};
use proptest::prelude::*;

use crate::outlines::{any_outline, footprint, outlines, walk_of, walk_text};

fn plan(text: &str) -> Footprint {
    parse_expression(text, Units::Mm).unwrap_or_else(|error| panic!("{text}: {error}")).0
}

fn walk(text: &str) -> Footprint {
    parse_walk(text, Units::Mm).unwrap_or_else(|error| panic!("{text}: {error}")).0
}

fn corners(footprint: &Footprint) -> Vec<(f64, f64)> {
    footprint.points().iter().map(|p| (p.x, p.y)).collect()
}

fn same_corners(a: &Footprint, b: &Footprint) -> bool {
    a.len() == b.len() && a.points().iter().zip(b.points()).all(|(p, q)| p.distance(q) < 1e-6)
}

/// Plain arithmetic on a drawing of each: across and down of every corner.
#[test]
fn the_usual_shapes_have_the_corners_that_a_drawing_of_them_has() {
    let drawings = [
        ("7800x6000", "0,0 7800,0 7800,6000 0,6000"),
        ("7800x6000-3000x2400", "0,0 7800,0 7800,3600 4800,3600 4800,6000 0,6000"),
        ("7800x6000-3000x2400@bl", "0,0 7800,0 7800,6000 3000,6000 3000,3600 0,3600"),
        ("7800x6000-3000x2400@tr", "0,0 4800,0 4800,2400 7800,2400 7800,6000 0,6000"),
        ("7800x6000-3000x2400@tl", "3000,0 7800,0 7800,6000 0,6000 0,2400 3000,2400"),
        ("9000x3000+3600x2400", "0,0 9000,0 9000,3000 6300,3000 6300,5400 2700,5400 2700,3000 0,3000"),
        ("9000x3000+3600x2400@1000", "0,0 9000,0 9000,3000 4600,3000 4600,5400 1000,5400 1000,3000 0,3000"),
        ("9000x3000+3600x2400@0", "0,0 9000,0 9000,3000 3600,3000 3600,5400 0,5400"),
        (
            "9000x3000+2400x2100@0+2400x2100@6600",
            "0,0 9000,0 9000,5100 6600,5100 6600,3000 2400,3000 2400,5100 0,5100",
        ),
        (
            "9000x6000-2000x1500@bl-2000x1500@br",
            "0,0 9000,0 9000,4500 7000,4500 7000,6000 2000,6000 2000,4500 0,4500",
        ),
        (
            "9000x6000-2000x1500@tl-1000x1200@br+3000x900@500",
            "2000,0 9000,0 9000,4800 8000,4800 8000,6000 3500,6000 3500,6900 500,6900 500,6000 0,6000 0,1500 2000,1500",
        ),
    ];
    for (text, drawn) in drawings {
        let corners: Vec<String> = plan(text).points().iter().map(|p| format!("{},{}", p.x, p.y)).collect();
        assert_eq!(corners.join(" "), drawn, "{text}");
    }
}

#[test]
fn spaces_signs_and_units_may_be_written_as_on_any_drawing() {
    let drawn = plan("7800x6000-3000x2400@br");
    for text in [
        "7800 x 6000 - 3000 x 2400",
        "7800×6000−3000×2400@BR",
        "7.8mx6m-3mx2.4m",
        "7800mmX6000mm-3000mmX2400mm @ br",
        "  7800x6000 -3000x2400  ",
    ] {
        assert!(same_corners(&plan(text), &drawn), "{text}");
    }
    let (feet, units) = parse_expression("26'x20'-10'x8'", Units::Mm).unwrap();
    assert_eq!(units, Units::FeetInches);
    let inches: Vec<(f64, f64)> =
        feet.points().iter().map(|p| ((p.x / 25.4).round(), (p.y / 25.4).round())).collect();
    assert_eq!(inches, [(0., 0.), (312., 0.), (312., 144.), (192., 144.), (192., 240.), (0., 240.)]);
    let mixed = plan("26ft6-1/2inx20ft-10ft3inx8ft");
    assert!((mixed.points()[1].x - 318.5 * 25.4).abs() < 1e-9);
}

#[test]
fn a_leg_is_centred_on_the_bottom_side_that_the_cut_outs_leave() {
    let centred = plan("9000x6000-2000x1500@bl+1000x900");
    let left = centred.points()[3].x - 1000.0;
    assert!((left - (2000.0 + 3000.0)).abs() < 1e-9, "the leg's left end is {left}");
}

/// Source: the rule itself, common practice in this program: the left end of the topmost side, of the leftmost of those.
#[test]
fn a_is_the_left_end_of_the_topmost_side_on_odd_outlines_too() {
    // A battlement: three merlons equally high; A must be on the leftmost one although others are as high.
    let battlement = walk("1000 R 500 L 800 L 500 R 1200 R 500 L 700 L 500 R 900 R 3000 R 4600 R 3000");
    assert_eq!(battlement.points()[0], Point::new(0.0, 0.0));
    // The topmost side is in the middle: A is not the leftmost corner.
    let stepped = plan("9000x6000-2000x1500@tl-3000x1500@tr");
    assert_eq!(stepped.points()[0], Point::new(2000.0, 0.0));
    // The leftmost of the topmost sides is the shorter.
    let uneven = walk("100 R 50 L 20 L 50 R 5000 R 900 R 5120 R 900");
    assert!((uneven.sides()[0].length - 100.0).abs() < 1e-9);
}

#[test]
fn letters_run_clockwise_and_turns_are_told_apart() {
    let l = plan("7800x6000-3000x2400");
    let names: String = l.corners().iter().map(|corner| corner.name).collect();
    assert_eq!(names, "ABCDEF");
    let inward: String =
        l.corners().iter().filter(|corner| corner.turn == Turn::Inward).map(|corner| corner.name).collect();
    assert_eq!(inward, "D");
    let names: Vec<String> = (0..l.len()).map(|i| l.side_name(i)).collect();
    assert_eq!(names, ["AB", "BC", "CD", "DE", "EF", "FA"]);
}

#[test]
fn the_walk_and_the_expression_of_one_drawing_have_the_same_corners() {
    let pairs = [
        ("7800x6000", "7800 R 6000 R 7800 R 6000"),
        ("7800x6000-3000x2400", "7800 R 3600 R 3000 L 2400 R 4800 R 6000"),
        ("7800x6000-3000x2400", "7800R3600R3000L2400"),
        ("7800x6000-3000x2400", "7800, r 3600, r 3000, l 2400, r"),
        ("7800x6000-3000x2400", "7800 R 3600 R 3000 L 2400 R 4800"),
        ("7800x6000-3000x2400", "7800\tR\t3600\nR 3000\r\nL 2400 R 4800 R 6000 R"),
        ("7800x6000-3000x2400@tl", "4800 R 6000 R 7800 R 3600 R 3000 L 2400"),
        ("9000x3000+3600x2400", "9m R 3m R 2.7m L 2.4m R 3.6m R 2.4m L 2700mm R 3m"),
    ];
    for (expression, steps) in pairs {
        assert_eq!(corners(&walk(steps)), corners(&plan(expression)), "{steps}");
    }
}

proptest! {
    #[test]
    fn any_outline_comes_back_from_its_walk_with_all_sides_or_without_the_last_one_or_two(outline in any_outline()) {
        let drawn = footprint(&outline);
        prop_assert_eq!(drawn.len(), outline.len());
        for count in [drawn.len(), drawn.len() - 1, drawn.len() - 2] {
            let text = walk_of(&drawn, count);
            let walked = parse_walk(&text, Units::Mm);
            // A walk that ends going up and needs two more sides can't be told from a whole one that misses it.
            if let Err(PlanError::DoesNotClose { left_out: true, .. }) = walked {
                prop_assert_eq!(count, drawn.len() - 2);
                prop_assert_eq!(drawn.sides()[count - 1].heading, Heading::Up);
                continue;
            }
            prop_assert!(
                walked.as_ref().is_ok_and(|(walked, _)| same_corners(walked, &drawn)),
                "{} of {}: {}: {:?}", count, drawn.len(), text, walked
            );
        }
    }

    #[test]
    fn an_outline_is_lettered_the_same_wherever_its_points_start(outline in any_outline(), start in 0_usize..26, dx in -5000_i32..5000) {
        let drawn = footprint(&outline);
        let start = start % outline.len();
        let moved: Vec<Point> = outline[start..].iter().chain(&outline[..start])
            .map(|p| Point::new(p.x + f64::from(dx), p.y - f64::from(dx)))
            .collect();
        prop_assert!(same_corners(&footprint(&moved), &drawn));
        let first = drawn.points()[0];
        prop_assert!(first.y.abs() < 1e-9);
        prop_assert!(drawn.points().iter().all(|p| p.x >= 0.0 && p.y >= 0.0 && (p.y > 0.0 || p.x >= first.x)));
        prop_assert!(drawn.area() > 0.0);
        let turns = |turn| drawn.corners().iter().filter(|corner| corner.turn == turn).count();
        prop_assert_eq!(turns(Turn::Outward), turns(Turn::Inward) + 4);
    }

    #[test]
    fn an_outline_the_wrong_way_round_is_refused(outline in any_outline()) {
        let backwards: Vec<Point> = outline.iter().rev().copied().collect();
        prop_assert_eq!(Footprint::from_points(&backwards), Err(PlanError::Anticlockwise));
    }

    #[test]
    fn an_outline_comes_back_from_its_walk_the_other_way_round_and_not_its_mirror_image(outline in any_outline()) {
        let drawn = footprint(&outline);
        let back: Vec<String> = (0..drawn.len()).rev().map(|side| {
            let turn = if drawn.corners()[side].turn == Turn::Outward { 'L' } else { 'R' };
            format!("{} {turn}", drawn.sides()[side].length)
        }).collect();
        for count in [drawn.len(), drawn.len() - 1] {
            let walked = parse_walk(&back[..count].join(" "), Units::Mm);
            prop_assert!(walked.as_ref().is_ok_and(|(walked, _)| same_corners(walked, &drawn)), "{}: {:?}", back.join(" "), walked);
            let sides: Vec<usize> = walked.iter().filter_map(|(walked, _)| walked.walked_anticlockwise()).flatten().collect();
            prop_assert_eq!(sides, (0..drawn.len()).rev().collect::<Vec<_>>());
        }
    }

    #[test]
    fn one_wrong_side_is_told_by_its_amount_and_is_among_the_repairs(outline in any_outline(), side in 0_usize..26, slip in 1_i32..2000) {
        let drawn = footprint(&outline);
        let side = side % drawn.len();
        let wrong = drawn.sides()[side].length + f64::from(slip);
        let turned = walk_text(&drawn);
        let mut words: Vec<String> = turned.split(' ').map(str::to_owned).collect();
        words[2 * side] = wrong.to_string();
        match parse_walk(&words.join(" "), Units::Mm) {
            Err(PlanError::DoesNotClose { misses, .. }) => {
                prop_assert_eq!(misses.len(), 1);
                prop_assert!((misses[0].beyond.abs() - f64::from(slip)).abs() < 1e-6);
                let name = drawn.side_name(side);
                let repair = misses[0].repairs.iter().find(|repair| repair.side == name);
                prop_assert!(
                    repair.is_some_and(|repair| (repair.given - wrong).abs() < 1e-6 && (repair.closing - drawn.sides()[side].length).abs() < 1e-6),
                    "{}: {:?}", name, misses
                );
                // Each of them, typed in, is taken.
                for repair in &misses[0].repairs {
                    let side = (0..drawn.len()).find(|side| drawn.side_name(*side) == repair.side).unwrap();
                    let mut mended = words.clone();
                    mended[2 * side] = repair.closing.to_string();
                    let mended = mended.join(" ");
                    prop_assert!(parse_walk(&mended, Units::Mm).is_ok(), "{}: {:?}", mended, repair);
                }
            }
            other => prop_assert!(false, "{:?}", other),
        }
    }

    #[test]
    fn any_text_is_a_plan_or_is_refused(text in any::<String>(), signs in "[-+@x×0-9.,'\"/ tlbrmfinRL]{0,40}") {
        for text in [text, signs] {
            for units in Units::ALL {
                for refused in [parse_expression(&text, units).err(), parse_walk(&text, units).err()].into_iter().flatten() {
                    prop_assert!(!refused.to_string().is_empty());
                }
            }
        }
    }
}

#[test]
fn twenty_six_corners_are_taken_and_twenty_seven_are_not() {
    // A comb: each tooth adds four corners to the four of its bar; a cut-out adds two.
    let comb = |teeth: usize, more: &str| {
        let legs: Vec<String> = (0..teeth).map(|i| format!("+100x100@{}", 200 * i + 50)).collect();
        format!("5000x3000{more}{}", legs.concat())
    };
    let most = plan(&comb(5, "-600x700@tl"));
    assert_eq!(most.len(), 26);
    assert_eq!(most.corners()[25].name, 'Z');
    assert_eq!(most.side_name(25), "ZA");
    assert!(same_corners(&walk(&walk_text(&most)), &most));
    assert!(matches!(parse_expression(&comb(6, ""), Units::Mm), Err(PlanError::CornerCount { count: 28 })));
}

#[test]
fn legs_that_meet_side_by_side_become_one_outline() {
    let wide = plan("9000x3000+2000x1000@1000+2000x1000@3000");
    assert!(same_corners(&wide, &plan("9000x3000+4000x1000@1000")));
    let overlapping = plan("9000x3000+2000x1000@1000+3000x1000@2000");
    assert!(same_corners(&overlapping, &plan("9000x3000+4000x1000@1000")));
}

#[test]
fn house_sides_are_found_by_either_name_and_refused_where_there_are_none() {
    let l = plan("7800x6000-3000x2400");
    assert_eq!(parse_sides("AB,CD", &l).unwrap(), [0, 2]);
    assert_eq!(parse_sides("ba; FA af", &l).unwrap(), [0, 5, 5]);
    let marked = l.clone().with_house_named("AB DE").unwrap();
    let house: Vec<usize> = (0..6).filter(|i| marked.sides()[*i].house).collect();
    assert_eq!(house, [0, 3]);
    let refusal = |text: &str| l.clone().with_house_named(text).unwrap_err().to_string();
    assert_snapshot!(refusal("AC"), @"there is no side `AC`: the sides are AB, BC, CD, DE, EF, FA");
    assert_snapshot!(refusal("AB,CD,EF,BC,DE,FA"), @"every side is marked as the house: leave at least one side to build");
    for text in ["A", "ABC", "AA", "Ab\u{301}", "GH", "ÄB"] {
        assert!(l.clone().with_house_named(text).is_err(), "{text}");
    }
}

/// The generator is a witness in other tests; it must itself cover the ground.
#[test]
fn the_random_outlines_reach_from_four_corners_to_twenty_six() {
    let mut seen = [0_usize; 27];
    for outline in outlines(1).take(4000) {
        seen[outline.len()] += 1;
    }
    for corners in (4..=26).step_by(2) {
        assert!(seen[corners] > 0, "{corners} corners: {seen:?}");
    }
}
