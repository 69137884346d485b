//! Answers that follow from another answer of the same question: right for what was written there, if not for the sheet.

use super::answer::Answer;
use super::packers::fewest;

/// How a blank's answer follows from what was written in an earlier blank of its question.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Follow {
    /// The earlier blank.
    pub(super) from: usize,
    /// How.
    pub(super) how: How,
}

/// What is done with the earlier answer. Lengths in steps of the sheet's tape.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum How {
    /// It is multiplied, and comes out whole.
    Times {
        /// By this,
        top: i64,
        /// over this.
        bottom: i64,
    },
    /// So much is taken off it.
    Less(i64),
    /// The fewest packers of these thicknesses make it.
    Fewest(Vec<i64>),
    /// The corner is open if a tape that read so much is longer than it.
    TapeRead(i64),
}

impl Follow {
    /// The answer that follows from the earlier one as written; nothing if none does.
    pub(super) fn answer(&self, earlier: i64) -> Option<Answer> {
        match &self.how {
            How::Times { top, bottom } => {
                let product = earlier.checked_mul(*top)?;
                (product % bottom == 0).then(|| Answer::Length(product / bottom))
            }
            How::Less(taken) => Some(Answer::Length(earlier - taken)).filter(|_| earlier > *taken),
            How::Fewest(sizes) => {
                // Nothing that is packed is thicker than the tape is long.
                let stack = fewest(Some(earlier).filter(|pack| (1..10_000).contains(pack))?, sizes)?;
                Some(Answer::Count(i64::try_from(stack.len()).ok()?))
            }
            How::TapeRead(read) => {
                let words = ["open", "closed"].map(str::to_owned).to_vec();
                let right = words[usize::from(*read < earlier)].clone();
                (*read != earlier).then_some(Answer::Word { right, allowed: words })
            }
        }
    }
}
