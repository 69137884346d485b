//! Laps: of a head binder's splices over the plate's, and of strips of damp-proof course.

use super::figure::{Figure, INCH, Seen, Source};

/// How far the end joints of two top plates stay apart: 24 in (printed there as 610 mm).
pub const SPLICE_LAP: Figure = Figure {
    value: 24.0 * INCH,
    says: "end joints in the two top plates are at least 24 in (610 mm) apart",
    source: Source { publication: "US International Residential Code R602.3.2", seen: Seen::Secondary },
};

/// The least lap of two strips of damp-proof course.
pub const DPC_LAP: Figure = Figure {
    value: 100.0,
    says: "strips of damp-proof course lap at least 100 mm",
    source: Source { publication: "NHBC Standards 5.1.19 and 6.3.13", seen: Seen::Secondary },
};
