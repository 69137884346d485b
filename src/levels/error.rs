//! What can be wrong with levels as they are given.

use super::places::PlaceError;
use crate::length::{Units, decimal};

/// A levelling input that cannot be answered. Lengths in mm.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LevelsError {
    /// A figure that is not a length, or out of all proportion.
    #[error("{what}: {value} is not a length that can be used: write a finite number of mm within ±{most}")]
    NotALength {
        /// What was given.
        what: String,
        /// The value as given.
        value: f64,
        /// The largest magnitude taken, mm.
        most: f64,
    },
    /// A figure that has to be more than nothing.
    #[error("{what}: {value} has to be more than 0 mm")]
    NotPositive {
        /// What was given.
        what: String,
        /// The value as given.
        value: f64,
    },
    /// A figure that may not be negative.
    #[error("{what}: {value} may not be less than 0 mm")]
    Negative {
        /// What was given.
        what: String,
        /// The value as given.
        value: f64,
    },
    /// Too many of something.
    #[error("{what}: {count} is more than the {most} that are taken at a time")]
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many were given.
        count: usize,
        /// How many are taken.
        most: usize,
    },
    /// A place that is not on the plan, or has no plate.
    #[error(transparent)]
    Place(#[from] PlaceError),
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
    #[error("{}", self.words(Units::Mm))]
    NotPacking {
        /// The place.
        name: String,
        /// The gap.
        gap: f64,
        /// The largest gap taken.
        most: f64,
    },
    /// A packer thickness that is not whole tenths of a millimetre, or sixteenths of an inch.
    #[error("{}", self.words(Units::Mm))]
    Packer {
        /// The thickness.
        thickness: f64,
        /// What packers are counted in.
        grain: &'static str,
    },
    /// A packer thickness given twice.
    #[error("{}", self.words(Units::Mm))]
    PackerTwice(f64),
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
    #[error("{}", self.words(Units::Mm))]
    BelowDatum {
        /// The drop.
        drop: f64,
        /// The level's own depth.
        depth: f64,
    },
    /// Layers that leave nothing for the panel, or its rails nothing for the stud.
    #[error("{}", self.words(Units::Mm))]
    NoRoomFor {
        /// What has no room.
        what: &'static str,
        /// What comes out.
        value: f64,
    },
}

impl LevelsError {
    /// What is wrong, with lengths in `units`.
    #[must_use]
    pub fn words(&self, units: Units) -> String {
        match self {
            Self::NotPacking { name, gap, most } => format!(
                "{name} lies {} {} the datum: more than the {} that can be packed; check the reading and its unit",
                units.gap(gap.abs()),
                if *gap < 0.0 { "above" } else { "below" },
                units.gap(*most)
            ),
            Self::Packer { thickness, grain } => {
                format!("packer of {} mm: packers are counted in {grain}", decimal(*thickness, 3))
            }
            Self::PackerTwice(thickness) => format!(
                "packer of {} is given twice: give each thickness once, with its count",
                units.gap(*thickness)
            ),
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

/// The largest magnitude of any length taken, mm: ten kilometres.
pub(super) const MOST: f64 = 1e7;

/// `value`, if it is a finite length of reasonable size.
pub(super) fn length(what: impl Into<String>, value: f64) -> Result<f64, LevelsError> {
    if value.is_finite() && value.abs() <= MOST {
        Ok(value)
    } else {
        Err(LevelsError::NotALength { what: what.into(), value, most: MOST })
    }
}

/// `value`, if it is a length of more than nothing.
pub(super) fn positive(what: impl Into<String> + Clone, value: f64) -> Result<f64, LevelsError> {
    if length(what.clone(), value)? > 0.0 {
        Ok(value)
    } else {
        Err(LevelsError::NotPositive { what: what.into(), value })
    }
}

/// `value`, if it is a length of nothing or more.
pub(super) fn not_negative(what: impl Into<String> + Clone, value: f64) -> Result<f64, LevelsError> {
    if length(what.clone(), value)? >= 0.0 {
        Ok(value)
    } else {
        Err(LevelsError::Negative { what: what.into(), value })
    }
}

/// Refuses more than `most` of anything, so that no input hangs.
pub(super) fn at_most(what: &'static str, count: usize, most: usize) -> Result<(), LevelsError> {
    if count > most {
        return Err(LevelsError::TooMany { what, count, most });
    }
    Ok(())
}
