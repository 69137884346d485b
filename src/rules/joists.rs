//! Joists: least bearings, most centres, strutting, the clear distance from a wall. Never a span or a section.

use schemars::JsonSchema;
use serde::Serialize;

use super::figure::{INCH, Seen, Source};
use super::keys::listed;

/// A published rule for how joists lie. Lengths in mm; nothing where the publication gives no figure.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct JoistRule {
    /// The word that names it on the command line and in a job file.
    pub key: &'static str,
    /// What the publication says, in our words.
    pub says: &'static str,
    /// Least bearing on timber.
    pub on_timber: Option<f64>,
    /// Least bearing on masonry.
    pub on_masonry: Option<f64>,
    /// Least bearing on steel.
    pub on_steel: Option<f64>,
    /// Least bearing in a hanger.
    pub in_hanger: Option<f64>,
    /// Most centres.
    pub centres: Option<f64>,
    /// Where it comes from.
    pub source: Source,
}

/// The published rules.
pub const JOIST_RULES: &[JoistRule] = &[
    JoistRule {
        key: "nhbc",
        says: "solid joists bear at least 75 mm on a timber wall plate, 90 mm on masonry and 75 mm in a hanger, at most \
600 mm apart and never more than designed",
        on_timber: Some(75.0),
        on_masonry: Some(90.0),
        on_steel: None,
        in_hanger: Some(75.0),
        centres: Some(600.0),
        source: Source { publication: "NHBC Standards, 6.4.10 and 6.4.13", seen: Seen::Official },
    },
    JoistRule {
        key: "irc",
        says: "joists bear at least 1-1/2 in (38 mm) on wood or metal and 3 in (76 mm) on masonry or concrete",
        on_timber: Some(1.5 * INCH),
        on_masonry: Some(3.0 * INCH),
        on_steel: Some(1.5 * INCH),
        in_hanger: None,
        centres: None,
        source: Source { publication: "US International Residential Code R502.6", seen: Seen::Secondary },
    },
    JoistRule {
        key: "ontario",
        says: "floor, roof and ceiling joists bear at least 38 mm, on masonry 40 mm",
        on_timber: Some(38.0),
        on_masonry: Some(40.0),
        on_steel: Some(38.0),
        in_hanger: None,
        centres: None,
        source: Source { publication: "Ontario Building Code, 9.20 and 9.23", seen: Seen::Secondary },
    },
];

/// A rule that is not in the table.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "no published rule for joists `{given}`: write {known}, or leave it out",
    given = .0,
    known = listed(JOIST_RULES.iter().map(|rule| rule.key))
)]
pub struct UnknownJoistRule(pub String);

/// The rule called `key`, whatever the case of the letters.
pub fn joist_rule(key: &str) -> Result<&'static JoistRule, UnknownJoistRule> {
    JOIST_RULES
        .iter()
        .find(|rule| rule.key.eq_ignore_ascii_case(key.trim()))
        .ok_or_else(|| UnknownJoistRule(key.to_owned()))
}

/// Rows of strutting for a clear span: the published table.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Strutting {
    /// The word that names it.
    pub key: &'static str,
    /// What the publication says, in our words.
    pub says: &'static str,
    /// Under this span, mm, no row.
    pub none_under: f64,
    /// Over this span, mm, two rows; one between.
    pub two_over: f64,
    /// Where it comes from.
    pub source: Source,
}

/// The published table of strutting.
pub const STRUTTING: Strutting = Strutting {
    key: "nhbc",
    says: "no row of strutting under a span of 2.5 m, one at mid span to 4.5 m, two at equal spacing over it, firmly \
blocked to the wall",
    none_under: 2500.0,
    two_over: 4500.0,
    source: Source { publication: "NHBC Standards, 6.4.15", seen: Seen::Official },
};

impl Strutting {
    /// How many rows a clear span of `span` mm has.
    #[must_use]
    pub fn rows(&self, span: f64) -> usize {
        usize::from(span >= self.none_under) + usize::from(span > self.two_over)
    }
}

/// How far the first and last joists keep clear of the wall beside them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClearOfWall {
    /// The least, mm.
    pub least: f64,
    /// The most, mm.
    pub most: f64,
    /// What the publication says, in our words.
    pub says: &'static str,
    /// Where it comes from.
    pub source: Source,
}

/// The published distance.
pub const CLEAR_OF_WALL: ClearOfWall = ClearOfWall {
    least: 25.0,
    most: 75.0,
    says: "the first and last joists stand 25 to 75 mm clear of the wall",
    source: Source { publication: "NHBC craft guide, 2002, in a copy", seen: Seen::Secondary },
};
