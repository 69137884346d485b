//! The joists as they are written in a job file.

use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::entries::{or_text, short_list};
use crate::job::sections::heights::falls;
use crate::job::sections::stock::{CountEntry, ForSaleEntry};
#[cfg(feature = "cli")]
use crate::job::typed;
use crate::job::{EntryError, LengthEntry};
use crate::rules::{JOIST_RULES, listed};

#[cfg(feature = "cli")]
const LAYOUT: &str = "Layout";
#[cfg(feature = "cli")]
const SUPPORTS: &str = "Supports";
#[cfg(feature = "cli")]
const LEVELS: &str = "Levels";
#[cfg(feature = "cli")]
const TIMBER: &str = "Timber";

/// Joists from one support to another, their hangers, bearings and what goes under them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct JoistsSection {
    /// The sides that joists run from, in line or not; AB is set out from A, BA from B.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.from", value_name = "SIDES", value_delimiter = ',', help_heading = LAYOUT)
    )]
    pub from: Option<Vec<String>>,
    /// The sides that joists run to, facing those.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.to", value_name = "SIDES", value_delimiter = ',', help_heading = LAYOUT)
    )]
    pub to: Option<Vec<String>>,
    /// From one joist to the next, as designed.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.centres", value_name = "LENGTH", help_heading = LAYOUT)
    )]
    pub centres: Option<LengthEntry>,
    /// How thick a joist is [default: 47mm, or 1-1/2in in feet and inches].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.thickness", value_name = "LENGTH", help_heading = LAYOUT)
    )]
    pub thickness: Option<LengthEntry>,
    /// How thick the new walls are, from the outline inward [default: the plates' width, else the bearing].
    #[cfg_attr(
        feature = "cli",
        arg(long = "wall-thickness", id = "joists.wall", value_name = "LENGTH", help_heading = LAYOUT)
    )]
    pub wall: Option<LengthEntry>,
    /// How far the first and last joists keep clear of the wall beside them [default: 50mm, or 2in in feet and inches].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.clear", value_name = "LENGTH", help_heading = LAYOUT)
    )]
    pub clear: Option<LengthEntry>,
    /// Which line of a joist is marked: near (towards the end that is set out from), far or centre [default: near].
    #[cfg_attr(feature = "cli", arg(long, id = "joists.mark", value_name = "LINE", help_heading = LAYOUT))]
    pub mark: Option<String>,
    /// Openings in the roof, each WIDTHxLENGTH@ALONG+OUT, with a name or none: rooflight=900x1200@2400+1500.
    ///
    /// The width is along the supports and the length along the joists; ALONG is from the end that is set out from, OUT
    /// from the first support, each to the opening's nearer edge.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.openings",
            value_name = "OPENINGS",
            value_delimiter = ',',
            help_heading = LAYOUT
        )
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub openings: Option<Vec<RoofOpeningEntry>>,
    /// Trimmers, and the joists on either side of an opening, in pairs.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.double_trimming",
            num_args = 0,
            default_missing_value = "true",
            help_heading = LAYOUT
        )
    )]
    pub double_trimming: Option<bool>,
    /// Double the joist nearest to each of these distances from the end that is set out from.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.double",
            value_name = "LENGTHS",
            value_delimiter = ',',
            help_heading = LAYOUT
        )
    )]
    pub double: Option<Vec<LengthEntry>>,
    /// Rows of noggings: how many, or nhbc for as many as the span asks for [default: none].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.noggings", value_name = "ROWS", help_heading = LAYOUT)
    )]
    pub noggings: Option<String>,
    /// The sides where joists hang; on the others they bear [default: the house's].
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.hang",
            value_name = "SIDES",
            value_delimiter = ',',
            help_heading = SUPPORTS
        )
    )]
    pub hang: Option<Vec<String>>,
    /// How far joists bear.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.bearing", value_name = "LENGTH", help_heading = SUPPORTS)
    )]
    pub bearing: Option<LengthEntry>,
    /// What they bear on: timber, masonry or steel [default: timber].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.bears_on", value_name = "WHAT", help_heading = SUPPORTS)
    )]
    pub bears_on: Option<String>,
    /// What is left between a joist's end and the back of its hanger [default: 0].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.hanger_gap", value_name = "LENGTH", help_heading = SUPPORTS)
    )]
    pub hanger_gap: Option<LengthEntry>,
    /// How far a hanger reaches under its joist, to hold it to the rule.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.hanger_seat", value_name = "LENGTH", help_heading = SUPPORTS)
    )]
    pub hanger_seat: Option<LengthEntry>,
    /// How thick the bearer is that hangers are fixed to [default: none, they are fixed to the wall].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.bearer", value_name = "LENGTH", help_heading = SUPPORTS)
    )]
    pub bearer: Option<LengthEntry>,
    /// Count the bearer's bolts, at most so far apart as the engineer has them.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.bolts", value_name = "LENGTH", help_heading = SUPPORTS)
    )]
    pub bolts: Option<LengthEntry>,
    /// Hold bearings and centres against a published rule, by its key.
    #[schemars(description = format!("{}.", rules()))]
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.rule", value_name = "NAME", help_heading = SUPPORTS, help = rules())
    )]
    pub rule: Option<String>,
    /// Heights read along the first support, place=height, up is +; one zero for both supports.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.heights_from",
            value_name = "A=0,B=-6",
            value_delimiter = ',',
            help_heading = LEVELS
        )
    )]
    pub heights_from: Option<Vec<String>>,
    /// Heights read along the second support.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.heights_to",
            value_name = "F=0,E=-3",
            value_delimiter = ',',
            help_heading = LEVELS
        )
    )]
    pub heights_to: Option<Vec<String>>,
    /// Staff readings along the first support instead, the bigger the lower; one set-up for both supports.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.staff_from",
            value_name = "A=1412,B=1418",
            value_delimiter = ',',
            help_heading = LEVELS
        )
    )]
    pub staff_from: Option<Vec<String>>,
    /// Staff readings along the second support.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.staff_to",
            value_name = "F=1412,E=1415",
            value_delimiter = ',',
            help_heading = LEVELS
        )
    )]
    pub staff_to: Option<Vec<String>>,
    /// The fall wanted.
    #[schemars(description = format!("{}.", falls()))]
    #[cfg_attr(feature = "cli", arg(long, id = "joists.fall", value_name = "1:N|LENGTH", help_heading = LEVELS, help = falls()))]
    pub fall: Option<String>,
    /// The support that the fall runs down to, from or to [default: to].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.fall_to", value_name = "SUPPORT", help_heading = LEVELS)
    )]
    pub fall_to: Option<String>,
    /// The packers in the van: a thickness alone where there are plenty, 12x5 for twelve of 5.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.packers",
            value_name = "1,2,12x5",
            value_delimiter = ',',
            help_heading = LEVELS
        )
    )]
    pub packers: Option<Vec<LengthEntry>>,
    /// How near to its gap a stack has to come [default: 1mm, or 1/16in in feet and inches].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "joists.within", value_name = "LENGTH", help_heading = LEVELS)
    )]
    pub within: Option<LengthEntry>,
    /// The lengths of joist that can be bought, each with its price or none: 4.8m:38.40,6.0m:51.00.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.stock",
            value_name = "LENGTH[:PRICE]",
            value_delimiter = ',',
            help_heading = TIMBER
        )
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub stock: Option<Vec<ForSaleEntry>>,
    /// What of it is in the van already, used first at no cost: 2x4.8m.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "joists.have",
            value_name = "COUNTxLENGTH",
            value_delimiter = ',',
            help_heading = TIMBER
        )
    )]
    #[serde(default, deserialize_with = "short_list")]
    pub have: Option<Vec<CountEntry>>,
    /// How long to look for the best cut [default: 2].
    #[cfg_attr(feature = "cli", arg(long, id = "joists.seconds", value_name = "SECONDS", value_parser = typed::number, help_heading = TIMBER))]
    pub seconds: Option<f64>,
}

/// An opening in the roof.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct RoofOpeningEntry {
    /// How wide it is along the supports.
    pub width: Option<LengthEntry>,
    /// How long it is along the joists.
    pub length: Option<LengthEntry>,
    /// From the end that is set out from to its nearer edge.
    pub along: Option<LengthEntry>,
    /// From the first support to its nearer edge.
    pub out: Option<LengthEntry>,
    /// What it is called.
    pub name: Option<String>,
}

fn rules() -> String {
    format!(
        "Hold bearings and centres against a published rule: {}",
        listed(JOIST_RULES.iter().map(|rule| rule.key))
    )
}

/// From `NAME=WIDTHxLENGTH@ALONG+OUT`, the name if wanted.
impl FromStr for RoofOpeningEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (name, rest) = match text.split_once('=') {
            Some((name, rest)) => (Some(name.trim().to_owned()), rest),
            None => (None, text),
        };
        let parts = || {
            let (size, place) = rest.split_once('@')?;
            let (width, length) = size.split_once(['x', 'X', '×'])?;
            let (along, out) = place.split_once('+')?;
            Some([width, length, along, out].map(|part| Some(LengthEntry::Text(part.to_owned()))))
        };
        let [width, length, along, out] = parts().ok_or_else(|| {
            EntryError::new(
                "write its width along the supports and its length along the joists, then how far along and how far out it begins: 900x1200@2400+1500",
            )
        })?;
        Ok(Self { width, length, along, out, name })
    }
}
