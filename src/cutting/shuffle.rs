//! Numbers without order from a fixed seed, so that the same list is always cut the same way (Marsaglia's xorshift, 2003).

/// The numbers still to come.
pub(super) struct Shuffle(u64);

impl Shuffle {
    pub(super) fn new() -> Self {
        Self(0x9E37_79B9_7F4A_7C15)
    }

    /// A number from 0 to 1.
    pub(super) fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}
