//! What stands along the sides: openings, partitions, panel joints, studs.

use std::str::FromStr;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::cursor::Cursor;
use crate::job::entries::or_text;
use crate::job::{EntryError, LengthEntry};
use crate::lines::{Item, ItemKind};
use crate::plan::{Footprint, SAME_PLACE};

/// The most openings, partitions and joints taken, each.
const MOST_ITEMS: usize = 200;

/// The closest stud centres taken, mm.
const CLOSEST_STUDS: f64 = 100.0;

/// Something with a width along a side: an opening, or a partition that meets the wall.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct StretchEntry {
    /// The side, the corner it is measured from first: CD from C, DC from D.
    pub side: Option<String>,
    /// Where it begins, from that corner.
    pub at: Option<LengthEntry>,
    /// How wide it is.
    pub width: Option<LengthEntry>,
    /// What it is called.
    pub name: Option<String>,
    /// For an opening: whether it is a window, under which the plate goes on. Unless given, it is one if its name has the
    /// word window in it, and else a door.
    pub window: Option<bool>,
    /// For a partition: the length of its plate, to be cut with the others. A partition that is only to be cut needs no
    /// side.
    pub length: Option<LengthEntry>,
}

impl StretchEntry {
    /// A partition of which only the plate is to be cut, from its name and its length: `P1:3200`.
    pub fn run(text: &str) -> Result<Self, EntryError> {
        let (name, length) = text
            .rsplit_once(':')
            .ok_or_else(|| EntryError::new("a run is its name and its length: write P1:3200"))?;
        Ok(Self {
            name: Some(name.to_owned()),
            length: Some(LengthEntry::Text(length.to_owned())),
            ..Self::default()
        })
    }

    /// Whether it is a window, under which the plate, its anchors and its damp-proof course go on.
    pub(crate) fn is_window(&self) -> bool {
        let named = || {
            let words = self.name.iter().flat_map(|name| name.split(|c: char| !c.is_alphanumeric()));
            words.into_iter().any(|word| word.eq_ignore_ascii_case("window"))
        };
        self.window.unwrap_or_else(named)
    }

    /// Whether it stands along a side, or is only a length of plate.
    pub(crate) const fn is_along(&self) -> bool {
        self.side.is_some() || self.length.is_none()
    }
}

/// From `NAME=SIDE:WIDTH@AT` or `NAME=SIDE@AT:WIDTH`, the name if wanted.
impl FromStr for StretchEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (name, rest) = match text.split_once('=') {
            Some((name, rest)) => (Some(name.trim().to_owned()), rest),
            None => (None, text),
        };
        let parts = |width: char, at: char| {
            let (side, rest) = rest.split_once(width)?;
            let (first, second) = rest.split_once(at)?;
            Some((side, first, second))
        };
        let width_first = parts(':', '@').filter(|(side, _, _)| !side.contains('@'));
        let at_first = || parts('@', ':').map(|(side, at, width)| (side, width, at));
        let (side, width, at) = width_first.or_else(at_first).ok_or_else(|| {
            EntryError::new("write the side, the width and how far from the side's first letter: CD:900@1200")
        })?;
        Ok(Self {
            side: Some(side.trim().to_owned()),
            at: Some(LengthEntry::Text(at.to_owned())),
            width: Some(LengthEntry::Text(width.to_owned())),
            name,
            ..Self::default()
        })
    }
}

/// A place on a side, such as a joint between two panels.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(transform = or_text)]
pub struct PlaceEntry {
    /// The side, the corner it is measured from first: CD from C, DC from D.
    pub side: Option<String>,
    /// Where it is, from that corner.
    pub at: Option<LengthEntry>,
}

/// From `SIDE:AT`.
impl FromStr for PlaceEntry {
    type Err = EntryError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (side, at) = text
            .split_once(':')
            .ok_or_else(|| EntryError::new("write the side and how far from its first letter: CD:1200"))?;
        Ok(Self { side: Some(side.trim().to_owned()), at: Some(LengthEntry::Text(at.to_owned())) })
    }
}

/// What the file has along the sides: its fields of these names.
#[derive(Debug, Clone, Copy)]
pub(in crate::job) struct AlongEntries<'a> {
    pub(in crate::job) openings: &'a [StretchEntry],
    pub(in crate::job) partitions: &'a [StretchEntry],
    pub(in crate::job) joints: &'a [PlaceEntry],
    pub(in crate::job) studs: Option<&'a LengthEntry>,
}

/// Reads places along the sides of one outline.
#[derive(Clone, Copy)]
pub(super) struct Along<'a> {
    pub(super) footprint: &'a Footprint,
    /// The top of the file.
    pub(super) at: Cursor<'a>,
}

impl Along<'_> {
    /// The openings, partitions and joints, each on its side from the side's first corner clockwise.
    pub(super) fn items(self, entries: AlongEntries<'_>) -> Vec<Item> {
        let mut items = vec![];
        self.stretches(self.at.field("openings"), entries.openings, ItemKind::Opening, &mut items);
        self.apart(&items);
        self.stretches(self.at.field("partitions"), entries.partitions, ItemKind::Partition, &mut items);
        self.joints(self.at.field("joints"), entries.joints, &mut items);
        items
    }

    /// Stud centres.
    pub(super) fn studs(self, entries: AlongEntries<'_>) -> Option<f64> {
        let at = self.at.field("studs");
        let studs = at.positive(entries.studs)?;
        if studs >= CLOSEST_STUDS {
            return Some(studs);
        }
        let (given, least) = (at.units.with_unit(studs), at.units.with_unit(CLOSEST_STUDS));
        at.fault(format!(
            "{given} centres are too close: {least} is the least taken, and 600mm or 400mm are usual"
        ));
        None
    }

    /// A side by name, and whether it was named from its second corner.
    pub(super) fn side(self, at: Cursor<'_>, name: Option<&String>) -> Option<(usize, bool)> {
        let Some(name) = name else {
            at.fault("say which side, such as CD, the corner to measure from first");
            return None;
        };
        let index = at.take(self.footprint.parse_side(name))?;
        let backward = !self.footprint.side_name(index).eq_ignore_ascii_case(name.trim());
        Some((index, backward))
    }

    fn stretches(self, list: Cursor<'_>, entries: &[StretchEntry], kind: ItemKind, items: &mut Vec<Item>) {
        not_too_many(list, entries.len());
        let along = entries.iter().enumerate().take(MOST_ITEMS);
        for (i, entry) in along.filter(|(_, entry)| entry.is_along()) {
            let item = list.nth(i);
            let side = self.side(item.field("side"), entry.side.as_ref());
            let at = at(item.field("at"), entry.at.as_ref());
            let width = width(item.field("width"), entry.width.as_ref());
            if let (Some((side, backward)), Some(at), Some(width)) = (side, at, width)
                && self.fits(item, side, at + width)
            {
                let length = self.footprint.sides()[side].length;
                let (from, to) = if backward { (length - at - width, length - at) } else { (at, at + width) };
                let plain = match kind {
                    ItemKind::Opening if entry.is_window() => "window",
                    ItemKind::Opening => "opening",
                    ItemKind::Partition => "partition",
                    ItemKind::Joint => "panel joint",
                };
                items.push(Item {
                    kind,
                    side,
                    from,
                    to,
                    name: entry
                        .name
                        .clone()
                        .filter(|name| !name.trim().is_empty())
                        .unwrap_or_else(|| format!("{plain} {}", i + 1)),
                    window: kind == ItemKind::Opening && entry.is_window(),
                });
            }
        }
    }

    fn joints(self, list: Cursor<'_>, entries: &[PlaceEntry], items: &mut Vec<Item>) {
        not_too_many(list, entries.len());
        for (i, entry) in entries.iter().enumerate().take(MOST_ITEMS) {
            let item = list.nth(i);
            let side = self.side(item.field("side"), entry.side.as_ref());
            let at = at(item.field("at"), entry.at.as_ref());
            if let (Some((side, backward)), Some(at)) = (side, at)
                && self.fits(item, side, at)
            {
                let length = self.footprint.sides()[side].length;
                let from = if backward { length - at } else { at };
                items.push(Item {
                    kind: ItemKind::Joint,
                    side,
                    from,
                    to: from,
                    name: format!("panel joint {}", i + 1),
                    window: false,
                });
            }
        }
    }

    /// Openings on one side must not run into each other.
    fn apart(self, openings: &[Item]) {
        let mut along: Vec<(usize, &Item)> = openings.iter().enumerate().collect();
        along.sort_by(|(_, a), (_, b)| a.side.cmp(&b.side).then(a.from.total_cmp(&b.from)));
        // Of those that begin before, the one that reaches furthest is the neighbour.
        let mut before: Option<(usize, &Item)> = None;
        for (i, item) in along {
            let neighbour = before.filter(|(_, neighbour)| neighbour.side == item.side);
            if let Some((j, neighbour)) = neighbour {
                let overlap = neighbour.to.min(item.to) - item.from;
                if overlap > SAME_PLACE {
                    let (first, second) = if j < i { (neighbour, item) } else { (item, neighbour) };
                    let side = self.footprint.side_name(item.side);
                    let by = self.at.units.with_unit(overlap);
                    self.at.field("openings").fault(format!(
                        "{} and {} on {side} overlap by {by}: move one or make it narrower",
                        first.name, second.name
                    ));
                }
            }
            before = neighbour.filter(|(_, neighbour)| neighbour.to > item.to).or(Some((i, item)));
        }
    }

    fn fits(self, at: Cursor<'_>, side: usize, end: f64) -> bool {
        let length = self.footprint.sides()[side].length;
        let fits = end <= length + SAME_PLACE;
        if !fits {
            let name = self.footprint.side_name(side);
            let (end, length) = (at.units.with_unit(end), at.units.with_unit(length));
            at.fault(format!("it ends {end} along {name}, which is only {length} long"));
        }
        fits
    }
}

fn not_too_many(list: Cursor<'_>, count: usize) {
    if count > MOST_ITEMS {
        list.fault(format!("{count} are given: {MOST_ITEMS} is the most taken"));
    }
}

fn at(at: Cursor<'_>, entry: Option<&LengthEntry>) -> Option<f64> {
    if entry.is_none() {
        at.fault("say how far from the corner");
    }
    at.not_negative(entry)
}

fn width(at: Cursor<'_>, entry: Option<&LengthEntry>) -> Option<f64> {
    if entry.is_none() {
        at.fault("say how wide");
    }
    at.positive(entry)
}
