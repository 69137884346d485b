//! Which readings are misread: by the other readings, by the size of the slip, by the plan.

pub(super) mod cause;
pub(super) mod finding;
pub(super) mod search;
