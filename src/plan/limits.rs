//! How much of a plan is taken, and how near two figures are the same place.

/// The fewest corners a plan can have.
pub const FEWEST_CORNERS: usize = 4;
/// The most corners a plan can have: one for each letter.
pub const MOST_CORNERS: usize = 26;
/// Two figures on the drawing closer than this are the same place, mm.
pub const SAME_PLACE: f64 = 1e-6;
/// The longest plan text taken, characters.
pub const LONGEST_TEXT: usize = 4096;
