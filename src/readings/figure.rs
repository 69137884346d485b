//! The figure's own part of the answer: corners, sides, angles, the fit, what to move.

use super::answer::{Corner, FitAnswer, MasonryAnswer, Side, Verdict};
use super::fit::moves::{Laid, Move, Overhang, SideMove};
use super::fit::placement::{place, worst_overhang};
use super::fit::square::{self, Angle, Call};
use super::input::{FitKind, Input};
use super::network::adjust::Adjustment;
use super::network::chi_square::{ALPHA_GLOBAL, joint_factor};
use crate::geometry::{Mm, Ratio};
use crate::network;
use crate::plan::corner_name;

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
    /// Whether every side is as long as it should be; nothing without a limit on sizes.
    pub(super) to_size: Option<bool>,
}

impl Figure {
    /// Lays the figure on the plan and measures it.
    pub(super) fn new(input: &Input<'_>, adjusted: &Adjustment) -> Self {
        let outline = input.footprint;
        let plan = &outline.points();
        let kind = input.fit_kind();
        let placement = place(plan, &adjusted.points, kind);
        let placed = &placement.points;
        let free = network::turned_covariance(&adjusted.covariance, placement.turn);
        let held = match kind {
            FitKind::Held(side) => network::held_covariance(&free, placed, side, (side + 1) % plan.len()),
            FitKind::Free | FitKind::LeastWorst => None,
        };
        let joint = joint_factor(plan.len(), ALPHA_GLOBAL);
        let laid =
            Laid { plan: outline, placed, covariance: held.as_ref().unwrap_or(&free), units: input.units };
        let overhangs = laid.overhangs(input.masonry);
        let moves = laid.moves();
        let sides: Vec<Side> = (0..plan.len())
            .map(|i| {
                let j = (i + 1) % plan.len();
                let (planned, built) = (plan[i].distance(plan[j]), placed[i].distance(placed[j]));
                let limit = input.size_limit.or_else(|| input.limit?.on_size(planned));
                Side {
                    name: outline.side_name(i),
                    plan: Mm(planned),
                    built: Mm(built),
                    difference: Mm(built - planned),
                    sd: Mm(network::distance_variance(placed, &free, i, j).sqrt()),
                    limit: limit.map(Mm),
                    within: limit.is_none_or(|limit| (built - planned).abs() <= limit),
                }
            })
            .collect();
        let limited = sides.iter().any(|side| side.limit.is_some());
        Self {
            to_size: limited.then(|| sides.iter().all(|side| side.within)),
            corners: (0..plan.len())
                .map(|i| {
                    let ellipse = network::ellipse(&free, i);
                    Corner {
                        name: corner_name(i).to_string(),
                        x: Mm(placed[i].x),
                        y: Mm(placed[i].y),
                        sd_x: Mm(free[(2 * i, 2 * i)].max(0.0).sqrt()),
                        sd_y: Mm(free[(2 * i + 1, 2 * i + 1)].max(0.0).sqrt()),
                        ellipse_major: Mm(ellipse.major),
                        ellipse_minor: Mm(ellipse.minor),
                        ellipse_deg: Ratio(ellipse.bearing.to_degrees()),
                    }
                })
                .collect(),
            sides,
            angles: square::judge(outline, placed, &free, input.limit, joint),
            fit: Some(FitAnswer {
                kind: match kind {
                    FitKind::Held(_) => "held",
                    FitKind::Free => "free",
                    FitKind::LeastWorst => "least-worst",
                },
                side: match kind {
                    FitKind::Held(side) => Some(outline.side_name(side)),
                    FitKind::Free | FitKind::LeastWorst => None,
                },
                worst_overhang: Mm(worst_overhang(plan, placed)),
                worst_move: Mm(moves.iter().map(|m| m.distance.0).fold(0.0, f64::max)),
            }),
            masonry: input.masonry.map(|masonry| {
                let ends = || overhangs.iter().flat_map(|o| [o.start.0, o.end.0]);
                MasonryAnswer {
                    limit: masonry.limit.map(Mm),
                    overhang: Mm(ends().fold(0.0, f64::max)),
                    setback: Mm(-ends().fold(0.0, f64::min)),
                    over: overhangs.iter().filter(|o| o.over == Some(true)).map(|o| o.side.clone()).collect(),
                }
            }),
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
            _ => self.angles.iter().all(|a| a.within) && self.to_size != Some(false),
        };
        if good { Verdict::Square } else { Verdict::Out }
    }

    /// The corners, by index, that are too close to call.
    pub(super) fn too_close(&self) -> Vec<usize> {
        (0..self.angles.len()).filter(|i| self.angles[*i].call == Call::TooClose).collect()
    }
}
