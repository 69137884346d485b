//! Packing under a plate.

use super::figure::{INCH, Seen, Source};

/// What fills the gaps under a plate where no schedule of the user's says. No figure for the gap that needs structural
/// grout could be confirmed: it is the designer's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GapFilling {
    /// The gap from which on the designer is asked, mm.
    pub ask_from: f64,
    /// Whether anything shallower takes solid packers alone.
    pub solid_only: bool,
    /// What is said of it, in our words.
    pub says: &'static str,
    /// Where it comes from.
    pub source: Source,
}

/// The United Kingdom's: permanent solid packing in shallow gaps, with no grout or mortar and no hollow packers.
pub const SOLID_PACKING: GapFilling = GapFilling {
    ask_from: 5.0,
    solid_only: true,
    says: "gaps under 5 mm take permanent solid packing: no grout or mortar there, and no hollow packers",
    source: Source {
        publication: "UK guidance on timber-frame sole plates, in a copy",
        seen: Seen::Secondary,
    },
};

/// What is usual in the United States, where shallow gaps are grouted too.
pub const SHIMS_AND_GROUT: GapFilling = GapFilling {
    ask_from: INCH / 4.0,
    solid_only: false,
    says: "solid shims, with non-shrink grout round them, are usual under a sill",
    source: Source { publication: "usual in the US", seen: Seen::Practice },
};
