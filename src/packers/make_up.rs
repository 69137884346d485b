//! Making up gaps from the packers in the van.

use schemars::JsonSchema;
use serde::Serialize;

use super::columns::{Aim, Heap};
use super::error::PackersError;
use super::grain::Grain;
use super::plenty::Plenty;
use super::share::share;
use crate::geometry::Mm;
use crate::length::{AmountError, Units, at_most, not_negative, usable};

/// How near to its gap a stack has to come unless the user says otherwise, mm (ours, no source).
pub const CLOSE_ENOUGH: f64 = 1.0;

/// The largest gap that is packing and not a mistake, mm.
pub const MOST_GAP: f64 = 1000.0;

/// The most thicknesses of packer, and the most places to pack.
const MOST_THICKNESSES: usize = 32;
const MOST_PLACES: usize = 2_000;

/// One thickness of packer in the van.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Packer {
    /// Thickness, mm: whole tenths of a mm from 0.1 to 100, or whole sixteenths of an inch up to 4 in.
    pub thickness: f64,
    /// How many there are; `None` for plenty.
    pub count: Option<u32>,
}

/// How many packers of one thickness.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Total {
    /// Thickness, mm.
    pub thickness: Mm,
    /// Number of packers.
    pub count: u64,
}

/// The stack under one gap.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize, Default)]
pub struct Stacked {
    /// Thicknesses, mm, thickest first.
    pub packers: Vec<Mm>,
    /// What is left of the gap (to a tenth of a mm or a sixteenth of an inch) above the stack, mm; negative if the stack is over-thick.
    pub remainder: Mm,
}

/// Every gap made up.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct MakeUp {
    /// One stack a gap, in the order of the gaps.
    pub stacks: Vec<Stacked>,
    /// What to take from the van, thickest first; thicknesses that are not used are left out.
    pub totals: Vec<Total>,
    /// Number of packers in all.
    pub pieces: u64,
    /// Whether nothing better exists. Always so when no count is given.
    pub proven: bool,
    /// What to fetch so that every place can be made up, if one size alone can do it.
    pub fetch: Option<Fetch>,
}

/// Packers that would make up every place.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct Fetch {
    /// Their thickness, mm.
    pub thickness: Mm,
    /// How many more of them than there are.
    pub more: u64,
    /// How many places are then made up: all that have a gap.
    pub places: usize,
}

/// Makes up `gaps` (mm, none negative) from `packers`.
///
/// First as many places as can be come within `within` mm of their gap; then the sum of what all are off is made least;
/// then what stands over the gaps; then the number of pieces; of equal stacks from sizes that don't run out the one
/// with the thickest packers is taken. Gaps are taken to the nearest tenth of a millimetre (sixteenth of an inch in a
/// job in feet and inches), and everything from there on is whole tenths or sixteenths: exact where it is
/// [proven](MakeUp::proven).
pub fn make_up(gaps: &[f64], packers: &[Packer], within: f64, units: Units) -> Result<MakeUp, PackersError> {
    let grain = Grain::of(units);
    at_most("packer thicknesses", packers.len(), MOST_THICKNESSES)?;
    at_most("places to pack", gaps.len(), MOST_PLACES)?;
    let within = grain.whole_in(not_negative("how near a stack has to come", within)?);
    let van = sorted(packers, grain)?;
    let gaps = gaps.iter().map(|gap| whole(*gap, grain)).collect::<Result<Vec<_>, _>>()?;
    let sizes: Vec<u32> = van.iter().map(|(t, _)| *t).collect();
    let deepest = gaps.iter().copied().max().unwrap_or(0);
    let every = Plenty::new(&sizes, within, deepest);
    let stacks: Vec<Vec<u32>> =
        gaps.iter().map(|gap| counts(&sizes, &every.stack(i64::from(*gap)))).collect();
    if enough(&van, &stacks) {
        return Ok(answer(&gaps, &sizes, &stacks, (true, None), grain));
    }
    let of_plenty: Vec<u32> = van.iter().filter(|(_, count)| count.is_none()).map(|(t, _)| *t).collect();
    let (scarce, there): (Vec<u32>, Vec<u32>) =
        van.iter().filter_map(|(t, count)| Some((*t, (*count)?))).unzip();
    // More of a size than every gap could use is the same as plenty, and keeps the ways to share them few.
    let useful = |t: u32| gaps.iter().fold(0_u32, |sum, gap| sum.saturating_add(2 * gap / t + 1));
    let there: Vec<u32> = scarce.iter().zip(there).map(|(t, n)| n.min(useful(*t))).collect();
    let plenty = Plenty::new(&of_plenty, within, deepest);
    let heap = Heap { sizes: &scarce, counts: &there, plenty: &plenty, aim: Aim::Pack };
    let shared = share(&gaps, &heap, &|gap| every.best(i64::from(gap)));
    let stacks: Vec<Vec<u32>> = gaps
        .iter()
        .zip(&shared.stacks)
        .map(|(gap, taken)| {
            let mut stack: Vec<u32> =
                scarce.iter().zip(taken).flat_map(|(t, n)| vec![*t; *n as usize]).collect();
            let filled: i64 = stack.iter().map(|t| i64::from(*t)).sum();
            stack.extend(plenty.stack(i64::from(*gap) - filled));
            counts(&sizes, &stack)
        })
        .collect();
    let fetch = if shared.cost[0] > 0 { fetch(&gaps, &heap, &every, useful) } else { None };
    let fetch = fetch.map(|(thickness, more)| Fetch {
        thickness: Mm(grain.mm(thickness)),
        more,
        places: gaps.iter().filter(|gap| **gap > 0).count(),
    });
    Ok(answer(&gaps, &sizes, &stacks, (shared.proven, fetch), grain))
}

/// The size of which the fewest more would make up every place, and how many more.
fn fetch(gaps: &[u32], heap: &Heap<'_>, every: &Plenty, useful: impl Fn(u32) -> u32) -> Option<(u32, u64)> {
    let wanted = heap.sizes.iter().enumerate().filter_map(|(size, thickness)| {
        let mut counts = heap.counts.to_vec();
        counts[size] = useful(*thickness);
        let enough = Heap { counts: &counts, aim: Aim::Spare(size), ..*heap };
        let shared = share(gaps, &enough, &|gap| [every.best(i64::from(gap))[0], 0, 0, 0]);
        let more = u64::try_from(shared.cost[1] - i64::from(heap.counts[size])).ok()?;
        (shared.cost[0] == 0 && more > 0).then_some((*thickness, more))
    });
    wanted.min_by_key(|(_, more)| *more)
}

/// The van's packers in grains, thickest first.
fn sorted(packers: &[Packer], grain: Grain) -> Result<Vec<(u32, Option<u32>)>, PackersError> {
    let mut van = Vec::with_capacity(packers.len());
    for packer in packers {
        let thickness = grain
            .exact(packer.thickness)
            .ok_or(PackersError::Thickness { thickness: packer.thickness, grain: grain.words })?;
        if van.iter().any(|(t, _)| *t == thickness) {
            return Err(PackersError::Twice(packer.thickness));
        }
        van.push((thickness, packer.count));
    }
    van.sort_by_key(|(thickness, _)| std::cmp::Reverse(*thickness));
    Ok(van)
}

/// A gap in whole grains.
fn whole(gap: f64, grain: Grain) -> Result<u32, PackersError> {
    let gap = usable("gap", gap)?;
    if gap > MOST_GAP {
        return Err(PackersError::TooDeep { gap, most: MOST_GAP });
    }
    u32::try_from(grain.rounded(gap))
        .map_err(|_| AmountError::Negative { what: "gap".to_owned(), value: gap }.into())
}

/// How many of each size are in `stack`.
fn counts(sizes: &[u32], stack: &[u32]) -> Vec<u32> {
    let count = |size: &u32| u32::try_from(stack.iter().filter(|t| *t == size).count()).unwrap_or(u32::MAX);
    sizes.iter().map(count).collect()
}

/// How many of each size all stacks take together.
fn taken(sizes: usize, stacks: &[Vec<u32>]) -> Vec<u64> {
    (0..sizes).map(|size| stacks.iter().map(|s| u64::from(s[size])).sum()).collect()
}

fn enough(van: &[(u32, Option<u32>)], stacks: &[Vec<u32>]) -> bool {
    van.iter()
        .zip(taken(van.len(), stacks))
        .all(|((_, there), used)| there.is_none_or(|n| used <= u64::from(n)))
}

fn answer(
    gaps: &[u32],
    sizes: &[u32],
    stacks: &[Vec<u32>],
    (proven, fetch): (bool, Option<Fetch>),
    grain: Grain,
) -> MakeUp {
    let taken = taken(sizes.len(), stacks);
    let totals = sizes
        .iter()
        .zip(&taken)
        .filter(|(_, count)| **count > 0)
        .map(|(t, count)| Total { thickness: Mm(grain.mm(*t)), count: *count })
        .collect();
    let stacks = gaps
        .iter()
        .zip(stacks)
        .map(|(gap, counts)| {
            let sum: i64 = counts.iter().zip(sizes).map(|(n, t)| i64::from(*n) * i64::from(*t)).sum();
            let packers = counts
                .iter()
                .zip(sizes)
                .flat_map(|(n, t)| std::iter::repeat_n(Mm(grain.mm(*t)), *n as usize))
                .collect();
            Stacked { packers, remainder: Mm(grain.mm(i64::from(*gap) - sum)) }
        })
        .collect();
    MakeUp { stacks, totals, pieces: taken.iter().sum(), proven, fetch }
}
