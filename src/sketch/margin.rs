//! What stands round the figure on its sheet: the border, and key and title block along the foot or in a column beside it.

use super::drawing::Drawing;
use super::elements::{Line, Part, Pen};
use super::key::Key;
use super::scale::Scale;
use super::scene::Figure;
use super::shape::Extent;
use super::sheet::Sheet;
use super::title::Title;
use crate::geometry::Point;

/// Width of the title block along the foot of a lying sheet, mm.
const TITLE: f64 = 145.0;
/// Width of the column that holds key and title block, mm.
const COLUMN: f64 = 68.0;

/// Where key and title block stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Layout {
    /// Along the foot.
    Foot,
    /// In a column at the right.
    Column,
}

/// The sheet but for the figure.
pub(super) struct Margin {
    pub(super) figure: Figure,
    /// What is left for the figure.
    pub(super) room: Extent,
}

/// Draws the margin of `sheet`; nothing where it doesn't hold key and title block.
pub(super) fn margin(drawing: &Drawing, sheet: Sheet, scale: Scale, layout: Layout) -> Option<Margin> {
    let inside = sheet.inside();
    let mut figure = Figure::default();
    let around = vec![
        Point::new(inside.left, inside.top),
        Point::new(inside.right, inside.top),
        Point::new(inside.right, inside.bottom),
        Point::new(inside.left, inside.bottom),
    ];
    figure.lines.push(Line::new(Part::Border, Pen::Wide, around).closed());
    let title = Title::new(drawing, sheet, scale, layout == Layout::Column);
    let title_top = inside.bottom - title.height();
    let room = match layout {
        Layout::Column => {
            let left = inside.right - COLUMN;
            let key = Key::new(drawing, scale, COLUMN);
            if inside.top + key.height() > title_top {
                return None;
            }
            key.draw(&mut figure, left, inside.top);
            title.draw(&mut figure, left, inside.right, title_top);
            figure.rule(Pen::Narrow, (left, inside.top), (left, title_top));
            Extent { right: left, ..inside }
        }
        Layout::Foot => {
            // Upright, the key lies over the title block; lying, at its left.
            let (key_width, title_left) = if sheet.lying {
                (inside.width() - TITLE, inside.right - TITLE)
            } else {
                (inside.width(), inside.left)
            };
            let key = Key::new(drawing, scale, key_width);
            let top = if sheet.lying {
                inside.bottom - key.height().max(title.height())
            } else {
                title_top - key.height()
            };
            if top < inside.top {
                return None;
            }
            key.draw(&mut figure, inside.left, top);
            title.draw(&mut figure, title_left, inside.right, title_top);
            figure.rule(Pen::Narrow, (inside.left, top), (inside.right, top));
            Extent { bottom: top, ..inside }
        }
    };
    Some(Margin { figure, room })
}
