//! An amount of money as it stands in a job file.

use super::value::entry;
use crate::exact::Pence;
use crate::exact::{MoneyError, parse_money};

entry! {
    /// An amount of money as written: `10.8`, or `"10.80"`.
    MoneyEntry, called "Money", expected "a price, such as 10.80",
    described "An amount in the job's money, with at most two decimals.",
    such as [10.8, "10.80"]
}

impl MoneyEntry {
    /// The amount.
    pub fn read(&self) -> Result<Pence, MoneyError> {
        parse_money(&self.text())
    }
}
