//! Every check size by hand.

use crate::board::pythagoras;
use crate::geometry::Point;
use crate::length::Units;
use crate::page::Steps;
use crate::plan::Footprint;
use crate::square::{Diagonal, Diagonals, RectanglePart};

/// The rectangles' triangles, then every diagonal.
pub(crate) fn steps(answer: &Diagonals, footprint: &Footprint, units: Units) -> Vec<Steps> {
    let rectangles = answer.rectangles.iter().enumerate().map(|(i, part)| Steps {
        title: format!("Rectangle {}, {}: two right triangles alike", i + 1, corner_list(part, units)),
        steps: pythagoras(units, ("across", part.across.0), ("down", part.down.0), "diagonal"),
    });
    let diagonals = answer.diagonals.iter().map(|diagonal| {
        let legs = |across: bool| leg(footprint, &diagonal.from, &diagonal.to, across, units);
        Steps {
            title: way(footprint, diagonal, units),
            steps: pythagoras(
                units,
                (&format!("across{}", legs(true)), diagonal.across.0),
                (&format!("down{}", legs(false)), diagonal.down.0),
                &diagonal.name,
            ),
        }
    });
    rectangles.chain(diagonals).collect()
}

/// The title of a diagonal's working: how to walk its two legs.
fn way(footprint: &Footprint, diagonal: &Diagonal, units: Units) -> String {
    let at = |name: &str| {
        let index = name.chars().next().and_then(|letter| footprint.corner_index(letter));
        index.map_or_else(Point::default, |i| footprint.corners()[i].at)
    };
    let (from, to) = (at(&diagonal.from), at(&diagonal.to));
    format!(
        "{}: from {} {} to the {}, then {} {} to {}",
        diagonal.name,
        diagonal.from,
        units.with_unit(diagonal.across.0),
        if to.x > from.x { "right" } else { "left" },
        units.with_unit(diagonal.down.0),
        if to.y > from.y { "down" } else { "up" },
        diagonal.to
    )
}

fn corner_list(part: &RectanglePart, units: Units) -> String {
    let names: Vec<String> = part.corners.iter().map(|vertex| vertex.words(units)).collect();
    names.join(", ")
}

/// Which sides make up a leg: ` = AB − CD`, the shorter way round the outline; nothing where it is no clearer.
fn leg(footprint: &Footprint, from: &str, to: &str, across: bool, units: Units) -> String {
    let index = |name: &str| name.chars().next().and_then(|letter| footprint.corner_index(letter));
    let (Some(from), Some(to)) = (index(from), index(to)) else {
        return String::new();
    };
    let n = footprint.len();
    let way = |start: usize, end: usize| -> Vec<usize> {
        (0..n)
            .map(|i| (start + i) % n)
            .take_while(|i| *i != end)
            .filter(|i| footprint.sides()[*i].heading.is_across() == across)
            .collect()
    };
    let (there, back) = (way(from, to), way(to, from));
    let sides = if back.len() < there.len() { back } else { there };
    let forward = |i: usize| {
        let (dx, dy) = footprint.sides()[i].heading.step();
        dx + dy > 0.0
    };
    let total: f64 =
        sides.iter().map(|i| if forward(*i) { 1.0 } else { -1.0 } * footprint.sides()[*i].length).sum();
    // Start with a side that adds, so that the board shows 7800 − 3000 and not −3000 + 7800.
    let mut ordered = sides.clone();
    ordered.sort_by_key(|i| forward(*i) != (total > 0.0));
    let terms = ordered.iter().enumerate().map(|(place, i)| {
        let sign = match (place, forward(*i) == (total > 0.0)) {
            (0, _) => "=",
            (_, true) => "+",
            (_, false) => "−",
        };
        format!(" {sign} {} {}", footprint.side_name(*i), units.figure(footprint.sides()[*i].length))
    });
    let text: String = terms.collect();
    if sides.len() == 1 { format!(" = {}", footprint.side_name(sides[0])) } else { text }
}
