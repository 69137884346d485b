//! The boards to make: each with what it carries, how many in all, and which don't stand where one would look for them.

use super::strings::sides;
use crate::length::{Units, decimal};
use crate::lines::{Board, BoardKind, Lines, Why};
use crate::page::{Page, Table};
use crate::words::{and_list, count};

/// The boards, their number, and what is said of those that are moved or shared.
pub(super) fn boards(page: &mut Page, answer: &Lines, units: Units) {
    page.table(table(answer, units));
    counts(page, answer, units);
    moved(page, answer, units);
}

/// Which nails have no house behind them, by the ends of the lines that have the same.
fn past_the_wall(answer: &Lines) -> Vec<String> {
    let mut past: Vec<(Vec<&str>, Vec<String>)> = vec![];
    for board in answer.strings().flat_map(|line| &line.boards) {
        let faces: Vec<&str> =
            board.marks.iter().filter(|nail| nail.past_wall).map(|nail| nail.face.as_str()).collect();
        match past.iter_mut().find(|(same, _)| *same == faces) {
            _ if faces.is_empty() => {}
            Some((_, labels)) => labels.push(board.label.clone()),
            None => past.push((faces, vec![board.label.clone()])),
        }
    }
    past.into_iter()
        .map(|(faces, labels)| {
            let (nails, stand) =
                if faces.len() == 1 { ("nail", "stands") } else { ("nails", "stand") };
            format!(
                "At {} the {} {nails} {stand} past the end of the house wall on the plan: where the wall goes on, nail into it; where it ends there, set a board",
                and_list(&labels),
                and_list(&faces)
            )
        })
        .collect()
}

fn table(answer: &Lines, units: Units) -> Table {
    Table::of(&answer.profiles)
        .words("Board", |board| &board.label)
        .numbers(units.head("Length"), |board| match board.kind {
            BoardKind::Profile => units.figure(board.length.0),
            BoardKind::HouseWall => "in the wall".to_owned(),
        })
        .words("Carries", |board| board.carries.join(" "))
        .words("Lies", |board| if board.across { "across" } else { "up and down" })
        .words("Outermost nail to the", |board| outermost(answer, &board.label))
        .into()
}

/// Which way the outermost nail of each line on a board lies, each way once.
fn outermost(answer: &Lines, label: &str) -> String {
    let mut ways: Vec<String> = vec![];
    let carried = answer.lines.iter().filter(|line| line.boards.iter().any(|board| board.label == label));
    for way in carried.map(|line| line.boards[0].outward) {
        if !ways.iter().any(|seen| seen == way) {
            ways.push(way.to_owned());
        }
    }
    and_list(&ways)
}

/// What to set up, in a line.
pub(super) fn headline(answer: &Lines, units: Units) -> String {
    let boards = if answer.pegs == 0 {
        "Set up no boards".to_owned()
    } else {
        format!("Set up {} on {}", boards_to_make(answer, units), count(answer.pegs, "peg"))
    };
    let nails = nails_in_the_wall(answer).map_or_else(String::new, |nails| format!("; {nails}"));
    let string = &answer.string;
    let strings = count(string.lines, "string");
    format!("{boards}{nails}; {strings}, {} in all", metres(string.length.0, units))
}

fn boards_to_make(answer: &Lines, units: Units) -> String {
    let sizes = answer.board_sizes.iter();
    let sizes: Vec<String> = sizes
        .map(|size| format!("{} of {}", count(size.count, "board"), units.with_unit(size.length.0)))
        .collect();
    and_list(&sizes)
}

fn nails_in_the_wall(answer: &Lines) -> Option<String> {
    let nails = answer.nails_in_the_wall().filter(|nail| !nail.past_wall).count();
    (nails > 0).then(|| format!("{} in the house wall", count(nails, "nail")))
}

fn counts(page: &mut Page, answer: &Lines, units: Units) {
    let nails = nails_in_the_wall(answer).map_or_else(String::new, |nails| format!(", and {nails}"));
    let boards = boards_to_make(answer, units);
    page.fact("To make", format!("{boards}, {}{nails}", count(answer.pegs, "peg")));
    let string = &answer.string;
    page.fact(
        "String",
        format!(
            "{} lines, {} in all; {} with every face strung at once; add for the knots",
            string.lines,
            metres(string.length.0, units),
            metres(string.all_faces.0, units)
        ),
    );
}

/// A long length of string: metres to one place, or whole feet.
fn metres(mm: f64, units: Units) -> String {
    match units {
        Units::Mm | Units::M => format!("{} m", decimal(mm / 1000.0, 1)),
        Units::FeetInches => format!("{} ft", decimal(mm / crate::length::MM_PER_FOOT, 0)),
    }
}

/// Why a board doesn't stand where the setback alone would put it.
fn why_moved(board: &Board, why: &Why, units: Units) -> String {
    let label = &board.label;
    match why {
        Why::Past { side, by } => format!(
            "{label} is moved: ahead of {} is the footprint, so the line goes on over it and the board stands {} past {side}",
            board.at,
            units.with_unit(by.0)
        ),
        Why::Beside { corner, by } => format!(
            "{label} is moved: beside the building there is no room for it before {corner}, so it stands {} past {corner}",
            units.with_unit(by.0)
        ),
        Why::ClearOf(sides) => format!("{label} is moved clear of the line along {}", and_list(sides)),
        Why::Under(sides) => format!(
            "{label} has no free place: strings along {} pass over it; set it so that they clear it",
            and_list(sides)
        ),
        Why::Narrow => format!(
            "{label} has no room for a whole board: cut it to its nails, or fix it to the wall that is in its way"
        ),
        Why::Shares(sides) => format!(
            "{label} is moved out to the end of the line along {}, whose string passes over its first place",
            and_list(sides)
        ),
    }
}

/// Says which boards don't stand where the setback alone would put them, and how the nails lie on shared ones.
pub(super) fn moved(page: &mut Page, answer: &Lines, units: Units) {
    let mut told: Vec<String> = vec![];
    for line in answer.strings() {
        for board in &line.boards {
            let label = &board.label;
            if board.kind == BoardKind::HouseWall && board.setback.0 > 0.0 {
                told.push(format!(
                    "{label} is where the line along {} reaches the house wall, {} past {}",
                    sides(line),
                    units.with_unit(board.setback.0),
                    board.at
                ));
            }
            told.extend(board.why.as_ref().map(|why| why_moved(board, why, units)));
        }
    }
    told.extend(past_the_wall(answer));
    for profile in answer.profiles.iter().filter(|profile| profile.carries.len() > 1) {
        told.push(format!("{} is shared by {}", profile.label, and_list(&profile.carries)));
    }
    for each in told {
        page.paragraph(each);
    }
    for profile in answer.profiles.iter().filter(|profile| !profile.nails.is_empty()) {
        let end = if profile.across { "left" } else { "top" };
        page.table(
            Table::of(&profile.nails)
                .words(format!("On {}", profile.label), |nail| &nail.face)
                .words("Line", |nail| &nail.side)
                .numbers(units.head(&format!("From the nail at the {end}")), |nail| {
                    units.figure(nail.along.0)
                }),
        );
    }
}
