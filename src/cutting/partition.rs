//! The best way to part the runs into groups, each with its share of the counted bars.

use super::effort::Meter;
use super::score::NEVER;
use super::van::Van;

/// Least total score of every set of runs over all its partitions into groups, kept up to date while the scores
/// of single groups rise.
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
        let mut partition = Self {
            runs,
            takes,
            total: vec![NEVER; group.len()],
            group,
        };
        partition.total[0] = 0;
        partition.refresh(van, 0, meter);
        partition
    }

    /// Sets one group's score and brings every set that holds the group up to date.
    pub(super) fn set(&mut self, van: &Van, mask: usize, take: usize, score: i64, meter: &mut Meter) {
        let place = mask * self.takes + take;
        if self.group[place] != score {
            self.group[place] = score;
            self.refresh(van, mask, meter);
        }
    }

    /// Works out every set that holds `within`, smaller masks first.
    fn refresh(&mut self, van: &Van, within: usize, meter: &mut Meter) {
        let free = self.full() & !within;
        let shares: u64 = (0..self.takes).map(|take| van.splits(take).len() as u64).sum();
        let mut extra = 0_usize;
        loop {
            let mask = within | extra;
            if mask != 0 {
                self.work_out(van, mask);
                meter.spend((shares << mask.count_ones()) / 64 + 1);
            }
            if extra == free {
                break;
            }
            extra = extra.wrapping_sub(free) & free;
        }
    }

    fn work_out(&mut self, van: &Van, mask: usize) {
        let lowest = mask & mask.wrapping_neg();
        let rest = mask & !lowest;
        if self.takes == 1 {
            let mut best = NEVER;
            let mut others = rest;
            loop {
                best = best.min(self.group[others | lowest] + self.total[rest & !others]);
                if others == 0 {
                    break;
                }
                others = (others - 1) & rest;
            }
            self.total[mask] = best;
            return;
        }
        for take in 0..self.takes {
            let mut best = NEVER;
            let mut others = rest;
            loop {
                for &(part, left) in van.splits(take) {
                    let group = self.group[(others | lowest) * self.takes + part];
                    best = best.min(group + self.total[(rest & !others) * self.takes + left]);
                }
                if others == 0 {
                    break;
                }
                others = (others - 1) & rest;
            }
            self.total[mask * self.takes + take] = best;
        }
    }

    fn full(&self) -> usize {
        (1 << self.runs) - 1
    }

    /// The least total for all runs.
    pub(super) fn best(&self) -> i64 {
        let full = self.full();
        (0..self.takes)
            .map(|take| self.total[full * self.takes + take])
            .min()
            .unwrap_or(NEVER)
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
