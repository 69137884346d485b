//! What is known about every group so far: its candidates in order, and how each one stands.

use std::collections::BTreeMap;

use super::candidates::{Candidate, Candidates, Source};
use super::cover::Cover;
use super::groups::{self, Groups};
use super::instance::Instance;
use super::outcome::BarPlan;
use super::score::NEVER;
use super::van::Van;
use crate::cutting::effort::Meter;
use crate::cutting::model::MAX_BARS;
use crate::exact::int;

/// What is known about one candidate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Standing {
    Untried,
    Laid(Vec<BarPlan>),
    Impossible,
    /// Not laid by the quick way.
    Open,
    /// Not laid and not ruled out by any way.
    Stuck,
}

/// One group with one take of counted bars: its candidates so far.
#[derive(Debug, Clone)]
pub(super) struct Shelf {
    source: Candidates,
    pub(super) list: Vec<(Candidate, Standing)>,
    exhausted: bool,
    /// First candidate that may still be tried or is laid.
    pub(super) hopeful: usize,
    /// First candidate that is neither ruled out nor stuck.
    pub(super) untested: usize,
    /// Score of the first candidate that is stuck: the group's bound cannot pass it.
    pub(super) stuck: Option<i64>,
}

/// All groups that were looked at, by runs and take.
pub(super) struct Shelves<'a> {
    instance: &'a Instance,
    groups: Groups,
    cover: Cover,
    pub(super) van: Van,
    by_group: BTreeMap<(usize, usize), Shelf>,
}

impl<'a> Shelves<'a> {
    pub(super) fn new(instance: &'a Instance) -> Self {
        let groups = Groups::new(instance);
        let full = groups.length.len() - 1;
        let runs = instance.spans.len();
        let shortest = instance.kinds[..instance.bought].last().map_or(1, |kind| kind.length);
        let need = instance.need(groups.length[full], runs, 1, groups.splices(full, 1));
        let bars = usize::try_from(need / shortest).unwrap_or(0) + runs + 2;
        let bars = bars.min(groups.most_pieces[full]).min(MAX_BARS);
        let slack = int(bars + 4) * (instance.kerf + instance.overlap);
        let cover = Cover::new(instance, need + slack, if instance.bought == 0 { 0 } else { bars });
        Self {
            instance,
            groups,
            cover,
            van: Van::new(&instance.kinds[instance.bought..]),
            by_group: BTreeMap::new(),
        }
    }

    /// The least score of every group with every take.
    pub(super) fn bounds(&self, meter: &mut Meter) -> Vec<i64> {
        let tables = self.cover.cells() / 32 + self.groups.length.len() * self.van.len() / 4;
        meter.spend((tables + self.van.shares() / 16) as u64);
        let takes = self.van.len();
        let mut bounds = vec![NEVER; self.groups.length.len() * takes];
        for mask in 1..self.groups.length.len() {
            for take in 0..takes {
                bounds[mask * takes + take] =
                    groups::bound(self.instance, &self.groups, &self.cover, &self.van, mask, take);
            }
        }
        bounds
    }

    /// The groups looked at so far.
    pub(super) fn seen(&self) -> Vec<(usize, usize)> {
        self.by_group.keys().copied().collect()
    }

    pub(super) fn shelf(&mut self, mask: usize, take: usize) -> &mut Shelf {
        let source =
            Source { instance: self.instance, groups: &self.groups, cover: &self.cover, van: &self.van };
        self.by_group.entry((mask, take)).or_insert_with(|| Shelf {
            source: Candidates::new(source, mask, take),
            list: Vec::new(),
            exhausted: false,
            hopeful: 0,
            untested: 0,
            stuck: None,
        })
    }

    /// Score of a group's best candidate that is laid or may still be; `NEVER` when there is none.
    pub(super) fn hopeful(&mut self, mask: usize, take: usize, meter: &mut Meter) -> i64 {
        let place = self.shelf(mask, take).hopeful;
        self.score(mask, take, place, meter).unwrap_or(NEVER)
    }

    /// Score of a group's best candidate that is neither ruled out nor stuck; past the last one, the least that is
    /// left.
    pub(super) fn untested(&mut self, mask: usize, take: usize, meter: &mut Meter) -> i64 {
        let shelf = self.shelf(mask, take);
        shelf.untested += shelf.list[shelf.untested..]
            .iter()
            .take_while(|(_, standing)| matches!(standing, Standing::Impossible | Standing::Stuck))
            .count();
        let place = shelf.untested;
        let beyond = shelf.source.beyond();
        self.score(mask, take, place, meter).unwrap_or(NEVER).min(beyond)
    }

    /// What no layout of a group can beat.
    pub(super) fn bound(&mut self, mask: usize, take: usize, meter: &mut Meter) -> i64 {
        let stuck = self.shelf(mask, take).stuck.unwrap_or(NEVER);
        self.untested(mask, take, meter).min(stuck)
    }

    /// Score of the candidate at `place`, fetching candidates up to there.
    fn score(&mut self, mask: usize, take: usize, place: usize, meter: &mut Meter) -> Option<i64> {
        self.shelf(mask, take);
        let source =
            Source { instance: self.instance, groups: &self.groups, cover: &self.cover, van: &self.van };
        let shelf = self.by_group.get_mut(&(mask, take))?;
        let made = shelf.source.made();
        while !shelf.exhausted && shelf.list.len() <= place {
            match shelf.source.next(source) {
                Some(candidate) => shelf.list.push((candidate, Standing::Untried)),
                None => shelf.exhausted = true,
            }
        }
        meter.spend((shelf.source.made() - made) as u64);
        shelf.list.get(place).map(|(candidate, _)| candidate.score)
    }

    /// The best layout of each group that has one.
    pub(super) fn laid(&self) -> BTreeMap<(usize, usize), (i64, Vec<BarPlan>)> {
        self.by_group
            .iter()
            .filter_map(|(&part, shelf)| {
                shelf.list.iter().find_map(|(candidate, standing)| match standing {
                    Standing::Laid(plan) => Some((part, (candidate.score, plan.clone()))),
                    _ => None,
                })
            })
            .collect()
    }
}
