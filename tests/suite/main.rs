//! The one integration-test binary: a file a subject.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test stops at the first surprise"
)]

mod cutting;
mod tape;
