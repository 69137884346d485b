//! The joists in plain sentences.

use crate::joists::{Held, JoistEnd, JoistVerdict, Joists, Levels, Role};
use crate::length::Units;
use crate::words::{and_list, count};

/// What the joiner is told first, one plain sentence each.
pub(super) fn sentences(answer: &Joists, units: Units) -> Vec<String> {
    let mut said = vec![headline(answer, units)];
    if answer.verdict != JoistVerdict::SetOut {
        said.push(how_many(answer, units));
    }
    if let Some(levels) = &answer.levels {
        if !levels.unread.is_empty() {
            said.push(format!(
                "heights are not read on both sides of every joist on {}: what goes under those is not worked out",
                and_list(&levels.unread)
            ));
        }
        if !levels.proven {
            said.push("too many ways to share out the packers to try them all: better may be had".to_owned());
        }
    }
    said
}

fn headline(answer: &Joists, units: Units) -> String {
    match answer.verdict {
        JoistVerdict::SetOut => {
            let levels = answer.levels.as_ref().map(|levels| format!("; {}", made_up(answer, levels, units)));
            format!("{}{}", how_many(answer, units), levels.unwrap_or_default())
        }
        JoistVerdict::Short => short(answer, units),
        JoistVerdict::AgainstRule => {
            let key = answer.rule.map_or("", |rule| rule.key);
            let broken: Vec<String> = answer
                .checks
                .iter()
                .filter(|check| !check.kept)
                .map(|check| {
                    let most = if check.at_most { "most" } else { "least" };
                    format!(
                        "{} {}, and {key} has {} at {most}",
                        check.what,
                        units.fine(check.is.0),
                        units.fine(check.limit.0)
                    )
                })
                .collect();
            broken.join("; ")
        }
    }
}

/// What is missing to make every gap up.
fn short(answer: &Joists, units: Units) -> String {
    if let Some(fetch) = answer.levels.as_ref().and_then(|levels| levels.fetch) {
        return format!(
            "short of packers: {} more of {} make all {} joists up",
            fetch.more,
            units.gap(fetch.thickness.0),
            fetch.places
        );
    }
    let bad = |end: &JoistEnd| end.seat.as_ref().is_some_and(|seat| !seat.made_up);
    let short = answer.joists.iter().filter(|joist| bad(&joist.from) || bad(&joist.to));
    let short: Vec<&str> = short.map(|joist| joist.name.as_str()).collect();
    let joists = if short.len() == 1 { "joist" } else { "joists" };
    format!("the packers named don't make up the gap under {joists} {}", and_list(&short))
}

/// How many joists of which lengths.
fn how_many(answer: &Joists, units: Units) -> String {
    let whole = || answer.joists.iter().filter(|joist| joist.role != Role::Cut);
    let mut lengths: Vec<(String, usize)> = vec![];
    for joist in whole() {
        let length = units.with_unit(joist.length.0);
        match lengths.iter_mut().find(|(known, _)| *known == length) {
            Some((_, number)) => *number += 1,
            None => lengths.push((length, 1)),
        }
    }
    let lengths: Vec<String> =
        lengths.into_iter().map(|(length, number)| format!("{number} of {length}")).collect();
    let cut = match answer.joists.len() - whole().count() {
        0 => String::new(),
        n => format!(", and {n} cut ones at the openings"),
    };
    format!(
        "{} from {} at {} centres: {}{cut}",
        count(whole().count(), "joist"),
        answer.set_out_from,
        units.centres(answer.centres.0),
        and_list(&lengths)
    )
}

/// What goes under them, and how far hangers move.
fn made_up(answer: &Joists, levels: &Levels, units: Units) -> String {
    let hung = answer.joists.iter().flat_map(|joist| [&joist.from, &joist.to]);
    let moves = hung.filter(|end| end.held == Held::Hung).filter_map(|end| Some(end.seat.as_ref()?.up.0));
    let (mut up, mut down) = (0.0_f64, 0.0_f64);
    for by in moves {
        (up, down) = (up.max(by), down.max(-by));
    }
    let mut parts = vec![];
    if levels.worst.0 > 0.0 {
        parts.push(format!("pack up to {}", units.depth(levels.worst.0)));
    } else {
        parts.push("nothing to pack".to_owned());
    }
    for (by, way) in [(up, "raise"), (down, "lower")] {
        if by >= 0.05 {
            parts.push(format!("{way} hangers up to {}", units.gap(by)));
        }
    }
    parts.join(", ")
}
