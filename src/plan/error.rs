//! What can be wrong with a plan: what, where, and what to write instead.

use super::limits::{FEWEST_CORNERS, LONGEST_TEXT, MOST_CORNERS};
use super::misclosure::Misclosure;
use crate::length::LengthError;

/// A plan that could not be taken.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlanError {
    /// Nothing was written.
    #[error("the plan is empty: write one such as 7800x6000-3000x2400 (an L) or 9000x3000+3600x2400 (a T)")]
    Empty,
    /// The text is longer than [`LONGEST_TEXT`].
    #[error("the plan is {length} characters long: {LONGEST_TEXT} is the most taken")]
    TooMuchText {
        /// Its length, bytes.
        length: usize,
    },
    /// A dimension that can't be read.
    #[error("{place}: {error}")]
    Dimension {
        /// Which dimension, in words.
        place: String,
        /// What is wrong with it.
        error: LengthError,
    },
    /// A dimension of zero or less.
    #[error("{place} is zero or less: every dimension must be more than zero")]
    NotPositive {
        /// Which dimension, in words.
        place: String,
    },
    /// Something other than what an expression has at this place.
    #[error("{} after `{before}`: write {expected}", if found.is_empty() { "the plan ends".to_owned() } else { format!("`{found}`") })]
    Unexpected {
        /// The text at fault; empty at the end of the plan.
        found: String,
        /// What was read up to there.
        before: String,
        /// What to write there.
        expected: &'static str,
    },
    /// A cut-out or leg that doesn't fit.
    #[error("`{term}`: {problem}")]
    DoesNotFit {
        /// The term as written.
        term: String,
        /// Why not, and what to write instead.
        problem: String,
    },
    /// Pieces that don't make one outline without holes.
    #[error("the plan's cut-outs and legs leave {what}: it must stay one piece, without holes")]
    NotOnePiece {
        /// What they leave.
        what: &'static str,
    },
    /// Too few or too many corners.
    #[error("the outline has {count} corners: {FEWEST_CORNERS} to {MOST_CORNERS} are taken")]
    CornerCount {
        /// How many.
        count: usize,
    },
    /// A coordinate that is not a finite number.
    #[error("a corner's place is not a finite number")]
    NotFinite,
    /// A side of no length.
    #[error("side {side} has no length")]
    NoLength {
        /// Its name.
        side: String,
    },
    /// A side that runs neither across nor down the page.
    #[error("side {side} slants: every side must run square to its neighbours")]
    Slanting {
        /// Its name.
        side: String,
    },
    /// A corner with no turn.
    #[error("the outline goes straight through corner {corner}: leave it out")]
    StraightThrough {
        /// Its letter.
        corner: char,
    },
    /// A side that runs back over the one before.
    #[error("the outline folds back on itself at corner {corner}")]
    FoldsBack {
        /// Its letter.
        corner: char,
    },
    /// Two sides that meet where they should not.
    #[error("sides {first} and {second} cross or touch")]
    Touching {
        /// The first side's name.
        first: String,
        /// The second side's name.
        second: String,
    },
    /// Corners that go round the wrong way.
    #[error("the outline goes round anticlockwise: give its corners clockwise, seen from above")]
    Anticlockwise,
    /// A walk whose turn is not R or L.
    #[error(
        "`{found}` after side {after} of the walk: write R or L for the turn, then the next side's length"
    )]
    Turn {
        /// The text at fault.
        found: String,
        /// The number of the side before it, from 1.
        after: usize,
    },
    /// A walk of lengths alone.
    #[error("a turn stands between two sides, R for right or L for left: {walk}")]
    NoTurns {
        /// How it begins, or all of it if it can be nothing but a rectangle.
        walk: String,
    },
    /// A walk that begins with a turn.
    #[error(
        "a walk begins with a side, along the top from A, and not with a turn: leave out the first `{turn}`"
    )]
    TurnFirst {
        /// The turn as given.
        turn: String,
    },
    /// A walk with too few sides to close.
    #[error("one side is no walk: give at least two, with R or L between them")]
    WalkTooShort,
    /// A walk whose turns don't come round once.
    #[error(
        "the walk's turns don't come round: {right} R and {left} L with the closing corners, but a closed outline has 4 more one way than the other"
    )]
    TurnsDontClose {
        /// Right turns, the closing ones included.
        right: usize,
        /// Left turns.
        left: usize,
    },
    /// A walk that doesn't come back to its start.
    #[error(
        "the walk doesn't close: it ends {}{}",
        words(misses),
        if *left_out { "; if its last two sides were left out, give the first of them" } else { "" }
    )]
    DoesNotClose {
        /// By how much, an entry an axis.
        misses: Vec<Misclosure>,
        /// Whether the walk could instead be one with its last two sides left out.
        left_out: bool,
    },
    /// A walk that starts at another corner than A.
    #[error("the walk starts at another corner than A, the left end of the topmost side: write {walk}")]
    WrongStart {
        /// The walk from A.
        walk: String,
    },
    /// A house side that the outline doesn't have.
    #[error("there is no side `{name}`: the sides are {}", sides.join(", "))]
    NoSuchSide {
        /// The name as given.
        name: String,
        /// The sides there are.
        sides: Vec<String>,
    },
    /// Every side is an existing wall.
    #[error("every side is marked as the house: leave at least one side to build")]
    AllHouse,
}

fn words(misses: &[Misclosure]) -> String {
    let list: Vec<String> = misses.iter().map(ToString::to_string).collect();
    list.join(", and ")
}
