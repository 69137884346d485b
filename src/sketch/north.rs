//! The north arrow.

use super::elements::{Label, Line, Mark, Part, Pen, Wording};
use super::lettering::Lettering;
use super::scene::Figure;
use super::shape::{Extent, Frame};
use crate::geometry::Point;

/// Puts the north arrow in the first free place of `area`, from its top right; false where there is none.
pub(super) fn north(figure: &mut Figure, degrees: f64, area: Extent) -> bool {
    const RADIUS: f64 = 6.0;
    const STEP: f64 = 4.0;
    let size = 2.0 * (RADIUS + 5.5);
    let mut y = area.top + size / 2.0;
    while y <= area.bottom - size / 2.0 {
        let mut x = area.right - size / 2.0;
        while x >= area.left + size / 2.0 {
            let frame = Frame::level(Point::new(x, y), size, size);
            if is_free(figure, frame) {
                arrow(figure, frame.middle, degrees, RADIUS);
                return true;
            }
            x -= STEP;
        }
        y += STEP;
    }
    false
}

fn is_free(figure: &Figure, frame: Frame) -> bool {
    let grown = frame.grown(1.0).laid();
    let marks = figure.marks.iter().map(|mark| Frame::level(mark.middle, 2.0, 2.0));
    let texts = figure.labels.iter().map(|label| label.frame);
    let mut lines = figure.lines.iter().flat_map(Line::segments);
    !lines.any(|segment| grown.is_crossed_by(segment))
        && !marks.chain(texts).any(|other| grown.overlaps(&other.laid()))
}

fn arrow(figure: &mut Figure, middle: Point, degrees: f64, radius: f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let polar = |along: f64, across: f64| {
        Point::new(middle.x + sin * along + cos * across, middle.y - cos * along + sin * across)
    };
    figure.marks.push(Mark { part: Part::North, middle, radius, filled: false });
    let shaft = vec![polar(-radius, 0.0), polar(radius, 0.0)];
    figure.lines.push(Line::new(Part::North, Pen::Narrow, shaft));
    let mut head = Line::new(
        Part::North,
        Pen::Narrow,
        vec![polar(radius, 0.0), polar(radius - 4.5, 1.5), polar(radius - 4.5, -1.5)],
    )
    .closed();
    head.filled = true;
    figure.lines.push(head);
    let mut label = Label::new(Wording::North, "N", Lettering::Medium, polar(radius + 3.0, 0.0));
    "north".clone_into(&mut label.name);
    figure.labels.push(label);
}
