//! What is said of a reading as soon as it is booked.

use super::asking::called;
use super::kind::{Kind, station};
use super::standing::Standing;
use crate::answer::Answer;
use crate::heights::{FromDrop, Heights};
use crate::length::Units;
use crate::lines::Straight;
use crate::packing::Packs;
use crate::plan::Footprint;
use crate::readings::{Clue, Readings, Reason, Verdict, likely};
use crate::report::stack;
use crate::words::{and_list, or_list};

/// A reading this far off the plan is asked for again before anything else can check it, mm: three times what an outline
/// is taken to be built within.
const FAR: f64 = 30.0;

/// How near a slip has to come to a usual one to be called it, mm.
const NEAR: f64 = 6.0;

/// What is said, and what is to be read again because of it.
pub(super) struct Remark {
    pub(super) words: String,
    pub(super) again: Option<String>,
}

impl Remark {
    fn fine(words: impl Into<String>) -> Self {
        Self { words: words.into(), again: None }
    }

    fn again(words: impl Into<String>, name: &str) -> Self {
        Self { words: words.into(), again: Some(name.to_owned()) }
    }
}

/// What is said of the reading called `name`, which `before` is without.
pub(super) fn remark(name: &str, standing: &Standing, before: &Standing) -> Remark {
    let job = &standing.job;
    let said = match (&standing.answer, &job.footprint) {
        (Some(Answer::Readings(answer)), Some(footprint)) => {
            of_line(name, answer, footprint, job.units, before.taped())
        }
        (Some(Answer::Packs(answer)), _) => of_level(name, answer, job.units),
        (Some(Answer::Straight(answer)), _) => of_station(name, answer, job.units),
        (Some(Answer::Heights(answer)), _) => of_drop(name, answer, job.units),
        _ => None,
    };
    said.unwrap_or_else(|| Remark::fine("booked"))
}

fn long(mm: f64, units: Units) -> String {
    format!("{} {}", units.short(mm.abs()), if mm < 0.0 { "short" } else { "long" })
}

fn of_line(
    name: &str,
    answer: &Readings,
    footprint: &Footprint,
    units: Units,
    before: Option<&Readings>,
) -> Option<Remark> {
    let line = answer.readings.iter().find(|line| line.name == name)?;
    let (from, to) = footprint.parse_line(name)?;
    let corners = footprint.corners();
    let slip = line.used.0 - corners[from].at.distance(corners[to].at);
    let cause = |slip: f64| {
        let held_on = line.corrections.held_on.map_or(0.0, |mm| mm.0);
        likely(slip, NEAR, Clue { read: line.read.0, held_on, units }).map(|cause| cause.words(units))
    };
    let again = |slip: f64| match cause(slip) {
        Some(cause) => format!("{cause}? Again; Enter keeps it"),
        None => "again; Enter keeps it".to_owned(),
    };
    let fixed = |answer: &Readings| answer.rank == answer.needed;
    if !fixed(answer) && slip.abs() > FAR {
        return Some(Remark::again(format!("{}: {}", long(slip, units), again(slip)), name));
    }
    if answer.verdict == Verdict::Misread {
        return Some(misread(name, answer, units, again));
    }
    let mut words = units.difference(slip).unwrap_or_else(|| "as drawn".to_owned());
    if fixed(answer) && before.is_none_or(|before| !fixed(before)) {
        words.push_str("; the shape is fixed");
        let checks = answer.tape_next.iter().filter(|next| next.reason == Reason::Checks);
        let checks: Vec<&str> = checks.map(|next| next.name.as_str()).collect();
        if !checks.is_empty() {
            words = format!("{words}; {} would show a misread", or_list(&checks));
        }
    } else if answer.degrees_of_freedom > 0 {
        words.push_str("; all agree");
    }
    if called(answer) {
        words.push_str("; that is enough");
    }
    Some(Remark::fine(words))
}

/// What doesn't fit: this line, or others that it shows up.
fn misread(name: &str, answer: &Readings, units: Units, again: impl Fn(f64) -> String) -> Remark {
    let named: Vec<&str> = match answer.misreads.first() {
        Some(misread) => match &misread.name {
            Some(name) => vec![name],
            None => misread.tied.iter().map(|suspect| suspect.name.as_str()).collect(),
        },
        None => vec![],
    };
    let slip = answer.readings.iter().find(|line| line.name == name).and_then(|line| line.slip);
    match (&named[..], slip) {
        ([one], Some(slip)) if *one == name => Remark::again(
            format!("{} of what the others make it: {}", long(slip.0, units), again(slip.0)),
            name,
        ),
        ([], _) => Remark::fine("the readings contradict each other"),
        ([one], _) => Remark::again(format!("{one} doesn't fit with it: {one} again; Enter keeps it"), one),
        ([first, ..], _) => {
            let names: Vec<String> = named.iter().map(|name| (*name).to_owned()).collect();
            let again = if named.contains(&name) { name } else { first };
            Remark::again(
                format!("one of {} is wrong: {again} again; Enter keeps it", and_list(&names)),
                again,
            )
        }
    }
}

fn of_level(name: &str, answer: &Packs, units: Units) -> Option<Remark> {
    if let Some(again) = &answer.read_again {
        let way = if again.beyond.0 < 0.0 { "below" } else { "above" };
        let words = format!(
            "{} lies {} {way} all the others: {} again; Enter keeps it",
            again.name,
            units.gap(again.beyond.0.abs()),
            again.name
        );
        return Some(Remark::again(words, &again.name));
    }
    let station = answer.stations.iter().find(|station| station.name == name)?;
    let pack = units.depth(station.pack.0);
    Some(Remark::fine(if station.pack.0 <= 0.0 {
        "the highest so far".to_owned()
    } else if station.packers.is_empty() {
        format!("{pack} under {}", answer.datum.name)
    } else {
        format!("{pack} under {}: {}", answer.datum.name, stack(&station.packers, units))
    }))
}

fn of_station(name: &str, answer: &Straight, units: Units) -> Option<Remark> {
    let station = answer.stations.iter().find(|read| station(read.at.0, units) == name)?;
    let size = units.small(station.out.0.abs());
    let way = if station.out.0 > 0.0 { "too far from the string" } else { "too near the string" };
    let words =
        if units.on_tape(station.out.0) == 0.0 { "in line".to_owned() } else { format!("{size} {way}") };
    Some(if station.out.0.abs() > FAR {
        Remark::again(format!("{words}: again; Enter keeps it"), name)
    } else {
        Remark::fine(if station.over { format!("{words}, over the limit") } else { words })
    })
}

fn of_drop(name: &str, answer: &Heights, units: Units) -> Option<Remark> {
    let of_place = |drop: &FromDrop| drop.place.as_deref() == Some(name);
    let drop = match Kind::number(name) {
        Some(number) => answer.drops.get(number),
        None => answer.drops.iter().find(|drop| of_place(drop)),
    }?;
    let words = format!("the wall head is {} up", units.with_unit(drop.wall_head.0));
    Some(if drop.read_again {
        Remark::again(format!("{words}, away from the others: again; Enter keeps it"), name)
    } else {
        Remark::fine(words)
    })
}
