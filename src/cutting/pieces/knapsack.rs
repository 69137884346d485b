//! The most valuable pattern that fits each bar, exact, in whole numbers.

use crate::cutting::effort::Meter;
use crate::exact::{gcd, int};

/// A length to cut, the kerf after it included, and how many are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::cutting) struct Item {
    pub(in crate::cutting) weight: i64,
    pub(in crate::cutting) most: usize,
}

/// A table at most so wide is gone through place by place; in a wider one few places are ever worth stopping at.
const NARROW: usize = 1500;

/// For each room the most valuable pattern and its value; `None` if the meter ran out. A room is a bar with one kerf added, since the last piece needs no cut.
pub(super) fn best_patterns(
    values: &[i64],
    items: &[Item],
    rooms: &[i64],
    meter: &mut Meter,
) -> Option<Vec<(i64, Vec<usize>)>> {
    let largest = rooms.iter().copied().max()?;
    let useful: Vec<usize> =
        (0..items.len()).filter(|&item| values[item] > 0 && items[item].most > 0).collect();
    let unit = useful.iter().fold(0, |unit, &item| gcd(unit, items[item].weight)).max(1);
    let width = usize::try_from(largest / unit).ok()? + 1;
    if width > NARROW {
        return by_sums(values, items, &useful, rooms, meter);
    }
    by_table(values, items, &useful, (unit, width), rooms, meter)
}

/// Place by place: the most valuable pattern of each length.
fn by_table(
    values: &[i64],
    items: &[Item],
    useful: &[usize],
    (unit, width): (i64, usize),
    rooms: &[i64],
    meter: &mut Meter,
) -> Option<Vec<(i64, Vec<usize>)>> {
    let mut value = vec![0_i64; width];
    let mut counts: Vec<Vec<u16>> = Vec::with_capacity(useful.len());
    for &item in useful {
        let weight = usize::try_from(items[item].weight / unit).ok()?;
        let most = items[item].most.min((width - 1) / weight).min(usize::from(u16::MAX));
        if !meter.spend((width * most) as u64 / 160 + 1) {
            return None;
        }
        let most = u16::try_from(most).unwrap_or(u16::MAX);
        let mut count = vec![0_u16; width];
        // From the far end, so that the table before this item is still there to build on.
        for at in (weight..width).rev() {
            let (mut best, mut best_count) = (value[at], 0);
            let (mut rest, mut worth) = (at, 0);
            for copies in 1..=most {
                let Some(shorter) = rest.checked_sub(weight) else {
                    break;
                };
                rest = shorter;
                worth += values[item];
                let with = value[rest] + worth;
                if with > best {
                    (best, best_count) = (with, copies);
                }
            }
            value[at] = best;
            count[at] = best_count;
        }
        counts.push(count);
    }
    let pattern = |room: i64| {
        let mut at = usize::try_from(room / unit).unwrap_or(0);
        let best = value[at];
        let mut pattern = vec![0; items.len()];
        for (&item, count) in useful.iter().zip(&counts).rev() {
            let copies = usize::from(count[at]);
            pattern[item] = copies;
            at -= copies * usize::try_from(items[item].weight / unit).unwrap_or(0);
        }
        (best, pattern)
    };
    Some(rooms.iter().map(|&room| pattern(room)).collect())
}

/// A sum of pieces: what they take, what they are worth, and how it came about.
#[derive(Debug, Clone, Copy)]
struct Sum {
    weight: i64,
    value: i64,
    /// Its last copies and the sum before them, among the nodes; 0 for the empty sum.
    node: usize,
}

/// Sum by sum: those that no other sum undercuts, item by item and copy by copy.
fn by_sums(
    values: &[i64],
    items: &[Item],
    useful: &[usize],
    rooms: &[i64],
    meter: &mut Meter,
) -> Option<Vec<(i64, Vec<usize>)>> {
    let largest = rooms.iter().copied().max()?;
    // (item, copies, node before).
    let mut nodes: Vec<(usize, usize, usize)> = vec![(0, 0, 0)];
    let mut sums = vec![Sum { weight: 0, value: 0, node: 0 }];
    for &item in useful {
        let before = sums.clone();
        for copies in 1..=items[item].most {
            let (weight, value) = (items[item].weight * int(copies), values[item] * int(copies));
            let fit = before.partition_point(|sum| sum.weight + weight <= largest);
            if fit == 0 {
                break;
            }
            let more = before[..fit].iter().map(|sum| Sum {
                weight: sum.weight + weight,
                value: sum.value + value,
                node: sum.node,
            });
            sums = merge(&sums, more, (item, copies), &mut nodes);
            if !meter.spend(sums.len() as u64 / 80 + 1) {
                return None;
            }
        }
    }
    let pattern = |room: i64| {
        let best = sums[sums.partition_point(|sum| sum.weight <= room).saturating_sub(1)];
        let mut pattern = vec![0; items.len()];
        let mut node = best.node;
        while node > 0 {
            let (item, copies, before) = nodes[node];
            pattern[item] = copies;
            node = before;
        }
        (best.value, pattern)
    };
    Some(rooms.iter().map(|&room| pattern(room)).collect())
}

/// Both lists in one, without the sums that a lighter one is worth as much as.
fn merge(
    old: &[Sum],
    more: impl Iterator<Item = Sum>,
    (item, copies): (usize, usize),
    nodes: &mut Vec<(usize, usize, usize)>,
) -> Vec<Sum> {
    let mut merged: Vec<Sum> = Vec::with_capacity(old.len() * 2);
    let mut old = old.iter().copied().peekable();
    let mut more = more.peekable();
    let mut best = -1;
    loop {
        let new = match (old.peek(), more.peek()) {
            (None, None) => return merged,
            (Some(a), Some(b)) => (b.weight, -b.value) < (a.weight, -a.value),
            (a, _) => a.is_none(),
        };
        let Some(mut sum) = (if new { more.next() } else { old.next() }) else { return merged };
        if sum.value > best {
            best = sum.value;
            if new {
                nodes.push((item, copies, sum.node));
                sum.node = nodes.len() - 1;
            }
            merged.push(sum);
        }
    }
}
