//! Joists: set out by their own sums, cut by the cutting engine, their ceiling carried on from the heights.

use crate::answer::commands::{Asked, Known, Part};
use crate::answer::error::AnswerError;
use crate::answer::joists::{CeilingUnder, RoofJoists};
use crate::cuts::{self, cuts};
use crate::cutting::Wanted;
use crate::exact::Tenths;
use crate::geometry::Mm;
use crate::heights::Heights;
use crate::job::Job;
use crate::joists::{Held, Joists, joists};

const NO_JOISTS: AnswerError = AnswerError::Missing {
    typed: "there are no joists: write --from AB --to EF --centres 400 --bearing 100, or `joists` in the job file",
    in_file: "there are no joists: give `joists.from`, `joists.to`, `joists.centres` and `joists.bearing` in the job file",
};

impl Asked for RoofJoists {
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        let footprint = job.plan()?;
        let asked = job.joists.as_ref().ok_or(NO_JOISTS)?;
        let set_out =
            joists(footprint, &asked.question, job.units).map_err(AnswerError::refused(job.units))?;
        let cut = if asked.timber.is_empty() {
            None
        } else {
            let pieces = set_out.pieces.iter();
            let pieces =
                pieces.map(|piece| Wanted { length: Tenths::nearest(piece.length.0), count: piece.count });
            let timber = asked.timber.clone();
            let question = cuts::Question { pieces: pieces.collect(), timber, seconds: asked.seconds };
            Some(cuts(&question).map_err(AnswerError::refused(job.units))?)
        };
        let ceiling = match Heights::part(job, known) {
            Ok(heights) => under(&set_out, heights.ceiling_height.0),
            // Without heights there is no ceiling to carry on.
            Err(_) => None,
        };
        Ok(Self { set_out, cut, ceiling })
    }
}

/// The ceiling under joists that lie on a wall head with `ceiling` under its highest place.
fn under(set_out: &Joists, ceiling: f64) -> Option<CeilingUnder> {
    let levels = set_out.levels.as_ref()?;
    let ends = || set_out.joists.iter().flat_map(|joist| [&joist.from, &joist.to]);
    let bearings = ends().filter(|end| end.held == Held::Bears);
    let highest = bearings.filter_map(|end| Some(end.seat.as_ref()?.height.0)).reduce(f64::max)?;
    let far = ends().map(|end| end.at.0).fold(0.0, f64::max);
    let at = |v: f64| Mm(ceiling + levels.underside.0 - levels.fall_per_metre.0 / 1000.0 * v - highest);
    Some(CeilingUnder { at_from: at(0.0), at_to: at(far) })
}
