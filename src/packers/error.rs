//! What can be wrong with packers and with the gaps they are to fill.

use crate::length::{AmountError, Units, decimal};

/// Gaps that can't be made up. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PackersError {
    /// An amount that no sum can take.
    #[error(transparent)]
    Amount(#[from] AmountError),
    /// A gap that no packer fills.
    #[error("{}", self.message(Units::Mm))]
    TooDeep {
        /// The gap.
        gap: f64,
        /// The largest gap taken.
        most: f64,
    },
    /// A packer thickness that is not whole tenths of a millimetre, or sixteenths of an inch.
    #[error("{}", self.message(Units::Mm))]
    Thickness {
        /// The thickness.
        thickness: f64,
        /// What packers are counted in.
        grain: &'static str,
    },
    /// A packer thickness given twice.
    #[error("{}", self.message(Units::Mm))]
    Twice(f64),
}

impl PackersError {
    /// What is wrong, with lengths in `units`.
    #[must_use]
    pub fn message(&self, units: Units) -> String {
        match self {
            Self::TooDeep { gap, most } => format!(
                "a gap of {} is more than the {} that can be packed",
                units.gap(*gap),
                units.gap(*most)
            ),
            Self::Thickness { thickness, grain } => {
                format!("packer of {} mm: packers are counted in {grain}", decimal(*thickness, 3))
            }
            Self::Twice(thickness) => format!(
                "packer of {} is given twice: give each thickness once, with its count",
                units.gap(*thickness)
            ),
            other @ Self::Amount(_) => other.to_string(),
        }
    }
}
