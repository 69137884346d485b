//! `pegline readings`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::{ReadingsSection, SecondTapeSection};

use super::args::{LengthWord, ListWord, OutputArgs, PlanArgs, TapeArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct ReadingsArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// What the tape read, held-on length and all: line=length.
    ///
    /// A line that is read again (AB=7802,AB=7804) is averaged; readings of it that can't be of one length stand apart.
    /// The option may be repeated.
    #[arg(long, value_name = "AB=7802,AC=8594")]
    read: Option<Vec<ListWord>>,
    /// The mark of the tape that was held on the first corner: it is taken off every reading.
    #[arg(long, value_name = "LENGTH")]
    held_on: Option<LengthWord>,
    /// The most a corner may be out of square at the end of a side [default: what the tape can tell].
    #[arg(long, value_name = "LENGTH", conflicts_with = "preset", help_heading = "Judging")]
    limit: Option<LengthWord>,
    /// A published limit instead: kent, us-remodelling, din-18202, iso-4463-primary or iso-4463-secondary.
    #[arg(long, value_name = "NAME", help_heading = "Judging")]
    preset: Option<String>,
    /// How the true outline is laid on what was built: held on a side (AB), free, or least-worst.
    ///
    /// Held on the first house side unless given, free without one. least-worst makes the largest distance of a corner
    /// from a wall line as small as it can be.
    #[arg(long, value_name = "SIDE", help_heading = "Judging")]
    fit: Option<String>,
    /// The readings are of the masonry: print the plate's overhang or setback at both ends of each side.
    #[arg(long, help_heading = "Judging")]
    masonry: bool,
    /// The most that the plate may overhang the masonry or stand back from it; says --masonry too.
    #[arg(long, value_name = "LENGTH", help_heading = "Judging")]
    overhang: Option<LengthWord>,
    /// How near to the plan the outline is taken to be built, to find misreads only [default: 10mm].
    #[arg(long, value_name = "LENGTH", help_heading = "Judging")]
    built_within: Option<LengthWord>,
    #[command(flatten)]
    tape: TapeArgs,
    /// What a second tape read: line=length. It counts with its own class and its own held-on length.
    #[arg(long, value_name = "AB=7801,AC=8590", help_heading = "Tape")]
    second_tape: Option<Vec<ListWord>>,
    /// The second tape's class [default: the first's].
    #[arg(long, value_name = "CLASS", help_heading = "Tape")]
    second_class: Option<String>,
    /// The mark held on with the second tape [default: 0].
    #[arg(long, value_name = "LENGTH", help_heading = "Tape")]
    second_held_on: Option<LengthWord>,
    /// Correct for a blade this warm: 4C or 39F.
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true, help_heading = "Corrections")]
    temperature: Option<String>,
    /// Correct lines taped up a slope: line=rise, how much higher one end lies.
    #[arg(long, value_name = "AC=120", help_heading = "Corrections")]
    rise: Option<Vec<ListWord>>,
    /// Correct for a tape hanging free: the blade's grams per metre, the pull in newtons, and the spans if not one.
    #[arg(long, value_name = "G/M,N[,SPANS]", help_heading = "Corrections")]
    sag: Option<String>,
    /// The same for the second tape.
    #[arg(long, value_name = "G/M,N[,SPANS]", help_heading = "Corrections")]
    second_sag: Option<String>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl ReadingsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        self.tape.lay(&mut given);
        given.note([
            ("readings.read", "--read", self.read.is_some()),
            ("readings.held_on", "--held-on", self.held_on.is_some()),
            ("readings.limit", "--limit", self.limit.is_some()),
            ("readings.preset", "--preset", self.preset.is_some()),
            ("readings.fit", "--fit", self.fit.is_some()),
            ("readings.overhang", "--overhang", self.overhang.is_some()),
            ("readings.built_within", "--built-within", self.built_within.is_some()),
            ("readings.second_tape.read", "--second-tape", self.second_tape.is_some()),
            ("readings.second_tape.class", "--second-class", self.second_class.is_some()),
            ("readings.second_tape.held_on", "--second-held-on", self.second_held_on.is_some()),
            ("readings.second_tape.sag", "--second-sag", self.second_sag.is_some()),
            ("readings.temperature", "--temperature", self.temperature.is_some()),
            ("readings.rise", "--rise", self.rise.is_some()),
            ("readings.sag", "--sag", self.sag.is_some()),
        ]);
        let second_tape = SecondTapeSection {
            read: self.second_tape.map(items),
            held_on: self.second_held_on.map(Into::into),
            class: self.second_class,
            sag: self.second_sag,
        };
        let second = second_tape != SecondTapeSection::default();
        given.note([("readings.second_tape", "--second-tape", second)]);
        given.over.readings = Some(ReadingsSection {
            read: self.read.map(items),
            held_on: self.held_on.map(Into::into),
            second_tape: second.then_some(second_tape),
            rise: self.rise.map(items),
            temperature: self.temperature,
            sag: self.sag,
            fit: self.fit,
            limit: self.limit.map(Into::into),
            preset: self.preset,
            built_within: self.built_within.map(Into::into),
            masonry: self.masonry.then_some(true),
            overhang: self.overhang.map(Into::into),
        });
        ask(Question::Readings, given, source.as_deref(), output, self.working)
    }
}

/// The items of every list, one after another.
fn items(lists: Vec<ListWord>) -> Vec<String> {
    lists.into_iter().flat_map(Vec::from).collect()
}
