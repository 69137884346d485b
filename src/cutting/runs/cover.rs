//! The cheapest bars that cover a length: the material part of the bound.

use super::instance::Instance;
use super::score::NEVER;
use crate::cutting::kinds::Kind;
use crate::exact::{gcd, int};

/// Largest table; above it lengths are rounded to a coarser grid, which only loosens the bound.
const MOST_CELLS: usize = 1_000_000;

/// For each number of bars and each length, the least price of bars that cover it, from bought kinds only.
/// Exact when the grid is the greatest common divisor of the bars; never above the truth otherwise.
#[derive(Debug, Clone)]
pub(super) struct Cover {
    grid: i64,
    steps: usize,
    most_bars: usize,
    /// Lengths of the bought kinds in grid steps, rounded up.
    in_steps: Vec<usize>,
    /// `[kind][bars][steps]`: the least price from this kind and the following ones.
    table: Vec<i64>,
}

impl Cover {
    /// Covers of up to `length` from up to `most_bars` of the instance's bought kinds.
    pub(super) fn new(instance: &Instance, length: i64, most_bars: usize) -> Self {
        let kinds = &instance.kinds[..instance.bought];
        let divisor = kinds.iter().fold(0, |divisor, kind| gcd(divisor, kind.length));
        let rows = (kinds.len() + 1) * (most_bars + 1);
        let finest = length / int((MOST_CELLS / rows).max(2) - 1) + 1;
        let grid = divisor.max(finest).max(1);
        let steps = usize::try_from(length.max(0).div_euclid(grid) + 1).unwrap_or(0);
        let in_steps: Vec<usize> = kinds
            .iter()
            .map(|kind| usize::try_from((kind.length + grid - 1) / grid).unwrap_or(usize::MAX))
            .collect();
        let mut cover = Self { grid, steps, most_bars, in_steps, table: vec![NEVER; rows * (steps + 1)] };
        cover.fill(kinds);
        cover
    }

    fn fill(&mut self, kinds: &[Kind]) {
        let none = self.cell(kinds.len(), 0, 0);
        self.table[none] = 0;
        for kind in (0..kinds.len()).rev() {
            for bars in 0..=self.most_bars {
                for steps in 0..=self.steps {
                    let mut best = self.table[self.cell(kind + 1, bars, steps)];
                    if bars > 0 {
                        let left = steps.saturating_sub(self.in_steps[kind]);
                        let with = self.table[self.cell(kind, bars - 1, left)] + kinds[kind].price;
                        best = best.min(with);
                    }
                    let cell = self.cell(kind, bars, steps);
                    self.table[cell] = best.min(NEVER);
                }
            }
        }
    }

    fn cell(&self, kind: usize, bars: usize, steps: usize) -> usize {
        (kind * (self.most_bars + 1) + bars) * (self.steps + 1) + steps
    }

    /// Least price of exactly `bars` bars of kind `kind` and the following ones that cover `length`;
    /// `NEVER` if they cannot.
    pub(super) fn price(&self, kind: usize, bars: usize, length: i64) -> i64 {
        let steps = if length <= 0 {
            0
        } else {
            usize::try_from((length + self.grid - 1) / self.grid).unwrap_or(usize::MAX)
        };
        if steps > self.steps || bars > self.most_bars {
            return NEVER;
        }
        self.table[self.cell(kind, bars, steps)]
    }

    /// Size of the table.
    pub(super) fn cells(&self) -> usize {
        self.table.len()
    }

    pub(super) fn most_bars(&self) -> usize {
        self.most_bars
    }
}
