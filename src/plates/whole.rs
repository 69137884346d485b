//! Every shape that each run may have, by the way round its corners: what the cutting engine chooses from.

use super::error::PlatesError;
use super::handing::{Corners, Handing, plate_corners};
use super::lines::{Layer, Line, inside, on_side};
use super::options::Options;
use super::runs::side_run;
use crate::cutting::{Effort, Favour, House, Run, Shape};
use crate::exact::Tenths;
use crate::plan::Footprint;

/// The runs of all layers, each in every shape, and the engine's problem made from them.
pub(super) struct Whole {
    /// The corners that may go either way round.
    free: Vec<usize>,
    /// The way round where nothing is to be chosen.
    base: Handing,
    /// The lines of each run, a shape each.
    lines: Vec<Vec<Line>>,
    /// The corners that each shape depends on, by their place in `free`, and whether the leaving run goes through in the plate.
    asks: Vec<Vec<Vec<(usize, bool)>>>,
}

impl Whole {
    pub(super) fn new(footprint: &Footprint, options: &Options) -> Result<Self, PlatesError> {
        let (free, base) = match options.corners {
            Corners::Alternate => (vec![], Handing::alternate(footprint)),
            Corners::Follow => (vec![], Handing::follow(footprint)),
            Corners::Best => (plate_corners(footprint), Handing::alternate(footprint)),
        };
        let mut whole = Self { free, base, lines: vec![], asks: vec![] };
        let layers: &[Layer] = if options.binder { &[Layer::Plate, Layer::Binder] } else { &[Layer::Plate] };
        for &layer in layers {
            for side in (0..footprint.len()).filter(|&side| !footprint.sides()[side].house) {
                whole.add_side(footprint, options, side, layer)?;
            }
            for line in inside(footprint, options, layer) {
                whole.lines.push(vec![line]);
                whole.asks.push(vec![vec![]]);
            }
        }
        Ok(whole)
    }

    /// The runs of one side in every shape.
    fn add_side(
        &mut self,
        footprint: &Footprint,
        options: &Options,
        side: usize,
        layer: Layer,
    ) -> Result<(), PlatesError> {
        let ends = [footprint.sides()[side].from, footprint.sides()[side].to];
        let free: Vec<usize> =
            (0..self.free.len()).filter(|&corner| ends.contains(&self.free[corner])).collect();
        let mut lines: Vec<Vec<Line>> = vec![];
        let mut asked: Vec<Vec<(usize, bool)>> = vec![];
        for code in 0..1_usize << free.len() {
            let asks: Vec<(usize, bool)> =
                free.iter().enumerate().map(|(bit, &corner)| (corner, code & (1 << bit) != 0)).collect();
            let handing = self.handing(&asks);
            let under = side_run(footprint, options.width, &handing, side);
            let run = match layer {
                Layer::Plate => under,
                Layer::Binder => side_run(footprint, options.width, &handing.opposite(), side),
            };
            lines.push(on_side(footprint, options, &run, &under, layer)?);
            asked.push(asks);
        }
        for place in 0..lines[0].len() {
            self.lines.push(lines.iter().map(|lines| lines[place].clone()).collect());
            self.asks.push(asked.clone());
        }
        Ok(())
    }

    /// The way round with these corners settled, the others as where nothing is to be chosen.
    fn handing(&self, asks: &[(usize, bool)]) -> Handing {
        asks.iter().fold(self.base.clone(), |handing, &(corner, through)| {
            let corner = self.free[corner];
            if handing.leaving_through(corner) == through { handing } else { handing.flipped(corner) }
        })
    }

    /// The engine's problem.
    pub(super) fn house(&self, options: &Options, favour: Favour, effort: Effort) -> House {
        let shape = |line: &Line, asks: &Vec<(usize, bool)>| Shape {
            run: Run {
                name: line.name.clone(),
                length: if line.is_something() { Tenths::nearest(line.length) } else { Tenths(0) },
                splices: Some(line.zones(&[], 0.0)),
            },
            asks: asks.clone(),
            origin: Tenths::nearest(line.origin),
        };
        let runs = self.lines.iter().zip(&self.asks);
        House {
            runs: runs
                .map(|(lines, asks)| lines.iter().zip(asks).map(|(line, asks)| shape(line, asks)).collect())
                .collect(),
            corners: self.free.len(),
            over: self.over(),
            lap: Tenths::nearest(options.splices.lap),
            stock: options.timber.stock(),
            rules: options.timber.rules(Tenths::nearest(options.splices.least_piece)),
            favour,
            effort,
        }
    }

    /// The runs of the plate and of the head binder that lie on one line.
    fn over(&self) -> Vec<(usize, usize)> {
        let first = |run: usize| &self.lines[run][0];
        let of = |layer| (0..self.lines.len()).filter(move |&run| first(run).layer == layer);
        of(Layer::Plate)
            .flat_map(|under| of(Layer::Binder).map(move |over| (under, over)))
            .filter(|&(under, over)| first(under).on == first(over).on)
            .collect()
    }

    /// How many ways round there are.
    pub(super) fn ways(&self) -> u64 {
        1 << self.free.len().min(63)
    }

    /// The way round that these shapes of the runs make.
    pub(super) fn chosen(&self, shapes: &[usize]) -> Handing {
        let asks: Vec<(usize, bool)> =
            self.asks.iter().zip(shapes).flat_map(|(asks, &shape)| asks[shape].clone()).collect();
        self.handing(&asks)
    }

    /// The lines of these shapes that have something to lay.
    pub(super) fn lines(&self, shapes: &[usize]) -> Vec<Line> {
        let lines = self.lines.iter().zip(shapes).map(|(lines, &shape)| lines[shape].clone());
        lines.filter(Line::is_something).collect()
    }
}
