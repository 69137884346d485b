//! Choosing scale and sheet: the largest standard scale at which everything fits an A4 sheet either way round.

use super::drawing::Drawing;
use super::figure::compose;
use super::key::{foot, north};
use super::scale::Scale;
use super::scene::{Figure, Scene};
use super::shape::Extent;
use super::sheet::Sheet;
use crate::geometry::Point;

/// Blank space kept between the border and the figure, mm.
const CLEAR: f64 = 3.0;

/// A drawing that does not fit the sheet.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SketchError {
    /// The scale asked for is too large.
    #[error(
        "scale {scale}: the plan with its dimensions does not fit A4: write {fits} or smaller, or leave it out"
    )]
    TooLarge {
        /// The scale as given.
        scale: Scale,
        /// The largest standard scale that does.
        fits: Scale,
    },
    /// No standard scale fits.
    #[error("the plan with its dimensions does not fit A4 at any standard scale: leave something out")]
    NoRoom,
}

/// The drawing on its sheet, at `scale` or else at the largest standard scale that fits.
pub fn scene(drawing: &Drawing, scale: Option<Scale>) -> Result<Scene, SketchError> {
    match scale {
        None => largest(drawing).ok_or(SketchError::NoRoom),
        Some(scale) => match at_scale(drawing, scale) {
            Some(scene) => Ok(scene),
            None => Err(match largest(drawing) {
                Some(scene) => SketchError::TooLarge { scale, fits: scene.scale },
                None => SketchError::NoRoom,
            }),
        },
    }
}

fn largest(drawing: &Drawing) -> Option<Scene> {
    Scale::STANDARD.into_iter().find_map(|scale| at_scale(drawing, scale))
}

fn at_scale(drawing: &Drawing, scale: Scale) -> Option<Scene> {
    let (width, depth) = drawing.footprint.extent();
    let (width, depth) = (scale.on_paper(width), scale.on_paper(depth));
    let holds = |sheet: Sheet| width < sheet.inside().width() && depth < sheet.inside().height();
    // Most scales are ruled out by the bare outline.
    if !(holds(Sheet::Portrait) || holds(Sheet::Landscape)) {
        return None;
    }
    let figure = compose(drawing, scale)?;
    let extent = figure.extent();
    let sheets = if extent.width() > extent.height() {
        [Sheet::Landscape, Sheet::Portrait]
    } else {
        [Sheet::Portrait, Sheet::Landscape]
    };
    sheets.into_iter().find_map(|sheet| on_sheet(drawing, &figure, extent, sheet, scale))
}

fn on_sheet(drawing: &Drawing, figure: &Figure, extent: Extent, sheet: Sheet, scale: Scale) -> Option<Scene> {
    let foot = foot(drawing, sheet, scale);
    let inside = sheet.inside();
    let area = Extent {
        left: inside.left + CLEAR,
        top: inside.top + CLEAR,
        right: inside.right - CLEAR,
        bottom: foot.top - CLEAR,
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
    lines.extend(foot.figure.lines);
    marks.extend(foot.figure.marks);
    labels.extend(foot.figure.labels);
    let title = match &drawing.title.job {
        Some(job) => format!("{job}: setting-out plan, {scale}"),
        None => format!("Setting-out plan, {scale}"),
    };
    Some(Scene { sheet, scale, origin, title, lines, marks, labels })
}
