//! The best that packers which don't run out make of a gap, or of what other packers leave of one.
//!
//! Whole grains (tenths of a millimetre, or sixteenths of an inch) throughout, so every sum is exact. The fewest pieces
//! for every total come from the usual recursion: fewest(s) = 1 + the least fewest(s − t) over the thicknesses t.

/// What a stack, or all of them, comes to; of two costs the less is the better: places not made up, then grains off
/// the gap, then grains over it, then pieces.
pub(super) type Cost = [i64; 4];

/// One cost and another.
pub(super) fn plus(a: Cost, b: Cost) -> Cost {
    std::array::from_fn(|i| a[i] + b[i])
}

/// The stacks of fewest pieces for every total from 0 to some largest one, in grains.
pub(super) struct Plenty {
    /// Thicknesses, thickest first.
    sizes: Vec<u32>,
    /// How far off its gap a stack may be and the place still be made up, grains.
    within: u32,
    /// Fewest pieces for each total; `None` where none makes it.
    pieces: Vec<Option<u32>>,
    /// The total nearest to each gap.
    nearest: Vec<u32>,
}

impl Plenty {
    /// Works out every gap up to `deepest`. `sizes` are in grains, thickest first, none of them 0.
    pub(super) fn new(sizes: &[u32], within: u32, deepest: u32) -> Self {
        let mut pieces = vec![None; 2 * deepest as usize + 1];
        pieces[0] = Some(0);
        for total in 1..pieces.len() {
            let before = sizes.iter().filter_map(|t| pieces[total.checked_sub(*t as usize)?]);
            pieces[total] = before.min().map(|fewest: u32| fewest + 1);
        }
        let mut plenty = Self { sizes: sizes.to_vec(), within, pieces, nearest: Vec::new() };
        let (mut below, mut above) = (0, 0);
        for gap in 0..=deepest {
            if plenty.pieces(gap).is_some() {
                below = gap;
            }
            above = above.max(gap);
            while above < 2 * gap && plenty.pieces(above).is_none() {
                above += 1;
            }
            // Over the gap only if that is strictly nearer: it lifts the plate.
            plenty.nearest.push(if above - gap < gap - below { above } else { below });
        }
        plenty
    }

    fn pieces(&self, total: u32) -> Option<u32> {
        self.pieces.get(total as usize).copied().flatten()
    }

    /// What a stack of `pieces` comes to that leaves `rest` of its gap, negative if it stands over it.
    pub(super) fn cost(&self, rest: i64, pieces: i64) -> Cost {
        let off = rest.abs();
        [i64::from(off > i64::from(self.within)), off, (-rest).max(0), pieces]
    }

    /// What `rest` of a gap comes to once it is made up as well as can be.
    pub(super) fn best(&self, rest: i64) -> Cost {
        let Some(total) = usize::try_from(rest).ok().and_then(|rest| self.nearest.get(rest)) else {
            return self.cost(rest, 0);
        };
        self.cost(rest - i64::from(*total), self.pieces(*total).map_or(0, i64::from))
    }

    /// The packers that make `rest` up as well as can be, thickest first; of equal stacks, the one with the thickest.
    pub(super) fn stack(&self, rest: i64) -> Vec<u32> {
        let mut stack = Vec::new();
        let nearest = usize::try_from(rest).ok().and_then(|rest| self.nearest.get(rest));
        let mut left = nearest.copied().unwrap_or(0);
        while let Some(pieces) = self.pieces(left).filter(|p| *p > 0) {
            let one_less = |t: &u32| left.checked_sub(*t).is_some_and(|r| self.pieces(r) == Some(pieces - 1));
            let Some(thickest) = self.sizes.iter().copied().find(one_less) else { break };
            stack.push(thickest);
            left -= thickest;
        }
        stack
    }
}
