//! A plan in characters, to go with a question. Not to scale where a scale would squeeze corners together.

use crate::plan::Footprint;

/// The most columns and rows between the first corner and the last.
const ACROSS: f64 = 30.0;
const DOWN: f64 = 6.0;

/// Where each corner stands in the picture: its column and its row.
pub(super) fn places_of(footprint: &Footprint) -> Vec<(usize, usize)> {
    let (width, depth) = footprint.extent();
    // A character is about twice as high as it is wide.
    let scale = (ACROSS / width).min(2.0 * DOWN / depth);
    let points = footprint.points();
    let columns = places(points.iter().map(|p| p.x), scale, 4);
    let rows = places(points.iter().map(|p| p.y), scale / 2.0, 2);
    points.iter().map(|p| (place(&columns, p.x), place(&rows, p.y))).collect()
}

/// The outline with its corners lettered, a line of text a row.
pub(super) fn picture(footprint: &Footprint) -> Vec<String> {
    let at = places_of(footprint);
    let end = |of: fn(&(usize, usize)) -> usize| at.iter().map(of).max().map_or(0, |last| last + 1);
    let mut grid = vec![vec![' '; end(|at| at.0)]; end(|at| at.1)];
    for side in footprint.sides() {
        let (from, to) = (at[side.from], at[side.to]);
        if side.heading.is_across() {
            for cell in &mut grid[from.1][from.0.min(to.0)..from.0.max(to.0)] {
                *cell = '─';
            }
        } else {
            for row in &mut grid[from.1.min(to.1)..from.1.max(to.1)] {
                row[from.0] = '│';
            }
        }
    }
    for (corner, (column, row)) in footprint.corners().iter().zip(&at) {
        grid[*row][*column] = corner.name;
    }
    grid.iter().map(|row| format!("    {}", row.iter().collect::<String>().trim_end())).collect()
}

/// A place on the page for each coordinate, at least `apart` from the one before.
fn places(coordinates: impl Iterator<Item = f64>, scale: f64, apart: usize) -> Vec<(f64, usize)> {
    let mut sorted: Vec<f64> = coordinates.collect();
    sorted.sort_by(f64::total_cmp);
    sorted.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let mut placed: Vec<(f64, usize)> = vec![];
    for coordinate in sorted {
        let wanted = usize::try_from(super::shape::whole(coordinate * scale)).unwrap_or(0);
        let least = placed.last().map_or(0, |(_, before)| before + apart);
        placed.push((coordinate, wanted.max(least)));
    }
    placed
}

fn place(places: &[(f64, usize)], coordinate: f64) -> usize {
    places.iter().find(|(at, _)| (at - coordinate).abs() < 1e-6).map_or(0, |(_, place)| *place)
}
