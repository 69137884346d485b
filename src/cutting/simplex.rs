//! The simplex method: a dense inverse of the basis, columns brought in from outside as they are found.

/// What counts as nothing in the arithmetic.
pub(super) const TOLERANCE: f64 = 1e-7;

/// How a row's sum stands to its amount.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sense {
    AtLeast,
    AtMost,
    Exactly,
}

/// A row of the programme. Its amount is zero or more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Row {
    pub(super) sense: Sense,
    pub(super) amount: f64,
}

impl Row {
    /// The row at this place with a trace more, different for each: many equal steps would let the method run in circles.
    pub(super) fn traced(sense: Sense, amount: f64, place: usize) -> Self {
        Self { sense, amount: amount + 1e-9 * (place * 7919 % 1009 + 1) as f64 }
    }
}

/// A programme under way. Its columns are known by what they stand for, a `T`.
pub(super) struct Simplex<T> {
    senses: Vec<Sense>,
    /// What each basic column stands for, and its cost. A slack, surplus or artificial one stands for nothing.
    basis: Vec<(Option<T>, f64)>,
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
}

impl<T> Simplex<T> {
    /// Starts from a basis of slacks, and of artificial columns that cost `dear` each.
    pub(super) fn new(rows: &[Row], dear: f64) -> Self {
        let cost = |row: &Row| if row.sense == Sense::AtMost { 0.0 } else { dear };
        let unit = |row: usize| (0..rows.len()).map(|column| if row == column { 1.0 } else { 0.0 }).collect();
        Self {
            senses: rows.iter().map(|row| row.sense).collect(),
            basis: rows.iter().map(|row| (None, cost(row))).collect(),
            inverse: (0..rows.len()).map(unit).collect(),
            amounts: rows.iter().map(|row| row.amount).collect(),
        }
    }

    /// What one more of each row would cost.
    pub(super) fn prices(&self) -> Vec<f64> {
        let mut prices = vec![0.0; self.basis.len()];
        for ((_, cost), row) in self.basis.iter().zip(&self.inverse) {
            if *cost != 0.0 {
                for (price, entry) in prices.iter_mut().zip(row) {
                    *price += cost * entry;
                }
            }
        }
        prices
    }

    /// Cost of the present basis.
    pub(super) fn value(&self) -> f64 {
        self.basis.iter().zip(&self.amounts).map(|((_, cost), amount)| cost * amount).sum()
    }

    /// Lets a slack or surplus in if its price has the wrong sign.
    pub(super) fn enter_filler(&mut self, prices: &[f64]) -> bool {
        for (row, &price) in prices.iter().enumerate() {
            let sign = match self.senses[row] {
                Sense::AtMost => 1.0,
                Sense::AtLeast => -1.0,
                Sense::Exactly => continue,
            };
            if sign * price > TOLERANCE {
                return self.enter(&[(row, sign)], None, 0.0);
            }
        }
        false
    }

    /// Brings a column of (row, entry) into the basis; false when nothing can leave for it.
    pub(super) fn enter(&mut self, column: &[(usize, f64)], what: Option<T>, cost: f64) -> bool {
        let direction: Vec<f64> = self
            .inverse
            .iter()
            .map(|row| column.iter().map(|&(place, entry)| row[place] * entry).sum())
            .collect();
        let leaving = (0..direction.len())
            .filter(|&row| direction[row] > 1e-9)
            .map(|row| (row, self.amounts[row] / direction[row]))
            // Among equal steps the largest pivot, for the sake of the arithmetic.
            .min_by(|a, b| {
                let near = (a.1 - b.1).abs() < 1e-12;
                if near { direction[b.0].total_cmp(&direction[a.0]) } else { a.1.total_cmp(&b.1) }
            });
        let Some((leaving, step)) = leaving else {
            return false;
        };
        let pivot = direction[leaving];
        for entry in &mut self.inverse[leaving] {
            *entry /= pivot;
        }
        let pivot_row = self.inverse[leaving].clone();
        for (row, &factor) in direction.iter().enumerate() {
            if row != leaving && factor != 0.0 {
                for (entry, above) in self.inverse[row].iter_mut().zip(&pivot_row) {
                    *entry -= factor * above;
                }
                self.amounts[row] = (self.amounts[row] - factor * step).max(0.0);
            }
        }
        self.amounts[leaving] = step.max(0.0);
        self.basis[leaving] = (what, cost);
        true
    }

    /// What the columns in the basis stand for, and how much of each is taken.
    pub(super) fn taken(self) -> impl Iterator<Item = (T, f64)> {
        let taken = self.basis.into_iter().zip(self.amounts);
        taken.filter_map(|((what, _), amount)| what.filter(|_| amount > TOLERANCE).map(|what| (what, amount)))
    }
}
