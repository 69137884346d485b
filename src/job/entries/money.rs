//! An amount of money as it stands in a job file.

use super::value::entry;
use crate::exact::{MoneyError, Pence, Rate, parse_money, parse_rate};

entry! {
    /// An amount of money as written: `10.8`, or `"10.80"`.
    MoneyEntry, called "Money", expected "a price, such as 10.80",
    described "An amount in the job's money, with at most two decimals; the price of one on a price list may have four.",
    such as [10.8, "10.80"]
}

impl MoneyEntry {
    /// The amount.
    pub fn read(&self) -> Result<Pence, MoneyError> {
        parse_money(&self.text())
    }

    /// The price of one.
    pub fn read_rate(&self) -> Result<Rate, MoneyError> {
        parse_rate(&self.text())
    }
}
