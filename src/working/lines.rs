//! Lines by hand: where the nails go, how long the strings are, their diagonals, the offset outline, the longest string's sag.

use crate::board::{Board, pythagoras};
use crate::length::{MM_PER_FOOT, Units, decimal, trimmed};
use crate::lines::{Faces, Lines, Offset, Wall, WallLine};
use crate::page::Steps;
use crate::plan::{Footprint, Turn};
use crate::sag::{GRAVITY, NEWTONS_PER_POUND, line_weight};

/// Where each nail goes, each string's length, the check diagonals, the offset outline, then the sag.
pub(crate) fn steps(answer: &Lines, wall: &Wall, footprint: &Footprint, units: Units) -> Vec<Steps> {
    let offset = answer
        .offset
        .iter()
        .flat_map(|offset| std::iter::once(sides(offset, footprint, units)).chain(diagonals(offset, units)));
    let longest =
        answer.lines.iter().reduce(|worst, next| if next.sag.0 > worst.sag.0 { next } else { worst });
    let crossings = answer.checks.rectangles.iter().map(|rectangle| Steps {
        title: format!("Both diagonals of {}", rectangle.crossings.join(", ")),
        steps: pythagoras(units, ("across", rectangle.across.0), ("down", rectangle.down.0), "each diagonal"),
    });
    nails(&answer.wall, wall, units)
        .into_iter()
        .chain(strings(answer, footprint, units))
        .chain(crossings)
        .chain(offset)
        .chain(longest.map(|line| sag(line, answer, units)))
        .collect()
}

/// Where the outline's own nail is from the outermost, and from there every other.
fn nails(faces: &Faces, wall: &Wall, units: Units) -> Option<Steps> {
    let board = Board::lengths(units);
    let outline = faces.faces.iter().find(|face| face.offset.0 == 0.0)?;
    if faces.faces.len() < 2 {
        return None;
    }
    // As they are shown, so that the sums add up as they stand on the board.
    let shown = |mm: f64| board.shown_mm(mm);
    let width: f64 = wall.layers.iter().map(|layer| shown(layer.width)).sum();
    let mut steps = vec![];
    let mut parts = vec![];
    let stands_out = faces.faces.iter().find(|face| face.face == "skin outer" || face.from_outermost.0 > 0.0);
    let footing_first = faces.faces.first().is_some_and(|face| face.face.starts_with("footing"));
    if let Some(footing) = wall.footing.filter(|_| footing_first) {
        let list: Vec<String> = wall.layers.iter().map(|layer| board.figure(layer.width)).collect();
        if wall.projection.is_none() {
            if list.len() > 1 {
                steps.push(format!("the wall through: {} = {}", list.join(" + "), board.with_unit(width)));
            }
            steps.push(format!(
                "the footing stands out on either side by ({} − {}) ÷ 2 = {}",
                board.figure(footing),
                board.figure(width),
                board.with_unit((shown(footing) - width) / 2.0)
            ));
        }
        parts.extend(stands_out.map(|face| shown(face.from_outermost.0)));
    }
    // The layers outside the outline's face, as far as they make it up.
    let mut depth: f64 = parts.iter().sum();
    for layer in &wall.layers {
        if depth + layer.width > outline.from_outermost.0 + 0.05 {
            break;
        }
        depth += shown(layer.width);
        parts.push(shown(layer.width));
    }
    if parts.len() > 1 && (depth - outline.from_outermost.0).abs() <= 0.05 {
        let list: Vec<String> = parts.iter().map(|mm| board.figure(*mm)).collect();
        steps.push(format!(
            "from the outermost nail to {}, the outline's own: {} = {}",
            outline.face,
            list.join(" + "),
            board.with_unit(depth)
        ));
    }
    for face in faces.faces.iter().filter(|face| face.offset.0 != 0.0) {
        let far = (outline.from_outermost.0, face.from_outermost.0);
        let (from, to, way) = if face.offset.0 > 0.0 { (far.0, far.1, "out") } else { (far.1, far.0, "in") };
        steps.push(format!("{}: {} {way} from the outline", face.face, board.difference(from, to)));
    }
    Some(Steps { title: "Nails, from the outermost and from the outline's own".to_owned(), steps })
}

/// From board to board: how far beyond the corners they stand, and the side between.
fn strings(answer: &Lines, footprint: &Footprint, units: Units) -> Option<Steps> {
    let board = Board::lengths(units);
    let steps: Vec<String> = answer
        .lines
        .iter()
        .filter_map(|line| {
            let side = footprint.sides()[footprint.parse_side(&line.side).ok()?].length;
            let [near, far] = [line.boards[0].setback.0, line.boards[1].setback.0];
            let whole = near + side + far;
            // A string that serves several sides is as long as they and what lies between them.
            ((whole - line.string_length.0).abs() < 0.05).then(|| {
                format!(
                    "{}: {} + {} + {} = {}",
                    line.side,
                    board.figure(near),
                    board.figure(side),
                    board.figure(far),
                    board.with_unit(whole)
                )
            })
        })
        .collect();
    (!steps.is_empty())
        .then(|| Steps { title: "Strings: beyond one corner, the side, beyond the other".to_owned(), steps })
}

fn sides(offset: &Offset, footprint: &Footprint, units: Units) -> Steps {
    let by = offset.by.0.abs();
    let mut steps = vec![format!(
        "every side but the house's is moved {} by {}, so each end of a side moves as the side round the corner does",
        if offset.by.0 < 0.0 { "inward" } else { "outward" },
        units.with_unit(by)
    )];
    for (i, (told, side)) in offset.sides.iter().zip(footprint.sides()).enumerate() {
        let ends = [side.from, side.to].map(|corner| {
            let (arrives, leaves) = footprint.sides_at(corner);
            let round = if arrives == i { leaves } else { arrives };
            let held = footprint.sides()[round].house;
            let outward = footprint.corners()[corner].turn == Turn::Outward;
            let grows = outward == (offset.by.0 > 0.0);
            let name = footprint.corners()[corner].name;
            match (held, grows) {
                (true, _) => (format!("{name} stays on the house"), String::new()),
                (false, grows) => (
                    format!("{name} points {}", if outward { "outward" } else { "inward" }),
                    format!(" {} {}", if grows { "+" } else { "−" }, units.figure(by)),
                ),
            }
        });
        let [(first, one), (second, other)] = ends;
        steps.push(format!(
            "{}: {first}, {second}: {}{one}{other} = {}",
            told.name,
            units.figure(side.length),
            units.with_unit(told.length.0)
        ));
    }
    Steps { title: "Sides of the offset outline".to_owned(), steps }
}

fn diagonals(offset: &Offset, units: Units) -> impl Iterator<Item = Steps> {
    offset.diagonals.iter().map(move |d| Steps {
        title: format!("{} of the offset outline", d.name),
        steps: pythagoras(units, ("across", d.across.0), ("down", d.down.0), &d.name),
    })
}

/// By newtons and metres, or by pounds and feet, where a string weighs what it pulls with.
fn sag(line: &WallLine, answer: &Lines, units: Units) -> Steps {
    let (grams, pull) = (answer.string.grams_per_metre.0, answer.string.pull.0);
    let (mm, newtons, [heavy, long, strong]) = match units {
        Units::Mm | Units::M => (1000.0, 1.0, ["N/m", "m", "N"]),
        Units::FeetInches => (MM_PER_FOOT, NEWTONS_PER_POUND, ["lb/ft", "ft", "lb"]),
    };
    let weight = trimmed(line_weight(grams) * mm / newtons, 9);
    let from_grams = match units {
        Units::Mm | Units::M => {
            format!("{} g/m × {} m/s² ÷ 1000 = ", decimal(grams, 2), decimal(GRAVITY, 5))
        }
        Units::FeetInches => String::new(),
    };
    let (pull, span) = (pull / newtons, line.string_length.0 / mm);
    Steps {
        title: format!("Sag in the middle of the string along {}", line.side),
        steps: vec![
            format!("w, its weight: {from_grams}{weight} {heavy}"),
            format!(
                "L, from board to board: {} = {} {long}",
                Board::lengths(units).worked(units, line.string_length.0),
                decimal(span, 3)
            ),
            format!("T, the pull: {} {strong}", trimmed(pull, 3)),
            format!(
                "w × L² ÷ (8 × T) = {weight} × {} ÷ {} = {} {long}",
                decimal(span * span, 3),
                trimmed(8.0 * pull, 3),
                decimal(line.sag.0 / mm, 6)
            ),
            format!("that is {}", units.small(line.sag.0)),
        ],
    }
}
