//! Drops: the tape from the top of a level, held on the existing wall head, down to where the plate will lie.
//!
//! A drop with its place is taped down to the masonry there, so the pack at that place comes off it; a drop without one
//! is taped down to the packed line. The highest is kept, but not one that a slip made: where drops differ by more than
//! a level and a tape can, those that stand apart from the middle one are to be read again.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::HeightsError;
use crate::geometry::Mm;
use crate::length::{at_most, not_negative, usable};

/// The most that drops of one wall head differ by a level and a tape alone, mm, unless the user says otherwise (common
/// practice, no source).
pub const DROPS_AGREE: f64 = 5.0;

/// One drop as it was taped.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Taped {
    /// From the top of the level down, mm.
    pub drop: f64,
    /// Where it was taped down to the masonry; none if it was taped to the packed line.
    pub place: Option<String>,
    /// The pack at that place, mm; none if it isn't known, and then the drop is taken as taped to the packed line.
    pub pack: Option<f64>,
}

/// The wall head by one drop.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct FromDrop {
    /// Where it was taped, if that was said.
    pub place: Option<String>,
    /// The tape, mm.
    pub drop: Mm,
    /// The pack at its place, which comes off, mm.
    pub pack: Option<Mm>,
    /// The wall head above the packed line, mm.
    pub wall_head: Mm,
    /// Whether it stands apart from the others and is to be read again.
    pub read_again: bool,
}

/// The most drops.
const MOST_DROPS: usize = 1_000;

/// The wall head by each drop, in the order taken; those too far from the middle one marked.
pub(super) fn reduce(
    taped: &[Taped],
    level_depth: Option<f64>,
    spread_limit: f64,
) -> Result<Vec<FromDrop>, HeightsError> {
    at_most("drops", taped.len(), MOST_DROPS)?;
    if taped.is_empty() {
        return Ok(Vec::new());
    }
    let depth = not_negative("the level's own depth", level_depth.ok_or(HeightsError::NoLevelDepth)?)?;
    let mut heads = Vec::with_capacity(taped.len());
    for taped in taped {
        let pack = usable("pack", taped.pack.unwrap_or(0.0))?;
        let head = usable("drop", taped.drop)? - depth - pack;
        if head <= 0.0 {
            return Err(HeightsError::BelowDatum { drop: taped.drop, depth });
        }
        heads.push(head);
    }
    let apart = apart(&heads, spread_limit);
    let drops = taped.iter().zip(heads).enumerate().map(|(i, (taped, head))| FromDrop {
        place: taped.place.clone(),
        drop: Mm(taped.drop),
        pack: taped.pack.map(Mm),
        wall_head: Mm(head),
        read_again: apart.contains(&i),
    });
    Ok(drops.collect())
}

/// The indices of the heads that stand apart: of two, both; of more, those over the limit from the middle one, or else the
/// one farthest from it.
fn apart(heads: &[f64], limit: f64) -> Vec<usize> {
    let mut up = heads.to_vec();
    up.sort_by(f64::total_cmp);
    let (Some(lowest), Some(highest)) = (up.first(), up.last()) else { return Vec::new() };
    if highest - lowest <= limit + NOTHING {
        return Vec::new();
    }
    if let [_, _] = heads {
        return vec![0, 1];
    }
    let middle = up[up.len() / 2];
    let far = |i: &usize| (heads[*i] - middle).abs();
    let over: Vec<usize> = (0..heads.len()).filter(|i| far(i) > limit + NOTHING).collect();
    if !over.is_empty() {
        return over;
    }
    (0..heads.len()).max_by(|a, b| far(a).total_cmp(&far(b)).then(b.cmp(a))).into_iter().collect()
}

/// Differences under this, mm, are rounding.
const NOTHING: f64 = 1e-6;
