//! The fewest packers that make up a gap, from sizes that don't run out.
//!
//! Whole grains (tenths of a millimetre, or sixteenths of an inch) throughout, so every sum is exact. The fewest pieces for every total up to the gap
//! come from the usual recursion: fewest(s) = 1 + the least fewest(s − t) over the thicknesses t.

/// The fewest pieces for every total from 0 to some largest one, in grains.
pub(super) struct Fewest {
    /// Thicknesses, thickest first.
    sizes: Vec<u32>,
    /// Fewest pieces for each total; `None` where none makes it.
    pieces: Vec<Option<u32>>,
}

/// How far a stack is from the gap it is to fill, in half grains: an over-thick stack counts as half a grain
/// farther, because it would lift the plate off the datum. So the nearest stack is unique but for its make-up.
pub(super) fn off(gap: u32, sum: u32) -> u64 {
    let distance = 2 * u64::from(gap.abs_diff(sum));
    if sum > gap { distance + 1 } else { distance }
}

impl Fewest {
    /// Works out every total up to `most`. `sizes` are in grains, thickest first, none of them 0.
    pub(super) fn new(sizes: &[u32], most: u32) -> Self {
        let mut pieces = vec![None; most as usize + 1];
        pieces[0] = Some(0);
        for total in 1..=most {
            pieces[total as usize] = sizes
                .iter()
                .filter_map(|t| pieces[total.checked_sub(*t)? as usize])
                .min()
                .map(|fewest: u32| fewest + 1);
        }
        Self { sizes: sizes.to_vec(), pieces }
    }

    /// Fewest pieces that make exactly `total`; `None` where nothing does, or it was not worked out.
    pub(super) fn pieces(&self, total: u32) -> Option<u32> {
        self.pieces.get(total as usize).copied().flatten()
    }

    /// The total nearest to `gap` that can be made. A total over the gap is taken only if it is strictly nearer.
    pub(super) fn nearest(&self, gap: u32) -> u32 {
        let below = (0..=gap).rev().find(|s| self.pieces(*s).is_some()).unwrap_or(0);
        let reach = gap.saturating_add(gap - below);
        let above = (gap..reach).find(|s| self.pieces(*s).is_some());
        above.unwrap_or(below)
    }

    /// The stack of fewest pieces for `total`, thickest first; of equal ones, the one with the thickest packers.
    ///
    /// Empty if the total can't be made.
    pub(super) fn stack(&self, total: u32) -> Vec<u32> {
        let mut stack = Vec::new();
        let mut left = total;
        while let Some(pieces) = self.pieces(left).filter(|p| *p > 0) {
            let thickest = self
                .sizes
                .iter()
                .copied()
                .find(|t| left.checked_sub(*t).is_some_and(|rest| self.pieces(rest) == Some(pieces - 1)));
            let Some(t) = thickest else { break };
            stack.push(t);
            left -= t;
        }
        stack
    }
}
