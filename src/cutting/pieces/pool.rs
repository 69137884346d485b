//! Patterns kept from one programme to the next.

use super::demand::{Demand, tolerance};

/// Patterns met so far, by kind, as (item, count): pricing these first saves most of the knapsacks.
#[derive(Debug, Clone, Default)]
pub(super) struct Pool(Vec<(usize, Vec<(usize, usize)>)>);

impl Pool {
    /// Keeps a pattern.
    pub(super) fn add(&mut self, kind: usize, pattern: &[usize]) {
        let sparse = pattern.iter().copied().enumerate().filter(|&(_, count)| count > 0).collect();
        self.0.push((kind, sparse));
    }

    pub(super) fn len(&self) -> usize {
        self.0.len()
    }

    /// The known pattern, within what is still wanted, that lowers the cost most.
    pub(super) fn best(
        &self,
        demand: &Demand,
        prices: &[f64],
        limits: &[f64],
    ) -> Option<(usize, Vec<usize>)> {
        self.0
            .iter()
            .filter(|(kind, pattern)| {
                demand.most[*kind] > 0
                    && pattern.iter().all(|&(item, count)| count <= demand.items[item].most)
            })
            .map(|entry| {
                let worth: f64 = entry.1.iter().map(|&(item, count)| prices[item] * count as f64).sum();
                (demand.prices[entry.0] as f64 - worth - limits[entry.0], entry)
            })
            .filter(|&(reduced, (kind, _))| reduced < -tolerance(demand, *kind))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, (kind, sparse))| {
                let mut pattern = vec![0; demand.items.len()];
                for &(item, count) in sparse {
                    pattern[item] = count;
                }
                (*kind, pattern)
            })
    }
}
