//! The timber on the command line, for every command that cuts.

use std::str::FromStr;

use clap::Args;
use pegline::job::{CountEntry, ForSaleEntry, LengthEntry, MoneyEntry, StockSection};

use super::args::LengthWord;
use super::given::Given;

/// A length for sale as typed: `3.6m` or `3.6m:10.80`.
#[derive(Debug, Clone)]
struct ForSaleWord(ForSaleEntry);

impl FromStr for ForSaleWord {
    type Err = std::convert::Infallible;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (length, price) = match text.rsplit_once(':') {
            Some((length, price)) => (length, Some(MoneyEntry::Text(price.to_owned()))),
            None => (text, None),
        };
        Ok(Self(ForSaleEntry { length: LengthEntry::Text(length.to_owned()), price }))
    }
}

/// So many of a length as typed: `4x1200`, or `1200` for one.
#[derive(Debug, Clone)]
pub(super) struct CountWord(CountEntry);

impl FromStr for CountWord {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (count, length) = match text.split_once(['x', '×', 'X']) {
            Some((count, length)) => {
                let count = count
                    .trim()
                    .parse()
                    .map_err(|_| format!("`{}` is no number of pieces: write 4x1200", count.trim()))?;
                (Some(count), length)
            }
            None => (None, text),
        };
        Ok(Self(CountEntry { length: LengthEntry::Text(length.to_owned()), count }))
    }
}

impl From<CountWord> for CountEntry {
    fn from(word: CountWord) -> Self {
        word.0
    }
}

#[derive(Debug, Args)]
#[command(next_help_heading = "Stock")]
pub(super) struct StockArgs {
    /// The lengths that can be bought, each with its price or none: 3.6m:10.80,4.8m:15.60.
    #[arg(long, value_name = "LENGTH[:PRICE]", value_delimiter = ',')]
    stock: Option<Vec<ForSaleWord>>,
    /// What is in the van already, used first at no cost: 2x3.6m,4.2m.
    #[arg(long, value_name = "COUNTxLENGTH", value_delimiter = ',')]
    have: Option<Vec<CountWord>>,
    /// What one saw cut takes [default: 3mm].
    #[arg(long, value_name = "LENGTH")]
    kerf: Option<LengthWord>,
    /// What is trimmed off each length first, both ends together [default: 0].
    #[arg(long, value_name = "LENGTH")]
    trim: Option<LengthWord>,
}

impl StockArgs {
    /// Lays what was given over the job.
    pub(super) fn lay(self, given: &mut Given) {
        given.note([
            ("stock.lengths", "--stock", self.stock.is_some()),
            ("stock.have", "--have", self.have.is_some()),
            ("stock.kerf", "--kerf", self.kerf.is_some()),
            ("stock.trim", "--trim", self.trim.is_some()),
        ]);
        given.over.stock = Some(StockSection {
            lengths: self.stock.map(|lengths| lengths.into_iter().map(|word| word.0).collect()),
            have: self.have.map(|have| have.into_iter().map(Into::into).collect()),
            kerf: self.kerf.map(Into::into),
            trim: self.trim.map(Into::into),
        });
    }
}
