//! Published limits: one table a subject, every value with its source, how it was seen, and how it scales.
//!
//! A preset never overrides the user's own limit. Figures that could not be confirmed anywhere (the largest plate
//! overhang, the pack height that needs structural grout, fixing centres of a sole plate, a diagonal tolerance for
//! a wall plate on masonry) are deliberately absent: they are the user's to set.
//!
//! ```
//! use pegline::rules::{PLAN_SIZES, Seen, find};
//!
//! let preset = find(PLAN_SIZES, "a size on plan", "din-18202")?;
//! assert_eq!(preset.source.seen, Seen::Secondary);
//! assert!(preset.limit(6000.0) < preset.limit(20_000.0));
//! # Ok::<(), pegline::rules::UnknownPreset>(())
//! ```

mod anchors;
mod ceiling;
mod diagonals;
mod laps;
mod law;
mod level;
mod packing;
mod plan_sizes;
pub mod right_angle;
mod roof;
mod straps;

use schemars::JsonSchema;
use serde::Serialize;

pub use anchors::{ANCHOR_SETS, AnchorSet, US_BOLT, US_EMBEDMENT, UnknownAnchorSet, anchor_set};
pub use ceiling::{COMMON_CEILING, LEAST_CEILING};
pub use diagonals::DIAGONALS;
pub use laps::{DPC_LAP, SPLICE_LAP};
pub use law::{Band, Law};
pub use level::{BED_JOINTS, LEVEL};
pub use packing::SOLID_PACKING;
pub use plan_sizes::PLAN_SIZES;
pub use roof::{DESIGN_FALL, FINISHED_FALL, Fall, ROOF_FALLS};
pub use straps::STRAP_SPACING;

/// Millimetres in an inch, exact by definition.
const INCH: f64 = 25.4;
/// Millimetres in a foot, exact by definition.
const FOOT: f64 = 304.8;

/// How a published figure was seen by whoever put it here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Seen {
    /// On the publisher's own page.
    #[serde(rename = "official page")]
    Official,
    /// Quoted on somebody else's page.
    #[serde(rename = "secondary page")]
    Secondary,
    /// Written down from memory: look it up before relying on it.
    #[serde(rename = "from memory")]
    Memory,
    /// Common practice of the trade, with no source.
    #[serde(rename = "common practice, no source")]
    Practice,
}

impl Seen {
    /// The words to print beside the figure.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Official => "official page",
            Self::Secondary => "secondary page",
            Self::Memory => "from memory",
            Self::Practice => "common practice, no source",
        }
    }
}

/// Where a figure is published, and how it was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Source {
    /// The publication, with its table or clause where known.
    pub publication: &'static str,
    /// How the figure was seen.
    pub seen: Seen,
}

/// One published figure, mm, with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// The figure, mm.
    pub value: f64,
    /// What the publication says of it, in our words.
    pub says: &'static str,
    /// Where it comes from.
    pub source: Source,
}

/// A published tolerance that can be asked for by its key.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Preset {
    /// The word that names it on the command line and in a job file.
    pub key: &'static str,
    /// What the publication says, in our words.
    pub says: &'static str,
    /// Where it comes from.
    pub source: Source,
    /// How the limit grows with the length.
    #[serde(rename = "scaling", serialize_with = "law::serialize_words")]
    #[schemars(with = "String")]
    pub law: Law,
}

impl Preset {
    /// The limit, ± mm, over `length` mm; `None` where the publication gives none, and for a length that is not a
    /// positive finite number.
    ///
    /// A limit stated for one right triangle ([`Law::SameAngle`]) has none for a bare length: use
    /// [`Preset::diagonal_limit`].
    #[must_use]
    pub fn limit(&self, length: f64) -> Option<f64> {
        self.law.limit(length)
    }

    /// The limit, ± mm, on the hypotenuse of the right triangle with legs `a` and `b` mm.
    ///
    /// A limit by length is taken at the true hypotenuse. `None` as for [`Preset::limit`].
    #[must_use]
    pub fn diagonal_limit(&self, a: f64, b: f64) -> Option<f64> {
        self.law.diagonal_limit(a, b)
    }
}

/// A preset's key that is not in the table asked.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no published limit `{given}` for {subject}: write one of {known}, or your own limit in mm")]
pub struct UnknownPreset {
    /// What the limit was wanted for.
    pub subject: &'static str,
    /// The key as given.
    pub given: String,
    /// The keys of the table.
    pub known: String,
}

/// The preset called `key` in `table`, whatever the case of the letters. `subject` goes into the error.
pub fn find(
    table: &'static [Preset],
    subject: &'static str,
    key: &str,
) -> Result<&'static Preset, UnknownPreset> {
    find_in([(table, |preset| preset)], subject, key)
}

/// A table, and what a preset of it is made into.
pub type TableOf<T> = (&'static [Preset], fn(&'static Preset) -> T);

/// The first preset called `key` in any of the tables, as what a preset of that table is made into.
pub fn find_in<T, const N: usize>(
    tables: [TableOf<T>; N],
    subject: &'static str,
    key: &str,
) -> Result<T, UnknownPreset> {
    let wanted = key.trim();
    let all = || {
        let tables = tables.iter();
        tables.flat_map(|(table, made)| table.iter().map(move |preset| (preset, made)))
    };
    all()
        .find(|(preset, _)| preset.key.eq_ignore_ascii_case(wanted))
        .map(|(preset, made)| made(preset))
        .ok_or_else(|| {
            let mut known: Vec<&str> = vec![];
            for (preset, _) in all() {
                if !known.contains(&preset.key) {
                    known.push(preset.key);
                }
            }
            UnknownPreset { subject, given: key.to_owned(), known: known.join(", ") }
        })
}

#[cfg(test)]
mod tests {
    use super::{BED_JOINTS, DIAGONALS, LEVEL, PLAN_SIZES};

    #[test]
    fn keys_are_unique_within_a_table() {
        for table in [PLAN_SIZES, DIAGONALS, LEVEL, BED_JOINTS] {
            for (i, a) in table.iter().enumerate() {
                assert!(table.iter().skip(i + 1).all(|b| b.key != a.key), "{}", a.key);
            }
        }
    }
}
