//! The drawing's part of a job file.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::JobFile;
use crate::job::faults::Faults;
#[cfg(feature = "cli")]
use crate::job::typed;
use crate::sketch::Scale;
use crate::words::quoted;

/// The longest date taken, characters: what its box in the title block holds.
const LONGEST_DATE: usize = 24;

/// For the drawing.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct SketchSection {
    /// The date for the title block, as it is to stand there.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.date", value_name = "TEXT"))]
    pub date: Option<String>,
    /// Where north is: degrees clockwise from up the page.
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.north", value_name = "DEGREES", allow_negative_numbers = true, value_parser = typed::degrees))]
    pub north: Option<f64>,
    /// What to draw besides the outline and the lines to tape: anchors, profiles, or both
    /// [default: what the job file has inputs for]
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.show", value_name = "WHAT", value_delimiter = ','))]
    pub show: Option<Vec<String>>,
    /// The scale on A4, such as 1:50 [default: the largest standard one that fits].
    #[cfg_attr(feature = "cli", arg(long, id = "sketch.scale", value_name = "SCALE"))]
    pub scale: Option<String>,
}

/// What was said about the drawing, checked.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SketchInputs {
    /// The date for the title block.
    pub date: Option<String>,
    /// Where north is: degrees clockwise from up the page, 0 to 360.
    pub north: Option<f64>,
    /// Whether the plate's anchors are drawn.
    pub anchors: bool,
    /// Whether the profiles and their lines are drawn.
    pub profiles: bool,
    /// The scale, if one was asked for.
    pub scale: Option<Scale>,
}

/// Checks the section, adding its faults to `faults`.
pub(in crate::job) fn check(file: &JobFile, faults: &mut Faults) -> SketchInputs {
    let rule = file.plates.as_ref().and_then(|plates| plates.anchors.as_ref());
    let mut inputs = SketchInputs {
        anchors: rule.is_some() && file.stock.is_some(),
        profiles: file.lines.is_some(),
        ..SketchInputs::default()
    };
    let Some(section) = &file.sketch else {
        return inputs;
    };
    if let Some(show) = &section.show {
        (inputs.anchors, inputs.profiles) = (false, false);
        for (i, what) in show.iter().enumerate() {
            match what.trim() {
                "anchors" => inputs.anchors = true,
                "profiles" => inputs.profiles = true,
                other => {
                    let problem =
                        format!("`{}` is nothing to draw: write anchors or profiles", quoted(other));
                    faults.add(&format!("sketch.show[{i}]"), problem);
                }
            }
        }
    }
    if let Some(date) = &section.date {
        let length = date.chars().count();
        if length > LONGEST_DATE {
            let problem =
                format!("{length} characters is too long: write {LONGEST_DATE} at most, such as 25 November");
            faults.add("sketch.date", problem);
        } else if date.chars().any(char::is_control) {
            faults.add("sketch.date", "write it on one line, without tabs");
        } else {
            inputs.date = Some(date.trim().to_owned()).filter(|date| !date.is_empty());
        }
    }
    if let Some(north) = section.north {
        if (-360.0..=360.0).contains(&north) {
            inputs.north = Some(north.rem_euclid(360.0));
        } else {
            let problem =
                format!("`{north}` is no direction: write degrees clockwise from up the page, 0 to 360");
            faults.add("sketch.north", problem);
        }
    }
    if let Some(scale) = &section.scale {
        match scale.parse() {
            Ok(scale) => inputs.scale = Some(scale),
            Err(problem) => faults.add("sketch.scale", problem),
        }
    }
    inputs
}
