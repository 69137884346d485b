//! Where a joist ends, and so how long it is cut.

use super::answer::Held;
use super::bays::{Bay, Edge};
use super::error::JoistsError;
use super::input::{Mark, Question, Support};
use super::layout::HAIR;

/// A side as a joist finds it. From the line of the first support, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found {
    pub(super) held: Held,
    /// The face of the support that the clear span is measured from.
    pub(super) face: f64,
    /// Where the joist ends.
    pub(super) end: f64,
}

/// What a joist finds at a side of one of its supports.
pub(super) fn found(question: &Question, edge: &Edge, support: Support) -> Found {
    // From the support towards the other.
    let inward = match support {
        Support::From => 1.0,
        Support::To => -1.0,
    };
    let wall = if edge.house { 0.0 } else { question.wall };
    if question.hung.contains(&edge.side) {
        let face = edge.v + inward * (wall + question.bearer);
        Found { held: Held::Hung, face, end: face + inward * question.gap }
    } else {
        let face = edge.v + inward * wall;
        Found { held: Held::Bears, face, end: face - inward * question.bearing }
    }
}

/// The line of a joist that is marked.
pub(super) fn marked(question: &Question, near: f64) -> f64 {
    near + match question.mark {
        Mark::Near => 0.0,
        Mark::Centre => question.thickness / 2.0,
        Mark::Far => question.thickness,
    }
}

/// The trimmers of an opening, the first nearer the first support: the face on the opening's side of each, and where the
/// joists that hang on it end. None where the opening runs up to the support.
pub(super) fn trimmers(
    question: &Question,
    bay: &Bay,
    index: usize,
) -> Result<[Option<(f64, f64)>; 2], JoistsError> {
    let opening = &question.openings[index];
    let thick = question.thickness * if question.double_trimming { 2.0 } else { 1.0 };
    let (from, to) = (found(question, &bay.from, Support::From), found(question, &bay.to, Support::To));
    let mut ends = [None; 2];
    let faces = [opening.out, opening.out + opening.length];
    for (end, (face, inward, support)) in ends.iter_mut().zip([(faces[0], -1.0, from), (faces[1], 1.0, to)]) {
        let left = (support.face - face) * inward;
        if left <= HAIR {
            continue;
        }
        let hangs = face + inward * (thick + question.gap);
        if (support.end - hangs) * inward <= HAIR || left <= thick {
            return Err(JoistsError::Opening {
                name: opening.name.clone(),
                problem: "no joist fits between it and the support: move it away, or up to the support",
            });
        }
        *end = Some((face, hangs));
    }
    Ok(ends)
}
