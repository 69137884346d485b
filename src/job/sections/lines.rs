//! What lines and profiles depend on.

use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::along::{Along, AlongEntries};
use crate::job::cursor::Cursor;
use crate::job::entries::{GRAMS_PER_METRE, NEWTONS, QuantityEntry, or_text, short_list};
use crate::job::{EntryError, LengthEntry};
use crate::length::{InUnits, Units};
use crate::lines::{
    Layer, LinesError, MarksQuestion, StringLine, Wall, WallError, least_setback, offset_outline,
    usual_setback,
};
use crate::plan::Footprint;

/// For lines and profiles.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct LinesSection {
    /// How far profiles stand beyond the corners [default: 1m, or 4ft in feet and inches].
    #[cfg_attr(feature = "cli", arg(long, id = "lines.setback", value_name = "LENGTH"))]
    pub setback: Option<LengthEntry>,
    /// The wall's layers from the outside in.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "lines.layers", value_name = "NAME=WIDTH", value_delimiter = ',')
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub layers: Option<Vec<LayerEntry>>,
    /// The face that the plan's outline is: plate for its outer face, or "plate inner"
    /// [default: plate, or the wall's outermost face if no layer is called plate].
    #[cfg_attr(feature = "cli", arg(long, id = "lines.outline", value_name = "FACE"))]
    pub outline: Option<String>,
    /// The footing's width, centred under the wall.
    #[cfg_attr(feature = "cli", arg(long, id = "lines.footing", value_name = "LENGTH"))]
    pub footing: Option<LengthEntry>,
    /// How far the footing stands outside the wall's outermost face, where it is not centred.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "lines.footing_projection", value_name = "LENGTH", requires = "lines.footing")
    )]
    pub footing_projection: Option<LengthEntry>,
    /// Also the outline held off by a distance: 1m is outward, -20 inward.
    #[cfg_attr(feature = "cli", arg(long, id = "lines.offset", value_name = "LENGTH"))]
    pub offset: Option<LengthEntry>,
    /// Running marks for every side, or for those named: --marks=DC,EF (DC is measured from D).
    #[cfg_attr(feature = "cli", arg(long, id = "lines.marks", value_name = "SIDES", num_args = 0.., require_equals = true, value_delimiter = ',', help_heading = "Along the sides"))]
    pub marks: Option<Vec<String>>,
    /// The string's weight, in g/m or lb/ft [default: 1g/m, assumed].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "lines.string", value_name = "WEIGHT", help_heading = "String")
    )]
    pub string: Option<QuantityEntry>,
    /// How hard the string is pulled, in N or lb [default: 50N, or 10lb in feet and inches, assumed].
    #[cfg_attr(feature = "cli", arg(long, id = "lines.pull", value_name = "FORCE", help_heading = "String"))]
    pub pull: Option<QuantityEntry>,
}

/// A layer of the wall.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct LayerEntry {
    /// Its name: skin, cavity, plate.
    pub name: Option<String>,
    /// Its thickness.
    pub width: Option<LengthEntry>,
}

/// From `NAME=WIDTH`.
impl FromStr for LayerEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (name, width) = text
            .split_once('=')
            .ok_or_else(|| EntryError::new("write the layer's name and thickness: plate=140"))?;
        Ok(Self { name: Some(name.trim().to_owned()), width: Some(LengthEntry::Text(width.to_owned())) })
    }
}

/// What lines and profiles depend on besides the outline.
#[derive(Debug, Clone, PartialEq)]
pub struct LinesJob {
    /// How far profiles stand beyond the corners, mm.
    pub setback: f64,
    /// It is the usual one, not given.
    pub setback_assumed: bool,
    /// The wall's build-up.
    pub wall: Wall,
    /// The string.
    pub string: StringLine,
    /// How far the offset outline is held off, mm, outward positive.
    pub offset: Option<f64>,
    /// What to mark along the sides.
    pub marks: Option<MarksQuestion>,
}

impl LinesJob {
    fn new(units: Units) -> Self {
        Self {
            setback: usual_setback(units),
            setback_assumed: true,
            wall: Wall::default(),
            string: StringLine::usual(units),
            offset: None,
            marks: None,
        }
    }
}

/// What `section` says of the lines, and what stands along the sides of the outline, as the file has it.
pub(in crate::job) fn lines(
    section: Option<&LinesSection>,
    along: AlongEntries<'_>,
    footprint: Option<&Footprint>,
    file: Cursor<'_>,
) -> LinesJob {
    let at = file.field("lines");
    let mut job = LinesJob::new(at.units);
    if let Some(section) = section {
        read(section, &mut job, at);
        if let (Some(footprint), Some(by)) = (footprint, job.offset) {
            // Asked here too, so that the fault is told at its option or its place in the file.
            at.field("offset").take(offset_outline(footprint, by, at.units));
        }
    }
    if let Some(footprint) = footprint {
        let named = section.and_then(|section| section.marks.as_deref());
        job.marks = marks(named, along, Along { footprint, at: file });
    }
    job
}

fn read(section: &LinesSection, job: &mut LinesJob, at: Cursor<'_>) {
    let units = at.units;
    job.wall = wall(section, at);
    let setback = at.field("setback").positive(section.setback.as_ref());
    // Whichever field the fault is of, the wall is as given, so its faults are told once.
    match job.wall.faces() {
        Ok(faces) => {
            let wall: f64 = job.wall.layers.iter().map(|layer| layer.width).sum();
            if let Some(footing) = job.wall.footing.filter(|footing| *footing < wall) {
                let (footing, wall) = (units.with_unit(footing), units.with_unit(wall));
                at.field("footing").fault(format!(
                    "{footing} is less than the wall on it, {wall}: write the footing's whole width"
                ));
            }
            let least = least_setback(&faces, units);
            job.setback = setback.unwrap_or(usual_setback(units).max(least));
            job.setback_assumed = setback.is_none();
            if job.setback < least {
                let error = LinesError::Setback { setback: job.setback, least };
                at.field("setback").fault(error.message(units));
            }
        }
        Err(error) => {
            let field = match &error {
                WallError::NoFace { .. } => "outline",
                WallError::FootingUnderNothing => "footing",
                WallError::TooMany(_) | WallError::BadName(_) | WallError::SameName(_) => "layers",
            };
            at.field(field).fault(error);
        }
    }
    if let Some(offset) = &section.offset {
        let length = at.field("offset").take(offset.read(at.default_units));
        job.offset = length.and_then(|length| at.field("offset").plausible(&offset.text(), length));
    }
    if let Some(string) = &section.string {
        if let Some(grams) = at.field("string").take(string.read(GRAMS_PER_METRE)) {
            job.string.grams_per_metre = grams;
        }
        job.string.weight_assumed = false;
    }
    if let Some(pull) = &section.pull {
        if let Some(newtons) = at.field("pull").take(pull.read(NEWTONS)) {
            job.string.pull = newtons;
        }
        job.string.pull_assumed = false;
    }
}

fn wall(section: &LinesSection, at: Cursor<'_>) -> Wall {
    let layers = section.layers.iter().flatten().enumerate();
    Wall {
        layers: layers.filter_map(|(i, entry)| layer(i, entry, at)).collect(),
        outline: section.outline.clone(),
        footing: at.field("footing").positive(section.footing.as_ref()),
        projection: at.field("footing_projection").not_negative(section.footing_projection.as_ref()),
    }
}

fn layer(i: usize, entry: &LayerEntry, at: Cursor<'_>) -> Option<Layer> {
    let at = at.item("layers", i);
    let named = entry.name.as_ref().map(|name| name.trim().to_owned());
    if named.is_none() {
        at.fault("say what the layer is called, such as plate");
    }
    if entry.width.is_none() {
        at.fault("say how thick the layer is: give `width`");
    }
    let width = at.field("width").positive(entry.width.as_ref());
    Some(Layer { name: named?, width: width? })
}

/// The marks asked for: by name, or because there is something to mark.
fn marks(named: Option<&[String]>, entries: AlongEntries<'_>, along: Along<'_>) -> Option<MarksQuestion> {
    let items = along.items(entries);
    let studs = along.studs(entries);
    let asked = named.is_some() || studs.is_some() || !items.is_empty();
    // Sides with nothing on them are told only if they were asked for.
    let every = named.is_some() || studs.is_some();
    let named = named.unwrap_or_default();
    let sides: Vec<(usize, bool)> = if named.is_empty() {
        let sides = along.footprint.sides().iter().enumerate();
        sides
            .filter(|(i, side)| !side.house && (every || items.iter().any(|item| item.side == *i)))
            .map(|(i, _)| (i, false))
            .collect()
    } else {
        named
            .iter()
            .enumerate()
            .filter_map(|(i, name)| along.side(along.at.field("lines").item("marks", i), Some(name)))
            .collect()
    };
    asked.then_some(MarksQuestion { sides, items, studs })
}
