//! The profiles as they are drawn: boards with the nails of the outline's own lines, and those lines.

use crate::geometry::Point;
use crate::lines::{Board, BoardKind, Lines, Profile};
use crate::plan::{Footprint, SAME_PLACE};
use crate::sketch::{ProfileBoard, StringLine};

/// The boards with the nails of the outline's own lines and how far each stands off, and those lines.
pub(super) fn profiles(footprint: &Footprint, lines: &Lines) -> (Vec<ProfileBoard>, Vec<StringLine>) {
    let mut boards: Vec<ProfileBoard> = lines
        .profiles
        .iter()
        .map(|profile| {
            let [from, to] = board_ends(profile);
            ProfileBoard { label: profile.label.clone(), from, to, nails: vec![], off: None }
        })
        .collect();
    let mut strings: Vec<StringLine> = vec![];
    for line in &lines.lines {
        let [Some(from), Some(to)] = line.boards.each_ref().map(outline_nail) else {
            continue;
        };
        // Sides on one line share a string, walked either way.
        let known = strings.iter().any(|s| same(s.from, s.to, from, to) || same(s.to, s.from, from, to));
        if known {
            continue;
        }
        strings.push(StringLine { from, to });
        for (end, at, toward) in [(&line.boards[0], from, to), (&line.boards[1], to, from)] {
            if let Some(board) = boards.iter_mut().find(|board| board.label == end.label) {
                board.nails.push(at);
                if end.kind == BoardKind::Profile {
                    board.off = off(footprint, at, toward);
                }
            }
        }
    }
    (boards, strings)
}

/// The two ends of a board, the left or upper one first; nails in a wall have one place.
pub(super) fn board_ends(profile: &Profile) -> [Point; 2] {
    let half = profile.length.0 / 2.0;
    let (dx, dy) = if profile.across { (half, 0.0) } else { (0.0, half) };
    let (x, y) = (profile.x.0, profile.y.0);
    [Point::new(x - dx, y - dy), Point::new(x + dx, y + dy)]
}

/// How far it is from `at` along the string to the outline, mm.
fn off(footprint: &Footprint, at: Point, toward: Point) -> Option<f64> {
    let length = at.distance(toward);
    let step = Point::new((toward.x - at.x) / length, (toward.y - at.y) / length);
    // Along the string, and aside from it.
    let seen = |p: Point| {
        let (dx, dy) = (p.x - at.x, p.y - at.y);
        (dx * step.x + dy * step.y, dx * step.y - dy * step.x)
    };
    let corners = footprint.corners();
    let reached = footprint.sides().iter().filter_map(|side| {
        let ((along, aside), (other, beyond)) = (seen(corners[side.from].at), seen(corners[side.to].at));
        let met = aside.min(beyond) < SAME_PLACE && aside.max(beyond) > -SAME_PLACE;
        met.then_some(along.min(other))
    });
    reached.min_by(f64::total_cmp)
}

fn same(a: Point, b: Point, c: Point, d: Point) -> bool {
    a.distance(c) < SAME_PLACE && b.distance(d) < SAME_PLACE
}

/// The nail of the face nearest the outline: at the scale of a sheet the faces' nails would be one blot.
fn outline_nail(board: &Board) -> Option<Point> {
    let nearest = board.marks.iter().min_by(|a, b| a.offset.0.abs().total_cmp(&b.offset.0.abs()))?;
    Some(Point::new(nearest.x.0, nearest.y.0))
}
