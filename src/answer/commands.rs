//! The table of commands: a row for each question that a job can be asked, and what follows from the row alone.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use serde_json::{Value, json};

use super::answered::Answered;
use super::error::AnswerError;
use super::joists::RoofJoists;
use super::sketch::Sketch;
use crate::cuts::Cuts;
use crate::heights::Heights;
use crate::job::Job;
use crate::length::Units;
use crate::lines::{Lines, Straight};
use crate::order::Order;
use crate::packing::Packs;
use crate::page::{Detail, Page, Remarks, Rows, Steps};
use crate::plates::Plates;
use crate::readings::Readings;
use crate::square::{Corners, Diagonals};

/// How an answer is asked of a job.
pub(super) trait Asked: Sized {
    /// The answer, with those that it builds on taken from `known` where they are there.
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError>;
}

/// An answer as others build on it.
pub(super) trait Known: Asked + Clone {
    /// The question that it answers.
    const QUESTION: Question;

    /// The answer, if it is this one.
    fn of(answer: &Answer) -> Option<&Self>;

    /// The answer from `known` if it is there; where it can't be answered the part is named.
    fn part<'a>(job: &Job, known: &'a [Part]) -> Result<Cow<'a, Self>, AnswerError> {
        match known.iter().find_map(|part| Self::of(&part.result)) {
            Some(answer) => Ok(Cow::Borrowed(answer)),
            None => match Self::asked(job, known) {
                Ok(answer) => Ok(Cow::Owned(answer)),
                Err(error) => Err(error.of_part(Self::QUESTION.name())),
            },
        }
    }
}

/// Rows of: a variant of [`Question`] and [`Answer`], the type that answers it, the command's name, what the part is called
/// on a sheet, and the fields of the job file without which it can't be asked, if it is a part of the day by itself.
macro_rules! commands {
    ($($(#[$doc:meta])* $command:ident($answer:ty), $name:literal, $title:literal $(, $needs:literal)?;)+) => {
        /// What is asked of a job.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Question {
            $($(#[$doc])* $command,)+
        }

        impl Question {
            /// Every question, in the order of the day.
            pub const ALL: [Self; [$($name),+].len()] = [$(Self::$command),+];

            /// The command's name.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$command => $name,)+ }
            }

            /// What a part of a sheet is called.
            #[must_use]
            pub const fn title(self) -> &'static str {
                match self { $(Self::$command => $title,)+ }
            }

            /// The fields of the job file without which a job can't be asked this; none for what isn't a part of the day by
            /// itself.
            pub(super) const fn needs(self) -> &'static [&'static str] {
                match self { $(Self::$command => &[$($needs)?],)+ }
            }

            /// The schema of what answers it.
            pub(super) fn schema(self, generator: &mut SchemaGenerator) -> Schema {
                match self { $(Self::$command => generator.subschema_for::<$answer>(),)+ }
            }

            pub(super) fn asked(self, job: &Job, known: &[Part]) -> Result<Answer, AnswerError> {
                Ok(match self {
                    $(Self::$command => Answer::$command(Box::new(<$answer>::asked(job, known)?)),)+
                })
            }
        }

        /// The answer to a [`Question`].
        #[derive(Debug, Clone, PartialEq, Serialize)]
        #[serde(untagged)]
        pub enum Answer {
            $($(#[$doc])* $command(Box<$answer>),)+
        }

        $(impl Known for $answer {
            const QUESTION: Question = Question::$command;

            fn of(answer: &Answer) -> Option<&Self> {
                if let Answer::$command(answer) = answer { Some(answer) } else { None }
            }
        })+

        impl Answer {
            /// The question that it answers.
            fn question(&self) -> Question {
                match self { $(Self::$command(_) => Question::$command,)+ }
            }

            fn answered(&self) -> &dyn Answered {
                match self { $(Self::$command(answer) => answer.as_ref(),)+ }
            }
        }
    };
}

// The order and then the drawing stand last of the parts: they build on the others.
commands! {
    /// Every check size.
    Diagonals(Diagonals), "diagonals", "Check sizes", "`plan` or `walk`";
    /// The triangles at the corners, and a corner as found.
    Corners(Corners), "corners", "Corners", "`plan` or `walk`";
    /// Lines, profiles and nails.
    Lines(Lines), "lines", "Lines and profiles", "`plan` or `walk`";
    /// The plates' cut list.
    Plates(Plates), "plates", "Plates", "`plates.width` and `stock.lengths`";
    /// The cut of a list of pieces.
    Cuts(Cuts), "cuts", "Other pieces";
    /// Whether the taped readings are square, who misread, what to move.
    Readings(Readings), "readings", "Taped readings", "`readings.read`: the sides and diagonals as taped";
    /// Offset-block readings.
    Straight(Straight), "straight", "Straightness",
        "`straight.block` and `straight.readings`: readings from a string on blocks";
    /// Packing the plate level.
    Packs(Packs), "packs", "Packing", "`packs.staff` or `packs.heights`: the levels round the plate";
    /// The wall head, panel and ceiling heights.
    Heights(Heights), "heights", "Heights", "`heights.drops` and `heights.level_depth`, or `heights.ceiling`";
    /// Joists between two supports.
    Joists(RoofJoists), "joists", "Joists", "`joists.from`, `joists.to`, `joists.centres` and `joists.bearing`";
    /// Quantities and prices.
    Order(Order), "order", "Order", "`plates` and `stock`, `packs`, `lines` or `order.extras`";
    /// The plan drawn.
    Sketch(Sketch), "sketch", "Sketch", "`plan` or `walk`";
    /// The whole job.
    Sheet(Sheet), "sheet", "Sheet";
    /// Where the day stands.
    Day(Day), "day", "The day";
}

impl Question {
    /// Whether it asks for a part of the day, and not for all of them.
    pub(super) fn is_part(self) -> bool {
        !matches!(self, Self::Sheet | Self::Day)
    }
}

impl Serialize for Question {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

impl Answered for Answer {
    fn good(&self) -> bool {
        self.answered().good()
    }

    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let mut remarks = self.answered().remarks(job, detail);
        if detail.alone() {
            remarks.doubts.extend(doubts(self, job));
        }
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        self.answered().body(page, job, detail);
    }

    fn rows(&self, units: Units) -> Rows {
        self.answered().rows(units)
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        self.answered().steps(job)
    }
}

/// The unusual sizes of the job that an answer stands on, in words.
fn doubts(answer: &Answer, job: &Job) -> Vec<String> {
    let also: &[&str] = match answer {
        Answer::Diagonals(_) | Answer::Sketch(_) | Answer::Readings(_) => &["tape"],
        Answer::Plates(_) => &["stock", "openings", "partitions", "joints", "studs"],
        Answer::Lines(_) => &["openings", "partitions", "joints", "studs"],
        Answer::Cuts(_) => &["stock"],
        Answer::Packs(_) => &["studs"],
        Answer::Heights(_) => &["packs"],
        _ => &[],
    };
    let concerns = |field: &str| {
        let section = field.split(['.', '[']).next().unwrap_or_default();
        matches!(answer, Answer::Sheet(_) | Answer::Day(_) | Answer::Order(_))
            || section == "plan"
            || section == answer.question().name()
            || also.contains(&section)
    };
    let doubts = job.doubts.iter().filter(|doubt| concerns(&doubt.field));
    doubts.map(|doubt| doubt.message.clone()).collect()
}

/// Every part that a job has inputs for.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "WholeJob")]
pub struct Sheet {
    /// The parts in the order of the day, the drawing first.
    pub parts: Vec<Part>,
    /// The parts of the day that have no inputs yet.
    pub missing: Vec<Missing>,
}

/// A part of the sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Part {
    /// Which command answers it.
    #[serde(rename = "command")]
    pub question: Question,
    /// Its answer, as the command gives it.
    pub result: Answer,
}

/// A part that waits for its inputs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Missing {
    /// Which command would answer it.
    #[serde(rename = "command")]
    #[schemars(with = "String")]
    pub question: Question,
    /// The fields of the job file that would unlock it.
    pub needs: &'static str,
}

/// Where the day stands.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
#[schemars(rename = "DayStanding")]
pub struct Day {
    /// The lines to tape in the order that walks least: the sides, the proof set, then what shows a misread.
    pub to_tape: Vec<String>,
    /// How the parts that have their inputs stand.
    pub parts: Vec<Standing>,
    /// The parts that wait for theirs.
    pub missing: Vec<Missing>,
    /// The parts themselves.
    #[serde(skip)]
    pub sheet: Sheet,
}

/// How a part of the day stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Standing {
    /// Which command answers it.
    #[serde(rename = "command")]
    #[schemars(with = "String")]
    pub question: Question,
    /// Whether all is well with it, as far as a verdict is asked for.
    pub good: bool,
}

impl JsonSchema for Part {
    fn schema_name() -> Cow<'static, str> {
        "SheetPart".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let parts = Question::ALL.into_iter().filter(|question| question.is_part());
        let cases: Vec<Value> = parts
            .map(|question| {
                json!({
                    "title": question.name(),
                    "properties": {
                        "command": {"const": question.name()},
                        "result": question.schema(generator),
                    },
                })
            })
            .collect();
        json_schema!({
            "description": "A part of the whole job, as its own command answers it.",
            "type": "object",
            "required": ["command", "result"],
            "oneOf": cases,
        })
    }
}
