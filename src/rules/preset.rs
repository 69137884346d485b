//! A published tolerance that can be asked for by its key, and the tables it is looked up in.

use schemars::JsonSchema;
use serde::Serialize;

use super::figure::Source;
use super::keys::each_once;
use super::law::{self, Law};

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
    /// Lengths and the limits that the publication gives at them, mm: every figure of `says`. They hold `law` to it.
    #[serde(skip)]
    pub published: &'static [(f64, f64)],
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
            let known = each_once(all().map(|(preset, _)| preset.key)).join(", ");
            UnknownPreset { subject, given: key.to_owned(), known }
        })
}

#[cfg(test)]
mod tests {
    use crate::rules::{BED_JOINTS, DIAGONALS, LEVEL, PLAN_SIZES};

    #[test]
    fn keys_are_unique_within_a_table() {
        for table in [PLAN_SIZES, DIAGONALS, LEVEL, BED_JOINTS] {
            for (i, a) in table.iter().enumerate() {
                assert!(table.iter().skip(i + 1).all(|b| b.key != a.key), "{}", a.key);
            }
        }
    }
}
