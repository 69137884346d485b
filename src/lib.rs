//! Setting-out sums for timber-framed extensions: a pure geometry core that the `pegline` program wraps.

pub mod geometry;
pub mod levels;
pub mod network;
pub mod rules;
pub mod sag;
pub mod tape;
