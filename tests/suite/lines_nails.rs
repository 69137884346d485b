//! Boards and nails: the plan rebuilt from them alone, and nothing standing where it can't.

use approx::assert_relative_eq;
use geo::{Contains, Distance, Euclidean, Line, LineString, Polygon};
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::lines::{
    Board, BoardKind, Layer, Lines, LinesQuestion, StringLine, Wall, WallLine, Why, least_setback, lines,
    offset_outline,
};
use pegline::plan::{Footprint, Turn};
use proptest::collection::vec;
use proptest::prelude::*;

use crate::lines_random::{outlines, outlines_with_house};
use crate::site::{buried, masonry, with_depth};

/// Lines with the default string and nothing else asked for.
pub(crate) fn answer(footprint: &Footprint, wall: &Wall, setback: f64) -> Lines {
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
    (vec(20_u16..250, 1..5), any::<prop::sample::Index>(), prop::option::of(300_u16..900)).prop_map(
        |(widths, outline, footing)| {
            let layers: Vec<Layer> = widths
                .iter()
                .enumerate()
                .map(|(i, width)| Layer { name: format!("layer {i}"), width: f64::from(*width) })
                .collect();
            Wall {
                outline: Some(layers[outline.index(layers.len())].name.clone()),
                layers,
                footing: footing.map(f64::from),
                projection: None,
            }
        },
    )
}

/// Where the nail for the face `offset` from the outline stands.
fn nail(board: &Board, face: &str) -> Point {
    let mark = board.marks.iter().find(|mark| mark.face == face).unwrap();
    Point::new(mark.x.0, mark.y.0)
}

/// Where the lines through `a` and `b` cross.
fn crossing(a: [Point; 2], b: [Point; 2]) -> Point {
    let (d, e) = ((a[1].x - a[0].x, a[1].y - a[0].y), (b[1].x - b[0].x, b[1].y - b[0].y));
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
    let corner = before.chars().last().unwrap().to_string();
    let at_corner = end.kind == BoardKind::HouseWall && end.at == corner && end.setback.0 < 1e-9;
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
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn the_plan_comes_back_from_boards_and_marks_alone(
        footprint in outlines_with_house(), wall in walls(), more in 0_u16..2000
    ) {
        let faces = wall.faces().unwrap();
        let answer = answer(&footprint, &wall, least_setback(&faces, Units::Mm) + f64::from(more));
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
        let answer = answer(&footprint, &wall, least_setback(&faces, Units::Mm));
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
        let answer = answer(&footprint, &wall, least_setback(&faces, Units::Mm) + f64::from(more));
        let dig = polygon(&footprint);
        for line in &answer.lines {
            for board in line.boards.iter().filter(|board| board.kind == BoardKind::Profile) {
                // Where there is no room at all the answer says so.
                if matches!(board.why, Some(Why::Narrow | Why::Under(_))) {
                    // Only a house can leave no room: without one there is open ground all round.
                    prop_assert!(footprint.sides().iter().any(|side| side.house));
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
    fn a_board_stands_at_the_setback_or_says_why_it_does_not(
        footprint in outlines_with_house(), wall in walls(), more in 0_u16..2000
    ) {
        let setback = least_setback(&wall.faces().unwrap(), Units::Mm) + f64::from(more);
        for line in answer(&footprint, &wall, setback).lines {
            for board in line.boards.iter().filter(|board| board.kind == BoardKind::Profile) {
                let moved = (board.setback.0 - setback).abs() > 1e-6;
                prop_assert!(!moved || board.why.is_some(), "{} of {}: {}", board.label, line.side, board.setback.0);
            }
        }
    }

    #[test]
    fn boards_in_one_line_are_one_board_or_have_room_for_their_pegs_between_them(
        footprint in outlines_with_house(), wall in walls(), more in 0_u16..2000
    ) {
        let faces = wall.faces().unwrap();
        let answer = answer(&footprint, &wall, least_setback(&faces, Units::Mm) + f64::from(more));
        // Outward and inward of the outline's nail: 150 mm past the last nail, and no board under 600 mm.
        let (outer, inner) = ((faces.outermost() + 150.0).max(300.0), (faces.innermost() + 150.0).max(300.0));
        let mut boards: Vec<(&str, bool, f64, [f64; 2])> = vec![];
        for board in answer.lines.iter().flat_map(|line| &line.boards) {
            let at = nail(board, &faces.outline);
            let (line, along, out) = match board.outward {
                "up" => (at.x, at.y, -1.0),
                "down" => (at.x, at.y, 1.0),
                "left" => (at.y, at.x, -1.0),
                _ => (at.y, at.x, 1.0),
            };
            let ends = [along + out * outer, along - out * inner];
            if board.kind == BoardKind::Profile && !matches!(board.why, Some(Why::Narrow | Why::Under(_))) {
                let upright = matches!(board.outward, "up" | "down");
                boards.push((&board.label, upright, line, [ends[0].min(ends[1]), ends[0].max(ends[1])]));
            }
        }
        for (i, (label, upright, line, span)) in boards.iter().enumerate() {
            for other in &boards[i + 1..] {
                let gap = span[0].max(other.3[0]) - span[1].min(other.3[1]);
                let in_line = *upright == other.1 && (line - other.2).abs() < 1e-6;
                prop_assert!(*label == other.0 || !in_line || gap >= 100.0 - 1e-6, "{label}, {}: {gap}", other.0);
            }
        }
    }

    /// Source: the `geo` crate's distance to the masonry that its own unions and differences make.
    #[test]
    fn a_nail_is_in_the_house_wall_just_where_the_masonry_is(footprint in with_depth(), wall in walls()) {
        let faces = wall.faces().unwrap();
        let masonry = masonry(&footprint);
        for line in answer(&footprint, &wall, least_setback(&faces, Units::Mm)).lines {
            for board in &line.boards {
                for mark in &board.marks {
                    let away = Euclidean.distance(&geo::Point::new(mark.x.0, mark.y.0), &masonry);
                    let past = board.kind == BoardKind::HouseWall && away > 1e-6;
                    prop_assert_eq!(mark.past_wall, past, "{} {}: {}", board.label, &mark.face, away);
                }
            }
        }
    }

    /// Source: the `geo` crate's clip of each board to the masonry.
    #[test]
    fn no_board_stands_in_the_house(footprint in with_depth(), wall in walls(), more in 0_u16..2000) {
        let masonry = masonry(&footprint);
        let setback = least_setback(&wall.faces().unwrap(), Units::Mm) + f64::from(more);
        for line in answer(&footprint, &wall, setback).lines {
            for board in line.boards.iter().filter(|board| board.kind == BoardKind::Profile) {
                let whole = !matches!(board.why, Some(Why::Narrow | Why::Under(_)));
                let [a, b] = [&board.marks[0], &board.marks[board.marks.len() - 1]]
                    .map(|mark| Point::new(mark.x.0, mark.y.0));
                prop_assert!(!whole || buried(&masonry, a, b) < 1e-2, "{} of {}", board.label, line.side);
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
