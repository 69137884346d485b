//! Setting-out sums for timber-framed extensions: a pure geometry core that the `pegline` program wraps.

pub mod geometry;
pub mod length;
pub mod network;
pub mod plan;
pub mod square;
pub mod tape;
