//! What can be booked, and where it stands in a booking.

use crate::answer::Question;
use crate::job::{
    BookingEntry, HeightsSection, Job, JobFile, LengthEntry, PacksSection, ReadingEntry, ReadingsSection,
    StraightSection,
};
use crate::length::{Length, Units};
use crate::plan::Spot;
use crate::words::quoted;

/// What is booked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Lines from corner to corner with the tape.
    Tape,
    /// Levels round the plate with a staff.
    Level,
    /// Offsets from a string along a side.
    Straight,
    /// Drops from a level on the wall head.
    Drop,
}

/// A reading as it stands in the book: what it is of, and what was read, as it was typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Entry {
    pub(super) name: String,
    pub(super) read: String,
}

/// What a drop that was taken at no place of the plan is called, and its number.
const DROP: &str = "drop ";

impl Kind {
    /// The kind that a booking of this name is of, unless it is there already.
    pub(super) fn of(name: &str) -> Self {
        match name.split_whitespace().next().map(str::to_lowercase).as_deref() {
            Some("level") => Self::Level,
            Some("string") => Self::Straight,
            Some("drop") => Self::Drop,
            _ => Self::Tape,
        }
    }

    /// The kind of a booking that is there; none of one that holds nothing.
    pub(super) fn of_booking(booking: &BookingEntry) -> Option<Self> {
        let held = [
            (Self::Tape, booking.readings.is_some()),
            (Self::Level, booking.packs.is_some()),
            (Self::Straight, booking.straight.is_some()),
            (Self::Drop, booking.heights.is_some()),
        ];
        held.into_iter().find(|(_, held)| *held).map(|(kind, _)| kind)
    }

    /// The question that it answers.
    pub(super) const fn question(self) -> Question {
        match self {
            Self::Tape => Question::Readings,
            Self::Level => Question::Packs,
            Self::Straight => Question::Straight,
            Self::Drop => Question::Heights,
        }
    }

    /// What has to be known before its first reading.
    pub(super) const fn needs(self) -> Option<&'static str> {
        match self {
            Self::Straight => Some("block"),
            Self::Drop => Some("level depth"),
            Self::Tape | Self::Level => None,
        }
    }

    /// What of that the file doesn't have.
    pub(super) fn setting(self, file: &JobFile) -> Option<&'static str> {
        let has = match self {
            Self::Straight => file.straight.as_ref().is_some_and(|section| section.block.is_some()),
            Self::Drop => file.heights.as_ref().is_some_and(|section| section.level_depth.is_some()),
            Self::Tape | Self::Level => true,
        };
        self.needs().filter(|_| !has)
    }

    /// Writes that into the booking.
    pub(super) fn set(self, booking: &mut BookingEntry, read: &str) {
        let length = Some(LengthEntry::Text(read.to_owned()));
        match self {
            Self::Straight => booking.straight.get_or_insert_default().block = length,
            Self::Drop => booking.heights.get_or_insert_default().level_depth = length,
            Self::Tape | Self::Level => {}
        }
    }

    /// What is booked already.
    pub(super) fn entries(self, booking: &BookingEntry) -> Vec<Entry> {
        let named = |text: &String| {
            let (name, read) = text.split_once('=')?;
            Some(Entry { name: name.trim().to_owned(), read: read.trim().to_owned() })
        };
        match self {
            Self::Tape => {
                let read = booking.readings.iter().flat_map(|section| section.read.iter().flatten());
                read.filter_map(named).collect()
            }
            Self::Level => {
                let packs = booking.packs.iter();
                let read = packs.flat_map(|section| section.staff.iter().chain(&section.heights));
                read.flatten().flatten().filter_map(named).collect()
            }
            Self::Straight => {
                let read = booking.straight.iter().flat_map(|section| section.readings.iter().flatten());
                let text =
                    |entry: &Option<LengthEntry>| entry.as_ref().map(|entry| entry.text().into_owned());
                read.filter_map(|entry| Some(Entry { name: text(&entry.at)?, read: text(&entry.reading)? }))
                    .collect()
            }
            Self::Drop => {
                let drops = booking.heights.iter().flat_map(|section| section.drops.iter().flatten());
                let entry = |(number, drop): (usize, &LengthEntry)| {
                    let text = drop.text().into_owned();
                    named(&text).unwrap_or(Entry { name: format!("{DROP}{number}"), read: text })
                };
                (1..).zip(drops).map(entry).collect()
            }
        }
    }

    /// Writes the readings into the booking.
    pub(super) fn write(self, booking: &mut BookingEntry, entries: &[Entry]) {
        let pairs = || entries.iter().map(|entry| format!("{}={}", entry.name, entry.read)).collect();
        match self {
            Self::Tape => {
                booking.readings.get_or_insert_with(ReadingsSection::default).read = Some(pairs());
            }
            Self::Level => {
                let packs = booking.packs.get_or_insert_with(PacksSection::default);
                let of_heights = entries.first().is_some_and(|first| is_height(&first.read));
                let (read, other) = if of_heights {
                    (&mut packs.heights, &mut packs.staff)
                } else {
                    (&mut packs.staff, &mut packs.heights)
                };
                (*read, *other) = (Some(vec![pairs()]), None);
            }
            Self::Straight => {
                let length = |text: &str| Some(LengthEntry::Text(text.to_owned()));
                let entry =
                    |entry: &Entry| ReadingEntry { at: length(&entry.name), reading: length(&entry.read) };
                booking.straight.get_or_insert_with(StraightSection::default).readings =
                    Some(entries.iter().map(entry).collect());
            }
            Self::Drop => {
                let entry = |entry: &Entry| match Self::number(&entry.name) {
                    Some(_) => LengthEntry::Text(entry.read.clone()),
                    None => LengthEntry::Text(format!("{}={}", entry.name, entry.read)),
                };
                booking.heights.get_or_insert_with(HeightsSection::default).drops =
                    Some(entries.iter().map(entry).collect());
            }
        }
    }

    /// The one name of what `typed` names, or why it names nothing. A bare number is in `default_units`.
    pub(super) fn name(self, typed: &str, job: &Job, default_units: Units) -> Result<String, String> {
        let footprint = || job.footprint.as_ref().ok_or("there is no plan in the job");
        match self {
            Self::Tape => {
                let footprint = footprint()?;
                let line = footprint.parse_line(typed);
                let (from, to) = line.ok_or_else(|| {
                    format!(
                        "`{}` is no line: write its two corners, such as AB, then what was read",
                        quoted(typed)
                    )
                })?;
                Ok(footprint.line_name(from, to))
            }
            Self::Drop if Self::number(typed).is_some() => Ok(typed.to_owned()),
            Self::Level | Self::Drop => place(typed, job, default_units),
            Self::Straight => {
                let length = Length::parse(typed, default_units).map_err(|error| error.to_string())?;
                let feet = job.units == Units::FeetInches;
                Ok(station(length.mm, if feet { job.units } else { default_units }))
            }
        }
    }

    /// Which drop, from 0, one without a place is by its name: "drop 1" is the first.
    pub(super) fn number(name: &str) -> Option<usize> {
        name.strip_prefix(DROP)?.parse::<usize>().ok()?.checked_sub(1)
    }

    /// The name of the reading behind `taken` others that have no place.
    pub(super) fn numbered(taken: usize) -> String {
        format!("{DROP}{}", taken + 1)
    }
}

/// What a place along a string is called: how far along it is, with its unit where a bare number has none.
pub(super) fn station(mm: f64, units: Units) -> String {
    match units {
        Units::Mm | Units::M => units.figure(mm),
        Units::FeetInches => units.typed(mm),
    }
}

/// Whether a level is a height, up or down, and no reading of a staff: it has a sign, or is nothing.
fn is_height(read: &str) -> bool {
    read.starts_with(['+', '-', '−']) || !read.contains(|c: char| ('1'..='9').contains(&c))
}

/// The one name of a place where the plate lies.
fn place(typed: &str, job: &Job, default_units: Units) -> Result<String, String> {
    let footprint = job.footprint.as_ref().ok_or("there is no plan in the job")?;
    let place = Spot::parse(typed, footprint, default_units).and_then(|place| place.on_plate(footprint));
    Ok(place.map_err(|error| error.to_string())?.name(footprint, job.units))
}
