//! The numbers that sheets are drawn from: the same on every machine and in every release.

/// `SplitMix64`: a counter stepped by the golden ratio and mixed.
///
/// Source: G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, with the
/// mixing constants that the Java library's `SplittableRandom` uses. Integers only, so nothing in it depends on the
/// machine.
#[derive(Debug, Clone)]
pub struct Random(u64);

impl Random {
    /// The stream that starts from `seed`.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub const fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number from 0 up to but not including `end`, each as likely as the others; 0 if `end` is 0.
    pub fn below(&mut self, end: usize) -> usize {
        let end = (end as u64).max(1);
        // Bits past the last whole multiple of `end` would favour the small numbers: drawn again.
        let whole = u64::MAX - u64::MAX % end;
        loop {
            let bits = self.bits();
            if bits < whole {
                return usize::try_from(bits % end).unwrap_or(0);
            }
        }
    }

    /// A number from `low` to `high`, both taken, in steps of `every` from `low`.
    pub(super) fn within(&mut self, low: i64, high: i64, every: i64) -> i64 {
        let steps = usize::try_from((high - low) / every.max(1)).unwrap_or(0);
        low + every * i64::try_from(self.below(steps + 1)).unwrap_or(0)
    }

    /// One of `choices`, of which there is at least one.
    pub(super) fn one_of<T: Copy>(&mut self, choices: &[T]) -> Option<T> {
        choices.get(self.below(choices.len())).copied()
    }

    /// Heads or tails.
    pub(super) fn coin(&mut self) -> bool {
        self.below(2) == 0
    }
}
