//! The title block: rows of cells, each with its caption.

use super::drawing::Drawing;
use super::elements::Pen;
use super::elements::{Label, Wording};
use super::lettering::Lettering;
use super::scale::Scale;
use super::scene::Figure;
use super::sheet::Sheet;
use crate::geometry::Point;
use crate::length::Units;

/// Height of a row whose value has two lines, and of one whose value has one, mm.
const TWO_LINES: f64 = 12.0;
const ONE_LINE: f64 = 10.0;

/// A cell: its caption, its value, its width in mm or nothing for what is left of the row, and whether it is the sheet's claim
/// to its scale.
struct Cell {
    caption: &'static str,
    value: String,
    width: Option<f64>,
    wording: Wording,
}

/// The title block, as it will be laid.
pub(super) struct Title {
    rows: Vec<(f64, Vec<Cell>)>,
}

impl Title {
    /// The block of `drawing` on `sheet`: in a column of its own, or along the foot.
    pub(super) fn new(drawing: &Drawing, sheet: Sheet, scale: Scale, column: bool) -> Self {
        let given = |value: &Option<String>| value.clone().unwrap_or_default();
        let cell = |caption: &'static str, value: String, width: Option<f64>| Cell {
            caption,
            value,
            width,
            wording: if caption == "Scale" { Wording::Scale } else { Wording::Title },
        };
        let title = &drawing.title;
        let job = cell("Job", given(&title.job), None);
        let name = cell("Drawing", drawing.subject().to_owned(), None);
        let date = |width| cell("Date", given(&title.date), width);
        let paper = |width| cell("Sheet", sheet.paper.name().to_owned(), width);
        let scale = |width| cell("Scale", scale.to_string(), width);
        let sizes = |width| cell("Sizes in", units_in_words(drawing.units).to_owned(), width);
        let mut rows = if column {
            let right = Some(28.0);
            vec![
                (TWO_LINES, vec![job]),
                (ONE_LINE, vec![name]),
                (ONE_LINE, vec![date(None), scale(right)]),
                (ONE_LINE, vec![sizes(None), paper(right)]),
            ]
        } else {
            let (middle, right) = (Some(44.0), Some(36.0));
            vec![
                (TWO_LINES, vec![job, date(middle), paper(right)]),
                (ONE_LINE, vec![name, scale(middle), sizes(right)]),
            ]
        };
        if [&title.drawn_by, &title.number, &title.revision].into_iter().any(Option::is_some) {
            let by = cell("Drawn by", given(&title.drawn_by), None);
            let number = |width| cell("Number", given(&title.number), width);
            let revision = |width| cell("Revision", given(&title.revision), width);
            if column {
                rows.push((ONE_LINE, vec![by]));
                rows.push((ONE_LINE, vec![number(None), revision(Some(28.0))]));
            } else {
                rows.push((ONE_LINE, vec![by, number(Some(44.0)), revision(Some(36.0))]));
            }
        }
        Self { rows }
    }

    /// Its height, mm.
    pub(super) fn height(&self) -> f64 {
        self.rows.iter().map(|(height, _)| height).sum()
    }

    /// Draws it from (`left`, `top`) to `right`, its own edges included.
    pub(super) fn draw(&self, figure: &mut Figure, left: f64, right: f64, top: f64) {
        let bottom = top + self.height();
        figure.rule(Pen::Wide, (left, top), (right, top));
        figure.rule(Pen::Wide, (left, top), (left, bottom));
        let mut y = top;
        for (height, cells) in &self.rows {
            if y > top {
                figure.rule(Pen::Narrow, (left, y), (right, y));
            }
            let fixed: f64 = cells.iter().filter_map(|cell| cell.width).sum();
            let mut x = left;
            for cell in cells {
                let width = cell.width.unwrap_or(right - left - fixed);
                if x > left {
                    figure.rule(Pen::Narrow, (x, y), (x, y + height));
                }
                fill(figure, cell, Point::new(x, y), width, *height);
                x += width;
            }
            y += height;
        }
    }
}

fn fill(figure: &mut Figure, cell: &Cell, at: Point, width: f64, height: f64) {
    let left = at.x + 1.5;
    let caption = Point::new(left, at.y + 3.3);
    figure.labels.push(Label::from_left(Wording::Title, cell.caption, Lettering::Small, caption));
    let most = if height > ONE_LINE { 2 } else { 1 };
    let (lettering, lines) = fitted(&cell.value, width - 3.0, most);
    let bases: &[f64] = match (lines.len(), most) {
        (1, 2) => &[9.6],
        (1, _) => &[8.2],
        _ => &[7.0, 10.7],
    };
    for (line, base) in lines.into_iter().zip(bases) {
        figure.labels.push(Label::from_left(cell.wording, line, lettering, Point::new(left, at.y + base)));
    }
}

const fn units_in_words(units: Units) -> &'static str {
    match units {
        Units::Mm => "millimetres",
        Units::M => "metres",
        Units::FeetInches => "feet, inches",
    }
}

/// A value in one line of medium or as many as `most` of small lettering; what is over is cut off.
fn fitted(value: &str, width: f64, most: usize) -> (Lettering, Vec<String>) {
    let value = value.split_whitespace().collect::<Vec<_>>().join(" ");
    if Lettering::Medium.width(&value) <= width {
        let lines = if value.is_empty() { vec![] } else { vec![value] };
        return (Lettering::Medium, lines);
    }
    let mut lines = Lettering::Small.wrap(&value, width);
    if lines.len() > most {
        let rest = lines.split_off(most - 1).join(" ");
        lines.push(Lettering::Small.cut(&rest, width));
    }
    (Lettering::Small, lines)
}
