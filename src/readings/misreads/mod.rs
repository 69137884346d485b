//! Which readings are misread: by the other readings, by the size of the slip, by the plan.

pub(super) mod cause;
pub(super) mod examine;
pub(super) mod finding;
mod pairs;
pub(super) mod search;
pub(super) mod snoop;
