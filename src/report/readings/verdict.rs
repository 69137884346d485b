//! The one line that the eye meets first.

use super::slips::{self, few};
use crate::geometry::Mm;
use crate::length::Units;
use crate::page::{self, WIDTH, ascii};
use crate::readings::{
    Angle, COVERAGE, Call, End, Explains, LaidBy, Misread, Move, Overhang, Readings, Reason, Side, Verdict,
    off_words,
};
use crate::words::{and_list, capital, count, or_list};

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

/// How far the part that is told to move farthest stands from its place, mm.
fn farthest(answer: &Readings) -> f64 {
    let sides = answer.side_moves.iter().map(|side| side.distance.0.abs());
    let own = answer.moves.iter().flat_map(|m| &m.components).filter(|c| c.told && c.with_side.is_none());
    sides.chain(own.map(|part| part.distance.0.abs())).fold(0.0, f64::max)
}

/// Whether something is out whatever the tapes' error: a corner open or closed, a part out of its place, the house itself.
fn is_sure(answer: &Readings) -> bool {
    let limit = answer.limit.map_or(Some(Mm(0.0)), |limit| limit.own);
    let past = |by: Mm, sd: Mm| limit.is_some_and(|limit| by.0.abs() - COVERAGE * sd.0 > limit.0);
    let own = || answer.moves.iter().flat_map(|m| &m.components).filter(|c| c.told && c.with_side.is_none());
    answer.angles.iter().any(|angle| angle.call == Call::Out)
        || answer.side_moves.iter().any(|side| past(side.distance, side.sd))
        || own().any(|part| past(part.distance, part.sd))
        || !answer.house.is_empty()
}

/// `One corner to move`, `2 sides and 1 corner to move`.
fn parts(answer: &Readings) -> String {
    let own = |m: &&Move| m.components.iter().any(|c| c.told && c.with_side.is_none());
    let corners = answer.moves.iter().filter(own).count();
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
    let own = answer.moves.iter().flat_map(|m| m.components.iter().map(move |c| (&m.corner, c)));
    let own = own.filter(|(_, c)| c.told && c.with_side.is_none());
    let corner = own.reduce(|a, b| if b.1.distance.0.abs() > a.1.distance.0.abs() { b } else { a });
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

fn misread(answer: &Readings, units: Units) -> Vec<String> {
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
