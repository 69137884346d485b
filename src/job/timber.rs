//! The timber and the list of pieces in a job file, and their checking.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserializer, Visitor};
use serde::{Deserialize, Serialize};

use super::LengthEntry;
use super::faults::Faults;
use crate::cuts;
use crate::cutting::{MAX_LENGTHS, MAX_PIECES, MAX_STOCK, Pence, Tenths, Wanted};
use crate::length::Units;
use crate::money::{MoneyError, parse_money};
use crate::plates::tenths;
use crate::stock::{ForSale, InVan, Timber};

/// The longest search that can be asked for, seconds.
const MOST_SECONDS: f64 = 3600.0;

/// The timber: what can be bought, what is in the van, what the saw takes.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct StockSection {
    /// The lengths that can be bought; all with a price, or none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lengths: Option<Vec<ForSaleEntry>>,
    /// What is in the van already; it is used first and costs nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub have: Option<Vec<CountEntry>>,
    /// What one saw cut takes; 3 mm unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kerf: Option<LengthEntry>,
    /// What is trimmed off each length before anything is cut from it, both ends together; 0 unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trim: Option<LengthEntry>,
}

/// A length that can be bought.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ForSaleEntry {
    /// Its length.
    pub length: LengthEntry,
    /// The price of one, in the job's money.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<MoneyEntry>,
}

/// So many of a length.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CountEntry {
    /// The length of each.
    pub length: LengthEntry,
    /// How many; 1 unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<usize>,
}

/// A list of pieces to be cut whole.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct CutsSection {
    /// The pieces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pieces: Option<Vec<CountEntry>>,
    /// How long to look for the best cut, seconds; 5 unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seconds: Option<f64>,
}

/// An amount of money as written: `10.8`, or `"10.80"`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum MoneyEntry {
    /// A number.
    Number(f64),
    /// A text.
    Text(String),
}

impl MoneyEntry {
    /// The amount.
    pub fn read(&self) -> Result<Pence, MoneyError> {
        match self {
            Self::Text(text) => parse_money(text),
            Self::Number(number) => parse_money(&number.to_string()),
        }
    }
}

impl<'de> Deserialize<'de> for MoneyEntry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Entry;

        impl Visitor<'_> for Entry {
            type Value = MoneyEntry;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a price, such as 10.80")
            }

            fn visit_i64<E: de::Error>(self, value: i64) -> Result<Self::Value, E> {
                Ok(MoneyEntry::Text(value.to_string()))
            }

            fn visit_u64<E: de::Error>(self, value: u64) -> Result<Self::Value, E> {
                Ok(MoneyEntry::Text(value.to_string()))
            }

            fn visit_f64<E: de::Error>(self, value: f64) -> Result<Self::Value, E> {
                Ok(MoneyEntry::Number(value))
            }

            fn visit_str<E: de::Error>(self, value: &str) -> Result<Self::Value, E> {
                Ok(MoneyEntry::Text(value.to_owned()))
            }
        }

        deserializer.deserialize_any(Entry)
    }
}

impl JsonSchema for MoneyEntry {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Money".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "An amount in the job's money, with at most two decimals.",
            "type": ["number", "string"],
            "examples": [10.8, "10.80"]
        })
    }
}

/// The timber, checked; `None` where none is given.
pub(super) fn timber(section: Option<&StockSection>, bare: Units, faults: &mut Faults) -> Option<Timber> {
    let section = section?;
    let mut timber = Timber::default();
    if let Some(lengths) = &section.lengths {
        timber.for_sale = for_sale(lengths, bare, faults);
    }
    for (i, entry) in section.have.iter().flatten().enumerate() {
        let field = format!("stock.have[{i}]");
        if let Some(length) = faults.positive(&format!("{field}.length"), Some(&entry.length), bare) {
            timber.in_van.push(InVan {
                length: tenths(length),
                count: entry.count.unwrap_or(1),
            });
        }
    }
    let given = timber.for_sale.len() + timber.in_van.len();
    if given > MAX_STOCK {
        faults.add(
            "stock.lengths",
            format!("{given} lengths are given, those in the van among them: {MAX_STOCK} is the most"),
        );
    }
    if let Some(kerf) = faults.not_negative("stock.kerf", section.kerf.as_ref(), bare) {
        timber.kerf = tenths(kerf);
    }
    if let Some(trim) = faults.not_negative("stock.trim", section.trim.as_ref(), bare) {
        timber.trim = tenths(trim);
        let shortest = timber
            .for_sale
            .iter()
            .map(|item| item.length)
            .chain(timber.in_van.iter().map(|item| item.length))
            .min();
        if let Some(shortest) = shortest.filter(|shortest| *shortest <= timber.trim) {
            faults.add(
                "stock.trim",
                format!("it leaves nothing of a length of {shortest} mm: write a smaller one"),
            );
        }
    }
    Some(timber)
}

fn for_sale(lengths: &[ForSaleEntry], bare: Units, faults: &mut Faults) -> Vec<ForSale> {
    let mut for_sale: Vec<ForSale> = vec![];
    for (i, entry) in lengths.iter().enumerate() {
        let field = format!("stock.lengths[{i}]");
        let length = faults.positive(&format!("{field}.length"), Some(&entry.length), bare);
        let price = entry
            .price
            .as_ref()
            .map(|price| faults.take(&format!("{field}.price"), price.read()));
        if let (Some(length), None | Some(Some(_))) = (length, price) {
            let length = tenths(length);
            if for_sale.iter().any(|item| item.length == length) {
                faults.add(
                    &field,
                    format!("{length} mm is given twice: write each length once"),
                );
            }
            for_sale.push(ForSale {
                length,
                price: price.flatten(),
            });
        }
    }
    let without: Vec<String> = for_sale
        .iter()
        .filter(|item| item.price.is_none())
        .map(|item| format!("{} mm", item.length))
        .collect();
    if !without.is_empty() && without.len() < for_sale.len() {
        faults.add(
            "stock.lengths",
            format!(
                "there is no price for {}: write one as in 3.6m:10.80, or leave all prices out",
                without.join(", ")
            ),
        );
    }
    for_sale
}

/// A number of seconds to look for.
pub(super) fn seconds(field: &str, given: Option<f64>, faults: &mut Faults) -> f64 {
    let seconds = given.unwrap_or(5.0);
    if (0.0..=MOST_SECONDS).contains(&seconds) {
        return seconds;
    }
    faults.add(
        field,
        // A number as long as 1e300 is told as short.
        if seconds.abs() < 1e9 || !seconds.is_finite() {
            format!("{seconds} is no usable time: write 0 to {MOST_SECONDS} seconds")
        } else {
            format!("{seconds:e} is no usable time: write 0 to {MOST_SECONDS} seconds")
        },
    );
    5.0
}

/// The question of a cut list, if there is a list of pieces.
pub(super) fn cuts(
    section: Option<&CutsSection>,
    timber: Option<&Timber>,
    bare: Units,
    faults: &mut Faults,
) -> Option<cuts::Question> {
    let section = section?;
    let seconds = seconds("cuts.seconds", section.seconds, faults);
    let entries = section.pieces.as_ref()?;
    let longest = timber.and_then(|timber| {
        let lengths = timber.for_sale.iter().map(|item| item.length);
        lengths
            .chain(timber.in_van.iter().map(|item| item.length))
            .max()
            .map(|longest| Tenths(longest.0 - timber.trim.0))
    });
    let mut pieces = vec![];
    for (i, entry) in entries.iter().enumerate() {
        let field = format!("cuts.pieces[{i}]");
        let Some(length) = faults.positive(&format!("{field}.length"), Some(&entry.length), bare) else {
            continue;
        };
        let length = tenths(length);
        if let Some(longest) = longest.filter(|longest| length > *longest) {
            faults.add(
                &field,
                format!(
                    "a piece of {length} mm is longer than any stock gives, {longest} mm: add a longer one"
                ),
            );
        }
        pieces.push(Wanted {
            length,
            count: entry.count.unwrap_or(1),
        });
    }
    let count = pieces
        .iter()
        .fold(0_usize, |sum, wanted| sum.saturating_add(wanted.count));
    if entries.len() > MAX_LENGTHS {
        faults.add(
            "cuts.pieces",
            format!(
                "{} lengths are given: {MAX_LENGTHS} is the most, so cut the list in two",
                entries.len()
            ),
        );
    }
    if count > MAX_PIECES {
        faults.add(
            "cuts.pieces",
            format!("{count} pieces are given: {MAX_PIECES} is the most, so cut the list in two"),
        );
    }
    // A length that can't be read has been told already.
    if count == 0 && pieces.len() == entries.len() {
        faults.add(
            "cuts.pieces",
            "there is nothing to cut: write at least one piece, such as 4x1200",
        );
    }
    Some(cuts::Question {
        pieces,
        timber: timber.cloned().unwrap_or_default(),
        seconds,
    })
}
