//! What can be wrong with levels to be packed from.

use crate::length::{AmountError, InUnits, Units};
use crate::packers::PackersError;
use crate::plan::SpotError;

/// A packing that can't be answered. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum PackingError {
    /// An amount that no sum can take.
    Amount(#[from] AmountError),
    /// A place that is not on the plan, or has no plate.
    #[error(transparent)]
    Place(#[from] SpotError),
    /// Fewer than two places read.
    #[error("too few readings: read two places or more")]
    NoReadings,
    /// A set-up that shares no place with the others.
    #[error(
        "set-up {set_up} reads no place that the others read: read one place from both, so that they tie together, or give its readings with theirs if the instrument never moved"
    )]
    NotTied {
        /// Number of the set-up, from 1.
        set_up: usize,
    },
    /// The named datum was not read.
    #[error("datum `{given}` has no reading: name a place that was read, or leave it out for the highest")]
    DatumNotRead {
        /// The place as given.
        given: String,
    },
    /// A height difference that no packer fills.
    NotPacking {
        /// The place.
        name: String,
        /// The gap.
        gap: f64,
        /// The largest gap taken.
        most: f64,
    },
    /// Packers that can be none, or a gap that they can't fill.
    Packers(#[from] PackersError),
}

impl InUnits for PackingError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::Amount(error) => error.message(units),
            Self::NotPacking { name, gap, most } => format!(
                "{name} lies {} {} the datum: more than the {} that can be packed; check the reading and its unit",
                units.gap(gap.abs()),
                if *gap < 0.0 { "above" } else { "below" },
                units.gap(*most)
            ),
            Self::Packers(error) => error.message(units),
            other => other.to_string(),
        }
    }
}
