//! A small symmetric matrix taken apart into a lower triangle and its mirror image.

/// The triangle, row by row.
pub(super) struct Lower {
    rows: Vec<f64>,
    size: usize,
}

impl Lower {
    /// Of a matrix that has these cells; none where it is not positive definite.
    pub(super) fn of(size: usize, cell: impl Fn(usize, usize) -> f64) -> Option<Self> {
        let mut lower = Self { rows: Vec::with_capacity(size * (size + 1) / 2), size };
        for i in 0..size {
            let start = lower.rows.len();
            for j in 0..i {
                let (above, row) = (lower.row(j), &lower.rows[start..]);
                let taken: f64 = row.iter().zip(above).map(|(a, b)| a * b).sum();
                let value = (cell(i, j) - taken) / above[j];
                lower.rows.push(value);
            }
            let taken: f64 = lower.rows[start..].iter().map(|a| a * a).sum();
            let left = cell(i, i) - taken;
            if left.is_nan() || left <= 0.0 {
                return None;
            }
            lower.rows.push(left.sqrt());
        }
        Some(lower)
    }

    fn row(&self, i: usize) -> &[f64] {
        &self.rows[i * (i + 1) / 2..][..=i]
    }

    /// Half the logarithm of the determinant.
    pub(super) fn half_log(&self) -> f64 {
        (0..self.size).map(|i| self.row(i)[i].ln()).sum()
    }

    /// Solves the triangle for these, in place, those before `from` being nothing.
    pub(super) fn solve(&self, from: usize, values: &mut [f64]) {
        for i in from..self.size {
            let row = self.row(i);
            let taken: f64 = row[from..i].iter().zip(&values[from..i]).map(|(a, b)| a * b).sum();
            values[i] = (values[i] - taken) / row[i];
        }
    }

    /// The whole solved for what the triangle makes of it, each with its cell of the inverse's diagonal.
    pub(super) fn off(&self, solved: &[f64]) -> Vec<(f64, f64)> {
        let mut column = vec![0.0; self.size];
        (0..self.size)
            .map(|i| {
                column.fill(0.0);
                column[i] = 1.0;
                self.solve(i, &mut column);
                let column = &column[i..];
                (column.iter().zip(&solved[i..]).map(|(a, b)| a * b).sum(), squares(column))
            })
            .collect()
    }
}

/// The sum of the squares.
pub(super) fn squares(values: &[f64]) -> f64 {
    values.iter().map(|a| a * a).sum()
}
