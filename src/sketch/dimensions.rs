//! Dimension lines: extension lines, the line with its strokes, and places for the lengths on it. Outside the figure there is a
//! chain of the sides seen from each direction.

use super::elements::{Label, Line, Part, Pen, Wording};
use super::lettering::Lettering;
use super::place::{Candidate, Places};
use super::scene::Figure;
use super::shape::{Extent, Frame, Segment};
use super::view::{Seen, View};
use crate::geometry::Point;

/// From the outline to the first dimension line, mm.
const FIRST_ROW: f64 = 12.0;
/// From anything else that is drawn there to the first dimension line, mm.
const CLEAR_ROW: f64 = 9.0;
/// From a corner to its extension line, and how far that runs on past the dimension line, mm.
const EXTENSION_GAP: f64 = 1.5;
/// From a dimension line to the text above it, mm.
pub(super) const TEXT_GAP: f64 = 0.7;
/// Half the stroke at the end of a dimension line, across and along, mm.
const TICK: f64 = 1.0;
/// What a text across a line costs.
const ACROSS_EXTENSION: f64 = 20.0;
const ACROSS_ROW: f64 = 30.0;

/// A length to be written at a dimension line.
#[derive(Debug, Clone)]
pub(super) struct Measure {
    pub(super) wording: Wording,
    pub(super) name: String,
    pub(super) text: String,
    pub(super) from: f64,
    pub(super) to: f64,
}

/// A dimension line with one or more lengths on it.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) view: View,
    pub(super) out: f64,
    pub(super) measures: Vec<Measure>,
    /// What it costs a length to leave its own stretch of the line.
    pub(super) leaving: f64,
}

/// The first row of a view, if any side is seen in it; beside upright sides it leaves room for marks `marked` mm wide.
pub(super) fn chain(
    view: View,
    sides: &[Seen],
    outline: Extent,
    drawn: Extent,
    marked: f64,
    measure: impl Fn(Seen) -> Measure,
) -> Option<Row> {
    let mut seen: Vec<Seen> =
        sides.iter().filter(|side| side.view == view && side.clearance.is_infinite()).copied().collect();
    seen.sort_by(|a, b| a.from.total_cmp(&b.from));
    let first = if view.0.is_across() { FIRST_ROW } else { FIRST_ROW.max(marked + CLEAR_ROW) };
    let out = f64::max(farthest(view, outline) + first, farthest(view, drawn) + CLEAR_ROW);
    (!seen.is_empty()).then(|| Row {
        view,
        out,
        measures: seen.into_iter().map(measure).collect(),
        leaving: 0.0,
    })
}

pub(super) fn farthest(view: View, extent: Extent) -> f64 {
    let corners = [Point::new(extent.left, extent.top), Point::new(extent.right, extent.bottom)];
    corners.into_iter().map(|p| view.split(p).1).fold(f64::NEG_INFINITY, f64::max)
}

impl Row {
    /// Where it is divided.
    fn divisions(&self) -> Vec<f64> {
        let mut at: Vec<f64> = self.measures.iter().flat_map(|m| [m.from, m.to]).collect();
        at.sort_by(f64::total_cmp);
        at.dedup_by(|b, a| (*b - *a).abs() < 1e-6);
        at
    }

    /// Whether it is divided at `along`.
    pub(super) fn is_divided_at(&self, along: f64) -> bool {
        self.divisions().iter().any(|at| (at - along).abs() < 1e-6)
    }

    /// Draws it: extension lines from `start(along)`, the line, a stroke at each division.
    pub(super) fn draw(&self, figure: &mut Figure, places: &mut Places, start: impl Fn(f64) -> f64) {
        let view = self.view;
        let divisions = self.divisions();
        let mut push = |part: Part, pen: Pen, ends: [Point; 2], cost: f64| {
            let line = Line::new(part, pen, ends.to_vec());
            places.line(&line, cost);
            figure.lines.push(line);
        };
        for along in &divisions {
            let from = f64::min(start(*along) + EXTENSION_GAP, self.out - EXTENSION_GAP);
            let ends = [view.join(*along, from), view.join(*along, self.out + EXTENSION_GAP)];
            push(Part::Extension, Pen::Narrow, ends, ACROSS_EXTENSION);
        }
        if let [first, .., last] = divisions[..] {
            let ends = [view.join(first, self.out), view.join(last, self.out)];
            push(Part::Dimension, Pen::Narrow, ends, ACROSS_ROW);
        }
        for along in &divisions {
            let middle = view.join(*along, self.out);
            let ends = [1.0, -1.0].map(|s| Point::new(middle.x - s * TICK, middle.y + s * TICK));
            push(Part::Tick, Pen::Medium, ends, ACROSS_EXTENSION);
        }
    }

    /// Writes its lengths, the ones with least room last, and returns how far out the farthest reaches; nothing where one
    /// found no place.
    pub(super) fn label(
        &self,
        figure: &mut Figure,
        places: &mut Places,
        lettering: Lettering,
    ) -> Option<f64> {
        let mut farthest = self.out;
        let divisions = self.divisions();
        let (first, last) = (divisions[0], divisions[divisions.len() - 1]);
        let mut order: Vec<&Measure> = self.measures.iter().collect();
        order.sort_by(|a, b| (b.to - b.from).total_cmp(&(a.to - a.from)));
        for measure in order {
            let label = label(measure, lettering, self.view);
            let candidates = self.candidates(measure, &label, (first, last));
            let frame = put(figure, places, label, candidates)?;
            farthest = farthest.max(self.view.split(frame.middle).1 + frame.height / 2.0);
        }
        Some(farthest)
    }

    fn candidates(&self, measure: &Measure, label: &Label, (first, last): (f64, f64)) -> Vec<Candidate> {
        let view = self.view;
        let (width, height) = (label.frame.width, label.frame.height);
        let (mid, span) = (f64::midpoint(measure.from, measure.to), measure.to - measure.from);
        let above = if view.above_is_out() { 1.0 } else { -1.0 };
        let on_row = self.out + above * (TEXT_GAP + height / 2.0);
        let place = |along: f64, out: f64, leader: Option<Segment>, cost: f64| Candidate {
            frame: Frame { middle: view.join(along, out), ..label.frame },
            leader,
            cost,
        };
        let mut candidates = vec![];
        if width + 1.0 <= span {
            let slack = (span - width - 1.0) / 2.0;
            for step in [0.0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1.0, -1.0] {
                let cost = 3.0 * f64::abs(step);
                candidates.push(place(mid + step * slack, on_row, None, cost));
            }
        }
        // Past the end of the row, with the line drawn on under it.
        for (end, is_end, way) in
            [(measure.to, measure.to > last - 1e-6, 1.0), (measure.from, measure.from < first + 1e-6, -1.0)]
        {
            if is_end {
                let along = end + way * (width / 2.0 + 1.5);
                let under =
                    Segment::new(view.join(end, self.out), view.join(end + way * (width + 1.5), self.out));
                candidates.push(place(along, on_row, Some(under), 4.0 + self.leaving));
            }
        }
        // Farther out, with a leader to the middle of its own stretch.
        for level in 0..8 {
            let step = f64::from(level) * (height + 1.2);
            let base = if view.above_is_out() {
                self.out + TEXT_GAP + height + 1.2
            } else {
                self.out + EXTENSION_GAP + 0.5
            };
            let out = base + step + height / 2.0;
            for slide in [0.0, 0.3, -0.3, 0.6, -0.6, 1.0, -1.0, 1.5, -1.5, 2.0, -2.0, 3.0, -3.0] {
                let along = mid + slide * width;
                let foot = mid.clamp(along - width / 2.0 + 0.5, along + width / 2.0 - 0.5);
                let line = Segment::new(view.join(foot, out - height / 2.0), view.join(mid, self.out));
                let cost = 8.0 + self.leaving + 6.0 * f64::from(level) + 6.0 * f64::abs(slide);
                candidates.push(place(along, out, Some(line), cost));
            }
        }
        candidates
    }
}

pub(super) fn label(measure: &Measure, lettering: Lettering, view: View) -> Label {
    let mut label = Label::new(measure.wording, measure.text.clone(), lettering, Point::default());
    label.name.clone_from(&measure.name);
    label.frame.turn = view.turn();
    label
}

/// Puts a text in the cheapest of its places, with a leader where it needs one, and tells it; nothing where there is none.
pub(super) fn put(
    figure: &mut Figure,
    places: &mut Places,
    mut label: Label,
    candidates: impl IntoIterator<Item = Candidate>,
) -> Option<Frame> {
    let taken = places.take(candidates)?;
    if let Some(Segment { a, b }) = taken.leader {
        figure.lines.push(Line::new(Part::Leader, Pen::Narrow, vec![a, b]));
    }
    label.frame = taken.frame;
    figure.labels.push(label);
    Some(taken.frame)
}
