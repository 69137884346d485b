//! Joists by hand: the marks one after the other, the lengths, and what goes under each.

use crate::board::Board;
use crate::joists::{Held, Joists, Question, Role, Support};
use crate::length::Units;
use crate::page::Steps;

/// The marks, the lengths and the gaps.
pub(crate) fn steps(answer: &Joists, question: &Question, units: Units) -> Vec<Steps> {
    let mut all = vec![marks(answer, question, units), lengths(answer, question, units)];
    if answer.levels.is_some() {
        all.extend(gaps(answer, units));
    }
    all
}

fn marks(answer: &Joists, question: &Question, units: Units) -> Steps {
    let board = Board::lengths(units);
    let mut lines = vec![];
    let whole = answer.joists.iter().filter(|joist| !joist.name.ends_with('b'));
    let first = answer.joists.first().map_or(0.0, |joist| joist.mark.0);
    for joist in whole {
        let mark = joist.mark.0;
        let name = joist.name.trim_end_matches('a');
        let steps = ((mark - first) / question.centres).round();
        let at_centres = (first + steps * question.centres - mark).abs() < 1e-6;
        lines.push(match joist.role {
            _ if lines.is_empty() => {
                format!("joist {name}, clear of the wall beside it: {}", board.with_unit(mark))
            }
            Role::Joist | Role::Cut if at_centres => format!(
                "joist {name}: {} + {steps} × {} = {}",
                board.figure(first),
                board.figure(question.centres),
                // As it comes from the figures shown.
                board.with_unit(steps.mul_add(board.shown_mm(question.centres), board.shown_mm(first)))
            ),
            Role::Trimming => format!("joist {name}, beside an opening: {}", board.with_unit(mark)),
            Role::Second => format!("joist {name}, the second of a pair: {}", board.with_unit(mark)),
            Role::Joist | Role::Cut => {
                format!("joist {name}, clear of a wall or tight beside it: {}", board.with_unit(mark))
            }
        });
    }
    Steps { title: format!("Marks in one pull from {}", answer.set_out_from), steps: lines }
}

fn lengths(answer: &Joists, question: &Question, units: Units) -> Steps {
    let board = Board::lengths(units);
    let mut lines: Vec<String> = vec![];
    for joist in &answer.joists {
        let level = board.difference(joist.to.at.0, joist.from.at.0);
        let title =
            format!("{} to {}, from where it ends to where it begins: {level}", joist.from.on, joist.to.on);
        if !lines.contains(&title) {
            lines.push(title);
            if let Some((n, _)) = question.fall {
                lines.push(format!(
                    "the same along a fall of 1:{n}, by √(1 + 1/n²): {}",
                    board.with_unit(joist.length.0)
                ));
            }
        }
    }
    Steps { title: "Lengths: what the supports leave of the plan".to_owned(), steps: lines }
}

/// The gap at each end: where the underside has to lie, less the height there.
fn gaps(answer: &Joists, units: Units) -> Option<Steps> {
    let levels = answer.levels.as_ref()?;
    let board = Board::gaps(units);
    let mut lines = vec![format!(
        "the highest is under joist {} on {}; the underside at the line of the first support: {}",
        levels.joist,
        levels.on,
        board.with_unit(levels.underside.0)
    )];
    if answer.down_to.is_some() {
        let way = if answer.down_to == Some(Support::To) { "less" } else { "more" };
        lines.push(format!(
            "for each metre out it is so much {way}: {}",
            board.with_unit(levels.fall_per_metre.0.abs())
        ));
    }
    for joist in &answer.joists {
        for end in [&joist.from, &joist.to] {
            let Some(seat) = &end.seat else { continue };
            let what = match end.held {
                Held::Hung => "the hanger goes up",
                Held::Bears => "the gap",
            };
            let lies = seat.height.0 + seat.up.0;
            lines.push(format!(
                "joist {} on {}, {what}: {}",
                joist.name,
                end.on,
                board.difference(lies, seat.height.0)
            ));
        }
    }
    Some(Steps {
        title: "Under the joists: where the underside lies less the support's height".to_owned(),
        steps: lines,
    })
}
