//! Fixed pieces from bars, by the linear programme over patterns and a search through it.

mod branch;
mod demand;
mod first_fit;
mod full;
mod knapsack;
mod master;
mod pool;
mod programme;

pub(super) use branch::{Cheapest, search};
pub(super) use demand::Demand;
pub(super) use first_fit::Cutting;
pub(super) use knapsack::Item;
