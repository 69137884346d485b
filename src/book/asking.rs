//! What to ask for, in which order, and when to stop.

use super::kind::{Kind, station};
use crate::answer::{Answer, Question};
use crate::job::Job;
use crate::plan::Footprint;
use crate::readings::{Readings, Reason, Verdict};
use crate::square::taping_order;
use crate::words::and_list;

/// How far apart a string is read along a side, mm, and in feet and inches. Common practice, no source.
const STATIONS: (f64, f64) = (1200.0, 48.0);

/// How many drops are asked for.
const DROPS: usize = 3;

/// What is asked for where all is well. Of taped lines: the sides first, then the proof set, then the spares.
#[derive(Debug, Clone, Default)]
pub(super) struct Order {
    pub(super) names: Vec<String>,
    /// How many of them are sides.
    sides: usize,
    /// How many behind those are of the proof set.
    proof: usize,
}

impl Order {
    /// The order on a job; `side` is the one that a string is along.
    pub(super) fn of(kind: Kind, job: &Job, side: Option<&str>) -> Self {
        match kind {
            Kind::Tape => Self::of_lines(job).unwrap_or_default(),
            Kind::Level => {
                let corners = job.footprint.iter().flat_map(Footprint::corners);
                let names = corners.map(|corner| corner.name.to_string());
                Self::plain(names.filter(|name| kind.name(name, job, job.units).is_ok()))
            }
            Kind::Straight => Self::plain(stations(job, side.unwrap_or_default())),
            Kind::Drop => Self::plain((0..DROPS).map(Kind::numbered)),
        }
    }

    fn plain(names: impl IntoIterator<Item = String>) -> Self {
        Self { names: names.into_iter().collect(), ..Self::default() }
    }

    fn of_lines(job: &Job) -> Option<Self> {
        let footprint = job.footprint.as_ref()?;
        let Ok(Answer::Diagonals(checks)) = job.answer(Question::Diagonals) else { return None };
        let order = taping_order(footprint, &checks);
        Some(Self {
            names: order.into_iter().map(|(from, to)| footprint.line_name(from, to)).collect(),
            sides: footprint.len() - checks.sides_past_tape.len(),
            proof: checks.proof.names.len(),
        })
    }

    /// "6 sides, then AD DF BE, then BF CE"
    pub(super) fn words(&self) -> String {
        let (sides, diagonals) = self.names.split_at(self.sides);
        if sides.is_empty() {
            return and_list(diagonals);
        }
        let (proof, spares) = diagonals.split_at(self.proof);
        let parts = [format!("{} sides", sides.len()), proof.join(" "), spares.join(" ")];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", then ")
    }
}

/// Where a string is read along a side: from its start on, and at its end.
fn stations(job: &Job, side: &str) -> Vec<String> {
    let side = job
        .footprint
        .as_ref()
        .and_then(|footprint| Some(footprint.sides()[footprint.parse_side(side).ok()?].length));
    let length = side.unwrap_or_default();
    let apart = job.units.usual(STATIONS.0, STATIONS.1);
    let at = (0_u32..).map(|bay| apart * f64::from(bay));
    let between = at.take_while(|at| *at == 0.0 || *at < length);
    between.chain([length]).map(|at| station(at, job.units)).collect()
}

/// Whether the verdict on taped lines can be called: they fix the corners and check each other, and it hangs on no corner
/// that is too close to its limit. Where another corner is out beyond doubt, one that is too close changes nothing.
pub(super) fn called(answer: &Readings) -> bool {
    let sharper_alone = answer.tape_next.iter().all(|next| next.reason == Reason::Sharpens);
    let out = answer.angles.iter().any(|angle| !angle.within && !answer.too_close.contains(&angle.corner));
    !matches!(answer.verdict, Verdict::NotFixed | Verdict::Misread)
        && answer.degrees_of_freedom > 0
        && answer.unchecked.is_empty()
        && sharper_alone
        && (answer.too_close.is_empty() || out)
}
