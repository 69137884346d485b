//! The true outline laid on what was built: how far out each corner is, and what to move.

pub(super) mod datum;
pub(super) mod fewest;
pub(super) mod laying;
pub(super) mod moves;
pub(super) mod placement;
mod simplex;
pub(super) mod square;
