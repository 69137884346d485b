//! The readings of one job taken in, with what can be asked of them.

use crate::geometry::Point;
use crate::length::trimmed;
use crate::network::{self, Distance};
use crate::plan::{Lies, Site};

use super::error::Error;
use super::input::Input;
use super::intake::{self, Taped};
use super::misreads::cause::Clue;
use super::network::adjust::distances;
use super::network::observation::Observation;

/// The readings taken in, and the lines that could be taped as well.
#[derive(Debug)]
pub(super) struct Case<'a> {
    pub(super) input: &'a Input<'a>,
    plan: Vec<Point>,
    pub(super) taped: Vec<Taped>,
    pub(super) observations: Vec<Observation>,
    pub(super) clues: Vec<Clue>,
    /// Lines not taped yet that can be.
    pub(super) candidates: Vec<Distance>,
}

impl<'a> Case<'a> {
    pub(super) fn new(input: &'a Input<'a>) -> Result<Self, Error> {
        input.check()?;
        let taped = intake::take_in(input)?;
        let observations: Vec<Observation> = taped.iter().map(|t| t.observation).collect();
        let clues = taped
            .iter()
            .map(|t| Clue { read: t.read, held_on: input.tapes[t.tape].held_on, units: input.units })
            .collect();
        let plan = input.footprint.points();
        one_unit(input, &plan, &taped)?;
        let candidates = candidates(input, &plan, &observations);
        Ok(Self { input, plan, taped, observations, clues, candidates })
    }

    pub(super) fn plan(&self) -> &[Point] {
        &self.plan
    }

    /// Takes the ends to have been held `rougher` than was said, mm: so the readings bear out.
    pub(super) fn roughen(&mut self, rougher: f64) {
        for sd in self
            .observations
            .iter_mut()
            .map(|o| &mut o.sd)
            .chain(self.candidates.iter_mut().map(|c| &mut c.sd))
        {
            *sd = sd.hypot(rougher);
        }
    }

    pub(super) fn rank(&self) -> usize {
        network::rank(self.plan(), &distances(&self.observations))
    }

    fn is_past(&self, tape: usize, from: usize, to: usize) -> bool {
        let used = &self.input.tapes[tape];
        !used.tape.reaches(self.plan[from].distance(self.plan[to]) + used.held_on)
    }

    /// The lines taped that their tape doesn't reach along in one pull.
    pub(super) fn past_tape(&self) -> Vec<String> {
        let past = |t: &&Taped| self.is_past(t.tape, t.observation.from, t.observation.to);
        self.taped.iter().filter(past).map(|taped| taped.name.clone()).collect()
    }

    /// The lines to tape next that the first tape doesn't reach along in one pull.
    pub(super) fn next_in_pulls(&self, next: &[String]) -> Vec<String> {
        let past = self.candidates.iter().filter(|line| self.is_past(0, line.from, line.to));
        past.map(|line| self.input.footprint.line_name(line.from, line.to))
            .filter(|name| next.contains(name))
            .collect()
    }

    /// The readings of lines that the house blocks.
    pub(super) fn through_house(&self) -> Vec<usize> {
        let site = Site::of(self.input.footprint);
        let blocked = |o: &Observation| site.lies(self.plan[o.from], self.plan[o.to]) == Lies::Blocked;
        (0..self.taped.len()).filter(|i| blocked(&self.observations[*i])).collect()
    }

    pub(super) fn pick(&self, indices: &[usize]) -> Vec<Observation> {
        indices.iter().map(|i| self.observations[*i]).collect()
    }
}

/// The lines that are not taped yet, that the house does not block and that the first tape reaches; where those can't fix
/// the shape, the longer ones too, which are taped in pulls along a string.
fn candidates(input: &Input<'_>, plan: &[Point], observations: &[Observation]) -> Vec<Distance> {
    let Some(used) = input.tapes.first() else {
        return Vec::new();
    };
    let site = Site::of(input.footprint);
    let taped = |from: usize, to: usize| {
        let same = |o: &Observation| (o.from, o.to) == (from, to) || (o.to, o.from) == (from, to);
        observations.iter().any(same)
    };
    let (mut lines, mut past_tape) = (Vec::new(), Vec::new());
    for from in 0..plan.len() {
        for to in from + 1..plan.len() {
            let length = plan[from].distance(plan[to]);
            if !taped(from, to) && site.lies(plan[from], plan[to]) != Lies::Blocked {
                let line = Distance { from, to, sd: used.tape.standard_deviation(length).max(0.01) };
                let reached = used.tape.reaches(length + used.held_on);
                if reached { &mut lines } else { &mut past_tape }.push(line);
            }
        }
    }
    let can_be_fixed = || {
        let all = [distances(observations), lines.clone()].concat();
        network::rank(plan, &all) >= network::needed(plan.len())
    };
    if !past_tape.is_empty() && !can_be_fixed() {
        lines.append(&mut past_tape);
    }
    lines
}

/// How many times too small (or, under 1, too large) readings are that were typed without their unit, the unit, and how to write
/// them: the mm of a unit and its sign.
const UNITS: [(f64, &str, (f64, &str)); 6] = [
    (1000.0, "metres", (1000.0, "m")),
    (10.0, "centimetres", (1000.0, "m")),
    (304.8, "feet", (304.8, "ft")),
    (25.4, "inches", (25.4, "in")),
    (1.0 / 12.0, "inches", (25.4, "in")),
    (0.001, "millimetres", (1.0, "mm")),
];

/// Fails where nearly all the readings are the plan's lengths in another unit.
fn one_unit(input: &Input<'_>, plan: &[Point], taped: &[Taped]) -> Result<(), Error> {
    if taped.len() < 3 {
        return Ok(());
    }
    for (factor, unit, (mm, sign)) in UNITS {
        let of_plan = |t: &&Taped| {
            let planned = plan[t.observation.from].distance(plan[t.observation.to]);
            (t.read * factor / planned - 1.0).abs() < NEAR
        };
        if 5 * taped.iter().filter(of_plan).count() >= 4 * taped.len() {
            let first = &taped[0];
            let line = input.footprint.line_name(first.observation.from, first.observation.to);
            let figure = trimmed(first.read * factor / mm, 3);
            let share = if factor > 1.0 {
                format!("1/{} of", trimmed(factor, 1))
            } else {
                format!("{} times", trimmed(1.0 / factor, 0))
            };
            return Err(Error::OtherUnit { share, unit, example: format!("{line}={figure}{sign}") });
        }
    }
    Ok(())
}

/// How near, as a share of it, a reading has to come to the plan's length to be taken for it in another unit.
const NEAR: f64 = 0.1;
