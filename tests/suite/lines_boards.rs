//! Lines, boards and faces of plans worked by hand.

use approx::assert_relative_eq;
use pegline::length::Units;
use pegline::lines::{BoardKind, Layer, Wall, Why};
use pegline::plan::{Footprint, parse_expression, parse_walk};

use crate::lines_nails::answer;

fn l() -> Footprint {
    let (footprint, _) = parse_expression("7800x6000-3000x2400", Units::Mm).unwrap();
    footprint.with_house_named("AB").unwrap()
}

fn cavity_wall() -> Wall {
    let layer = |name: &str, width| Layer { name: name.to_owned(), width };
    Wall {
        layers: vec![layer("skin", 102.0), layer("cavity", 50.0), layer("plate", 140.0)],
        outline: None,
        footing: Some(600.0),
        projection: None,
    }
}

/// By hand: 102 + 50 + 140 = 292 wide, its middle 146 inside the skin's face, so the footing stands 154 outside that
/// and the skin 152 outside the plate.
#[test]
fn a_cavity_wall_on_its_footing_is_marked_from_the_plates_face() {
    let faces = cavity_wall().faces().unwrap();
    assert_eq!(faces.outline, "plate outer");
    let told: Vec<(&str, f64, f64)> =
        faces.faces.iter().map(|face| (face.face.as_str(), face.offset.0, face.from_outermost.0)).collect();
    let by_hand = [
        ("footing outer", 306.0, 0.0),
        ("skin outer", 152.0, 154.0),
        ("skin inner", 50.0, 256.0),
        ("plate outer", 0.0, 306.0),
        ("plate inner", -140.0, 446.0),
        ("footing inner", -294.0, 600.0),
    ];
    assert_eq!(told, by_hand);
}

#[test]
fn the_outline_can_be_any_face() {
    for (outline, outermost) in [("skin", 154.0), ("skin inner", 256.0), ("Plate-Inner", 446.0)] {
        let wall = Wall { outline: Some(outline.to_owned()), ..cavity_wall() };
        assert_relative_eq!(wall.faces().unwrap().outermost(), outermost, epsilon = 1e-9);
    }
}

/// By hand, from the plan: BC ends 1000 past C and on the house at B; CD goes on over the footprint to 1000 past FA,
/// which is 5800 past D; DE goes back over it to the house.
#[test]
fn the_l_against_the_house_has_its_lines_where_they_are_by_hand() {
    let footprint = l();
    let answer = answer(&footprint, &cavity_wall(), 1000.0);
    let told: Vec<(&str, f64, f64, f64)> = answer
        .lines
        .iter()
        .map(|line| {
            (line.side.as_str(), line.string_length.0, line.boards[0].setback.0, line.boards[1].setback.0)
        })
        .collect();
    let by_hand = [
        ("BC", 4600.0, 0.0, 1000.0),
        ("CD", 9800.0, 1000.0, 5800.0),
        ("DE", 7000.0, 3600.0, 1000.0),
        ("EF", 6800.0, 1000.0, 1000.0),
        ("FA", 7000.0, 1000.0, 0.0),
    ];
    assert_eq!(told, by_hand);
    let house: Vec<bool> = answer
        .lines
        .iter()
        .flat_map(|line| line.boards.iter().map(|board| board.kind == BoardKind::HouseWall))
        .collect();
    assert_eq!(house, [true, false, false, false, true, false, false, false, false, true]);
    assert_eq!((answer.pegs, answer.string.lines), (14, 5));
}

/// By hand: the two rectangles of the L and the one round both; a nail in the house makes a corner of them.
#[test]
fn crossings_give_pairs_of_equal_diagonals() {
    let answer = answer(&l(), &Wall::default(), 1000.0);
    let told: Vec<(f64, f64)> =
        answer.checks.rectangles.iter().map(|part| (part.across.0, part.down.0)).collect();
    assert_eq!(told, [(7800.0, 3600.0), (4800.0, 6000.0), (4800.0, 2400.0)]);
    for part in &answer.checks.rectangles {
        assert_relative_eq!(
            part.diagonal.0.powi(2),
            part.across.0.powi(2) + part.down.0.powi(2),
            max_relative = 1e-12
        );
    }
}

#[test]
fn sides_on_one_line_share_a_string_and_its_boards() {
    let (footprint, _) = parse_expression("9000x3000+3600x2400", Units::Mm).unwrap();
    let answer = answer(&footprint, &Wall::default(), 1000.0);
    let line = |side: &str| answer.lines.iter().find(|line| line.side == side).unwrap();
    assert_eq!(line("CD").with, ["GH"]);
    assert_eq!(line("CD").boards, line("GH").boards);
    assert_relative_eq!(line("CD").string_length.0, 11_000.0, epsilon = 1e-9);
}

#[test]
fn a_house_between_two_sides_on_one_line_parts_their_strings() {
    // A U with the house in its mouth.
    let (footprint, _) = parse_expression("9000x3000+2400x2100@0+2400x2100@6600", Units::Mm).unwrap();
    let footprint = footprint.with_house_named("DE,EF,FG").unwrap();
    let answer = answer(&footprint, &Wall::default(), 1000.0);
    let line = |side: &str| answer.lines.iter().find(|line| line.side == side).unwrap();
    assert!(line("CD").with.is_empty());
    assert_eq!(line("CD").boards[1].kind, BoardKind::HouseWall);
    assert_eq!(line("GH").boards[0].kind, BoardKind::HouseWall);
}

#[test]
fn boards_in_a_square_notch_step_clear_of_each_others_lines() {
    let (footprint, _) = parse_expression("7800x6000-1000x1000", Units::Mm).unwrap();
    let answer = answer(&footprint, &Wall::default(), 1000.0);
    let line = |side: &str| answer.lines.iter().find(|line| line.side == side).unwrap();
    // Without moving, both would stand where the lines along BC and EF cross, 1000 from C and from E.
    assert!(line("BC").boards[1].setback.0 > 1300.0);
    assert!(line("EF").boards[0].setback.0 > 1300.0);
}

/// By hand: 1500 past E the board of EF would stand beside the leg that ends 1100 on at A, so it goes on.
#[test]
fn a_board_with_no_room_beside_the_building_says_past_which_corner_it_stands() {
    let (footprint, _) = parse_walk("3300 R 2500 R 4000 R 1400 R 700 L 1100", Units::Mm).unwrap();
    let footprint = footprint.with_house_named("AB").unwrap();
    let layer = |name: &str, width| Layer { name: name.to_owned(), width };
    let wall = Wall {
        layers: vec![layer("skin", 12.0), layer("cavity", 12.0), layer("plate", 102.0)],
        footing: Some(600.0),
        ..Wall::default()
    };
    let answer = answer(&footprint, &wall, 1500.0);
    let moved: Vec<(f64, &Option<Why>)> = answer
        .lines
        .iter()
        .flat_map(|line| &line.boards)
        .filter(|board| board.kind == BoardKind::Profile && (board.setback.0 - 1500.0).abs() > 1e-6)
        .map(|board| (board.setback.0, &board.why))
        .collect();
    assert!(!moved.is_empty());
    assert!(moved.iter().all(|(_, why)| why.is_some()), "{moved:?}");
}

/// By hand: 600 apart the boards of AB and CD, 600 long each, would touch end to end.
#[test]
fn boards_that_would_touch_end_to_end_are_one() {
    let (footprint, _) = parse_expression("5600x600", Units::Mm).unwrap();
    let answer = answer(&footprint, &Wall::default(), 1500.0);
    let line = |side: &str| answer.lines.iter().find(|line| line.side == side).unwrap();
    assert_eq!(line("AB").boards[0].label, line("CD").boards[1].label);
    let shared = answer.profiles.iter().find(|profile| profile.carries == ["AB", "CD"]).unwrap();
    assert_eq!((shared.length.0, answer.pegs), (1200.0, 12));
}

/// By hand, from the faces above: at B the footing and the skin stand outside the house wall's end.
#[test]
fn a_nail_past_the_end_of_the_house_wall_is_not_in_it() {
    let footprint = l();
    let answer = answer(&footprint, &cavity_wall(), 1000.0);
    let at_b = &answer.lines.iter().find(|line| line.side == "BC").unwrap().boards[0];
    let past: Vec<&str> =
        at_b.marks.iter().filter(|nail| nail.past_wall).map(|nail| nail.face.as_str()).collect();
    assert_eq!(past, ["footing outer", "skin outer", "skin inner"]);
}

/// By hand: a U round a house that goes back 1000 from its bar. What is strung along the legs' ends passes behind the
/// house, and from A to C, or B to D's end of it, the tape would go through: at x = 5294 it comes to the bar's underside.
#[test]
fn nothing_is_to_be_taped_between_the_strings_through_the_house() {
    let (footprint, _) = parse_expression("9000x3000+2400x2100@0+2400x2100@6600", Units::Mm).unwrap();
    let round_the_outside = |footprint: &Footprint| {
        let answer = answer(footprint, &Wall::default(), 1000.0);
        answer.checks.rectangles.iter().any(|part| (part.across.0, part.down.0) == (9000.0, 5100.0))
    };
    assert!(round_the_outside(&footprint));
    let house = footprint.with_house_named("EF").unwrap();
    assert!(!round_the_outside(&house.with_house_depth(1000.0)));
}
