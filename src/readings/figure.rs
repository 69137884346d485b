//! The figure's own part of the answer: corners, sides, angles, the fit, what to move.

use nalgebra::DMatrix;

use super::answer::{AfterMoves, Corner, FitAnswer, HouseOut, LaidBy, MasonryAnswer, Side, Verdict};
use super::fit::fewest::{Parts, size_limit};
use super::fit::laying::Laying;
use super::fit::moves::{Laid, Move, Overhang, SideMove};
use super::fit::placement::worst_overhang;
use super::fit::square::{self, Angle, Call};
use super::input::{FitKind, Input, Masonry};
use super::limit::Limit;
use super::network::adjust::Adjustment;
use super::network::chi_square::{ALPHA_GLOBAL, joint_factor};
use crate::geometry::{Mm, Point, Ratio};
use crate::network;
use crate::plan::{Footprint, corner_name};

/// What the adjusted figure says.
#[derive(Debug, Default)]
pub(super) struct Figure {
    pub(super) corners: Vec<Corner>,
    pub(super) sides: Vec<Side>,
    pub(super) angles: Vec<Angle>,
    pub(super) fit: Option<FitAnswer>,
    pub(super) side_moves: Vec<SideMove>,
    pub(super) moves: Vec<Move>,
    pub(super) overhangs: Vec<Overhang>,
    pub(super) masonry: Option<MasonryAnswer>,
    /// Whether every side is as long as it should be; nothing where the limit says nothing of sizes.
    pub(super) to_size: Option<bool>,
    /// Whether every corner stands in its place; nothing without a limit.
    pub(super) in_place: Option<bool>,
    /// What it comes to once the parts told are moved.
    pub(super) after: Option<AfterMoves>,
    /// Where the house itself is not as the plan has it.
    pub(super) house: Vec<HouseOut>,
}

impl Figure {
    /// Lays the figure on the plan and measures it.
    pub(super) fn new(input: &Input<'_>, adjusted: &Adjustment) -> Self {
        let outline = input.footprint;
        let plan = &outline.points();
        let joint = joint_factor(plan.len(), ALPHA_GLOBAL);
        let angles = square::judge(outline, &adjusted.points, &adjusted.covariance, input.limit, joint);
        let sides = sides(input, adjusted, joint);
        let to_size = judged_by_size(input).then(|| sides.iter().all(|side| side.within));
        let good = to_size != Some(false) && angles.iter().all(|angle| angle.within);
        let laying = Laying::new(input, adjusted, good);
        let placed = &laying.placement.points;
        let none = vec![false; 2 * plan.len()];
        let told = match &laying.fewest {
            Some(fewest) => Some((&fewest.parts.told[..], &fewest.parts.runs[..])),
            // Nothing is moved where all is as it should be.
            None => {
                (good && input.fit.is_none() && input.masonry.is_none()).then_some((&none[..], &none[..]))
            }
        };
        let laid = Laid { plan: outline, placed, covariance: &laying.covariance, units: input.units, told };
        let overhangs = laid.overhangs(input.masonry);
        let moves = laid.moves();
        Self {
            to_size,
            in_place: laying.in_place,
            corners: corners(placed, &laying.free),
            sides,
            angles,
            fit: Some(FitAnswer {
                kind: match laying.kind {
                    FitKind::Held(_) => LaidBy::Held,
                    FitKind::Free => LaidBy::Free,
                    FitKind::LeastWorst => LaidBy::LeastWorst,
                    FitKind::Fewest => LaidBy::Fewest,
                },
                side: laying.side.map(|side| outline.side_name(side)),
                worst_overhang: Mm(worst_overhang(plan, placed)),
                worst_move: Mm(moves.iter().map(|m| m.distance.0).fold(0.0, f64::max)),
            }),
            after: laying.fewest.as_ref().map(|fewest| after(&fewest.parts)),
            house: laying
                .fewest
                .iter()
                .flat_map(|fewest| house_out(outline, &fewest.parts, &overhangs))
                .collect(),
            masonry: input.masonry.map(|masonry| on_masonry(masonry, &overhangs, laying.side)),
            side_moves: laid.side_moves(),
            moves,
            overhangs,
        }
    }

    /// Square or out: of masonry with a limit, by its overhangs; otherwise by the corners and the sides, going by the best
    /// estimate.
    pub(super) fn verdict(&self) -> Verdict {
        let good = match &self.masonry {
            Some(masonry) if masonry.limit.is_some() => masonry.over.is_empty(),
            _ => {
                self.angles.iter().all(|a| a.within)
                    && self.to_size != Some(false)
                    && self.in_place != Some(false)
            }
        };
        if good { Verdict::Square } else { Verdict::Out }
    }

    /// Leaves out what nobody can be sure of.
    pub(super) fn forget_verdicts(&mut self) {
        (self.to_size, self.in_place, self.masonry) = (None, None, None);
    }

    /// Leaves out what to move, and all that it rests on.
    pub(super) fn forget_moves(&mut self) {
        let none = Self::default();
        (self.fit, self.after, self.house) = (none.fit, none.after, none.house);
        (self.side_moves, self.moves, self.overhangs) = (none.side_moves, none.moves, none.overhangs);
    }

    /// The corners, by index, that are too close to call.
    pub(super) fn too_close(&self) -> Vec<usize> {
        (0..self.angles.len()).filter(|i| self.angles[*i].call == Call::TooClose).collect()
    }
}

/// Whether the sizes are judged: by a limit that is about them, or by the tapes alone where there is none at all.
fn judged_by_size(input: &Input<'_>) -> bool {
    input.size_limit.is_some() || !matches!(input.limit, Some(Limit::Diagonal(_)))
}

fn corners(placed: &[Point], free: &DMatrix<f64>) -> Vec<Corner> {
    let corner = |(i, at): (usize, &Point)| {
        let ellipse = network::ellipse(free, i);
        Corner {
            name: corner_name(i).to_string(),
            x: Mm(at.x),
            y: Mm(at.y),
            sd_x: Mm(free[(2 * i, 2 * i)].max(0.0).sqrt()),
            sd_y: Mm(free[(2 * i + 1, 2 * i + 1)].max(0.0).sqrt()),
            ellipse_major: Mm(ellipse.major),
            ellipse_minor: Mm(ellipse.minor),
            ellipse_deg: Ratio(ellipse.bearing.to_degrees()),
        }
    };
    placed.iter().enumerate().map(corner).collect()
}

/// Every side's length; without any limit, held to what the tapes can tell at `joint` standard deviations.
fn sides(input: &Input<'_>, adjusted: &Adjustment, joint: f64) -> Vec<Side> {
    let outline = input.footprint;
    let side = |(i, planned): (usize, &crate::plan::Side)| {
        let (from, to) = (planned.from, planned.to);
        let built = adjusted.points[from].distance(adjusted.points[to]);
        let sd = network::distance_variance(&adjusted.points, &adjusted.covariance, from, to).sqrt();
        let difference = built - planned.length;
        let limit = size_limit(input, planned.length);
        let most = limit.unwrap_or(if judged_by_size(input) { joint * sd } else { f64::INFINITY });
        Side {
            name: outline.side_name(i),
            plan: Mm(planned.length),
            built: Mm(built),
            difference: Mm(difference),
            sd: Mm(sd),
            limit: limit.map(Mm),
            within: difference.abs() <= most,
        }
    };
    outline.sides().iter().enumerate().map(side).collect()
}

/// The worst of the overhangs. That the plate stands off the house side it is `held` along is as it was asked.
fn on_masonry(masonry: Masonry, overhangs: &[Overhang], held: Option<usize>) -> MasonryAnswer {
    let sides = || overhangs.iter().enumerate().filter(|(side, _)| Some(*side) != held).map(|(_, o)| o);
    let ends = || sides().flat_map(|o| [o.start.0, o.end.0]);
    MasonryAnswer {
        limit: masonry.limit.map(Mm),
        overhang: Mm(ends().fold(0.0, f64::max)),
        setback: Mm(-ends().fold(0.0, f64::min)),
        over: overhangs.iter().filter(|o| o.over == Some(true)).map(|o| o.side.clone()).collect(),
        too_close: masonry.limit.map(|_| sides().any(|o| o.too_close == Some(true))),
    }
}

fn after(parts: &Parts) -> AfterMoves {
    AfterMoves {
        parts: parts.count(),
        square: Mm(parts.after.square),
        size: Mm(parts.after.size),
        place: Mm(parts.after.place),
        within: parts.kept,
    }
}

/// Where a corner on the house would have to cross its wall.
fn house_out(outline: &Footprint, parts: &Parts, overhangs: &[Overhang]) -> Vec<HouseOut> {
    let out = |k: &usize| {
        let (side, at_end) = (k / 2, k % 2 == 1);
        let (before, after) = network::neighbours(side, outline.len());
        let (corner, run) = if at_end { (after, after) } else { (side, before) };
        let overhang = &overhangs[side];
        let into = if at_end { overhang.end } else { overhang.start };
        // Toward the house a run gets longer, where the wall stands back.
        let length = outline.sides()[run].length;
        HouseOut {
            corner: corner_name(corner).to_string(),
            side: outline.side_name(side),
            into,
            sd: overhang.sd[k % 2],
            run: outline.side_name(run),
            plan: Mm(length),
            cut: Mm(length - into.0),
        }
    };
    parts.house.iter().map(out).collect()
}
