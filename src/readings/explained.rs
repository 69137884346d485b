//! What may explain the readings, and which of them are misread by it, as the answer has it.

use schemars::JsonSchema;
use serde::Serialize;

use super::case::Case;
use super::input::Input;
use super::judge::odds::{Weighed, Why};
use super::misreads::cause::off_words;
use super::misreads::finding::{Finding, SettledBy, Suspect};
use crate::geometry::{Mm, Ratio};
use crate::words::and_list;

/// One reading that may be the misread one.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct SuspectReading {
    /// The line.
    pub name: String,
    /// Estimated slip, mm.
    pub slip: Mm,
    /// Standard deviation of that estimate, mm.
    pub slip_sd: Mm,
    /// The usual slip it looks like.
    pub likely: Option<String>,
    /// True, for those who read it: only what would leave the rest in step is listed.
    pub passes: bool,
}

/// One misread.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Misread {
    /// The reading named; absent where a tie stands.
    pub name: Option<String>,
    /// The largest standardised residual when it was found.
    pub w: Ratio,
    /// The readings that no residual can tell apart; one when there is no tie.
    pub tied: Vec<SuspectReading>,
    /// What named it.
    pub settled_by: SettledBy,
    /// Empty, for those who read it: other explanations are in `explanations`.
    pub rivals: Vec<String>,
}

/// What the plan said of the readings by itself. Its word is in `misreads` and `explanations` now: these lists stay, empty, for
/// those who read them.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct AgainstPlan {
    /// How well the outline is taken to be built, one standard deviation in x and in y, mm.
    pub built_within: Mm,
    /// Readings that look misread against the plan.
    pub suspects: Vec<SuspectReading>,
    /// Others that, misread instead of one of them, would fit the plan as well.
    pub rivals: Vec<String>,
    /// Those of the suspects that no other reading checks and no second reading confirms: tape them again.
    pub tape_again: Vec<String>,
}

/// What may be wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub enum Explains {
    /// Nothing.
    #[serde(rename = "nothing wrong")]
    Nothing,
    /// One reading, or some.
    #[serde(rename = "wrong readings")]
    Wrong,
    /// Two lines written against each other's name.
    #[serde(rename = "exchanged lines")]
    Exchanged,
    /// Every reading of a tape, by the same length.
    #[serde(rename = "every reading")]
    Every,
}

/// What may explain the readings.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Explanation {
    /// What it is.
    pub what: Explains,
    /// The wrong readings, or the two lines written against each other's name.
    pub lines: Vec<String>,
    /// The tape, from 1, where it is every reading of one of two.
    pub tape: Option<usize>,
    /// How far off the reading is, or every one of them, mm: + long.
    pub size: Option<Mm>,
    /// How likely, 0 to 1; all explanations together make 1.
    pub odds: Ratio,
    /// The length to say was held on, mm, if that would settle it (`--held-on`).
    pub held_on: Option<Mm>,
    /// The same in plain words.
    pub says: String,
    /// The option that would settle it, as it is typed.
    pub add: Option<String>,
}

impl Explanation {
    pub(super) fn new(case: &Case<'_>, weighed: &Weighed) -> Self {
        let names =
            |indices: &[usize]| indices.iter().map(|i| case.taped[*i].name.clone()).collect::<Vec<_>>();
        let nothing = Self {
            what: Explains::Nothing,
            lines: Vec::new(),
            tape: None,
            size: None,
            odds: Ratio(weighed.odds),
            held_on: None,
            says: "nothing is wrong".to_owned(),
            add: None,
        };
        match &weighed.why {
            Why::Nothing => nothing,
            Why::Wrong(wrong) => {
                let lines = names(wrong);
                let size = weighed.off.first().filter(|_| wrong.len() == 1).map(|(slip, _)| Mm(*slip));
                let says = size.map_or_else(
                    || format!("{} are wrong", and_list(&lines)),
                    |slip| format!("{} is {}", lines[0], off_words(slip.0, case.input.units)),
                );
                Self { what: Explains::Wrong, lines, size, says, ..nothing }
            }
            Why::Exchanged(both) => {
                let lines = names(both);
                let says = format!("{} are written against each other's name", and_list(&lines));
                Self { what: Explains::Exchanged, lines, says, ..nothing }
            }
            Why::Constant { tape, length } => {
                let of = ["", " of the first tape", " of the second tape"][tape.map_or(0, |t| t + 1).min(2)];
                let first = case.input.tapes[tape.unwrap_or(0)].held_on;
                Self {
                    what: Explains::Every,
                    tape: tape.map(|tape| tape + 1),
                    size: Some(Mm(*length)),
                    held_on: Some(Mm(first + length)),
                    says: format!("every reading{of} is {}", off_words(*length, case.input.units)),
                    add: options(case.input, *tape, *length),
                    ..nothing
                }
            }
        }
    }
}

/// The options that take such a length off every reading, of all tapes or of one; nothing where none is to be added.
fn options(input: &Input<'_>, tape: Option<usize>, length: f64) -> Option<String> {
    let of = (0..input.tapes.len()).filter(|i| tape.is_none_or(|tape| tape == *i));
    let held = of.map(|i| (["--held-on", "--second-held-on"][i.min(1)], input.tapes[i].held_on + length));
    let add: Vec<String> = held
        .filter(|(_, held)| *held > 0.0)
        .map(|(option, held)| format!("{option} {}", input.units.typed(held)))
        .collect();
    (!add.is_empty()).then(|| add.join(" "))
}

impl Misread {
    pub(super) fn new(case: &Case<'_>, finding: &Finding) -> Self {
        let name = finding.chosen.map(|i| case.taped[finding.suspects[i].index].name.clone());
        let mut tied: Vec<SuspectReading> =
            finding.suspects.iter().map(|s| SuspectReading::new(case, s)).collect();
        // The one named first, then by the alphabet.
        tied.sort_by_key(|t| (name.as_ref() != Some(&t.name), t.name.clone()));
        Self { name, w: Ratio(finding.w), tied, settled_by: finding.settled_by, rivals: Vec::new() }
    }
}

impl SuspectReading {
    fn new(case: &Case<'_>, suspect: &Suspect) -> Self {
        Self {
            name: case.taped[suspect.index].name.clone(),
            slip: Mm(suspect.slip),
            slip_sd: Mm(suspect.slip_sd),
            likely: suspect.cause.map(|c| c.words(case.input.units)),
            passes: true,
        }
    }
}

impl AgainstPlan {
    pub(super) fn of(input: &Input<'_>) -> Self {
        Self {
            built_within: Mm(input.built_within),
            suspects: Vec::new(),
            rivals: Vec::new(),
            tape_again: Vec::new(),
        }
    }
}
