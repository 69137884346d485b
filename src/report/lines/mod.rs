//! The page of lines: strings and boards first, then the nails on them, the sketch, the checks, what else was asked for.

mod extras;
mod records;
mod sketch;

use super::plan::echo;
use super::{BURIED_SERVICES, and_list};
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::lines::{Board, BoardKind, Lines, Profile, SAG_LIMIT, WallLine, Why};
use crate::page::{Page, Table};

/// Fills the page.
pub(super) fn report(page: &mut Page, answer: &Lines, job: &Job) {
    let units = job.units;
    echo(page, job);
    inputs(page, answer, units);
    page.heading("Lines, a string each, on the outline's face");
    page.table(lines(answer, units));
    page.heading("Nails on every board, from the outline's nail and in one pull from the outermost");
    page.table(faces(answer, units));
    page.heading("Boards");
    page.table(boards(answer, units));
    counts(page, answer, units);
    moved(page, answer, units);
    if let Some(footprint) = &job.footprint {
        page.heading("Where the boards stand");
        page.lines(sketch::sketch(footprint, answer));
    }
    checks(page, answer, units);
    if let Some(offset) = &answer.offset {
        extras::offset(page, offset, units);
    }
    extras::marks(page, &answer.marks, job);
    notes(page, answer, job);
    page.records = records::records(answer);
}

fn inputs(page: &mut Page, answer: &Lines, units: Units) {
    let outline = &answer.wall.outline;
    let wall = if answer.wall.width.0 > 0.0 {
        format!(
            "the plan is the {outline} face; the wall is {} through",
            units.with_unit(answer.wall.width.0)
        )
    } else {
        "the plan's outline alone; --layers adds nails for the faces of a wall".to_owned()
    };
    page.fact("Wall", wall);
    page.fact("Setback", units.with_unit(answer.setback.0));
}

/// One of the entries for each string.
fn strings(answer: &Lines) -> impl Iterator<Item = &WallLine> {
    answer
        .lines
        .iter()
        .enumerate()
        .filter(|(i, line)| {
            !answer.lines[..*i]
                .iter()
                .any(|before| line.with.contains(&before.side))
        })
        .map(|(_, line)| line)
}

fn sides(line: &WallLine) -> String {
    let all: Vec<&str> = std::iter::once(&line.side)
        .chain(&line.with)
        .map(String::as_str)
        .collect();
    all.join("+")
}

fn stands(board: &Board, units: Units) -> String {
    let past = if board.setback.0 > 0.0 {
        format!("{} past {}", units.figure(board.setback.0), board.at)
    } else {
        format!("at {}", board.at)
    };
    match board.kind {
        BoardKind::Profile => past,
        BoardKind::HouseWall => format!("house, {past}"),
    }
}

fn lines(answer: &Lines, units: Units) -> Table {
    let mut table = Table::new()
        .words("Line")
        .numbers(units.head("String"))
        .words("From")
        .words(units.head("Stands"))
        .words("To")
        .words(units.head("Stands"));
    for line in strings(answer) {
        let [start, end] = &line.boards;
        table.row([
            sides(line),
            units.figure(line.string_length.0),
            start.label.clone(),
            stands(start, units),
            end.label.clone(),
            stands(end, units),
        ]);
    }
    table
}

fn faces(answer: &Lines, units: Units) -> Table {
    let mut table = Table::new()
        .words("Face")
        .numbers(units.head("From outline"))
        .words("Which way")
        .numbers(units.head("From outermost"));
    for face in &answer.wall.faces {
        let way = match face.offset.0 {
            offset if offset > 0.0 => "out",
            offset if offset < 0.0 => "in",
            _ => "on it",
        };
        table.row([
            face.face.clone(),
            units.figure(face.offset.0.abs()),
            way.to_owned(),
            units.figure(face.from_outermost.0),
        ]);
    }
    table
}

fn is_board(profile: &Profile) -> bool {
    profile.kind == BoardKind::Profile
}

fn boards(answer: &Lines, units: Units) -> Table {
    let mut table = Table::new()
        .words("Board")
        .numbers(units.head("Length"))
        .words("Carries")
        .words("Lies")
        .words("Outermost nail to the");
    for profile in &answer.profiles {
        let outward: Vec<String> = answer
            .lines
            .iter()
            .filter(|line| line.boards.iter().any(|board| board.label == profile.label))
            .map(|line| line.boards[0].outward)
            .fold(vec![], |mut ways: Vec<String>, way| {
                if !ways.iter().any(|seen| seen == way) {
                    ways.push(way.to_owned());
                }
                ways
            });
        table.row([
            profile.label.clone(),
            match profile.kind {
                BoardKind::Profile => units.figure(profile.length.0),
                BoardKind::HouseWall => "in the wall".to_owned(),
            },
            profile.carries.join(" "),
            if profile.across { "across" } else { "up and down" }.to_owned(),
            and_list(&outward),
        ]);
    }
    table
}

fn counts(page: &mut Page, answer: &Lines, units: Units) {
    let boards = answer.profiles.iter().filter(|profile| is_board(profile)).count();
    let sizes: Vec<String> = answer
        .board_sizes
        .iter()
        .map(|size| format!("{} of {}", size.count, units.with_unit(size.length.0)))
        .collect();
    let in_house = answer.profiles.len() - boards;
    let nails = if in_house > 0 {
        format!(
            ", and {} nails in the house wall",
            in_house * answer.wall.faces.len()
        )
    } else {
        String::new()
    };
    page.fact(
        "To make",
        format!("{}, {} pegs{nails}", and_list(&sizes), answer.pegs),
    );
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

/// Says which boards don't stand where the setback alone would put them, and how the nails lie on shared ones.
fn moved(page: &mut Page, answer: &Lines, units: Units) {
    let mut told: Vec<String> = vec![];
    for line in strings(answer) {
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
            let Some(why) = &board.why else { continue };
            told.push(match why {
                Why::Past { side, by } => format!(
                    "{label} is moved: ahead of {} is the footprint, so the line goes on over it and the board stands {} past {side}",
                    board.at,
                    units.with_unit(by.0)
                ),
                Why::ClearOf(sides) => format!(
                    "{label} is moved clear of the line along {}",
                    and_list(sides)
                ),
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
            });
        }
    }
    for profile in answer.profiles.iter().filter(|profile| profile.carries.len() > 1) {
        told.push(format!(
            "{} is shared by {}",
            profile.label,
            and_list(&profile.carries)
        ));
    }
    for each in told {
        page.paragraph(each);
    }
    for profile in answer.profiles.iter().filter(|profile| !profile.nails.is_empty()) {
        let end = if profile.across { "left" } else { "top" };
        let mut table = Table::new()
            .words(format!("On {}", profile.label))
            .words("Line")
            .numbers(units.head(&format!("From the nail at the {end}")));
        for nail in &profile.nails {
            table.row([nail.face.clone(), nail.side.clone(), units.figure(nail.along.0)]);
        }
        page.table(table);
    }
}

fn checks(page: &mut Page, answer: &Lines, units: Units) {
    page.heading("Tape between the strings, on the outline's nails");
    let mut table = Table::new()
        .words("Between")
        .words("And")
        .numbers(units.head("Distance"));
    let house = |name: &String| {
        if answer.lines.iter().any(|line| line.side == *name) {
            name.clone()
        } else {
            format!("{name} (house)")
        }
    };
    for between in &answer.checks.parallel {
        let [first, second] = &between.lines;
        table.row([house(first), house(second), units.figure(between.distance.0)]);
    }
    page.table(table);
    if !answer.checks.rectangles.is_empty() {
        page.heading("Both diagonals alike where strings cross");
        let mut table = Table::new()
            .words("From")
            .words("To")
            .words("And from")
            .words("To")
            .numbers(units.head("Across"))
            .numbers(units.head("Down"))
            .numbers(units.head("Diagonal"));
        for part in &answer.checks.rectangles {
            let [a, b, c, d] = &part.crossings;
            table.row([
                a.clone(),
                c.clone(),
                b.clone(),
                d.clone(),
                units.figure(part.across.0),
                units.figure(part.down.0),
                units.figure(part.diagonal.0),
            ]);
        }
        page.table(table);
    }
}

fn notes(page: &mut Page, answer: &Lines, job: &Job) {
    let units = job.units;
    if job.lines.setback_assumed {
        page.note(format!(
            "a setback of {} is assumed; --setback says otherwise",
            units.with_unit(answer.setback.0)
        ));
    }
    if answer.wall.width.0 > 0.0 && job.lines.wall.outline.is_none() {
        page.note(format!(
            "the plan is taken to be the {} face; --outline names another",
            answer.wall.outline
        ));
    }
    if answer
        .checks
        .rectangles
        .iter()
        .any(|part| part.crossings.iter().any(|name| name.contains('×')))
    {
        page.note("CD×FA: where the lines along CD and FA cross, or where one meets the house wall");
    }
    sag(page, answer, units);
    page.caution(BURIED_SERVICES);
    if answer
        .profiles
        .iter()
        .any(|profile| profile.kind == BoardKind::HouseWall)
    {
        page.caution("check the house wall for cables and pipes before driving nails into it");
    }
    if answer.wall.overhangs_footing {
        page.caution("the footing leaves part of the wall with nothing under it: ask the designer");
    } else if answer
        .wall
        .faces
        .iter()
        .any(|face| face.face.starts_with("footing"))
    {
        page.caution(
            "the footing's width and place are the designer's and the local code's: follow the drawing",
        );
    }
}

fn sag(page: &mut Page, answer: &Lines, units: Units) {
    let Some(longest) = answer
        .lines
        .iter()
        .reduce(|worst, next| if next.sag.0 > worst.sag.0 { next } else { worst })
    else {
        return;
    };
    let string = &answer.string;
    let says = |assumed: bool| if assumed { " (assumed)" } else { "" };
    let held = format!(
        "{} g/m{} pulled to {} N{}",
        trimmed(string.grams_per_metre.0),
        says(string.weight_assumed),
        trimmed(string.pull.0),
        says(string.pull_assumed)
    );
    let sag = units.small(longest.sag.0);
    page.note(if longest.sag.0 > SAG_LIMIT {
        format!(
            "a string of {held} hangs {sag} in the middle of {}: don't take levels from it; to hang no more than {} it takes {} N, or a prop half way",
            longest.side,
            units.small(SAG_LIMIT),
            decimal(longest.pull_for_level.0.ceil(), 0)
        )
    } else {
        format!("a string of {held} hangs {sag} in the middle of {}, the longest", longest.side)
    });
}

/// A figure with up to two decimals.
fn trimmed(value: f64) -> String {
    let text = decimal(value, 2);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
