//! The outline and what lies on it and round it, as lines.

use super::drawing::{CheckUse, Drawing};
use super::elements::{Line, Mark, Part, Pen};
use super::scene::Figure;
use super::view::Seen;
use crate::geometry::Point;

/// How deep the hatching behind a house side is, mm.
const HATCH_DEPTH: f64 = 4.0;
/// The distance between hatching lines, mm across and down.
const HATCH_STEP: f64 = 2.0;
/// How far a jamb's stroke reaches to either side, mm.
const JAMB: f64 = 1.4;
/// Radius of an anchor's circle, mm.
pub(super) const ANCHOR: f64 = 0.7;

/// Draws everything but dimensions and texts. Points of plan are scaled by `per_mm`.
pub(super) fn draw(figure: &mut Figure, drawing: &Drawing, sides: &[Seen], per_mm: f64) {
    let paper = |p: Point| Point::new(p.x * per_mm, p.y * per_mm);
    for seen in sides {
        if drawing.footprint.sides()[seen.side].house {
            hatch(figure, drawing, *seen);
        }
    }
    for string in &drawing.strings {
        let ends = vec![paper(string.from), paper(string.to)];
        figure.lines.push(Line::new(Part::String, Pen::DoubleChain, ends));
    }
    for (name, from, to) in drawing.joists.iter().flat_map(|layout| &layout.lines) {
        let ends = vec![paper(*from), paper(*to)];
        figure.lines.push(Line::new(Part::Joist, Pen::Medium, ends).named(name.clone()));
    }
    checks(figure, drawing, per_mm);
    let corners = drawing.footprint.points().into_iter().map(paper).collect();
    let pen = if drawing.plates.is_some() { Pen::Narrow } else { Pen::Wide };
    figure.lines.push(Line::new(Part::Outline, pen, corners).closed());
    openings(figure, drawing, sides, per_mm);
    for anchor in &drawing.anchors {
        let middle = anchor.place(&drawing.footprint).map(paper);
        figure.marks.extend(middle.map(|middle| Mark {
            part: Part::Anchor,
            middle,
            radius: ANCHOR,
            filled: false,
        }));
    }
    for board in &drawing.boards {
        if board.from != board.to {
            let ends = vec![paper(board.from), paper(board.to)];
            figure.lines.push(Line::new(Part::Board, Pen::Wide, ends));
        }
        figure.marks.extend(board.nails.iter().map(|nail| Mark {
            part: Part::Nail,
            middle: paper(*nail),
            radius: 0.6,
            filled: true,
        }));
    }
}

/// The point `mm` along a side from its first corner, on plan.
pub(super) fn along(drawing: &Drawing, side: usize, mm: f64) -> Option<Point> {
    let side = drawing.footprint.sides().get(side)?;
    let start = drawing.footprint.corners()[side.from].at;
    let (x, y) = side.heading.step();
    let mm = mm.clamp(0.0, side.length);
    Some(Point::new(start.x + x * mm, start.y + y * mm))
}

/// Lines rising to the right at 45°, in the strip behind a side.
fn hatch(figure: &mut Figure, drawing: &Drawing, seen: Seen) {
    let depth = HATCH_DEPTH.min(seen.clearance);
    let a = seen.view.join(seen.from, seen.out);
    let b = seen.view.join(seen.to, seen.out + depth);
    let (left, right) = (a.x.min(b.x), a.x.max(b.x));
    let (top, bottom) = (a.y.min(b.y), a.y.max(b.y));
    let name = drawing.footprint.side_name(seen.side);
    // Whole steps from the page's own zero, so that strips that meet run on into each other.
    let mut sum = ((left + top) / HATCH_STEP).ceil() * HATCH_STEP;
    while sum < right + bottom {
        let (from, to) = ((sum - bottom).max(left), (sum - top).min(right));
        if to - from > 0.05 {
            let ends = vec![Point::new(from, sum - from), Point::new(to, sum - to)];
            figure.lines.push(Line::new(Part::House, Pen::Narrow, ends).named(name.clone()));
        }
        sum += HATCH_STEP;
    }
}

fn checks(figure: &mut Figure, drawing: &Drawing, per_mm: f64) {
    let corners = drawing.footprint.corners();
    for check in &drawing.checks {
        let (Some(from), Some(to)) = (corners.get(check.from), corners.get(check.to)) else {
            continue;
        };
        let (part, pen) = match check.purpose {
            CheckUse::Proof => (Part::Proof, Pen::Chain),
            CheckUse::Spare => (Part::Spare, Pen::Dashed),
        };
        let ends = [from, to].map(|corner| Point::new(corner.at.x * per_mm, corner.at.y * per_mm));
        let name = drawing.footprint.line_name(check.from, check.to);
        figure.lines.push(Line::new(part, pen, ends.to_vec()).named(name));
    }
}

/// A gap in the outline with a narrow line across it, but under a window the outline goes on; a stroke at either jamb.
fn openings(figure: &mut Figure, drawing: &Drawing, sides: &[Seen], per_mm: f64) {
    for opening in &drawing.openings {
        let ends = [opening.from, opening.to].map(|mm| along(drawing, opening.side, mm));
        let [Some(from), Some(to)] = ends else { continue };
        let [from, to] = [from, to].map(|p| Point::new(p.x * per_mm, p.y * per_mm));
        let view = sides[opening.side].view;
        for pen in [Pen::Gap, Pen::Narrow].into_iter().filter(|_| !opening.window) {
            figure.lines.push(Line::new(Part::Opening, pen, vec![from, to]));
        }
        for jamb in [from, to] {
            let (along, out) = view.split(jamb);
            let stroke = [-JAMB, JAMB].map(|d| view.join(along, out + d));
            figure.lines.push(Line::new(Part::Opening, Pen::Medium, stroke.to_vec()));
        }
    }
}
