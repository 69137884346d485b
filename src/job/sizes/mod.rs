//! Plausible sizes: a verdict is never given on what can't be, and what seldom is is said first.

mod plan;
mod size;
mod table;

pub(super) use plan::{ReadPlan, plan_doubts, plan_refusal};
pub(super) use size::Size;
pub(super) use table::SIZES;
