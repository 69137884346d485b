//! The cautions that several pages end with.

/// Said wherever pegs are driven.
pub(super) const BURIED_SERVICES: &str = "check for buried services before driving pegs";

/// Said wherever fixings are placed.
pub(super) const FIXINGS: &str = "splices, anchors and fixings carry load: follow the engineer's or the kit designer's schedule and the local \
code; published figures are for reference";

/// Said wherever a plate or a joist is packed up.
pub(super) const PACKING_AND_BEARINGS: &str = "packing and bearings carry load: follow the engineer's or the kit designer's schedule and the local code; \
published figures are for reference; check the existing wall before bearing on it";
