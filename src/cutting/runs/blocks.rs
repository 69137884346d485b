//! Which way to lay the runs: in one table, or block by block, then improved by laying a few groups anew together.
//!
//! The bound of the blocks is the one that needs no partition: so many pieces, so many kerfs, the cheapest bars for that.

use super::cover::Cover;
use super::instance::Instance;
use super::outcome::BarPlan;
use super::partition::table_steps;
use super::score::NEVER;
use super::search::{Found, Search};
use crate::cutting::effort::Meter;
use crate::cutting::model::MAX_BARS;
use crate::exact::int;

/// Most runs laid together in one block.
const BLOCK: usize = 9;
/// Steps for one block.
const BLOCK_STEPS: u64 = 1_000_000;
/// Most runs of a problem that goes into one table.
const MOST_RUNS: usize = 18;
/// Largest table: sets of runs in two parts times shares of the counted bars in two parts.
const MOST_WORK: usize = 200_000_000;
/// A table so small that nothing else need be done first.
const QUICK_WORK: usize = 10_000_000;
/// Steps for laying in blocks before a larger table.
const BLOCKS_STEPS: u64 = 1_000_000;
/// The same for a block, of which many are laid.
const BLOCK_WORK: usize = 2_000_000;
/// Most sets of runs times shares of the counted bars, each with a bound of its own.
const MOST_GROUPS: usize = 600_000;
/// Most shares of the counted bars in two parts: they are kept in a list.
const MOST_SHARES: usize = 4_000_000;

/// Lays the runs in one table if that is small enough, in blocks if not, and both ways between.
pub(super) fn run(instance: &Instance, meter: &mut Meter) -> Option<Found> {
    let work = work(instance);
    let whole = instance.spans.len() <= MOST_RUNS
        && work <= MOST_WORK
        && groups(instance) <= MOST_GROUPS
        && table_work(1, counts(instance)) <= MOST_SHARES
        && table_steps(work) <= meter.left();
    if !whole {
        return in_blocks(instance, meter);
    }
    if work <= QUICK_WORK {
        return Search::new(instance, meter).run(meter);
    }
    // The table may use up the steps before it has a good layout; the blocks soon have one.
    let mut own = meter.part(BLOCKS_STEPS);
    let blocks = in_blocks(instance, &mut own);
    meter.spend(own.taken());
    let table = Search::new(instance, meter).run(meter);
    let (Some(blocks), Some(table)) = (blocks.as_ref(), table.as_ref()) else {
        return table.or(blocks);
    };
    let value = |found: &Found| score(instance, &connected(found.bars.clone()));
    let best = if value(blocks) < value(table) { blocks } else { table };
    Some(Found { bars: best.bars.clone(), bound: table.bound.max(blocks.bound) })
}

/// Sets of runs times shares of the counted bars.
fn groups(instance: &Instance) -> usize {
    instance.kinds[instance.bought..].iter().fold(1_usize << instance.spans.len(), |groups, kind| {
        groups.saturating_mul(kind.count.unwrap_or(0) + 1)
    })
}

/// Steps of one pass over the table.
fn work(instance: &Instance) -> usize {
    table_work(instance.spans.len(), counts(instance))
}

/// How many there are of each counted bar.
fn counts(instance: &Instance) -> impl Iterator<Item = usize> {
    instance.kinds[instance.bought..].iter().map(|kind| kind.count.unwrap_or(0))
}

/// The same from the number of runs and the counts of the counted bars.
pub(in crate::cutting) fn table_work(runs: usize, counts: impl Iterator<Item = usize>) -> usize {
    let pairs = 3_usize.saturating_pow(u32::try_from(runs).unwrap_or(u32::MAX)) / 2;
    counts.fold(pairs.max(1), |work, count| {
        work.saturating_mul(count.saturating_add(1).saturating_mul(count.saturating_add(2)) / 2)
    })
}

/// Lays the runs block by block. `None` when some block could not be laid from what is left of the counted bars.
fn in_blocks(instance: &Instance, meter: &mut Meter) -> Option<Found> {
    let runs = instance.spans.len();
    let blocks = runs.div_ceil(BLOCK);
    let mut parts: Vec<Part> = Vec::new();
    for block in 0..blocks {
        let members: Vec<usize> = (block * runs / blocks..(block + 1) * runs / blocks).collect();
        parts.extend(lay(instance, &members, &parts, meter)?);
    }
    let bars = parts.into_iter().flat_map(|part| part.bars).collect();
    Some(Found { bars: improved(instance, bars, meter), bound: bound(instance) })
}

/// These bars, with parts of them laid anew together for as long as that gains something.
pub(super) fn improved(instance: &Instance, bars: Vec<BarPlan>, meter: &mut Meter) -> Vec<BarPlan> {
    let mut parts = connected(bars);
    improve(instance, &mut parts, meter);
    parts.into_iter().flat_map(|part| part.bars).collect()
}

/// A connected part of the layout.
#[derive(Debug, Clone)]
struct Part {
    runs: Vec<usize>,
    bars: Vec<BarPlan>,
}

/// Lays these runs from bought bars and from the counted bars that the other parts leave.
fn lay(instance: &Instance, members: &[usize], others: &[Part], meter: &mut Meter) -> Option<Vec<Part>> {
    let mut kinds = instance.kinds.clone();
    for plan in others.iter().flat_map(|part| &part.bars) {
        let kind = &mut kinds[plan.kind];
        kind.count = kind.count.map(|count| count.saturating_sub(1));
    }
    let mut block = Instance {
        spans: members.iter().map(|&run| instance.spans[run].clone()).collect(),
        kinds,
        ..instance.clone()
    };
    // Fewer counted bars than there are, until the table is small enough.
    while work(&block) > BLOCK_WORK || groups(&block) > MOST_GROUPS / 25 {
        let most = block.kinds.iter_mut().skip(block.bought).max_by_key(|kind| kind.count)?;
        most.count = most.count.map(|count| count.saturating_sub(1));
    }
    let mut own = meter.part(BLOCK_STEPS);
    let found = Search::new(&block, &mut own).run(&mut own);
    meter.spend(own.taken());
    let bars = found?.bars.into_iter().map(|mut plan| {
        for piece in &mut plan.pieces {
            piece.run = members[piece.run];
        }
        plan
    });
    Some(connected(bars.collect()))
}

/// The bars by connected parts.
fn connected(bars: Vec<BarPlan>) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    for bar in bars {
        let mut joined = Part { runs: bar.pieces.iter().map(|piece| piece.run).collect(), bars: vec![bar] };
        let (with, without) =
            parts.into_iter().partition(|part: &Part| part.runs.iter().any(|run| joined.runs.contains(run)));
        parts = without;
        for part in with {
            joined.runs.extend(part.runs);
            joined.bars.extend(part.bars);
        }
        joined.runs.sort_unstable();
        joined.runs.dedup();
        parts.push(joined);
    }
    parts
}

fn score(instance: &Instance, parts: &[Part]) -> i64 {
    parts
        .iter()
        .map(|part| {
            let price: i64 = part.bars.iter().map(|plan| instance.kinds[plan.kind].price).sum();
            let pieces: usize = part.bars.iter().map(|plan| plan.pieces.len()).sum();
            price * instance.weights.penny + int(pieces - part.runs.len()) * instance.weights.splice
        })
        .sum()
}

/// Takes the parts from each starting point round the ring, as many as make a block, and lays them anew together;
/// stops after a round without gain.
fn improve(instance: &Instance, parts: &mut Vec<Part>, meter: &mut Meter) {
    let mut without_gain = 0;
    let mut stride = 1;
    while without_gain < 3 * parts.len() && !meter.is_spent() {
        let mut members = Vec::new();
        let mut chosen = Vec::new();
        let mut at = 0;
        for _ in 0..parts.len() {
            if members.len() + parts[at].runs.len() <= BLOCK && !chosen.contains(&at) {
                members.extend_from_slice(&parts[at].runs);
                chosen.push(at);
            }
            at = (at + stride) % parts.len();
        }
        let pick = |keep: bool| -> Vec<Part> {
            let parts = parts.iter().enumerate();
            parts.filter(|(place, _)| chosen.contains(place) == keep).map(|(_, part)| part.clone()).collect()
        };
        let (old, others) = (pick(true), pick(false));
        members.sort_unstable();
        let gain = match lay(instance, &members, &others, meter) {
            Some(new) if score(instance, &new) < score(instance, &old) => {
                *parts = [others, new].concat();
                true
            }
            // The same parts at the back, so that others come together next time.
            _ => {
                *parts = [others, old].concat();
                false
            }
        };
        without_gain = if gain { 0 } else { without_gain + 1 };
        stride = 1 + without_gain % 3;
    }
}

/// With n runs, s splices and B bars there are n + s − B kerfs at least, however the runs are grouped. All counted
/// bars are given away for nothing.
fn bound(instance: &Instance) -> i64 {
    let runs = instance.spans.len();
    let length: i64 = instance.spans.iter().map(|span| span.length).sum();
    let fewest: usize = instance.spans.iter().map(|span| span.least_splices).sum();
    let (van_bars, van_length) = instance.kinds[instance.bought..]
        .iter()
        .map(|kind| (kind.count.unwrap_or(0), kind.length))
        .fold((0, 0), |(bars, total), (count, length)| (bars + count, total + int(count) * length));
    if instance.bought == 0 {
        return int(fewest) * instance.weights.splice;
    }
    let most = instance.need(length, runs, 0, fewest + MAX_BARS);
    let cover = Cover::new(instance, most, MAX_BARS);
    let mut best = NEVER;
    for splices in fewest..=fewest + MAX_BARS {
        // Every bar holds a piece, and there are runs + splices of them.
        for bars in 0..=(runs + splices).min(MAX_BARS) {
            let need = instance.need(length, runs, bars + van_bars, splices) - van_length;
            let price = cover.price(0, bars, need);
            if price < NEVER {
                best = best.min(price * instance.weights.penny + int(splices) * instance.weights.splice);
            }
        }
        // More splices only add, but for more bars that they allow.
        if best < NEVER && runs + splices >= MAX_BARS {
            break;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutting::{Effort, Favour, Problem, Rules, Run, Stock, plan_runs};
    use crate::exact::{Pence, Tenths};

    /// On problems that one table solves, proven, the blocks are never better and their bound never above.
    #[test]
    fn blocks_and_their_bound_enclose_the_proven_best() {
        let mut compared = 0;
        for seed in 1..13_i64 {
            for favour in [Favour::Splices, Favour::Cost] {
                let problem = Problem {
                    runs: (1..11)
                        .map(|place| Run {
                            name: place.to_string(),
                            length: Tenths(900 + (seed * place * 7919) % 5003),
                            splices: None,
                        })
                        .collect(),
                    stock: [(3000, 31), (4200, 45), (6000, 70)]
                        .map(|(length, price)| Stock {
                            length: Tenths(length),
                            price: Pence(price + seed % 3),
                            count: (length == 3000 && seed % 4 == 0).then_some(2),
                        })
                        .to_vec(),
                    rules: Rules { kerf: Tenths(3), least_piece: Tenths(600), ..Rules::default() },
                    favour,
                    effort: Effort { steps: 500_000, ..Effort::default() },
                };
                let Ok(instance) = Instance::new(&problem) else {
                    continue;
                };
                let Ok(layout) = plan_runs(&problem) else { continue };
                let weights = instance.weights;
                let best = layout.cost.0 * weights.penny + int(layout.splices) * weights.splice;
                let mut meter = Meter::new(problem.effort);
                let parts =
                    in_blocks(&instance, &mut meter).map(|found| (connected(found.bars), found.bound));
                if !layout.proven {
                    continue;
                }
                compared += 1;
                assert!(
                    parts.is_some_and(|(parts, bound)| { bound <= best && score(&instance, &parts) >= best })
                );
            }
        }
        assert!(compared >= 12, "{compared} compared");
    }
}
