//! Where in the job file one reads: the path to it, the units of its numbers, and where its faults go.

use std::cell::RefCell;
use std::fmt;

use super::sizes::SIZES;
use super::{Fault, Faults, LengthEntry};
use crate::length::{Length, LengthError, Units};
use crate::words::quoted;

/// A place in the job file.
#[derive(Clone, Copy)]
pub(super) struct Cursor<'a> {
    /// The field that this one is in; none at the top of the file.
    inside: Option<&'a Self>,
    name: &'a str,
    index: Option<usize>,
    /// The units of bare numbers.
    pub(super) default_units: Units,
    /// The units to answer in.
    pub(super) units: Units,
    faults: &'a RefCell<Faults>,
}

impl<'a> Cursor<'a> {
    /// The top of a file.
    pub(super) const fn top(default_units: Units, faults: &'a RefCell<Faults>) -> Self {
        Self { inside: None, name: "", index: None, default_units, units: default_units, faults }
    }

    /// This place, to answer in `units`.
    pub(super) const fn answered_in(self, units: Units) -> Self {
        Self { units, ..self }
    }

    /// The field called `name` in this one; this one where `name` is empty.
    pub(super) const fn field<'b>(&'b self, name: &'b str) -> Cursor<'b> {
        Cursor { inside: Some(self), name, index: None, ..*self }
    }

    /// Item `index`, from 0, of the list called `name` in this field.
    pub(super) const fn item<'b>(&'b self, name: &'b str, index: usize) -> Cursor<'b> {
        Cursor { index: Some(index), ..self.field(name) }
    }

    /// Item `index`, from 0, of the list that this field is.
    pub(super) const fn nth(&self, index: usize) -> Cursor<'_> {
        self.item("", index)
    }

    /// What this field is called in the one that it is in.
    pub(super) const fn name(&self) -> &'a str {
        self.name
    }

    /// As a fault names it: `packs.staff[0][3]`.
    fn path(&self) -> String {
        self.spelt(|index| format!("[{index}]"))
    }

    /// As the table of sizes names it, whichever item it is in: `packs.staff`.
    fn kind(&self) -> String {
        self.spelt(|_| String::new())
    }

    /// The names from the top, an item's with what `item` writes of its index.
    fn spelt(&self, item: fn(usize) -> String) -> String {
        // Room for any of them: every length that is read asks for its kind.
        let mut path = self.inside.map_or_else(|| String::with_capacity(64), |inside| inside.spelt(item));
        if !(path.is_empty() || self.name.is_empty()) {
            path.push('.');
        }
        path.push_str(self.name);
        path.extend(self.index.map(item));
        path
    }

    /// Something is wrong with this field.
    pub(super) fn fault(&self, problem: impl fmt::Display) {
        self.faults.borrow_mut().push(|| Fault::new(self.path(), problem));
    }

    /// How many faults there are so far, of any field.
    pub(super) fn faults(&self) -> usize {
        self.faults.borrow().count()
    }

    /// The value, or nothing and a fault of this field.
    pub(super) fn take<T, E: fmt::Display>(&self, result: Result<T, E>) -> Option<T> {
        result.map_err(|problem| self.fault(problem)).ok()
    }

    /// A length of more than zero, mm.
    pub(super) fn positive(&self, entry: Option<&LengthEntry>) -> Option<f64> {
        let entry = entry?;
        let length = self.read(entry)?;
        if length.mm > 0.0 {
            return self.plausible(&entry.text(), length);
        }
        self.fault(LengthError::NotPositive { text: quoted(&entry.text()) });
        None
    }

    fn read(&self, entry: &LengthEntry) -> Option<Length> {
        self.take(self.length(&entry.text()))
    }

    /// A text as a length; what is wrong with it in the units of the job.
    pub(super) fn length(&self, typed: &str) -> Result<Length, String> {
        Length::parse(typed, self.default_units).map_err(|error| error.message(self.units))
    }

    /// A length of zero or more, mm.
    pub(super) fn not_negative(&self, entry: Option<&LengthEntry>) -> Option<f64> {
        let entry = entry?;
        let length = self.read(entry)?;
        if length.mm >= 0.0 {
            return self.plausible(&entry.text(), length);
        }
        self.fault(format!("`{}` is less than zero: write 0 or more", quoted(&entry.text())));
        None
    }

    /// A length of a size that it can have, mm, from the text that it was read from; one of an unusual size is kept in mind.
    pub(super) fn plausible(&self, typed: &str, length: Length) -> Option<f64> {
        let kind = self.kind();
        let Some(size) = SIZES.iter().find(|size| size.field == kind) else { return Some(length.mm) };
        let in_feet = self.units == Units::FeetInches;
        let without_unit = in_feet.then(|| size.without_unit(typed, length, self.default_units)).flatten();
        let shown = if in_feet { self.units } else { self.default_units };
        if let Some(refusal) = without_unit.or_else(|| size.refusal(typed, length, self.default_units, shown))
        {
            self.fault(refusal);
            return None;
        }
        if size.doubt(length.mm, self.default_units).is_some() {
            self.faults.borrow_mut().keep_in_mind(self.path(), size, length.mm);
        }
        Some(length.mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_known_by_its_kind_whichever_item_it_is_in() {
        let faults = RefCell::new(Faults::default());
        let top = Cursor::top(Units::Mm, &faults);
        let stock = top.field("stock");
        let length = stock.item("have", 2);
        let length = length.field("length");
        assert_eq!(length.path(), "stock.have[2].length");
        assert_eq!(length.kind(), "stock.have.length");
        let packs = top.field("packs");
        let staff = packs.item("staff", 0);
        assert_eq!(
            (staff.nth(3).path(), staff.nth(3).kind()),
            ("packs.staff[0][3]".into(), "packs.staff".into())
        );
    }
}
