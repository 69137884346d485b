//! What can be wrong with packers and with the gaps they are to fill.

use crate::length::{AmountError, InUnits, Units};

/// Gaps that can't be made up. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum PackersError {
    /// An amount that no sum can take.
    Amount(#[from] AmountError),
    /// A gap that no packer fills.
    TooDeep {
        /// The gap.
        gap: f64,
        /// The largest gap taken.
        most: f64,
    },
    /// A packer thickness that is not whole tenths of a millimetre, or sixteenths of an inch.
    Thickness {
        /// The thickness.
        thickness: f64,
        /// What packers are counted in.
        grain: &'static str,
    },
    /// A packer thickness given twice.
    Twice(f64),
}

impl InUnits for PackersError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::Amount(error) => error.message(units),
            Self::TooDeep { gap, most } => format!(
                "a gap of {} is more than the {} that can be packed",
                units.gap(*gap),
                units.gap(*most)
            ),
            Self::Thickness { thickness, grain } => {
                let (figure, unit) = (units.exact(*thickness), units.exact_unit());
                format!("packer of {figure} {unit}: packers are counted in {grain}")
            }
            Self::Twice(thickness) => format!(
                "packer of {} is given twice: give each thickness once, with its count",
                units.gap(*thickness)
            ),
        }
    }
}
