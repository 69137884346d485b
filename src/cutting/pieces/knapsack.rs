//! The most valuable pattern that fits each bar, exact, in whole numbers.

use crate::cutting::effort::Meter;
use crate::exact::gcd;

/// A length to cut, the kerf after it included, and how many are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::cutting) struct Item {
    pub(in crate::cutting) weight: i64,
    pub(in crate::cutting) most: usize,
}

/// Largest table, in cells.
const MOST_CELLS: usize = 20_000_000;

/// For each room the most valuable pattern and its value; `None` if the table would be too large or the meter ran
/// out. A room is a bar with one kerf added, since the last piece needs no cut.
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
    if width.saturating_mul(useful.len()) > MOST_CELLS {
        return None;
    }
    let mut value = vec![0_i64; width];
    let mut counts: Vec<Vec<u16>> = Vec::with_capacity(useful.len());
    for &item in &useful {
        let weight = usize::try_from(items[item].weight / unit).ok()?;
        let most = items[item].most.min((width - 1) / weight).min(usize::from(u16::MAX));
        if !meter.spend((width * most) as u64 / 64 + 1) {
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
