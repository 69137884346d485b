//! A question put together from its parts, not numbered yet.

use crate::practice::question::{Blank, Question};

/// A question of `given` and `asked`, with the picture that goes with it, what is to be filled in and the working.
pub(super) fn posed(
    sketch: Vec<String>,
    given: String,
    asked: String,
    blanks: Vec<Blank>,
    working: Vec<String>,
    gist: Vec<i64>,
) -> Question {
    Question { number: 0, sketch, given, asked, blanks, working, gist }
}
