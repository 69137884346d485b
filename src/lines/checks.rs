//! What to tape between the strings: distances between parallel ones, equal diagonals at the crossings.

use schemars::JsonSchema;
use serde::Serialize;

use super::ground::Ground;
use super::runs::Run;
use crate::geometry::{Mm, Point};
use crate::plan::{Footprint, Lies, SAME_PLACE, Site};

/// The distance between two parallel lines.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Between {
    /// The first sides of the two lines; a house side stands for the house wall itself.
    pub lines: [String; 2],
    /// The distance, mm, on the outline's face; the same all along.
    pub distance: Mm,
    /// For how much of their length the two run side by side, mm: tape it at both ends of that.
    pub alongside: Mm,
}

/// Four crossings at the corners of a rectangle.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct CheckRectangle {
    /// The crossings clockwise from the top left: a corner's letter, or the two lines.
    pub crossings: [String; 4],
    /// The size across, mm.
    pub across: Mm,
    /// The size down, mm.
    pub down: Mm,
    /// Both diagonals, mm.
    pub diagonal: Mm,
}

/// What proves the strings, on the outline's face.
#[derive(Debug, Clone, PartialEq, Default, JsonSchema, Serialize)]
pub struct Checks {
    /// The distances between parallel lines.
    pub parallel: Vec<Between>,
    /// Rectangles of crossings, whose two diagonals must be alike.
    pub rectangles: Vec<CheckRectangle>,
}

/// A string, or a house wall that strings end on.
struct Line {
    name: String,
    house: bool,
    /// Its x or y, mm.
    at: f64,
    /// From where to where, mm.
    from: f64,
    to: f64,
}

/// The checks of the strings that can be taped: none of them through the house.
pub(super) fn checks(ground: &Ground<'_>, runs: &[Run]) -> Checks {
    let footprint = ground.footprint;
    let across = lines(footprint, runs, true);
    let down = lines(footprint, runs, false);
    Checks {
        parallel: [(&across, true), (&down, false)]
            .into_iter()
            .flat_map(|(set, across)| parallel(&ground.site, set, across))
            .collect(),
        rectangles: rectangles(ground, &across, &down),
    }
}

/// The lines that run across the page, or down it, from the top or the left.
fn lines(footprint: &Footprint, runs: &[Run], across: bool) -> Vec<Line> {
    let line = |a: Point, b: Point, name: String, house: bool| {
        let (at, from, to) = if across { (a.y, a.x, b.x) } else { (a.x, a.y, b.y) };
        Line { name, house, at, from: from.min(to), to: from.max(to) }
    };
    let strings = runs.iter().filter(|run| run.heading.is_across() == across).map(|run| {
        let name = footprint.side_name(run.sides[0]);
        line(run.end_at(footprint, 0), run.end_at(footprint, 1), name, false)
    });
    let house = footprint
        .sides()
        .iter()
        .enumerate()
        .filter(|(_, side)| side.house && side.heading.is_across() == across)
        .map(|(i, side)| {
            let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
            line(a, b, footprint.side_name(i), true)
        });
    let mut lines: Vec<Line> = strings.chain(house).collect();
    lines.sort_by(|a, b| a.at.total_cmp(&b.at).then_with(|| a.name.cmp(&b.name)));
    lines
}

fn parallel(site: &Site, lines: &[Line], across: bool) -> Vec<Between> {
    let mut found = vec![];
    for (i, first) in lines.iter().enumerate() {
        for second in &lines[i + 1..] {
            let (from, to) = (first.from.max(second.from), first.to.min(second.to));
            let alongside = to - from;
            let distance = second.at - first.at;
            if !(first.house && second.house)
                && distance > SAME_PLACE
                && alongside > SAME_PLACE
                && some_way_clear(site, (first.at, second.at), (from, to), across)
            {
                found.push(Between {
                    lines: [first.name.clone(), second.name.clone()],
                    distance: Mm(distance),
                    alongside: Mm(alongside),
                });
            }
        }
    }
    found
}

/// Whether there is a place from `from` to `to` along two lines at which a tape from one to the other is clear of the
/// house.
fn some_way_clear(site: &Site, between: (f64, f64), (from, to): (f64, f64), across: bool) -> bool {
    let mut cuts: Vec<f64> = site.cuts(!across).filter(|cut| from < *cut && *cut < to).collect();
    cuts.extend([from, to]);
    cuts.sort_by(f64::total_cmp);
    cuts.windows(2).any(|pair| {
        let along = f64::midpoint(pair[0], pair[1]);
        let at = |off: f64| if across { Point::new(along, off) } else { Point::new(off, along) };
        site.lies(at(between.0), at(between.1)) != Lies::Blocked
    })
}

/// Whether the two cross, or one ends on the other: a string ends on the house wall.
fn cross(across: &Line, down: &Line) -> bool {
    let within = |at: f64, line: &Line| at >= line.from - SAME_PLACE && at <= line.to + SAME_PLACE;
    !(across.house && down.house) && within(down.at, across) && within(across.at, down)
}

/// For each two lines across the page, the widest rectangle that two lines down it make with them; then the same the
/// other way for lines that no rectangle has yet.
fn rectangles(ground: &Ground<'_>, across: &[Line], down: &[Line]) -> Vec<CheckRectangle> {
    let mut found = vec![];
    let mut used = vec![false; down.len()];
    for (top, upper) in across.iter().enumerate() {
        for lower in across[top + 1..].iter().filter(|lower| lower.at - upper.at > SAME_PLACE) {
            let both: Vec<usize> =
                (0..down.len()).filter(|i| cross(upper, &down[*i]) && cross(lower, &down[*i])).collect();
            if let (Some(left), Some(right)) = (both.first(), both.last())
                && down[*right].at - down[*left].at > SAME_PLACE
            {
                (used[*left], used[*right]) = (true, true);
                found.extend(rectangle(ground, [upper, lower], [&down[*left], &down[*right]]));
            }
        }
    }
    for (i, left) in down.iter().enumerate() {
        for (j, right) in down.iter().enumerate().skip(i + 1) {
            if (used[i] && used[j]) || right.at - left.at <= SAME_PLACE {
                continue;
            }
            let both: Vec<&Line> =
                across.iter().filter(|line| cross(line, left) && cross(line, right)).collect();
            if let (Some(upper), Some(lower)) = (both.first(), both.last())
                && lower.at - upper.at > SAME_PLACE
            {
                (used[i], used[j]) = (true, true);
                found.extend(rectangle(ground, [*upper, *lower], [left, right]));
            }
        }
    }
    found
}

/// The rectangle that four lines make; nothing where the house stands in one of its diagonals.
fn rectangle(
    ground: &Ground<'_>,
    [top, bottom]: [&Line; 2],
    [left, right]: [&Line; 2],
) -> Option<CheckRectangle> {
    let at = |across: &Line, down: &Line| Point::new(down.at, across.at);
    let diagonals = [(at(top, left), at(bottom, right)), (at(top, right), at(bottom, left))];
    if diagonals.iter().any(|(a, b)| ground.site.lies(*a, *b) == Lies::Blocked) {
        return None;
    }
    let name = |across: &Line, down: &Line| {
        let corners = ground.footprint.corners();
        corners
            .iter()
            .find(|corner| corner.at.distance(at(across, down)) <= SAME_PLACE)
            .map_or_else(|| format!("{}×{}", across.name, down.name), |corner| corner.name.to_string())
    };
    let (width, depth) = (right.at - left.at, bottom.at - top.at);
    Some(CheckRectangle {
        crossings: [name(top, left), name(top, right), name(bottom, right), name(bottom, left)],
        across: Mm(width),
        down: Mm(depth),
        diagonal: Mm(width.hypot(depth)),
    })
}
