//! The book itself: what has been typed into it, and what it asks and says.

use super::asking::{Order, called};
use super::kind::{Entry, Kind};
use super::remark::remark;
use super::standing::{Standing, checked};
use super::typed::Typed;
use crate::answer::{Answer, Answered};
use crate::job::{BookingEntry, Job, JobFile};
use crate::length::{Length, Units};
use crate::page::Detail;
use crate::words::quoted;

/// Why a book can't be opened.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct BookError(String);

/// What is said to a line.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Reply {
    /// In lines.
    pub lines: Vec<String>,
    /// Whether the job file has changed, which is to be saved before anything is said.
    pub changed: bool,
}

impl Reply {
    fn of(line: impl Into<String>) -> Self {
        Self { lines: vec![line.into()], changed: false }
    }
}

/// A field book open at one booking.
#[derive(Debug, Clone)]
pub struct Book {
    file: JobFile,
    name: String,
    kind: Kind,
    standing: Standing,
    order: Order,
    asked: Option<String>,
    /// What was passed over, or kept although it looks wrong.
    passed: Vec<String>,
    before: Vec<JobFile>,
}

impl Book {
    /// Opens the book of a job at the booking called `name`, which is begun if it isn't there: plate, brick or a name of your
    /// own for taped lines, level, string and a side, drop.
    pub fn open(file: JobFile, name: &str) -> Result<Self, BookError> {
        let name = if name.trim().is_empty() { "plate" } else { name.trim() }.to_owned();
        let there = file.bookings.iter().flatten().find(|booking| booking.is_called(&name));
        let kind = there.and_then(Kind::of_booking).unwrap_or_else(|| Kind::of(&name));
        let standing = Standing::of(&file, &name, kind).map_err(BookError)?;
        if standing.job.footprint.is_none() && kind != Kind::Drop {
            return Err(BookError("there is no plan in the job: write `plan` in it first".to_owned()));
        }
        let order = Order::default();
        let mut book =
            Self { file, name, kind, standing, order, asked: None, passed: vec![], before: vec![] };
        if kind == Kind::Straight {
            book.on_side()?;
        }
        if kind == Kind::Tape && book.name.to_lowercase().starts_with("brick") {
            book.booking_mut().readings.get_or_insert_default().masonry.get_or_insert(true);
        }
        book.standing = Standing::of(&book.file, &book.name, kind).map_err(BookError)?;
        book.order = Order::of(kind, &book.standing.job, book.side().as_deref());
        book.ask();
        Ok(book)
    }

    /// Makes sure that the side of a string is known.
    fn on_side(&mut self) -> Result<(), BookError> {
        let named = self.name.split_whitespace().nth(1).map(str::to_uppercase);
        let booked = self.side();
        let side = named.or(booked).ok_or_else(|| {
            BookError("which side is the string along? Write it behind, as in `string CD`".to_owned())
        })?;
        if let Some(footprint) = &self.standing.job.footprint {
            footprint.parse_side(&side).map_err(|error| BookError(error.to_string()))?;
        }
        self.booking_mut().straight.get_or_insert_default().side = Some(side);
        Ok(())
    }

    /// What is asked for; nothing once the verdict can be called or all has been asked.
    #[must_use]
    pub fn asked(&self) -> Option<&str> {
        self.asked.as_deref()
    }

    /// The job file as it stands, to be written.
    #[must_use]
    pub const fn file(&self) -> &JobFile {
        &self.file
    }

    /// The job with what is booked here.
    #[must_use]
    pub const fn job(&self) -> &Job {
        &self.standing.job
    }

    /// What it comes to so far; nothing while too little is read.
    #[must_use]
    pub const fn answer(&self) -> Option<&Answer> {
        self.standing.answer.as_ref()
    }

    /// What is booked here and how, in a line.
    #[must_use]
    pub fn heading(&self) -> String {
        let how = "Enter passes over, a name jumps, `- AB` strikes out, ? says where we stand, undo";
        format!("Booking {}: {}. {how}", self.name, self.order.words())
    }

    /// Takes a line, and says what there is to say of it.
    pub fn line(&mut self, typed: &str) -> Reply {
        let read = Typed::read(typed);
        let reply = match read {
            Typed::Nothing => {
                self.passed.extend(self.asked.take());
                Reply::default()
            }
            Typed::WhereWeStand => Reply::of(self.stands()),
            Typed::Undo => self.undo(),
            Typed::Strike(name) => self.strike(name),
            Typed::Name(name) => {
                return match self.name_of(name) {
                    Ok(name) => {
                        self.asked = Some(name);
                        Reply::default()
                    }
                    Err(problem) => Reply::of(problem),
                };
            }
            Typed::Of(name, read) => self.book(name, read),
            Typed::Reading(read) => {
                match (self.kind, read.split_once(char::is_whitespace), self.asked.clone()) {
                    (Kind::Straight, Some((at, read)), _) => self.book(at, read),
                    (_, _, Some(name)) => self.book(&name, read),
                    (_, _, None) => {
                        Reply::of("nothing is asked for: write the name before the reading, as in AB 7802")
                    }
                }
            }
        };
        if self.asked.is_none() || matches!(read, Typed::Undo) {
            self.ask();
        }
        reply
    }

    /// Where things stand, in a line.
    #[must_use]
    pub fn stands(&self) -> String {
        let Standing { job, answer, .. } = &self.standing;
        let verdict = answer.as_ref().and_then(|answer| answer.remarks(job, Detail::Part).verdict);
        verdict
            .map_or_else(|| "nothing can be said yet: too little is read".to_owned(), |verdict| verdict.words)
    }

    fn undo(&mut self) -> Reply {
        let Some(before) = self.before.pop() else { return Reply::of("there is nothing to undo") };
        let undone = std::mem::replace(&mut self.file, before);
        match self.settle(undone) {
            Ok(_) => {
                self.before.pop();
                Reply { lines: vec!["undone".to_owned()], changed: true }
            }
            Err(problem) => Reply::of(problem),
        }
    }

    fn strike(&mut self, typed: &str) -> Reply {
        let name = match self.name_of(typed) {
            Ok(name) => name,
            Err(problem) => return Reply::of(problem),
        };
        let mut entries = self.entries();
        let Some(place) = entries.iter().position(|entry| entry.name == name) else {
            return Reply::of(format!("{name} is not read"));
        };
        let kept = self.file.clone();
        let struck = entries.remove(place);
        self.write(&entries);
        self.struck(&struck);
        match self.settle(kept) {
            Ok(_) => Reply { lines: vec![format!("{name}: {} struck out", struck.read)], changed: true },
            Err(problem) => Reply::of(format!("{name}: not struck out: {problem}")),
        }
    }

    /// Books a reading; one that the job can't be with is not.
    fn book(&mut self, typed_name: &str, read: &str) -> Reply {
        let name = match self.name_of(typed_name) {
            Ok(name) => name,
            Err(problem) => return Reply::of(problem),
        };
        if let Err(problem) = Length::parse(read, self.default_units()) {
            return Reply::of(format!("{name}: not booked: `{}`: {problem}", quoted(read)));
        }
        if let Err(problem) = self.first_level(&name, read) {
            return Reply::of(format!("{name}: not booked: {problem}"));
        }
        let kept = self.file.clone();
        let is_setting = self.kind.needs() == Some(name.as_str());
        let mut replaced = None;
        if is_setting {
            let kind = self.kind;
            kind.set(self.booking_mut(), read);
        } else {
            replaced = self.replace(Entry { name: name.clone(), read: read.to_owned() });
        }
        let before = match self.settle(kept) {
            Ok(before) => before,
            Err(problem) => return Reply::of(format!("{name}: not booked: {problem}")),
        };
        if is_setting {
            return Reply { lines: vec![format!("{name} {read}: booked")], changed: true };
        }
        if replaced.is_some() {
            // Read twice is enough: what is still odd is said in the verdict.
            self.passed.push(name.clone());
        }
        let said = remark(&name, &self.standing, &before);
        self.asked = said.again.filter(|again| !self.passed.contains(again));
        let struck = replaced.map_or_else(String::new, |old| format!(" ({} struck out)", old.read));
        Reply { lines: vec![format!("{name} {read}: {}{struck}", said.words)], changed: true }
    }

    /// Whether a level can be: a first one is no question yet, so that nothing else looks at it.
    fn first_level(&self, name: &str, read: &str) -> Result<(), String> {
        let first = self.kind == Kind::Level && self.standing.answer.is_none();
        let Some(other) = self.order.names.iter().find(|place| first && *place != name) else {
            return Ok(());
        };
        let level = |place: &str| Entry { name: place.to_owned(), read: read.to_owned() };
        let mut booking = BookingEntry::default();
        Kind::Level.write(&mut booking, &[level(name), level(other)]);
        let beside = JobFile { bookings: None, packs: booking.packs, ..self.file.clone().unread() };
        checked(&beside)
            .map(|_| ())
            .map_err(|problem| problem.split("; ").next().unwrap_or_default().to_owned())
    }

    /// Checks what has been written, and gives back how it stood before; if the job can't be so, nothing has been written.
    fn settle(&mut self, kept: JobFile) -> Result<Standing, String> {
        match Standing::of(&self.file, &self.name, self.kind) {
            Ok(standing) => {
                self.before.push(kept);
                self.asked = None;
                Ok(std::mem::replace(&mut self.standing, standing))
            }
            Err(problem) => {
                self.file = kept;
                Err(problem)
            }
        }
    }

    /// Puts a reading in the place of the one of its name, which is struck out; or behind the others.
    fn replace(&mut self, new: Entry) -> Option<Entry> {
        let mut entries = self.entries();
        let place = entries.iter().position(|entry| entry.name == new.name);
        let old = place.map(|place| std::mem::replace(&mut entries[place], new.clone()));
        if old.is_none() {
            entries.push(new);
        }
        self.write(&entries);
        if let Some(old) = &old {
            self.struck(old);
        }
        old
    }

    fn struck(&mut self, entry: &Entry) {
        let text = format!("{}={}", entry.name, entry.read);
        self.booking_mut().struck.get_or_insert_default().push(text);
    }

    /// Asks for what is not read yet, or for what would help most; for nothing once the verdict can be called.
    fn ask(&mut self) {
        self.asked = self.next();
    }

    fn next(&self) -> Option<String> {
        let passed = |name: &str| self.passed.iter().any(|passed| passed == name);
        if let Some(setting) = self.standing.setting.filter(|setting| !passed(setting)) {
            return Some(setting.to_owned());
        }
        let taped = self.standing.taped();
        if taped.is_some_and(called) {
            return None;
        }
        let entries = self.entries();
        if self.kind == Kind::Drop {
            let next = Kind::numbered(entries.len());
            return self.order.names.contains(&next).then_some(next).filter(|next| !passed(next));
        }
        let is_read = |name: &String| entries.iter().any(|entry| entry.name == *name);
        let planned = self.order.names.iter().find(|name| !is_read(name) && !passed(name));
        let helps = || taped?.tape_next.iter().map(|next| &next.name).find(|name| !passed(name));
        planned.or_else(helps).cloned()
    }

    fn name_of(&self, typed: &str) -> Result<String, String> {
        if self.kind.needs() == Some(typed) {
            return Ok(typed.to_owned());
        }
        self.kind.name(typed, &self.standing.job, self.default_units())
    }

    fn default_units(&self) -> Units {
        self.file.units.as_deref().and_then(|units| units.parse().ok()).unwrap_or_default()
    }

    fn booking(&self) -> Option<&BookingEntry> {
        self.file.bookings.iter().flatten().find(|booking| booking.is_called(&self.name))
    }

    fn booking_mut(&mut self) -> &mut BookingEntry {
        let bookings = self.file.bookings.get_or_insert_default();
        let place = bookings.iter().position(|booking| booking.is_called(&self.name));
        let place = place.unwrap_or_else(|| {
            bookings.push(BookingEntry { name: self.name.clone(), ..BookingEntry::default() });
            bookings.len() - 1
        });
        &mut bookings[place]
    }

    /// The side that a string is along.
    fn side(&self) -> Option<String> {
        self.booking()?.straight.as_ref()?.side.clone()
    }

    fn entries(&self) -> Vec<Entry> {
        self.booking().map_or_else(Vec::new, |booking| self.kind.entries(booking))
    }

    fn write(&mut self, entries: &[Entry]) {
        let kind = self.kind;
        kind.write(self.booking_mut(), entries);
    }
}
