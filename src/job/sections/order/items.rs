//! What a line of an order names: an item, which size of it, and what it is counted in.

use crate::exact::Percent;
use crate::geometry::Mm;
use crate::job::cursor::Cursor;
use crate::job::{DecimalEntry, LengthEntry};
use crate::length::{Length, Units};
use crate::order::{Item, Kind, Size, Unit, tidy};
use crate::words::{quoted, steers};

/// The most waste, and the most tax, hundredths of one per cent: more is a slip of the keys.
pub(super) const MOST_PERCENT: i64 = 10_000;

/// The longest name of an item, size or unit, characters.
const LONGEST_NAME: usize = 60;

/// A percentage, if there is one and it can be read.
pub(super) fn percent(entry: Option<&DecimalEntry>, at: Cursor<'_>) -> Option<Percent> {
    entry.and_then(|entry| at.take(entry.read_percent(MOST_PERCENT)).map(Percent))
}

/// Whether an item can be counted in a unit.
pub(super) fn fits(item: Item, unit: &Unit, at: Cursor<'_>) {
    let words = match (item.kind, unit) {
        (Kind::Things, Unit::Each)
        | (Kind::Lengths | Kind::Running, Unit::Each | Unit::Metre | Unit::Foot) => return,
        (Kind::Things, _) => "each",
        (Kind::Lengths, _) => "each for one of its length, m or ft",
        (Kind::Running, _) => "m or ft, and the length of a roll as `pack` where it is sold by the roll",
    };
    at.fault(format!("{} is not counted by `{}`: write {words}", item.name, quoted(unit.word())));
}

pub(super) fn size(entry: Option<&LengthEntry>, item: Option<Item>, at: Cursor<'_>) -> Option<Size> {
    let text = entry.map_or_else(String::new, |entry| tidy(&entry.text()));
    if text.is_empty() {
        return Some(Size::Any);
    }
    if item.is_some_and(|item| item.by_length) {
        let length = at.take(Length::parse_positive(&text, at.default_units))?;
        return Some(Size::Length(Mm(length.mm)));
    }
    name(&text, at).map(Size::Text)
}

/// A name that can stand on a line of a quote.
pub(super) fn name(text: &str, at: Cursor<'_>) -> Option<String> {
    let name = tidy(text);
    let problem = if name.is_empty() {
        "the name is missing: write what it is called".to_owned()
    } else if name.chars().count() > LONGEST_NAME {
        format!("`{}` is too long: write up to {LONGEST_NAME} characters", quoted(&name))
    } else if name.chars().any(steers) {
        format!("`{}` has characters that can't be printed", quoted(&name))
    } else {
        return Some(name);
    };
    at.fault(problem);
    None
}

/// The item with its size.
pub(super) fn label(item: &str, size: &Size, units: Units) -> String {
    match size {
        Size::Any => item.to_owned(),
        Size::Length(mm) => format!("{item} {}", units.fine(mm.0)),
        Size::Text(text) => format!("{item} {text}"),
    }
}
