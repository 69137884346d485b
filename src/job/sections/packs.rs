//! The job file's section on packing, and its checking.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::job::faults::Faults;
use crate::length::{AmountError, Length, Units};
use crate::packing::{
    CLOSE_ENOUGH, Datum, Limit, Packer, Packing, PackingError, Place, Readings, SetUp, make_up,
};
use crate::plan::Footprint;
use crate::rules::{BED_JOINTS, LEVEL, UnknownPreset, find_in};
use crate::words::quoted;

/// Levels read round the plate line, and what there is to pack it with.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PacksSection {
    /// Staff readings, a list for each set-up: "A=1412", or "AB@2400=1409" at a distance along a side. The bigger,
    /// the lower. A place read from two set-ups ties them.
    pub staff: Option<Vec<Vec<String>>>,
    /// Heights, a list for each set-up: "A=0", "AB@2400=-3". Up is +.
    pub heights: Option<Vec<Vec<String>>>,
    /// The place to pack level with, which must have been read; the highest unless given.
    pub datum: Option<String>,
    /// The packers in the van: a thickness alone where there are plenty, "12x5" for twelve of 5.
    pub packers: Option<Vec<LengthEntry>>,
    /// How near to its gap a stack of packers has to come; 1 mm unless given.
    pub within: Option<LengthEntry>,
    /// The deepest gap that the designer's schedule fills with solid packers.
    pub solid: Option<LengthEntry>,
    /// The most that the highest and the lowest place may differ. Instead of `preset`.
    pub limit: Option<LengthEntry>,
    /// A published limit on level: nhbc, labc, tms-602, kent or us-remodelling. Instead of `limit`.
    pub preset: Option<String>,
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
                faults.take(&format!("{field}[{i}][{j}]"), reading(text, footprint, bare))
            });
            let readings = read.collect();
            set_ups.push(SetUp { kind, readings });
        }
    }
    let datum = match &section.datum {
        None => Datum::Highest,
        Some(text) => Datum::Named(faults.take("packs.datum", Place::parse(text, footprint, bare))?),
    };
    let packing = Packing {
        set_ups,
        datum,
        packers: packers(section, bare, shown, faults),
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

/// Reads `A=1412`.
fn reading(text: &str, footprint: &Footprint, bare: Units) -> Result<(Place, f64), String> {
    let Some((place, value)) = text.split_once('=') else {
        return Err(format!(
            "`{}` is not a reading: write the place and what was read there: A=1412, or AB@2400=1409",
            quoted(text)
        ));
    };
    let place = Place::parse(place, footprint, bare).map_err(|error| error.to_string())?;
    let value = Length::parse(value, bare).map_err(|error| format!("`{}`: {error}", quoted(text)))?;
    Ok((place, value.mm))
}

fn packers(section: &PacksSection, bare: Units, shown: Units, faults: &mut Faults) -> Vec<Packer> {
    let mut packers = vec![];
    for (i, entry) in section.packers.iter().flatten().enumerate() {
        packers.extend(faults.take(&format!("packs.packers[{i}]"), packer(entry, bare)));
    }
    // With nothing to make up, this is the check of the packers alone.
    let checked = make_up(&[], &packers, shown).map_err(|error| error.message(shown));
    faults.take("packs.packers", checked);
    packers
}

/// Reads `5`, or `12x5` for twelve of 5.
fn packer(entry: &LengthEntry, bare: Units) -> Result<Packer, String> {
    let counted = match entry {
        LengthEntry::Text(text) => text.split_once(['x', 'X', '×']),
        LengthEntry::Number(_) => None,
    };
    let (count, thickness) = match counted {
        None => (None, entry.read(bare)),
        Some((count, thickness)) => match count.trim().parse() {
            Ok(count) => (Some(count), Length::parse(thickness, bare)),
            Err(_) => {
                return Err(format!(
                    "`{}` is not a number of packers: write 12x5 for twelve of 5, or 5 alone for plenty",
                    quoted(count)
                ));
            }
        },
    };
    let thickness = thickness.map_err(|error| error.to_string())?.mm;
    Ok(Packer { thickness, count })
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
