//! Packing under a plate.

use super::figure::{Figure, Seen, Source};

/// The gap under which packing is solid and permanent, with no grout or mortar and no hollow packers.
///
/// No figure for the gap that needs structural grout could be confirmed: it is the designer's, and the user sets it.
pub const SOLID_PACKING: Figure = Figure {
    value: 5.0,
    says: "gaps under 5 mm take permanent solid packing: no grout or mortar there, and no hollow packers",
    source: Source {
        publication: "UK guidance on timber-frame sole plates, in a copy",
        seen: Seen::Secondary,
    },
};
