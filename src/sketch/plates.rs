//! The plate layout: the plate in its width on the outline, piece by piece, with what is marked on it.

use super::dimensions::put;
use super::drawing::{Drawing, PlateLayout, Spot};
use super::elements::{Label, Line, Mark, Part, Pen, Wording};
use super::lettering::Lettering;
use super::outline;
use super::place::{Candidate, Places, around};
use super::scene::Figure;
use super::shape::Frame;
use super::view::{Seen, View};
use crate::geometry::Point;
use crate::plan::SAME_PLACE;

/// How far a splice's stroke stands out from the plate on either side, mm.
const SPLICE: f64 = 1.2;
/// Between the plate and a text along it, mm.
const GAP: f64 = 0.8;

/// A band of plate on paper, as its side is seen.
struct Laid {
    view: View,
    /// Along, lower end first.
    from: f64,
    to: f64,
    /// Its faces, the outer first.
    outer: f64,
    inner: f64,
}

impl Laid {
    /// The plate of a side from `from` to `to` mm from the side's first corner.
    fn new(layout: &PlateLayout, side: Seen, (from, to): (f64, f64), per_mm: f64) -> Self {
        let at = |mm: f64| {
            if forward(side.view) { side.from + mm * per_mm } else { side.to - mm * per_mm }
        };
        let (a, b) = (at(from), at(to));
        Self {
            view: side.view,
            from: a.min(b),
            to: a.max(b),
            outer: side.out,
            inner: side.out - layout.width * per_mm,
        }
    }

    fn middle(&self) -> f64 {
        f64::midpoint(self.outer, self.inner)
    }

    fn corners(&self) -> Vec<Point> {
        let ends =
            [(self.from, self.outer), (self.to, self.outer), (self.to, self.inner), (self.from, self.inner)];
        ends.map(|(along, out)| self.view.join(along, out)).to_vec()
    }
}

/// Whether a side seen so is walked the way that `along` grows.
const fn forward(view: View) -> bool {
    let (x, y) = view.0.step();
    x + y > 0.0
}

/// Draws the pieces and the splices.
pub(super) fn pieces(
    figure: &mut Figure,
    places: &mut Places,
    layout: &PlateLayout,
    sides: &[Seen],
    per_mm: f64,
) -> Option<()> {
    for piece in &layout.pieces {
        let side = *sides.get(piece.side)?;
        let laid = Laid::new(layout, side, (piece.from, piece.to), per_mm);
        let band = Line::new(Part::Plate, Pen::Wide, laid.corners()).closed().named(piece.name.clone());
        places.line(&band, 40.0);
        figure.lines.push(band);
    }
    for splice in &layout.splices {
        let side = *sides.get(splice.side)?;
        let laid = Laid::new(layout, side, (splice.at, splice.at), per_mm);
        let ends = [laid.outer + SPLICE, laid.inner - SPLICE].map(|out| laid.view.join(laid.from, out));
        let stroke = Line::new(Part::Splice, Pen::Medium, ends.to_vec());
        places.line(&stroke, 30.0);
        figure.lines.push(stroke);
    }
    Some(())
}

/// Writes the pieces' names and lengths along them, inside; nothing where one finds no place.
pub(super) fn names(
    figure: &mut Figure,
    places: &mut Places,
    layout: &PlateLayout,
    sides: &[Seen],
    per_mm: f64,
) -> Option<()> {
    for piece in &layout.pieces {
        let laid = Laid::new(layout, *sides.get(piece.side)?, (piece.from, piece.to), per_mm);
        let mut label = Label::new(Wording::Piece, piece.text.clone(), Lettering::Small, Point::default());
        label.name.clone_from(&piece.name);
        label.frame.turn = laid.view.turn();
        let (middle, span) = (f64::midpoint(laid.from, laid.to), laid.to - laid.from);
        let out = laid.inner - GAP - label.frame.height / 2.0;
        let slack = ((span - label.frame.width) / 2.0).max(0.0);
        let frame = label.frame;
        let along = [0.0, 0.3, -0.3, 0.6, -0.6, 1.0, -1.0].map(|step: f64| Candidate {
            frame: Frame { middle: laid.view.join(middle + step * slack, out), ..frame },
            leader: None,
            cost: 3.0 * step.abs() + if frame.width > span { 20.0 } else { 0.0 },
        });
        let at = laid.view.join(middle, laid.inner);
        let inward = laid.view.join(0.0, -1.0);
        let candidates = along.into_iter().chain(around(&label, at, inward, GAP, 3.0));
        put(figure, places, label, candidates)?;
    }
    Some(())
}

/// The width of the widest mark of an anchor with its gaps, mm: as much room as they take beside an upright run.
pub(super) fn widest_mark(drawing: &Drawing) -> f64 {
    let anchors = drawing.plates.iter().flat_map(|layout| &layout.anchors);
    anchors.map(|anchor| Lettering::Small.width(&anchor.text) + 2.0 * GAP).fold(0.0, f64::max)
}

/// How much the plate is packed up, inside it at each place.
pub(super) fn packs(
    figure: &mut Figure,
    places: &mut Places,
    drawing: &Drawing,
    layout: &PlateLayout,
    per_mm: f64,
) -> Option<()> {
    for pack in &layout.packs {
        let at = outline::along(drawing, pack.side, pack.at)?;
        let at = Point::new(at.x * per_mm, at.y * per_mm);
        let (inward, at_corner) = inward(drawing, pack);
        let mut label = Label::new(Wording::Pack, pack.text.clone(), Lettering::Small, at);
        label.name = drawing.footprint.side_name(pack.side);
        let clear = layout.width * per_mm + GAP;
        let (across, down) = (clear + label.frame.width / 2.0, clear + label.frame.height / 2.0);
        let in_the_corner = Candidate {
            frame: label.frame.shifted(inward.x * across, inward.y * down),
            leader: None,
            cost: 0.0,
        };
        let candidates = around(&label, at, inward, clear, clear + 3.0);
        let candidates = at_corner.then_some(in_the_corner).into_iter().chain(candidates);
        put(figure, places, label, candidates)?;
    }
    Some(())
}

/// The anchors with their running marks outside the plate.
pub(super) fn anchors(
    figure: &mut Figure,
    places: &mut Places,
    drawing: &Drawing,
    layout: &PlateLayout,
    sides: &[Seen],
    per_mm: f64,
) -> Option<()> {
    for anchor in &layout.anchors {
        let side = *sides.get(anchor.side)?;
        let laid = Laid::new(layout, side, (anchor.at, anchor.at), per_mm);
        let middle = laid.view.join(laid.from, laid.middle());
        figure.marks.push(Mark { part: Part::Anchor, middle, radius: outline::ANCHOR, filled: true });
        let at = laid.view.join(laid.from, laid.outer);
        let outward = laid.view.join(0.0, 1.0);
        let mut label = Label::new(Wording::Mark, anchor.text.clone(), Lettering::Small, at);
        label.name = drawing.footprint.side_name(anchor.side);
        let candidates = around(&label, at, outward, GAP, 2.0);
        put(figure, places, label, candidates)?;
    }
    Some(())
}

/// The way from a place on a side into the plan, and whether it is a corner: slantwise from there, away from both plates.
fn inward(drawing: &Drawing, spot: &Spot) -> (Point, bool) {
    let side = drawing.footprint.sides()[spot.side];
    let at_corner = [(0.0, side.from), (side.length, side.to)];
    let corner = at_corner.into_iter().find(|(at, _)| (at - spot.at).abs() < SAME_PLACE);
    let sides = match corner.map(|(_, corner)| drawing.footprint.sides_at(corner)) {
        Some((arrives, leaves)) => vec![arrives, leaves],
        None => vec![spot.side],
    };
    let out = sides.into_iter().map(|side| drawing.footprint.sides()[side].heading.outward());
    let inward = out.fold(Point::default(), |sum, (x, y)| Point::new(sum.x - x, sum.y - y));
    (inward, corner.is_some())
}
