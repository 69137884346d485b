//! A list of pieces to cut.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::stock::CountEntry;
use crate::cuts;
use crate::cutting::{MAX_LENGTHS, MAX_PIECES, Wanted};
use crate::exact::Tenths;
use crate::job::cursor::Cursor;
use crate::job::entries::short_list;
#[cfg(feature = "cli")]
use crate::job::typed;
use crate::stock::{Timber, effort};

/// A list of pieces to be cut whole.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct CutsSection {
    /// The pieces to cut: 4x1200,2x2350,3x900.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "cuts.pieces", value_name = "COUNTxLENGTH", value_delimiter = ',')
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub pieces: Option<Vec<CountEntry>>,
    /// How long to look for the best cut [default: 2].
    #[cfg_attr(feature = "cli", arg(long, id = "cuts.seconds", value_name = "SECONDS", value_parser = typed::number))]
    pub seconds: Option<f64>,
}

/// The question of a cut list, if there is a list of pieces.
pub(in crate::job) fn cuts(
    section: Option<&CutsSection>,
    timber: Option<&Timber>,
    at: Cursor<'_>,
) -> Option<cuts::Question> {
    let section = section?;
    let seconds = seconds(section.seconds, at.field("seconds"));
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
        let at = at.item("pieces", i);
        if let Some(turned) = entry.turned_about(at.default_units) {
            at.fault(turned);
            continue;
        }
        let Some(length) = at.field("length").positive(Some(&entry.length)) else {
            continue;
        };
        let length = Tenths::nearest(length);
        if let Some(longest) = longest.filter(|longest| length > *longest) {
            let [piece, longest] = [length, longest].map(|tenths| at.units.fine(tenths.to_mm().0));
            at.fault(format!(
                "a piece of {piece} is longer than any stock gives, {longest}: add a longer one"
            ));
        }
        pieces.push(Wanted { length, count: entry.count.unwrap_or(1) });
    }
    let count = pieces.iter().fold(0_usize, |sum, wanted| sum.saturating_add(wanted.count));
    if entries.len() > MAX_LENGTHS {
        at.field("pieces").fault(format!(
            "{} lengths are given: {MAX_LENGTHS} is the most, so cut the list in two",
            entries.len()
        ));
    }
    if count > MAX_PIECES {
        at.field("pieces")
            .fault(format!("{count} pieces are given: {MAX_PIECES} is the most, so cut the list in two"));
    }
    // A length that can't be read has been told already.
    if count == 0 && pieces.len() == entries.len() {
        at.field("pieces").fault("there is nothing to cut: write at least one piece, such as 4x1200");
    }
    Some(cuts::Question { pieces, timber: timber.cloned().unwrap_or_default(), seconds })
}

/// A number of seconds to look for.
pub(in crate::job) fn seconds(given: Option<f64>, at: Cursor<'_>) -> f64 {
    let seconds = given.unwrap_or(2.0);
    at.take(effort(seconds));
    seconds
}
