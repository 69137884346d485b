//! Bars that are all but full, piece by piece: the piece that has the fewest ways to fill its bar first, until none is left.

use std::collections::HashSet;
use std::hash::{DefaultHasher, Hash, Hasher};

use super::demand::Demand;
use super::first_fit::Cutting;
use crate::cutting::effort::Meter;
use crate::exact::int;

/// Most ways to fill one bar that are looked at.
const MOST_WAYS: usize = 1000;

/// A cutting at just this price from bars of one kind, if one is found.
pub(super) fn cut_full(demand: &Demand, price: i64, meter: &mut Meter) -> Option<Cutting> {
    let wanted: i64 = demand.items.iter().map(|item| item.weight * int(item.most)).sum();
    (0..demand.rooms.len()).find_map(|kind| {
        let bars = price.checked_div(demand.prices[kind])?;
        let over = bars * demand.rooms[kind] - wanted;
        if bars * demand.prices[kind] != price || bars > int(demand.most[kind]) || over < 0 {
            return None;
        }
        let left = demand.items.iter().map(|item| item.most).collect();
        let mut bars =
            Bars { demand, room: demand.rooms[kind], left, cut: vec![], failed: HashSet::new(), meter };
        bars.cut(over).then(|| {
            let pattern = |bar: &Vec<usize>| {
                let mut pattern = vec![0; demand.items.len()];
                for &item in bar {
                    pattern[item] += 1;
                }
                (kind, pattern)
            };
            bars.cut.iter().map(pattern).collect()
        })
    })
}

/// Bars under way.
struct Bars<'a> {
    demand: &'a Demand,
    room: i64,
    /// Pieces of each length still to be cut.
    left: Vec<usize>,
    /// The lengths cut from each bar.
    cut: Vec<Vec<usize>>,
    /// What was left where nothing came of it, as a number each.
    failed: HashSet<u64>,
    meter: &'a mut Meter,
}

impl Bars<'_> {
    /// Cuts what is left with at most so much over in all.
    fn cut(&mut self, over: i64) -> bool {
        let mut hasher = DefaultHasher::new();
        self.left.hash(&mut hasher);
        let known = hasher.finish();
        if self.meter.is_spent() || self.failed.contains(&known) {
            return false;
        }
        let Some(ways) = self.fewest_ways(over) else { return true };
        for bar in ways {
            let used = self.weight(&bar);
            for &item in &bar {
                self.left[item] -= 1;
            }
            self.cut.push(bar);
            if self.cut(over - (self.room - used)) {
                return true;
            }
            for item in self.cut.pop().into_iter().flatten() {
                self.left[item] += 1;
            }
        }
        self.failed.insert(known);
        false
    }

    /// What a bar's pieces take of it, a saw cut with each.
    fn weight(&self, bar: &[usize]) -> i64 {
        bar.iter().map(|&item| self.demand.items[item].weight).sum()
    }

    /// The ways to fill the bar of the piece that has the fewest, the fullest first; none where nothing is left to cut.
    fn fewest_ways(&mut self, over: i64) -> Option<Vec<Vec<usize>>> {
        let mut fewest: Option<Vec<Vec<usize>>> = None;
        for item in (0..self.left.len()).filter(|&item| self.left[item] > 0).collect::<Vec<_>>() {
            let most = fewest.as_ref().map_or(MOST_WAYS, Vec::len);
            if most <= 1 {
                break;
            }
            let mut ways = vec![];
            let room = self.room - self.demand.items[item].weight;
            self.left[item] -= 1;
            self.fill(0, (room, over), &mut vec![item], (&mut ways, most));
            self.left[item] += 1;
            if ways.len() < most || fewest.is_none() {
                fewest = Some(ways);
            }
        }
        if let Some(ways) = &mut fewest {
            ways.sort_by_key(|bar| -self.weight(bar));
        }
        fewest
    }

    /// Fills the room left in a bar, with pieces from this length down, in up to so many ways that leave no more than `over`.
    fn fill(
        &mut self,
        from: usize,
        (room, over): (i64, i64),
        bar: &mut Vec<usize>,
        (ways, most): (&mut Vec<Vec<usize>>, usize),
    ) {
        let shortest = self.left.iter().rposition(|&left| left > 0);
        let shortest = shortest.map_or(i64::MAX, |item| self.demand.items[item].weight);
        for item in from..self.left.len() {
            let rest = room - self.demand.items[item].weight;
            if self.left[item] == 0 || rest < 0 || (rest > over && rest < shortest) {
                continue;
            }
            if ways.len() == most || !self.meter.spend(1) {
                return;
            }
            self.left[item] -= 1;
            bar.push(item);
            self.fill(item, (rest, over), bar, (ways, most));
            bar.pop();
            self.left[item] += 1;
        }
        if room <= over && ways.len() < most {
            ways.push(bar.clone());
        }
    }
}
