//! The one line that the eye meets first.

use super::doubts::misread;
use super::slips::{self, few};
use crate::geometry::Mm;
use crate::length::Units;
use crate::page::{self, WIDTH, ascii};
use crate::readings::{
    Angle, COVERAGE, Call, Component, End, LaidBy, Overhang, Readings, Reason, Side, Verdict, off_words,
};
use crate::words::{and_list, count};

/// The verdict in one line.
pub(super) fn verdict(answer: &Readings, units: Units) -> page::Verdict {
    let choices = match answer.verdict {
        Verdict::Square | Verdict::Out if is_brickwork_alone(answer) => brickwork(answer, units),
        Verdict::Square => square(answer, units),
        Verdict::Out => out(answer, units),
        Verdict::Misread => misread(answer, units),
        Verdict::NotFixed => not_fixed(answer),
    };
    page::Verdict { good: answer.verdict.good(), words: fitting(choices) }
}

/// The first choice that fits on one line; the last fits whatever it is about.
fn fitting(choices: Vec<String>) -> String {
    let fits = |words: &String| ascii(words).chars().count() <= WIDTH;
    let last = choices.last().cloned();
    choices.into_iter().find(fits).or(last).unwrap_or_default()
}

/// The end of a side that is farthest out, among the corners that `wanted` takes.
fn worst(answer: &Readings, wanted: impl Fn(&Angle) -> bool) -> Option<(&Angle, &End)> {
    answer
        .angles
        .iter()
        .filter(|angle| wanted(angle))
        .map(|angle| (angle, angle.worst_end()))
        .reduce(|a, b| if b.1.out.0.abs() > a.1.out.0.abs() { b } else { a })
}

/// ` within 5.0 mm`, ` within din-18202`.
fn within(answer: &Readings, units: Units) -> String {
    match answer.limit.map(|limit| (limit.own, limit.preset)) {
        Some((Some(own), _)) => format!(" within {}", units.small(own.0)),
        Some((_, Some(preset))) => format!(" within {}", preset.key),
        _ => String::new(),
    }
}

fn square(answer: &Readings, units: Units) -> Vec<String> {
    if let Some(masonry) = &answer.masonry
        && let Some(limit) = masonry.limit
    {
        let by = units.small(masonry.overhang.0.max(masonry.setback.0));
        let limit = units.small(limit.0);
        return if masonry.too_close == Some(true) {
            vec![
                format!(
                    "The plate fits by the best estimate, too close to call: {by} off, the limit is {limit}"
                ),
                "The plate fits by the best estimate, too close to call".to_owned(),
            ]
        } else {
            vec![format!("The plate fits: it overhangs or stands back {by} at most, the limit is {limit}")]
        };
    }
    let most = worst(answer, |_| true).map_or(0.0, |(_, end)| end.out.0.abs());
    let head = if answer.to_size == Some(true) && answer.masonry.is_none() {
        format!("Square and to size{}", within(answer, units))
    } else {
        format!("Square{}", within(answer, units))
    };
    if !answer.too_close.is_empty() {
        let tell = |corners: usize| {
            format!(
                "{head}, best estimate; too close to call: {}",
                and_list(&few(&answer.too_close, corners))
            )
        };
        return vec![tell(6), tell(2)];
    }
    if answer.degrees_of_freedom == 0 {
        return vec![
            format!("{head} if no reading is wrong, which nothing checks"),
            "Square if no reading is wrong, which nothing checks".to_owned(),
        ];
    }
    let mut choices = vec![];
    if !answer.unchecked.is_empty() {
        choices.push(format!("{head}; nothing checks {}", and_list(&few(&answer.unchecked, 3))));
    }
    choices.push(format!("{head}: corners within {}. Nothing to move", slips::within(most, units)));
    choices.push(head);
    choices
}

/// `; the limit is 10.0 mm`, where the limit is the user's own.
fn over(answer: &Readings, units: Units) -> String {
    let own = answer.limit.and_then(|limit| limit.own);
    own.map_or_else(String::new, |limit| format!("; the limit is {}", units.small(limit.0)))
}

fn out(answer: &Readings, units: Units) -> Vec<String> {
    if let Some(masonry) = &answer.masonry
        && let Some(limit) = masonry.limit
    {
        return out_of_masonry(answer, limit.0, units);
    }
    let limit = over(answer, units);
    let more = parts(answer);
    let Some((angle, end)) = worst(answer, |angle| !angle.within) else {
        if answer.to_size == Some(false) {
            let sides = off_size(answer, units);
            return vec![
                format!("Square, but not to size: {sides}{limit}. {more}"),
                format!("Square, but not to size: {sides}. {more}"),
                format!("Square, but not to size: {sides}"),
                "Square, but not to size".to_owned(),
            ];
        }
        let place = place(answer, units).unwrap_or_else(|| "a corner stands out of its place".to_owned());
        return vec![format!("Out of place: {place}{limit}. {more}"), format!("Out of place: {place}")];
    };
    let way = if end.out.0 < 0.0 { "closed" } else { "open" };
    let by =
        format!("{} is {way} by {} at the end of {}", angle.corner, units.small(end.out.0.abs()), end.side);
    let place = place(answer, units);
    let mut choices = vec![];
    if !is_sure(answer) {
        let head = "Out by the best estimate, too close to call";
        // A corner may be out of square at the end of a side with no part out of its place.
        let place = place.as_ref().filter(|_| farthest(answer) > end.limit.map_or(0.0, |limit| limit.0));
        choices.extend([place, Some(&by)].into_iter().flatten().map(|at| format!("{head}: {at}")));
        choices.push(head.to_owned());
        return choices;
    }
    if let Some(place) = place {
        choices.push(format!("Out: {place}{limit}. {more}"));
        choices.push(format!("Out: {place}. {more}"));
        choices.push(format!("Out: {place}"));
    } else if let Some(limit) = end.limit {
        choices.push(format!("Out of square: {by}, over the limit of {}", units.small(limit.0)));
    } else {
        choices.push(format!("Out of square: {by} (±{})", units.small(end.uncertainty.0)));
    }
    choices.push(format!("Out of square: {by}"));
    choices
}

/// The parts that are told to move by themselves and not with a whole side, each with its corner.
fn own_parts(answer: &Readings) -> impl Iterator<Item = (&str, &Component)> {
    let parts = answer.moves.iter().flat_map(|m| m.components.iter().map(|part| (m.corner.as_str(), part)));
    parts.filter(|(_, part)| part.told && part.with_side.is_none())
}

/// How far the part that is told to move farthest stands from its place, mm.
fn farthest(answer: &Readings) -> f64 {
    let sides = answer.side_moves.iter().map(|side| side.distance.0.abs());
    sides.chain(own_parts(answer).map(|(_, part)| part.distance.0.abs())).fold(0.0, f64::max)
}

/// Whether something is out whatever the tapes' error: a corner open or closed, a part out of its place, the house itself.
fn is_sure(answer: &Readings) -> bool {
    let limit = answer.limit.map_or(Some(Mm(0.0)), |limit| limit.own);
    let past = |by: Mm, sd: Mm| limit.is_some_and(|limit| by.0.abs() - COVERAGE * sd.0 > limit.0);
    answer.angles.iter().any(|angle| angle.call == Call::Out)
        || answer.side_moves.iter().any(|side| past(side.distance, side.sd))
        || own_parts(answer).any(|(_, part)| past(part.distance, part.sd))
        || !answer.house.is_empty()
}

/// `One corner to move`, `2 sides and 1 corner to move`.
fn parts(answer: &Readings) -> String {
    let mut corners: Vec<&str> = own_parts(answer).map(|(corner, _)| corner).collect();
    corners.dedup();
    let corners = corners.len();
    match (answer.side_moves.len(), corners) {
        (0, 0) => "Nothing to move".to_owned(),
        (1, 0) => "One side to move".to_owned(),
        (0, 1) => "One corner to move".to_owned(),
        (sides, 0) => format!("{sides} sides to move"),
        (0, corners) => format!("{corners} corners to move"),
        (sides, corners) => format!("{} and {} to move", count(sides, "side"), count(corners, "corner")),
    }
}

/// Whether it is masonry that no limit judges: then nothing is to be moved, and the plate is laid as well as can be.
fn is_brickwork_alone(answer: &Readings) -> bool {
    answer.masonry.as_ref().is_some_and(|masonry| masonry.limit.is_none()) && answer.degrees_of_freedom > 0
}

/// What the bricklayer left: which sides are long or short, and where the plate stands off them farthest.
fn brickwork(answer: &Readings, units: Units) -> Vec<String> {
    let sides = off_size(answer, units);
    let sides = if sides.is_empty() { "Brickwork to size".to_owned() } else { format!("Brickwork: {sides}") };
    match worst_overhang(&answer.overhangs, units) {
        Some((side, stands)) => vec![format!("{sides}; the plate {stands}, side {side}"), sides],
        None => vec![sides],
    }
}

/// The side on which the plate stands off the masonry farthest, and how: `overhangs 12.3 mm at F`.
fn worst_overhang<'a>(
    overhangs: impl IntoIterator<Item = &'a Overhang>,
    units: Units,
) -> Option<(&'a str, String)> {
    let ends = overhangs.into_iter().flat_map(|o| [(o, 0, o.start.0), (o, 1, o.end.0)]);
    let (side, end, by) = ends.reduce(|a, b| if b.2.abs() > a.2.abs() { b } else { a })?;
    let verb = if by > 0.0 { "overhangs" } else { "stands back" };
    let at = side.side.chars().nth(end).map(String::from).unwrap_or_default();
    Some((&side.side, format!("{verb} {} at {at}", units.small(by.abs()))))
}

fn out_of_masonry(answer: &Readings, limit: f64, units: Units) -> Vec<String> {
    let over = || answer.overhangs.iter().filter(|o| o.over == Some(true));
    let Some((side, stands)) = worst_overhang(over(), units) else {
        return vec!["The plate does not fit".to_owned()];
    };
    let told = format!("side {side} {stands}");
    if over().all(|o| o.too_close == Some(true)) {
        return vec![
            format!("The plate does not fit by the best estimate, too close to call: {told}"),
            "The plate does not fit by the best estimate, too close to call".to_owned(),
        ];
    }
    vec![
        format!("The plate does not fit: {told}, over the limit of {}", units.small(limit)),
        format!("The plate does not fit: {told}"),
    ]
}

/// The sides that are too long or too short: `BC and DA 100 mm long`.
fn off_size(answer: &Readings, units: Units) -> String {
    let mut off: Vec<&Side> = answer.sides.iter().filter(|side| !side.within).collect();
    off.sort_by(|a, b| b.difference.0.abs().total_cmp(&a.difference.0.abs()));
    let by = |side: &Side| off_words(side.difference.0, units).replace("about ", "");
    let Some(worst) = off.first() else { return String::new() };
    let same_way = |side: &&&Side| side.difference.0 * worst.difference.0 > 0.0;
    let alike: Vec<&&Side> = off.iter().filter(same_way).collect();
    let more = off.len() - alike.len();
    let names: Vec<String> = alike.iter().map(|side| side.name.clone()).collect();
    let up_to = if alike.iter().all(|side| by(side) == by(worst)) { "" } else { "up to " };
    let words = format!("{} {up_to}{}", and_list(&few(&names, 4)), by(worst));
    if more == 0 { words } else { format!("{words}, and {more} more") }
}

/// The place on site that is farthest out: `E stands 26 mm too far from F`.
fn place(answer: &Readings, units: Units) -> Option<String> {
    answer.fit.as_ref().filter(|fit| fit.kind == LaidBy::Held || fit.kind == LaidBy::Fewest)?;
    if let Some(house) = answer.house.iter().max_by(|a, b| a.into.0.abs().total_cmp(&b.into.0.abs())) {
        let way = if house.into.0 > 0.0 { "into" } else { "back from" };
        let by = units.short(house.into.0.abs());
        let run = units.figure(units.on_tape(house.cut.0));
        return Some(format!(
            "the house is out at {}, {by} {way} the plan: make {} {run}",
            house.corner, house.run
        ));
    }
    let side = answer.side_moves.first();
    let corner =
        own_parts(answer).reduce(|a, b| if b.1.distance.0.abs() > a.1.distance.0.abs() { b } else { a });
    let corner_by = corner.map_or(0.0, |(_, c)| c.distance.0.abs());
    if let Some(side) = side.filter(|side| side.distance.0.abs() > corner_by) {
        // What is moved out stands in.
        let way = if side.distance.0 > 0.0 { "in" } else { "out" };
        return Some(format!(
            "side {} stands {} too far {way}",
            side.side,
            units.short(side.distance.0.abs())
        ));
    }
    let (name, component) = corner?;
    let way = if component.distance.0 < 0.0 { "far from" } else { "near" };
    let by = units.short(component.distance.0.abs());
    Some(format!("{name} stands {by} too {way} {}", component.from))
}

fn not_fixed(answer: &Readings) -> Vec<String> {
    let lines = answer.to_tape(Reason::Fixes);
    // A loose outline needs them all; one that is held weakly needs the best of them.
    let weak = answer.rank >= answer.needed;
    let head = if weak {
        format!("Not fixed: {} held too weakly", and_list(&few(&answer.loose, 4)))
    } else {
        format!("Not fixed: {} of the {} distances that it takes", answer.rank, answer.needed)
    };
    let tape = |most: usize| match &lines[..] {
        [] => "no line that can be taped would fix it".to_owned(),
        _ if weak => format!("tape {} as well", lines[0]),
        _ => format!("tape {} as well", and_list(&few(&lines, most))),
    };
    vec![format!("{head}; {}", tape(6)), format!("{head}; {}", tape(2)), format!("Not fixed; {}", tape(2))]
}
