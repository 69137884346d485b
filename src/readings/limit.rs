//! How far out of square is too far.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::rules::{DIAGONALS, PLAN_SIZES, Preset, UnknownPreset, find_in, right_angle};

/// Coordinates and readings past this, mm, are slips of the keyboard: 1 km.
pub(super) const FARTHEST: f64 = 1e6;

/// How far out of square a corner may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// The user's own limit at the end of any side, mm.
    Own(f64),
    /// A published tolerance on a dimension: the end of a side may be off by as much as a dimension of its length.
    Size(&'static Preset),
    /// A published tolerance on a diagonal: the corner may open or close by as much as the diagonal between the ends of
    /// its two sides allows.
    Diagonal(&'static Preset),
}

/// A limit as it was applied.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct LimitAnswer {
    /// The user's own, mm.
    pub own: Option<Mm>,
    /// A published one.
    pub preset: Option<Preset>,
    /// How it is taken at a corner.
    pub taken_as: &'static str,
}

impl Limit {
    /// The published limit called `key`: on a diagonal, or else on a dimension.
    pub fn published(key: &str) -> Result<Self, UnknownPreset> {
        find_in([(DIAGONALS, Self::Diagonal), (PLAN_SIZES, Self::Size)], "a corner", key)
    }

    /// The limit at the end of a side of `length` mm at a corner whose other side is `other` mm, mm: never negative, nor
    /// past 1 km. `None` where the publication gives none.
    #[must_use]
    pub fn at(self, length: f64, other: f64) -> Option<f64> {
        let limit = match self {
            Self::Own(limit) => Some(limit),
            Self::Size(preset) => preset.limit(length),
            Self::Diagonal(preset) => preset
                .diagonal_limit(length, other)
                .and_then(|excess| right_angle::opened_by(length, other, excess))
                .map(|opened| length * opened.sin()),
        };
        limit.map(|limit| limit.clamp(0.0, FARTHEST))
    }

    /// The most that a side of `length` mm may be long or short, mm; `None` where nothing is said of sizes.
    #[must_use]
    pub fn on_size(self, length: f64) -> Option<f64> {
        match self {
            Self::Own(limit) => Some(limit),
            Self::Size(preset) => preset.limit(length),
            Self::Diagonal(_) => None,
        }
    }

    /// The limit in an answer.
    pub(super) fn answer(self) -> LimitAnswer {
        match self {
            Self::Own(limit) => {
                LimitAnswer { own: Some(Mm(limit)), preset: None, taken_as: "at the end of each side" }
            }
            Self::Size(preset) => LimitAnswer {
                own: None,
                preset: Some(*preset),
                taken_as: "the end of a side may be off by as much as a dimension of its length (our reading)",
            },
            Self::Diagonal(preset) => LimitAnswer {
                own: None,
                preset: Some(*preset),
                taken_as: "a corner may open or close by as much as the diagonal of its two sides allows",
            },
        }
    }
}
