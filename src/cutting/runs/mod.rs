//! Runs that may be spliced, laid from bars: splices and bars chosen together.

mod answer;
mod blocks;
mod candidates;
mod chain;
mod cover;
mod groups;
mod house;
mod instance;
mod intervals;
mod outcome;
mod partition;
mod presplit;
mod score;
mod search;
mod shelves;
mod tree;
mod van;

pub use answer::plan_runs;
pub(super) use blocks::table_work;
pub use house::{cheapest, plan_house};
