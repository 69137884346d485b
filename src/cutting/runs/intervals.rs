//! Exact sets of whole-number positions, kept as sorted closed intervals.

/// A set of positions along a run, tenths of a millimetre: sorted, disjoint, not touching, both ends included.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Intervals(Vec<(i64, i64)>);

impl Intervals {
    /// The union of the given closed intervals; one that ends before it starts is empty.
    pub(super) fn new(mut parts: Vec<(i64, i64)>) -> Self {
        parts.retain(|&(from, to)| from <= to);
        parts.sort_unstable();
        Self(merged(parts))
    }

    pub(super) fn single(at: i64) -> Self {
        Self(vec![(at, at)])
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn parts(&self) -> &[(i64, i64)] {
        &self.0
    }

    pub(super) fn last(&self) -> Option<i64> {
        self.0.last().map(|&(_, to)| to)
    }

    /// The part within `from..=to`.
    pub(super) fn clipped(&self, from: i64, to: i64) -> Self {
        Self(self.0.iter().map(|&(a, b)| (a.max(from), b.min(to))).filter(|(a, b)| a <= b).collect())
    }

    /// Every position that is `least..=most` further on than one of these.
    pub(super) fn ahead(&self, least: i64, most: i64) -> Self {
        if least > most {
            return Self::default();
        }
        Self(merged(self.0.iter().map(|&(a, b)| (a + least, b + most)).collect()))
    }

    pub(super) fn intersection(&self, other: &Self) -> Self {
        let (mut i, mut j) = (0, 0);
        let mut parts = Vec::new();
        while let (Some(&(a, b)), Some(&(c, d))) = (self.0.get(i), other.0.get(j)) {
            if a.max(c) <= b.min(d) {
                parts.push((a.max(c), b.min(d)));
            }
            if b < d {
                i += 1;
            } else {
                j += 1;
            }
        }
        Self(parts)
    }

    pub(super) fn union(&self, other: &Self) -> Self {
        let mut parts = [self.0.as_slice(), other.0.as_slice()].concat();
        parts.sort_unstable();
        Self(merged(parts))
    }

    pub(super) fn covers(&self, other: &Self) -> bool {
        let mut i = 0;
        other.0.iter().all(|&(c, d)| {
            while self.0.get(i).is_some_and(|&(_, b)| b < c) {
                i += 1;
            }
            self.0.get(i).is_some_and(|&(a, b)| a <= c && d <= b)
        })
    }

    /// The same positions measured from the other end of a run of this length.
    pub(super) fn mirrored(&self, length: i64) -> Self {
        Self(self.0.iter().rev().map(|&(a, b)| (length - b, length - a)).collect())
    }

    /// The largest position that is at most `at`.
    pub(super) fn last_up_to(&self, at: i64) -> Option<i64> {
        self.0.iter().rev().find(|&&(a, _)| a <= at).map(|&(_, b)| b.min(at))
    }
}

/// Joins sorted intervals that overlap or touch.
fn merged(parts: Vec<(i64, i64)>) -> Vec<(i64, i64)> {
    let mut joined: Vec<(i64, i64)> = Vec::with_capacity(parts.len());
    for (a, b) in parts {
        match joined.last_mut() {
            Some(last) if a <= last.1 + 1 => last.1 = last.1.max(b),
            _ => joined.push((a, b)),
        }
    }
    joined
}

#[cfg(test)]
mod tests {
    use super::Intervals;

    #[test]
    fn set_operations_agree_with_listing_every_position() {
        let list = |set: &Intervals| -> Vec<i64> { set.parts().iter().flat_map(|&(a, b)| a..=b).collect() };
        let first = Intervals::new(vec![(7, 9), (0, 2), (3, 4), (12, 11), (20, 20)]);
        let second = Intervals::new(vec![(2, 7), (19, 25)]);
        assert_eq!(list(&first), [0, 1, 2, 3, 4, 7, 8, 9, 20]);
        assert_eq!(list(&first.intersection(&second)), [2, 3, 4, 7, 20]);
        let union: Vec<i64> =
            (0..30).filter(|x| list(&first).contains(x) || list(&second).contains(x)).collect();
        assert_eq!(list(&first.union(&second)), union);
        let ahead: Vec<i64> =
            (0..60).filter(|y| list(&first).iter().any(|x| (3..=5).contains(&(y - x)))).collect();
        assert_eq!(list(&first.ahead(3, 5)), ahead);
        assert_eq!(list(&first.mirrored(20)), [0, 11, 12, 13, 16, 17, 18, 19, 20]);
        assert_eq!(list(&first.clipped(2, 8)), [2, 3, 4, 7, 8]);
        assert_eq!(first.last_up_to(6), Some(4));
        assert_eq!(first.last_up_to(-1), None);
        assert!(first.covers(&Intervals::new(vec![(1, 3), (20, 20)])));
        assert!(!first.covers(&Intervals::new(vec![(4, 7)])));
    }
}
