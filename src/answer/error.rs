//! Why a job can't answer a question: what is missing or what is wrong, and what to write.

use super::Question;
use crate::cutting;
use crate::heights::HeightsError;
use crate::length::{AmountError, Units};
use crate::lines::LinesError;
use crate::order::OrderError;
use crate::packing::PackingError;
use crate::plates::PlatesError;
use crate::readings;
use crate::sketch::SketchError;
use crate::square::AngleError;
use crate::tape::TapeError;

/// Said of a job without a part that needs anything: it has no options to name.
const NOTHING_TO_ORDER: &str = "there is nothing to order: give `plates`, `cuts`, `packs`, `lines` or `order.extras` in the job file (`pegline job new` writes one)";

/// A job that can't answer the question.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AnswerError {
    /// There is no plan.
    #[error(
        "there is no plan: write one such as 7800x6000-3000x2400 after the command, or --walk, or `plan` in a job file (--job FILE)"
    )]
    NoPlan,
    /// Three tapes make no angle.
    #[error("{}", error.message(*units))]
    Angle {
        /// Why.
        error: AngleError,
        /// The units to say it in.
        units: Units,
    },
    /// There are no levels to pack from.
    #[error(
        "there are no readings: write --staff A=1412,B=1409 (the bigger, the lower) or --heights A=0,B=-3, or `packs` in the job file"
    )]
    NoReadings,
    /// There is nothing to work heights out from.
    #[error(
        "there is no wall head and no ceiling: write --drop 2398 --level-depth 50, or --ceiling 2400, or both, or `heights` in the job file"
    )]
    NoHeights,
    /// There is no plate width.
    #[error("there is no plate width: write --width 140, or `plates.width` in the job file")]
    NoWidth,
    /// There is nothing to cut from.
    #[error(
        "there is no stock to cut from: write --stock 3.6m:10.80,4.8m:15.60 or without prices 3.6m,4.8m, or `stock.lengths` in the job file"
    )]
    NoStock,
    /// There is nothing to cut.
    #[error("there is nothing to cut: write --pieces 4x1200,2x2350, or `cuts.pieces` in the job file")]
    NoPieces,
    /// The plates can't be laid out.
    #[error("{}", error.message(*units))]
    Plates {
        /// Why.
        error: PlatesError,
        /// The units to say it in.
        units: Units,
    },
    /// The list can't be cut.
    #[error(transparent)]
    Cuts(#[from] cutting::Error),
    /// Levels that can't be answered.
    #[error(transparent)]
    Packing(#[from] PackingError),
    /// A wall head that can't be answered.
    #[error(transparent)]
    Heights(#[from] HeightsError),
    /// The lines can't be set out.
    #[error(transparent)]
    Lines(#[from] LinesError),
    /// Offset-block readings that can't be judged.
    #[error(transparent)]
    Straight(AmountError),
    /// A tape that can be none.
    #[error(transparent)]
    Tape(#[from] TapeError),
    /// There are no offset-block readings.
    #[error(
        "there are no readings: write the blocks' thickness and where along the side each was taken, such as --block 20 --read 0=20,1200=22, or `straight` in the job file"
    )]
    NoBlockReadings,
    /// Nothing was taped.
    #[error(
        "there are no readings: write --read AB=7802,BC=3601,AC=8594, the line and what the tape read, or `readings.read` in the job file"
    )]
    NothingTaped,
    /// Readings that can't be judged.
    #[error(transparent)]
    Readings(#[from] readings::Error),
    /// A part of the sheet or the order that has its inputs can't be answered.
    #[error("{}: {}", question.name(), error.in_job_file())]
    Part {
        /// The part.
        question: Question,
        /// Why.
        error: Box<Self>,
    },
    /// The plan doesn't fit the sheet.
    #[error(transparent)]
    Sketch(#[from] SketchError),
    /// The job has no part that needs anything.
    #[error("{NOTHING_TO_ORDER}")]
    NothingToOrder,
    /// The order can't be made out.
    #[error(transparent)]
    Order(#[from] OrderError),
}

impl AnswerError {
    /// The same said to whoever has only a job file to write in: what is missing by its field, without the options of the
    /// command that would ask for it alone.
    #[must_use]
    pub fn in_job_file(&self) -> String {
        self.missing_field().map_or_else(|| self.to_string(), str::to_owned)
    }

    /// What is missing, and the fields to give it in; nothing where the job has inputs for the question.
    const fn missing_field(&self) -> Option<&'static str> {
        Some(match self {
            Self::NoPlan => {
                "there is no plan: give `plan`, such as 7800x6000-3000x2400, or `walk` in the job file"
            }
            Self::NoReadings => "there are no levels: give `packs.staff` or `packs.heights` in the job file",
            Self::NoHeights => {
                "there is no wall head and no ceiling: give `heights.drops` and `heights.level_depth`, or `heights.ceiling`, or all of them in the job file"
            }
            Self::NoWidth => "there is no plate width: give `plates.width` in the job file",
            Self::NoStock => "there is no stock to cut from: give `stock.lengths` in the job file",
            Self::NoPieces => "there is nothing to cut: give `cuts.pieces` in the job file",
            Self::NoBlockReadings => {
                "there are no readings: give `straight.block` and `straight.readings` in the job file"
            }
            Self::NothingTaped => {
                "there are no readings: give `readings.read`, the lines and what the tape read, in the job file"
            }
            Self::NothingToOrder => NOTHING_TO_ORDER,
            _ => return None,
        })
    }

    /// Whether it is only that the job has no inputs for the question.
    #[must_use]
    pub fn is_missing_input(&self) -> bool {
        match self {
            Self::Part { error, .. } => error.is_missing_input(),
            other => other.missing_field().is_some(),
        }
    }
}
