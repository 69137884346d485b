//! What lists can cost: sums of bars that give enough timber.

use crate::cutting::kinds::Kind;
use crate::exact::{gcd, int};

/// Largest table.
const MOST_CELLS: i64 = 2_000_000;

/// For each cost the most timber that bars for it give, a kerf with each bar.
#[derive(Debug, Clone)]
pub(super) struct Attainable {
    step: i64,
    most: Vec<i64>,
}

impl Attainable {
    /// Up to a cost of `highest`.
    pub(super) fn new(kinds: &[Kind], kerf: i64, highest: i64) -> Self {
        let step = kinds.iter().fold(0, |step, kind| gcd(step, kind.price)).max(1);
        let cells = highest / step + 1;
        if cells > MOST_CELLS {
            return Self { step, most: vec![] };
        }
        let mut most = vec![i64::MIN; usize::try_from(cells).unwrap_or(0)];
        most[0] = 0;
        for kind in kinds {
            let price = usize::try_from(kind.price / step).unwrap_or(0);
            let gives = kind.length + kerf;
            match kind.count {
                // What costs nothing is had with every cost.
                Some(count) if price == 0 => {
                    for amount in &mut most {
                        *amount = amount.saturating_add(int(count) * gives);
                    }
                }
                None if price == 0 => most.fill(i64::MAX),
                _ => {
                    let times = kind.count.unwrap_or(usize::MAX);
                    add(&mut most, price, gives, times);
                }
            }
        }
        Self { step, most }
    }

    /// The least cost of `bound` or more that gives so much timber; `bound` itself where the table is too large to say.
    pub(super) fn from(&self, bound: i64, timber: i64) -> i64 {
        let from = (bound.max(0) + self.step - 1) / self.step;
        let at = usize::try_from(from).unwrap_or(usize::MAX);
        (at..self.most.len())
            .find(|&at| self.most[at] >= timber)
            .map_or(from * self.step, |at| int(at) * self.step)
    }
}

/// Up to so many bars of this price more.
fn add(most: &mut [i64], price: usize, gives: i64, times: usize) {
    if times == usize::MAX {
        for at in price..most.len() {
            most[at] = most[at].max(most[at - price].saturating_add(gives));
        }
        return;
    }
    for _ in 0..times {
        for at in (price..most.len()).rev() {
            most[at] = most[at].max(most[at - price].saturating_add(gives));
        }
    }
}
