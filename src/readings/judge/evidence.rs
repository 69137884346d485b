//! How well readings bear out one way of building and taping: the Gaussian integral over the corners, taken in the room of
//! the readings, so that some of them are left out exactly by a small block of one inverse.

use nalgebra::{DMatrix, DVector};

use super::lines::Lines;

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
pub(super) struct Ground {
    pub(super) model: Model,
    /// The inverse of the readings' covariance about the plan, 1/mm², row by row.
    inverse: Vec<f64>,
    /// The logarithm of the density of readings just as on the plan.
    peak: f64,
    /// For each part, the inverse times its lengthening, and its lengthening times that.
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

impl Ground {
    pub(super) fn new(lines: &Lines, model: Model) -> Option<Self> {
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
        let covariance = factor.inverse();
        let mut inverse = vec![0.0; count * count];
        let mut reach = vec![0.0; unknowns];
        for (i, (columns, figures)) in lines.rows.iter().enumerate() {
            let [a, b, c, d] = columns.map(|column| &covariance.as_slice()[column * unknowns..]);
            let [x, y, z, w] = figures.map(|figure| figure * weights[i]);
            for (k, r) in reach.iter_mut().enumerate() {
                *r = a[k] * x + b[k] * y + c[k] * z + d[k] * w;
            }
            let row = &mut inverse[i * count..(i + 1) * count];
            for ((cell, (columns, figures)), weight) in row.iter_mut().zip(&lines.rows).zip(&weights) {
                let explained: f64 = columns.iter().zip(figures).map(|(c, f)| f * reach[*c]).sum();
                *cell = -explained * weight;
            }
            row[i] += weights[i];
        }
        let logs: f64 = weights.iter().map(|w| 0.5 * (std::f64::consts::TAU / w).ln()).sum();
        let peak = -half_determinant - unknowns as f64 * model.built.ln() - logs;
        let mut ground = Self { model, inverse, peak, parts: Vec::new() };
        ground.parts = lines.parts.iter().map(|part| ground.part(&part.lengthens, count)).collect();
        Some(ground)
    }

    fn part(&self, lengthens: &[(usize, f64)], count: usize) -> (Vec<f64>, f64) {
        let mut spread = vec![0.0; count];
        for (i, by) in lengthens {
            for (s, cell) in spread.iter_mut().zip(&self.inverse[i * count..]) {
                *s += by * cell;
            }
        }
        let own = lengthens.iter().map(|(i, by)| by * spread[*i]).sum();
        (spread, own)
    }

    /// Looks at readings that are so much over the plan, mm.
    pub(super) fn see(&self, lines: &Lines, over: &[f64]) -> Seen {
        let pulled: Vec<f64> = self
            .inverse
            .chunks_exact(over.len())
            .map(|row| row.iter().zip(over).map(|(cell, y)| cell * y).sum())
            .collect();
        let squares: f64 = pulled.iter().zip(over).map(|(p, y)| p * y).sum();
        let parts = lines.parts.iter().map(|part| part.lengthens.iter().map(|(i, by)| by * pulled[*i]).sum());
        Seen { density: self.peak - 0.5 * squares, parts: parts.collect(), pulled }
    }
}

/// The readings as a model sees them, with one part out of its place if that is supposed.
#[derive(Clone, Copy)]
pub(super) struct View<'a> {
    pub(super) ground: &'a Ground,
    seen: &'a Seen,
    /// The part, and how far its own variance is taken up by the readings, mm².
    part: Option<(usize, f64)>,
    /// The logarithm of what all this weighs with no reading wrong.
    pub(super) weight: f64,
}

/// What is left once some readings are out.
pub(super) struct Without {
    /// The logarithm of what the rest weighs.
    pub(super) weight: f64,
    /// What the rest makes of each one out: how far it is off, mm, and the variance of that, mm².
    pub(super) off: Vec<(f64, f64)>,
    lower: DMatrix<f64>,
    pull: DVector<f64>,
}

impl<'a> View<'a> {
    pub(super) fn new(ground: &'a Ground, seen: &'a Seen) -> Self {
        Self { ground, seen, part: None, weight: seen.density + ground.model.prior }
    }

    /// With a part out by a standard deviation of `size` mm, which is so as often as the logarithm `prior` says.
    pub(super) fn with_part(self, part: usize, size: f64, prior: f64) -> Self {
        let (own, pull) = (self.ground.parts[part].1, self.seen.parts[part]);
        let spread = 1.0 + size * size * own;
        let taken = size * size / spread;
        let weight = self.weight + prior - 0.5 * spread.ln() + 0.5 * taken * pull * pull;
        Self { part: Some((part, taken)), weight, ..self }
    }

    pub(super) fn count(&self) -> usize {
        self.seen.pulled.len()
    }

    fn cell(&self, i: usize, j: usize) -> f64 {
        let cell = self.ground.inverse[i * self.count() + j];
        self.part.map_or(cell, |(part, taken)| {
            let spread = &self.ground.parts[part].0;
            cell - taken * spread[i] * spread[j]
        })
    }

    fn pull(&self, i: usize) -> f64 {
        let pull = self.seen.pulled[i];
        self.part
            .map_or(pull, |(part, taken)| pull - taken * self.ground.parts[part].0[i] * self.seen.parts[part])
    }

    /// What the others make of one reading: how far it is off, mm, and the variance of that.
    pub(super) fn off(&self, index: usize) -> (f64, f64) {
        let own = self.cell(index, index).max(LEAST);
        (self.pull(index) / own, own.recip())
    }

    /// How much more or less all weighs where one line's reading is `by` mm more and another's as much less.
    pub(super) fn exchanged(&self, i: usize, j: usize, by: f64) -> f64 {
        let change = 2.0 * (self.pull(i) - self.pull(j));
        let own = self.cell(i, i) + self.cell(j, j) - 2.0 * self.cell(i, j);
        self.weight - 0.5 * by * (change + by * own)
    }

    /// Leaves these out exactly.
    pub(super) fn without(&self, out: &[usize]) -> Option<Without> {
        let block = DMatrix::from_fn(out.len(), out.len(), |a, b| {
            let cell = self.cell(out[a], out[b]);
            if a == b { cell.max(LEAST) } else { cell }
        });
        let factor = block.cholesky()?;
        let mut pull = DVector::from_iterator(out.len(), out.iter().map(|i| self.pull(*i)));
        let off = factor.solve(&pull);
        let inverse = factor.inverse();
        let lower = factor.unpack();
        lower.solve_lower_triangular_mut(&mut pull);
        let logs: f64 = lower.diagonal().iter().map(|d| d.ln()).sum();
        let density = logs - 0.5 * pull.norm_squared() - out.len() as f64 * HALF_LOG_TAU;
        let off = off.iter().enumerate().map(|(a, t)| (*t, inverse[(a, a)])).collect();
        Some(Without { weight: self.weight - density, off, lower, pull })
    }

    /// What the rest makes of one more reading, those of `without` being out already.
    pub(super) fn one_more(&self, out: &[usize], without: &Without, index: usize) -> (f64, f64) {
        if out.is_empty() {
            return self.off(index);
        }
        let mut along = DVector::from_iterator(out.len(), out.iter().map(|j| self.cell(*j, index)));
        without.lower.solve_lower_triangular_mut(&mut along);
        let own = (self.cell(index, index) - along.norm_squared()).max(LEAST);
        ((self.pull(index) - along.dot(&without.pull)) / own, own.recip())
    }

    /// How far each corner's x and y stand from the plan, mm, those readings out.
    pub(super) fn shifts(&self, lines: &Lines, out: &[usize], without: &Without) -> Vec<f64> {
        let left: Vec<f64> = (0..self.count())
            .map(|i| {
                let taken: f64 = out.iter().zip(&without.off).map(|(j, (t, _))| self.cell(i, *j) * t).sum();
                self.pull(i) - taken
            })
            .collect();
        let mut shifts = vec![0.0; 2 * lines.corners];
        for ((columns, figures), left) in lines.rows.iter().zip(&left) {
            for (c, f) in columns.iter().zip(figures) {
                shifts[*c] += self.ground.model.built.powi(2) * f * left;
            }
        }
        if let Some((part, taken)) = self.part {
            // taken = τ²/(1 + τ²g) gives the part's own variance τ² = taken/(1 − taken·g).
            let size = taken / (1.0 - taken * self.ground.parts[part].1).max(LEAST);
            let part = &lines.parts[part];
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
        let part = self.part.map_or(0.0, |(part, taken)| taken * self.seen.parts[part].powi(2));
        all - part - without.pull.norm_squared()
    }
}

/// A precision under this is rounding: the others say nothing of the reading.
const LEAST: f64 = 1e-12;
const HALF_LOG_TAU: f64 = 0.918_938_533_204_672_7;

/// The logarithm of the normal density, 1/mm.
pub(super) fn log_normal(t: f64, variance: f64) -> f64 {
    -0.5 * (t * t / variance + variance.ln()) - HALF_LOG_TAU
}
