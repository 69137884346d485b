//! The job file's section on packing, and its checking.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
#[cfg(feature = "cli")]
use crate::job::typed;
use crate::length::{AmountError, InUnits, Length, Units};
use crate::packers::{CLOSE_ENOUGH, Packer, make_up};
use crate::packing::{Datum, Limit, Packing, PackingError, Readings, SetUp};
use crate::plan::{Footprint, Spot};
use crate::rules::{BED_JOINTS, LEVEL, SHIMS_AND_GROUT, SOLID_PACKING, UnknownPreset, find_in, listed};
use crate::words::quoted;

/// The readings of one set-up.
type Words = Vec<String>;

/// Levels read round the plate line, and what there is to pack it with.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct PacksSection {
    /// Staff readings from one set-up, place=reading: the bigger, the lower. AB@2400 is a place along a side.
    ///
    /// Each further set-up of the instrument is given again, apart; a place read from two set-ups ties them.
    #[cfg_attr(feature = "cli", arg(long, id = "packs.staff", value_name = "A=1412,B=1409", value_parser = typed::words, help_heading = "Levels"))]
    pub staff: Option<Vec<Words>>,
    /// Heights from one set-up, place=height: up is +. Each further set-up is given again, apart.
    #[cfg_attr(feature = "cli", arg(long, id = "packs.heights", value_name = "A=0,B=-3", value_parser = typed::words, help_heading = "Levels"))]
    pub heights: Option<Vec<Words>>,
    /// Pack level with this place [default: the highest].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "packs.datum", value_name = "PLACE", help_heading = "Levels")
    )]
    pub datum: Option<String>,
    /// The most that the highest and the lowest place may differ.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "packs.limit",
            value_name = "LENGTH",
            conflicts_with = "packs.preset",
            help_heading = "Levels"
        )
    )]
    pub limit: Option<LengthEntry>,
    /// A published limit on level instead, by its key.
    #[schemars(description = format!("{}.", presets()))]
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "packs.preset", value_name = "NAME", help_heading = "Levels", help = presets())
    )]
    pub preset: Option<String>,
    /// The packers in the van: a thickness alone where there are plenty, 12x5 for twelve of 5.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "packs.packers",
            value_name = "1,2,12x5",
            value_delimiter = ',',
            help_heading = "Packers"
        )
    )]
    pub packers: Option<Vec<LengthEntry>>,
    /// How near to its gap a stack has to come [default: 1mm, or 1/16in in feet and inches].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "packs.within", value_name = "LENGTH", help_heading = "Packers")
    )]
    pub within: Option<LengthEntry>,
    /// The deepest gap that the designer's schedule fills with solid packers.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "packs.solid", value_name = "LENGTH", help_heading = "Packers")
    )]
    pub solid: Option<LengthEntry>,
}

fn presets() -> String {
    format!(
        "A published limit on level instead: {}",
        listed(BED_JOINTS.iter().chain(LEVEL).map(|preset| preset.key))
    )
}

/// The packing that `section` asks for, under studs at these centres too; none without readings.
pub(in crate::job) fn packing(
    section: &PacksSection,
    footprint: &Footprint,
    studs: Option<f64>,
    at: Cursor<'_>,
) -> Option<Packing> {
    let mut set_ups = vec![];
    for (kind, field, given) in
        [(Readings::Staff, "staff", &section.staff), (Readings::Heights, "heights", &section.heights)]
    {
        for (i, readings) in given.iter().flatten().enumerate() {
            let at = at.item(field, i);
            let read = readings.iter().enumerate().filter_map(|(j, text)| {
                let at = at.nth(j);
                let (place, typed, length) = at.take(reading(text, footprint, at))?;
                Some((place, at.plausible(typed, length)?))
            });
            let readings = read.collect();
            set_ups.push(SetUp { kind, readings });
        }
    }
    let datum = match &section.datum {
        None => Datum::Highest,
        Some(text) => {
            let place =
                Spot::parse(text, footprint, at.default_units).and_then(|place| place.on_plate(footprint));
            Datum::Named(at.field("datum").take(place)?)
        }
    };
    let packing = Packing {
        set_ups,
        datum,
        packers: packers(section.packers.as_ref(), at.field("packers")),
        studs,
        limit: limit(section, at),
        tolerance: at
            .field("within")
            .not_negative(section.within.as_ref())
            .unwrap_or(at.units.usual(CLOSE_ENOUGH, 1.0 / 16.0)),
        solid: at.field("solid").not_negative(section.solid.as_ref()),
        filling: match at.units {
            Units::Mm | Units::M => SOLID_PACKING,
            Units::FeetInches => SHIMS_AND_GROUT,
        },
        units: at.units,
    };
    if packing.set_ups.iter().all(|set_up| set_up.readings.is_empty()) {
        return None;
    }
    if at.faults() == 0
        && let Err(error) = packing.check(footprint)
    {
        let field = match error {
            PackingError::DatumNotRead { .. } => "datum",
            PackingError::Amount(AmountError::TooMany { .. }) => "",
            _ if section.staff.is_some() => "staff",
            _ => "heights",
        };
        at.field(field).fault(error.message(at.units));
    }
    Some(packing)
}

/// Reads `A=1412`: the place, and what was read there as it was typed.
fn reading<'a>(
    text: &'a str,
    footprint: &Footprint,
    at: Cursor<'_>,
) -> Result<(Spot, &'a str, Length), String> {
    let Some((place, typed)) = text.split_once('=') else {
        return Err(format!(
            "`{}` is not a reading: write the place and what was read there: {}",
            quoted(text),
            at.units.example("A=1412, or AB@2400=1409", "A=4ft7-1/2in, or AB@8ft=4ft7in")
        ));
    };
    let place = Spot::parse(place, footprint, at.default_units).and_then(|place| place.on_plate(footprint));
    let place = place.map_err(|error| error.to_string())?;
    let length = at.length(typed).map_err(|problem| format!("`{}`: {problem}", quoted(text)))?;
    Ok((place, typed, length))
}

/// The packers listed in this field.
pub(super) fn packers(entries: Option<&Vec<LengthEntry>>, at: Cursor<'_>) -> Vec<Packer> {
    let mut packers = vec![];
    for (i, entry) in entries.into_iter().flatten().enumerate() {
        let text = entry.text();
        let at = at.nth(i);
        let Some((count, typed, length)) = at.take(packer(&text, at)) else { continue };
        let thickness = if length.mm > 0.0 { at.plausible(typed, length) } else { Some(length.mm) };
        packers.extend(thickness.map(|thickness| Packer { thickness, count }));
    }
    // With nothing to make up, this is the check of the packers alone.
    let checked = make_up(&[], &packers, CLOSE_ENOUGH, at.units).map_err(|error| error.message(at.units));
    at.take(checked);
    packers
}

/// Reads `5`, or `12x5` for twelve of 5: how many there are, and the thickness as it was typed.
fn packer<'t>(text: &'t str, at: Cursor<'_>) -> Result<(Option<u32>, &'t str, Length), String> {
    let (count, typed) = match text.split_once(['x', 'X', '×']) {
        None => (None, text),
        Some((count, typed)) => match count.trim().parse() {
            Ok(count) => (Some(count), typed),
            Err(_) => {
                return Err(format!(
                    "`{}` is not a number of packers: write {} alone for plenty",
                    quoted(count),
                    at.units.example("12x5 for twelve of 5, or 5", "12x1/4in for twelve of 1/4in, or 1/4in")
                ));
            }
        },
    };
    Ok((count, typed, at.length(typed)?))
}

fn limit(section: &PacksSection, at: Cursor<'_>) -> Option<Limit> {
    let own = at.field("limit").not_negative(section.limit.as_ref());
    let preset = section.preset.as_ref().and_then(|key| at.field("preset").take(published(key)));
    if section.limit.is_some() && section.preset.is_some() {
        at.field("preset").fault("the limit is given twice: leave out `preset` or `limit`");
    }
    own.map(Limit::Own).or(preset)
}

/// The published limit called `key`: on a wall's bed joint, or on the level of the whole.
fn published(key: &str) -> Result<Limit, UnknownPreset> {
    find_in([(BED_JOINTS, Limit::AlongWall), (LEVEL, Limit::Across)], "level", key)
}
