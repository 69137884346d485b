//! Boards and nails: the plan rebuilt from them alone, and nothing standing where it can't.

use approx::assert_relative_eq;
use geo::{Contains, Distance, Euclidean, Line, LineString, Polygon};
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::lines::{
    Board, BoardKind, Layer, Lines, LinesQuestion, StringLine, Wall, WallLine, Why, least_setback, lines,
    offset_outline,
};
use pegline::plan::{Footprint, Turn, parse_expression};
use proptest::collection::vec;
use proptest::prelude::*;

use crate::lines_random::{outlines, outlines_with_house};

fn answer(footprint: &Footprint, wall: &Wall, setback: f64) -> Lines {
    lines(&LinesQuestion {
        footprint,
        setback,
        wall,
        string: StringLine::default(),
        offset: None,
        marks: None,
        units: Units::Mm,
    })
    .unwrap()
}

/// Walls of one to four layers, on a footing or not, the outline any of the layers' outer faces.
fn walls() -> impl Strategy<Value = Wall> {
    (
        vec(20_u16..250, 1..5),
        any::<prop::sample::Index>(),
        prop::option::of(300_u16..900),
    )
        .prop_map(|(widths, outline, footing)| {
            let layers: Vec<Layer> = widths
                .iter()
                .enumerate()
                .map(|(i, width)| Layer {
                    name: format!("layer {i}"),
                    width: f64::from(*width),
                })
                .collect();
            Wall {
                outline: Some(layers[outline.index(layers.len())].name.clone()),
                layers,
                footing: footing.map(f64::from),
                projection: None,
            }
        })
}

/// Where the nail for the face `offset` from the outline stands.
fn nail(board: &Board, face: &str) -> Point {
    let mark = board.marks.iter().find(|mark| mark.face == face).unwrap();
    Point::new(mark.x.0, mark.y.0)
}

/// Where the lines through `a` and `b` cross.
fn crossing(a: [Point; 2], b: [Point; 2]) -> Point {
    let (d, e) = (
        (a[1].x - a[0].x, a[1].y - a[0].y),
        (b[1].x - b[0].x, b[1].y - b[0].y),
    );
    let t = ((b[0].x - a[0].x) * e.1 - (b[0].y - a[0].y) * e.0) / (d.0 * e.1 - d.1 * e.0);
    Point::new(a[0].x + t * d.0, a[0].y + t * d.1)
}

fn string(line: &WallLine, face: &str) -> [Point; 2] {
    [nail(&line.boards[0], face), nail(&line.boards[1], face)]
}

/// The corner between the sides `before` and `after` from the strings alone, or from nails in the house at the corner;
/// `None` where both sides are the house's, or where the string goes on past a house side that it meets from within.
fn rebuilt(answer: &Lines, before: &str, after: &str, face: &str) -> Option<Point> {
    let find = |side: &str| answer.lines.iter().find(|line| line.side == side);
    let end = match (find(before), find(after)) {
        (Some(one), Some(other)) => return Some(crossing(string(one, face), string(other, face))),
        (Some(line), None) => &line.boards[1],
        (None, Some(line)) => &line.boards[0],
        (None, None) => return None,
    };
    let at_corner = end.kind == BoardKind::HouseWall && end.setback.0 < 1e-9;
    at_corner.then(|| nail(end, face))
}

fn polygon(footprint: &Footprint) -> Polygon<f64> {
    let ring: LineString<f64> = footprint.points().iter().map(|p| (p.x, p.y)).collect();
    Polygon::new(ring, vec![])
}

fn side_before(footprint: &Footprint, corner: usize) -> String {
    footprint.side_name((corner + footprint.len() - 1) % footprint.len())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn the_plan_comes_back_from_boards_and_marks_alone(
        footprint in outlines_with_house(), wall in walls(), more in 0_u16..2000
    ) {
        let faces = wall.faces().unwrap();
        let answer = answer(&footprint, &wall, least_setback(&faces) + f64::from(more));
        for (i, corner) in footprint.corners().iter().enumerate() {
            let (arrives, leaves) = footprint.sides_at(i);
            let house = [arrives, leaves].map(|side| footprint.sides()[side].house);
            let Some(found) = rebuilt(&answer, &side_before(&footprint, i), &footprint.side_name(i), &faces.outline)
            else {
                prop_assert!(house == [true, true] || (house != [false, false] && corner.turn == Turn::Inward));
                continue;
            };
            assert_relative_eq!(found.x, corner.at.x, epsilon = 1e-9);
            assert_relative_eq!(found.y, corner.at.y, epsilon = 1e-9);
        }
    }

    #[test]
    fn every_face_strung_gives_the_outline_held_off_by_its_offset(footprint in outlines(), wall in walls()) {
        let faces = wall.faces().unwrap();
        let answer = answer(&footprint, &wall, least_setback(&faces));
        for face in faces.faces.iter().filter(|face| face.offset.0.abs() > 1e-9) {
            let Ok(offset) = offset_outline(&footprint, face.offset.0, Units::Mm) else { continue };
            for (i, corner) in offset.corners.iter().enumerate() {
                let (before, after) = (side_before(&footprint, i), footprint.side_name(i));
                let found = rebuilt(&answer, &before, &after, &face.face).unwrap();
                assert_relative_eq!(found.x, corner.x.0, epsilon = 1e-9);
                assert_relative_eq!(found.y, corner.y.0, epsilon = 1e-9);
            }
        }
    }

    #[test]
    fn no_board_stands_in_the_dig_or_on_another_lines_run(
        footprint in outlines_with_house(), wall in walls(), more in 0_u16..2000
    ) {
        let faces = wall.faces().unwrap();
        let answer = answer(&footprint, &wall, least_setback(&faces) + f64::from(more));
        let dig = polygon(&footprint);
        for line in &answer.lines {
            for board in line.boards.iter().filter(|board| board.kind == BoardKind::Profile) {
                // Where there is no room at all the answer says so.
                if matches!(board.why, Some(Why::Narrow | Why::Under(_))) {
                    continue;
                }
                let ends = [board.marks.first().unwrap(), board.marks.last().unwrap()];
                let [a, b] = ends.map(|mark| geo::Coord { x: mark.x.0, y: mark.y.0 });
                let on_board = Line::new(a, b);
                prop_assert!(!dig.contains(&geo::Point(a)));
                let clear = Euclidean.distance(&on_board, &dig);
                prop_assert!(clear >= faces.outermost() - 1e-6, "{} of {} is {clear} from the outline", board.label, line.side);
                for other in answer.lines.iter().filter(|other| {
                    other.side != line.side && other.boards.iter().all(|end| end.label != board.label)
                }) {
                    for face in &faces.faces {
                        let [p, q] = string(other, &face.face).map(|p| geo::Coord { x: p.x, y: p.y });
                        let gap = Euclidean.distance(&Line::new(p, q), &on_board);
                        prop_assert!(
                            gap > 1.0,
                            "{} of {} is {gap} from the {} string of {}",
                            board.label, line.side, face.face, other.side
                        );
                    }
                }
            }
        }
    }

    #[test]
    fn strings_are_as_long_as_from_nail_to_nail_and_counted_once(footprint in outlines_with_house()) {
        let wall = Wall::default();
        let answer = answer(&footprint, &wall, 1000.0);
        let mut total = 0.0;
        for (i, line) in answer.lines.iter().enumerate() {
            let [a, b] = string(line, "outline");
            assert_relative_eq!(line.string_length.0, a.distance(b), epsilon = 1e-9);
            let seen = answer.lines[..i].iter().any(|before| line.with.contains(&before.side));
            if !seen {
                total += line.string_length.0;
            }
        }
        assert_relative_eq!(answer.string.length.0, total, epsilon = 1e-6);
        let lines = footprint.sides().iter().filter(|side| !side.house).count();
        prop_assert_eq!(answer.lines.len(), lines);
    }
}

fn l() -> Footprint {
    let (footprint, _) = parse_expression("7800x6000-3000x2400", Units::Mm).unwrap();
    footprint.with_house_named("AB").unwrap()
}

fn cavity_wall() -> Wall {
    let layer = |name: &str, width| Layer {
        name: name.to_owned(),
        width,
    };
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
    let told: Vec<(&str, f64, f64)> = faces
        .faces
        .iter()
        .map(|face| (face.face.as_str(), face.offset.0, face.from_outermost.0))
        .collect();
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
        let wall = Wall {
            outline: Some(outline.to_owned()),
            ..cavity_wall()
        };
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
            (
                line.side.as_str(),
                line.string_length.0,
                line.boards[0].setback.0,
                line.boards[1].setback.0,
            )
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
    assert_eq!(
        house,
        [true, false, false, false, true, false, false, false, false, true]
    );
    assert_eq!((answer.pegs, answer.string.lines), (14, 5));
}

/// By hand: the two rectangles of the L and the one round both; a nail in the house makes a corner of them.
#[test]
fn crossings_give_pairs_of_equal_diagonals() {
    let answer = answer(&l(), &Wall::default(), 1000.0);
    let told: Vec<(f64, f64)> = answer
        .checks
        .rectangles
        .iter()
        .map(|part| (part.across.0, part.down.0))
        .collect();
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
