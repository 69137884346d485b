//! 3-4-5 and its kin: whole-number right triangles, and the biggest neat one at each corner.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::{Mm, Point, Ratio};
use crate::length::{MM_PER_INCH, Units};
use crate::plan::{Footprint, Heading, Lies, SAME_PLACE, Site, Turn};

/// A whole-number right triangle a² + b² = c², a < b < c.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Triple {
    /// Shorter leg.
    pub a: u32,
    /// Longer leg.
    pub b: u32,
    /// Diagonal.
    pub c: u32,
}

impl Triple {
    /// How it is called: `3-4-5`.
    #[must_use]
    pub fn name(self) -> String {
        format!("{}-{}-{}", self.a, self.b, self.c)
    }
}

/// 3-4-5.
pub const THREE_FOUR_FIVE: Triple = Triple { a: 3, b: 4, c: 5 };

/// The triples small enough to remember, that are tried at a corner: 3-4-5 first, which wins a tie.
pub const ON_SITE: [Triple; 4] = [
    THREE_FOUR_FIVE,
    Triple { a: 5, b: 12, c: 13 },
    Triple { a: 8, b: 15, c: 17 },
    Triple { a: 20, b: 21, c: 29 },
];

/// Another triple comes before 3-4-5, which everybody knows, where 1 mm shows no more than this part of what it shows on
/// the 3-4-5. Common practice, no source.
const WORTH_ANOTHER: f64 = 0.75;

/// Every primitive triple with a diagonal under `limit`, by diagonal and then by shorter leg.
///
/// Euclid's rule: a = m² − n², b = 2mn, c = m² + n² for m > n, coprime, not both odd.
#[must_use]
pub fn primitive_triples(limit: u32) -> Vec<Triple> {
    let mut found = vec![];
    for m in 2_u32.. {
        if m * m + 1 >= limit {
            break;
        }
        for n in (1..m).filter(|n| (m - n) % 2 == 1 && coprime(m, *n)) {
            let (a, b, c) = (m * m - n * n, 2 * m * n, m * m + n * n);
            if c < limit {
                found.push(Triple { a: a.min(b), b: a.max(b), c });
            }
        }
    }
    found.sort_by_key(|triple| (triple.c, triple.a));
    found
}

fn coprime(a: u32, b: u32) -> bool {
    if b == 0 { a == 1 } else { coprime(b, a % b) }
}

/// A side and how far along it to mark, from the corner.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Leg {
    /// The side's name.
    pub side: String,
    /// The distance to mark along it from the corner, mm.
    pub length: Mm,
}

/// A whole-number triangle laid out at a corner. Both legs are measured from the corner.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct CornerTriangle {
    /// The triple's name.
    pub triple: String,
    /// What each of its numbers is multiplied by, mm.
    pub multiple: Mm,
    /// Along the side that arrives at the corner clockwise.
    pub first: Leg,
    /// Along the side that leaves it.
    pub second: Leg,
    /// Between the two marks, mm.
    pub diagonal: Mm,
    /// How far the end of the corner's longer side moves for 1 mm on the diagonal, mm.
    pub mm_at_end_per_mm: Ratio,
}

/// The best triangle at one corner.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
// The flattened triangle is there whole or not at all, which the schema of its keys can't say.
#[schemars(extend("dependentRequired" = {
    "triple": ["multiple", "first", "second", "diagonal", "mm_at_end_per_mm"],
    "multiple": ["triple"],
}))]
pub struct CornerCheck {
    /// The corner's letter.
    pub name: String,
    /// Whether the corner points into the footprint (measure along the two sides all the same).
    pub inward: bool,
    /// The biggest 3-4-5, or another triangle where that is sharper by a quarter; nothing where none fits.
    #[serde(flatten)]
    pub best: Option<CornerTriangle>,
    /// The biggest 3-4-5, where another triple comes first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub three_four_five: Option<CornerTriangle>,
}

/// The biggest whole-number triangle that fits each corner's two sides and the tape, and that the house is not in.
#[must_use]
pub fn corner_checks(footprint: &Footprint, tape_length: Option<f64>, units: Units) -> Vec<CornerCheck> {
    let site = Site::of(footprint);
    (0..footprint.len())
        .map(|corner| {
            let fits = |triple| {
                biggest(footprint, corner, triple, tape_length, units)
                    .filter(|triangle| is_clear(footprint, &site, corner, triangle))
            };
            let plain = fits(THREE_FOUR_FIVE);
            let shows = |triangle: &CornerTriangle| triangle.mm_at_end_per_mm.0;
            let sharpest = ON_SITE
                .into_iter()
                .filter_map(fits)
                .reduce(|best, next| if shows(&next) < shows(&best) * (1.0 - 1e-9) { next } else { best });
            let best = match (&plain, sharpest) {
                (Some(plain), Some(other)) if shows(&other) > shows(plain) * WORTH_ANOTHER => {
                    Some(plain.clone())
                }
                (_, sharpest) => sharpest,
            };
            CornerCheck {
                name: footprint.corners()[corner].name.to_string(),
                inward: footprint.corners()[corner].turn == Turn::Inward,
                three_four_five: plain.filter(|plain| Some(plain) != best.as_ref()),
                best,
            }
        })
        .collect()
}

/// Whether the tape between a triangle's two marks is clear of the house.
fn is_clear(footprint: &Footprint, site: &Site, corner: usize, triangle: &CornerTriangle) -> bool {
    let (arrives, leaves) = footprint.sides_at(corner);
    let at = footprint.corners()[corner].at;
    let mark = |heading: Heading, by: f64| {
        let (dx, dy) = heading.step();
        Point::new(at.x + dx * by, at.y + dy * by)
    };
    let first = mark(footprint.sides()[arrives].heading, -triangle.first.length.0);
    let second = mark(footprint.sides()[leaves].heading, triangle.second.length.0);
    site.lies(first, second) != Lies::Blocked
}

/// The neat steps for the multiple, mm, coarsest first: a finer one only where no coarser one fits.
#[must_use]
pub const fn neat_steps(units: Units) -> [f64; 3] {
    match units {
        Units::Mm | Units::M => [100.0, 50.0, 10.0],
        Units::FeetInches => [6.0 * MM_PER_INCH, 3.0 * MM_PER_INCH, MM_PER_INCH],
    }
}

/// The largest neat multiple of `triple` at a corner, the longer leg either way round.
fn biggest(
    footprint: &Footprint,
    corner: usize,
    triple: Triple,
    tape_length: Option<f64>,
    units: Units,
) -> Option<CornerTriangle> {
    let (arrives, leaves) = footprint.sides_at(corner);
    let lengths = [footprint.sides()[arrives].length, footprint.sides()[leaves].length];
    let (a, b, c) = (f64::from(triple.a), f64::from(triple.b), f64::from(triple.c));
    let most = |first: f64, second: f64| {
        let sides = (lengths[0] / first).min(lengths[1] / second);
        tape_length.map_or(sides, |tape| sides.min(tape / c))
    };
    let ways = [(a, b, most(a, b)), (b, a, most(b, a))];
    let (first, second, k) = neat_steps(units).into_iter().find_map(|step| {
        let neat = ways.map(|(first, second, k)| (first, second, ((k + SAME_PLACE) / step).floor() * step));
        let best = if neat[1].2 > neat[0].2 { neat[1] } else { neat[0] };
        (best.2 > 0.0).then_some(best)
    })?;
    let longer_side = lengths[0].max(lengths[1]);
    Some(CornerTriangle {
        triple: triple.name(),
        multiple: Mm(k),
        first: Leg { side: footprint.side_name(arrives), length: Mm(first * k) },
        second: Leg { side: footprint.side_name(leaves), length: Mm(second * k) },
        diagonal: Mm(c * k),
        mm_at_end_per_mm: Ratio(c / (a * b * k) * longer_side),
    })
}

/// One row of a triple's table of multiples.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Multiple {
    /// The triple's name.
    pub triple: String,
    /// What each of its numbers is multiplied by, mm.
    pub multiple: Mm,
    /// Shorter leg, mm.
    pub a: Mm,
    /// Longer leg, mm.
    pub b: Mm,
    /// Diagonal, mm.
    pub c: Mm,
}

/// The multiples of 3-4-5 from the neat step up to the longest diagonal given, mm, thinned to about `rows` rows.
#[must_use]
pub fn multiples(longest: f64, rows: usize, units: Units) -> Vec<Multiple> {
    let step = neat_steps(units)[0];
    let (a, b, c) = (3.0, 4.0, 5.0);
    let most = (longest / (c * step)).floor();
    let every = (most / rows.max(1) as f64).ceil().max(1.0);
    let count = (most / every).floor();
    (1..=rows)
        .map(|i| i as f64)
        .take_while(|i| *i <= count)
        .map(|i| i * every * step)
        .map(|k| Multiple {
            triple: THREE_FOUR_FIVE.name(),
            multiple: Mm(k),
            a: Mm(a * k),
            b: Mm(b * k),
            c: Mm(c * k),
        })
        .collect()
}
