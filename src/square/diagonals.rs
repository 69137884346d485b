//! Every check size of an outline.

use super::answer::{
    CalledLimit, Diagonal, Diagonals, InPulls, ProofSet, RectanglePart, SpareSet, StraightCheck, Triangle,
    Vertex,
};
use super::proof::{Called, choose_proof, for_limit};
use super::rectangles::{Rectangle, rectangles};
use crate::geometry::{Mm, Point, Ratio};
use crate::length::{MM_PER_FOOT, Units};
use crate::network::{Distance, needed};
use crate::plan::{Footprint, Grid, Lies, SAME_PLACE, Site};
use crate::tape::{Tape, TapeError};

/// What the check sizes depend on besides the outline.
#[derive(Debug, Clone, Copy)]
pub struct Options {
    /// The tape: its class gives the standard deviations, its length what can be taped in one pull.
    pub tape: Tape,
    /// The units whose tape step the tape lengths are rounded to.
    pub units: Units,
    /// How many diagonals to choose beyond the proof set.
    pub spares: usize,
    /// The most that a corner may be out of square, mm, which the set must be able to tell; more spares are chosen for it.
    pub limit: Option<f64>,
}

impl Default for Options {
    fn default() -> Self {
        Self { tape: Tape::default(), units: Units::default(), spares: 2, limit: None }
    }
}

/// Works out every check size of `footprint`.
///
/// The proof set and the spares are chosen from all lines between corners that can be taped in one pull, straight
/// ones too: across the mouth of a T's stem is as good a tape as any.
///
/// Fails on a tape that can be none.
pub fn diagonals(footprint: &Footprint, options: &Options) -> Result<Diagonals, TapeError> {
    options.tape.check()?;
    let parts = rectangles(footprint, &Grid::new(footprint));
    let taped = |from: usize, to: usize, length: f64| Distance {
        from,
        to,
        sd: options.tape.standard_deviation(length),
    };
    let sides: Vec<Distance> =
        footprint.sides().iter().map(|side| taped(side.from, side.to, side.length)).collect();
    let mut lines = lines(footprint, options);
    let (tapeable, candidates): (Vec<usize>, Vec<Distance>) = lines
        .iter()
        .enumerate()
        .filter(|(_, line)| line.lies != Lies::Blocked && line.in_reach)
        .map(|(i, line)| (i, taped(line.from, line.to, line.length)))
        .unzip();
    let points = footprint.points();
    let mut choice = choose_proof(&points, &sides, &candidates, options.spares);
    let called = options
        .limit
        .and_then(|limit| Some((limit, for_limit(&points, &sides, &candidates, &mut choice, limit)?)));
    for i in &choice.with_spares.chosen {
        let proof = choice.fewest.chosen.contains(i);
        let line = &mut lines[tapeable[*i]];
        line.proof = proof;
        line.spare = !proof;
    }
    let names = |wanted: fn(&Line) -> bool| {
        lines.iter().filter(|line| wanted(line)).map(|line| footprint.line_name(line.from, line.to)).collect()
    };
    let redundancy = |chosen: &[usize]| {
        let readings = footprint.len() + chosen.len();
        i64::try_from(readings).unwrap_or(0) - i64::try_from(needed(footprint.len())).unwrap_or(0)
    };
    let in_pulls = in_pulls(footprint, options);
    let (straight, slanting): (Vec<&Line>, Vec<&Line>) = lines.iter().partition(|line| line.is_straight());
    Ok(Diagonals {
        triangles: parts.iter().enumerate().flat_map(|(i, part)| triangles(i, part)).collect(),
        rectangles: parts.iter().map(|part| rectangle_part(footprint, part)).collect(),
        diagonals: slanting.iter().map(|line| line.diagonal(footprint, options.units)).collect(),
        straight_checks: straight.iter().map(|line| line.straight_check(footprint, options.units)).collect(),
        proof: ProofSet {
            names: names(|line| line.proof),
            worst_corner_sd: choice.fewest.worst_corner_sd.map(Mm),
            redundancy: redundancy(&choice.fewest.chosen),
            fixed: choice.fewest.worst_corner_sd.is_some(),
            proven: choice.proven,
        },
        spares: SpareSet {
            names: names(|line| line.spare),
            worst_corner_sd: choice.with_spares.worst_corner_sd.map(Mm),
            redundancy: redundancy(&choice.with_spares.chosen),
            hides: choice.hides.map(Mm),
        },
        limit: called.map(|(limit, called)| called_limit(limit, &called)),
        sides_past_tape: in_pulls.iter().map(|side| side.name.clone()).collect(),
        in_pulls,
    })
}

fn called_limit(limit: f64, Called { by_set, by_all }: &Called) -> CalledLimit {
    CalledLimit { limit: Mm(limit), least: Mm(*by_set), least_of_all: Mm(*by_all), called: *by_set <= limit }
}

/// The sides that the tape doesn't reach along, and the pulls that do.
fn in_pulls(footprint: &Footprint, options: &Options) -> Vec<InPulls> {
    let step = match options.units {
        Units::Mm | Units::M => 1000.0,
        Units::FeetInches => MM_PER_FOOT,
    };
    let sides = footprint.sides().iter().enumerate();
    sides
        .filter(|(_, side)| !options.tape.reaches(side.length))
        .map(|(i, side)| InPulls {
            name: footprint.side_name(i),
            length: Mm(side.length),
            pulls: options.tape.pulls(side.length, step).into_iter().map(Mm).collect(),
        })
        .collect()
}

/// A line between two corners that is not a side.
struct Line {
    from: usize,
    to: usize,
    across: f64,
    down: f64,
    length: f64,
    lies: Lies,
    in_reach: bool,
    proof: bool,
    spare: bool,
}

/// Every line between two corners that is not a side, in order of letters.
fn lines(footprint: &Footprint, options: &Options) -> Vec<Line> {
    let site = Site::of(footprint);
    let corners = footprint.corners();
    let mut lines = vec![];
    for from in 0..corners.len() {
        for to in (from + 1..corners.len()).filter(|to| !footprint.is_side(from, *to)) {
            let (a, b) = (corners[from].at, corners[to].at);
            let length = a.distance(b);
            lines.push(Line {
                from,
                to,
                across: (b.x - a.x).abs(),
                down: (b.y - a.y).abs(),
                length,
                lies: site.lies(a, b),
                in_reach: options.tape.reaches(length),
                proof: false,
                spare: false,
            });
        }
    }
    lines
}

impl Line {
    fn is_straight(&self) -> bool {
        self.across <= SAME_PLACE || self.down <= SAME_PLACE
    }

    fn diagonal(&self, footprint: &Footprint, units: Units) -> Diagonal {
        Diagonal {
            name: footprint.line_name(self.from, self.to),
            from: footprint.corners()[self.from].name.to_string(),
            to: footprint.corners()[self.to].name.to_string(),
            across: Mm(self.across),
            down: Mm(self.down),
            length: Mm(self.length),
            tape: Mm(units.on_tape(self.length)),
            lies: self.lies,
            proof: self.proof,
            spare: self.spare,
            in_reach: self.in_reach,
            mm_at_end_per_mm: Ratio(self.length / self.across.min(self.down)),
        }
    }

    fn straight_check(&self, footprint: &Footprint, units: Units) -> StraightCheck {
        StraightCheck {
            name: footprint.line_name(self.from, self.to),
            length: Mm(self.length),
            tape: Mm(units.on_tape(self.length)),
            lies: self.lies,
            proof: self.proof,
            spare: self.spare,
            in_reach: self.in_reach,
        }
    }
}

/// The two halves of a rectangle, with right angles at its top right and bottom left.
fn triangles(index: usize, part: &Rectangle) -> [Triangle; 2] {
    [1, 3].map(|right_angle_at| Triangle {
        rectangle: index + 1,
        a: Mm(part.across()),
        b: Mm(part.down()),
        c: Mm(part.diagonal()),
        right_angle_at,
    })
}

fn rectangle_part(footprint: &Footprint, part: &Rectangle) -> RectanglePart {
    RectanglePart {
        across: Mm(part.across()),
        down: Mm(part.down()),
        diagonal: Mm(part.diagonal()),
        corners: part.corners().iter().map(|at| vertex(footprint, *at)).collect(),
    }
}

fn vertex(footprint: &Footprint, at: Point) -> Vertex {
    let corner = footprint.corners().iter().find(|corner| corner.at.distance(at) <= SAME_PLACE);
    let on_side = footprint.sides().iter().position(|side| {
        let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
        (a.distance(at) + at.distance(b) - side.length).abs() <= SAME_PLACE
    });
    let side = on_side.filter(|_| corner.is_none());
    Vertex {
        corner: corner.map(|corner| corner.name.to_string()),
        side: side.map(|i| footprint.side_name(i)),
        along: side.map(|i| Mm(footprint.corners()[footprint.sides()[i].from].at.distance(at))),
        x: Mm(at.x),
        y: Mm(at.y),
    }
}
