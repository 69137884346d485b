//! The drawing's part of a job file.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geometry::Point;
use crate::job::cursor::Cursor;
#[cfg(feature = "cli")]
use crate::job::typed;
use crate::plan::Footprint;
use crate::sketch::{Paper, Scale, SiteGrid, Title};
use crate::words::{quoted, steers};

/// The longest text taken for a box of the title block, characters.
const LONGEST: usize = 24;

/// The farthest that a site's grid reaches, m.
const FARTHEST: f64 = 1e8;

/// For the drawing.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct SketchSection {
    /// What is drawn: the setting-out plan, how the plates are laid, or how the joists lie: plan, plates or joists
    /// [default: plan].
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.of", value_name = "WHAT"))]
    pub of: Option<String>,
    /// The date for the title block, as it is to stand there.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.date", value_name = "TEXT"))]
    pub date: Option<String>,
    /// Where north is: degrees clockwise from up the page.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.north", value_name = "DEGREES", value_parser = typed::degrees))]
    pub north: Option<f64>,
    /// Where a corner lies on the site's own grid, its east and north in metres, for the list of points (--format csv).
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "sketch.grid", value_name = "A=E,N", allow_hyphen_values = true)
    )]
    pub grid: Option<String>,
    /// The bearing of side AB on the site's grid, from A on: degrees clockwise from grid north; left out, it follows
    /// from `north`.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.bearing", value_name = "DEGREES", allow_negative_numbers = true, value_parser = typed::bearing))]
    pub bearing: Option<f64>,
    /// What to draw besides the outline and the lines to tape: anchors, profiles, or both
    /// [default: what the job file has inputs for]
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.show", value_name = "WHAT", value_delimiter = ','))]
    pub show: Option<Vec<String>>,
    /// The scale on paper, such as 1:50 or 1/4in=1ft [default: the largest usual one that fits].
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.scale", value_name = "SCALE"))]
    pub scale: Option<String>,
    /// The paper: A4 or letter [default: A4, and letter in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.paper", value_name = "PAPER"))]
    pub paper: Option<String>,
    /// Who drew it, for the title block.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.drawn_by", value_name = "TEXT"))]
    pub drawn_by: Option<String>,
    /// The drawing's number, for the title block.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.number", value_name = "TEXT"))]
    pub number: Option<String>,
    /// The drawing's revision, for the title block.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.revision", value_name = "TEXT"))]
    pub revision: Option<String>,
}

/// What is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Subject {
    /// The setting-out plan.
    #[default]
    Plan,
    /// How the plates are laid.
    Plates,
    /// How the joists lie.
    Joists,
}

/// What was said about the drawing, checked.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SketchInputs {
    /// What is drawn.
    pub of: Subject,
    /// What stands in the title block besides the job's name.
    pub title: Title,
    /// The paper, if one was asked for.
    pub paper: Option<Paper>,
    /// Where north is: degrees clockwise from up the page, 0 to 360.
    pub north: Option<f64>,
    /// How the plan lies on the site's own grid, if it was said.
    pub grid: Option<SiteGrid>,
    /// Whether the plate's anchors are drawn.
    pub anchors: bool,
    /// Whether the profiles and their lines are drawn.
    pub profiles: bool,
    /// The scale, if one was asked for.
    pub scale: Option<Scale>,
}

/// What `section` says of the drawing, laid over what is drawn without it.
pub(in crate::job) fn check(
    section: Option<&SketchSection>,
    mut inputs: SketchInputs,
    footprint: Option<&Footprint>,
    at: Cursor<'_>,
) -> SketchInputs {
    let Some(section) = section else { return inputs };
    shown(section, &mut inputs, at);
    let short = |field: &str, text: &Option<String>| short(text.as_deref()?, at.field(field));
    inputs.title = Title {
        job: None,
        date: short("date", &section.date),
        drawn_by: short("drawn_by", &section.drawn_by),
        number: short("number", &section.number),
        revision: short("revision", &section.revision),
    };
    inputs.paper = section.paper.as_deref().and_then(|text| match text.trim().to_lowercase().as_str() {
        "a4" => Some(Paper::A4),
        "letter" => Some(Paper::Letter),
        _ => {
            let problem = format!("`{}` is no paper known here: write A4 or letter", quoted(text));
            at.field("paper").fault(problem);
            None
        }
    });
    inputs.north = section.north.and_then(|north| direction("up the page", north, at.field("north")));
    let bearing = section.bearing.and_then(|bearing| direction("grid north", bearing, at.field("bearing")));
    if let Some(grid) = &section.grid {
        let example = "write a corner and its east and north, in metres, such as A=1000,2000";
        match grid_point(grid, footprint) {
            Some((at, east, north)) => {
                let bearing = bearing.unwrap_or(90.0 - inputs.north.unwrap_or_default());
                inputs.grid = Some(SiteGrid { at, east, north, bearing });
            }
            None => at.field("grid").fault(format!("`{}` is no place on a grid: {example}", quoted(grid))),
        }
    } else if bearing.is_some() {
        at.field("bearing").fault("there is no grid that it lies on: write --grid A=1000,2000 too");
    }
    if let Some(scale) = &section.scale {
        match scale.parse() {
            Ok(scale) => inputs.scale = Some(scale),
            Err(problem) => at.field("scale").fault(problem),
        }
    }
    inputs
}

/// What is drawn, and what is shown with it.
fn shown(section: &SketchSection, inputs: &mut SketchInputs, at: Cursor<'_>) {
    match section.of.as_deref().map(str::trim) {
        None | Some("plan") => {}
        Some("plates") => inputs.of = Subject::Plates,
        Some("joists") => inputs.of = Subject::Joists,
        Some(other) => {
            at.field("of")
                .fault(format!("`{}` is nothing to draw: write plan, plates or joists", quoted(other)));
        }
    }
    let Some(show) = &section.show else { return };
    (inputs.anchors, inputs.profiles) = (false, false);
    for (i, what) in show.iter().enumerate() {
        match what.trim() {
            "anchors" => inputs.anchors = true,
            "profiles" => inputs.profiles = true,
            other => {
                let problem = format!("`{}` is nothing to draw: write anchors or profiles", quoted(other));
                at.item("show", i).fault(problem);
            }
        }
    }
}

/// Degrees clockwise from `zero`, 0 to 360.
fn direction(zero: &str, degrees: f64, at: Cursor<'_>) -> Option<f64> {
    if (-360.0..=360.0).contains(&degrees) {
        return Some(degrees.rem_euclid(360.0));
    }
    at.fault(format!("`{degrees}` is no direction: write degrees clockwise from {zero}, 0 to 360"));
    None
}

/// A corner's place on the plan, and its east and north, mm, from metres.
fn grid_point(text: &str, footprint: Option<&Footprint>) -> Option<(Point, f64, f64)> {
    let (corner, place) = text.split_once('=')?;
    let corner = footprint?.corner_index(corner.trim().parse().ok()?)?;
    let (east, north) = place.split_once(',')?;
    let mm = |metres: &str| {
        let metres: f64 = metres.trim().parse().ok()?;
        (metres.abs() <= FARTHEST).then_some(metres * 1000.0)
    };
    Some((footprint?.corners()[corner].at, mm(east)?, mm(north)?))
}

/// A text for a box of the title block: one line, not too long.
fn short(text: &str, at: Cursor<'_>) -> Option<String> {
    let length = text.chars().count();
    if length > LONGEST {
        let example = if at.name() == "date" { ", such as 25 November" } else { "" };
        at.fault(format!("{length} characters is too long: write {LONGEST} at most{example}"));
    } else if text.chars().any(steers) {
        at.fault("write it on one line, without tabs");
    } else {
        return Some(text.trim().to_owned()).filter(|text| !text.is_empty());
    }
    None
}
