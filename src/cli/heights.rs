//! `pegline heights`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::HeightsSection;

use super::args::{LengthWord, ListWord, OutputArgs, SourceArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct HeightsArgs {
    #[command(flatten)]
    source: SourceArgs,
    /// Tape readings from the top of a level, held on the existing wall head, down to the line the plate lies on.
    #[arg(long, value_name = "LENGTHS", value_delimiter = ',', help_heading = "Wall head")]
    drop: Option<Vec<LengthWord>>,
    /// The level's own depth: measure it, levels differ.
    #[arg(long, value_name = "LENGTH", help_heading = "Wall head")]
    level_depth: Option<LengthWord>,
    /// The most that the drops may differ among themselves.
    #[arg(long, value_name = "LENGTH", help_heading = "Wall head")]
    spread: Option<LengthWord>,
    /// The layers: packing, dpc, plate, rail, binder, floor, lining or slab, each with its thickness.
    ///
    /// A layer may come more than once, and may have a name of its own: floor:screed=65. The first rail is the
    /// panel's bottom one. A slab is how far it lies below the line that the plate lies on.
    #[arg(long, value_name = "plate=38,floor=75", help_heading = "Stack")]
    stack: Option<ListWord>,
    /// The ceiling height wanted, floor finish to lining.
    #[arg(long, value_name = "LENGTH", help_heading = "Stack")]
    ceiling: Option<LengthWord>,
    /// Level of the joist hanger's seat on the house, above the line that the plate lies on.
    #[arg(long, value_name = "LENGTH", help_heading = "Joists")]
    hanger: Option<LengthWord>,
    /// Level of the joists' bearing on the new wall [default: the top of the stack].
    #[arg(long, value_name = "LENGTH", help_heading = "Joists")]
    bearing: Option<LengthWord>,
    /// Distance between the joists' two supports.
    #[arg(long, value_name = "LENGTH", help_heading = "Joists")]
    run: Option<LengthWord>,
    /// The fall wanted: 1:40, or design or finished for a flat roof's [default: level].
    #[arg(long, value_name = "1:N", help_heading = "Joists")]
    fall: Option<String>,
    /// The end that the fall runs down to, wall or house [default: wall].
    #[arg(long, value_name = "END", help_heading = "Joists")]
    fall_to: Option<String>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl HeightsArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.source.lay(&mut given);
        given.note([
            ("heights.drops", "--drop", self.drop.is_some()),
            ("heights.level_depth", "--level-depth", self.level_depth.is_some()),
            ("heights.spread", "--spread", self.spread.is_some()),
            ("heights.stack", "--stack", self.stack.is_some()),
            ("heights.ceiling", "--ceiling", self.ceiling.is_some()),
            ("heights.hanger", "--hanger", self.hanger.is_some()),
            ("heights.bearing", "--bearing", self.bearing.is_some()),
            ("heights.run", "--run", self.run.is_some()),
            ("heights.fall", "--fall", self.fall.is_some()),
            ("heights.fall_to", "--fall-to", self.fall_to.is_some()),
        ]);
        given.over.heights = Some(HeightsSection {
            drops: self.drop.map(|drops| drops.into_iter().map(Into::into).collect()),
            level_depth: self.level_depth.map(Into::into),
            spread: self.spread.map(Into::into),
            stack: self.stack.map(Into::into),
            ceiling: self.ceiling.map(Into::into),
            hanger: self.hanger.map(Into::into),
            bearing: self.bearing.map(Into::into),
            run: self.run.map(Into::into),
            fall: self.fall,
            fall_to: self.fall_to,
        });
        ask(Question::Heights, given, source.as_deref(), output, self.working)
    }
}
