//! Areas, lines and rectangles against a general-purpose geometry library, and the fewest rectangles against a count
//! by trying every way.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use geo::line_measures::LengthMeasurable;
use geo::{Area, Covers, Euclidean, Line, LineString, Polygon, coord};
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::plan::{Footprint, Grid, Lies, Site, Turn, parse_expression};
use pegline::square::{Options, Rectangle, diagonals, rectangles};

use crate::outlines::{footprint, outlines};

fn polygon(points: &[Point]) -> Polygon {
    let ring: LineString = points.iter().map(|p| (p.x, p.y)).collect();
    Polygon::new(ring, vec![])
}

fn line(a: Point, b: Point) -> Line {
    Line::new(coord! { x: a.x, y: a.y }, coord! { x: b.x, y: b.y })
}

fn plan(text: &str) -> Footprint {
    parse_expression(text, Units::Mm).unwrap().0
}

/// Source: the `geo` crate's area and Euclidean length of the same polygon.
#[test]
fn area_and_perimeter_are_those_of_the_referee_over_thousands_of_outlines() {
    for outline in outlines(11).take(5000) {
        let footprint = footprint(&outline);
        let referee = polygon(&outline);
        assert_relative_eq!(footprint.area(), referee.unsigned_area(), max_relative = 1e-12);
        assert_relative_eq!(
            footprint.perimeter(),
            referee.exterior().length(&Euclidean),
            max_relative = 1e-12
        );
    }
}

/// Source: the `geo` crate: a line is inside where the closed polygon covers it.
#[test]
fn a_line_lies_inside_just_where_the_referees_polygon_covers_it() {
    let (mut inside, mut outside) = (0, 0);
    for outline in outlines(12).take(1500) {
        let footprint = footprint(&outline);
        let site = Site::of(&footprint);
        let points = footprint.points();
        let referee = polygon(&points);
        for (i, a) in points.iter().enumerate() {
            for b in &points[i + 1..] {
                let covered = referee.covers(&line(*a, *b));
                let expected = if covered { Lies::Inside } else { Lies::Outside };
                assert_eq!(site.lies(*a, *b), expected, "{a:?} to {b:?} in {points:?}");
                if covered { inside += 1 } else { outside += 1 }
            }
        }
    }
    assert!(inside > 10_000 && outside > 10_000, "{inside} and {outside}");
}

/// Every line of the answer: each pair of corners that is not a side once, the straight ones apart.
#[test]
fn every_pair_of_corners_is_a_side_a_diagonal_or_a_straight_check() {
    let options = Options { spares: 0, ..Options::default() };
    for outline in outlines(13).filter(|outline| outline.len() <= 14).take(300) {
        let footprint = footprint(&outline);
        let answer = diagonals(&footprint, &options).unwrap();
        let n = footprint.len();
        assert_eq!(answer.diagonals.len() + answer.straight_checks.len(), n * (n - 1) / 2 - n);
        for diagonal in &answer.diagonals {
            assert!(diagonal.across.0 > 0.0 && diagonal.down.0 > 0.0, "{diagonal:?}");
            let referee = line(
                footprint.points()[usize::from(diagonal.from.as_bytes()[0] - b'A')],
                footprint.points()[usize::from(diagonal.to.as_bytes()[0] - b'A')],
            );
            assert_relative_eq!(diagonal.length.0, referee.length(&Euclidean), max_relative = 1e-12);
        }
    }
}

/// The rectangles' corners all lie on the outline's own cuts, so exact comparison is meant.
fn overlap(a: &Rectangle, b: &Rectangle) -> bool {
    a.top_left.x.max(b.top_left.x) < a.bottom_right.x.min(b.bottom_right.x)
        && a.top_left.y.max(b.top_left.y) < a.bottom_right.y.min(b.bottom_right.y)
}

#[test]
fn the_rectangles_tile_the_footprint_exactly() {
    for outline in outlines(14).take(4000) {
        let footprint = footprint(&outline);
        let parts = rectangles(&footprint, &Grid::new(&footprint));
        let total: f64 = parts.iter().map(|part| part.across() * part.down()).sum();
        assert_relative_eq!(total, polygon(&outline).unsigned_area(), max_relative = 1e-12);
        let referee = polygon(&footprint.points());
        for (i, part) in parts.iter().enumerate() {
            assert!(part.across() > 0.0 && part.down() > 0.0);
            let corners = part.corners();
            assert!(
                referee.covers(&line(corners[0], corners[2]))
                    && referee.covers(&line(corners[1], corners[3])),
                "{part:?} in {outline:?}"
            );
            assert!(parts[i + 1..].iter().all(|other| !overlap(part, other)), "{parts:?} in {outline:?}");
        }
    }
}

/// The most of `chords` that don't meet, by trying every set.
fn most_apart(chords: &[(Point, Point)]) -> usize {
    let meet = |(a, b): (Point, Point), (c, d): (Point, Point)| {
        a.x.max(c.x) <= b.x.min(d.x) && a.y.max(c.y) <= b.y.min(d.y)
    };
    let Some((first, rest)) = chords.split_first() else {
        return 0;
    };
    let without = most_apart(rest);
    let apart: Vec<(Point, Point)> = rest.iter().copied().filter(|other| !meet(*first, *other)).collect();
    without.max(1 + most_apart(&apart))
}

/// The theorem's count: inward corners − most chords that don't meet + 1. Chords by the referee, the most by trying.
///
/// Source: Lipski, Lodi, Luccio, Mugnai and Pagli 1979; Ohtsuki 1982; Ferrari, Sankar and Sklansky 1984 (from memory).
fn by_the_theorem(footprint: &Footprint) -> usize {
    let referee = polygon(&footprint.points());
    let inward: Vec<Point> = footprint
        .corners()
        .iter()
        .filter(|corner| corner.turn == Turn::Inward)
        .map(|corner| corner.at)
        .collect();
    let mut chords = vec![];
    for a in &inward {
        for b in &inward {
            let across = a.y.total_cmp(&b.y).is_eq() && a.x < b.x;
            let down = a.x.total_cmp(&b.x).is_eq() && a.y < b.y;
            let middle = line(*a, *b);
            // A chord runs inside the footprint: its middle is not on the outline, nor is any corner on it.
            let on_it = |p: &Point| p != a && p != b && middle.covers(&geo::Point::new(p.x, p.y));
            let is_side = footprint
                .sides()
                .iter()
                .map(|side| (footprint.corners()[side.from].at, footprint.corners()[side.to].at))
                .any(|ends| ends == (*a, *b) || ends == (*b, *a));
            if (across || down)
                && !is_side
                && referee.covers(&middle)
                && !footprint.points().iter().any(on_it)
            {
                chords.push((*a, *b));
            }
        }
    }
    inward.len() - most_apart(&chords) + 1
}

#[test]
fn there_are_as_few_rectangles_as_the_theorem_says() {
    for outline in outlines(15).take(4000) {
        let footprint = footprint(&outline);
        let count = rectangles(&footprint, &Grid::new(&footprint)).len();
        assert_eq!(count, by_the_theorem(&footprint), "{outline:?}");
    }
}

/// The fewest rectangles by trying every way to cover the first free cell of the outline's own grid, going deeper one
/// rectangle at a time. A fewest cut along the corners' own lines exists, so the grid is fine enough.
struct Trial {
    columns: usize,
    free: Vec<bool>,
}

impl Trial {
    fn new(footprint: &Footprint) -> Self {
        let distinct = |pick: fn(&Point) -> f64| {
            let mut values: Vec<f64> = footprint.points().iter().map(pick).collect();
            values.sort_by(f64::total_cmp);
            values.dedup();
            values
        };
        let (xs, ys) = (distinct(|p| p.x), distinct(|p| p.y));
        let referee = polygon(&footprint.points());
        let middle = |cuts: &[f64], i: usize| f64::midpoint(cuts[i], cuts[i + 1]);
        let free = (0..ys.len() - 1)
            .flat_map(|row| (0..xs.len() - 1).map(move |column| (column, row)))
            .map(|(column, row)| referee.covers(&geo::Point::new(middle(&xs, column), middle(&ys, row))))
            .collect();
        Self { columns: xs.len() - 1, free }
    }

    fn covered_by(&mut self, count: usize) -> bool {
        let Some(first) = self.free.iter().position(|free| *free) else {
            return true;
        };
        if count == 0 {
            return false;
        }
        let (column, row) = (first % self.columns, first / self.columns);
        let rows = self.free.len() / self.columns;
        let mut widest = self.columns - column;
        for bottom in row..rows {
            let here = (0..widest).take_while(|w| self.free[bottom * self.columns + column + w]).count();
            widest = here;
            for width in 1..=widest {
                let cells: Vec<usize> = (row..=bottom)
                    .flat_map(|r| (column..column + width).map(move |c| (r, c)))
                    .map(|(r, c)| r * self.columns + c)
                    .collect();
                for cell in &cells {
                    self.free[*cell] = false;
                }
                let done = self.covered_by(count - 1);
                for cell in &cells {
                    self.free[*cell] = true;
                }
                if done {
                    return true;
                }
            }
        }
        false
    }

    fn fewest(&mut self) -> usize {
        (1..=self.free.len()).find(|count| self.covered_by(*count)).unwrap()
    }
}

#[test]
fn there_are_as_few_rectangles_as_trying_every_way_finds() {
    for (text, fewest) in [
        ("7800x6000", 1),
        ("7800x6000-3000x2400", 2),
        ("9000x3000+3600x2400", 2),
        ("9000x3000+2400x2100@0+2400x2100@6600", 3),
        ("9000x6000-2000x1500@tl-2000x1500@br", 3),
        // A plus: four inward corners, and one of two pairs of chords joins them.
        ("9000x6000-2000x1500@tl-2000x1500@tr-2000x1500@bl-2000x1500@br", 3),
    ] {
        let footprint = plan(text);
        assert_eq!(rectangles(&footprint, &Grid::new(&footprint)).len(), fewest, "{text}");
        assert_eq!(Trial::new(&footprint).fewest(), fewest, "{text}");
    }
    for outline in outlines(16).filter(|outline| outline.len() <= 14).take(600) {
        let footprint = footprint(&outline);
        let count = rectangles(&footprint, &Grid::new(&footprint)).len();
        assert_eq!(count, Trial::new(&footprint).fewest(), "{outline:?}");
    }
}

/// Plain arithmetic: two right triangles to a rectangle, with the rectangle's sides for legs.
#[test]
fn each_rectangle_gives_two_right_triangles() {
    let answer = diagonals(&plan("7800x6000-3000x2400"), &Options::default()).unwrap();
    let legs: Vec<(f64, f64)> = answer.triangles.iter().map(|t| (t.a.0, t.b.0)).collect();
    assert_eq!(legs, [(7800., 3600.), (7800., 3600.), (4800., 2400.), (4800., 2400.)]);
    for triangle in &answer.triangles {
        assert_relative_eq!(
            triangle.c.0.powi(2),
            triangle.a.0.powi(2) + triangle.b.0.powi(2),
            max_relative = 1e-12
        );
    }
}

/// Names of the lines that lie so.
fn lying(text: &str, house: &str, wanted: Lies) -> Vec<String> {
    let footprint = plan(text).with_house_named(house).unwrap();
    let answer = diagonals(&footprint, &Options::default()).unwrap();
    let slanting = answer.diagonals.iter().map(|d| (&d.name, d.lies));
    let straight = answer.straight_checks.iter().map(|d| (&d.name, d.lies));
    slanting.chain(straight).filter(|(_, lies)| *lies == wanted).map(|(name, _)| name.clone()).collect()
}

/// Worked by hand on a drawing of each.
#[test]
fn a_line_through_the_house_is_blocked_and_no_other_is() {
    let l = "7800x6000-3000x2400";
    // Nothing is behind the top but the house, and no line goes there.
    assert_eq!(lying(l, "AB", Lies::Blocked), [""; 0]);
    assert_eq!(lying(l, "AB", Lies::Outside), ["BE", "CE", "CF"]);
    // The house in the notch: its wall along CD fills the notch down to the bottom of the bounding box.
    assert_eq!(lying(l, "CD", Lies::Blocked), ["BE", "CE", "CF"]);
    assert_eq!(lying(l, "DE", Lies::Blocked), ["BE", "CE", "CF"]);
    assert_eq!(lying(l, "CD,DE", Lies::Blocked), ["BE", "CE", "CF"]);
    assert_eq!(lying(l, "CD", Lies::Outside), [""; 0]);
    // A U with the house between its legs, on the underside of its bar and without end: what crosses the yard or its
    // mouth (CG, CH, DG, DH) is blocked, and within the bar or one leg nothing is in the way.
    let u = "9000x3000+2400x2100@0+2400x2100@6600";
    let through = ["AC", "AD", "BG", "BH", "CF", "DF", "EG", "EH", "CG", "CH", "DG", "DH"];
    assert_eq!(lying(u, "EF", Lies::Blocked), through);
    assert_eq!(lying(u, "EF", Lies::Outside), [""; 0]);
    // House along the top of a T: the lines above the arms' undersides are free; those past the leg stay on ground.
    let t = "9000x3000+3600x2400";
    assert_eq!(lying(t, "AB", Lies::Blocked), [""; 0]);
    // House beside the leg on the left, along the underside of the left arm (GH).
    let blocked = lying(t, "GH", Lies::Blocked);
    assert_eq!(blocked, ["AF", "EH", "FH"]);
}

/// The blocked lines are never chosen, and the rest fix the shape where they can.
#[test]
fn blocked_lines_are_never_in_the_proof_set() {
    let footprint = plan("7800x6000-3000x2400").with_house_named("CD").unwrap();
    let options = Options { spares: 3, ..Options::default() };
    let answer = diagonals(&footprint, &options).unwrap();
    assert!(answer.proof.fixed);
    for diagonal in &answer.diagonals {
        assert_eq!(diagonal.lies != Lies::Blocked, diagonal.proof || diagonal.spare, "{diagonal:?}");
    }
    // Source: a survey of this L with the published law of a class II tape: all the lines inside it together stick at
    // 1.40 mm at the worst corner.
    assert_abs_diff_eq!(answer.spares.worst_corner_sd.unwrap().0, 1.40, epsilon = 0.005);
}
