//! Where the house stands and what it blocks: a general-purpose polygon library as referee, and drawings worked by hand.

use geo::{BooleanOps, Contains, LineString, MultiLineString, MultiPolygon, Polygon, coord, unary_union};
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::lines::offset_outline;
use pegline::plan::{Footprint, Lies, Place, Site, Turn, parse_expression, parse_walk};
use pegline::square::{Options, corner_checks, diagonals};
use proptest::prelude::*;

use crate::lines_random::outlines_with_house;
use crate::program::pegline;

/// As good as endless, mm.
const FAR: f64 = 1e6;

fn rectangle(a: Point, b: Point) -> Polygon {
    geo::Rect::new(coord! { x: a.x, y: a.y }, coord! { x: b.x, y: b.y }).to_polygon()
}

fn moved(p: Point, (x, y): (f64, f64), by: f64) -> Point {
    Point::new(p.x + x * by, p.y + y * by)
}

/// The masonry as the rule has it, from the `geo` crate's unions and differences: a slab behind each house side less the
/// shadow of every side of the outline further out, and at an outward corner between two of them the quadrant less the
/// shadow of every corner of the footprint in it.
pub(crate) fn masonry(footprint: &Footprint) -> MultiPolygon {
    let depth = footprint.house_depth().unwrap_or(FAR);
    let (corners, sides) = (footprint.corners(), footprint.sides());
    let outline = Polygon::new(footprint.points().iter().map(|p| (p.x, p.y)).collect(), vec![]);
    let mut parts: Vec<MultiPolygon> = vec![];
    for (i, side) in sides.iter().enumerate().filter(|(_, side)| side.house) {
        let (a, b, out) = (corners[side.from].at, corners[side.to].at, side.heading.outward());
        let behind = |p: Point| (p.x - a.x) * out.0 + (p.y - a.y) * out.1;
        let slab = rectangle(a, moved(b, out, depth));
        let shadows: Vec<Polygon> = sides
            .iter()
            .filter(|other| other.heading.is_across() == side.heading.is_across())
            .map(|other| [corners[other.from].at, corners[other.to].at])
            .filter(|[p, _]| behind(*p) > 0.0)
            .map(|[p, q]| rectangle(p, moved(q, out, 3.0 * FAR)))
            .collect();
        parts.push(MultiPolygon::new(vec![slab]).difference(&unary_union(&shadows)));
        let next = sides[(i + 1) % sides.len()];
        if next.house && corners[side.to].turn == Turn::Outward {
            let beside = next.heading.outward();
            let quadrant = rectangle(b, moved(moved(b, out, depth), beside, depth));
            let within = outline.intersection(&quadrant);
            let vertices = within.iter().flat_map(|part| part.exterior().points());
            let shadows: Vec<Polygon> = vertices
                .map(|p| Point::new(p.x(), p.y()))
                .map(|p| rectangle(p, moved(moved(p, out, 3.0 * FAR), beside, 3.0 * FAR)))
                .collect();
            parts.push(MultiPolygon::new(vec![quadrant]).difference(&unary_union(&shadows)));
        }
    }
    unary_union(parts.iter().flatten())
}

/// From where to where the line from `a` to `b` is inside `masonry`, along the axis on which it is longer.
fn inside(masonry: &MultiPolygon, a: Point, b: Point) -> Vec<(f64, f64)> {
    let line: LineString = vec![(a.x, a.y), (b.x, b.y)].into();
    let across = (b.x - a.x).abs() > (b.y - a.y).abs();
    let along = |c: &geo::Coord| if across { c.x } else { c.y };
    let clipped = masonry.clip(&MultiLineString::new(vec![line]), false);
    clipped
        .iter()
        .flat_map(|part| part.lines().map(|l| (along(&l.start), along(&l.end))).collect::<Vec<_>>())
        .map(|(from, to)| (from.min(to), from.max(to)))
        .collect()
}

/// How much of the line from `a` to `b` is in the masonry, mm; of a line along an edge, what has it on both sides.
pub(crate) fn buried(masonry: &MultiPolygon, a: Point, b: Point) -> f64 {
    let beside = |x: f64, y: f64| inside(masonry, moved(a, (x, y), 0.25), moved(b, (x, y), 0.25));
    let sides = match ((b.x - a.x).abs() < 1e-9, (b.y - a.y).abs() < 1e-9) {
        (true, _) => [beside(-1.0, 0.0), beside(1.0, 0.0)],
        (_, true) => [beside(0.0, -1.0), beside(0.0, 1.0)],
        _ => [inside(masonry, a, b), vec![(-FAR, FAR)]],
    };
    let common = |p: &(f64, f64), q: &(f64, f64)| (p.1.min(q.1) - p.0.max(q.0)).max(0.0);
    sides[0].iter().flat_map(|p| sides[1].iter().map(move |q| common(p, q))).sum()
}

pub(crate) fn with_depth() -> impl Strategy<Value = Footprint> {
    (outlines_with_house(), prop::option::of(100_u16..6000)).prop_map(|(footprint, depth)| match depth {
        Some(depth) => footprint.with_house_depth(f64::from(depth)),
        None => footprint,
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_tape_is_blocked_just_where_it_lies_in_the_referees_masonry(footprint in with_depth()) {
        let (site, masonry) = (Site::of(&footprint), masonry(&footprint));
        let points = footprint.points();
        for (i, a) in points.iter().enumerate() {
            for b in &points[i + 1..] {
                let buried = buried(&masonry, *a, *b);
                // Between the two the referee's own rounding decides.
                if !(1e-6..1e-2).contains(&buried) {
                    prop_assert_eq!(site.lies(*a, *b) == Lies::Blocked, buried > 0.005, "{:?} to {:?}: {}", a, b, buried);
                }
            }
        }
    }

    #[test]
    fn a_tape_between_the_corners_of_an_offset_outline_is_blocked_there_too(
        footprint in with_depth(), by in prop_oneof![-90.0..-1.0, 1.0..300.0]
    ) {
        let Ok(offset) = offset_outline(&footprint, by, Units::Mm) else { return Ok(()) };
        let masonry = masonry(&footprint);
        let corner = |name: char| {
            let found = offset.corners.iter().find(|corner| corner.name == name.to_string()).unwrap();
            Point::new(found.x.0, found.y.0)
        };
        for line in &offset.diagonals {
            let ends: Vec<Point> = line.name.chars().map(corner).collect();
            let buried = buried(&masonry, ends[0], ends[1]);
            if !(1e-6..1e-2).contains(&buried) {
                prop_assert_eq!(line.blocked, buried > 0.005, "{}: {}", line.name, buried);
            }
        }
    }

    #[test]
    fn a_place_is_house_just_where_the_referees_masonry_is(
        footprint in with_depth(), places in prop::collection::vec((-0.5..1.5, -0.5..1.5), 40)
    ) {
        let (site, masonry) = (Site::of(&footprint), masonry(&footprint));
        let (width, depth) = footprint.extent();
        for (x, y) in places {
            let at = Point::new(x * width, y * depth);
            prop_assert_eq!(site.at(at) == Place::House, masonry.contains(&geo::Point::new(at.x, at.y)), "{:?}", at);
        }
    }
}

fn blocked(footprint: &Footprint) -> Vec<String> {
    let answer = diagonals(footprint, &Options::default()).unwrap();
    let slanting = answer.diagonals.iter().map(|d| (&d.name, d.lies));
    let straight = answer.straight_checks.iter().map(|d| (&d.name, d.lies));
    slanting
        .chain(straight)
        .filter(|(_, lies)| *lies == Lies::Blocked)
        .map(|(name, _)| name.clone())
        .collect()
}

/// By hand: the house fills the notch EFGH and stands along all of the outline's left, so that what runs up and down
/// there runs in it: E to H across the notch's mouth, and A and D over it.
#[test]
fn a_tape_across_the_mouth_of_a_notch_that_the_house_fills_is_blocked() {
    let (footprint, _) =
        parse_walk("9000 R 6000 R 9000 R 2000 R 3000 L 1500 L 3000 R 2500", Units::Mm).unwrap();
    let filled = footprint.clone().with_house_named("DE,EF,FG,GH,HA").unwrap();
    let mut names = blocked(&filled);
    names.sort();
    assert_eq!(names, ["AD", "AE", "AF", "BE", "CH", "DG", "DH", "EG", "EH", "FH"]);
    // Where the house goes back 1000 mm it stops 2000 mm short of the notch's mouth, and the tape is held outside.
    let open = footprint.with_house_named("EF,FG,GH").unwrap().with_house_depth(1000.0);
    assert!(!blocked(&open).iter().any(|name| ["AD", "AE", "DH", "EH"].contains(&name.as_str())));
}

/// By hand: 1500 mm out from the bar of a U is in an endless house, and past one that goes back 1000 mm.
#[test]
fn past_the_back_of_a_house_of_known_depth_there_is_ground() {
    let (footprint, _) = parse_expression("9000x3000+2400x2100@0+2400x2100@6600", Units::Mm).unwrap();
    let footprint = footprint.with_house_named("EF").unwrap();
    let across = |footprint: &Footprint| {
        let at = |corner: usize| footprint.corners()[corner].at;
        Site::of(footprint).lies(moved(at(4), (0.0, 1.0), 1500.0), moved(at(5), (0.0, 1.0), 1500.0))
    };
    assert_eq!(across(&footprint), Lies::Blocked);
    assert_eq!(across(&footprint.with_house_depth(1000.0)), Lies::Outside);
}

/// The rule's own corner: a house along the top and the left goes round the corner between them.
#[test]
fn the_house_goes_round_an_outward_corner_between_two_of_its_sides() {
    let (footprint, _) = parse_expression("6000x4000", Units::Mm).unwrap();
    let round = Site::of(&footprint.clone().with_house_named("AB,DA").unwrap());
    assert_eq!(round.at(Point::new(-500.0, -500.0)), Place::House);
    assert_eq!(round.at(Point::new(6500.0, -500.0)), Place::Ground);
    let one = Site::of(&footprint.with_house_named("AB").unwrap());
    assert_eq!(one.at(Point::new(-500.0, -500.0)), Place::Ground);
}

/// By hand: in an L round the corner of a house the tape between two marks on its walls at D would go through it.
#[test]
fn no_triangle_is_laid_out_through_the_house() {
    let (footprint, _) = parse_expression("7000x6000-3500x2500", Units::Mm).unwrap();
    let without = |footprint: &Footprint| -> Vec<String> {
        let checks = corner_checks(footprint, None, Units::Mm);
        checks.into_iter().filter(|check| check.best.is_none()).map(|check| check.name).collect()
    };
    assert_eq!(without(&footprint), [""; 0]);
    assert_eq!(without(&footprint.with_house_named("CD,DE").unwrap()), ["D"]);
}

#[test]
fn the_depth_of_the_house_is_an_option_and_a_field_of_the_job() {
    let walk = "9000 R 6000 R 9000 R 2000 R 3000 L 1500 L 3000 R 2500";
    let lies = |answer: &serde_json::Value| {
        let checks = answer["result"]["straight_checks"].as_array().unwrap();
        checks.iter().find(|check| check["name"] == "EH").unwrap()["lies"].clone()
    };
    let typed = |more: &[&str]| {
        pegline([&["diagonals", "--walk", walk, "--house", "EF,FG,GH", "--json"], more].concat()).json()
    };
    assert_eq!(lies(&typed(&[])), "blocked");
    let given = typed(&["--house-depth", "1m"]);
    assert_eq!((lies(&given), given["plan"]["house_depth"].as_f64()), ("outside".into(), Some(1000.0)));
    let run = pegline(["diagonals", "6000x4000", "--house-depth", "1m"]).run();
    assert_eq!(run.code, 2);
    assert!(run.err.starts_with("error: --house-depth: say too which sides are the house"), "{}", run.err);
}
