//! Offset-block readings along a side.

use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geometry::Point;
use crate::job::cursor::Cursor;
use crate::job::entries::{or_text, short_list};
use crate::job::{EntryError, LengthEntry};
use crate::lines::{MOST_BLOCK_READINGS, Reading, StraightQuestion, StringSide};
use crate::plan::{Footprint, SAME_PLACE};
use crate::words::quoted;

/// For offset-block readings along a side.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct StraightSection {
    /// The side, the corner that the stations are measured from first. No plan is needed.
    #[cfg_attr(feature = "cli", arg(long, id = "straight.side", value_name = "SIDE"))]
    pub side: Option<String>,
    /// The thickness of the blocks that hold the string off the plate at both ends.
    #[cfg_attr(feature = "cli", arg(long, id = "straight.block", value_name = "LENGTH"))]
    pub block: Option<LengthEntry>,
    /// Readings from the string to the plate, each with how far along the side it was taken.
    #[cfg_attr(
        feature = "cli",
        arg(id = "straight.readings", long = "read", value_name = "AT=READING", value_delimiter = ',')
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub readings: Option<Vec<ReadingEntry>>,
    /// The most that any station may be out of line.
    #[cfg_attr(feature = "cli", arg(long, id = "straight.limit", value_name = "LENGTH"))]
    pub limit: Option<LengthEntry>,
    /// The face of the plate that the string is on: outside or inside [default: outside].
    #[cfg_attr(feature = "cli", arg(id = "straight.string", long = "string-on", value_name = "FACE"))]
    pub string: Option<String>,
}

/// A reading from the string to the plate.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct ReadingEntry {
    /// How far along the side.
    pub at: Option<LengthEntry>,
    /// From the string to the plate.
    pub reading: Option<LengthEntry>,
}

/// From `AT=READING`.
impl FromStr for ReadingEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (at, reading) = text
            .split_once('=')
            .ok_or_else(|| EntryError::new("write how far along the side, then the reading: 1200=22"))?;
        Ok(Self {
            at: Some(LengthEntry::Text(at.to_owned())),
            reading: Some(LengthEntry::Text(reading.to_owned())),
        })
    }
}

/// The question of a side's straightness, if there are readings.
pub(in crate::job) fn straight(
    section: &StraightSection,
    footprint: Option<&Footprint>,
    at: Cursor<'_>,
) -> Option<StraightQuestion> {
    let side = section.side.as_ref().map(|side| side.trim().to_owned());
    let index = match (&side, footprint) {
        (Some(side), Some(footprint)) => at.field("side").take(footprint.parse_side(side)),
        _ => None,
    };
    let named = side.map(|side| quoted(&side));
    let string = section.string.as_ref().map_or(Some(StringSide::default()), |word| {
        let found = [StringSide::Outside, StringSide::Inside]
            .into_iter()
            .find(|side| side.name().eq_ignore_ascii_case(word.trim()));
        if found.is_none() {
            at.field("string").fault(format!("`{word}` is no face: write outside or inside"));
        }
        found
    });
    let block = at.field("block").positive(section.block.as_ref());
    let limit = at.field("limit").not_negative(section.limit.as_ref());
    let entries = section.readings.as_ref()?;
    if section.block.is_none() {
        at.field("block").fault("say how thick the blocks are that hold the string off: --block 20, or `straight.block` in the job file",
        );
    }
    if entries.len() > MOST_BLOCK_READINGS {
        at.field("readings")
            .fault(format!("{} readings are given: {MOST_BLOCK_READINGS} is the most taken", entries.len()));
        return None;
    }
    let readings = in_order(entries, at);
    if let (Some(footprint), Some(index), Some(last)) = (footprint, index, readings.last()) {
        let length = footprint.sides()[index].length;
        if last.at > length + SAME_PLACE {
            at.field("readings").fault(format!(
                "the station at {} is past the end of {}, which is {} long",
                at.units.with_unit(last.at),
                footprint.side_name(index),
                at.units.with_unit(length)
            ));
        }
    }
    Some(StraightQuestion {
        side: named.map(|side| if index.is_some() { side.to_uppercase() } else { side }),
        block: block?,
        string: string?,
        readings,
        limit,
        inward: index.zip(footprint).and_then(|(index, footprint)| inward(footprint, index)),
    })
}

/// The readings from one end of the side to the other.
fn in_order(entries: &[ReadingEntry], at: Cursor<'_>) -> Vec<Reading> {
    let mut readings: Vec<Reading> =
        entries.iter().enumerate().filter_map(|(i, entry)| reading(i, entry, at)).collect();
    readings.sort_by(|a, b| a.at.total_cmp(&b.at));
    for pair in readings.windows(2) {
        if pair[1].at - pair[0].at <= SAME_PLACE {
            at.field("readings")
                .fault(format!("there are two readings at {}: keep one", at.units.with_unit(pair[0].at)));
        }
    }
    readings
}

fn reading(i: usize, entry: &ReadingEntry, at: Cursor<'_>) -> Option<Reading> {
    let at = at.item("readings", i);
    if entry.at.is_none() || entry.reading.is_none() {
        at.fault("a reading needs where it was taken and what it was: give `at` and `reading`");
    }
    let along = at.field("at").not_negative(entry.at.as_ref());
    let reading = at.field("reading").not_negative(entry.reading.as_ref());
    Some(Reading { at: along?, reading: reading? })
}

/// The side that lies across the footprint from the middle of side `index`.
fn inward(footprint: &Footprint, index: usize) -> Option<String> {
    let side = footprint.sides()[index];
    let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
    let middle = Point::new(f64::midpoint(a.x, b.x), f64::midpoint(a.y, b.y));
    let (out, step) = (side.heading.outward(), side.heading.step());
    let depth = |p: Point| (middle.x - p.x) * out.0 + (middle.y - p.y) * out.1;
    let along = |p: Point| (p.x - middle.x) * step.0 + (p.y - middle.y) * step.1;
    let ends = |i: usize| {
        let other = footprint.sides()[i];
        (footprint.corners()[other.from].at, footprint.corners()[other.to].at)
    };
    (0..footprint.len())
        .filter(|i| footprint.sides()[*i].heading == side.heading.right().right())
        .filter(|i| {
            let (p, q) = ends(*i);
            depth(p) > SAME_PLACE
                && along(p).min(along(q)) <= SAME_PLACE
                && along(p).max(along(q)) >= -SAME_PLACE
        })
        .min_by(|i, j| depth(ends(*i).0).total_cmp(&depth(ends(*j).0)))
        .map(|i| footprint.side_name(i))
}
