//! Quick cuttings: longest piece first, into the first bar with room.

use super::demand::Demand;
use crate::exact::int;

/// Bars cut from the demand: kind and pattern of each.
pub(in crate::cutting) type Cutting = Vec<(usize, Vec<usize>)>;

/// Price of a cutting.
pub(super) fn price(demand: &Demand, cutting: &[(usize, Vec<usize>)]) -> i64 {
    cutting.iter().map(|(kind, _)| demand.prices[*kind]).sum()
}

/// The cheapest of the cuttings that open one kind of bar by preference; `None` if the counted bars run out.
pub(super) fn first_fit(demand: &Demand) -> Option<Cutting> {
    (0..demand.rooms.len())
        .filter(|&kind| demand.most[kind] > 0)
        .filter_map(|kind| fill(demand, kind))
        .min_by_key(|cutting| price(demand, cutting))
}

fn fill(demand: &Demand, preferred: usize) -> Option<Cutting> {
    let mut order: Vec<usize> = (0..demand.items.len()).collect();
    order.sort_by_key(|&item| -demand.items[item].weight);
    let mut bars: Cutting = Vec::new();
    let mut left: Vec<i64> = Vec::new();
    let mut stock = demand.most.clone();
    for item in order {
        let weight = demand.items[item].weight;
        // No bar before this one has room for this length any more.
        let mut first = 0;
        for _ in 0..demand.items[item].most {
            first += left[first..].iter().take_while(|&&room| room < weight).count();
            if first < left.len() {
                left[first] -= weight;
                bars[first].1[item] += 1;
                continue;
            }
            let kind = open(demand, &stock, preferred, weight)?;
            stock[kind] -= 1;
            let mut pattern = vec![0; demand.items.len()];
            pattern[item] = 1;
            bars.push((kind, pattern));
            left.push(demand.rooms[kind] - weight);
        }
    }
    exchange(demand, &mut bars);
    Some(bars)
}

/// A bar for the piece: a cheaper one that is counted before the preferred one before any.
fn open(demand: &Demand, stock: &[usize], preferred: usize, weight: i64) -> Option<usize> {
    let fits = |kind: usize| stock[kind] > 0 && demand.rooms[kind] >= weight;
    let cheapest = (0..stock.len()).filter(|&kind| fits(kind)).min_by_key(|&kind| {
        let counted = demand.most[kind] < demand.pieces();
        (demand.prices[kind], counted, demand.rooms[kind])
    })?;
    let cheap = demand.most[cheapest] < demand.pieces() && demand.prices[cheapest] < demand.prices[preferred];
    Some(if cheap || !fits(preferred) { cheapest } else { preferred })
}

/// Changes each bar for the cheapest that still holds what is cut from it; an empty one goes.
pub(super) fn exchange(demand: &Demand, bars: &mut Cutting) {
    bars.retain(|(_, pattern)| pattern.iter().any(|&count| count > 0));
    let mut stock = demand.most.clone();
    for (kind, _) in bars.iter() {
        stock[*kind] = stock[*kind].saturating_sub(1);
    }
    for (kind, pattern) in bars.iter_mut() {
        let weight: i64 =
            pattern.iter().zip(&demand.items).map(|(&count, item)| int(count) * item.weight).sum();
        let better = (0..demand.rooms.len())
            .filter(|&other| demand.rooms[other] >= weight && (stock[other] > 0 || other == *kind))
            .min_by_key(|&other| (demand.prices[other], demand.rooms[other], other));
        if let Some(better) = better {
            stock[*kind] += 1;
            stock[better] -= 1;
            *kind = better;
        }
    }
}
