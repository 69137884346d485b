//! The book itself: what has been typed into it, and what it asks and says.

use super::asking::{all, called, setting, sides_and_proof, taped};
use super::kind::{Entry, Kind};
use super::remark::remark;
use super::typed::Typed;
use crate::answer::{Answered, Question};
use crate::job::{BookingEntry, Job, JobFile, LengthEntry, PacksSection};
use crate::length::{Length, Units};
use crate::page::Detail;
use crate::words::{and_list, quoted};

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
        let mut book = Self { file, name, kind, asked: None, passed: vec![], before: vec![] };
        let job = book.job()?;
        if job.footprint.is_none() && kind != Kind::Drop {
            return Err(BookError("there is no plan in the job: write `plan` in it first".to_owned()));
        }
        if kind == Kind::Straight {
            book.on_side(&job)?;
        }
        if kind == Kind::Tape && book.name.to_lowercase().starts_with("brick") {
            book.booking_mut().readings.get_or_insert_default().masonry.get_or_insert(true);
        }
        book.ask();
        Ok(book)
    }

    /// Makes sure that the side of a string is known.
    fn on_side(&mut self, job: &Job) -> Result<(), BookError> {
        let named = self.name.split_whitespace().nth(1).map(str::to_uppercase);
        let booked = self.side();
        let side = named.or(booked).ok_or_else(|| {
            BookError("which side is the string along? Write it behind, as in `string CD`".to_owned())
        })?;
        if let Some(footprint) = &job.footprint {
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

    /// The question that the booking answers.
    #[must_use]
    pub const fn question(&self) -> Question {
        self.kind.question()
    }

    /// The job with what is booked here.
    pub fn job(&self) -> Result<Job, BookError> {
        self.checked().map_err(BookError)
    }

    /// What is booked here and how, in a line.
    #[must_use]
    pub fn heading(&self) -> String {
        let how = "Enter passes over, a name jumps, `- AB` strikes out, ? says where we stand, undo";
        let what = self.checked().ok().and_then(|job| {
            if self.kind != Kind::Tape {
                return Some(and_list(&all(self.kind, &job, &[], self.side().as_deref())));
            }
            let (sides, proof) = sides_and_proof(&job)?;
            let order = all(self.kind, &job, &[], None);
            let (proof, spares) = order.get(sides..)?.split_at_checked(proof)?;
            let parts = [format!("{sides} sides"), proof.join(" "), spares.join(" ")];
            Some(parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", then "))
        });
        format!("Booking {}: {}. {how}", self.name, what.unwrap_or_default())
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
    fn stands(&self) -> String {
        let verdict = self.checked().ok().and_then(|job| {
            let answer = job.answer(self.kind.question()).ok()?;
            Some(answer.remarks(&job, Detail::Part).verdict?.words)
        });
        verdict.unwrap_or_else(|| "nothing can be said yet".to_owned())
    }

    fn undo(&mut self) -> Reply {
        match self.before.pop() {
            Some(before) => {
                self.file = before;
                self.asked = None;
                Reply { lines: vec!["undone".to_owned()], changed: true }
            }
            None => Reply::of("there is nothing to undo"),
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
        self.before.push(self.file.clone());
        let struck = entries.remove(place);
        self.write(&entries);
        self.struck(&struck);
        self.asked = None;
        Reply { lines: vec![format!("{name}: {} struck out", struck.read)], changed: true }
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
        let before = self.checked().ok().filter(|_| self.kind == Kind::Tape).and_then(|job| taped(&job));
        let new = Entry { name: name.clone(), read: read.to_owned() };
        let replaced = if self.set(&name, read) { None } else { self.replace(new) };
        let job = match self.checked() {
            Ok(job) => job,
            Err(problem) => {
                self.file = kept;
                return Reply::of(format!("{name}: not booked: {problem}"));
            }
        };
        self.before.push(kept);
        self.asked = None;
        if setting(self.kind, &JobFile::default()) == Some(name.as_str()) {
            return Reply { lines: vec![format!("{name} {read}: booked")], changed: true };
        }
        if replaced.is_some() {
            // Read twice is enough: what is still odd is said in the verdict.
            self.passed.push(name.clone());
        }
        let said = remark(self.kind, &name, &job, before.as_deref());
        self.asked = said.again.filter(|again| !self.passed.contains(again));
        let struck = replaced.map_or_else(String::new, |old| format!(" ({} struck out)", old.read));
        Reply { lines: vec![format!("{name} {read}: {}{struck}", said.words)], changed: true }
    }

    /// Whether a level can be: a first one is no question yet, so that nothing else looks at it.
    fn first_level(&self, name: &str, read: &str) -> Result<(), String> {
        let places = all(Kind::Level, &self.checked()?, &[], None);
        let Some(other) = places.iter().find(|place| self.kind == Kind::Level && *place != name) else {
            return Ok(());
        };
        let staff = Some(vec![vec![format!("{name}={read}"), format!("{other}={read}")]]);
        let packs = Some(PacksSection { staff, ..PacksSection::default() });
        let beside = JobFile { bookings: None, packs, ..self.file.clone().unread() };
        checked(&beside)
            .map(|_| ())
            .map_err(|problem| problem.split("; ").next().unwrap_or_default().to_owned())
    }

    /// Sets what is no reading but has to be known for them; says whether it was that.
    fn set(&mut self, name: &str, read: &str) -> bool {
        let length = Some(LengthEntry::Text(read.to_owned()));
        match name {
            "block" => self.booking_mut().straight.get_or_insert_default().block = length,
            "level depth" => self.booking_mut().heights.get_or_insert_default().level_depth = length,
            _ => return false,
        }
        true
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
        let job = self.checked().ok()?;
        let file = self.file.clone().booked(Some(&self.name)).unwrap_or_else(|_| self.file.clone());
        if let Some(setting) =
            setting(self.kind, &file).filter(|setting| !self.passed.iter().any(|p| p == setting))
        {
            return Some(setting.to_owned());
        }
        let entries = self.entries();
        let side = self.side();
        let is_read = |name: &String| entries.iter().any(|entry| entry.name == *name);
        let open = |name: &String| !is_read(name) && !self.passed.contains(name);
        let answer = if self.kind == Kind::Tape { taped(&job) } else { None };
        if answer.as_ref().is_some_and(|answer| called(answer)) {
            return None;
        }
        let planned = all(self.kind, &job, &entries, side.as_deref()).into_iter().find(open);
        planned.or_else(|| {
            let helps = answer?.tape_next.iter().map(|next| next.name.clone()).collect::<Vec<_>>();
            helps.into_iter().find(|name| !self.passed.contains(name))
        })
    }

    fn name_of(&self, typed: &str) -> Result<String, String> {
        let job = self.checked()?;
        if setting(self.kind, &JobFile::default()) == Some(typed) {
            return Ok(typed.to_owned());
        }
        self.kind.name(typed, &job, self.default_units())
    }

    fn default_units(&self) -> Units {
        self.file.units.as_deref().and_then(|units| units.parse().ok()).unwrap_or_default()
    }

    /// The job with this booking in it.
    fn checked(&self) -> Result<Job, String> {
        let named = self.booking().map(|booking| booking.name.clone());
        let file = self.file.clone().booked(named.as_deref()).map_err(|fault| fault.message)?;
        checked(&if named.is_none() { file.unread() } else { file })
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

/// The checked job, or all that is wrong with it in a line.
fn checked(file: &JobFile) -> Result<Job, String> {
    Job::check(file)
        .map_err(|faults| faults.iter().map(|fault| fault.message.clone()).collect::<Vec<_>>().join("; "))
}
