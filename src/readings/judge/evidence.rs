//! How well readings bear out one way of building and taping: the Gaussian integral over the corners, taken in the room of
//! the readings, so that some of them are left out exactly by a small block of one inverse.

use nalgebra::DMatrix;

use super::lines::{Part, Taping};
use super::lower::{Lower, squares};

/// How it was built and taped, as one explanation has it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Model {
    /// How near to the plan it was built, one standard deviation, mm.
    pub(super) built: f64,
    /// How roughly the ends were held: its place in the table of that.
    pub(super) rough: usize,
    /// The same, mm.
    pub(super) ends: f64,
    /// The logarithm of how often that is so.
    pub(super) prior: f64,
}

/// What a model makes of the lines, whatever was read.
pub(super) struct Ground<'a> {
    pub(super) model: Model,
    lines: &'a Taping,
    /// One over each reading's variance, 1/mm².
    weights: Vec<f64>,
    /// The corners' covariance, mm², column by column.
    covariance: Vec<f64>,
    /// The diagonal of the inverse of the readings' covariance about the plan, 1/mm².
    own: Vec<f64>,
    /// The logarithm of the density of readings just as on the plan.
    peak: f64,
    /// For each part, that inverse times its lengthening, and its lengthening times that.
    parts: Vec<(Vec<f64>, f64)>,
}

/// What a model makes of the readings.
pub(super) struct Seen {
    /// The inverse times the readings' excess over the plan, 1/mm.
    pulled: Vec<f64>,
    /// The logarithm of their density.
    density: f64,
    /// Each part's lengthening times `pulled`.
    parts: Vec<f64>,
}

impl<'a> Ground<'a> {
    pub(super) fn new(lines: &'a Taping, model: Model) -> Option<Self> {
        let (count, unknowns) = (lines.rows.len(), 2 * lines.corners);
        let mut normal = DMatrix::identity(unknowns, unknowns) / model.built.powi(2);
        let weights: Vec<f64> =
            lines.sds.iter().map(|sd| (sd.powi(2) + model.ends.powi(2)).recip()).collect();
        for ((columns, figures), weight) in lines.rows.iter().zip(&weights) {
            for (a, x) in columns.iter().zip(figures) {
                for (b, y) in columns.iter().zip(figures) {
                    normal[(*a, *b)] += x * y * weight;
                }
            }
        }
        let factor = normal.cholesky()?;
        let half_determinant: f64 = factor.l_dirty().diagonal().iter().map(|d| d.ln()).sum();
        let covariance = factor.inverse().as_slice().to_vec();
        let logs: f64 = weights.iter().map(|w| 0.5 * (std::f64::consts::TAU / w).ln()).sum();
        let peak = -half_determinant - unknowns as f64 * model.built.ln() - logs;
        let mut ground = Self { model, lines, weights, covariance, own: vec![], peak, parts: vec![] };
        ground.own = (0..count).map(|i| ground.weights[i] + ground.shared(i, i)).collect();
        let part = |part: &Part| {
            let mut lengthens = vec![0.0; count];
            for (i, by) in &part.lengthens {
                lengthens[*i] = *by;
            }
            let spread = ground.times(&lengthens);
            let own = part.lengthens.iter().map(|(i, by)| by * spread[*i]).sum();
            (spread, own)
        };
        ground.parts = lines.parts.iter().map(part).collect();
        Some(ground)
    }

    /// What the corners that two lines share take off their cell of the inverse, 1/mm².
    fn shared(&self, i: usize, j: usize) -> f64 {
        let ((rows, left), (columns, right)) = (&self.lines.rows[i], &self.lines.rows[j]);
        let mut sum = 0.0;
        for (column, y) in columns.iter().zip(right) {
            let column = &self.covariance[column * 2 * self.lines.corners..];
            sum += y * rows.iter().zip(left).map(|(row, x)| x * column[*row]).sum::<f64>();
        }
        -sum * self.weights[i] * self.weights[j]
    }

    /// A cell of the inverse of the readings' covariance about the plan, 1/mm².
    fn cell(&self, i: usize, j: usize) -> f64 {
        if i == j { self.own[i] } else { self.shared(i, j) }
    }

    /// That inverse times a length on each line.
    fn times(&self, lengths: &[f64]) -> Vec<f64> {
        let unknowns = 2 * self.lines.corners;
        let mut pull = vec![0.0; unknowns];
        let each = || self.lines.rows.iter().zip(lengths).zip(&self.weights);
        for (((columns, figures), length), weight) in each() {
            for (c, f) in columns.iter().zip(figures) {
                pull[*c] += f * length * weight;
            }
        }
        let mut shifts = vec![0.0; unknowns];
        for (column, by) in self.covariance.chunks_exact(unknowns).zip(&pull).filter(|(_, by)| **by != 0.0) {
            for (shift, cell) in shifts.iter_mut().zip(column) {
                *shift += by * cell;
            }
        }
        each()
            .map(|(((columns, figures), length), weight)| {
                let shifted: f64 = columns.iter().zip(figures).map(|(c, f)| f * shifts[*c]).sum();
                (length - shifted) * weight
            })
            .collect()
    }

    /// Looks at readings that are so much over the plan, mm.
    pub(super) fn see(&self, over: &[f64]) -> Seen {
        let pulled = self.times(over);
        let squares: f64 = pulled.iter().zip(over).map(|(p, y)| p * y).sum();
        let parts = self.lines.parts.iter();
        let parts = parts.map(|part| part.lengthens.iter().map(|(i, by)| by * pulled[*i]).sum());
        Seen { density: self.peak - 0.5 * squares, parts: parts.collect(), pulled }
    }
}

/// The readings as a model sees them, with one part out of its place if that is supposed.
#[derive(Clone, Copy)]
pub(super) struct View<'a> {
    pub(super) ground: &'a Ground<'a>,
    seen: &'a Seen,
    part: Option<Out<'a>>,
    /// The logarithm of what all this weighs with no reading wrong.
    pub(super) weight: f64,
}

/// A part that is supposed to be out of its place.
#[derive(Clone, Copy)]
struct Out<'a> {
    index: usize,
    /// How far its own variance is taken up by the readings, mm².
    taken: f64,
    /// The inverse times its lengthening.
    spread: &'a [f64],
    /// Its lengthening times what the readings pull.
    pull: f64,
}

/// What is left once some readings are out.
pub(super) struct Without {
    /// The logarithm of what the rest weighs.
    pub(super) weight: f64,
    /// What the rest makes of each one out: how far it is off, mm, and the variance of that, mm².
    pub(super) off: Vec<(f64, f64)>,
    lower: Lower,
    pull: Vec<f64>,
}

impl<'a> View<'a> {
    pub(super) fn new(ground: &'a Ground<'a>, seen: &'a Seen) -> Self {
        Self { ground, seen, part: None, weight: seen.density + ground.model.prior }
    }

    /// With a part out by a standard deviation of `size` mm, which is so as often as the logarithm `prior` says.
    pub(super) fn with_part(self, part: usize, size: f64, prior: f64) -> Self {
        let (spread, own) = &self.ground.parts[part];
        let pull = self.seen.parts[part];
        let wider = 1.0 + size * size * own;
        let taken = size * size / wider;
        let weight = self.weight + prior - 0.5 * wider.ln() + 0.5 * taken * pull * pull;
        Self { part: Some(Out { index: part, taken, spread, pull }), weight, ..self }
    }

    pub(super) fn count(&self) -> usize {
        self.seen.pulled.len()
    }

    fn cell(&self, i: usize, j: usize) -> f64 {
        let cell = self.ground.cell(i, j);
        self.part.map_or(cell, |out| cell - out.taken * out.spread[i] * out.spread[j])
    }

    fn pull(&self, i: usize) -> f64 {
        let pull = self.seen.pulled[i];
        self.part.map_or(pull, |out| pull - out.taken * out.spread[i] * out.pull)
    }

    /// What the others make of one reading: how far it is off, mm, and the variance of that.
    pub(super) fn off(&self, index: usize) -> (f64, f64) {
        let own = self.cell(index, index).max(LEAST);
        (self.pull(index) / own, own.recip())
    }

    /// What the others make of readings that are all off by the same: how far, mm, and the variance of that.
    pub(super) fn off_alike(&self, indices: &[usize]) -> (f64, f64) {
        let own: f64 = indices.iter().flat_map(|i| indices.iter().map(|j| self.cell(*i, *j))).sum();
        let pull: f64 = indices.iter().map(|i| self.pull(*i)).sum();
        (pull / own.max(LEAST), own.max(LEAST).recip())
    }

    /// What all weighs where one line's reading is `by` mm more and another's as much less; nothing where that is far under
    /// `least`.
    pub(super) fn exchanged(&self, i: usize, j: usize, by: f64, least: f64) -> f64 {
        let change = 2.0 * (self.pull(i) - self.pull(j));
        if self.weight - 0.5 * by * change < least {
            return f64::NEG_INFINITY;
        }
        let own = self.cell(i, i) + self.cell(j, j) - 2.0 * self.cell(i, j);
        self.weight - 0.5 * by * (change + by * own)
    }

    /// Leaves these out exactly.
    pub(super) fn without(&self, out: &[usize]) -> Option<Without> {
        let lower = Lower::of(out.len(), |a, b| {
            let cell = self.cell(out[a], out[b]);
            if a == b { cell.max(LEAST) } else { cell }
        })?;
        let mut pull: Vec<f64> = out.iter().map(|i| self.pull(*i)).collect();
        lower.solve(0, &mut pull);
        let density = lower.half_log() - 0.5 * squares(&pull) - out.len() as f64 * HALF_LOG_TAU;
        Some(Without { weight: self.weight - density, off: lower.off(&pull), lower, pull })
    }

    /// What the rest makes of one more reading, those of `without` being out already.
    pub(super) fn one_more(&self, out: &[usize], without: &Without, index: usize) -> (f64, f64) {
        if out.is_empty() {
            return self.off(index);
        }
        let mut along: Vec<f64> = out.iter().map(|j| self.cell(index, *j)).collect();
        without.lower.solve(0, &mut along);
        let own = (self.cell(index, index) - squares(&along)).max(LEAST);
        let taken: f64 = along.iter().zip(&without.pull).map(|(a, b)| a * b).sum();
        ((self.pull(index) - taken) / own, own.recip())
    }

    /// How far each corner's x and y stand from the plan, mm, those readings out.
    pub(super) fn shifts(&self, out: &[usize], without: &Without) -> Vec<f64> {
        let left: Vec<f64> = (0..self.count())
            .map(|i| {
                let taken: f64 = out.iter().zip(&without.off).map(|(j, (t, _))| self.cell(i, *j) * t).sum();
                self.pull(i) - taken
            })
            .collect();
        let lines = self.ground.lines;
        let mut shifts = vec![0.0; 2 * lines.corners];
        for ((columns, figures), left) in lines.rows.iter().zip(&left) {
            for (c, f) in columns.iter().zip(figures) {
                shifts[*c] += self.ground.model.built.powi(2) * f * left;
            }
        }
        if let Some(Out { index, taken, .. }) = self.part {
            // taken = τ²/(1 + τ²g) gives the part's own variance τ² = taken/(1 − taken·g).
            let size = taken / (1.0 - taken * self.ground.parts[index].1).max(LEAST);
            let part = &lines.parts[index];
            let by: f64 = size * part.lengthens.iter().map(|(i, f)| f * left[*i]).sum::<f64>();
            for (s, d) in shifts.iter_mut().zip(&part.shifts) {
                *s += by * d;
            }
        }
        shifts
    }

    /// The weighted sum of squares of the readings left.
    pub(super) fn squares(&self, without: &Without) -> f64 {
        let all = 2.0 * (self.ground.peak - self.seen.density);
        let part = self.part.map_or(0.0, |out| out.taken * out.pull.powi(2));
        all - part - squares(&without.pull)
    }
}

/// A precision under this is rounding: the others say nothing of the reading.
const LEAST: f64 = 1e-12;
const HALF_LOG_TAU: f64 = 0.918_938_533_204_672_7;

/// The logarithm of the normal density, 1/mm.
pub(super) fn log_normal(t: f64, variance: f64) -> f64 {
    -0.5 * (t * t / variance + variance.ln()) - HALF_LOG_TAU
}
