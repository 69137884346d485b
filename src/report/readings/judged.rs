//! The judgement in a few lines: how sure it is, which sides are off, which corners are square, what would tell more.

use super::slips::{few, within};
use crate::length::Units;
use crate::page::Page;
use crate::readings::{Angle, Call, Readings, Reason, Sense};
use crate::words::{and_list, count, or_list};

/// Adds the lines.
pub(super) fn judged(page: &mut Page, answer: &Readings, units: Units) {
    if answer.moves.is_empty() {
        return;
    }
    let out = answer.readings.iter().filter(|line| line.left_out).count();
    let label = ["How sure", "Without it", "Without them"][out.min(2)];
    page.fact(label, sure(answer, units));
    if answer.masonry.is_none() {
        page.fact("To size", sizes(answer, units));
        page.fact("Square", square(answer, units));
    }
    let sharpens = answer.to_tape(Reason::Sharpens);
    if !sharpens.is_empty() {
        page.fact("Closer", format!("tape {} as well, to call what is too close", or_list(&sharpens)));
    }
}

/// How many readings there are to spare, whether they agree, and what slip would show.
fn sure(answer: &Readings, units: Units) -> String {
    let kept = answer.readings.iter().filter(|line| !line.left_out).count();
    let readings = count(kept, "reading");
    if answer.degrees_of_freedom == 0 {
        return format!("{readings}, none to spare: a slip in any of them can't be seen");
    }
    let agree = match &answer.global_test {
        Some(test) if !test.passed => "they agree less well than the tape allows",
        _ => "they agree",
    };
    let to_spare = format!("{readings}, {} to spare, and {agree}", answer.degrees_of_freedom);
    if !answer.unchecked.is_empty() {
        return format!("{to_spare}; nothing checks {}", and_list(&few(&answer.unchecked, 6)));
    }
    match answer.shows {
        Some(slip) => format!("{to_spare}; a slip of {} on any line would show", within(slip.0, units)),
        None => to_spare,
    }
}

fn sizes(answer: &Readings, units: Units) -> String {
    let by = |mm: f64| units.short(mm.abs());
    // What can't be told from the plan, or is within the limit, is not worth a word of its own.
    let beyond = |side: &&crate::readings::Side| !side.within;
    let off: Vec<String> = answer
        .sides
        .iter()
        .filter(beyond)
        .map(|side| {
            let way = if side.difference.0 > 0.0 { "long" } else { "short" };
            format!("{} {} {way}", side.name, by(side.difference.0))
        })
        .collect();
    let good = answer.sides.iter().filter(|side| side.within).map(|side| side.difference.0.abs());
    let rest = within(good.fold(0.0, f64::max), units);
    match off.len() {
        0 => format!("all sides within {rest}"),
        n if n == answer.sides.len() => off.join(", "),
        _ => format!("{}; the other sides within {rest}", few(&off, 6).join(", ")),
    }
}

fn square(answer: &Readings, units: Units) -> String {
    let named = |call: Call| -> Vec<&Angle> { answer.angles.iter().filter(|a| a.call == call).collect() };
    let mut parts: Vec<String> = vec![];
    let mut out = named(Call::Out);
    out.sort_by(|a, b| b.worst_end().out.0.abs().total_cmp(&a.worst_end().out.0.abs()));
    let told: Vec<String> = out
        .iter()
        .map(|angle| {
            let end = angle.worst_end();
            let way = if angle.sense == Sense::Closed { "closed" } else { "open" };
            format!("{} {way} {} over {}", angle.corner, units.short(end.out.0.abs()), end.side)
        })
        .collect();
    if !told.is_empty() {
        parts.push(few(&told, 6).join(", "));
    }
    let names = |call: Call| named(call).iter().map(|a| a.corner.clone()).collect::<Vec<_>>();
    let close = names(Call::TooClose);
    if !close.is_empty() {
        let widest = named(Call::TooClose).iter().map(|a| a.worst_end().uncertainty.0).fold(0.0, f64::max);
        parts.push(format!("{} too close to call (±{})", and_list(&close), units.short(widest)));
    }
    let square = names(Call::Square);
    let most = named(Call::Square).iter().map(|a| a.worst_end().out.0.abs()).fold(0.0, f64::max);
    if !square.is_empty() {
        let all = square.len() == answer.angles.len();
        let who = if all { "every corner".to_owned() } else { and_list(&square) };
        parts.push(format!("{who} within {}", within(most, units)));
    }
    parts.join("; ")
}
