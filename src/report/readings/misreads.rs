//! Who misread, and why; what to tape next.

use super::slips::{few, odds};
use crate::length::Units;
use crate::page::Page;
use crate::readings::{Explains, Misread, Readings, Reason, SettledBy, SuspectReading, Verdict, off_words};
use crate::words::{and_list, or_list};

/// Explains each misread, then what the plan says.
pub(super) fn explain(page: &mut Page, answer: &Readings, units: Units) {
    if let Some(exchanged) = answer.named(Explains::Exchanged) {
        page.fact("Write", put_right(answer, &exchanged.lines, units));
        return;
    }
    let settles = answer.to_tape(Reason::Settles);
    for misread in &answer.misreads {
        // Where there are several, which line settles which is told with what to tape next.
        let settles = if answer.misreads.len() == 1 { &settles[..] } else { &[] };
        let tied: Vec<String> = misread.tied.iter().map(|t| t.name.clone()).collect();
        page.fact(or_list(&few(&tied, 8)), misread_words(answer, misread, settles, units));
        if !misread.rivals.is_empty() {
            page.paragraph(format!(
                "  {}, misread instead, would explain it as well.",
                or_list(&few(&misread.rivals, 8))
            ));
        }
    }
    if !answer.folded.is_empty() {
        page.fact(
            "Folded over",
            format!(
                "{}: some reading near there is far out, or taken to another corner",
                and_list(&answer.folded)
            ),
        );
    }
    // Where it is open which reading is wrong, how likely each explanation is.
    if answer.misreads.iter().any(|m| m.name.is_none()) {
        let each: Vec<String> = answer
            .explanations
            .iter()
            .map(|e| {
                let what = match (e.what, &e.lines[..]) {
                    (Explains::Wrong, [one]) => format!("{one} is wrong"),
                    _ => e.says.clone(),
                };
                format!("{what} {}", odds(e.odds.0))
            })
            .collect();
        page.fact("Odds", few(&each, 6).join(", "));
    }
    if answer.verdict == Verdict::NotFixed {
        let within = units.small(answer.against_plan.built_within.0);
        page.fact(format!("Against the plan, built within {within}"), "nothing looks misread");
    }
}

/// Two lines with each other's readings, as they are typed: `AB=4801mm, EF=8400mm`.
fn put_right(answer: &Readings, lines: &[String], units: Units) -> String {
    let read = |name: &String| {
        let line = answer.readings.iter().find(|line| line.name == *name);
        line.map_or_else(String::new, |line| units.typed(line.read.0))
    };
    let each = lines.iter().zip(lines.iter().rev());
    each.map(|(line, other)| format!("{line}={}", read(other))).collect::<Vec<_>>().join(", ")
}

/// The slip and its likely cause: `about 100 mm short (100 dropped)`.
fn slip_and_cause(suspect: &SuspectReading, units: Units) -> String {
    let slip = off_words(suspect.slip.0, units);
    match &suspect.likely {
        Some(cause) => format!("{slip} ({cause})"),
        None => slip,
    }
}

fn misread_words(answer: &Readings, misread: &Misread, settles: &[String], units: Units) -> String {
    let words = match (&misread.name, &misread.tied[..]) {
        (Some(_), [one]) => {
            let by_plan = if misread.settled_by == SettledBy::Plan { ", going by the plan" } else { "" };
            let times =
                answer.readings.iter().find(|line| line.name == one.name).map_or(1, |line| line.count);
            let alike = if times > 1 {
                format!("; {times} alike prove nothing if the tape was held alike")
            } else {
                String::new()
            };
            let again = answer.to_tape(Reason::Again).contains(&one.name);
            let again = if again { "; tape it again" } else { "" };
            format!("read {}{by_plan}{alike}{again}", slip_and_cause(one, units))
        }
        (_, [one]) => format!("{}, or it was built so", slip_and_cause(one, units)),
        (_, tied) => {
            let each: Vec<String> =
                tied.iter().map(|t| format!("{} {}", t.name, slip_and_cause(t, units))).collect();
            format!("nothing tells which: {}", or_list(&few(&each, 6)))
        }
    };
    if settles.is_empty() { words } else { format!("{words}; {} would settle it", or_list(settles)) }
}

/// What to tape next, by reason.
pub(super) fn tape_next(page: &mut Page, answer: &Readings, units: Units) {
    // What makes a close corner surer stands with what is close; lines exchanged are put right, not taped.
    if answer.named(Explains::Exchanged).is_some()
        || answer.tape_next.iter().all(|next| next.reason == Reason::Sharpens)
    {
        return;
    }
    page.heading("Tape next");
    let again = answer.to_tape(Reason::Again);
    if !again.is_empty() {
        page.fact("  Again", and_list(&again));
    }
    let fixes: Vec<_> = answer.tape_next.iter().filter(|n| n.reason == Reason::Fixes).collect();
    let worst = fixes.iter().rev().find_map(|next| next.worst_corner_sd);
    if !fixes.is_empty() {
        let weak = answer.rank >= answer.needed;
        let lines = answer.to_tape(Reason::Fixes);
        let lines = if weak { or_list(&lines) } else { and_list(&lines) };
        let best = if weak { fixes[0].worst_corner_sd } else { worst };
        let good = best.map_or_else(String::new, |sd| {
            format!("; the worst corner is then good to ±{}", units.small(sd.0))
        });
        page.fact("  To fix the outline", format!("{lines}{good}"));
    }
    for (reason, name) in
        [(Reason::Settles, "  To settle it"), (Reason::Checks, "  To check what nothing checks")]
    {
        let lines = answer.to_tape(reason);
        if !lines.is_empty() {
            page.fact(name, or_list(&lines));
        }
    }
}
