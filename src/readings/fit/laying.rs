//! How the true outline is laid on what was built, as asked; unless asked, so that the fewest parts move.

use nalgebra::DMatrix;

use super::datum::Lines;
use super::fewest::{Fewest, fewest, place_limit};
use super::placement::{Placement, place};
use crate::geometry::Point;
use crate::network::{self, neighbours};
use crate::readings::input::{FitKind, Input};
use crate::readings::limit::Limit;
use crate::readings::network::adjust::Adjustment;

/// The outline laid on what was built.
#[derive(Debug)]
pub(in crate::readings) struct Laying {
    pub(in crate::readings) kind: FitKind,
    /// The side that it is held on, if it is.
    pub(in crate::readings) side: Option<usize>,
    pub(in crate::readings) placement: Placement,
    /// The corners' covariance in the datum of the fit, mm².
    pub(in crate::readings) covariance: DMatrix<f64>,
    /// The same in the free datum, in the plan's frame.
    pub(in crate::readings) free: DMatrix<f64>,
    /// Where the fewest parts move: which.
    pub(in crate::readings) fewest: Option<Fewest>,
    /// Whether every corner stands in its place within the limit; nothing without a limit, or of masonry.
    pub(in crate::readings) in_place: Option<bool>,
}

impl Laying {
    /// Lays the plan of `input` on the adjusted corners; `good` where corners and sides are within their limits as they are.
    pub(in crate::readings) fn new(input: &Input<'_>, adjusted: &Adjustment, good: bool) -> Self {
        let asked = input.fit.filter(|fit| *fit != FitKind::Fewest);
        let house = input.footprint.sides().iter().position(|side| side.house);
        let plain = house.map_or(FitKind::Free, FitKind::Held);
        if let Some(kind) = asked {
            return Self::of(input, adjusted, kind);
        }
        if input.masonry.is_some() {
            return house.map_or_else(
                || Self::of(input, adjusted, FitKind::LeastWorst),
                |side| Self::slid(input, adjusted, side),
            );
        }
        let as_it_is = Self::of(input, adjusted, plain);
        if good && as_it_is.in_place != Some(false) {
            return as_it_is;
        }
        let Some(fewest) = fewest(input, &adjusted.points, &adjusted.covariance) else {
            return as_it_is;
        };
        let free = network::turned_covariance(&adjusted.covariance, fewest.placement.turn);
        let covariance = network::covariance_in(&free, &fewest.placement.points, &fewest.conditions);
        Self {
            kind: FitKind::Fewest,
            side: fewest.held,
            placement: fewest.placement.clone(),
            covariance: covariance.unwrap_or_else(|| free.clone()),
            free,
            in_place: as_it_is.in_place.map(|_| fewest.parts.count() == 0 && fewest.parts.house.is_empty()),
            fewest: Some(fewest),
        }
    }

    /// Laid as `kind` has it, whatever has to move.
    fn of(input: &Input<'_>, adjusted: &Adjustment, kind: FitKind) -> Self {
        let plan = input.footprint.points();
        let placement = place(&plan, &adjusted.points, kind);
        let FitKind::Held(side) = kind else {
            return Self::with(input, adjusted, kind, placement, None);
        };
        let before = neighbours(side, plan.len()).0;
        let laid = Lines::of(input.footprint).laid(&placement, Some(side), &[2 * before + 1]);
        let (placement, conditions) = laid.map_or((placement, None), |(p, c)| (p, Some(c)));
        Self::with(input, adjusted, kind, placement, conditions.as_ref())
    }

    /// Held on the line of a house side, or as far off it as the plate may stand, and slid along it, to where the plate
    /// overhangs or stands back the least.
    fn slid(input: &Input<'_>, adjusted: &Adjustment, side: usize) -> Self {
        let start = place(&input.footprint.points(), &adjusted.points, FitKind::Held(side));
        let lines = Lines::of(input.footprint);
        let off = lines.offsets(&start);
        let ahead = |k: &usize| off[*k] * lines.ahead(side, *k);
        let along = || (0..off.len()).filter(|k| lines.slides(side, *k));
        let most = along().max_by(|a, b| ahead(a).total_cmp(&ahead(b)));
        let least = along().min_by(|a, b| ahead(a).total_cmp(&ahead(b)));
        let ends: Vec<usize> = most.into_iter().chain(least).collect();
        let (mut placement, conditions) =
            lines.laid(&start, Some(side), &ends).map_or((start, None), |(p, c)| (p, Some(c)));
        // Then off the house as far as helps and is allowed, never into it.
        let off = lines.offsets(&placement);
        let into = |k: usize| off[k] * lines.normal(k).dot(&lines.normal(2 * side));
        let across = || (0..off.len()).filter(|k| k / 2 != side && !lines.slides(side, *k)).map(into);
        let middle = f64::midpoint(across().fold(f64::MAX, f64::min), across().fold(f64::MIN, f64::max));
        let by = middle.clamp(0.0, input.masonry.map_or(0.0, |masonry| masonry.stand_off));
        let step = lines.normal(2 * side) * by;
        for at in &mut placement.points {
            *at = Point::new(at.x + step.x, at.y + step.y);
        }
        Self::with(input, adjusted, FitKind::Held(side), placement, conditions.as_ref())
    }

    fn with(
        input: &Input<'_>,
        adjusted: &Adjustment,
        kind: FitKind,
        placement: Placement,
        conditions: Option<&DMatrix<f64>>,
    ) -> Self {
        let free = network::turned_covariance(&adjusted.covariance, placement.turn);
        let held = conditions.and_then(|c| network::covariance_in(&free, &placement.points, c));
        let off = Lines::of(input.footprint).offsets(&placement);
        let limits: Vec<Option<f64>> = (0..off.len()).map(|k| place_limit(input, k)).collect();
        // A published tolerance is about what it says: an angle or a size.
        let own = matches!(input.limit, Some(Limit::Own(_))) || input.size_limit.is_some();
        let limited = own && input.masonry.is_none();
        let within = || off.iter().zip(&limits).all(|(off, limit)| limit.is_none_or(|l| off.abs() <= l));
        Self {
            kind,
            side: if let FitKind::Held(side) = kind { Some(side) } else { None },
            covariance: held.unwrap_or_else(|| free.clone()),
            free,
            fewest: None,
            in_place: limited.then(within),
            placement,
        }
    }
}
