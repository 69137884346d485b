//! Choosing scale and sheet: the largest usual scale at which everything fits the paper, either way round, with the key beside
//! the figure where there is room, or along the foot.

use super::drawing::Drawing;
use super::figure::compose;
use super::key::Key;
use super::margin::{Layout, Margin, margin};
use super::north::north;
use super::scale::Scale;
use super::scene::{Figure, Scene};
use super::shape::Extent;
use super::sheet::Sheet;
use crate::geometry::Point;

/// Blank space kept between the border and the figure, mm.
const CLEAR: f64 = 3.0;

/// Room for a north arrow, mm.
const ARROW: f64 = 28.0;

/// A drawing that does not fit the sheet.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SketchError {
    /// The scale asked for is too large.
    #[error(
        "scale {scale}: the plan with its dimensions does not fit {paper}: write {fits} or smaller, or leave it out"
    )]
    TooLarge {
        /// The scale as given.
        scale: Scale,
        /// The largest usual scale that does.
        fits: Scale,
        /// The paper.
        paper: &'static str,
    },
    /// No usual scale fits.
    #[error("the plan with its dimensions does not fit {0} at any usual scale: leave something out")]
    NoRoom(&'static str),
}

/// The drawing on its sheet, at `scale` or else at the largest usual scale that fits.
pub fn scene(drawing: &Drawing, scale: Option<Scale>) -> Result<Scene, SketchError> {
    let paper = drawing.paper.name();
    match scale {
        None => largest(drawing).ok_or(SketchError::NoRoom(paper)),
        Some(scale) => at_scale(drawing, scale).ok_or_else(|| match largest(drawing) {
            Some(scene) => SketchError::TooLarge { scale, fits: scene.scale, paper },
            None => SketchError::NoRoom(paper),
        }),
    }
}

fn largest(drawing: &Drawing) -> Option<Scene> {
    Scale::usual(drawing.units).iter().find_map(|scale| at_scale(drawing, *scale))
}

fn at_scale(drawing: &Drawing, scale: Scale) -> Option<Scene> {
    let (width, depth) = drawing.footprint.extent();
    let (width, depth) = (scale.on_paper(width), scale.on_paper(depth));
    let sheet = |lying| Sheet { paper: drawing.paper, lying };
    let holds = |sheet: Sheet| width < sheet.inside().width() && depth < sheet.inside().height();
    // Most scales are ruled out by the bare outline.
    if !(holds(sheet(false)) || holds(sheet(true))) {
        return None;
    }
    let figure = compose(drawing, scale)?;
    let extent = figure.extent();
    let lies = extent.width() > extent.height();
    let ways = [
        (sheet(true), Layout::Column),
        (sheet(lies), Layout::Foot),
        (sheet(!lies), Layout::Foot),
        (sheet(false), Layout::Column),
    ];
    ways.into_iter().find_map(|(sheet, layout)| on_sheet(drawing, &figure, extent, (sheet, layout), scale))
}

fn on_sheet(
    drawing: &Drawing,
    figure: &Figure,
    extent: Extent,
    (sheet, layout): (Sheet, Layout),
    scale: Scale,
) -> Option<Scene> {
    let Margin { figure: margin, room } = margin(drawing, sheet, scale, layout)?;
    let area = Extent {
        left: room.left + CLEAR,
        top: room.top + CLEAR,
        right: room.right - CLEAR,
        bottom: room.bottom - CLEAR,
    };
    if extent.width() > area.width() || extent.height() > area.height() {
        return None;
    }
    let origin = Point::new(
        f64::midpoint(area.left, area.right) - f64::midpoint(extent.left, extent.right),
        f64::midpoint(area.top, area.bottom) - f64::midpoint(extent.top, extent.bottom),
    );
    let mut placed = figure.clone();
    placed.shift(origin.x, origin.y);
    if let Some(degrees) = drawing.north
        && !north(&mut placed, degrees, area)
    {
        return None;
    }
    let Figure { mut lines, mut marks, mut labels } = placed;
    lines.extend(margin.lines);
    marks.extend(margin.marks);
    labels.extend(margin.labels);
    let title = format!("{}, {scale}", title(drawing));
    Some(Scene { sheet, scale, origin, title, lines, marks, labels })
}

/// What the drawing is called.
fn title(drawing: &Drawing) -> String {
    match &drawing.title.job {
        Some(job) => format!("{job}: {}", drawing.subject().to_lowercase()),
        None => drawing.subject().to_owned(),
    }
}

/// The figure with its key under it, on no sheet.
pub(super) struct Strip {
    pub(super) title: String,
    /// Width and height, mm.
    pub(super) size: (f64, f64),
    pub(super) figure: Figure,
}

/// The drawing on a strip of `width` mm and whatever height it takes, at the largest usual scale that fits.
pub(super) fn strip(drawing: &Drawing, width: f64) -> Option<Strip> {
    Scale::usual(drawing.units).iter().find_map(|scale| {
        let across = scale.on_paper(drawing.footprint.extent().0);
        if across > width {
            return None;
        }
        let mut figure = compose(drawing, *scale)?;
        let extent = figure.extent();
        let (wide, clear) = (extent.width() + 2.0 * CLEAR, CLEAR - extent.top);
        if wide > width {
            return None;
        }
        figure.shift((width - extent.width()) / 2.0 - extent.left, clear);
        let mut bottom = extent.bottom + clear;
        if let Some(degrees) = drawing.north {
            // Under the figure there is always room.
            let area = Extent { left: CLEAR, top: CLEAR, right: width - CLEAR, bottom: bottom + ARROW };
            north(&mut figure, degrees, area);
            bottom = figure.extent().bottom;
        }
        let key = Key::new(drawing, *scale, width);
        key.draw(&mut figure, 0.0, bottom + CLEAR);
        let height = (bottom + CLEAR + key.height()).ceil();
        Some(Strip { title: title(drawing), size: (width, height), figure })
    })
}
