//! How a published limit grows, or doesn't, with the length it is applied to.

use serde::Serializer;

use super::right_angle;

/// One band of a stepped table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Upper end of the band, mm; infinite for the last band of an open table.
    pub to: f64,
    /// Whether a length of exactly `to` belongs to this band.
    pub inclusive: bool,
    /// The limit anywhere in the band, ± mm.
    pub limit: f64,
}

/// The rule that turns a length into a limit. All figures in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// A table: fixed within each band, none past the last.
    Bands(&'static [Band]),
    /// `limit` for every `per`, in proportion at any length, as the source states.
    ProRata {
        /// Limit at the base length.
        limit: f64,
        /// Base length.
        per: f64,
    },
    /// In proportion up to `to`, where it is `limit`, then a fixed `over`, as the source states.
    ProRataThenFixed {
        /// Limit at `to`.
        limit: f64,
        /// The stated length.
        to: f64,
        /// Limit at any greater length.
        over: f64,
    },
    /// `limit` for every `per`, never over `most`. The source is silent on lengths under `per`: the figure is held
    /// there, not shrunk.
    RateUpTo {
        /// Limit at the base length, and under it.
        limit: f64,
        /// Base length.
        per: f64,
        /// Limit at any length.
        most: f64,
    },
    /// `limit` within `to`; the source gives nothing for greater lengths and does not shrink it for smaller ones.
    Within {
        /// Limit.
        limit: f64,
        /// The stated length.
        to: f64,
    },
    /// `factor` × √(length in metres), never under `least`.
    RootOfMetres {
        /// Limit at one metre.
        factor: f64,
        /// Smallest limit.
        least: f64,
    },
    /// Stated for one right triangle only; carried to another as the same angle at the corner (our extension).
    SameAngle {
        /// Legs of the stated triangle.
        legs: (f64, f64),
        /// Limit on its hypotenuse.
        limit: f64,
    },
}

impl Law {
    /// The scaling rule in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Bands(_) => "a table: fixed within each band of length",
            Self::ProRata { .. } => "pro rata at any length",
            Self::ProRataThenFixed { .. } => "pro rata up to the stated length, fixed over it",
            Self::RateUpTo { .. } => {
                "grows with the length up to its overall limit; under the stated length the source is silent and the figure is held"
            }
            Self::Within { .. } => {
                "fixed within the stated length, which the source neither shrinks nor extends"
            }
            Self::RootOfMetres { .. } => "with the square root of the length, never under its least figure",
            Self::SameAngle { .. } => {
                "stated for one triangle; carried to others as the same angle at the corner (our extension)"
            }
        }
    }

    /// The limit, ± mm, over `length` mm. `None`: see [`super::Preset::limit`].
    #[must_use]
    pub fn limit(self, length: f64) -> Option<f64> {
        if !(length.is_finite() && length > 0.0) {
            return None;
        }
        match self {
            Self::Bands(bands) => bands
                .iter()
                .find(|band| length < band.to || (band.inclusive && length <= band.to))
                .map(|band| band.limit),
            Self::ProRata { limit, per } => Some(limit * (length / per)),
            Self::ProRataThenFixed { limit, to, over } => {
                Some(if length > to { over } else { limit * length / to })
            }
            Self::RateUpTo { limit, per, most } => Some((limit * (length / per).max(1.0)).min(most)),
            Self::Within { limit, to } => (length <= to).then_some(limit),
            Self::RootOfMetres { factor, least } => Some((factor * (length / 1000.0).sqrt()).max(least)),
            Self::SameAngle { .. } => None,
        }
    }

    /// The limit, ± mm, on the hypotenuse of a right triangle. `None`: see [`super::Preset::diagonal_limit`].
    #[must_use]
    pub fn diagonal_limit(self, a: f64, b: f64) -> Option<f64> {
        let Self::SameAngle { legs, limit } = self else {
            return right_angle::hypotenuse(a, b).and_then(|c| self.limit(c));
        };
        let opened = right_angle::opened_by(legs.0, legs.1, limit)?;
        right_angle::hypotenuse_change(a, b, opened)
    }
}

/// Writes the scaling rule in words.
pub(super) fn serialize_words<S: Serializer>(law: &Law, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(law.words())
}
