//! The drawing of a job: which of its answers are shown on the plan.

mod plates;
mod points;
mod profiles;

use plates::{anchors, layout};
use points::points;
use profiles::profiles;

use crate::answer::commands::{Asked, Known, Part};
use crate::answer::error::AnswerError;
use crate::answer::joists::RoofJoists;
use crate::answer::sketch::Sketch;
use crate::geometry::Point;
use crate::job::{Job, Subject};
use crate::joists::JoistEnd;
use crate::length::Units;
use crate::lines::{ItemKind, Lines};
use crate::plates::Plates;
use crate::sketch::{CheckLine, CheckUse, Drawing, JoistLayout, Opening, Paper, Title};
use crate::square::Diagonals;

impl Asked for Sketch {
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        Self::of(job, job.sketch.of, known)
    }
}

impl Sketch {
    /// A drawing of `subject`: the outline with what of the job's other answers, taken from `known` where they are there,
    /// is to be seen on it.
    pub(crate) fn of(job: &Job, subject: Subject, known: &[Part]) -> Result<Self, AnswerError> {
        let footprint = job.plan()?;
        let diagonals = Diagonals::part(job, known)?;
        let mut drawing = Drawing::new(footprint, job.units);
        let taped = [(CheckUse::Proof, &diagonals.proof.names), (CheckUse::Spare, &diagonals.spares.names)];
        for (purpose, names) in taped {
            let ends = names.iter().filter_map(|name| footprint.parse_line(name));
            drawing.checks.extend(ends.map(|(from, to)| CheckLine { from, to, purpose }));
        }
        let checks = drawing.checks.clone();
        let along = job.lines.marks.iter().flat_map(|marks| &marks.items);
        drawing.openings = along
            .filter(|item| item.kind == ItemKind::Opening)
            .map(|item| Opening {
                side: item.side,
                from: item.from,
                to: item.to,
                window: item.window,
                text: format!("{} {}", item.name, job.units.figure(item.to - item.from)),
            })
            .collect();
        let plates = (subject == Subject::Plates || subject == Subject::Plan && job.sketch.anchors)
            .then(|| Plates::part(job, known))
            .transpose()?;
        let lines =
            (subject == Subject::Plan && job.sketch.profiles).then(|| Lines::part(job, known)).transpose()?;
        let points = points(job, footprint, lines.as_deref(), plates.as_deref());
        match subject {
            Subject::Plan => {
                let plates = plates.iter();
                drawing.anchors =
                    plates.flat_map(|plates| anchors(footprint, plates)).map(|(anchor, _)| anchor).collect();
                if let Some(lines) = &lines {
                    (drawing.boards, drawing.strings) = profiles(footprint, lines);
                }
            }
            Subject::Plates => {
                drawing.checks.clear();
                drawing.plates = plates.map(|plates| layout(job, footprint, &plates, known)).transpose()?;
            }
            Subject::Joists => {
                drawing.checks.clear();
                drawing.joists = Some(joists(&*RoofJoists::part(job, known)?, job.units));
            }
        }
        drawing.north = job.sketch.north;
        drawing.title = Title { job: job.name.clone(), ..job.sketch.title.clone() };
        drawing.paper = job.sketch.paper.unwrap_or(match job.units {
            Units::Mm | Units::M => Paper::A4,
            Units::FeetInches => Paper::Letter,
        });
        let scale = job.sketch.scale.filter(|_| subject == job.sketch.of);
        let sketch = Self { drawing, scale, checks, points };
        // A scale of the user's own has to fit whatever is printed; another is found where it is wanted.
        if sketch.scale.is_some() {
            sketch.scene().map_err(AnswerError::refused(job.units))?;
        }
        Ok(sketch)
    }
}

/// The joists and trimmers on their middle lines, and the marks in one pull.
fn joists(joists: &RoofJoists, units: Units) -> JoistLayout {
    let set_out = &joists.set_out;
    let at = |end: &JoistEnd| Point::new(end.x.0, end.y.0);
    let lines = set_out.joists.iter().map(|joist| (joist.name.clone(), at(&joist.from), at(&joist.to)));
    let trimmers = set_out.trimmers.iter().map(|trimmer| {
        let [from, to] = trimmer.ends.map(|[x, y]| Point::new(x.0, y.0));
        (String::new(), from, to)
    });
    let mut marks: Vec<String> = set_out.joists.iter().map(|joist| units.figure(joist.mark.0)).collect();
    marks.dedup();
    JoistLayout {
        lines: lines.chain(trimmers).collect(),
        words: format!("joist; marks from {}: {}", set_out.set_out_from, marks.join(", ")),
    }
}
