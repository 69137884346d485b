//! The job file's section on heights, and its checking.

#[cfg(feature = "cli")]
use clap::ArgAction::Set;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::heights::{End, HeightsError, Joists, Layer, Taped, WallHead, heights};
use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
use crate::length::{InUnits, Length, MM_PER_FOOT, Units};
use crate::plan::{Footprint, Spot};
use crate::rules::{ROOF_FALLS, listed};
use crate::words::quoted;

/// The existing wall head, and what stands between it and the plate line.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct HeightsSection {
    /// Tape readings from the top of a level, held on the existing wall head: C=2398, or 2398 alone.
    ///
    /// C=2398 is taped down to the masonry at C, and the pack there from `packs` comes off; 2398 alone is taped down
    /// to the packed line that the plate lies on.
    #[cfg_attr(
        feature = "cli",
        arg(
            id = "heights.drops",
            long = "drop",
            value_name = "LENGTHS",
            value_delimiter = ',',
            help_heading = "Wall head"
        )
    )]
    pub drops: Option<Vec<LengthEntry>>,
    /// The level's own depth: measure it, levels differ.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.level_depth", value_name = "LENGTH", help_heading = "Wall head")
    )]
    pub level_depth: Option<LengthEntry>,
    /// The most that the drops may differ among themselves [default: 5mm, or 3/16in in feet and inches].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.spread", value_name = "LENGTH", help_heading = "Wall head")
    )]
    pub spread: Option<LengthEntry>,
    /// The layers: packing, dpc, plate, rail, binder, floor, lining or slab, each with its thickness.
    ///
    /// A layer may come more than once, and may have a name of its own: floor:screed=65. The first rail is the
    /// panel's bottom one. A slab is how far it lies below the line that the plate lies on.
    #[cfg_attr(feature = "cli", arg(long, id = "heights.stack", value_name = "plate=38,floor=75", action = Set, value_delimiter = ',', help_heading = "Stack"))]
    pub stack: Option<Vec<String>>,
    /// The ceiling height wanted, floor finish to lining.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.ceiling", value_name = "LENGTH", help_heading = "Stack")
    )]
    pub ceiling: Option<LengthEntry>,
    /// Level of the joist hanger's seat on the house, above the line that the plate lies on.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.hanger", value_name = "LENGTH", help_heading = "Joists")
    )]
    pub hanger: Option<LengthEntry>,
    /// Level of the joists' bearing on the new wall [default: the top of the stack].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.bearing", value_name = "LENGTH", help_heading = "Joists")
    )]
    pub bearing: Option<LengthEntry>,
    /// Distance between the joists' two supports.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.run", value_name = "LENGTH", help_heading = "Joists")
    )]
    pub run: Option<LengthEntry>,
    /// The fall wanted.
    #[schemars(description = format!("{}.", falls()))]
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.fall", value_name = "1:N|LENGTH", help_heading = "Joists", help = falls())
    )]
    pub fall: Option<String>,
    /// The end that the fall runs down to, wall or house [default: wall].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "heights.fall_to", value_name = "END", help_heading = "Joists")
    )]
    pub fall_to: Option<String>,
}

/// The units that the drops are written in, else the ceiling.
pub(in crate::job) fn written_in(section: &HeightsSection, default_units: Units) -> Option<Units> {
    let drops = section.drops.iter().flatten().map(|entry| split(entry).1);
    let mut lengths = drops.chain(section.ceiling.clone());
    lengths.find_map(|entry| entry.read(default_units).ok()?.written_in)
}

/// The wall head that `section` gives, places named in the units to answer in.
pub(in crate::job) fn wall_head(
    section: &HeightsSection,
    footprint: Option<&Footprint>,
    at: Cursor<'_>,
) -> WallHead {
    let mut drops = vec![];
    for (i, entry) in section.drops.iter().flatten().enumerate() {
        let at = at.item("drops", i);
        let (place, drop) = split(entry);
        let place = place.and_then(|text| at.take(on_plate(&text, footprint, at)));
        let drop = at.positive(Some(&drop));
        drops.extend(drop.map(|drop| Taped { drop, place, pack: None }));
    }
    let level_depth = at.field("level_depth").not_negative(section.level_depth.as_ref());
    if section.drops.is_some() && section.level_depth.is_none() {
        at.field("drops").fault("the level's own depth is needed too: measure it (levels differ) and give it (--level-depth, or `level_depth` in the job file)",
        );
    }
    let ceiling = at.field("ceiling").positive(section.ceiling.as_ref());
    let mut layers = vec![];
    let stack = section.stack.iter().flatten().map(|text| text.trim()).enumerate();
    for (i, text) in stack.filter(|(_, text)| !text.is_empty()) {
        let at = at.item("stack", i);
        let Some((name, typed, length)) = at.take(layer(text, at)) else { continue };
        let thickness = at.plausible(typed, length);
        layers.extend(thickness.and_then(|thickness| at.take(Layer::new(name, thickness))));
    }
    let head = WallHead {
        drops,
        level_depth,
        layers,
        ceiling,
        spread_limit: at
            .field("spread")
            .not_negative(section.spread.as_ref())
            .or_else(|| (at.units == Units::FeetInches).then(|| at.units.usual(0.0, 3.0 / 16.0))),
        joists: joists(section, at),
    };
    if at.faults() == 0
        && let Err(error) = heights(&head)
        && error != HeightsError::NothingToSolve
    {
        let field = match error {
            HeightsError::BelowDatum { .. } => "drops",
            HeightsError::NoRoomFor { .. } if section.stack.is_some() => "stack",
            _ => "",
        };
        at.field(field).fault(error.message(at.units));
    }
    head
}

/// `C=2398` as its place and its drop.
fn split(entry: &LengthEntry) -> (Option<String>, LengthEntry) {
    match entry {
        LengthEntry::Text(text) => match text.split_once('=') {
            Some((place, drop)) => (Some(place.to_owned()), LengthEntry::Text(drop.to_owned())),
            None => (None, entry.clone()),
        },
        LengthEntry::Number(_) => (None, entry.clone()),
    }
}

/// The name of the place that `text` is.
fn on_plate(text: &str, footprint: Option<&Footprint>, at: Cursor<'_>) -> Result<String, String> {
    let footprint = footprint.ok_or_else(|| {
        format!("`{}` is a place on a plan: give `plan` in the job file, or the drop alone", quoted(text))
    })?;
    let place = Spot::parse(text, footprint, at.default_units).and_then(|place| place.on_plate(footprint));
    let place = place.map_err(|error| error.to_string())?;
    Ok(place.name(footprint, at.units))
}

/// Reads `plate=38`: the name, and the thickness as it was typed.
fn layer<'a>(text: &'a str, at: Cursor<'_>) -> Result<(&'a str, &'a str, Length), String> {
    let Some((name, typed)) = text.split_once('=') else {
        let example = at.units.example("38", "1-1/2in");
        return Err(format!(
            "`{}` is not a layer: write its name and its thickness: plate={example}",
            quoted(text)
        ));
    };
    let thickness = at.length(typed).map_err(|problem| format!("`{}`: {problem}", quoted(text)))?;
    if thickness.mm < 0.0 {
        return Err(format!("`{}`: a layer can't be less than nothing thick", quoted(text)));
    }
    Ok((name, typed, thickness))
}

/// What the help and the schema say of a fall.
pub(super) fn falls() -> String {
    let keys = listed(ROOF_FALLS.iter().map(|fall| fall.key));
    format!(
        "The fall wanted: 1:40, 1/4in for that much in a foot, or {keys} for a flat roof's [default: level]"
    )
}

fn joists(section: &HeightsSection, at: Cursor<'_>) -> Option<Joists> {
    let house = at.field("hanger").positive(section.hanger.as_ref());
    let wall = at.field("bearing").positive(section.bearing.as_ref());
    let run = at.field("run").positive(section.run.as_ref());
    let one_in = section.fall.as_ref().and_then(|text| at.field("fall").take(one_in(text)));
    let down_to = section.fall_to.as_ref().and_then(|text| at.field("fall_to").take(end(text)));
    let others = [
        ("run", section.run.is_some()),
        ("bearing", section.bearing.is_some()),
        ("fall", section.fall.is_some()),
        ("fall_to", section.fall_to.is_some()),
    ];
    match (&section.hanger, &section.run) {
        (Some(_), None) => at.field("hanger").fault("the run between the joists' two supports is needed too: give it (--run, or `run` in the job file)",
        ),
        (None, _) => {
            if let Some((field, _)) = others.iter().find(|(_, given)| *given) {
                at.field(field).fault("the level of the joist hanger on the house is needed too: give it (--hanger, or `hanger` in the job file)",
                );
            }
        }
        (Some(_), Some(_)) => {}
    }
    Some(Joists { house: house?, wall, run: run?, one_in, down_to: down_to.unwrap_or_default() })
}

/// The finest part of an inch that a fall in a foot is given to.
const FINEST: f64 = 16.0;

/// The n of `1:n`, of so much in a foot, or of a published fall by its name.
pub(super) fn one_in(text: &str) -> Result<f64, String> {
    let wanted = text.trim();
    if let Some(fall) = ROOF_FALLS.iter().find(|fall| fall.key.eq_ignore_ascii_case(wanted)) {
        return Ok(fall.one_in);
    }
    let figure = wanted.strip_prefix('1').map(str::trim_start);
    let number = |text: &str| text.trim().parse::<f64>().ok();
    if let Some(n) = figure.and_then(|rest| number(rest.strip_prefix('/')?)).filter(|n| *n <= FINEST) {
        return Err(format!("`1/{n}` can be read two ways: write 1:{n}, or 1/{n}in for that much in a foot"));
    }
    let figure = figure.and_then(|rest| rest.strip_prefix([':', '/']).or_else(|| rest.strip_prefix("in ")));
    let figure = figure.and_then(number).or_else(|| in_a_foot(wanted));
    figure.filter(|n| (1.0..=10_000.0).contains(n)).ok_or_else(|| {
        let named = ROOF_FALLS.iter().map(|fall| format!("{} (1:{})", fall.key, fall.one_in));
        let named = named.collect::<Vec<_>>().join(", ");
        format!(
            "`{}` is not a fall: write 1:40, 1/4in for that much in a foot, or a name: {named}",
            quoted(wanted)
        )
    })
}

/// The n of a fall of so many inches in a foot: `1/4in`, `1/4:12`, `1/4 in 12`.
fn in_a_foot(text: &str) -> Option<f64> {
    let twelve = text.strip_suffix("12").map(str::trim_end);
    let rise = twelve.and_then(|rest| rest.strip_suffix(':').or_else(|| rest.strip_suffix(" in")));
    let rise = match rise {
        Some(rise) => Length::parse(&format!("{}in", rise.trim_end_matches("in").trim()), Units::FeetInches),
        None => Length::parse(text, Units::Mm),
    };
    let rise = rise.ok().filter(|rise| rise.written_in == Some(Units::FeetInches) && rise.mm > 0.0)?;
    // To a billionth, so that 1/4 in is 1:48 and not 1:48.00000000000001.
    Some((MM_PER_FOOT / rise.mm * 1e9).round() / 1e9)
}

fn end(text: &str) -> Result<End, String> {
    match text.trim().to_ascii_lowercase().as_str() {
        "wall" => Ok(End::Wall),
        "house" => Ok(End::House),
        other => Err(format!("`{}` is not an end of the joists: write wall or house", quoted(other))),
    }
}
