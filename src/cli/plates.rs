//! `pegline plates`.

use std::str::FromStr;

use clap::Args;
use pegline::answer::Question;
use pegline::job::{AnchorsSection, LengthEntry, PlatesSection, StretchEntry};

use super::along::StretchWord;
use super::args::{LengthWord, OutputArgs, PlanArgs, number};
use super::ask::ask;
use super::failure::{Exit, Failure};
use super::given::Given;
use super::stock::StockArgs;

/// A partition as typed: `P1:3200`.
#[derive(Debug, Clone)]
struct RunWord(StretchEntry);

impl FromStr for RunWord {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (name, length) = text
            .rsplit_once(':')
            .ok_or_else(|| "a run is its name and its length: write P1:3200".to_owned())?;
        Ok(Self(StretchEntry {
            name: Some(name.to_owned()),
            length: Some(LengthEntry::Text(length.to_owned())),
            ..StretchEntry::default()
        }))
    }
}

#[derive(Debug, Args)]
pub(super) struct PlatesArgs {
    #[command(flatten)]
    plan: PlanArgs,
    /// The plate's width.
    #[arg(long, value_name = "LENGTH")]
    width: Option<LengthWord>,
    #[command(flatten)]
    stock: StockArgs,
    #[command(flatten)]
    runs: RunArgs,
    #[command(flatten)]
    splices: SpliceArgs,
    #[command(flatten)]
    anchors: AnchorArgs,
    /// Show each step by hand.
    #[arg(long)]
    working: bool,
}

#[derive(Debug, Args)]
#[command(next_help_heading = "Runs")]
struct RunArgs {
    /// Which way round the corners: alternate, follow, or best for the cut [default: best].
    ///
    /// alternate: the runs across the page go through at both ends. follow: each run goes through at its first end.
    #[arg(long, value_name = "WAY")]
    corners: Option<String>,
    /// Add the head binder on top of the panels, the other way round at each corner.
    #[arg(long)]
    binder: bool,
    /// A door opening: the side, its width, and how far along the side from its first letter, such as CD:900@1200. May be
    /// given again.
    #[arg(long, value_name = "SIDE:WIDTH@AT")]
    opening: Option<Vec<StretchWord>>,
    /// At openings: keep the plate whole and cut it out later, or cut it now [default: keep].
    #[arg(long, value_name = "KEEP|CUT")]
    openings: Option<String>,
    /// One more run, such as a partition. May be given again.
    #[arg(long, value_name = "NAME:LENGTH")]
    run: Option<Vec<RunWord>>,
}

#[derive(Debug, Args)]
#[command(next_help_heading = "Splices")]
struct SpliceArgs {
    /// What to favour: splices (fewest, then cost), cost, or what a splice is worth in money [default: splices].
    #[arg(long, value_name = "splices|cost|N")]
    favour: Option<String>,
    /// The least piece of a spliced run [default: 600mm].
    #[arg(long, value_name = "LENGTH")]
    least_piece: Option<LengthWord>,
    /// The least distance of a splice from a run's end at a corner [default: the least piece].
    #[arg(long, value_name = "LENGTH")]
    corner_distance: Option<LengthWord>,
    /// The least distance of a splice from an opening's posts or a partition [default: 150mm].
    #[arg(long, value_name = "LENGTH")]
    post_clear: Option<LengthWord>,
    /// The distance between panel joints, which splices keep clear of.
    #[arg(long, value_name = "LENGTH")]
    panels: Option<LengthWord>,
    /// The end of each run that panels and studs are set out from: first or last [default: first].
    #[arg(long, value_name = "END")]
    panels_from: Option<String>,
    /// The least distance of a splice from a panel joint [default: 50mm].
    #[arg(long, value_name = "LENGTH")]
    panel_clear: Option<LengthWord>,
    /// The least distance between a splice of the head binder and one of the plate [default: 600mm].
    #[arg(long, value_name = "LENGTH")]
    lap: Option<LengthWord>,
    /// How long to look for the best list [default: 5].
    #[arg(long, value_name = "SECONDS", allow_negative_numbers = true, value_parser = number)]
    seconds: Option<f64>,
}

#[derive(Debug, Args)]
#[command(next_help_heading = "Anchors, damp-proof course, fixings, straps")]
struct AnchorArgs {
    /// Place anchors by a published rule: us or nz.
    #[arg(long, value_name = "RULE")]
    anchors: Option<String>,
    /// The most between two anchors.
    #[arg(long, value_name = "LENGTH")]
    anchor_spacing: Option<LengthWord>,
    /// The most from a piece's end to its nearest anchor.
    #[arg(long, value_name = "LENGTH")]
    anchor_end: Option<LengthWord>,
    /// The least from a piece's end to its nearest anchor.
    #[arg(long, value_name = "LENGTH")]
    anchor_edge: Option<LengthWord>,
    /// The distance between studs, from the corner, which anchors keep clear of.
    #[arg(long, value_name = "LENGTH")]
    studs: Option<LengthWord>,
    /// How far an anchor keeps from the middle of a stud [default: 50mm].
    #[arg(long, value_name = "LENGTH")]
    stud_clear: Option<LengthWord>,
    /// How far strips of damp-proof course lap [default: 100mm].
    #[arg(long, value_name = "LENGTH")]
    dpc_lap: Option<LengthWord>,
    /// The length of a roll of damp-proof course, to count rolls.
    #[arg(long, value_name = "LENGTH")]
    dpc_roll: Option<LengthWord>,
    /// The most between two temporary fixings, to count them.
    #[arg(long, value_name = "LENGTH")]
    fix_every: Option<LengthWord>,
    /// The most between two straps along the top plate, to count them; or nhbc for the published spacing.
    #[arg(long, value_name = "LENGTH|nhbc")]
    straps: Option<LengthWord>,
}

impl PlatesArgs {
    pub(super) fn run(self, output: &OutputArgs) -> Result<Exit, Failure> {
        let mut given = Given::default();
        let source = self.plan.lay(&mut given);
        self.stock.lay(&mut given);
        given.note([("plates.width", "--width", self.width.is_some())]);
        let mut section = PlatesSection { width: self.width.map(Into::into), ..PlatesSection::default() };
        self.runs.lay(&mut given, &mut section);
        self.splices.lay(&mut given, &mut section);
        self.anchors.lay(&mut given, &mut section);
        given.over.plates = Some(section);
        ask(Question::Plates, given, source.as_deref(), output, self.working)
    }
}

impl RunArgs {
    fn lay(self, given: &mut Given, section: &mut PlatesSection) {
        given.note([
            ("plates.corners", "--corners", self.corners.is_some()),
            ("plates.binder", "--binder", self.binder),
            ("openings", "--opening", self.opening.is_some()),
            ("plates.openings", "--openings", self.openings.is_some()),
            ("partitions", "--run", self.run.is_some()),
        ]);
        section.corners = self.corners;
        section.binder = self.binder.then_some(true);
        section.openings = self.openings;
        given.over.openings = self.opening.map(|words| words.into_iter().map(|word| word.0).collect());
        given.over.partitions = self.run.map(|words| words.into_iter().map(|word| word.0).collect());
    }
}

impl SpliceArgs {
    fn lay(self, given: &mut Given, section: &mut PlatesSection) {
        given.note([
            ("plates.favour", "--favour", self.favour.is_some()),
            ("plates.least_piece", "--least-piece", self.least_piece.is_some()),
            ("plates.corner_distance", "--corner-distance", self.corner_distance.is_some()),
            ("plates.post_clear", "--post-clear", self.post_clear.is_some()),
            ("plates.panels", "--panels", self.panels.is_some()),
            ("plates.panels_from", "--panels-from", self.panels_from.is_some()),
            ("plates.panel_clear", "--panel-clear", self.panel_clear.is_some()),
            ("plates.lap", "--lap", self.lap.is_some()),
            ("plates.seconds", "--seconds", self.seconds.is_some()),
        ]);
        section.favour = self.favour;
        section.least_piece = self.least_piece.map(Into::into);
        section.corner_distance = self.corner_distance.map(Into::into);
        section.post_clear = self.post_clear.map(Into::into);
        section.panels = self.panels.map(Into::into);
        section.panels_from = self.panels_from;
        section.panel_clear = self.panel_clear.map(Into::into);
        section.lap = self.lap.map(Into::into);
        section.seconds = self.seconds;
    }
}

impl AnchorArgs {
    fn lay(self, given: &mut Given, section: &mut PlatesSection) {
        given.note([
            ("plates.anchors.rules", "--anchors", self.anchors.is_some()),
            ("plates.anchors.spacing", "--anchor-spacing", self.anchor_spacing.is_some()),
            ("plates.anchors.end", "--anchor-end", self.anchor_end.is_some()),
            ("plates.anchors.edge", "--anchor-edge", self.anchor_edge.is_some()),
            ("studs", "--studs", self.studs.is_some()),
            ("plates.anchors.stud_clear", "--stud-clear", self.stud_clear.is_some()),
            ("plates.dpc_lap", "--dpc-lap", self.dpc_lap.is_some()),
            ("plates.dpc_roll", "--dpc-roll", self.dpc_roll.is_some()),
            ("plates.fix_every", "--fix-every", self.fix_every.is_some()),
            ("plates.straps", "--straps", self.straps.is_some()),
        ]);
        given.over.studs = self.studs.map(Into::into);
        let anchors = AnchorsSection {
            rules: self.anchors,
            spacing: self.anchor_spacing.map(Into::into),
            end: self.anchor_end.map(Into::into),
            edge: self.anchor_edge.map(Into::into),
            stud_clear: self.stud_clear.map(Into::into),
        };
        section.anchors = Some(anchors);
        section.dpc_lap = self.dpc_lap.map(Into::into);
        section.dpc_roll = self.dpc_roll.map(Into::into);
        section.fix_every = self.fix_every.map(Into::into);
        section.straps = self.straps.map(Into::into);
    }
}
