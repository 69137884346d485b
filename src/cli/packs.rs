//! `pegline packs`.

use clap::Args;
use pegline::answer::Question;
use pegline::job::PacksSection;

use super::args::{LengthWord, ListWord, OutputArgs, PlanArgs};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;

#[derive(Debug, Args)]
pub(super) struct PacksArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// Staff readings from one set-up, place=reading: the bigger, the lower. AB@2400 is a place along a side.
    ///
    /// Repeat the option for each further set-up of the instrument; a place read from two set-ups ties them.
    #[arg(long, value_name = "A=1412,B=1409", help_heading = "Levels")]
    staff: Option<Vec<ListWord>>,
    /// Heights from one set-up, place=height: up is +. Repeat it for each further set-up.
    #[arg(long, value_name = "A=0,B=-3", help_heading = "Levels")]
    heights: Option<Vec<ListWord>>,
    /// Pack level with this place [default: the highest].
    #[arg(long, value_name = "PLACE", help_heading = "Levels")]
    datum: Option<String>,
    /// The most that the highest and the lowest place may differ.
    #[arg(long, value_name = "LENGTH", conflicts_with = "preset", help_heading = "Levels")]
    limit: Option<LengthWord>,
    /// A published limit on level instead: nhbc, labc, tms-602, kent or us-remodelling.
    #[arg(long, value_name = "NAME", help_heading = "Levels")]
    preset: Option<String>,
    /// The packers in the van: a thickness alone where there are plenty, 12x5 for twelve of 5.
    #[arg(long, value_name = "1,2,12x5", value_delimiter = ',', help_heading = "Packers")]
    packers: Option<Vec<LengthWord>>,
    /// How near to its gap a stack has to come [default: 1mm].
    #[arg(long, value_name = "LENGTH", help_heading = "Packers")]
    within: Option<LengthWord>,
    /// The deepest gap that the designer's schedule fills with solid packers.
    #[arg(long, value_name = "LENGTH", help_heading = "Packers")]
    solid: Option<LengthWord>,
    /// Pack under studs too, at these centres along each side from its first corner.
    #[arg(long, value_name = "CENTRES", help_heading = "Packers")]
    studs: Option<LengthWord>,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

impl PacksArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        given.note([
            ("packs.staff", "--staff", self.staff.is_some()),
            ("packs.heights", "--heights", self.heights.is_some()),
            ("packs.datum", "--datum", self.datum.is_some()),
            ("packs.limit", "--limit", self.limit.is_some()),
            ("packs.preset", "--preset", self.preset.is_some()),
            ("packs.packers", "--packers", self.packers.is_some()),
            ("packs.within", "--within", self.within.is_some()),
            ("packs.solid", "--solid", self.solid.is_some()),
            ("studs", "--studs", self.studs.is_some()),
        ]);
        given.over.studs = self.studs.map(Into::into);
        let lists = |lists: Vec<ListWord>| lists.into_iter().map(Into::into).collect();
        given.over.packs = Some(PacksSection {
            staff: self.staff.map(lists),
            heights: self.heights.map(lists),
            datum: self.datum,
            packers: self.packers.map(|packers| packers.into_iter().map(Into::into).collect()),
            within: self.within.map(Into::into),
            solid: self.solid.map(Into::into),
            limit: self.limit.map(Into::into),
            preset: self.preset,
        });
        ask(Question::Packs, given, source.as_deref(), output, self.working)
    }
}
