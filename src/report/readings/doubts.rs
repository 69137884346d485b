//! Line 1 where a reading is wrong, or may be: which, by how much, and what to tape for it.

use super::slips::{self, few};
use crate::length::Units;
use crate::readings::{Explains, Misread, Readings, Reason, Verdict, off_words};
use crate::words::{and_list, capital, or_list};

/// What to tape, to put right or to add, in the order of what says most: the first that fits is told.
pub(super) fn misread(answer: &Readings, units: Units) -> Vec<String> {
    if let Some(words) = every_reading(answer, units) {
        return words;
    }
    if let Some(words) = exchanged(answer).or_else(|| doubted(answer, units)) {
        return words;
    }
    let rest = rest(answer);
    match &answer.misreads[..] {
        [] => without_findings(answer),
        [one] => vec![
            format!("Misread: {}{rest}", one_words(answer, one, units)),
            format!("Misread: tape {}{rest}", lines(answer, one, 2, or_list)),
        ],
        _ => several_wrong(answer, rest, units),
    }
}

fn rest(answer: &Readings) -> &'static str {
    match answer.rest {
        Some(Verdict::Square) => "; the rest is square",
        Some(Verdict::Out) => "; the rest is out of square",
        Some(Verdict::NotFixed) => "; the rest is not fixed",
        Some(Verdict::Misread) | None => "",
    }
}

/// What is on every reading, and what to say so that it is taken off.
fn every_reading(answer: &Readings, units: Units) -> Option<Vec<String>> {
    let first = answer.named(Explains::Every)?;
    let head = capital(&first.says);
    let then = match answer.rest {
        Some(Verdict::Square) => ": then all is square and to size",
        Some(Verdict::Out) => ": the rest is out",
        _ => "",
    };
    let Some(add) = &first.add else {
        return Some(vec![
            format!("{head}: was the tape not held on after all? Leave that out{then}"),
            format!("{head}: leave out what was held on"),
        ]);
    };
    let held = units.short(first.held_on?.0);
    let mut choices = vec![
        format!("{head}: was the tape held on {held}? Add {add}{then}"),
        format!("{head}: held on? Add {add}{then}"),
    ];
    if answer.rest == Some(Verdict::Square) {
        choices.push(format!("{head}; add {add}: then square and to size"));
    }
    choices.push(format!("{head}: add {add}"));
    Some(choices)
}

/// Two lines written against each other's name.
fn exchanged(answer: &Readings) -> Option<Vec<String>> {
    let first = answer.named(Explains::Exchanged)?;
    Some(vec![format!("{}: put them right", first.says)])
}

/// Where it is likelier than not that nothing is wrong, and yet not likely enough to move anything; or where one reading
/// alone is wrong, if any.
fn doubted(answer: &Readings, units: Units) -> Option<Vec<String>> {
    let [open] = &answer.misreads[..] else { return None };
    let alone = open.name.is_none() && open.tied.len() == 1;
    let mut likely = answer.explanations.iter().take(if alone { 2 } else { 1 });
    let nothing = likely.find(|e| e.what == Explains::Nothing)?;
    if let [one] = &open.tied[..] {
        let slip = off_words(one.slip.0, units);
        let what = lines(answer, open, 2, and_list);
        let it =
            if answer.to_tape(Reason::Again).is_empty() { format!("{} ", one.name) } else { String::new() };
        return Some(vec![format!("Tape {what} before anything is moved: {it}{slip}, or built so")]);
    }
    let odds = slips::odds(1.0 - nothing.odds.0);
    let tell = |most: usize| {
        let what = lines(answer, open, most, and_list);
        format!("Tape {what} before anything is moved: {odds} that one is wrong")
    };
    Some(vec![tell(4), tell(1)])
}

/// So many are wrong at least: those named, and what may be wrong besides.
fn several_wrong(answer: &Readings, rest: &str, units: Units) -> Vec<String> {
    let named: Vec<(&String, f64)> =
        answer.misreads.iter().filter_map(|m| Some((m.name.as_ref()?, m.tied.first()?.slip.0))).collect();
    let open = answer.misreads.iter().find(|m| m.name.is_none());
    let open: Vec<String> = open.iter().flat_map(|m| &m.tied).map(|t| t.name.clone()).collect();
    let more = if open.is_empty() {
        rest.to_owned()
    } else {
        format!("; {} may be wrong too", or_list(&few(&open, 3)))
    };
    let off = match named[..] {
        [(_, slip)] => format!(", {}", off_words(slip, units)),
        _ => String::new(),
    };
    let names: Vec<String> = named.iter().map(|(name, _)| (*name).clone()).collect();
    let head = match named.len() {
        1 => "Misread: ".to_owned(),
        n => format!("Misread: at least {n}: "),
    };
    let again = answer.to_tape(Reason::Again);
    let settles = others(answer);
    let tape = |lines: &[String]| {
        if names.iter().all(|name| again.contains(name)) {
            format!("{head}tape {} again", and_list(lines))
        } else {
            format!("{head}tape {settles}, to settle {}", and_list(lines))
        }
    };
    vec![
        format!("{}{off}{more}", tape(&names)),
        format!("{}{more}", tape(&names)),
        tape(&few(&names, 6)),
        format!("Misread: at least {} readings", named.len()),
    ]
}

/// `tape BF again, it reads about 100 mm short`, or the tied.
fn one_words(answer: &Readings, misread: &Misread, units: Units) -> String {
    let what = lines(answer, misread, 6, and_list);
    if let (Some(name), [first, ..]) = (&misread.name, &misread.tied[..]) {
        let it = if answer.to_tape(Reason::Again).contains(name) { "it" } else { name };
        format!("tape {what}, {it} reads {}", off_words(first.slip.0, units))
    } else {
        // Whether one is wrong at all is open where nothing may be.
        let sure = answer.explanations.iter().all(|e| e.what != Explains::Nothing);
        let is = if sure { "is" } else { "is likely" };
        format!("tape {what}: one {is} wrong at least, no telling which")
    }
}

/// The lines not taped yet that settle it, or that fix the outline without what is doubted.
fn others(answer: &Readings) -> String {
    let settles = answer.to_tape(Reason::Settles);
    if settles.is_empty() {
        and_list(&few(&answer.to_tape(Reason::Fixes), 2))
    } else {
        or_list(&few(&settles, 2))
    }
}

/// What to tape for a misread: `EF or FH again`; what was read alike already isn't read again, but a line that settles it is.
fn lines(answer: &Readings, misread: &Misread, most: usize, list: fn(&[String]) -> String) -> String {
    let again = answer.to_tape(Reason::Again);
    let tied: Vec<String> =
        misread.tied.iter().map(|t| t.name.clone()).filter(|name| again.contains(name)).collect();
    if tied.is_empty() { others(answer) } else { format!("{} again", list(&few(&tied, most))) }
}

/// Nothing stands out among the readings, and yet they can't be right.
fn without_findings(answer: &Readings) -> Vec<String> {
    if !answer.folded.is_empty() {
        return vec![format!(
            "Misread: the outline comes out folded over at {}",
            and_list(&few(&answer.folded, 6))
        )];
    }
    vec!["Misread: the readings contradict each other, and no outline fits them".to_owned()]
}
