//! What is wrong, told in the units of who is told.

use super::units::Units;

/// An error whose lengths are told in the units of who is told; its `Display` tells them in mm.
pub trait InUnits {
    /// What is wrong, with lengths in `units`.
    fn message(&self, units: Units) -> String;
}
