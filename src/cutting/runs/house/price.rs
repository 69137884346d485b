//! Which group of runs is worth most for the bars it takes: every sum of shapes that no other undercuts, exact.

use super::column::{Choice, Column, Limits, Tariff, UNUSED};
use super::cover::Cover;
use super::ruled::RuledOut;
use super::site::Site;
use crate::cutting::effort::Meter;
use crate::exact::int;

/// So many of the best sums for each length are kept where some groups are known to be impossible; up to so many, where all of
/// them are.
const KEPT: usize = 4;
const MOST_KEPT: usize = 64;

/// Most columns handed over at once, and most of one number of bars and splices.
const MOST_COLUMNS: usize = 16;
const MOST_ALIKE: usize = 4;

/// A sum of shapes: length with a kerf each, worth, and how it came about.
#[derive(Debug, Clone, Copy)]
struct Sum {
    length: i64,
    worth: i64,
    node: usize,
}

/// The least that any group costs over what its runs are worth, and the groups below nothing, the lowest first. `None` when
/// the meter ran out.
pub(super) fn cheapest_groups(
    site: &Site,
    classes: &[Vec<Choice>],
    tariff: &Tariff,
    (limits, ruled_out): (Limits, &RuledOut),
    meter: &mut Meter,
) -> Option<(i64, Vec<Column>)> {
    let cover = Cover::new(&site.instance.kinds, &tariff.bars, limits.splices + 1);
    if !meter.spend((cover.cells() * site.instance.kinds.len() / 32) as u64) {
        return None;
    }
    let (told, others) = ruled_out.columns(site, tariff, limits, |shapes| are_choices(classes, shapes));
    let mut keep = if ruled_out.is_empty() { 1 } else { KEPT };
    loop {
        let sums = Sums::new(site, classes, tariff, (limits, keep), meter)?;
        let found = sums.groups(site, classes, tariff, &cover, (limits, ruled_out));
        let least = found.least.min(told);
        if found.unknown < least && keep < MOST_KEPT {
            keep *= KEPT;
            continue;
        }
        return Some((least.min(found.unknown), found.columns.into_iter().chain(others).collect()));
    }
}

/// The groups that sums make.
struct Found {
    /// The least that one costs over its worth, and the least that one could of which it isn't known whether it is possible.
    least: i64,
    unknown: i64,
    columns: Vec<Column>,
}

/// Whether the shapes are made up of one choice at most of each class.
fn are_choices(classes: &[Vec<Choice>], shapes: &[usize]) -> bool {
    let mut met = 0;
    for choices in classes {
        let here = shapes.iter().filter(|shape| choices.iter().any(|choice| choice.shapes.contains(shape)));
        let here: Vec<usize> = here.copied().collect();
        let whole = |choice: &Choice| {
            choice.shapes.len() == here.len() && here.iter().all(|shape| choice.shapes.contains(shape))
        };
        if !here.is_empty() && !choices.iter().any(whole) {
            return false;
        }
        met += here.len();
    }
    met == shapes.len()
}

/// For each sum the place of the one up to it that is worth most.
fn worth_most(sums: &[Sum]) -> Vec<usize> {
    let mut best = 0;
    let places = sums.iter().enumerate();
    places
        .map(|(place, sum)| {
            best = if sum.worth > sums[best].worth { place } else { best };
            best
        })
        .collect()
}

/// The sums of shapes of which none is as short as another and worth as much, by the splices that their runs need.
struct Sums {
    layers: Vec<Vec<Sum>>,
    /// So many of the best are kept for each length.
    kept: usize,
    /// The last choice of each sum, by class and place, and the sum before it; the first is the empty sum.
    nodes: Vec<((usize, usize), usize)>,
}

impl Sums {
    fn new(
        site: &Site,
        classes: &[Vec<Choice>],
        tariff: &Tariff,
        (limits, kept): (Limits, usize),
        meter: &mut Meter,
    ) -> Option<Self> {
        let longest = site.instance.longest() + site.instance.kerf;
        let most = |splices: usize| int(if limits.own { splices } else { limits.splices } + 1) * longest;
        let layers = vec![vec![]; limits.splices + 1];
        let mut sums = Self { layers, kept, nodes: vec![((0, 0), 0)] };
        sums.layers[0].push(Sum { length: 0, worth: 0, node: 0 });
        for (class, choices) in classes.iter().enumerate() {
            let useful: Vec<(usize, &Choice, i64)> = choices
                .iter()
                .enumerate()
                .map(|(place, choice)| (place, choice, choice.worth(tariff)))
                // Where a group may have only the splices that its runs need, a run that needs some lets in another bar.
                .filter(|(_, choice, worth)| {
                    *worth > 0 || (limits.own && choice.splices > 0 && *worth > UNUSED)
                })
                .collect();
            // From the most splices down, so that the sums without this class are still there to build on.
            for splices in (0..=limits.splices).rev() {
                let before = std::mem::take(&mut sums.layers[splices]);
                let mut merged = before.clone();
                for &(place, choice, worth) in &useful {
                    let Some(fewer) = splices.checked_sub(choice.splices) else { continue };
                    let from = if choice.splices == 0 { &before } else { &sums.layers[fewer] };
                    let longer: Vec<Sum> = from
                        .iter()
                        .map(|sum| Sum {
                            length: sum.length + choice.length,
                            worth: sum.worth + worth,
                            node: sum.node,
                        })
                        .take_while(|sum| sum.length <= most(splices))
                        .collect();
                    merged = sums.merge(&merged, longer, (class, place));
                    if !meter.spend(merged.len() as u64 / 16 + 1) {
                        return None;
                    }
                }
                sums.layers[splices] = merged;
            }
        }
        Some(sums)
    }

    /// The groups below nothing, the lowest first.
    fn groups(
        &self,
        site: &Site,
        classes: &[Vec<Choice>],
        tariff: &Tariff,
        cover: &Cover,
        (limits, ruled_out): (Limits, &RuledOut),
    ) -> Found {
        let (mut least, mut unknown) = (0, 0);
        let mut found: Vec<(i64, usize, usize, usize, Sum)> = vec![];
        for (splices, layer) in self.layers.iter().enumerate() {
            let best = worth_most(layer);
            let most_bars = if limits.own { splices + 1 } else { limits.splices + 1 };
            for bars in 1..=most_bars {
                let here = found.len();
                let takes = splices.max(bars - 1);
                // What is cut: a piece each and one more a splice, from so many bars.
                let lost = (int(takes) - int(bars)) * site.instance.kerf + int(takes) * site.instance.overlap;
                for (at, price) in cover.offers(bars) {
                    let room = int(at) * cover.grid - lost;
                    let fit = &layer[..layer.partition_point(|sum| sum.length <= room)];
                    let Some(&best) = fit.len().checked_sub(1).map(|last| &best[last]) else { continue };
                    let told = |sum: Sum| ruled_out.has(bars, || self.shapes(classes, sum));
                    let over = |sum: Sum| price + tariff.splice * int(takes) - sum.worth;
                    let sum = match self.possible(fit, layer[best], told) {
                        Ok(sum) => sum,
                        Err(sum) => {
                            unknown = unknown.min(over(sum));
                            continue;
                        }
                    };
                    if sum.node > 0 && over(sum) < 0 {
                        least = least.min(over(sum));
                        found.push((over(sum), bars, takes, at, sum));
                    }
                }
                found[here..].sort_unstable_by_key(|group| group.0);
                found.truncate(here + MOST_ALIKE);
            }
        }
        found.sort_by_key(|group| group.0);
        let column = |(_, bars, splices, at, sum): (i64, usize, usize, usize, Sum)| {
            let counts = cover.bars(bars, at);
            let kinds = counts.iter().zip(&site.instance.kinds);
            let price = kinds.map(|(&count, kind)| int(count) * kind.price).sum();
            Column { shapes: self.shapes(classes, sum), counts, bars, splices, price }
        };
        Found { least, unknown, columns: found.into_iter().take(MOST_COLUMNS).map(column).collect() }
    }

    /// The sum of these that is worth most and is not told of; where as many are as are kept, the last of them, which is worth
    /// as much as any that was not kept.
    fn possible(&self, sums: &[Sum], best: Sum, told: impl Fn(Sum) -> bool) -> Result<Sum, Sum> {
        if best.node == 0 || !told(best) {
            return Ok(best);
        }
        let mut order = sums.to_vec();
        order.sort_by_key(|sum| -sum.worth);
        order.truncate(self.kept);
        match order.iter().find(|sum| sum.node == 0 || !told(**sum)) {
            Some(sum) => Ok(*sum),
            None => Err(order.pop().unwrap_or(best)),
        }
    }

    /// Both lists in one; a sum goes where as many as are kept are no longer and worth as much.
    fn merge(&mut self, old: &[Sum], longer: Vec<Sum>, choice: (usize, usize)) -> Vec<Sum> {
        let mut merged: Vec<Sum> = Vec::with_capacity(old.len() * 2);
        let mut old = old.iter().copied().peekable();
        let mut longer = longer.into_iter().peekable();
        let mut best = [i64::MIN; MOST_KEPT];
        let keep = self.kept;
        loop {
            let new = match (old.peek(), longer.peek()) {
                (None, None) => return merged,
                (Some(a), Some(b)) => (b.length, -b.worth) < (a.length, -a.worth),
                (a, _) => a.is_none(),
            };
            let Some(mut sum) = (if new { longer.next() } else { old.next() }) else {
                return merged;
            };
            if let Some(place) = best[..keep].iter().position(|&best| sum.worth > best) {
                best[place..keep].rotate_right(1);
                best[place] = sum.worth;
                if new {
                    self.nodes.push((choice, sum.node));
                    sum.node = self.nodes.len() - 1;
                }
                merged.push(sum);
            }
        }
    }

    fn shapes(&self, classes: &[Vec<Choice>], sum: Sum) -> Vec<usize> {
        let mut shapes = vec![];
        let mut node = sum.node;
        while node > 0 {
            let ((class, place), before) = self.nodes[node];
            shapes.extend_from_slice(&classes[class][place].shapes);
            node = before;
        }
        shapes.sort_unstable();
        shapes
    }
}
