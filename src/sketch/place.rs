//! Finding a place for a text: the cheapest of a list of candidates that covers no other text.
//!
//! Covering a text is ruled out; crossing a line costs what that line is worth. Candidates are tried in order and the first of
//! the cheapest is taken, so that the same drawing always comes out the same.

use std::f64::consts::TAU;

use super::elements::{Label, Line};
use super::shape::{Frame, Laid, Segment};
use crate::geometry::Point;

/// The least space between two texts, mm, over and under each; and before and behind it, more than a space between words.
const AIR: f64 = 0.5;
const AIR_ALONG: f64 = 0.9;

/// What it costs a leader to run behind a text, and along a line, as if it were that line.
const ACROSS_TEXT: f64 = 150.0;
const ALONG_LINE: f64 = 40.0;

/// A place that a text might take.
#[derive(Debug, Clone, Copy)]
pub(super) struct Candidate {
    /// The text's box there.
    pub(super) frame: Frame,
    /// The line from it to what it belongs to, if it needs one there.
    pub(super) leader: Option<Segment>,
    /// How poor the place is by itself.
    pub(super) cost: f64,
}

/// A line in the way, and what crossing it costs.
#[derive(Debug, Clone, Copy)]
struct InTheWay {
    segment: Segment,
    cost: f64,
}

/// The texts placed so far, and the lines in their way.
#[derive(Debug, Clone, Default)]
pub(super) struct Places {
    texts: Vec<Laid>,
    lines: Vec<InTheWay>,
    areas: Vec<(Laid, f64)>,
}

impl Places {
    /// Notes a line; a text across it costs `cost`.
    pub(super) fn line(&mut self, line: &Line, cost: f64) {
        self.lines.extend(line.segments().map(|segment| InTheWay { segment, cost }));
    }

    /// Notes a straight line that is not drawn yet.
    pub(super) fn segment(&mut self, segment: Segment, cost: f64) {
        self.lines.push(InTheWay { segment, cost });
    }

    /// Notes an area; a text on it costs `cost`.
    pub(super) fn area(&mut self, frame: Frame, cost: f64) {
        self.areas.push((frame.laid(), cost));
    }

    /// Takes the cheapest candidate and notes it, if there is one that covers no text.
    pub(super) fn take(&mut self, candidates: impl IntoIterator<Item = Candidate>) -> Option<Candidate> {
        self.take_below(candidates, f64::INFINITY)
    }

    /// The same, if it costs less than `bar`.
    pub(super) fn take_below(
        &mut self,
        candidates: impl IntoIterator<Item = Candidate>,
        bar: f64,
    ) -> Option<Candidate> {
        let mut best: Option<Candidate> = None;
        for candidate in candidates {
            let bar = best.map_or(bar, |best| best.cost);
            if let Some(cost) = self.cost(&candidate, bar) {
                best = Some(Candidate { cost, ..candidate });
            }
        }
        let taken = best?;
        self.texts.push(aired(taken.frame).laid());
        if let Some(leader) = taken.leader {
            self.segment(leader, 60.0);
        }
        Some(taken)
    }

    /// The candidate's cost, unless it covers a text or comes to `bar` or more.
    fn cost(&self, candidate: &Candidate, bar: f64) -> Option<f64> {
        let mut cost = candidate.cost;
        if cost >= bar {
            return None;
        }
        let aired = aired(candidate.frame).laid();
        if self.texts.iter().any(|text| text.overlaps(&aired)) {
            return None;
        }
        let frame = candidate.frame.grown(AIR).laid();
        if let Some(leader) = candidate.leader {
            // The text is not covered, since it lies over lines; but the leader is hard to follow.
            let crossed = self.texts.iter().filter(|text| text.is_crossed_by(leader));
            cost += ACROSS_TEXT * crossed.count() as f64;
            if cost >= bar {
                return None;
            }
        }
        for (area, worth) in &self.areas {
            if area.overlaps(&frame) {
                cost += worth;
            }
        }
        for line in &self.lines {
            if frame.is_crossed_by(line.segment) {
                cost += line.cost;
            }
            if candidate.leader.is_some_and(|leader| leader.runs_along(line.segment)) {
                cost += ALONG_LINE;
            }
            if cost >= bar {
                return None;
            }
        }
        (cost < bar).then_some(cost)
    }
}

fn aired(frame: Frame) -> Frame {
    Frame { width: frame.width + 2.0 * AIR_ALONG, height: frame.height + 2.0 * AIR, ..frame }
}

/// Places round `at`, nearer ones first, each ring starting from the direction (`x`, `y`): a leader is drawn to `at` from
/// farther out than `leaderless`. `clear` is how near the box may come, mm.
pub(super) fn around(
    label: &Label,
    at: Point,
    toward: Point,
    clear: f64,
    leaderless: f64,
) -> impl Iterator<Item = Candidate> + use<> {
    const RINGS: [f64; 14] = [0.0, 1.0, 2.5, 4.5, 7.0, 10.0, 14.0, 19.0, 25.0, 32.0, 40.0, 55.0, 75.0, 100.0];
    const DIRECTIONS: usize = 24;
    let (width, height) = (label.frame.width / 2.0, label.frame.height / 2.0);
    let start = toward.y.atan2(toward.x);
    let frame = label.frame;
    let directions: [_; DIRECTIONS] = std::array::from_fn(|i| {
        // 0, then one step to either side, and so on round.
        let steps = i.div_ceil(2) as f64 * if i % 2 == 0 { 1.0 } else { -1.0 };
        let (sin, cos) = (start + steps * TAU / DIRECTIONS as f64).sin_cos();
        // How far out the box's middle must be for its nearest edge to be `clear` away.
        let reach = (width / cos.abs().max(1e-9)).min(height / sin.abs().max(1e-9));
        (steps.abs(), Point::new(cos, sin), reach)
    });
    RINGS.into_iter().flat_map(move |ring| {
        directions.into_iter().map(move |(steps, direction, reach)| {
            let out = |by: f64| Point::new(at.x + direction.x * by, at.y + direction.y * by);
            let leader = (ring + clear > leaderless).then(|| Segment::new(out(clear + ring - 0.3), out(0.6)));
            Candidate {
                frame: Frame { middle: out(reach + clear + ring), ..frame },
                leader,
                cost: ring * 2.0 + steps * 1.2 + if leader.is_some() { 6.0 } else { 0.0 },
            }
        })
    })
}
