//! What costs nothing still counts: the fewest and shortest bars from the van that a list can do with.

use super::layout::Taken;
use super::model::{Effort, Stock};
use crate::exact::Pence;

/// One part in so many of the work goes to each list with a bar less.
const PART: u64 = 20;

/// The work for one list with a bar less.
pub(super) fn part(whole: Effort) -> Effort {
    Effort { steps: whole.steps / PART, ..whole }
}

/// The list, made `again` with a free bar less for as long as that gives one with fewer free bars, or as many and shorter
/// ones. `again` gives none that is worse otherwise.
pub(super) fn spare<T>(
    stock: &[Stock],
    first: T,
    taken: impl Fn(&T) -> &[Taken],
    again: impl Fn(Vec<Stock>) -> Option<T>,
) -> T {
    let free = |list: &T| -> Vec<Taken> {
        taken(list).iter().filter(|line| line.counted && line.rate == Pence(0)).copied().collect()
    };
    let measure = |list: &T| {
        let free = free(list);
        let count: usize = free.iter().map(|line| line.count).sum();
        let length: i64 = free.iter().flat_map(|line| std::iter::repeat_n(line.length.0, line.count)).sum();
        (count, length)
    };
    let mut best = first;
    loop {
        let mut used = free(&best);
        used.sort_by_key(|line| -line.length.0);
        let before = measure(&best);
        let better = used.iter().find_map(|line| {
            let mut stock = stock.to_vec();
            stock[line.stock].count = Some(line.count - 1);
            again(stock).filter(|list| measure(list) < before)
        });
        match better {
            Some(list) => best = list,
            None => return best,
        }
    }
}
