//! Waste on what is bought by the length: spare lengths, on all of an item together.

use super::need::{Much, Need};
use super::prices::key;
use crate::exact::Percent;

/// A need's lengths: its place among the needs, and the length of each in tenths of a millimetre.
type Each = (usize, i128);

/// How many spare lengths each need gets for its waste: none but where it is of lengths.
///
/// The waste of all lengths of an item is added up. While it is more than the longest of them, the longest is spare; what is
/// left of it is the shortest that is as long.
pub(super) fn spares<'a>(needs: impl Iterator<Item = (&'a Need, Percent)>) -> Vec<u64> {
    let mut spare = vec![];
    // By item: its lengths and the waste of all, in ten-thousandths of a tenth of a millimetre.
    let mut items: Vec<(String, Vec<Each>, i128)> = vec![];
    for (place, (need, waste)) in needs.enumerate() {
        spare.push(0);
        let Much::Lengths { count, each } = need.much else { continue };
        let each = i128::from(each.0);
        let wasted = i128::from(count) * each * i128::from(waste.0);
        let item = key(&need.item);
        match items.iter_mut().find(|(other, ..)| *other == item) {
            Some((_, lengths, all)) => {
                lengths.push((place, each));
                *all += wasted;
            }
            None => items.push((item, vec![(place, each)], wasted)),
        }
    }
    for (_, lengths, wasted) in items {
        let Some((longest, each)) = lengths.iter().max_by_key(|(_, each)| *each) else { continue };
        if *each <= 0 {
            continue;
        }
        let mut add = |place: usize, more: i128| spare[place] += u64::try_from(more).unwrap_or(u64::MAX);
        let (whole, left) = (wasted / (each * 10_000), wasted % (each * 10_000));
        add(*longest, whole);
        let enough = lengths.iter().filter(|(_, each)| left > 0 && each * 10_000 >= left);
        if let Some((place, _)) = enough.min_by_key(|(_, each)| *each) {
            add(*place, 1);
        }
    }
    spare
}
