//! Rows of noggings: where their lines are struck, and how long each one is.

use super::answer::NoggingRow;
use super::bays::Bay;
use super::ends::found;
use super::input::{Question, Rows, Support};
use super::layout::{HAIR, Stands};
use crate::geometry::Mm;
use crate::plan::Footprint;
use crate::rules::STRUTTING;

/// The rows of every bay.
pub(super) fn rows(
    question: &Question,
    footprint: &Footprint,
    bays: &[Bay],
    stands: &[Stands],
) -> Vec<NoggingRow> {
    let mut rows = vec![];
    for (index, bay) in bays.iter().enumerate() {
        let face = found(question, &bay.from, Support::From).face;
        let span = found(question, &bay.to, Support::To).face - face;
        let count = match question.rows {
            Rows::None => 0,
            Rows::Count(count) => count,
            Rows::Published => STRUTTING.rows(span),
        };
        for row in 1..=count {
            let at = face + span * row as f64 / (count + 1) as f64;
            let lengths = between(question, bays, stands, index, at);
            if !lengths.is_empty() {
                rows.push(NoggingRow { to: footprint.side_name(bay.to.side), at: Mm(at), lengths });
            }
        }
    }
    rows
}

/// The lengths between the joists of one bay at `at`; none across an opening, nor in a gap too narrow to nail one.
fn between(question: &Question, bays: &[Bay], stands: &[Stands], bay: usize, at: f64) -> Vec<Mm> {
    let thick = question.thickness * if question.double_trimming { 2.0 } else { 1.0 };
    let open = |start: f64, end: f64| {
        question.openings.iter().any(|opening| {
            let beside = end.min(opening.along + opening.width) - start.max(opening.along) > HAIR;
            let trimmed = opening.out - thick..=opening.out + opening.length + thick;
            beside && trimmed.contains(&at)
        })
    };
    let there: Vec<&Stands> = stands.iter().filter(|joist| joist.bay == bay).collect();
    there
        .iter()
        .zip(there.iter().skip(1))
        .map(|(one, next)| (one.near + question.thickness, next.near))
        .filter(|(start, end)| end - start >= question.thickness && !open(*start, *end))
        // Two joists of one bay may have those of another between them.
        .filter(|(start, end)| {
            !bays
                .iter()
                .enumerate()
                .any(|(i, other)| i != bay && other.room[0] >= start - HAIR && other.room[1] <= end + HAIR)
        })
        .map(|(start, end)| Mm(end - start))
        .collect()
}
