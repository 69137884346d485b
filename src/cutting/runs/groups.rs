//! Sets of runs laid from one connected set of bars, and the least that such a group can score.

use super::cover::Cover;
use super::instance::Instance;
use super::score::NEVER;
use super::van::Van;
use crate::exact::int;

/// Totals of every set of runs, indexed by bit mask.
#[derive(Debug, Clone)]
pub(super) struct Groups {
    pub(super) length: Vec<i64>,
    pub(super) least_splices: Vec<usize>,
    pub(super) most_pieces: Vec<usize>,
}

impl Groups {
    pub(super) fn new(instance: &Instance) -> Self {
        let size = 1 << instance.spans.len();
        let mut groups =
            Self { length: vec![0; size], least_splices: vec![0; size], most_pieces: vec![0; size] };
        for mask in 1..size {
            let (first, rest) = (mask.trailing_zeros(), mask & (mask - 1));
            let span = &instance.spans[first as usize];
            groups.length[mask] = groups.length[rest] + span.length;
            groups.least_splices[mask] = groups.least_splices[rest] + span.least_splices;
            groups.most_pieces[mask] = groups.most_pieces[rest].saturating_add(span.most_pieces);
        }
        groups
    }

    /// Fewest splices of a connected layout of this group on so many bars: runs and bars are joined by pieces,
    /// so there are at least runs + bars − 1 pieces.
    pub(super) fn splices(&self, mask: usize, bars: usize) -> usize {
        self.least_splices[mask].max(bars.saturating_sub(1))
    }
}

/// The least score of any connected layout of `mask` that takes exactly these counted bars.
pub(super) fn bound(
    instance: &Instance,
    groups: &Groups,
    cover: &Cover,
    van: &Van,
    mask: usize,
    take: usize,
) -> i64 {
    let (taken, length, price) = taken(instance, van, take);
    let runs = mask.count_ones() as usize;
    let most = groups.most_pieces[mask].min(taken + cover.most_bars());
    let mut best = NEVER;
    let mut trivial = false;
    for bars in taken.max(1)..=most {
        let splices = groups.splices(mask, bars);
        if splices + runs > groups.most_pieces[mask] {
            break;
        }
        let need = instance.need(groups.length[mask], runs, bars, splices) - length;
        let pence = cover.price(0, bars - taken, need);
        if pence < NEVER {
            let score = (pence + price) * instance.weights.penny + int(splices) * instance.weights.splice;
            best = best.min(score);
            // With even the shortest bars covering it, one more only adds.
            if trivial {
                break;
            }
            let shortest = instance.kinds[..instance.bought].last().map_or(0, |kind| kind.length);
            trivial = int(bars - taken) * shortest >= need;
        }
    }
    best
}

/// How many counted bars a take has, their length and their price.
pub(super) fn taken(instance: &Instance, van: &Van, take: usize) -> (usize, i64, i64) {
    van.take(take).iter().zip(&instance.kinds[instance.bought..]).fold(
        (0, 0, 0),
        |(bars, length, price), (&count, kind)| {
            (bars + count, length + int(count) * kind.length, price + int(count) * kind.price)
        },
    )
}
