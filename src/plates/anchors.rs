//! Where the anchors go on each piece of plate.
//!
//! A piece has at least two; the first and the last lie within the end distance and not nearer than the edge distance;
//! the rest are spread evenly, never further apart than the spacing nor nearer than the least. Where the plate will be cut out at an opening later, what is left
//! on either side counts as a piece. Under studs an anchor moves to the nearest place that is clear and keeps the rule.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::rules::AnchorSet;

/// The rule that places anchors, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct AnchorRule {
    /// The published set it comes from, if it does.
    pub set: Option<&'static AnchorSet>,
    /// The most between two anchors.
    pub spacing: f64,
    /// The most from a piece's end to its nearest anchor.
    pub end: f64,
    /// The least from a piece's end to its nearest anchor.
    pub edge: f64,
    /// The least between two anchors.
    pub apart: f64,
}

impl AnchorRule {
    /// The least between two anchors unless one is given: four diameters of a bolt of 12 mm and a little over (common practice,
    /// no source).
    pub const APART: f64 = 50.0;
}

/// The studs on the plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Studs {
    /// From the middle of one to the middle of the next, mm, beginning at the side's first corner, or its last where panels do.
    pub centres: f64,
    /// How far an anchor keeps from a stud's middle, mm.
    pub clear: f64,
}

impl Studs {
    /// Half a stud 45 mm thick and half a washer 50 mm wide, and a little over: 50 mm (common practice, no source).
    pub const CLEAR: f64 = 50.0;
}

/// An anchor.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Anchor {
    /// The side's letters, or the partition's name.
    pub side: String,
    /// The piece.
    pub piece: String,
    /// How far it is from the run's start, mm.
    pub at: Mm,
    /// How far it is from the piece's own start, mm.
    pub on_piece: Mm,
}

/// A piece, or what is left of it beside an opening, that the rule can't be kept on.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct AnchorTrouble {
    /// The piece.
    pub piece: String,
    /// Where it starts, mm from the run's start.
    pub from: Mm,
    /// Where it ends, mm from the run's start.
    pub to: Mm,
    /// What is wrong.
    pub problem: Trouble,
}

/// Why the rule can't be kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Trouble {
    /// There is no room for two anchors.
    #[serde(rename = "too short")]
    TooShort,
    /// No places clear of the studs keep the rule, so the anchors are where they would be without them.
    #[serde(rename = "under a stud")]
    UnderStud,
}

/// A piece's anchors in steps from its start, and what is wrong with them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Their places, in steps.
    pub at: Vec<i64>,
    /// What is wrong, if anything.
    pub trouble: Option<Trouble>,
}

/// Places the anchors of one piece `length` mm long, in steps of `step` mm from its start. `studs` are the middles of
/// the studs, mm from the piece's start, and how far to keep from them.
#[must_use]
pub fn place(length: f64, rule: &AnchorRule, studs: &[f64], clear: f64, step: f64) -> Placed {
    let whole = Limits::new(length, rule, step);
    let Some(even) = whole.even(whole.least_count()) else {
        return Placed { at: vec![], trouble: Some(Trouble::TooShort) };
    };
    if studs.is_empty() {
        return Placed { at: even, trouble: None };
    }
    let is_clear = |at: i64| {
        let mm = at as f64 * step;
        studs.iter().all(|stud| (stud - mm).abs() >= clear - 1e-6)
    };
    // As few as there can be, and as even as that allows.
    let Some(fewest) = whole.furthest(is_clear) else {
        return Placed { at: even, trouble: Some(Trouble::UnderStud) };
    };
    let even = i64::try_from(fewest.len()).ok().and_then(|count| whole.even(count));
    let at = even.and_then(|even| whole.shifted(&even, is_clear)).unwrap_or(fewest);
    Placed { at, trouble: None }
}

/// The rule on one piece, in whole steps on the safe side of it.
#[derive(Debug, Clone, Copy)]
struct Limits {
    length: i64,
    spacing: i64,
    end: i64,
    edge: i64,
    apart: i64,
}

impl Limits {
    #[expect(clippy::cast_possible_truncation, reason = "lengths are at most 1 km")]
    fn new(length: f64, rule: &AnchorRule, step: f64) -> Self {
        let down = |mm: f64| (mm / step + 1e-6).floor() as i64;
        let up = |mm: f64| (mm / step - 1e-6).ceil() as i64;
        let whole = down(length);
        // What is left of the piece past its last whole step counts against its last anchor.
        let over = length - whole as f64 * step;
        Self {
            length: whole,
            spacing: down(rule.spacing).max(1),
            end: down(rule.end - over),
            edge: up(rule.edge),
            apart: up(rule.apart).max(1),
        }
    }

    /// Where the first anchor goes: as far in as allowed, but on a short piece a quarter of its length, so that the two
    /// ends' anchors keep apart, and less if they must. `None` where two have no room.
    fn first(self) -> Option<i64> {
        let first = self.end.min(self.length / 4).min((self.length - self.apart) / 2).max(self.edge);
        (first <= self.end && first * 2 + self.apart <= self.length).then_some(first)
    }

    /// The fewest anchors that keep the spacing.
    fn least_count(self) -> i64 {
        let between = self.length - 2 * self.first().unwrap_or(0);
        (between.max(1) - 1) / self.spacing + 2
    }

    /// So many anchors, spread evenly.
    fn even(self, count: i64) -> Option<Vec<i64>> {
        let first = self.first()?;
        let (between, gaps) = (self.length - 2 * first, count - 1);
        Some((0..count).map(|i| first + (between * i * 2 + gaps) / (gaps * 2)).collect())
    }

    /// The fewest clear places that keep the rule, if there are any: each as far along as it may be, or on a short piece
    /// one as near to each end as it may be.
    fn furthest(self, is_clear: impl Fn(i64) -> bool) -> Option<Vec<i64>> {
        let (least, most) = (self.edge, self.length - self.edge);
        let last_from = (self.length - self.end).max(least);
        let goes_on = self.goes_on(least..=most, last_from, &is_clear);
        let last = |mut from: std::ops::RangeInclusive<i64>| {
            from.rfind(|&at| goes_on.get(usize::try_from(at - least).unwrap_or(0)) == Some(&true))
        };
        let mut at = vec![last(least..=self.end.min(most))?];
        while at.last().is_some_and(|here| *here < last_from) {
            let here = at.last().copied()?;
            at.push(last(here + self.apart..=(here + self.spacing).min(most))?);
        }
        if at.len() > 1 {
            return Some(at);
        }
        let near = (least..=self.end.min(most)).find(|&at| is_clear(at))?;
        let far = (last_from..=most).rfind(|&at| is_clear(at))?;
        (self.apart..=self.spacing).contains(&(far - near)).then(|| vec![near, far])
    }

    /// For each place whether it is clear, and anchors can go on from it to the piece's far end.
    fn goes_on(
        self,
        places: std::ops::RangeInclusive<i64>,
        last_from: i64,
        is_clear: impl Fn(i64) -> bool,
    ) -> Vec<bool> {
        let mut goes_on = vec![];
        // From the far end: how many of the places from each one on are good.
        let mut good = vec![0_usize];
        for at in places.rev() {
            let back = |distance: i64| {
                good.len().checked_sub(usize::try_from(distance).unwrap_or(usize::MAX)).map_or(0, |n| good[n])
            };
            let next = back(self.apart) > back(self.spacing + 1);
            let here = is_clear(at) && (at >= last_from || next);
            good.push(good[good.len() - 1] + usize::from(here));
            goes_on.push(here);
        }
        goes_on.reverse();
        goes_on
    }

    /// Each anchor moved to a clear place next to where it is, so that the rule is kept and they move least in all.
    fn shifted(self, even: &[i64], is_clear: impl Fn(i64) -> bool) -> Option<Vec<i64>> {
        let last = even.len().checked_sub(1)?;
        // For each anchor the clear places next below and above; the cheapest way to reach each, and where from.
        let mut ways: Vec<Vec<(i64, i64, usize)>> = vec![];
        for (place, &at) in even.iter().enumerate() {
            let (mut low, mut high) = (self.edge, self.length - self.edge);
            if place == 0 {
                high = high.min(self.end);
            }
            if place == last {
                low = low.max(self.length - self.end);
            }
            let below = (low..=at.min(high)).rev().find(|&at| is_clear(at));
            let above = (at.max(low)..=high).find(|&at| is_clear(at));
            let mut here = vec![];
            for candidate in below.into_iter().chain(above) {
                let moved = (candidate - at).pow(2);
                let best = match ways.last() {
                    None => Some((0, 0)),
                    Some(before) => before
                        .iter()
                        .enumerate()
                        .filter(|(_, (from, _, _))| (self.apart..=self.spacing).contains(&(candidate - from)))
                        .map(|(index, (_, cost, _))| (*cost, index))
                        .min(),
                };
                if let Some((cost, from)) = best {
                    here.push((candidate, cost + moved, from));
                }
            }
            ways.push(here);
        }
        let mut index = (0..ways[last].len()).min_by_key(|&index| ways[last][index].1)?;
        let mut at = vec![];
        for here in ways.iter().rev() {
            at.push(here[index].0);
            index = here[index].2;
        }
        at.reverse();
        Some(at)
    }
}
