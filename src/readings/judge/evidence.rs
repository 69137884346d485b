//! How well readings bear out a model: so built, ends held so. The Gaussian integral over the corners, their distances
//! taken linear about the plan: what is built stands some hundredths of its own length from it at most.

use nalgebra::{DMatrix, DVector};

use crate::geometry::Point;
use crate::network;
use crate::readings::network::observation::Observation;

/// How it was built and taped, as one explanation has it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Model {
    /// How near to the plan it was built, one standard deviation, mm.
    pub(super) built: f64,
    /// How roughly the ends were held, mm.
    pub(super) ends: f64,
    /// The logarithm of how often that is so.
    pub(super) prior: f64,
}

/// The lines taped: where they run, and what was read over the plan's own length.
pub(super) struct Lines {
    pub(super) rows: Vec<([usize; 4], [f64; 4])>,
    pub(super) over: Vec<f64>,
    pub(super) sds: Vec<f64>,
    corners: usize,
}

impl Lines {
    pub(super) fn new(plan: &[Point], observations: &[Observation]) -> Self {
        Self {
            rows: observations
                .iter()
                .map(|o| (network::columns(o.from, o.to), network::direction(plan[o.from], plan[o.to])))
                .collect(),
            over: observations.iter().map(|o| o.value - plan[o.from].distance(plan[o.to])).collect(),
            sds: observations.iter().map(|o| o.sd).collect(),
            corners: plan.len(),
        }
    }
}

/// The corners as the readings kept have them, and how well they agree.
pub(super) struct Fitted {
    /// Covariance of the corners, mm².
    covariance: DMatrix<f64>,
    /// Their shifts from the plan, mm.
    shift: DVector<f64>,
    /// The logarithm of the readings' density.
    evidence: f64,
    /// The weighted sum of squares that is left: chi-square with one degree of freedom for each reading kept.
    pub(super) squares: f64,
    model: Model,
}

impl Fitted {
    /// Fits the readings not in `out`, each `less` by so much.
    pub(super) fn new(lines: &Lines, out: &[usize], less: f64, model: Model) -> Option<Self> {
        let unknowns = 2 * lines.corners;
        let mut normal = DMatrix::identity(unknowns, unknowns) / model.built.powi(2);
        let mut pull = DVector::zeros(unknowns);
        let (mut squares, mut logs) = (0.0, 0.0);
        for (i, (columns, figures)) in lines.rows.iter().enumerate() {
            if out.contains(&i) {
                continue;
            }
            let over = lines.over[i] - less;
            let variance = lines.sds[i].powi(2) + model.ends.powi(2);
            for (a, x) in columns.iter().zip(figures) {
                pull[*a] += x * over / variance;
                for (b, y) in columns.iter().zip(figures) {
                    normal[(*a, *b)] += x * y / variance;
                }
            }
            squares += over * over / variance;
            logs += 0.5 * (variance * std::f64::consts::TAU).ln();
        }
        let factor = normal.cholesky()?;
        let half_determinant: f64 = factor.l_dirty().diagonal().iter().map(|d| d.ln()).sum();
        let shift = factor.solve(&pull);
        let squares = squares - pull.dot(&shift);
        let evidence = -0.5 * squares - half_determinant - unknowns as f64 * model.built.ln() - logs;
        Some(Self { covariance: factor.inverse(), shift, evidence, squares, model })
    }

    /// The logarithm of what its model weighs by these readings.
    pub(super) fn weight(&self) -> f64 {
        self.evidence + self.model.prior
    }

    /// What the others make of a line: how far its reading is off, mm, and the standard deviation of that. A reading among
    /// those fitted is taken out of them exactly.
    pub(super) fn off(&self, lines: &Lines, index: usize, kept: bool) -> (f64, f64) {
        let (columns, figures) = lines.rows[index];
        let mut reach = 0.0;
        let mut shift = 0.0;
        for (a, x) in columns.iter().zip(figures) {
            shift += x * self.shift[*a];
            reach += columns.iter().zip(figures).map(|(b, y)| x * y * self.covariance[(*a, *b)]).sum::<f64>();
        }
        let variance = lines.sds[index].powi(2) + self.model.ends.powi(2);
        let residual = lines.over[index] - shift;
        if kept {
            // Of S⁻¹: its diagonal, and what it makes of the readings.
            let own = (1.0 / variance - reach / variance.powi(2)).max(1e-12);
            (residual / variance / own, own.sqrt().recip())
        } else {
            (residual, (variance + reach).sqrt())
        }
    }
}
