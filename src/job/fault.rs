//! One thing wrong with a job: which field, and what to write instead.

use std::fmt;

use crate::words::one_line;

/// A fault in a job's inputs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The field, as a path in the job file: `tape.length`, `house[0]`; empty for the job as a whole.
    pub field: String,
    /// What is wrong and what to write instead.
    pub message: String,
}

impl Fault {
    /// A fault of the field at `field`.
    #[must_use]
    pub fn new(field: impl Into<String>, problem: impl fmt::Display) -> Self {
        Self { field: one_line(&field.into()), message: one_line(&problem.to_string()) }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.field.is_empty() {
            f.write_str(&self.message)
        } else {
            write!(f, "{}: {}", self.field, self.message)
        }
    }
}
