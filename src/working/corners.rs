//! 3-4-5 by hand: why it is square, why bigger is better, and the angle from three tapes.

use super::triangle::{length, step};
use crate::length::{Units, decimal};
use crate::page::Steps;
use crate::square::{CornerFound, CornerTriangle, Corners};

/// Why 3-4-5 works, each corner's triangle, and the corner as found.
pub(crate) fn steps(answer: &Corners, units: Units) -> Vec<Steps> {
    let why = Steps {
        title: "Why 3-4-5 is square".to_owned(),
        steps: vec![
            "in a triangle with a right angle the squares on the two legs add up to the square on the third side"
                .to_owned(),
            "3² = 9".to_owned(),
            "4² = 16".to_owned(),
            "9 + 16 = 25".to_owned(),
            "√25 = 5: so legs of 3 and 4 are square to each other when their ends are 5 apart".to_owned(),
            "every number times the same multiple stays square: 6-8-10, 9-12-15, 30-40-50".to_owned(),
        ],
    };
    let corners = answer.corners.iter().filter_map(|check| {
        let best = check.best.as_ref()?;
        Some(Steps { title: format!("Corner {}", check.name), steps: triangle(best, units) })
    });
    let found = answer.found.iter().map(|found| angle(found, units));
    std::iter::once(why).chain(corners).chain(found).collect()
}

fn triangle(best: &CornerTriangle, units: Units) -> Vec<String> {
    let figure = |mm: f64| units.with_unit(mm);
    vec![
        format!("{} with a multiple of {}", best.triple, figure(best.multiple.0)),
        format!("along {} from the corner: {}", best.first.side, figure(best.first.length.0)),
        format!("along {} from the corner: {}", best.second.side, figure(best.second.length.0)),
        format!("between the two marks: {}", figure(best.diagonal.0)),
        format!(
            "1 mm wrong between the marks turns the longer side's end by {} mm; a triangle of half the size would turn it by {} mm",
            decimal(best.mm_at_end_per_mm.0, 2),
            decimal(2.0 * best.mm_at_end_per_mm.0, 2)
        ),
    ]
}

/// The cosine law, which is Pythagoras with what is left over.
pub(super) fn angle(found: &CornerFound, units: Units) -> Steps {
    let angle = &found.angle;
    let (a, b, c) = (angle.a.0, angle.b.0, angle.c.0);
    let cosine = (a * a + b * b - c * c) / (2.0 * a * b);
    Steps {
        title: match &found.name {
            Some(name) => format!("Corner {name} as found"),
            None => "The corner as found".to_owned(),
        },
        steps: vec![
            format!("a = {}, b = {}, c = {}", length(units, a), length(units, b), length(units, c)),
            format!(
                "square, the third tape would read √(a² + b²) = {} {}",
                units.exact(angle.square_diagonal.0),
                units.exact_unit()
            ),
            format!("cos θ = (a² + b² − c²) ÷ (2 × a × b) = {}", decimal(cosine, 6)),
            format!("θ = {}°", decimal(angle.angle_deg.0, 3)),
            format!(
                "at the end of the longer side, {}: {} × {} = {} {} off the square, {}",
                units.with_unit(angle.at.0),
                length(units, angle.at.0),
                decimal(cosine.abs(), 6),
                units.exact(angle.out_of_square.0.abs()),
                units.exact_unit(),
                if angle.out_of_square.0 < 0.0 { "inwards" } else { "outwards" },
            ),
            format!(
                "on the tape, to the nearest {}: {}",
                step(units),
                units.with_unit(angle.out_of_square.0.abs())
            ),
        ],
    }
}
