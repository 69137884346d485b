//! Two measures, one after the other, in one number.

use crate::cutting::model::Favour;
use crate::exact::Pence;

/// Above any score; half the range, so that two of them add without overflow.
pub(super) const NEVER: i64 = i64::MAX / 4;

const COST_BITS: u32 = 40;
const SPLICE_BITS: u32 = 12;

/// What a penny and a splice count in a score. The limits on prices (2^27), bars (200) and splices keep every
/// total far inside its field, so comparing scores compares the first measure, then the second.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Weights {
    pub(super) penny: i64,
    pub(super) splice: i64,
}

impl Weights {
    pub(super) fn new(favour: Favour) -> Self {
        match favour {
            Favour::Splices => Self { penny: 1, splice: 1 << COST_BITS },
            Favour::Cost => Self { penny: 1 << SPLICE_BITS, splice: 1 },
            Favour::ASplice(Pence(worth)) => {
                Self { penny: 1 << SPLICE_BITS, splice: (worth << SPLICE_BITS) + 1 }
            }
        }
    }
}

/// The first and the second measure of a score.
pub(super) fn measures(favour: Favour, score: i64) -> (i64, i64) {
    let bits = match favour {
        Favour::Splices => COST_BITS,
        Favour::Cost | Favour::ASplice(_) => SPLICE_BITS,
    };
    (score >> bits, score & ((1 << bits) - 1))
}
