//! Sides' lengths on the character drawing.

use super::canvas::{Canvas, Over};
use crate::plan::Heading;
use crate::sketch::drawing::Drawing;

/// Columns to keep on either side of the outline for the longest length of an upright side and a blank.
pub(super) fn longest_upright(drawing: &Drawing) -> usize {
    let sides = drawing.footprint.sides().iter();
    sides
        .filter(|side| !side.heading.is_across())
        .map(|side| drawing.units.figure(side.length).chars().count() + 2)
        .max()
        .unwrap_or(0)
}

/// Writes every side's length; returns the sides that found no room for theirs.
pub(super) fn write(canvas: &mut Canvas, drawing: &Drawing, corners: &[(usize, usize)]) -> Vec<usize> {
    let sides = drawing.footprint.sides();
    // Short sides have the fewest places, so they choose first.
    let mut order: Vec<usize> = (0..sides.len()).collect();
    order.sort_by(|i, j| sides[*i].length.total_cmp(&sides[*j].length).then(i.cmp(j)));
    let mut unlabelled: Vec<usize> = order
        .into_iter()
        .filter(|i| {
            let side = sides[*i];
            let text = drawing.units.figure(side.length);
            let (a, b) = (corners[side.from], corners[side.to]);
            if side.heading.is_across() {
                !across(canvas, &text, a, b, side.heading)
            } else {
                !upright(canvas, &text, a, b, side.heading)
            }
        })
        .collect();
    unlabelled.sort_unstable();
    unlabelled
}

/// On the line, with a blank at either end; else outside it, else inside it, as near the middle as can be.
fn across(canvas: &mut Canvas, text: &str, a: (usize, usize), b: (usize, usize), heading: Heading) -> bool {
    let length = text.chars().count();
    let (left, right, row) = (a.0.min(b.0), a.0.max(b.0), a.1);
    let room = right - left - 1;
    if room >= length + 4 {
        let start = left + 1 + (room - length) / 2;
        return canvas.write(&format!(" {text} "), start - 1, row, Over::Side);
    }
    let outside = if heading == Heading::Right { row.checked_sub(1) } else { Some(row + 1) };
    let inside = if heading == Heading::Right { Some(row + 1) } else { row.checked_sub(1) };
    let middle = usize::midpoint(left, right);
    [outside, inside].into_iter().flatten().any(|row| {
        starts(middle, length, left, right).any(|start| canvas.write(text, start, row, Over::Ground))
    })
}

/// Where a text of `length` may start so that it lies over some of the side between `left` and `right`: centred first.
fn starts(middle: usize, length: usize, left: usize, right: usize) -> impl Iterator<Item = usize> {
    let centred = middle.saturating_sub(length / 2);
    let reach = length / 2 + (right - left) / 2;
    (0..=reach)
        .flat_map(move |d| [centred.checked_sub(d), (d > 0).then_some(centred + d)].into_iter().flatten())
}

/// Outside the line, a blank away; else inside it; else across it; as near the middle of it as can be.
fn upright(canvas: &mut Canvas, text: &str, a: (usize, usize), b: (usize, usize), heading: Heading) -> bool {
    let length = text.chars().count();
    let (column, top, bottom) = (a.0, a.1.min(b.1), a.1.max(b.1));
    let right = Some(column + 2);
    let left = column.checked_sub(length + 1);
    let (outside, inside) = if heading == Heading::Down { (right, left) } else { (left, right) };
    let middle = usize::midpoint(top, bottom);
    let rows = |past: usize| {
        (0..=bottom - top)
            .flat_map(move |d| [middle.checked_sub(d), Some(middle + d)].into_iter().flatten())
            .filter(move |row| *row + past > top && *row < bottom + past)
    };
    let across = column.checked_sub(length / 2);
    // Between the corners first; beside a corner's letter where the side is too short for that.
    [
        (outside, 0, Over::Ground),
        (inside, 0, Over::Ground),
        (across, 0, Over::Side),
        (outside, 1, Over::Ground),
    ]
    .into_iter()
    .any(|(start, past, over)| {
        start.is_some_and(|start| rows(past).any(|row| canvas.write(text, start, row, over)))
    })
}
