//! Packers in whole steps of the tape: the fewest that make a pack just so.

/// The fewest of `sizes` (steps, any number of each) that add up to `pack`, thickest first; nothing if none do.
pub(super) fn fewest(pack: i64, sizes: &[i64]) -> Option<Vec<i64>> {
    let pack = usize::try_from(pack).ok()?;
    // best[t]: how many make t, and the last one laid on.
    let mut best: Vec<Option<(usize, i64)>> = vec![None; pack + 1];
    best[0] = Some((0, 0));
    for total in 1..=pack {
        best[total] = sizes
            .iter()
            .filter_map(|size| {
                let under = total.checked_sub(usize::try_from(*size).ok()?)?;
                best[under].map(|(count, _)| (count + 1, *size))
            })
            .min_by_key(|(count, size)| (*count, -size));
    }
    let mut left = pack;
    let mut stack = vec![];
    while left > 0 {
        let (_, size) = best[left]?;
        stack.push(size);
        left -= usize::try_from(size).ok()?;
    }
    stack.sort_by_key(|size| -size);
    Some(stack)
}

/// How many it takes with the thickest first each time; nothing if that way doesn't come out.
pub(super) fn thickest_first(pack: i64, sizes: &[i64]) -> Option<i64> {
    let mut sorted = sizes.to_vec();
    sorted.sort_by_key(|size| -size);
    let (left, count) =
        sorted.iter().fold((pack, 0), |(left, count), size| (left % size, count + left / size));
    (left == 0).then_some(count)
}
