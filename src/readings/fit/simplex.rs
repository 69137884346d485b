//! A small exact linear programme: the largest c·λ with M λ = (0, 0, 0, 1), λ ≥ 0, for a matrix of four rows.
//!
//! It is the dual of "shift and turn so that the largest offset is smallest": there are four unknowns (two shifts, the turn,
//! the offset itself) and as many constraints as offsets, so the dual has four rows however many corners there are.
//! A tableau in two phases with Bland's rule, which cannot cycle.

/// One constraint: its four coefficients and its cost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Column {
    pub(super) figures: [f64; 4],
    pub(super) cost: f64,
}

/// The best λ and the values y of the four unknowns (the multipliers of the four rows).
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Solution {
    pub(super) weights: Vec<f64>,
    pub(super) unknowns: [f64; 4],
}

const ROWS: usize = 4;
const ZERO: f64 = 1e-11;
/// Bland's rule ends; this only bounds what rounding could do to it.
const MOST_PIVOTS: usize = 20_000;

/// Solves it; `None` where it has no solution, or no largest one.
pub(super) fn largest(columns: &[Column]) -> Option<Solution> {
    let count = columns.len();
    let width = count + ROWS + 1;
    // Each row: the columns, an artificial one, and the right-hand side.
    let mut rows = vec![vec![0.0; width]; ROWS];
    for (r, row) in rows.iter_mut().enumerate() {
        for (value, column) in row.iter_mut().zip(columns) {
            *value = column.figures[r];
        }
        row[count + r] = 1.0;
    }
    rows[ROWS - 1][width - 1] = 1.0;
    let mut basis: Vec<usize> = (count..count + ROWS).collect();

    // First the artificial columns are driven out, then the cost counts.
    let first = |j: usize| if j >= count { -1.0 } else { 0.0 };
    pivot_to_end(&mut rows, &mut basis, &first, count + ROWS)?;
    if (0..ROWS).any(|r| basis[r] >= count && rows[r][width - 1] > 1e-9) {
        return None;
    }
    let second = |j: usize| columns.get(j).map_or(0.0, |c| c.cost);
    // Artificial columns may stay in the basis at zero; they must not be entered again.
    drive_out(&mut rows, &mut basis, count);
    pivot_to_end(&mut rows, &mut basis, &second, count)?;

    let mut weights = vec![0.0; count];
    for (r, j) in basis.iter().enumerate() {
        if let Some(weight) = weights.get_mut(*j) {
            *weight = rows[r][width - 1];
        }
    }
    // The artificial columns began as the identity, so they now hold the inverse of the basis: y = c_B B⁻¹.
    let mut unknowns = [0.0; ROWS];
    for (k, unknown) in unknowns.iter_mut().enumerate() {
        *unknown = (0..ROWS).map(|r| second(basis[r]) * rows[r][count + k]).sum();
    }
    Some(Solution { weights, unknowns })
}

/// Pivots until no column among the first `open` improves; `None` when the value has no bound.
fn pivot_to_end(
    rows: &mut [Vec<f64>],
    basis: &mut [usize],
    cost: &dyn Fn(usize) -> f64,
    open: usize,
) -> Option<()> {
    let last = rows[0].len() - 1;
    for _ in 0..MOST_PIVOTS {
        let gain = |j: usize| cost(j) - (0..ROWS).map(|r| cost(basis[r]) * rows[r][j]).sum::<f64>();
        let Some(enter) = (0..open).find(|j| !basis.contains(j) && gain(*j) > 1e-10) else {
            return Some(());
        };
        let mut leave: Option<(usize, f64)> = None;
        for r in 0..ROWS {
            if rows[r][enter] > ZERO {
                let ratio = rows[r][last] / rows[r][enter];
                let better = leave.is_none_or(|(other, least)| {
                    ratio < least - ZERO || (ratio <= least + ZERO && basis[r] < basis[other])
                });
                if better {
                    leave = Some((r, ratio));
                }
            }
        }
        let (r, _) = leave?;
        pivot(rows, basis, r, enter);
    }
    None
}

fn pivot(rows: &mut [Vec<f64>], basis: &mut [usize], r: usize, enter: usize) {
    let scale = rows[r][enter];
    for value in &mut rows[r] {
        *value /= scale;
    }
    let source = rows[r].clone();
    for (other, row) in rows.iter_mut().enumerate() {
        if other != r && row[enter] != 0.0 {
            let factor = row[enter];
            for (value, from) in row.iter_mut().zip(&source) {
                *value -= factor * from;
            }
        }
    }
    basis[r] = enter;
}

/// Swaps artificial columns that stayed in the basis, at zero, for real ones where any can replace them.
fn drive_out(rows: &mut [Vec<f64>], basis: &mut [usize], count: usize) {
    for r in 0..ROWS {
        if basis[r] >= count
            && let Some(enter) = (0..count).find(|j| rows[r][*j].abs() > 1e-7 && !basis.contains(j))
        {
            pivot(rows, basis, r, enter);
        }
    }
}
