//! The fewest rectangles that an outline can be cut into.
//!
//! For a rectilinear outline without holes the fewest is *inward corners − chords + 1*, where *chords* is the most
//! straight cuts that join two inward corners and don't meet one another (Lipski, Lodi, Luccio, Mugnai and Pagli
//! 1979; Ohtsuki 1982; Ferrari, Sankar and Sklansky 1984; from memory). Across and down chords meet pairwise, so the
//! most is a largest independent set of a bipartite graph: König's theorem gives it from a largest matching.

use crate::geometry::Point;
use crate::plan::{Footprint, Grid, Turn};

/// A rectangle of the footprint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    /// Its top left corner.
    pub top_left: Point,
    /// Its bottom right corner.
    pub bottom_right: Point,
}

impl Rectangle {
    /// Its width across the page, mm.
    #[must_use]
    pub fn across(&self) -> f64 {
        self.bottom_right.x - self.top_left.x
    }

    /// Its depth down the page, mm.
    #[must_use]
    pub fn down(&self) -> f64 {
        self.bottom_right.y - self.top_left.y
    }

    /// Its diagonal, mm.
    #[must_use]
    pub fn diagonal(&self) -> f64 {
        self.across().hypot(self.down())
    }

    /// Its corners clockwise from the top left.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        let (a, b) = (self.top_left, self.bottom_right);
        [a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)]
    }
}

/// Cuts the footprint into the fewest rectangles, top to bottom and left to right.
///
/// Where there is a choice the cuts run across the page, so that an L or a T comes out as its bar and its leg.
#[must_use]
pub fn rectangles(footprint: &Footprint, grid: &Grid) -> Vec<Rectangle> {
    let mut cuts = Cuts::new(grid);
    let inward: Vec<Node> = footprint
        .corners()
        .iter()
        .filter(|corner| corner.turn == Turn::Inward)
        .map(|corner| (grid.column_at(corner.at.x), grid.row_at(corner.at.y)))
        .collect();
    let mut done = vec![false; inward.len()];
    for chord in most_chords(&inward, &cuts) {
        for end in [chord.from, chord.to] {
            done[end] = true;
        }
        cuts.cut_between(inward[chord.from], inward[chord.to]);
    }
    for (node, _) in inward.iter().zip(&done).filter(|(_, done)| !**done) {
        cuts.cut_across_from(*node);
    }
    cuts.rectangles()
}

/// A crossing of the grid's cuts: (index in `xs`, index in `ys`).
type Node = (usize, usize);

/// A straight cut between two inward corners, by their index.
#[derive(Clone, Copy)]
struct Chord {
    from: usize,
    to: usize,
}

/// A largest set of chords that don't meet.
fn most_chords(inward: &[Node], cuts: &Cuts) -> Vec<Chord> {
    let (mut across, mut down) = (vec![], vec![]);
    for from in 0..inward.len() {
        for to in 0..inward.len() {
            let (a, b) = (inward[from], inward[to]);
            if a.1 == b.1 && a.0 < b.0 && cuts.open_across(a, b) {
                across.push(Chord { from, to });
            } else if a.0 == b.0 && a.1 < b.1 && cuts.open_down(a, b) {
                down.push(Chord { from, to });
            }
        }
    }
    let meets = |h: &Chord, v: &Chord| {
        let ((left, y), (right, _)) = (inward[h.from], inward[h.to]);
        let ((x, top), (_, bottom)) = (inward[v.from], inward[v.to]);
        (left..=right).contains(&x) && (top..=bottom).contains(&y)
    };
    let meeting: Vec<Vec<usize>> =
        across.iter().map(|h| (0..down.len()).filter(|v| meets(h, &down[*v])).collect()).collect();
    let (keep_across, keep_down) = independent(&meeting, down.len());
    let kept = across.iter().zip(keep_across).chain(down.iter().zip(keep_down));
    kept.filter(|(_, keep)| *keep).map(|(chord, _)| *chord).collect()
}

/// A largest independent set of a bipartite graph: what to keep on the left and on the right.
///
/// König: from the unmatched left vertices follow unmatched edges right and matched edges left; the left vertices
/// reached and the right vertices not reached are independent, and no set is larger.
fn independent(edges: &[Vec<usize>], right_count: usize) -> (Vec<bool>, Vec<bool>) {
    let mut partner: Vec<Option<usize>> = vec![None; right_count];
    for left in 0..edges.len() {
        augment(left, edges, &mut partner, &mut vec![false; right_count]);
    }
    let mut left_reached = vec![true; edges.len()];
    for left in partner.iter().flatten() {
        left_reached[*left] = false;
    }
    let mut right_reached = vec![false; right_count];
    let mut queue: Vec<usize> = (0..edges.len()).filter(|left| left_reached[*left]).collect();
    while let Some(left) = queue.pop() {
        for right in &edges[left] {
            if !right_reached[*right] {
                right_reached[*right] = true;
                if let Some(next) = partner[*right].filter(|next| !left_reached[*next]) {
                    left_reached[next] = true;
                    queue.push(next);
                }
            }
        }
    }
    (left_reached, right_reached.iter().map(|reached| !reached).collect())
}

/// Tries to match `left`, moving earlier matches aside.
fn augment(left: usize, edges: &[Vec<usize>], partner: &mut [Option<usize>], seen: &mut [bool]) -> bool {
    for &right in &edges[left] {
        if !seen[right] {
            seen[right] = true;
            if partner[right].is_none_or(|other| augment(other, edges, partner, seen)) {
                partner[right] = Some(left);
                return true;
            }
        }
    }
    false
}

/// The grid's inner lines, each stretch either open or cut.
struct Cuts<'a> {
    grid: &'a Grid,
    /// Whether the line along the top of each cell is cut, row by row.
    top: Vec<bool>,
    /// Whether the line along the left of each cell is cut, row by row.
    left: Vec<bool>,
}

impl<'a> Cuts<'a> {
    fn new(grid: &'a Grid) -> Self {
        let cells = grid.columns() * grid.rows();
        Self { grid, top: vec![false; cells], left: vec![false; cells] }
    }

    fn inside(&self, column: usize, row: usize) -> bool {
        self.grid.is_inside(column, row)
    }

    fn index(&self, column: usize, row: usize) -> usize {
        row * self.grid.columns() + column
    }

    /// Whether the stretch right of `node` lies inside the footprint and is not cut.
    fn is_open_right(&self, (column, row): Node) -> bool {
        row > 0
            && row < self.grid.rows()
            && column < self.grid.columns()
            && self.inside(column, row - 1)
            && self.inside(column, row)
            && !self.top[self.index(column, row)]
    }

    /// Whether the stretch below `node` lies inside the footprint and is not cut.
    fn is_open_below(&self, (column, row): Node) -> bool {
        column > 0
            && column < self.grid.columns()
            && row < self.grid.rows()
            && self.inside(column - 1, row)
            && self.inside(column, row)
            && !self.left[self.index(column, row)]
    }

    fn open_across(&self, from: Node, to: Node) -> bool {
        (from.0..to.0).all(|column| self.is_open_right((column, from.1)))
    }

    fn open_down(&self, from: Node, to: Node) -> bool {
        (from.1..to.1).all(|row| self.is_open_below((from.0, row)))
    }

    fn cut_between(&mut self, from: Node, to: Node) {
        if from.1 == to.1 {
            for column in from.0..to.0 {
                let index = self.index(column, from.1);
                self.top[index] = true;
            }
        } else {
            for row in from.1..to.1 {
                let index = self.index(from.0, row);
                self.left[index] = true;
            }
        }
    }

    /// Cuts across from an inward corner, the way its side points, to the outline or the first cut that crosses.
    fn cut_across_from(&mut self, node: Node) {
        let (column, row) = node;
        let rightward = self.is_open_right(node);
        let mut at = column;
        loop {
            let stretch = if rightward { at } else { at.wrapping_sub(1) };
            if stretch >= self.grid.columns() || !self.is_open_right((stretch, row)) {
                return;
            }
            let index = self.index(stretch, row);
            self.top[index] = true;
            at = if rightward { at + 1 } else { at - 1 };
            if self.is_cut_through((at, row)) {
                return;
            }
        }
    }

    /// Whether a cut runs down the page through `node`.
    fn is_cut_through(&self, (column, row): Node) -> bool {
        column < self.grid.columns()
            && row > 0
            && row < self.grid.rows()
            && self.left[self.index(column, row - 1)]
            && self.left[self.index(column, row)]
    }

    /// The pieces between the cuts.
    fn rectangles(&self) -> Vec<Rectangle> {
        let (columns, rows) = (self.grid.columns(), self.grid.rows());
        let mut taken = vec![false; columns * rows];
        let mut found = vec![];
        for row in 0..rows {
            for column in 0..columns {
                if taken[self.index(column, row)] || !self.inside(column, row) {
                    continue;
                }
                let mut right = column + 1;
                while right < columns && self.is_open_below((right, row)) {
                    right += 1;
                }
                let mut bottom = row + 1;
                while bottom < rows && self.is_open_right((column, bottom)) {
                    bottom += 1;
                }
                for r in row..bottom {
                    for c in column..right {
                        taken[r * columns + c] = true;
                    }
                }
                found.push(Rectangle {
                    top_left: Point::new(self.grid.xs[column], self.grid.ys[row]),
                    bottom_right: Point::new(self.grid.xs[right], self.grid.ys[bottom]),
                });
            }
        }
        found
    }
}
