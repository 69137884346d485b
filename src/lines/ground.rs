//! What lies ahead of a line: footprint, house, or ground that a board can stand on.

use crate::geometry::Point;
use crate::plan::{Footprint, Heading, Place, SAME_PLACE, Site};

/// The outline and what lies round it.
pub(super) struct Ground<'a> {
    pub(super) footprint: &'a Footprint,
    pub(super) site: Site,
}

impl<'a> Ground<'a> {
    pub(super) fn of(footprint: &'a Footprint) -> Self {
        Self { footprint, site: Site::of(footprint) }
    }
}

/// A stretch of a line ahead of a corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    /// Where it begins, mm ahead of the corner.
    pub(super) from: f64,
    /// Where it ends, mm; infinite for the last.
    pub(super) to: f64,
    /// The existing house stands there.
    pub(super) house: bool,
    /// A board across the line can stand there, for all its length.
    pub(super) open: bool,
}

/// What a board takes up across its line, mm, facing the way the line goes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Span {
    /// To the left of the line.
    pub(super) left: f64,
    /// To the right of it.
    pub(super) right: f64,
    /// How far beside the footprint the dig goes, where no board stands either.
    pub(super) dig: f64,
}

/// The stretches ahead of `from` in direction `heading`, in order, alike neighbours joined.
pub(super) fn ahead(ground: &Ground<'_>, from: Point, heading: Heading, span: Span) -> Vec<Stretch> {
    let site = &ground.site;
    let along = heading.step();
    let across = heading.right().step();
    let cuts = |step: (f64, f64)| -> Vec<f64> {
        let (down, sign, start) =
            if step.0 == 0.0 { (true, step.1, from.y) } else { (false, step.0, from.x) };
        let mut all: Vec<f64> = site.cuts(down).map(|cut| (cut - start) * sign).collect();
        all.sort_by(f64::total_cmp);
        all
    };
    let cuts_across = cuts(across);
    let board = strips(&cuts_across, span.left, span.right);
    let with_dig = strips(&cuts_across, span.left + span.dig, span.right + span.dig);
    let mut starts: Vec<f64> = cuts(along).into_iter().filter(|t| *t > SAME_PLACE).collect();
    starts.insert(0, 0.0);
    let mut stretches: Vec<Stretch> = vec![];
    for (i, start) in starts.iter().enumerate() {
        let end = starts.get(i + 1).copied();
        let middle = end.map_or(start + 1.0, |end| f64::midpoint(*start, end));
        let place = |side: f64| {
            site.at(Point::new(
                from.x + along.0 * middle + across.0 * side,
                from.y + along.1 * middle + across.1 * side,
            ))
        };
        let next = Stretch {
            from: *start,
            to: end.unwrap_or(f64::INFINITY),
            house: board.iter().any(|strip| strip.beside && place(strip.at) == Place::House),
            open: board.iter().all(|strip| place(strip.at) == Place::Ground)
                && with_dig.iter().all(|strip| place(strip.at) != Place::Footprint),
        };
        match stretches.last_mut() {
            Some(last) if (last.house, last.open) == (next.house, next.open) => last.to = next.to,
            _ => stretches.push(next),
        }
    }
    stretches
}

/// A strip of the page along the line, by its middle: mm to the right of the line.
struct Strip {
    at: f64,
    /// The line runs along its edge or through it.
    beside: bool,
}

/// The strips between the page's cuts that a board from `-left` to `right` reaches over.
fn strips(cuts: &[f64], left: f64, right: f64) -> Vec<Strip> {
    let inside: Vec<f64> =
        cuts.iter().copied().filter(|cut| *cut > -left + SAME_PLACE && *cut < right - SAME_PLACE).collect();
    let mut edges = vec![-left];
    edges.extend(inside);
    edges.push(right);
    edges
        .windows(2)
        .map(|pair| Strip {
            at: f64::midpoint(pair[0], pair[1]),
            beside: pair[0] <= SAME_PLACE && pair[1] >= -SAME_PLACE,
        })
        .collect()
}

/// The side square to `heading` that a line from `from` crosses `ahead` mm on, or touches the end of.
pub(super) fn crossed_at(footprint: &Footprint, from: Point, heading: Heading, ahead: f64) -> Option<usize> {
    let (dx, dy) = heading.step();
    let at = Point::new(from.x + dx * ahead, from.y + dy * ahead);
    footprint.sides().iter().position(|side| {
        let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
        side.heading.is_across() != heading.is_across()
            && (a.distance(at) + at.distance(b) - side.length).abs() <= SAME_PLACE
    })
}

/// The corner level with the place that a line from `from` comes to `ahead` mm on: of several the nearest to the line.
pub(super) fn level_with(footprint: &Footprint, from: Point, heading: Heading, ahead: f64) -> String {
    let ((dx, dy), (rx, ry)) = (heading.step(), heading.right().step());
    let off = |p: Point| ((p.x - from.x) * rx + (p.y - from.y) * ry).abs();
    let level = footprint.corners().iter().filter(|corner| {
        ((corner.at.x - from.x) * dx + (corner.at.y - from.y) * dy - ahead).abs() <= SAME_PLACE
    });
    level.min_by(|a, b| off(a.at).total_cmp(&off(b.at))).map_or_else(String::new, |c| c.name.to_string())
}
