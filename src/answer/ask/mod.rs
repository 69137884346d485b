//! How each question is asked of a job: what the job has to have for it, and the capability that answers.

mod day;
mod gathering;
mod joists;
mod listed;
mod lot;
mod order;
mod sheet;
mod sketch;

pub use order::order_of_plots;

use super::commands::{Answer, Asked, Known, Part, Question};
use super::error::{AnswerError, NO_PLAN};
use crate::cuts::{Cuts, cuts};
use crate::heights::{Heights, WallHead, heights};
use crate::job::Job;
use crate::lines::{Lines, LinesQuestion, Straight, lines, straight};
use crate::packing::{Packing, Packs, packs};
use crate::plan::Footprint;
use crate::plates::{Plates, plates};
use crate::readings::{self, Readings, Reason};
use crate::square::{Corners, CornersQuestion, Diagonals, Options, corners, diagonals};

const NO_LEVELS: AnswerError = AnswerError::Missing {
    typed: "there are no readings: write --staff A=1412,B=1409 (the bigger, the lower) or --heights A=0,B=-3, or `packs` in the job file",
    in_file: "there are no levels: give `packs.staff` or `packs.heights` in the job file",
};
const NO_HEIGHTS: AnswerError = AnswerError::Missing {
    typed: "there is no wall head and no ceiling: write --drop 2398 --level-depth 50, or --ceiling 2400, or both, or `heights` in the job file",
    in_file: "there is no wall head and no ceiling: give `heights.drops` and `heights.level_depth`, or `heights.ceiling`, or all of them in the job file",
};
const NO_WIDTH: AnswerError = AnswerError::Missing {
    typed: "there is no plate width: write --width 140, or `plates.width` in the job file",
    in_file: "there is no plate width: give `plates.width` in the job file",
};
const NO_STOCK: AnswerError = AnswerError::Missing {
    typed: "there is no stock to cut from: write --stock 3.6m:10.80,4.8m:15.60 or without prices 3.6m,4.8m, or `stock.lengths` in the job file",
    in_file: "there is no stock to cut from: give `stock.lengths` in the job file",
};
const NO_PIECES: AnswerError = AnswerError::Missing {
    typed: "there is nothing to cut: write --pieces 4x1200,2x2350, or `cuts.pieces` in the job file",
    in_file: "there is nothing to cut: give `cuts.pieces` in the job file",
};
const NO_BLOCK_READINGS: AnswerError = AnswerError::Missing {
    typed: "there are no readings: write the blocks' thickness and where along the side each was taken, such as --block 20 --read 0=20,1200=22, or `straight` in the job file",
    in_file: "there are no readings: give `straight.block` and `straight.readings` in the job file",
};
const NOTHING_TAPED: AnswerError = AnswerError::Missing {
    typed: "there are no readings: write --read AB=7802,BC=3601,AC=8594, the line and what the tape read, or `readings.read` in the job file",
    in_file: "there are no readings: give `readings.read`, the lines and what the tape read, in the job file",
};

impl Job {
    /// Answers a question.
    pub fn answer(&self, question: Question) -> Result<Answer, AnswerError> {
        question.asked(self, &[])
    }

    fn plan(&self) -> Result<&Footprint, AnswerError> {
        self.footprint.as_ref().ok_or(NO_PLAN)
    }
}

impl Asked for Diagonals {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        let options =
            Options { tape: job.tape, units: job.units, spares: job.spares, limit: job.check_limit };
        diagonals(job.plan()?, &options).map_err(AnswerError::refused(job.units))
    }
}

impl Asked for Corners {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        if job.angle.is_none() {
            job.plan()?;
        }
        let question = CornersQuestion {
            footprint: job.footprint.as_ref(),
            tape: job.tape,
            units: job.units,
            tapes: job.angle.map(|angle| angle.tapes),
            corner: job.angle.and_then(|angle| angle.corner),
            limit: job.angle.and_then(|angle| angle.limit),
        };
        corners(&question).map_err(AnswerError::refused(job.units))
    }
}

impl Asked for Lines {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        let question = LinesQuestion {
            footprint: job.plan()?,
            setback: job.lines.setback,
            wall: &job.lines.wall,
            string: job.lines.string,
            offset: job.lines.offset,
            marks: job.lines.marks.as_ref(),
            units: job.units,
        };
        lines(&question).map_err(AnswerError::refused(job.units))
    }
}

impl Asked for Plates {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        let footprint = job.plan()?;
        let options = job.plates.as_ref().ok_or(NO_WIDTH)?;
        if options.timber.is_empty() {
            return Err(NO_STOCK);
        }
        plates(footprint, options).map_err(AnswerError::refused(job.units))
    }
}

impl Asked for Cuts {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        let question = job.cuts.as_ref().ok_or(NO_PIECES)?;
        if question.timber.is_empty() {
            return Err(NO_STOCK);
        }
        cuts(question).map_err(AnswerError::refused(job.units))
    }
}

impl Asked for Readings {
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        let footprint = job.plan()?;
        let taped = job.readings.as_ref().ok_or(NOTHING_TAPED)?;
        let input = taped.input(footprint, job.units);
        let judged = |input| readings::readings(input).map_err(AnswerError::refused(job.units));
        let answer = judged(&input)?;
        if answer.tape_next.iter().all(|next| next.reason != Reason::Checks) {
            return Ok(answer);
        }
        // The check sizes have named the lines that show up a misread: the same ones are asked for.
        let named = Diagonals::part(job, known)?;
        let spares: Vec<_> =
            named.spares.names.iter().filter_map(|name| footprint.parse_line(name)).collect();
        judged(&readings::Input { spares: &spares, ..input })
    }
}

impl Asked for Straight {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        let question = job.straight.as_ref().ok_or(NO_BLOCK_READINGS)?;
        straight(question).map_err(AnswerError::refused(job.units))?.ok_or(NO_BLOCK_READINGS)
    }
}

impl Asked for Packs {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        packs(job.plan()?, job.packs.as_ref().ok_or(NO_LEVELS)?).map_err(AnswerError::refused(job.units))
    }
}

impl Asked for Heights {
    fn asked(job: &Job, _: &[Part]) -> Result<Self, AnswerError> {
        let given = job.heights.as_ref().filter(|head| !head.drops.is_empty() || head.ceiling.is_some());
        heights(&on_packs(given.ok_or(NO_HEIGHTS)?, job)?).map_err(AnswerError::refused(job.units))
    }
}

/// The wall head with the pack at each drop's place, where the job has it.
fn on_packs(head: &WallHead, job: &Job) -> Result<WallHead, AnswerError> {
    let mut head = head.clone();
    let placed = head.drops.iter().any(|drop| drop.place.is_some());
    if let (true, Some(footprint), Some(packing)) = (placed, &job.footprint, &job.packs) {
        let gaps = packs(footprint, &Packing { packers: vec![], ..packing.clone() })
            .map_err(AnswerError::refused(job.units))?;
        for drop in &mut head.drops {
            let mut all = gaps.stations.iter().chain(&gaps.studs);
            let there = all.find(|station| Some(&station.name) == drop.place.as_ref());
            drop.pack = there.map(|station| station.pack.0);
        }
    }
    Ok(head)
}
