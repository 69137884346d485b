//! What can be wrong with a practice sheet: what, where, and what to write instead.

use super::edition::{EDITION, MOST_NAMES, MOST_QUESTIONS};
use crate::words;

/// A sheet that can't be made, or a filled one that can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PracticeError {
    /// No such topic.
    #[error(
        "no topic `{0}`: write diagonals, corners, plates, packs, heights, misread, lines, straight, readings, joists or mixed"
    )]
    Topic(String),
    /// No such level.
    #[error("no level `{0}`: write 1, 2 or 3")]
    Level(String),
    /// Not a seed.
    #[error("`{0}` is not a seed: write a whole number from 0 to 4294967295")]
    Seed(String),
    /// Too few or too many questions.
    #[error("`{0}` questions: write a number from 1 to {MOST_QUESTIONS}")]
    Count(String),
    /// Units that no sheet is made in.
    #[error("no practice sheet is made in `{0}`: write mm or ft-in")]
    Units(String),
    /// A sheet of another edition of the generator.
    #[error(
        "the sheet is of edition `{0}` and this program makes edition {EDITION}: mark it with the program that printed it"
    )]
    Edition(String),
    /// No question came out; the generator is at fault.
    #[error("question {number} could not be made from seed {seed}: take another seed")]
    NoQuestion {
        /// The question.
        number: u32,
        /// The seed.
        seed: u32,
    },
    /// A filled sheet without its head line.
    #[error(
        "there is no head line: keep the sheet's first line, as in `Practice: diagonals, level 1, seed 7, 8 questions, mm, edition {EDITION}`"
    )]
    NoHead,
    /// A head line that can't be read.
    #[error(
        "`{0}` is not a sheet's head line: write it as in `Practice: diagonals, level 1, seed 7, 8 questions, mm, edition {EDITION}`"
    )]
    Head(String),
    /// A question that the sheet doesn't have.
    #[error("there is no question {number}: the sheet has {count}")]
    NoSuchQuestion {
        /// The number as given.
        number: String,
        /// How many there are.
        count: u32,
    },
    /// More or fewer answers to a question than it has blanks.
    #[error("question {number} has {}, but {}: write {}", words::count(*blanks, "blank"), words::count(*given, "answer"), if *blanks == 1 { "one".to_owned() } else { format!("a list of {blanks}, null for one left blank") })]
    Blanks {
        /// The question.
        number: u32,
        /// How many blanks it has.
        blanks: usize,
        /// How many answers were given.
        given: usize,
    },
    /// A list where one blank's answer belongs.
    #[error("question {number}: a list stands in the list: write a number or a text for each blank")]
    ListInList {
        /// The question.
        number: u32,
    },
    /// A blank that was filled twice, differently.
    #[error("question {number}, {label}: it is filled twice: keep one")]
    Twice {
        /// The question.
        number: u32,
        /// The blank.
        label: String,
    },
    /// A question whose words are not those that the head line's sheet has there.
    #[error(
        "question {number} is not worded as on the sheet that the head line names: it is marked as that sheet has it"
    )]
    Reworded {
        /// The question.
        number: u32,
    },
    /// A sheet none of whose questions are those of its head line.
    #[error(
        "none of the questions is worded as on the sheet that the head line names: the head line may be another sheet's"
    )]
    OtherSheet,
    /// A name that can't stand on a sheet.
    #[error(
        "line {line}: a name has at most {longest} characters, and no colon or underscore: write one name a line"
    )]
    Name {
        /// The line of the list.
        line: usize,
        /// The most characters.
        longest: usize,
    },
    /// Two pupils of one name.
    #[error("line {line}: there are two called {name}: add what tells them apart")]
    SameName {
        /// The line of the list.
        line: usize,
        /// The name.
        name: String,
    },
    /// No names, or too many.
    #[error("the list of names has {}: write 1 to {MOST_NAMES}, one a line", words::count(*.0, "name"))]
    Names(usize),
    /// A filled blank that is not a length.
    #[error("question {number}, {label}: `{given}` is not a length: write one such as {such_as}")]
    NotALength {
        /// The question.
        number: u32,
        /// The blank.
        label: String,
        /// As given.
        given: String,
        /// How one is written on this sheet.
        such_as: &'static str,
    },
    /// A filled blank that is not a whole number.
    #[error("question {number}, {label}: `{given}` is not a whole number: write a count such as 3")]
    NotACount {
        /// The question.
        number: u32,
        /// The blank.
        label: String,
        /// As given.
        given: String,
    },
    /// A filled blank that is none of its words.
    #[error("question {number}, {label}: `{given}` is none of its answers: write {}", allowed.join(" or "))]
    NotAWord {
        /// The question.
        number: u32,
        /// The blank.
        label: String,
        /// As given.
        given: String,
        /// What can be written.
        allowed: Vec<String>,
    },
}
