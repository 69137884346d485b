//! The lines taped, and what may stand out of its place as one piece: a corner along one of its sides, a whole side, the
//! whole plate racked. All lengths are taken linear about a figure near to what was built.

use crate::geometry::Point;
use crate::network;
use crate::readings::network::observation::Observation;

/// One piece that may stand out of its place.
pub(super) struct Part {
    /// How each corner's x and y shift for 1 mm of it.
    pub(super) shifts: Vec<f64>,
    /// How the lines concerned lengthen.
    pub(super) lengthens: Vec<(usize, f64)>,
}

/// The lines taped: where they run, and what was read over the plan's own length.
pub(super) struct Taping {
    pub(super) rows: Vec<([usize; 4], [f64; 4])>,
    pub(super) over: Vec<f64>,
    pub(super) sds: Vec<f64>,
    pub(super) parts: Vec<Part>,
    pub(super) corners: usize,
}

impl Taping {
    /// Linear about `near`; shifts are from the plan all the same.
    pub(super) fn new(plan: &[Point], near: &[Point], observations: &[Observation]) -> Self {
        let mut lines = Self {
            rows: observations
                .iter()
                .map(|o| (network::columns(o.from, o.to), network::direction(near[o.from], near[o.to])))
                .collect(),
            over: Vec::new(),
            sds: observations.iter().map(|o| o.sd).collect(),
            parts: Vec::new(),
            corners: plan.len(),
        };
        let shifts: Vec<f64> = plan.iter().zip(near).flat_map(|(p, n)| [n.x - p.x, n.y - p.y]).collect();
        let lengthened = lines.lengthened(&shifts);
        lines.over = observations
            .iter()
            .zip(lengthened)
            .map(|(o, by)| o.value - near[o.from].distance(near[o.to]) + by)
            .collect();
        for shifts in parts(plan) {
            let lengthens = lines.lengthened(&shifts).into_iter().enumerate();
            let lengthens: Vec<_> = lengthens.filter(|(_, by)| by.abs() > 1e-9).collect();
            lines.parts.push(Part { shifts, lengthens });
        }
        lines
    }

    /// How much longer each line is once the corners have shifted so.
    fn lengthened(&self, shifts: &[f64]) -> Vec<f64> {
        let by = |(columns, figures): &([usize; 4], [f64; 4])| {
            columns.iter().zip(figures).map(|(c, f)| f * shifts[*c]).sum()
        };
        self.rows.iter().map(by).collect()
    }
}

/// The shifts of each piece by 1 mm: every corner along the side before it and the one after, every side square to itself,
/// the plate racked by 1 mm over its depth.
fn parts(plan: &[Point]) -> Vec<Vec<f64>> {
    let n = plan.len();
    let still = || vec![0.0; 2 * n];
    let along = |i: usize| {
        let (p, q) = (plan[i], plan[(i + 1) % n]);
        let length = p.distance(q);
        ((q.x - p.x) / length, (q.y - p.y) / length)
    };
    let mut parts = Vec::new();
    for side in 0..n {
        let (x, y) = along(side);
        let ends = [side, (side + 1) % n];
        for corner in ends {
            let mut one = still();
            (one[2 * corner], one[2 * corner + 1]) = (x, y);
            parts.push(one);
        }
        let mut whole = still();
        for corner in ends {
            (whole[2 * corner], whole[2 * corner + 1]) = (-y, x);
        }
        parts.push(whole);
    }
    let (top, bottom) =
        plan.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(t, b), p| (t.min(p.y), b.max(p.y)));
    let mut racked = still();
    for (i, p) in plan.iter().enumerate() {
        racked[2 * i] = (p.y - top) / (bottom - top).max(1.0);
    }
    parts.push(racked);
    parts
}
