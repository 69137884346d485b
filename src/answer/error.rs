//! Why a job can't answer a question: what is missing or what is wrong, and what to write.

use crate::cutting;
use crate::heights::HeightsError;
use crate::joists::JoistsError;
use crate::length::{AmountError, Units};
use crate::lines::LinesError;
use crate::order::OrderError;
use crate::packing::PackingError;
use crate::plates::PlatesError;
use crate::readings;
use crate::sketch::SketchError;
use crate::square::AngleError;
use crate::tape::TapeError;

/// There is no plan.
pub(super) const NO_PLAN: AnswerError = AnswerError::Missing {
    typed: "there is no plan: write one such as 7800x6000-3000x2400 after the command, or --walk, or `plan` in a job file (--job FILE)",
    in_file: "there is no plan: give `plan`, such as 7800x6000-3000x2400, or `walk` in the job file",
};

/// A job that can't answer the question.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum AnswerError {
    /// The job has no inputs for it.
    #[error("{typed}")]
    Missing {
        /// What is missing, and what to type or to write.
        typed: &'static str,
        /// The same for whoever has only a job file to write in.
        in_file: &'static str,
    },
    /// Three tapes make no angle.
    #[error("{}", error.message(*units))]
    Angle {
        /// Why.
        error: AngleError,
        /// The units to say it in.
        units: Units,
    },
    /// The plates can't be laid out.
    #[error("{}", error.message(*units))]
    Plates {
        /// Why.
        error: PlatesError,
        /// The units to say it in.
        units: Units,
    },
    /// The joists can't be set out.
    #[error("{}", error.message(*units))]
    Joists {
        /// Why.
        error: JoistsError,
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
    /// Readings that can't be judged.
    #[error(transparent)]
    Readings(#[from] readings::Error),
    /// A part of the sheet or the order that has its inputs can't be answered.
    #[error("{command}: {}", error.in_job_file())]
    Part {
        /// The part's command.
        command: &'static str,
        /// Why.
        error: Box<Self>,
    },
    /// One of several plots can't be answered.
    #[error("{plot}: {}", error.in_job_file())]
    Plot {
        /// The plot.
        plot: String,
        /// Why.
        error: Box<Self>,
    },
    /// The plan doesn't fit the sheet.
    #[error(transparent)]
    Sketch(#[from] SketchError),
    /// The order can't be made out.
    #[error(transparent)]
    Order(#[from] OrderError),
}

impl AnswerError {
    /// The same said to whoever has only a job file to write in: what is missing by its field, without the options of the
    /// command that would ask for it alone.
    #[must_use]
    pub fn in_job_file(&self) -> String {
        match self {
            Self::Missing { in_file, .. } => (*in_file).to_owned(),
            other => other.to_string(),
        }
    }

    /// Whether it is only that the job has no inputs for the question.
    #[must_use]
    pub fn is_missing_input(&self) -> bool {
        match self {
            Self::Part { error, .. } => error.is_missing_input(),
            Self::Missing { .. } => true,
            _ => false,
        }
    }

    /// The same with the plot that it is about named.
    pub(super) fn of_plot(self, plot: &str) -> Self {
        Self::Plot { plot: plot.to_owned(), error: Box::new(self) }
    }

    /// The same with the part that it is about named, unless one is.
    pub(super) fn of_part(self, command: &'static str) -> Self {
        match self {
            Self::Part { .. } => self,
            error => Self::Part { command, error: Box::new(error) },
        }
    }
}
