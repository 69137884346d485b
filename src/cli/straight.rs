//! `pegline straight`: offset-block readings along a side.

use std::str::FromStr;

use clap::Args;
use pegline::answer::Question;
use pegline::job::{LengthEntry, ReadingEntry, StraightSection};

use super::args::{LengthWord, OutputArgs, PlanArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct StraightArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// The side, the corner that the stations are measured from first. No plan is needed.
    #[arg(long, value_name = "SIDE")]
    side: Option<String>,
    /// The thickness of the blocks that hold the string off the plate at both ends.
    #[arg(long, value_name = "LENGTH")]
    block: Option<LengthWord>,
    /// Readings from the string to the plate, each with how far along the side it was taken.
    #[arg(long, value_name = "AT=READING", value_delimiter = ',')]
    read: Option<Vec<ReadingWord>>,
    /// The most that any station may be out of line.
    #[arg(long, value_name = "LENGTH")]
    limit: Option<LengthWord>,
    /// The face of the plate that the string is on: outside or inside [default: outside].
    #[arg(long, value_name = "FACE")]
    string_on: Option<String>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

/// `AT=READING`.
#[derive(Debug, Clone)]
struct ReadingWord(ReadingEntry);

impl FromStr for ReadingWord {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (at, reading) =
            text.split_once('=').ok_or("write how far along the side, then the reading: 1200=22")?;
        Ok(Self(ReadingEntry {
            at: Some(LengthEntry::Text(at.to_owned())),
            reading: Some(LengthEntry::Text(reading.to_owned())),
        }))
    }
}

impl StraightArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        given.note([
            ("straight.side", "--side", self.side.is_some()),
            // Readings without it are at fault for want of it.
            ("straight.block", "--block", self.block.is_some() || self.read.is_some()),
            ("straight.readings", "--read", self.read.is_some()),
            ("straight.limit", "--limit", self.limit.is_some()),
            ("straight.string", "--string-on", self.string_on.is_some()),
        ]);
        given.over.straight = Some(StraightSection {
            side: self.side,
            block: self.block.map(Into::into),
            string: self.string_on,
            readings: self.read.map(|words| words.into_iter().map(|word| word.0).collect()),
            limit: self.limit.map(Into::into),
        });
        ask(Question::Straight, given, source.as_deref(), output, self.working)
    }
}
