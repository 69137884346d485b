//! The answer: the verdict, what to move, and every reading with what it could still hide.

use schemars::JsonSchema;
use serde::Serialize;

use super::correct::{Corrections, Sag};
use super::explained::{AgainstPlan, Explains, Explanation, Misread};
use super::fit::moves::{Move, Overhang, SideMove};
use super::fit::square::Angle;
use super::input::TapeUse;
use super::judge::odds::SURE;
use super::limit::LimitAnswer;
use crate::geometry::{Mm, Ratio};

/// The verdict on the job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub enum Verdict {
    /// Every corner is square within the limit, or within what the tape can tell. Of masonry: the plate fits on it.
    #[serde(rename = "square")]
    Square,
    /// Some corner is out. Of masonry: some overhang or setback is over the limit.
    #[serde(rename = "out")]
    Out,
    /// Some reading is wrong, or looks so and nothing else checks it.
    #[serde(rename = "misread")]
    Misread,
    /// The distances do not fix the corners, or so weakly that they are nearly loose.
    #[serde(rename = "not fixed")]
    NotFixed,
}

impl Verdict {
    /// Whether nothing is left to do.
    #[must_use]
    pub fn good(self) -> bool {
        self == Self::Square
    }
}

/// One adjusted corner.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Corner {
    /// Its letter.
    pub name: String,
    /// Where it is, in the plan's frame as the fit lays it, mm.
    pub x: Mm,
    /// The same down the page, mm.
    pub y: Mm,
    /// Standard deviation in x, free datum, mm.
    pub sd_x: Mm,
    /// Standard deviation in y, free datum, mm.
    pub sd_y: Mm,
    /// Semi-major axis of its standard ellipse (39.35 %; × 2.448 for 95 %), mm.
    pub ellipse_major: Mm,
    /// Semi-minor axis, mm.
    pub ellipse_minor: Mm,
    /// Direction of the major axis, degrees from x towards y.
    pub ellipse_deg: Ratio,
}

/// One side as built.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Side {
    /// Its name.
    pub name: String,
    /// Its length on the plan, mm.
    pub plan: Mm,
    /// Its adjusted length, mm.
    pub built: Mm,
    /// Built − plan, mm.
    pub difference: Mm,
    /// Standard deviation of the adjusted length, mm.
    pub sd: Mm,
    /// The most that it may be long or short, mm; absent without a limit on sizes.
    pub limit: Option<Mm>,
    /// Whether it is within that, going by the best estimate.
    pub within: bool,
}

/// One reading, or several of one line that agree.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct ReadingLine {
    /// The line.
    pub name: String,
    /// Which tape, from 1.
    pub tape: usize,
    /// What the tape read, mm; the mean of several.
    pub read: Mm,
    /// How many readings.
    pub count: usize,
    /// Standard deviation of several about their mean, mm.
    pub spread: Option<Mm>,
    /// What was taken off or added.
    pub corrections: Corrections,
    /// The distance that was adjusted, mm.
    pub used: Mm,
    /// Its standard deviation, mm.
    pub sd: Mm,
    /// Adjusted − used, mm; absent where the corners are not fixed.
    pub residual: Option<Mm>,
    /// Redundancy number, 0 (nothing checks it) to 1.
    pub redundancy: Option<Ratio>,
    /// Standardised residual; absent where nothing checks the reading. Of a suspect: when it was found.
    pub w: Option<Ratio>,
    /// Whether it may be misread: named, or tied with the one named.
    pub suspect: bool,
    /// Whether it is named and left out of the corners.
    pub left_out: bool,
    /// Estimated slip, used − true, mm, of a suspect.
    pub slip: Option<Mm>,
    /// The usual slip it looks like, of a suspect.
    pub likely: Option<String>,
    /// The smallest slip that would show four times in five, mm; absent where any would be hidden.
    pub hides: Option<Mm>,
}

/// The global test of the readings kept.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct GlobalTest {
    /// Weighted sum of squared residuals.
    pub statistic: Ratio,
    /// The chi-square value it must not pass.
    pub critical: Ratio,
    /// The chance of passing it with nothing wrong.
    pub alpha: Ratio,
    /// Whether it is under.
    pub passed: bool,
}

/// Why a further line is worth taping.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub enum Reason {
    /// It helps to fix the corners.
    #[serde(rename = "fixes")]
    Fixes,
    /// It is the suspect itself.
    #[serde(rename = "again")]
    Again,
    /// It tells tied readings apart.
    #[serde(rename = "settles")]
    Settles,
    /// It checks readings that nothing checks.
    #[serde(rename = "checks")]
    Checks,
    /// It sharpens a corner that is too close to call.
    #[serde(rename = "sharpens")]
    Sharpens,
}

/// A line to tape next.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct TapeNext {
    /// The line.
    pub name: String,
    /// Why.
    pub reason: Reason,
    /// The largest corner sd once it is taped (with those before it in the list, while fixing), mm; absent while loose.
    pub worst_corner_sd: Option<Mm>,
    /// Readings that would still be unchecked, for `settles` and `checks`.
    pub unchecked: Option<usize>,
    /// The largest slip that a checked reading could still hide, mm, for `settles` and `checks`.
    pub hides: Option<Mm>,
}

/// By what the true outline was laid on what was built.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LaidBy {
    /// Held on a side.
    Held,
    /// The least sum of squared moves.
    Free,
    /// The smallest largest distance from a wall line.
    LeastWorst,
    /// The fewest parts to move.
    Fewest,
}

/// How the true outline was laid on what was built.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct FitAnswer {
    /// Which way.
    pub kind: LaidBy,
    /// The side it is held on.
    pub side: Option<String>,
    /// The largest overhang or setback, mm.
    pub worst_overhang: Mm,
    /// The largest move of a corner, mm.
    pub worst_move: Mm,
}

/// The masonry's overhangs against the user's limit.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct MasonryAnswer {
    /// The limit, mm.
    pub limit: Option<Mm>,
    /// The largest overhang, mm.
    pub overhang: Mm,
    /// The largest setback, mm.
    pub setback: Mm,
    /// Sides over the limit.
    pub over: Vec<String>,
    /// Whether the limit lies within the uncertainty of any overhang or setback; the verdict goes by the best estimate.
    pub too_close: Option<bool>,
}

/// What the shape comes to once the parts told are moved; where the house itself is out, the plate stands on its own lines.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct AfterMoves {
    /// How many parts move: whole sides, and corners along one of their sides.
    pub parts: usize,
    /// The most that a corner is then out of square at the end of a side, mm.
    pub square: Mm,
    /// The most that a side is then long or short, mm.
    pub size: Mm,
    /// The most that a corner then stands from its place, square to a side, mm.
    pub place: Mm,
    /// Whether that is within every limit.
    pub within: bool,
}

/// A corner that stands on the house, where the house is not as the plan has it. No corner is moved across that wall.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct HouseOut {
    /// The corner.
    pub corner: String,
    /// The house side that is out there.
    pub side: String,
    /// How far the wall stands into the plan, mm; − where it stands back from it.
    pub into: Mm,
    /// Standard deviation of that, mm.
    pub sd: Mm,
    /// The run that ends at the wall there.
    pub run: String,
    /// Its length on the plan, mm.
    pub plan: Mm,
    /// Its length up to the wall, mm.
    pub cut: Mm,
}

/// A tape as understood.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct TapeAnswer {
    /// Its class.
    pub class: &'static str,
    /// Standard deviation of reading the blade, mm.
    pub reading: Mm,
    /// Standard deviation of holding the two ends, mm.
    pub ends: Mm,
    /// Whether the hook was the zero.
    pub from_hook: bool,
    /// What was held on and taken off every reading, mm.
    pub held_on: Mm,
    /// How warm the blade was, °C, where that was corrected for.
    pub temperature_c: Option<Ratio>,
    /// How it hung, where that was corrected for.
    pub sag: Option<Sag>,
}

impl TapeAnswer {
    pub(super) fn new(used: &TapeUse) -> Self {
        Self {
            class: used.tape.class.name(),
            reading: Mm(used.tape.reading),
            ends: Mm(used.tape.ends),
            from_hook: used.tape.from_hook,
            held_on: Mm(used.held_on),
            temperature_c: used.conditions.temperature.map(Ratio),
            sag: used.conditions.sag,
        }
    }
}

/// The whole answer.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Readings {
    /// The verdict.
    pub verdict: Verdict,
    /// With a misread: the verdict on the rest, once it is left out. Absent where that cannot be said.
    pub rest: Option<Verdict>,
    /// The limit that the corners were held to; absent when judged by the tape alone.
    pub limit: Option<LimitAnswer>,
    /// The tapes as understood.
    pub tapes: Vec<TapeAnswer>,
    /// Corners for which the limit lies within the uncertainty; the verdict goes by the best estimate.
    pub too_close: Vec<String>,
    /// The adjusted corners; empty when not fixed.
    pub corners: Vec<Corner>,
    /// Every corner's angle; empty when not fixed.
    pub angles: Vec<Angle>,
    /// Every side's length; empty when not fixed.
    pub sides: Vec<Side>,
    /// The readings.
    pub readings: Vec<ReadingLine>,
    /// Independent distances, of those needed.
    pub rank: usize,
    /// Independent distances that fix the corners: 2n − 3.
    pub needed: usize,
    /// Readings to spare, once the misread ones are left out.
    pub degrees_of_freedom: usize,
    /// The root of the weighted sum of squares over the degrees of freedom, of the readings kept.
    pub sigma0: Option<Ratio>,
    /// The global test of the readings kept; absent with none to spare.
    pub global_test: Option<GlobalTest>,
    /// The largest corner sd, free datum, mm.
    pub worst_corner_sd: Option<Mm>,
    /// A slip of so much, mm, on any line would show, all but once in some hundred times; absent where a reading is in doubt,
    /// or where a slip of a metre might hide.
    pub shows: Option<Mm>,
    /// The line on which a slip would show least.
    pub weakest: Option<String>,
    /// How much rougher the tape's ends were held than was said, mm, by how the readings agree: it is in every ± given.
    pub rougher: Mm,
    /// What may explain the readings, the likeliest first, to all but a twentieth.
    pub explanations: Vec<Explanation>,
    /// Whether every side is as long as it should be, within the limit, or within what the tapes can tell without one;
    /// absent where the limit says nothing of sizes, or where the corners are not sure.
    pub to_size: Option<bool>,
    /// Whether every corner stands in its place within the limit, held on the house or free; absent without a limit, or
    /// where the corners are not sure.
    pub in_place: Option<bool>,
    /// What moving the parts told comes to; absent where nothing was looked for.
    pub after: Option<AfterMoves>,
    /// Where the house itself is not as the plan has it.
    pub house: Vec<HouseOut>,
    /// The misreads found by the readings themselves.
    pub misreads: Vec<Misread>,
    /// Empty, for those who read it: other explanations are in `explanations`.
    pub other_pairs: Vec<[String; 2]>,
    /// Readings that no other checks.
    pub unchecked: Vec<String>,
    /// Readings that only one left out as misread checked.
    pub no_longer_checked: Vec<String>,
    /// What the plan says of the readings.
    pub against_plan: AgainstPlan,
    /// Lines taped that are longer than their tape reaches: taken as taped in pulls.
    pub past_tape: Vec<String>,
    /// The same, and lines to tape next that are to be taped so.
    pub in_pulls: Vec<String>,
    /// Lines through the house, where no tape goes: was another line meant?
    pub through_house: Vec<String>,
    /// Corners left loose, or nearly so (then their coordinates are given); empty when fixed.
    pub loose: Vec<String>,
    /// Corners that come out folded over against the plan: some reading near them is far out.
    pub folded: Vec<String>,
    /// What to tape next, the most useful first.
    pub tape_next: Vec<TapeNext>,
    /// How the outline was laid on.
    pub fit: Option<FitAnswer>,
    /// Whole sides that move; they come first.
    pub side_moves: Vec<SideMove>,
    /// Every corner's move; empty when the corners are not sure.
    pub moves: Vec<Move>,
    /// Every side against what was built.
    pub overhangs: Vec<Overhang>,
    /// The masonry against the limit.
    pub masonry: Option<MasonryAnswer>,
}

impl Readings {
    /// The explanation that is named, if it is of this kind.
    #[must_use]
    pub fn named(&self, what: Explains) -> Option<&Explanation> {
        self.explanations.first().filter(|best| best.what == what && best.odds.0 >= SURE)
    }

    /// The lines to tape next for a reason.
    #[must_use]
    pub fn to_tape(&self, reason: Reason) -> Vec<String> {
        self.tape_next.iter().filter(|next| next.reason == reason).map(|next| next.name.clone()).collect()
    }
}
