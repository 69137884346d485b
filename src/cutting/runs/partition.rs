//! The best way to part the runs into groups, each with its share of the counted bars.

use super::score::NEVER;
use super::van::Van;
use crate::cutting::effort::Meter;

/// So many pairs of a group and the rest are looked at for one step.
const PAIRS_A_STEP: u64 = 64;

/// The steps that a table of so many pairs takes.
pub(super) fn table_steps(pairs: usize) -> u64 {
    pairs as u64 / PAIRS_A_STEP
}

/// Least total score of every set of runs over all its partitions into groups, kept up to date while the scores
/// of single groups change.
#[derive(Debug, Clone)]
pub(super) struct Partition {
    runs: usize,
    takes: usize,
    /// Score of each set of runs as one group, by take: `[mask × takes + take]`.
    group: Vec<i64>,
    /// The same for the best partition of the set.
    total: Vec<i64>,
}

impl Partition {
    /// From the score of every group; `group[mask × takes + take]`.
    pub(super) fn new(runs: usize, van: &Van, group: Vec<i64>, meter: &mut Meter) -> Self {
        let takes = van.len();
        let mut partition = Self { runs, takes, total: vec![NEVER; group.len()], group };
        partition.total[0] = 0;
        for mask in 1..=partition.full() {
            for take in 0..takes {
                partition.work_out(van, mask, take, meter);
            }
        }
        partition
    }

    /// Sets one group's score and brings every set that holds the group up to date.
    ///
    /// A partition holds the group at most once, and the best one that does is the group and the best of the rest, which the
    /// score does not touch. So a score that falls is one comparison a set; one that rises matters only to the sets whose
    /// best may have held the group.
    pub(super) fn set(&mut self, van: &Van, group: usize, part: usize, score: i64, meter: &mut Meter) {
        let place = group * self.takes + part;
        let before = std::mem::replace(&mut self.group[place], score);
        if before == score {
            return;
        }
        // What is left of each take for the rest of a set.
        let lefts: Vec<(usize, usize)> = (0..self.takes)
            .filter_map(|take| {
                let split = van.splits(take).iter().find(|split| split.0 == part);
                split.map(|split| (take, split.1))
            })
            .collect();
        let free = self.full() & !group;
        meter.spend(((lefts.len() as u64) << free.count_ones()) / PAIRS_A_STEP + 1);
        let mut rest = 0_usize;
        loop {
            let mask = group | rest;
            for &(take, left) in &lefts {
                let total = self.total[mask * self.takes + take];
                let others = self.total[rest * self.takes + left];
                if score < before {
                    self.total[mask * self.takes + take] = total.min(score + others);
                } else if total < NEVER && total == before + others {
                    self.work_out(van, mask, take, meter);
                }
            }
            if rest == free {
                break;
            }
            rest = rest.wrapping_sub(free) & free;
        }
    }

    /// The best partition of a set with a take, from those of smaller sets.
    fn work_out(&mut self, van: &Van, mask: usize, take: usize, meter: &mut Meter) {
        let lowest = mask & mask.wrapping_neg();
        let rest = mask & !lowest;
        let splits = van.splits(take);
        meter.spend(((splits.len() as u64) << mask.count_ones()) / PAIRS_A_STEP + 1);
        let mut best = NEVER;
        let mut others = rest;
        loop {
            // Without counted bars there is one split, and the whole takes a quarter less time for not looping over it.
            if self.takes == 1 {
                best = best.min(self.group[others | lowest] + self.total[rest & !others]);
            } else {
                for &(part, left) in splits {
                    let group = self.group[(others | lowest) * self.takes + part];
                    best = best.min(group + self.total[(rest & !others) * self.takes + left]);
                }
            }
            if others == 0 {
                break;
            }
            others = (others - 1) & rest;
        }
        self.total[mask * self.takes + take] = best;
    }

    fn full(&self) -> usize {
        (1 << self.runs) - 1
    }

    /// The least total for all runs.
    pub(super) fn best(&self) -> i64 {
        let full = self.full();
        (0..self.takes).map(|take| self.total[full * self.takes + take]).min().unwrap_or(NEVER)
    }

    /// The groups of a best partition, each with its take; empty when there is none.
    pub(super) fn groups(&self, van: &Van) -> Vec<(usize, usize)> {
        let mut groups = Vec::new();
        let mut mask = self.full();
        let Some(mut take) = (0..self.takes).min_by_key(|&take| self.total[mask * self.takes + take]) else {
            return groups;
        };
        if self.total[mask * self.takes + take] >= NEVER {
            return groups;
        }
        while mask != 0 {
            let lowest = mask & mask.wrapping_neg();
            let rest = mask & !lowest;
            let wanted = self.total[mask * self.takes + take];
            let mut found = None;
            let mut others = rest;
            // The largest group first, so that ties fall the same way every time.
            'search: loop {
                for &(part, left) in van.splits(take) {
                    let group = self.group[(others | lowest) * self.takes + part];
                    if group + self.total[(rest & !others) * self.takes + left] == wanted {
                        found = Some((others | lowest, part, left));
                        break 'search;
                    }
                }
                if others == 0 {
                    break;
                }
                others = (others - 1) & rest;
            }
            let Some((group, part, left)) = found else {
                return Vec::new();
            };
            groups.push((group, part));
            mask &= !group;
            take = left;
        }
        groups
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::cutting::Effort;
    use crate::cutting::kinds::Kind;

    const RUNS: usize = 4;

    proptest! {
        /// One score changed after another leaves what is worked out from all of them anew.
        #[test]
        fn changed_scores_are_followed_up(
            counts in prop::collection::vec(0_usize..3, 0..3),
            scores in prop::collection::vec(prop_oneof![3 => 0_i64..20, 1 => Just(NEVER)], (1 << RUNS) * 9),
            changes in prop::collection::vec((1_usize..1 << RUNS, 0_usize..9, prop_oneof![3 => 0_i64..20, 1 => Just(NEVER)]), 0..20),
        ) {
            let kinds: Vec<Kind> = counts
                .iter()
                .map(|count| Kind { length: 1, price: 0, count: Some(*count), stock: 0 })
                .collect();
            let van = Van::new(&kinds);
            let mut meter = Meter::new(Effort::default());
            let mut group = scores[..(1 << RUNS) * van.len()].to_vec();
            let mut followed = Partition::new(RUNS, &van, group.clone(), &mut meter);
            for (mask, part, score) in changes {
                let part = part % van.len();
                group[mask * van.len() + part] = score;
                followed.set(&van, mask, part, score, &mut meter);
                let anew = Partition::new(RUNS, &van, group.clone(), &mut meter);
                prop_assert_eq!(&followed.total, &anew.total);
                prop_assert_eq!(followed.groups(&van), anew.groups(&van));
            }
        }
    }
}
