//! The proof set where there are too many sets to try: exchanges of one member at a time from several beginnings.
//!
//! What an exchange comes to is worked out without making it. With P the covariance, `p = P·r` for the rows of the one
//! that leaves (k) and the one that comes (c), `h = r·p` and `t = r_c·p_k`, the covariance afterwards is
//! `P + p_k p_kᵀ / (1 − h_k) − q qᵀ / (1 + r_c·q)` with `q = p_c + p_k t / (1 − h_k)` (Sherman and Morrison 1950, twice).
//! Most exchanges are ruled out by the first corner looked at.

use super::state::{State, TIE, worst_direction};

/// Beginnings times members times candidates: every candidate of an outline of 8 or 10 corners begins once, 20 of an
/// outline of 12 do, one of an outline of 26.
///
/// On 300 random outlines of 8 corners this found the best of all 15 504 sets 281 times, and otherwise one within 4.1 %
/// of it.
const EFFORT: usize = 10_000;

/// The best set of `count` candidates found, ascending: fewer than all of them, and more than none.
pub(super) fn best_by_exchange(start: &State, count: usize) -> Vec<usize> {
    let candidates = start.candidate_count();
    let beginnings = (EFFORT / (count * candidates)).clamp(1, candidates);
    let mut search = Search::new(start);
    let mut best = (f64::INFINITY, vec![]);
    for first in (0..candidates).step_by(candidates.div_ceil(beginnings)) {
        search.begin(start, first, count);
        while search.improve() {}
        if search.worst < best.0 * (1.0 - TIE) || best.1.is_empty() {
            best = (search.worst, search.chosen.clone());
        }
    }
    best.1.sort_unstable();
    best.1
}

struct Search {
    state: State,
    chosen: Vec<usize>,
    is_chosen: Vec<bool>,
    /// The worst corner's variance, mm².
    worst: f64,
    /// P·r of every candidate, one after the other.
    products: Vec<f64>,
    /// r·P·r of every candidate.
    spreads: Vec<f64>,
    /// The corner that ruled out the last exchange; it often rules out the next.
    killer: usize,
}

impl Search {
    fn new(start: &State) -> Self {
        Self {
            state: start.clone(),
            chosen: vec![],
            is_chosen: vec![false; start.candidate_count()],
            worst: f64::INFINITY,
            products: vec![0.0; start.candidate_count() * start.size()],
            spreads: vec![0.0; start.candidate_count()],
            killer: 0,
        }
    }

    /// Builds a set up from `first`, each time by the candidate least known from the rest: the D-optimal pick.
    fn begin(&mut self, start: &State, first: usize, count: usize) {
        self.state.copy_from(start);
        self.chosen.clear();
        self.is_chosen.fill(false);
        let mut next = first;
        loop {
            self.state.add(next);
            self.chosen.push(next);
            self.is_chosen[next] = true;
            if self.chosen.len() == count {
                break;
            }
            let mut widest = f64::NEG_INFINITY;
            for i in (0..self.is_chosen.len()).filter(|i| !self.is_chosen[*i]) {
                let spread = self.state.spread(i);
                if spread > widest * (1.0 + TIE) || widest < 0.0 {
                    (next, widest) = (i, spread);
                }
            }
        }
        self.refresh();
    }

    fn refresh(&mut self) {
        self.worst = self.state.worst_variance();
        self.state.products(&mut self.products, &mut self.spreads);
    }

    /// Makes the exchange that lowers the worst corner's variance most, the first of equals, if one lowers it.
    fn improve(&mut self) -> bool {
        let mut limit = self.worst * (1.0 - TIE);
        let mut best = None;
        for (place, leaves) in self.chosen.iter().copied().enumerate() {
            // Above zero while the reading is in; the floor keeps a rounding error from turning the sign.
            let scale = 1.0 / (1.0 - self.spreads[leaves]).max(1e-12);
            for comes in (0..self.is_chosen.len()).filter(|i| !self.is_chosen[*i]) {
                match self.after(leaves, scale, comes, limit) {
                    Ok(worst) => {
                        limit = worst * (1.0 - TIE);
                        best = Some((place, comes));
                    }
                    Err(corner) => self.killer = corner,
                }
            }
        }
        let Some((place, comes)) = best else {
            return false;
        };
        let leaves = std::mem::replace(&mut self.chosen[place], comes);
        self.is_chosen[leaves] = false;
        self.is_chosen[comes] = true;
        self.state.remove(leaves);
        self.state.add(comes);
        self.refresh();
        true
    }

    fn product(&self, candidate: usize) -> &[f64] {
        let size = self.state.size();
        &self.products[candidate * size..(candidate + 1) * size]
    }

    /// The worst corner's variance after `comes` has taken the place of `leaves`, or the corner that is not under
    /// `limit`. `scale` is 1 / (1 − h) of the one that leaves.
    fn after(&self, leaves: usize, scale: f64, comes: usize, limit: f64) -> Result<f64, usize> {
        let (leaving, coming) = (self.product(leaves), self.product(comes));
        let t = self.state.along(comes, leaving);
        let turned = t * scale;
        let shrink = 1.0 / (1.0 + self.spreads[comes] + t * turned);
        let variance = |corner: usize| {
            let (x, y) = (2 * corner, 2 * corner + 1);
            let (px, py) = (leaving[x], leaving[y]);
            let (qx, qy) = (coming[x] + turned * px, coming[y] + turned * py);
            let [xx, yy, xy] = self.state.block(corner);
            let after = |now: f64, p: f64, q: f64| now + p * scale - q * shrink;
            worst_direction(
                after(xx, px * px, qx * qx),
                after(yy, py * py, qy * qy),
                after(xy, px * py, qx * qy),
            )
        };
        let mut worst: f64 = 0.0;
        for corner in std::iter::once(self.killer).chain(0..self.state.size() / 2) {
            let here = variance(corner);
            if here >= limit {
                return Err(corner);
            }
            worst = worst.max(here);
        }
        Ok(worst)
    }
}
