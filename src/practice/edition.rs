//! What a sheet is of: the edition of the generator, and how many questions and pupils at the most.

/// The edition of the generator. It goes up whenever the same seed would give another sheet, so that a printed sheet is
/// never marked against other questions.
pub const EDITION: u32 = 2;
/// The most questions on a sheet.
pub const MOST_QUESTIONS: u32 = 50;
/// The most names in a class.
pub const MOST_NAMES: usize = 200;
