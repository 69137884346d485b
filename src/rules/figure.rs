//! A published figure, where it comes from, and how it was seen.

use schemars::JsonSchema;
use serde::Serialize;

/// Millimetres in an inch, exact by definition.
pub(super) const INCH: f64 = 25.4;
/// Millimetres in a foot, exact by definition.
pub(super) const FOOT: f64 = 304.8;

/// How a published figure was seen by whoever put it here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Seen {
    /// On the publisher's own page.
    #[serde(rename = "official page")]
    Official,
    /// Quoted on somebody else's page.
    #[serde(rename = "secondary page")]
    Secondary,
    /// Written down from memory: look it up before relying on it.
    #[serde(rename = "from memory")]
    Memory,
    /// Common practice of the trade, with no source.
    #[serde(rename = "common practice, no source")]
    Practice,
}

impl Seen {
    /// The words to print beside the figure.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Official => "official page",
            Self::Secondary => "secondary page",
            Self::Memory => "from memory",
            Self::Practice => "common practice, no source",
        }
    }
}

/// Where a figure is published, and how it was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Source {
    /// The publication, with its table or clause where known.
    pub publication: &'static str,
    /// How the figure was seen.
    pub seen: Seen,
}

/// One published figure, mm, with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// The figure, mm.
    pub value: f64,
    /// What the publication says of it, in our words.
    pub says: &'static str,
    /// Where it comes from.
    pub source: Source,
}
