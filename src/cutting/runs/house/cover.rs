//! The cheapest bars that cover a length, for any prices of the kinds.

use crate::cutting::kinds::Kind;
use crate::exact::gcd;

/// More steps than this are too fine: lengths are rounded up to a coarser grid, which only loosens the bound.
const MOST_STEPS: i64 = 6000;
/// Above any price.
const NEVER: i64 = i64::MAX / 4;

/// For each number of bars and each length the least price, and the kind of the last bar.
pub(super) struct Cover {
    pub(super) grid: i64,
    units: Vec<usize>,
    width: usize,
    table: Vec<(i64, u8)>,
}

impl Cover {
    /// Covers from up to `most` bars, `prices` by kind.
    pub(super) fn new(kinds: &[Kind], prices: &[i64], most: usize) -> Self {
        let longest = kinds.iter().map(|kind| kind.length).max().unwrap_or(1);
        let divisor = kinds.iter().fold(0, |divisor, kind| gcd(divisor, kind.length)).max(1);
        let bars = i64::try_from(most).unwrap_or(i64::MAX);
        let grid = divisor.max(longest * bars / MOST_STEPS + 1);
        let grid = if grid <= divisor { divisor } else { grid };
        let units: Vec<usize> =
            kinds.iter().map(|kind| usize::try_from((kind.length + grid - 1) / grid).unwrap_or(0)).collect();
        let width = units.iter().max().unwrap_or(&0) * most + 1;
        let mut table = vec![(NEVER, 0); (most + 1) * width];
        table[0].0 = 0;
        for bars in 1..=most {
            for at in 0..width {
                let mut best = (NEVER, 0);
                for (kind, &units) in units.iter().enumerate() {
                    let before = table[(bars - 1) * width + at.saturating_sub(units)].0;
                    if before < NEVER && before + prices[kind] < best.0 {
                        best = (before + prices[kind], u8::try_from(kind).unwrap_or(u8::MAX));
                    }
                }
                table[bars * width + at] = best;
            }
        }
        Self { grid, units, width, table }
    }

    /// Size of the table.
    pub(super) fn cells(&self) -> usize {
        self.table.len()
    }

    /// For each price that so many bars may come to, the most that they give for it: (steps, price).
    pub(super) fn offers(&self, bars: usize) -> impl Iterator<Item = (usize, i64)> {
        let row = &self.table[bars * self.width..(bars + 1) * self.width];
        (0..self.width)
            .filter(move |&at| row[at].0 < NEVER && row.get(at + 1).is_none_or(|next| next.0 > row[at].0))
            .map(move |at| (at, row[at].0))
    }

    /// The bars of an offer, as counts by kind.
    pub(super) fn bars(&self, mut bars: usize, mut at: usize) -> Vec<usize> {
        let mut counts = vec![0; self.units.len()];
        while bars > 0 {
            let kind = usize::from(self.table[bars * self.width + at].1);
            counts[kind] += 1;
            at = at.saturating_sub(self.units[kind]);
            bars -= 1;
        }
        counts
    }
}
