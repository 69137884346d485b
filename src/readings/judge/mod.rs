//! Which explanation of a set of readings is likely: each weighed by how well the readings, with the plan as a vague prior,
//! bear it out, and by how often such a thing happens.

mod evidence;
mod lines;
mod lower;
pub(super) mod odds;
mod prior;
mod search;
mod shows;
