//! Why lines can't be set out.

use super::faces::WallError;
use super::offset::OffsetError;
use crate::length::{AmountError, InUnits, Units};

/// Lines that can't be set out. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum LinesError {
    /// The wall.
    #[error(transparent)]
    Wall(#[from] WallError),
    /// The offset outline.
    #[error(transparent)]
    Offset(#[from] OffsetError),
    /// A length, a weight or a pull that can be none.
    Amount(#[from] AmountError),
    /// A side that the outline has not.
    #[error("there is no side {}: the outline has {sides}", side.saturating_add(1))]
    NoSide {
        /// Its index as given.
        side: usize,
        /// How many sides there are.
        sides: usize,
    },
    /// Studs nearer than can be meant: their centres.
    Studs(f64),
    /// Profiles too near.
    Setback {
        /// As asked.
        setback: f64,
        /// The least that works.
        least: f64,
    },
}

impl InUnits for LinesError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::Amount(error) => error.message(units),
            Self::Studs(centres) => {
                format!("studs at {} are too close: check the number and its unit", units.with_unit(*centres))
            }
            Self::Setback { setback, least } => format!(
                "{} is too near: the boards would stand in the dig or in the way of the other lines; write {} or more",
                units.with_unit(*setback),
                units.with_unit(*least)
            ),
            other => other.to_string(),
        }
    }
}
