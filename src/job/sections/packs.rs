//! The job file's section on packing, and its checking.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::job::faults::Faults;
#[cfg(feature = "cli")]
use crate::job::typed;
use crate::length::{AmountError, Length, Units};
use crate::packers::{CLOSE_ENOUGH, Packer, make_up};
use crate::packing::{Datum, Limit, Packing, PackingError, Readings, SetUp};
use crate::plan::{Footprint, Spot};
use crate::rules::{BED_JOINTS, LEVEL, UnknownPreset, find_in};
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
    /// A published limit on level instead: nhbc, labc, tms-602, kent or us-remodelling.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "packs.preset", value_name = "NAME", help_heading = "Levels")
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
    /// How near to its gap a stack has to come [default: 1mm].
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

/// The packing that `section` asks for, under studs at these centres too; none without readings. A bare number is in the first of `units`, places are
/// named in the second.
pub(in crate::job) fn packing(
    section: &PacksSection,
    footprint: &Footprint,
    studs: Option<f64>,
    units: (Units, Units),
    faults: &mut Faults,
) -> Option<Packing> {
    let (bare, shown) = units;
    let mut set_ups = vec![];
    for (kind, field, given) in [
        (Readings::Staff, "packs.staff", &section.staff),
        (Readings::Heights, "packs.heights", &section.heights),
    ] {
        for (i, readings) in given.iter().flatten().enumerate() {
            let read = readings.iter().enumerate().filter_map(|(j, text)| {
                let field = format!("{field}[{i}][{j}]");
                let (place, typed, length) = faults.take(&field, reading(text, footprint, bare))?;
                Some((place, faults.plausible(&field, typed, length, bare)?))
            });
            let readings = read.collect();
            set_ups.push(SetUp { kind, readings });
        }
    }
    let datum = match &section.datum {
        None => Datum::Highest,
        Some(text) => {
            let place = Spot::parse(text, footprint, bare).and_then(|place| place.on_plate(footprint));
            Datum::Named(faults.take("packs.datum", place)?)
        }
    };
    let packing = Packing {
        set_ups,
        datum,
        packers: packers("packs.packers", section.packers.as_ref(), bare, shown, faults),
        studs,
        limit: limit(section, bare, faults),
        tolerance: faults.not_negative("packs.within", section.within.as_ref(), bare).unwrap_or(CLOSE_ENOUGH),
        solid: faults.not_negative("packs.solid", section.solid.as_ref(), bare),
        units: shown,
    };
    if packing.set_ups.iter().all(|set_up| set_up.readings.is_empty()) {
        return None;
    }
    if faults.is_empty()
        && let Err(error) = packing.check(footprint)
    {
        let field = match error {
            PackingError::DatumNotRead { .. } => "packs.datum",
            PackingError::Amount(AmountError::TooMany { .. }) => "packs",
            _ if section.staff.is_some() => "packs.staff",
            _ => "packs.heights",
        };
        faults.add(field, error.message(shown));
    }
    Some(packing)
}

/// Reads `A=1412`: the place, and what was read there as it was typed.
fn reading<'a>(text: &'a str, footprint: &Footprint, bare: Units) -> Result<(Spot, &'a str, Length), String> {
    let Some((place, typed)) = text.split_once('=') else {
        return Err(format!(
            "`{}` is not a reading: write the place and what was read there: A=1412, or AB@2400=1409",
            quoted(text)
        ));
    };
    let place = Spot::parse(place, footprint, bare).and_then(|place| place.on_plate(footprint));
    let place = place.map_err(|error| error.to_string())?;
    let length = Length::parse(typed, bare).map_err(|error| format!("`{}`: {error}", quoted(text)))?;
    Ok((place, typed, length))
}

/// The packers listed in the field at `at`.
pub(super) fn packers(
    at: &str,
    entries: Option<&Vec<LengthEntry>>,
    bare: Units,
    shown: Units,
    faults: &mut Faults,
) -> Vec<Packer> {
    let mut packers = vec![];
    for (i, entry) in entries.into_iter().flatten().enumerate() {
        let field = format!("{at}[{i}]");
        let text = entry.text();
        let Some((count, typed, length)) = faults.take(&field, packer(&text, bare)) else { continue };
        let thickness =
            if length.mm > 0.0 { faults.plausible(&field, typed, length, bare) } else { Some(length.mm) };
        packers.extend(thickness.map(|thickness| Packer { thickness, count }));
    }
    // With nothing to make up, this is the check of the packers alone.
    let checked = make_up(&[], &packers, CLOSE_ENOUGH, shown).map_err(|error| error.message(shown));
    faults.take(at, checked);
    packers
}

/// Reads `5`, or `12x5` for twelve of 5: how many there are, and the thickness as it was typed.
fn packer(text: &str, bare: Units) -> Result<(Option<u32>, &str, Length), String> {
    let (count, typed) = match text.split_once(['x', 'X', '×']) {
        None => (None, text),
        Some((count, typed)) => match count.trim().parse() {
            Ok(count) => (Some(count), typed),
            Err(_) => {
                return Err(format!(
                    "`{}` is not a number of packers: write 12x5 for twelve of 5, or 5 alone for plenty",
                    quoted(count)
                ));
            }
        },
    };
    let thickness = Length::parse(typed, bare).map_err(|error| error.to_string())?;
    Ok((count, typed, thickness))
}

fn limit(section: &PacksSection, bare: Units, faults: &mut Faults) -> Option<Limit> {
    let own = faults.not_negative("packs.limit", section.limit.as_ref(), bare);
    let preset = section.preset.as_ref().and_then(|key| faults.take("packs.preset", published(key)));
    if section.limit.is_some() && section.preset.is_some() {
        faults.add("packs.preset", "the limit is given twice: leave out `preset` or `limit`");
    }
    own.map(Limit::Own).or(preset)
}

/// The published limit called `key`: on a wall's bed joint, or on the level of the whole.
fn published(key: &str) -> Result<Limit, UnknownPreset> {
    find_in([(BED_JOINTS, Limit::AlongWall), (LEVEL, Limit::Across)], "level", key)
}
