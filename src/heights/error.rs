//! What can be wrong with a wall head and its layers.

use crate::length::{AmountError, InUnits, Units};

/// Heights that can't be answered. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum HeightsError {
    /// An amount that no sum can take.
    Amount(#[from] AmountError),
    /// A stack layer whose name has no role.
    #[error(
        "layer `{given}` has no place in the stack: name it {known}; `role:name` gives a layer its own name"
    )]
    NoRole {
        /// The name as given.
        given: String,
        /// The names that are known.
        known: &'static str,
    },
    /// Nothing to work from.
    #[error(
        "no drops and no wanted ceiling: give one drop from the level at the wall head, or the ceiling wanted"
    )]
    NothingToSolve,
    /// Drops without the depth of the level they were taken from.
    #[error(
        "the level's own depth is needed with the drops: measure it (levels differ by 15 mm and more) and give it"
    )]
    NoLevelDepth,
    /// A level deeper than the drop taken to its top.
    BelowDatum {
        /// The drop.
        drop: f64,
        /// The level's own depth.
        depth: f64,
    },
    /// Layers that leave nothing for the panel, or its rails nothing for the stud.
    NoRoomFor {
        /// What has no room.
        what: &'static str,
        /// What comes out.
        value: f64,
    },
}

impl InUnits for HeightsError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::Amount(error) => error.message(units),
            Self::BelowDatum { drop, depth } => format!(
                "drop of {} from a level {} deep: the wall head comes out below the datum",
                units.fine(*drop),
                units.fine(*depth)
            ),
            Self::NoRoomFor { what, value } => format!(
                "{what} comes out at {}: the layers named take more than there is; check them and the drop",
                units.fine(*value)
            ),
            other => other.to_string(),
        }
    }
}
