//! Sides that can't be seen from outside, such as those of a notch that opens sideways: a short dimension line in front of each,
//! one for two alike that face each other, or a length with a leader where there is no room for a line.

use super::dimensions::{Measure, Row, TEXT_GAP, label, put};
use super::elements::Part;
use super::lettering::Lettering;
use super::place::{Candidate, Places, around};
use super::scene::Figure;
use super::view::Seen;

/// How far in front of its side a dimension line may be, mm, best first.
const OFFSETS: [f64; 3] = [6.0, 11.0, 16.0];
/// What it costs a length to leave a line that has the footprint round it.
const LEAVING: f64 = 25.0;
/// How near another's dimension line a length without one may stand, mm.
const NEAR: f64 = 2.0;
/// The least distance between two such lines side by side, mm.
const ROWS_APART: f64 = 4.0;

/// How a hidden side's length is given.
#[derive(Debug, Clone)]
pub(super) enum Hidden {
    /// On a dimension line.
    Line(Seen, Row),
    /// Beside the side, or off with a leader.
    Beside(Seen, Measure),
}

/// Chooses for every hidden side.
pub(super) fn hidden(sides: &[Seen], lettering: Lettering, measure: impl Fn(Seen) -> Measure) -> Vec<Hidden> {
    let mut chosen: Vec<Hidden> = vec![];
    let mut given: Vec<usize> = vec![];
    for seen in sides.iter().filter(|side| side.clearance.is_finite()) {
        if given.contains(&seen.side) {
            continue;
        }
        let mut length = measure(*seen);
        if let Some(other) = sides.iter().find(|other| face_each_other(*seen, **other)) {
            given.push(other.side);
            length.name = format!("{}, {}", length.name, measure(*other).name);
        }
        chosen.push(match row_at(*seen, &length, lettering, &chosen) {
            Some(out) => {
                Hidden::Line(*seen, Row { view: seen.view, out, measures: vec![length], leaving: LEAVING })
            }
            None => Hidden::Beside(*seen, length),
        });
    }
    chosen
}

/// Whether two sides run between the same two points across a gap with nothing in it.
fn face_each_other(one: Seen, other: Seen) -> bool {
    let same = |a: f64, b: f64| (a - b).abs() < 1e-6;
    // Out is measured the opposite way on the other side of the gap.
    one.view.0 == other.view.0.right().right()
        && same(one.from, other.from)
        && same(one.to, other.to)
        && same(one.clearance, other.clearance)
        && same(one.out + one.clearance, -other.out)
}

/// Where a dimension line in front of the side can go: with room for its text, and not upon another one.
fn row_at(seen: Seen, length: &Measure, lettering: Lettering, others: &[Hidden]) -> Option<f64> {
    if seen.span() < lettering.width(&length.text) + 1.0 {
        return None;
    }
    let beyond = if seen.view.above_is_out() { TEXT_GAP + lettering.height() + 1.0 } else { 1.5 };
    OFFSETS
        .into_iter()
        .filter(|offset| seen.clearance >= offset + beyond)
        .map(|offset| seen.out + offset)
        .find(|out| {
            let (x, y) = {
                let middle = seen.view.join(seen.mid(), *out);
                (middle.x, middle.y)
            };
            !others.iter().any(|other| match other {
                Hidden::Line(side, row) if side.view.0.is_across() == seen.view.0.is_across() => {
                    let there = side.view.join(side.mid(), row.out);
                    let apart = if seen.view.0.is_across() { there.y - y } else { there.x - x };
                    let overlap = side.to.min(seen.to) - side.from.max(seen.from);
                    apart.abs() < ROWS_APART && overlap > 0.0
                }
                Hidden::Beside(..) | Hidden::Line(..) => false,
            })
        })
}

/// Writes a hidden side's length as near to it as it goes, with a leader to its middle from farther off; nothing where no
/// place is found.
pub(super) fn beside(
    figure: &mut Figure,
    places: &mut Places,
    seen: Seen,
    length: &Measure,
    lettering: Lettering,
) -> Option<()> {
    let mut text = label(length, lettering, seen.view);
    let (width, height) = (text.frame.width, text.frame.height);
    let mut candidates = vec![];
    if width <= seen.span() && height + 1.0 <= seen.clearance {
        text.frame.middle = seen.view.join(seen.mid(), seen.out + TEXT_GAP + height / 2.0);
        // Not where it would be read as another's: on the dimension line of a side opposite.
        let near = text.frame.grown(NEAR).laid();
        let mut dimensions = figure.lines.iter().filter(|line| line.part == Part::Dimension);
        if !dimensions.any(|line| line.segments().any(|segment| near.is_crossed_by(segment))) {
            candidates.push(Candidate { frame: text.frame, leader: None, cost: 0.0 });
        }
    }
    let mut level = text.clone();
    level.frame.turn = 0.0;
    let at = seen.view.join(seen.mid(), seen.out);
    let out = seen.view.join(0.0, 1.0);
    candidates.extend(around(&level, at, out, 1.5, 0.0));
    put(figure, places, text, candidates)?;
    Some(())
}
