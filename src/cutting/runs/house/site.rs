//! The house in plain numbers: every shape of every run, and which shapes go together at a corner.

use std::ops::Range;

use crate::cutting::error::Error;
use crate::cutting::model::{House, Run};
use crate::cutting::runs::instance::{Instance, Span, check_bars, check_runs};
use crate::exact::Tenths;

/// Two runs that meet at a corner and must agree which way round it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Link {
    pub(super) corner: usize,
    /// The first run there; each other one is linked to it.
    pub(super) first: usize,
    pub(super) other: usize,
}

/// The house, checked.
#[derive(Debug, Clone)]
pub(super) struct Site {
    /// The bars and the rules, and as its spans every shape of every run one after the other.
    pub(super) instance: Instance,
    /// The shapes of each run, as places among the spans.
    pub(super) shapes: Vec<Range<usize>>,
    /// The run of each shape.
    pub(super) run_of: Vec<usize>,
    /// The corners that each shape has a part in, and which way round they are for it.
    pub(super) asks: Vec<Vec<(usize, bool)>>,
    pub(super) links: Vec<Link>,
    pub(super) corners: usize,
    /// Runs that lie one over the other, where each shape starts on the line that they share, and how far splices keep apart.
    pub(super) pairs: Vec<(usize, usize)>,
    pub(super) origin: Vec<i64>,
    pub(super) lap: i64,
    /// Whether the shape can be made up at all.
    pub(super) possible: Vec<bool>,
    /// Shapes that lie one over the other whose splices can't keep apart if both have as few as they can.
    pub(super) cramped: Vec<(usize, usize)>,
}

impl Site {
    pub(super) fn new(house: &House) -> Result<Self, Error> {
        let all = house.runs.iter().flatten().map(|shape| &shape.run);
        check_runs(house.runs.len(), all.filter(|run| run.length != Tenths(0)))?;
        let mut instance = Instance::bars(&house.stock, house.rules, house.favour)?;
        // The first shapes of all runs are one way round, and no way round takes more timber than another.
        let first = house.runs.iter().filter_map(|shapes| shapes.first());
        check_bars(first.map(|shape| shape.run.length.0).sum(), &instance)?;
        let (mut shapes, mut run_of, mut asks, mut possible) = (vec![], vec![], vec![], vec![]);
        for (run, given) in house.runs.iter().enumerate() {
            let from = run_of.len();
            let mut problem = None;
            for shape in given {
                let span = Span::new(&shape.run, &instance);
                possible.push(span.is_ok());
                match span {
                    Ok(span) => instance.spans.push(span),
                    Err(error) => {
                        // Never taken, it only keeps its place.
                        instance
                            .spans
                            .push(Span::new(&Run { length: Tenths(0), ..shape.run.clone() }, &instance)?);
                        problem = Some(error);
                    }
                }
                run_of.push(run);
                asks.push(shape.asks.clone());
            }
            if let Some(problem) = problem.filter(|_| !possible[from..].contains(&true)) {
                return Err(problem);
            }
            shapes.push(from..run_of.len());
        }
        let mut site = Self {
            instance,
            shapes,
            run_of,
            asks,
            links: vec![],
            corners: house.corners,
            pairs: house.over.clone(),
            origin: house.runs.iter().flatten().map(|shape| shape.origin.0).collect(),
            lap: house.lap.0,
            possible,
            cramped: vec![],
        };
        site.links = site.linked();
        site.cramped = site.pressed();
        Ok(site)
    }

    /// The shapes one over the other of which some two splices are never far enough apart.
    fn pressed(&self) -> Vec<(usize, usize)> {
        let places = |shape: usize| -> Vec<(i64, i64)> {
            let from = self.origin[shape];
            let ends = self.instance.spans[shape].few_splices(&self.instance);
            ends.into_iter().map(|(first, last)| (first + from, last + from)).collect()
        };
        let mut pressed = vec![];
        for &(under, over) in &self.pairs {
            let over: Vec<_> = self.shapes[over].clone().map(|shape| (shape, places(shape))).collect();
            for shape in self.shapes[under].clone() {
                let under = places(shape);
                let near = |a: &(i64, i64), b: &(i64, i64)| (a.1 - b.0).max(b.1 - a.0) < self.lap;
                let meets =
                    over.iter().filter(|(_, over)| under.iter().any(|a| over.iter().any(|b| near(a, b))));
                pressed.extend(meets.map(|(other, _)| (shape, *other)));
            }
        }
        pressed
    }

    fn linked(&self) -> Vec<Link> {
        let mut links = vec![];
        for corner in 0..self.corners {
            let has_part = |run: &usize| {
                self.shapes[*run].clone().any(|shape| self.asks[shape].iter().any(|ask| ask.0 == corner))
            };
            let mut there = (0..self.shapes.len()).filter(has_part);
            if let Some(first) = there.next() {
                links.extend(there.map(|other| Link { corner, first, other }));
            }
        }
        links
    }

    /// The corners that a run has a part in.
    pub(super) fn corners_of(&self, run: usize) -> Vec<usize> {
        let asks = self.shapes[run].clone().flat_map(|shape| &self.asks[shape]);
        let mut corners: Vec<usize> = asks.map(|ask| ask.0).collect();
        corners.sort_unstable();
        corners.dedup();
        corners
    }

    /// The runs that lie over or under this one.
    pub(super) fn partners(&self, run: usize) -> impl Iterator<Item = usize> + '_ {
        self.pairs.iter().filter_map(move |&(a, b)| if a == run { Some(b) } else { (b == run).then_some(a) })
    }

    pub(super) fn runs(&self) -> usize {
        self.shapes.len()
    }

    /// Whether the shape goes with these ways round the corners, as far as they are settled.
    pub(super) fn goes_with(&self, shape: usize, ways: &[Option<bool>]) -> bool {
        self.possible[shape]
            && self.asks[shape].iter().all(|&(corner, way)| ways[corner].is_none_or(|settled| settled == way))
    }

    /// The shape of each run where every corner is settled.
    pub(super) fn settled(&self, ways: &[Option<bool>]) -> Option<Vec<usize>> {
        (0..self.runs())
            .map(|run| self.shapes[run].clone().find(|&shape| self.goes_with(shape, ways)))
            .collect()
    }

    /// The bars and rules with these shapes alone, in the order of the runs.
    pub(super) fn with(&self, shapes: &[usize]) -> Instance {
        Instance {
            spans: shapes.iter().map(|&shape| self.instance.spans[shape].clone()).collect(),
            ..self.instance.clone()
        }
    }
}
