//! The items that a job's parts need, by the trade's words: the names that a price list is matched by.

use super::figures::{Size, tidy};
use crate::length::Units;

/// Timber that lies on the masonry, by stock length. A length that serves the head binder too is one of these.
pub const WALL_PLATE: &str = "wall plate";
/// Timber that ties the panels' tops, by stock length.
pub const HEAD_BINDER: &str = "head binder";
/// Timber of a cut list of the user's own, by stock length.
pub const TIMBER: &str = "timber";
/// Joists, trimmers and noggings, by stock length.
pub const JOIST: &str = "joist";
/// Hangers, by the thickness of what they hold.
pub const HANGER: &str = "joist hanger";
/// The bearer that hangers are fixed to.
pub const BEARER: &str = "bearer";
/// Bolts through the bearer.
pub const BEARER_BOLT: &str = "bearer bolt";
/// Damp-proof course, by width.
pub const DPC: &str = "DPC";
/// Packers, by thickness.
pub const PACKER: &str = "packer";
/// Holding-down bolts or whatever else anchors the plate.
pub const ANCHOR: &str = "anchor";
/// Straps that hold the top plate down.
pub const STRAP: &str = "strap";
/// Screws that hold the plate until the anchors are in.
pub const TEMPORARY_SCREW: &str = "temporary screw";
/// String line.
pub const LINE: &str = "line";
/// Pegs.
pub const PEG: &str = "peg";
/// Nails in the house wall, where a line is tied to it.
pub const MASONRY_NAIL: &str = "masonry nail";
/// Profile boards, by length.
pub const PROFILE_BOARD: &str = "profile board";

/// How an item is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// By the piece.
    Things,
    /// By the piece of a length, or by the metre or foot that such pieces come to.
    Lengths,
    /// By the metre or foot, or by the roll.
    Running,
}

/// An item of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Item {
    /// Its name.
    pub name: &'static str,
    /// How it is counted.
    pub kind: Kind,
    /// Whether its size is a length: of a bar or a board, a thickness, a width. The size of any other is the user's.
    pub by_length: bool,
}

/// Every item, in the order that an order lists them.
pub const ITEMS: &[Item] = &[
    Item::new(WALL_PLATE, Kind::Lengths, true),
    Item::new(HEAD_BINDER, Kind::Lengths, true),
    Item::new(TIMBER, Kind::Lengths, true),
    Item::new(JOIST, Kind::Lengths, true),
    Item::new(HANGER, Kind::Things, true),
    Item::new(BEARER, Kind::Running, false),
    Item::new(BEARER_BOLT, Kind::Things, false),
    Item::new(DPC, Kind::Running, true),
    Item::new(PACKER, Kind::Things, true),
    Item::new(ANCHOR, Kind::Things, false),
    Item::new(STRAP, Kind::Things, false),
    Item::new(TEMPORARY_SCREW, Kind::Things, false),
    Item::new(LINE, Kind::Running, false),
    Item::new(PEG, Kind::Things, false),
    Item::new(MASONRY_NAIL, Kind::Things, false),
    Item::new(PROFILE_BOARD, Kind::Lengths, true),
];

impl Item {
    const fn new(name: &'static str, kind: Kind, by_length: bool) -> Self {
        Self { name, kind, by_length }
    }

    /// The item called `name`, whatever the case of its letters.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let name = tidy(name).to_lowercase();
        ITEMS.iter().copied().find(|item| item.name.to_lowercase() == name)
    }
}

impl Size {
    /// In words: of what goes by its thickness or width as a gap, any other length as on the tape.
    #[must_use]
    pub fn words(&self, item: &str, units: Units) -> String {
        match self {
            Self::Any => String::new(),
            Self::Length(mm) if item == PACKER || item == DPC => units.gap(mm.0),
            Self::Length(mm) => units.with_unit(mm.0),
            Self::Text(text) => text.clone(),
        }
    }
}
