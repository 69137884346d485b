//! What holds the joists: clear spans, hangers, bearers, and bearings against a published rule.

use super::answer::{Bearer, Check, ClearSpan, Hangers, Held, Trimmer};
use super::ends::{self, found};
use super::input::{BearsOn, Support};
use super::layout::{self, HAIR, Stands};
use super::setting::Setting;
use crate::geometry::Mm;

impl Setting<'_> {
    /// The clear spans, one a bay.
    pub(super) fn spans(&self) -> Vec<ClearSpan> {
        let bays = self.bays.iter().enumerate().map(|(index, bay)| ClearSpan {
            from: self.footprint.side_name(bay.from.side),
            to: self.footprint.side_name(bay.to.side),
            span: Mm(found(self.question, &bay.to, Support::To).face
                - found(self.question, &bay.from, Support::From).face),
            joists: self.stands.iter().filter(|stands| stands.bay == index).count(),
        });
        bays.collect()
    }

    /// Every hanger: joists side by side in one bay hang in a wide one.
    pub(super) fn hangers(&self, trimmers: &[Trimmer]) -> Vec<Hangers> {
        let thickness = self.question.thickness;
        let mut widths: Vec<f64> = vec![];
        let beside = |a: &Stands, b: &Stands| {
            a.bay == b.bay && a.cut_for == b.cut_for && b.near - a.near <= thickness + HAIR
        };
        for group in self.stands.chunk_by(beside) {
            let Some(first) = group.first() else { continue };
            let bay = &self.bays[first.bay];
            let sides = [(&bay.from, Support::From), (&bay.to, Support::To)];
            let ends = first.cut_for.and_then(|index| ends::trimmers(self.question, bay, index).ok());
            let hung = sides.iter().enumerate().filter(|(end, (edge, support))| {
                let reaches = ends.is_none_or(|ends| ends[*end].is_some());
                reaches && found(self.question, edge, *support).held == Held::Hung
            });
            let on_trimmers = ends.map_or(0, |ends| ends.iter().flatten().count());
            let count = hung.count() + on_trimmers;
            widths.extend(std::iter::repeat_n(thickness * group.len() as f64, count));
        }
        for trimmer in trimmers {
            widths.extend([thickness * trimmer.count as f64; 2]);
        }
        widths.sort_by(f64::total_cmp);
        let alike = widths.chunk_by(|a, b| (a - b).abs() < 1e-6);
        alike.filter_map(|group| Some(Hangers { width: Mm(*group.first()?), count: group.len() })).collect()
    }

    /// The bearers, one for each side that joists hang on it, from wall to wall.
    pub(super) fn bearers(&self) -> Vec<Bearer> {
        let mut runs: Vec<(usize, f64, f64)> = vec![];
        if self.question.bearer > 0.0 {
            for bay in self.bays {
                for edge in [&bay.from, &bay.to].into_iter().filter(|e| self.question.hung.contains(&e.side))
                {
                    let (low, high) = (bay.room[0].max(edge.u[0]), bay.room[1].min(edge.u[1]));
                    match runs.iter_mut().find(|(side, _, end)| *side == edge.side && low <= end + HAIR) {
                        Some((_, _, end)) => *end = end.max(high),
                        None => runs.push((edge.side, low, high)),
                    }
                }
            }
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a positive and bounded figure, and a float cast saturates"
        )]
        let bolts = |length: f64, every: f64| (length / every - HAIR).ceil().max(1.0) as usize + 1;
        let bearer = |(side, low, high): (usize, f64, f64)| Bearer {
            side: self.footprint.side_name(side),
            length: Mm(high - low),
            bolts: self.question.bolts.map(|every| bolts(high - low, every)),
        };
        runs.into_iter().map(bearer).collect()
    }

    /// Bearings and centres against the rule that was asked for.
    pub(super) fn checks(&self) -> Vec<Check> {
        let Some(rule) = self.question.rule else { return vec![] };
        let edges = || {
            let bays = self.bays.iter();
            bays.flat_map(|bay| [(&bay.from, Support::From), (&bay.to, Support::To)])
        };
        let held = |held| edges().any(|(edge, support)| found(self.question, edge, support).held == held);
        let (on, least) = match self.question.bears_on {
            BearsOn::Timber => ("bearing on timber", rule.on_timber),
            BearsOn::Masonry => ("bearing on masonry", rule.on_masonry),
            BearsOn::Steel => ("bearing on steel", rule.on_steel),
        };
        let mut checks = vec![];
        if let Some(least) = least.filter(|_| held(Held::Bears)) {
            let kept = self.question.bearing >= least - HAIR;
            checks.push(Check {
                what: on,
                is: Mm(self.question.bearing),
                limit: Mm(least),
                at_most: false,
                kept,
            });
        }
        if let (Some(least), Some(seat)) = (rule.in_hanger, self.question.seat)
            && held(Held::Hung)
        {
            let is = seat - self.question.gap;
            checks.push(Check {
                what: "bearing in the hanger",
                is: Mm(is),
                limit: Mm(least),
                at_most: false,
                kept: is >= least - HAIR,
            });
        }
        if let Some(most) = rule.centres {
            let is = layout::widest(self.stands).0.max(self.question.centres);
            checks.push(Check {
                what: "centres",
                is: Mm(is),
                limit: Mm(most),
                at_most: true,
                kept: is <= most + HAIR,
            });
        }
        checks
    }
}
