//! The offset outline by hand: what each side gains or loses, each diagonal afresh; and the sag of the longest string.

use super::triangle::{length, pythagoras};
use crate::length::{Units, decimal};
use crate::lines::{Lines, Offset, WallLine};
use crate::page::Steps;
use crate::plan::{Footprint, Turn};

/// The sides and diagonals of the offset outline, then the sag.
pub(crate) fn steps(answer: &Lines, footprint: &Footprint, units: Units) -> Vec<Steps> {
    let offset = answer
        .offset
        .iter()
        .flat_map(|offset| std::iter::once(sides(offset, footprint, units)).chain(diagonals(offset, units)));
    let longest =
        answer.lines.iter().reduce(|worst, next| if next.sag.0 > worst.sag.0 { next } else { worst });
    offset.chain(longest.map(|line| sag(line, answer, units))).collect()
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
        steps: pythagoras(units, "across", d.across.0, "down", d.down.0),
    })
}

fn sag(line: &WallLine, answer: &Lines, units: Units) -> Steps {
    let (grams, pull) = (answer.string.grams_per_metre.0, answer.string.pull.0);
    let weight = grams / 1000.0 * crate::sag::GRAVITY;
    let span = line.string_length.0 / 1000.0;
    Steps {
        title: format!("Sag in the middle of the string along {}", line.side),
        steps: vec![
            format!(
                "w, its weight: {} g/m × {} m/s² ÷ 1000 = {} N/m",
                decimal(grams, 2),
                decimal(crate::sag::GRAVITY, 5),
                decimal(weight, 6)
            ),
            format!(
                "L, from board to board: {} = {} m",
                length(units, line.string_length.0),
                decimal(span, 3)
            ),
            format!("T, the pull: {} N", decimal(pull, 1)),
            format!(
                "w × L² ÷ (8 × T) = {} × {} ÷ {} = {} m",
                decimal(weight, 6),
                decimal(span * span, 3),
                decimal(8.0 * pull, 1),
                decimal(line.sag.0 / 1000.0, 6)
            ),
            format!("that is {}", units.small(line.sag.0)),
        ],
    }
}
