//! The job with one of its bookings taken for what was read on site.

use super::sections::{BookingEntry, HeightsSection, PacksSection, ReadingsSection, StraightSection};
use super::{Fault, JobFile};
use crate::words::{or_list, quoted};

impl JobFile {
    /// The job with its bookings taken for the sections that they are of: of each section the last one, or the one called
    /// `of` where it has it. Fails where none is called so.
    pub fn booked(mut self, of: Option<&str>) -> Result<Self, Fault> {
        let bookings = self.bookings.take().unwrap_or_default();
        if let Some(name) = of
            && !bookings.iter().any(|booking| booking.is_called(name))
        {
            let names: Vec<String> = bookings.iter().map(|booking| quoted(&booking.name)).collect();
            let instead = if names.is_empty() {
                "nothing is booked".to_owned()
            } else {
                format!("write {}", or_list(&names))
            };
            return Err(Fault::new("bookings", format!("there is no booking `{}`: {instead}", quoted(name))));
        }
        let mut over = Self::default();
        let named = bookings.iter().filter(|booking| of.is_some_and(|name| booking.is_called(name)));
        for booking in bookings.iter().chain(named) {
            over.readings = booking.readings.clone().or(over.readings);
            // One level is no question yet.
            let packs = booking.packs.clone().filter(|packs| packs.readings() > 1);
            over.packs = packs.or(over.packs);
            over.straight = booking.straight.clone().or(over.straight);
            over.heights = booking.heights.clone().or(over.heights);
        }
        self.without_read(&over).overlaid(&over)
    }

    /// Where in the file stands what is at `field` once its bookings are taken, the one called `of` before the others.
    #[must_use]
    pub fn standing(&self, field: &str, of: Option<&str>) -> String {
        let pointer = format!("/{}", field.replace(['.', '['], "/").replace(']', ""));
        let has = |booking: &BookingEntry| {
            serde_json::to_value(booking)
                .is_ok_and(|booking| booking.pointer(&pointer).is_some_and(|at| !at.is_null()))
        };
        let bookings = self.bookings.iter().flatten().enumerate().filter(|(_, booking)| has(booking));
        let named = bookings.clone().find(|(_, booking)| of.is_some_and(|name| booking.is_called(name)));
        let at = named.or_else(|| bookings.last()).map(|(at, _)| format!("bookings[{at}]."));
        format!("{}{field}", at.unwrap_or_default())
    }

    /// The job without anything that was read on site.
    #[must_use]
    pub fn unread(self) -> Self {
        let all = Self {
            readings: Some(ReadingsSection::default()),
            packs: Some(PacksSection::default()),
            straight: Some(StraightSection::default()),
            heights: Some(HeightsSection::default()),
            ..Self::default()
        };
        self.without_read(&all)
    }

    /// Leaves out the readings of the sections that `over` has its own of.
    fn without_read(mut self, over: &Self) -> Self {
        if let (Some(under), true) = (&mut self.readings, over.readings.is_some()) {
            (under.read, under.rise, under.second_tape) = (None, None, None);
        }
        if let (Some(under), true) = (&mut self.packs, over.packs.is_some()) {
            (under.staff, under.heights) = (None, None);
        }
        if let (Some(under), true) = (&mut self.straight, over.straight.is_some()) {
            (under.side, under.readings) = (None, None);
        }
        if let (Some(under), true) = (&mut self.heights, over.heights.is_some()) {
            under.drops = None;
        }
        self
    }
}

impl PacksSection {
    /// How many levels are read.
    fn readings(&self) -> usize {
        self.staff.iter().chain(&self.heights).flatten().map(Vec::len).sum()
    }
}
