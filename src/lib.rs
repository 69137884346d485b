//! Setting-out sums for timber-framed extensions: a pure geometry core that the `pegline` program wraps.

pub mod geometry;
pub mod network;
pub mod readings;
pub mod tape;
