//! Making up gaps from the packers in the van.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::PackingError;
use super::grain::Grain;
use super::packers::Fewest;
use super::van;
use crate::geometry::Mm;
use crate::length::{AmountError, Units, at_most, usable};

/// The largest gap that is packing and not a mistake, mm.
pub const MOST_GAP: f64 = 1000.0;

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
    /// Whether nothing is nearer, and nothing as near takes fewer packers. Always so when no count is given.
    pub proven: bool,
}

/// Makes up `gaps` (mm, none negative) from `packers`, first as near as can be, then with the fewest pieces.
///
/// Gaps are taken to the nearest tenth of a millimetre (sixteenth of an inch in a job in feet and inches) and
/// everything from there on is whole tenths or sixteenths, exact. Without
/// counts each gap gets its nearest total (of two equally near, the thinner), in the fewest pieces; of equal stacks
/// the one with the thickest packers. With counts the sum over all gaps of what is missing is made least, then the
/// number of pieces: exact up to the limits of [`MakeUp::proven`].
pub fn make_up(gaps: &[f64], packers: &[Packer], units: Units) -> Result<MakeUp, PackingError> {
    let grain = Grain::of(units);
    at_most("packer thicknesses", packers.len(), 32)?;
    at_most("places to pack", gaps.len(), 2000)?;
    let van = sorted(packers, grain)?;
    let gaps = gaps.iter().map(|gap| whole(*gap, grain)).collect::<Result<Vec<_>, _>>()?;
    let sizes: Vec<u32> = van.iter().map(|(t, _)| *t).collect();
    let deepest = gaps.iter().copied().max().unwrap_or(0);
    let fewest = Fewest::new(&sizes, 2 * deepest);
    let plenty: Vec<Vec<u32>> =
        gaps.iter().map(|gap| counts(&sizes, &fewest.stack(fewest.nearest(*gap)))).collect();
    if enough(&van, &plenty) {
        return Ok(answer(&gaps, &sizes, &plenty, true, grain));
    }
    // More of a size than every gap could use is the same as plenty, and keeps the search's states few.
    let limits: Vec<u32> = van
        .iter()
        .map(|(t, count)| {
            let use_for_all = gaps.iter().fold(0_u32, |sum, g| sum.saturating_add(2 * g / t + 1));
            count.unwrap_or(u32::MAX).min(use_for_all)
        })
        .collect();
    let shared = van::share(&gaps, &sizes, &limits, &fewest);
    Ok(answer(&gaps, &sizes, &shared.stacks, shared.proven, grain))
}

/// The van's packers in grains, thickest first.
fn sorted(packers: &[Packer], grain: Grain) -> Result<Vec<(u32, Option<u32>)>, PackingError> {
    let mut van = Vec::with_capacity(packers.len());
    for packer in packers {
        let thickness = grain
            .exact(packer.thickness)
            .ok_or(PackingError::Packer { thickness: packer.thickness, grain: grain.words })?;
        if van.iter().any(|(t, _)| *t == thickness) {
            return Err(PackingError::PackerTwice(packer.thickness));
        }
        van.push((thickness, packer.count));
    }
    van.sort_by_key(|(thickness, _)| std::cmp::Reverse(*thickness));
    Ok(van)
}

/// A gap in whole grains.
fn whole(gap: f64, grain: Grain) -> Result<u32, PackingError> {
    let gap = usable("gap", gap)?;
    if gap > MOST_GAP {
        return Err(PackingError::NotPacking { name: "a place".to_owned(), gap, most: MOST_GAP });
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

fn answer(gaps: &[u32], sizes: &[u32], stacks: &[Vec<u32>], proven: bool, grain: Grain) -> MakeUp {
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
    MakeUp { stacks, totals, pieces: taken.iter().sum(), proven }
}
