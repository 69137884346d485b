//! The timber that can be bought and the timber that is there: what every cut list is made from, and how it is told.
//!
//! ```
//! use pegline::exact::{Pence, Tenths};
//! use pegline::stock::{Cost, ForSale, InVan, Timber};
//!
//! let timber = Timber {
//!     for_sale: vec![ForSale { length: Tenths::from_mm(4800), price: Some(Pence(1560)), count: None }],
//!     in_van: vec![InVan { length: Tenths::from_mm(3600), count: 2 }],
//!     ..Timber::default()
//! };
//! assert!(timber.priced());
//! assert_eq!(timber.cost(Pence(1560)), Cost::Money(Pence(1560)));
//! ```

mod bars;
mod bench;

pub use bars::{Bar, BarPiece};
pub use bench::{Alike, PieceOfBar, Rest, cut_order, rests};

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};

use crate::cutting::{self, Effort, GUARD, Rules};
use crate::exact::{Pence, Tenths};

/// Steps of search for each second asked for: a step takes about 0.1 µs.
const STEPS_PER_SECOND: f64 = 1e7;

/// A length that the merchant has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ForSale {
    /// Its length.
    pub length: Tenths,
    /// The price of one; `None` where no prices are known.
    pub price: Option<Pence>,
    /// How many are to be had; `None` where there are always more.
    pub count: Option<usize>,
}

/// Lengths already in the van.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InVan {
    /// The length of each.
    pub length: Tenths,
    /// How many.
    pub count: usize,
}

/// What can be cut from, and what the saw takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timber {
    /// The lengths for sale. Either all have a price or none has.
    pub for_sale: Vec<ForSale>,
    /// The lengths in the van; they cost nothing more.
    pub in_van: Vec<InVan>,
    /// What one cut removes.
    pub kerf: Tenths,
    /// What is trimmed off each length before anything is cut from it, both ends together.
    pub trim: Tenths,
}

impl Default for Timber {
    /// Nothing to cut from yet; a 3 mm kerf (common practice, no source) and no trim.
    fn default() -> Self {
        Self { for_sale: vec![], in_van: vec![], kerf: Tenths::from_mm(3), trim: Tenths(0) }
    }
}

impl Timber {
    /// Whether there is nothing to cut from.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.for_sale.is_empty() && self.in_van.is_empty()
    }

    /// Whether prices are known. Without them the cost of a length is its length in metres, so that the least timber is
    /// bought: every metre costs the same.
    #[must_use]
    pub fn priced(&self) -> bool {
        self.for_sale.iter().any(|item| item.price.is_some())
    }

    /// The stock as the cutting engine takes it: for sale first, then in the van, each in the order given.
    ///
    /// Without prices a length is priced at its tenths of a millimetre, which is exact.
    #[must_use]
    pub fn stock(&self) -> Vec<cutting::Stock> {
        let priced = self.priced();
        let for_sale = self.for_sale.iter().map(|item| cutting::Stock {
            length: item.length,
            price: match item.price {
                Some(price) => price,
                None if priced => Pence(0),
                None => Pence(item.length.0),
            },
            count: item.count,
        });
        let in_van = self.in_van.iter().map(|item| cutting::Stock {
            length: item.length,
            price: Pence(0),
            count: Some(item.count),
        });
        for_sale.chain(in_van).collect()
    }

    /// Kerf and trim with the least piece of a spliced run.
    #[must_use]
    pub const fn rules(&self, least_piece: Tenths) -> Rules {
        Rules { kerf: self.kerf, trim: self.trim, least_piece, overlap: Tenths(0) }
    }

    /// An amount of the engine's as a cost in this timber's terms.
    #[must_use]
    pub fn cost(&self, amount: Pence) -> Cost {
        if self.priced() { Cost::Money(amount) } else { Cost::Length(Tenths(amount.0)) }
    }

    /// What is bought, in the order of `for_sale`.
    #[must_use]
    pub fn buy(&self, taken: &[cutting::Taken]) -> Vec<Buy> {
        let priced = self.priced();
        taken
            .iter()
            .filter(|line| line.stock < self.for_sale.len())
            .map(|line| Buy {
                length: line.length,
                count: line.count,
                rate: priced.then_some(line.rate),
                amount: priced.then_some(line.amount),
            })
            .collect()
    }

    /// What is taken from the van, in the order of `in_van`.
    #[must_use]
    pub fn from_van(&self, taken: &[cutting::Taken]) -> Vec<InVanTaken> {
        taken
            .iter()
            .filter(|line| line.stock >= self.for_sale.len())
            .map(|line| InVanTaken { length: line.length, count: line.count })
            .collect()
    }
}

/// The longest that a search is asked to take, seconds.
pub const MOST_SECONDS: u32 = 3600;

/// How hard to look for `seconds`: so many steps. The clock stops only what takes many times as long, so that a busy
/// machine gives the same answer as an idle one.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held between 0 and an hour's worth of steps"
)]
pub fn effort(seconds: f64) -> Result<Effort, cutting::Error> {
    if !(0.0..=f64::from(MOST_SECONDS)).contains(&seconds) {
        // A number as long as 1e300 is told as short.
        let short = seconds.abs() < 1e9 || !seconds.is_finite();
        let given = if short { seconds.to_string() } else { format!("{seconds:e}") };
        return Err(cutting::Error::Seconds { given, most: MOST_SECONDS });
    }
    Ok(Effort {
        steps: (seconds * STEPS_PER_SECOND) as u64,
        time: std::time::Duration::from_secs_f64(seconds * GUARD),
    })
}

/// What a list costs: money, or without prices the length bought. It serializes as the money unit, or as metres.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd)]
pub enum Cost {
    /// Money.
    Money(Pence),
    /// Length bought.
    Length(Tenths),
}

impl Cost {
    /// The engine's whole number: pence, or tenths of a millimetre.
    #[must_use]
    pub const fn amount(self) -> i64 {
        match self {
            Self::Money(Pence(amount)) | Self::Length(Tenths(amount)) => amount,
        }
    }

    /// Another amount of the same.
    #[must_use]
    pub const fn of(self, amount: i64) -> Self {
        match self {
            Self::Money(_) => Self::Money(Pence(amount)),
            Self::Length(_) => Self::Length(Tenths(amount)),
        }
    }
}

impl Serialize for Cost {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Money(pence) => pence.serialize(serializer),
            Self::Length(tenths) => crate::geometry::Ratio(tenths.0 as f64 / 1e4).serialize(serializer),
        }
    }
}

impl JsonSchema for Cost {
    fn schema_name() -> Cow<'static, str> {
        "Cost".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "The job's money where every stock length has a price, to 0.01; metres bought where none has, to 0.0001.",
            "type": "number"
        })
    }
}

/// A line of what to buy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Buy {
    /// The length of each, mm.
    pub length: Tenths,
    /// How many.
    pub count: usize,
    /// The price of one, if prices are known.
    pub rate: Option<Pence>,
    /// The price of all, if prices are known.
    pub amount: Option<Pence>,
}

/// A line of what to take from the van.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct InVanTaken {
    /// The length of each, mm.
    pub length: Tenths,
    /// How many.
    pub count: usize,
}

impl Timber {
    /// The engine's bars, their pieces named by `name`.
    pub(crate) fn bars(&self, bars: &[cutting::Bar], name: impl Fn(&cutting::Cut) -> String) -> Vec<Bar> {
        bars.iter()
            .enumerate()
            .map(|(place, bar)| Bar {
                number: place + 1,
                stock: bar.length,
                in_van: bar.stock >= self.for_sale.len(),
                pieces: bar
                    .pieces
                    .iter()
                    .map(|cut| BarPiece { name: name(cut), length: cut.length })
                    .collect(),
                offcut: bar.offcut,
            })
            .collect()
    }
}

/// What part of the timber is wasted, in hundredths.
#[must_use]
pub fn waste_percent(bought: Tenths, used: Tenths) -> f64 {
    if bought.0 == 0 {
        return 0.0;
    }
    (bought.0 - used.0) as f64 / bought.0 as f64 * 100.0
}
