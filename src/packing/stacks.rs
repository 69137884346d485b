//! Every stack worth trying under one gap, nearest first and then fewest pieces first, as far as a stated limit.

use super::packers::{Fewest, off};

/// Stacks kept that fill the gap exactly.
const MOST_EXACT: usize = 200;
/// Stacks kept that are a tenth off; fewer the farther off, but never under [`FEWEST_KEPT`].
const MOST_OFF: usize = 40;
/// Stacks kept of any one total.
const FEWEST_KEPT: usize = 2;
/// Stacks kept in all.
const MOST_STACKS: usize = 500;
/// Steps spent on listing the stacks of one gap.
const MOST_STEPS: usize = 20_000;

/// What a stack costs: how far off it is first, then how many pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Cost {
    /// Distance from the gap as [`off`] counts it.
    pub(super) off: u64,
    /// Number of packers.
    pub(super) pieces: u64,
}

/// One stack: how many of each size, in the order of the sizes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Stack {
    pub(super) counts: Vec<u32>,
    pub(super) cost: Cost,
}

/// The stacks for one gap.
pub(super) struct Stacks {
    /// In order of cost; the last one is empty, so that there is always something to do.
    pub(super) list: Vec<Stack>,
    /// Every stack left out costs at least this; `None` if none was.
    pub(super) left_out: Option<Cost>,
}

/// Lists the stacks for `gap` from `sizes` (grains, thickest first) of which `counts` are there.
pub(super) fn list(gap: u32, sizes: &[u32], counts: &[u32], fewest: &Fewest) -> Stacks {
    let mut lister =
        Lister { sizes, counts, gap, current: vec![0; sizes.len()], list: Vec::new(), full: 0, steps: 0 };
    let thinnest = sizes.last().copied().unwrap_or(1);
    let there: u64 = counts.iter().map(|c| u64::from(*c)).sum();
    let mut left_out = None;
    // Totals nearest the gap first; past the gap itself below it there is only the empty stack.
    'totals: for distance in 0..gap {
        let over = (distance > 0).then_some(gap + distance);
        for total in std::iter::once(gap - distance).chain(over) {
            let Some(least) = fewest.pieces(total) else {
                continue;
            };
            let kept =
                if distance == 0 { MOST_EXACT } else { (MOST_OFF / distance as usize).max(FEWEST_KEPT) };
            lister.full = lister.list.len() + kept;
            for pieces in u64::from(least)..=u64::from(total / thinnest).min(there) {
                lister.stacks_of(0, total, pieces);
                if lister.steps >= MOST_STEPS || lister.list.len() >= lister.full {
                    // Totals farther off cost more, so the first that is cut short costs least.
                    left_out = left_out.or(Some(Cost { off: off(gap, total), pieces }));
                    break;
                }
            }
            if lister.steps >= MOST_STEPS || lister.list.len() >= MOST_STACKS {
                left_out = left_out.or(Some(Cost { off: off(gap, total), pieces: 0 }));
                break 'totals;
            }
        }
    }
    let mut list = lister.list;
    list.push(Stack { counts: vec![0; sizes.len()], cost: Cost { off: off(gap, 0), pieces: 0 } });
    Stacks { list, left_out }
}

struct Lister<'a> {
    sizes: &'a [u32],
    counts: &'a [u32],
    gap: u32,
    current: Vec<u32>,
    list: Vec<Stack>,
    /// Length of the list at which no more of this total are kept.
    full: usize,
    steps: usize,
}

impl Lister<'_> {
    /// Adds every stack of exactly `pieces` packers of the sizes from index `size` on that make `left`, the ones
    /// with most of the thickest first.
    fn stacks_of(&mut self, size: usize, left: u32, pieces: u64) {
        self.steps += 1;
        if self.steps >= MOST_STEPS || self.list.len() >= self.full {
            return;
        }
        if pieces == 0 {
            if left == 0 {
                let used = self.current.iter().map(|c| u64::from(*c)).sum();
                let total = self.current.iter().zip(self.sizes).map(|(c, t)| c * t).sum();
                self.list.push(Stack {
                    counts: self.current.clone(),
                    cost: Cost { off: off(self.gap, total), pieces: used },
                });
            }
            return;
        }
        let (Some(&thickness), Some(&thinnest)) = (self.sizes.get(size), self.sizes.last()) else {
            return;
        };
        let wanted = u64::from(left);
        if wanted > pieces * u64::from(thickness) || wanted < pieces * u64::from(thinnest) {
            return;
        }
        let most = (left / thickness).min(self.counts[size]).min(u32::try_from(pieces).unwrap_or(u32::MAX));
        for n in (0..=most).rev() {
            self.current[size] = n;
            self.stacks_of(size + 1, left - n * thickness, pieces - u64::from(n));
        }
        self.current[size] = 0;
    }
}
