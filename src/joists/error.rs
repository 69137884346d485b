//! What can be wrong with joists to be set out.

use super::input::Support;
use crate::length::{AmountError, InUnits, Units};
use crate::packers::PackersError;

/// Joists that can't be set out. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum JoistsError {
    /// An amount that no sum can take.
    Amount(#[from] AmountError),
    /// Packers that can be none, or a gap that they can't fill.
    Packers(#[from] PackersError),
    /// A support without a side.
    #[error("the joists need a side at both ends, such as AB at one and EF at the other")]
    NoSupport,
    /// Sides of one support that don't look the same way.
    #[error("{first} and {second} are not one support: its sides have to look the same way")]
    TwoWays {
        /// A side.
        first: String,
        /// One that looks another way.
        second: String,
    },
    /// Supports that don't face each other.
    #[error(
        "no joist can run from {from} to {to}: name sides that face each other with nothing but the plan between"
    )]
    NotFacing {
        /// The first support.
        from: String,
        /// The second.
        to: String,
    },
    /// A bearing longer than its wall is thick.
    Bearing {
        /// The bearing.
        bearing: f64,
        /// The wall.
        wall: f64,
    },
    /// Joists so close that they touch.
    Centres {
        /// The centres.
        centres: f64,
        /// The thickness.
        thickness: f64,
    },
    /// No room for a joist between two walls, or at its length.
    NoRoom {
        /// What there is no room for.
        what: &'static str,
        /// Where.
        between: String,
        /// What is left.
        left: f64,
    },
    /// An opening that the joists can't be trimmed round.
    #[error("{name}: {problem}")]
    Opening {
        /// Its name.
        name: String,
        /// Why not, and what to do.
        problem: &'static str,
    },
    /// A joist to be doubled that has no room beside it.
    Doubled {
        /// Where it was wanted.
        at: f64,
    },
    /// A height read elsewhere than on its support.
    #[error("{name} is not on {sides}: read the support itself, at corners or along it such as {example}")]
    NotOnSupport {
        /// The place.
        name: String,
        /// The support.
        support: Support,
        /// Its sides.
        sides: String,
        /// A place that would do.
        example: String,
    },
    /// A fall that is none.
    #[error("a fall of 1 in {0} is none that can be built: write one from 1 in 1 to 1 in 10000")]
    Fall(f64),
}

impl InUnits for JoistsError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::Amount(error) => error.message(units),
            Self::Packers(error) => error.message(units),
            Self::Bearing { bearing, wall } => format!(
                "a bearing of {} is more than the wall is thick, {}: write a shorter one, or the wall's thickness",
                units.fine(*bearing),
                units.fine(*wall)
            ),
            Self::Centres { centres, thickness } => format!(
                "centres of {} leave no gap between joists {} thick: write wider ones",
                units.fine(*centres),
                units.fine(*thickness)
            ),
            Self::NoRoom { what, between, left } => {
                format!("there is no room for {what} between {between}: {} is left", units.fine(*left))
            }
            Self::Doubled { at } => format!(
                "there is no joist with room for a second beside it near {}: choose another",
                units.fine(*at)
            ),
            other => other.to_string(),
        }
    }
}
