//! Why a job can't answer a question: what is missing or what is wrong, and what to write.

use crate::cutting;
use crate::heights::HeightsError;
use crate::joists::JoistsError;
use crate::length::{AmountError, InUnits, Units};
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
    /// The sums refuse it.
    #[error("{}", error.message(*units))]
    Refused {
        /// Why.
        error: Refusal,
        /// The units to say it in.
        units: Units,
    },
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
}

/// Why the sums of a command can't answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error(transparent)]
pub enum Refusal {
    /// Three tapes make no angle.
    Angle(#[from] AngleError),
    /// The plates can't be laid out.
    Plates(#[from] PlatesError),
    /// The joists can't be set out.
    Joists(#[from] JoistsError),
    /// The list can't be cut.
    Cuts(#[from] cutting::Error),
    /// Levels that can't be answered.
    Packing(#[from] PackingError),
    /// A wall head that can't be answered.
    Heights(#[from] HeightsError),
    /// The lines can't be set out.
    Lines(#[from] LinesError),
    /// Offset-block readings that can't be judged.
    Straight(#[from] AmountError),
    /// A tape that can be none.
    Tape(#[from] TapeError),
    /// Readings that can't be judged.
    Readings(#[from] readings::Error),
    /// The plan doesn't fit the sheet.
    Sketch(#[from] SketchError),
    /// The order can't be made out.
    Order(#[from] OrderError),
}

impl InUnits for Refusal {
    fn message(&self, units: Units) -> String {
        match self {
            Self::Angle(error) => error.message(units),
            Self::Plates(error) => error.message(units),
            Self::Joists(error) => error.message(units),
            Self::Cuts(error) => error.message(units),
            Self::Packing(error) => error.message(units),
            Self::Heights(error) => error.message(units),
            Self::Lines(error) => error.message(units),
            Self::Straight(error) => error.message(units),
            Self::Readings(error) => error.message(units),
            Self::Order(error) => error.message(units),
            Self::Tape(_) | Self::Sketch(_) => self.to_string(),
        }
    }
}

impl AnswerError {
    /// The sums' refusal, to be said in `units`.
    pub(crate) fn refused<E: Into<Refusal>>(units: Units) -> impl Fn(E) -> Self {
        move |error| Self::Refused { error: error.into(), units }
    }

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
