//! What is pegged out of a job: corners, offset corners, nails, pegs and anchors, by name.

use super::plates::anchors;
use super::profiles::board_ends;
use crate::geometry::Point;
use crate::job::Job;
use crate::lines::{BoardKind, Lines};
use crate::plan::Footprint;
use crate::plates::Plates;
use crate::sketch::{PointKind, SitePoint};

/// Corners, offset corners, nails, pegs and anchors, by name.
pub(super) fn points(
    job: &Job,
    footprint: &Footprint,
    lines: Option<&Lines>,
    plates: Option<&Plates>,
) -> Vec<SitePoint> {
    let mut points = vec![];
    let mut add = |kind: PointKind, name: String, at: Point| {
        points.push(SitePoint::new(kind, name, at, job.sketch.grid.as_ref()));
    };
    for corner in footprint.corners() {
        add(PointKind::Corner, corner.name.to_string(), corner.at);
    }
    if let Some(offset) = lines.and_then(|lines| lines.offset.as_ref()) {
        let by = job.units.figure(offset.by.0);
        let sign = if offset.by.0 > 0.0 { "+" } else { "" };
        for corner in &offset.corners {
            let at = Point::new(corner.x.0, corner.y.0);
            add(PointKind::Offset, format!("{}{sign}{by}", corner.name), at);
        }
    }
    let mut strung: Vec<&str> = vec![];
    for line in lines.iter().flat_map(|lines| &lines.lines) {
        // Sides on one line share its string and its nails.
        if line.with.iter().any(|side| strung.contains(&side.as_str())) {
            continue;
        }
        strung.push(&line.side);
        for board in &line.boards {
            for nail in &board.marks {
                let at = Point::new(nail.x.0, nail.y.0);
                add(PointKind::Nail, format!("{} {} {}", board.label, line.side, nail.face), at);
            }
        }
    }
    for profile in lines.iter().flat_map(|lines| &lines.profiles) {
        if profile.kind == BoardKind::Profile {
            let words = if profile.across { ["left", "right"] } else { ["upper", "lower"] };
            for (word, at) in words.into_iter().zip(board_ends(profile)) {
                add(PointKind::Peg, format!("{} {word} peg", profile.label), at);
            }
        }
    }
    for (anchor, mark) in plates.into_iter().flat_map(|plates| anchors(footprint, plates)) {
        let name = format!("{} {}", footprint.side_name(anchor.side), job.units.figure(mark));
        if let Some(at) = anchor.place(footprint) {
            add(PointKind::Anchor, name, at);
        }
    }
    points
}
