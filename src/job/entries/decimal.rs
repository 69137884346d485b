//! A plain number with at most two decimals as it stands in a job file: a quantity, a percentage.

use super::value::entry;
use crate::exact::parse_hundredths;
use crate::words::quoted;

entry! {
    /// A number as written: `17.5`, or `"17.5"`.
    DecimalEntry, called "Decimal", expected "a number with at most two decimals, such as 17.5",
    described "A number with at most two decimals.",
    such as [20, "17.5"]
}

impl DecimalEntry {
    /// A percentage in hundredths of one percent, with its sign or without, up to `most` of them.
    pub(in crate::job) fn read_percent(&self, most: i64) -> Result<i64, String> {
        let text = self.text();
        match text.trim().strip_suffix('%') {
            Some(number) => Self::Text(number.to_owned()).read(0, most),
            None => self.read(0, most),
        }
    }

    /// The number in hundredths, from `least` to `most` of them; or what to write instead.
    pub(in crate::job) fn read(&self, least: i64, most: i64) -> Result<i64, String> {
        let text = self.text();
        let text = text.trim();
        if let Some(value) = parse_hundredths(text).filter(|value| (least..=most).contains(value)) {
            return Ok(value);
        }
        let whole = |hundredths: i64| crate::exact::Hundredths(hundredths);
        let found = if text.is_empty() {
            "a number is missing".to_owned()
        } else {
            format!("`{}` is no number that can be used here", quoted(text))
        };
        Err(format!(
            "{found}: write one from {} to {}, at most two decimals after a point",
            whole(least),
            whole(most)
        ))
    }
}
