//! The `pegline` program.

fn main() {}
