//! The site: the page without end, every place of it footprint, ground or existing house.
//!
//! The house is the masonry that lies behind the house sides: straight behind each, outward as far as the next part of
//! the footprint, without end unless its depth is given. Where two house sides meet at an outward corner it goes round
//! that corner: what lies beyond it is house as far as a rectangle from the corner meets no footprint. Past the end of
//! a house side that meets a new one no house is known.

use std::ops::Range;

use super::footprint::{Footprint, Heading, Turn};
use super::grid::{Grid, distinct};
use super::limits::SAME_PLACE;
use crate::geometry::Point;

/// What a place on the page is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Inside the outline or on it.
    Footprint,
    /// Outside it, and clear.
    Ground,
    /// Where the existing house stands; on its face, and nothing but house beside it, counts too.
    House,
}

/// The page round a footprint, and where the existing house stands on it.
///
/// ```
/// use pegline::geometry::Point;
/// use pegline::length::Units;
/// use pegline::plan::{Lies, Place, PlanError, Site, parse_expression};
///
/// // An L round the corner of a house.
/// let (footprint, _) = parse_expression("7000x6000-3500x2500", Units::Mm)?;
/// let footprint = footprint.with_house_named("CD,DE")?;
/// let site = Site::of(&footprint);
/// assert_eq!(site.at(Point::new(5000.0, 9000.0)), Place::House);
/// let [c, e] = [2, 4].map(|corner| footprint.corners()[corner].at);
/// assert_eq!(site.lies(c, e), Lies::Blocked);
/// # Ok::<(), PlanError>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// The page, its first and last cuts infinitely far off.
    pub(super) grid: Grid,
    house: Vec<bool>,
}

impl Site {
    /// The site of a footprint.
    #[must_use]
    pub fn of(footprint: &Footprint) -> Self {
        let grid = Grid::cut(footprint, cuts(footprint, false), cuts(footprint, true));
        let mut site = Self { house: vec![false; grid.columns() * grid.rows()], grid };
        for (i, side) in footprint.sides().iter().enumerate().filter(|(_, side)| side.house) {
            let (a, b) = (footprint.corners()[side.from].at, footprint.corners()[side.to].at);
            let behind = site.behind(a, side.heading.left(), footprint.house_depth());
            if side.heading.is_across() {
                for column in site.grid.column_at(a.x.min(b.x))..site.grid.column_at(a.x.max(b.x)) {
                    site.fill(&[column], &behind);
                }
            } else {
                for row in site.grid.row_at(a.y.min(b.y))..site.grid.row_at(a.y.max(b.y)) {
                    site.fill(&behind, &[row]);
                }
            }
            let next = footprint.sides()[(i + 1) % footprint.len()];
            if next.house && footprint.corners()[side.to].turn == Turn::Outward {
                let beside = site.behind(b, next.heading.left(), footprint.house_depth());
                let behind = site.behind(b, side.heading.left(), footprint.house_depth());
                let (columns, rows) =
                    if side.heading.is_across() { (beside, behind) } else { (behind, beside) };
                site.fill(&columns, &rows);
            }
        }
        site
    }

    /// What is at `p`. A place between two kinds is footprint rather than ground, and ground rather than house: a tape
    /// along an edge of the footprint lies on it, and one along a house wall is held beside it.
    #[must_use]
    pub fn at(&self, p: Point) -> Place {
        if self.touching(p).any(|(column, row)| self.grid.is_inside(column, row)) {
            Place::Footprint
        } else if self.touching(p).all(|cell| self.is_house(cell)) {
            Place::House
        } else {
            Place::Ground
        }
    }

    /// Whether `p` is in the existing house or on its face.
    #[must_use]
    pub fn touches_house(&self, p: Point) -> bool {
        self.touching(p).any(|cell| self.is_house(cell))
    }

    /// Where the page is cut, mm: every corner's x, or y, and where the house ends.
    pub fn cuts(&self, down: bool) -> impl Iterator<Item = f64> {
        let cuts = if down { &self.grid.ys } else { &self.grid.xs };
        cuts.iter().copied().filter(|cut| cut.is_finite())
    }

    fn is_house(&self, (column, row): (usize, usize)) -> bool {
        self.house[row * self.grid.columns() + column]
    }

    /// The cells that `p` lies in or on the edge of.
    fn touching(&self, p: Point) -> impl Iterator<Item = (usize, usize)> {
        let columns = touching(&self.grid.xs, p.x);
        touching(&self.grid.ys, p.y).flat_map(move |row| columns.clone().map(move |column| (column, row)))
    }

    /// The columns, or rows, of cells that lie `way` of a house face through `at`, the nearest first.
    fn behind(&self, at: Point, way: Heading, depth: Option<f64>) -> Vec<usize> {
        let (cuts, face) = if way.is_across() { (&self.grid.xs, at.x) } else { (&self.grid.ys, at.y) };
        let on = cuts.partition_point(|cut| *cut < face - SAME_PLACE);
        let far = |cell: usize| (cuts[cell] - face).abs().max((cuts[cell + 1] - face).abs());
        let within = |cell: &usize| depth.is_none_or(|depth| far(*cell) <= depth + SAME_PLACE);
        match way {
            Heading::Right | Heading::Down => (on..cuts.len() - 1).take_while(within).collect(),
            Heading::Left | Heading::Up => (0..on).rev().take_while(within).collect(),
        }
    }

    /// Makes house of the cells in `columns` and `rows`, each from the face outward, that no footprint parts from both.
    fn fill(&mut self, columns: &[usize], rows: &[usize]) {
        let mut clear = columns.len();
        for row in rows {
            clear = columns[..clear].iter().take_while(|column| !self.grid.is_inside(**column, *row)).count();
            for column in &columns[..clear] {
                self.house[row * self.grid.columns() + column] = true;
            }
        }
    }
}

/// The cuts of the page down it, or across: every corner's, and where the house ends.
fn cuts(footprint: &Footprint, down: bool) -> Vec<f64> {
    let on_axis = |p: Point| if down { p.y } else { p.x };
    let corners = footprint.corners().iter().map(|corner| on_axis(corner.at));
    let faces = footprint.sides().iter().filter(|side| side.house && side.heading.is_across() == down);
    let ends = faces.filter_map(|side| {
        let (x, y) = side.heading.outward();
        let out = if down { y } else { x };
        footprint.house_depth().map(|depth| on_axis(footprint.corners()[side.from].at) + out * depth)
    });
    distinct(corners.chain(ends).chain([f64::NEG_INFINITY, f64::INFINITY]))
}

/// The cells between `cuts` that `value` lies in or on the edge of.
fn touching(cuts: &[f64], value: f64) -> Range<usize> {
    let first = cuts.partition_point(|cut| *cut < value - SAME_PLACE);
    let after = cuts.partition_point(|cut| *cut <= value + SAME_PLACE);
    first.saturating_sub(1)..after.min(cuts.len() - 1)
}
