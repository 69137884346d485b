//! From the existing wall head to the panel, the studs and the ceiling, or from a wanted ceiling back to them.

use schemars::JsonSchema;
use serde::Serialize;

use super::drops::{self, DROPS_AGREE, FromDrop, Taped};
use super::error::HeightsError;
use super::layer::{Layer, Role};
use super::stack::{self, HeightStack};
use super::supports::{self, Joists, Supports};
use crate::geometry::Mm;
use crate::length::{at_most, not_negative, positive};
use crate::rules::{LEAST_CEILING, Source};

/// What `heights` works from. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WallHead {
    /// Tape readings from the top of the level, held on the existing wall head.
    pub drops: Vec<Taped>,
    /// The level's own depth, from the wall head to the edge the tape is read at. Needed with drops; never assumed.
    pub level_depth: Option<f64>,
    /// The layers.
    pub layers: Vec<Layer>,
    /// The ceiling height wanted.
    pub ceiling: Option<f64>,
    /// The most that the drops may differ among themselves; [`DROPS_AGREE`](super::DROPS_AGREE) unless given.
    pub spread_limit: Option<f64>,
    /// Joists on two supports, if they are to be worked out too.
    pub joists: Option<Joists>,
}

/// What it comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub enum HeightVerdict {
    /// The ceiling is as high as wanted, or higher.
    #[serde(rename = "meets")]
    Meets,
    /// The ceiling comes out too low.
    #[serde(rename = "low")]
    Low,
    /// The drops differ by more than their limit: level and tape want reading again.
    #[serde(rename = "drops disagree")]
    DropsDisagree,
    /// No ceiling was wanted: the heights as they come.
    #[serde(rename = "as found")]
    AsFound,
    /// No drop was taken: the heights that the ceiling needs.
    #[serde(rename = "as needed")]
    AsNeeded,
}

impl HeightVerdict {
    /// Whether it can be built as it comes out.
    #[must_use]
    pub const fn good(self) -> bool {
        !matches!(self, Self::Low | Self::DropsDisagree)
    }
}

/// The heights that a wanted ceiling needs, mm.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Needed {
    /// The ceiling height wanted.
    pub ceiling_height: Mm,
    /// Wall head above the datum.
    pub wall_head: Mm,
    /// Underside of the plate to the top of the binder.
    pub kit_height: Mm,
    /// Panel.
    pub panel_height: Mm,
    /// Stud, if rails were named.
    pub stud_length: Option<Mm>,
    /// The wall head as found, less what is needed: negative if it is too low. None without drops.
    pub misses: Option<Mm>,
}

/// The ceiling against the least that a published code allows.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct LeastCeiling {
    /// The least height, mm.
    pub limit: Mm,
    /// Whether the ceiling is at least that high.
    pub met: bool,
    /// Where the figure comes from.
    pub source: Source,
}

/// The heights. Lengths in mm; levels above the datum.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Heights {
    /// What it comes to.
    pub verdict: HeightVerdict,
    /// Wall head heights from each drop, in the order taken.
    pub wall_heads: Vec<Mm>,
    /// The same with where each was taped, and what is to be read again.
    pub drops: Vec<FromDrop>,
    /// How much they differ; none without drops.
    pub spread: Option<Mm>,
    /// Level of the wall head: the highest found of the drops that agree, or the one that the ceiling needs.
    pub wall_head: Mm,
    /// Underside of the plate to the top of the binder.
    pub kit_height: Mm,
    /// Panel, rails included.
    pub panel_height: Mm,
    /// Stud between the rails; none unless rails were named.
    pub stud_length: Option<Mm>,
    /// Floor finish to ceiling lining.
    pub ceiling_height: Mm,
    /// What the wanted ceiling needs.
    pub needed: Option<Needed>,
    /// Against the least height of a published code.
    pub least: LeastCeiling,
    /// Every layer with its levels.
    pub stack: HeightStack,
    /// The joists' supports.
    pub supports: Option<Supports>,
}

/// Sums of the layers, mm.
struct Sums {
    packing: f64,
    /// Plates and binders.
    ends: f64,
    rails: f64,
    /// What the room loses to floor and lining, less what it gains from the slab.
    lost: f64,
}

/// Works out the heights.
pub fn heights(input: &WallHead) -> Result<Heights, HeightsError> {
    let sums = sums(&input.layers)?;
    let spread_limit = input.spread_limit.unwrap_or(DROPS_AGREE);
    let spread_limit = not_negative("limit on the drops' spread", spread_limit)?;
    let drops = drops::reduce(&input.drops, input.level_depth, spread_limit)?;
    let ceiling = input.ceiling.map(|c| positive("ceiling", c)).transpose()?;
    let all = || drops.iter().map(|drop| drop.wall_head.0);
    let spread = all().reduce(f64::max).zip(all().reduce(f64::min)).map(|(high, low)| high - low);
    let uneven = drops.iter().any(|drop| drop.read_again);
    // Where every drop is to be read again, the highest stands for want of a better.
    let agreeing = drops.iter().filter(|drop| !drop.read_again).map(|drop| drop.wall_head.0);
    let found = agreeing.reduce(f64::max).or_else(|| all().reduce(f64::max));
    let head_needed = ceiling.map(|c| c + sums.lost);
    let head = found.or(head_needed).ok_or(HeightsError::NothingToSolve)?;
    let (kit, panel, stud) = down_from(head, &sums)?;
    let clear = head - sums.lost;
    if clear <= 0.0 {
        return Err(HeightsError::NoRoomFor { what: "the room under the ceiling", value: clear });
    }
    let needed = match ceiling.zip(head_needed) {
        Some((ceiling, head)) => Some(needed(ceiling, head, found, &sums)?),
        None => None,
    };
    let verdict = match (found, ceiling) {
        _ if uneven => HeightVerdict::DropsDisagree,
        (None, _) => HeightVerdict::AsNeeded,
        (Some(_), None) => HeightVerdict::AsFound,
        (Some(_), Some(wanted)) if clear >= wanted - NOTHING => HeightVerdict::Meets,
        _ => HeightVerdict::Low,
    };
    Ok(Heights {
        verdict,
        wall_heads: drops.iter().map(|drop| drop.wall_head).collect(),
        drops,
        spread: spread.map(Mm),
        wall_head: Mm(head),
        kit_height: Mm(kit),
        panel_height: Mm(panel),
        stud_length: stud.map(Mm),
        ceiling_height: Mm(clear),
        needed,
        least: LeastCeiling {
            limit: Mm(LEAST_CEILING.value),
            met: clear >= LEAST_CEILING.value - NOTHING,
            source: LEAST_CEILING.source,
        },
        stack: stack::pile(&input.layers, panel),
        supports: input.joists.as_ref().map(|j| supports::supports(j, head)).transpose()?,
    })
}

/// Differences under this, mm, are rounding.
const NOTHING: f64 = 1e-6;

/// The most layers of a stack.
const MOST_LAYERS: usize = 100;

fn sums(layers: &[Layer]) -> Result<Sums, HeightsError> {
    at_most("layers", layers.len(), MOST_LAYERS)?;
    for layer in layers {
        not_negative(format!("layer {}", layer.name), layer.thickness)?;
    }
    let sum = |role| stack::sum(layers, role);
    Ok(Sums {
        packing: sum(Role::Packing),
        ends: sum(Role::Plate) + sum(Role::Binder),
        rails: sum(Role::Rail),
        lost: sum(Role::Floor) + sum(Role::Lining) - sum(Role::Slab),
    })
}

/// Kit, panel and stud under a wall head at `head`.
fn down_from(head: f64, sums: &Sums) -> Result<(f64, f64, Option<f64>), HeightsError> {
    let some = |what, value: f64| {
        if value > 0.0 { Ok(value) } else { Err(HeightsError::NoRoomFor { what, value }) }
    };
    let kit = some("the kit", head - sums.packing)?;
    let panel = some("the panel", kit - sums.ends)?;
    let stud = match sums.rails {
        0.0 => None,
        rails => Some(some("the stud", panel - rails)?),
    };
    Ok((kit, panel, stud))
}

fn needed(ceiling: f64, head: f64, found: Option<f64>, sums: &Sums) -> Result<Needed, HeightsError> {
    let (kit, panel, stud) = down_from(head, sums)?;
    Ok(Needed {
        ceiling_height: Mm(ceiling),
        wall_head: Mm(head),
        kit_height: Mm(kit),
        panel_height: Mm(panel),
        stud_length: stud.map(Mm),
        misses: found.map(|f| Mm(f - head)),
    })
}
