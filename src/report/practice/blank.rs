//! A blank as it is printed.

use crate::length::Units;
use crate::practice::{Blank, Kind};

/// What stands behind a blank: the unit of a bare number, where the sheet has one.
pub(super) const fn unit_after(blank: &Blank, units: Units) -> &'static str {
    match (blank.kind, units) {
        (Kind::Length, Units::Mm | Units::M) => units.name(),
        (Kind::Length, Units::FeetInches) | (Kind::Count | Kind::Word, _) => "",
    }
}

/// `    AC = ________ mm`
pub(super) fn to_fill(blank: &Blank, units: Units) -> String {
    format!("    {} = ________ {}", blank.label, unit_after(blank, units))
}
