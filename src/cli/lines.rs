//! `pegline lines`: profiles, nails and strings.

use std::str::FromStr;

use clap::Args;
use pegline::answer::Question;
use pegline::job::{LayerEntry, LengthEntry, LinesSection, QuantityEntry};

use super::along::AlongArgs;
use super::args::{LengthWord, OutputArgs, PlanArgs, TapeArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct LinesArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// How far profiles stand beyond the corners [default: 1m].
    #[arg(long, value_name = "LENGTH")]
    setback: Option<LengthWord>,
    /// The wall's layers from the outside in.
    #[arg(long, value_name = "NAME=WIDTH", value_delimiter = ',')]
    layers: Option<Vec<LayerWord>>,
    /// The face that the plan's outline is: plate for its outer face, or "plate inner"
    /// [default: plate, or the wall's outermost face if no layer is called plate].
    #[arg(long, value_name = "FACE")]
    outline: Option<String>,
    /// The footing's width, centred under the wall.
    #[arg(long, value_name = "LENGTH")]
    footing: Option<LengthWord>,
    /// How far the footing stands outside the wall's outermost face, where it is not centred.
    #[arg(long, value_name = "LENGTH", requires = "footing")]
    footing_projection: Option<LengthWord>,
    /// Also the outline held off by a distance: 1m is outward, -20 inward.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    offset: Option<LengthWord>,
    /// Running marks for every side, or for those named: --marks=DC,EF (DC is measured from D).
    #[arg(
        long,
        value_name = "SIDES",
        num_args = 0..,
        require_equals = true,
        value_delimiter = ',',
        help_heading = "Along the sides"
    )]
    marks: Option<Vec<String>>,
    #[command(flatten)]
    along: AlongArgs,
    /// The string's weight, g/m [default: 1g/m, assumed].
    #[arg(long, value_name = "WEIGHT", help_heading = "String")]
    string: Option<String>,
    /// How hard the string is pulled, N [default: 50N, assumed].
    #[arg(long, value_name = "FORCE", help_heading = "String")]
    pull: Option<String>,
    #[command(flatten)]
    tape: TapeArgs,
    /// Show each step of the offset outline by hand.
    #[arg(long)]
    working: bool,
}

/// `NAME=WIDTH`.
#[derive(Debug, Clone)]
struct LayerWord(LayerEntry);

impl FromStr for LayerWord {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (name, width) = text.split_once('=').ok_or("write the layer's name and thickness: plate=140")?;
        Ok(Self(LayerEntry {
            name: Some(name.trim().to_owned()),
            width: Some(LengthEntry::Text(width.to_owned())),
        }))
    }
}

impl LinesArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        self.tape.lay(&mut given);
        self.along.lay(&mut given);
        given.note([
            ("lines.setback", "--setback", self.setback.is_some()),
            ("lines.layers", "--layers", self.layers.is_some()),
            ("lines.outline", "--outline", self.outline.is_some()),
            ("lines.footing", "--footing", self.footing.is_some()),
            ("lines.footing_projection", "--footing-projection", self.footing_projection.is_some()),
            ("lines.offset", "--offset", self.offset.is_some()),
            ("lines.marks", "--marks", self.marks.is_some()),
            ("lines.string", "--string", self.string.is_some()),
            ("lines.pull", "--pull", self.pull.is_some()),
        ]);
        given.over.lines = Some(LinesSection {
            setback: self.setback.map(Into::into),
            layers: self.layers.map(|words| words.into_iter().map(|word| word.0).collect()),
            outline: self.outline,
            footing: self.footing.map(Into::into),
            footing_projection: self.footing_projection.map(Into::into),
            offset: self.offset.map(Into::into),
            marks: self.marks,
            string: self.string.map(QuantityEntry::Text),
            pull: self.pull.map(QuantityEntry::Text),
        });
        ask(Question::Lines, given, source.as_deref(), output, self.working)
    }
}
