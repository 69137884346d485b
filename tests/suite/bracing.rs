//! What a set of diagonals can prove: the bracing of an L and a T worked out by an independent survey, rigidity by an
//! independent route, and the search for the best set against trying every set.

use approx::assert_abs_diff_eq;
use nalgebra::{DMatrix, DVector};
use pegline::geometry::Point;
use pegline::length::Units;
use pegline::network::{self, Distance};
use pegline::plan::{Footprint, parse_expression};
use pegline::square::{Diagonals, Options, diagonals};
use pegline::tape::Tape;

use crate::outlines::{footprint, outlines_of};

const L: &str = "7800x6000-3000x2400";
const T: &str = "8400x3000+3600x3300";

fn plan(text: &str) -> Footprint {
    parse_expression(text, Units::Mm).unwrap().0
}

fn answer(footprint: &Footprint, spares: usize) -> Diagonals {
    let options = Options { spares, ..Options::default() };
    diagonals(footprint, &options).unwrap()
}

/// Standard deviation of one reading of a class II tape, read to 1 mm.
///
/// Source: Directive 2014/32/EU Annex X: ±(0.3 + 0.2 L) mm, L in metres rounded up; taken as uniform.
fn class_ii(length: f64) -> f64 {
    let metres = (length / 1000.0 - 1e-9).ceil();
    ((0.3 + 0.2 * metres).powi(2) / 3.0 + 1.0).sqrt()
}

/// The bracing of one outline, by a route that shares nothing with the library's: corner A and the direction of AB are
/// held, the coordinates' errors are those of the readings through the inverse (or the pseudo-inverse) of the design,
/// and the shifts and the turn are then taken out of them.
struct Bracing {
    points: Vec<Point>,
    sides: Vec<(usize, usize)>,
    others: Vec<(usize, usize)>,
    /// Takes the shifts and the turn out of a set of coordinate errors.
    without_motion: DMatrix<f64>,
}

impl Bracing {
    fn new(footprint: &Footprint) -> Self {
        let points = footprint.points();
        let n = points.len();
        let sides: Vec<(usize, usize)> = (0..n).map(|i| (i, (i + 1) % n)).collect();
        let others = (0..n)
            .flat_map(|i| (i + 2..n).map(move |j| (i, j)))
            .filter(|(i, j)| !(*i == 0 && *j == n - 1))
            .collect();
        let mut motions = DMatrix::zeros(2 * n, 3);
        for (i, p) in points.iter().enumerate() {
            motions[(2 * i, 0)] = 1.0;
            motions[(2 * i + 1, 1)] = 1.0;
            motions[(2 * i, 2)] = -p.y;
            motions[(2 * i + 1, 2)] = p.x;
        }
        let q = motions.qr().q();
        Self { without_motion: DMatrix::identity(2 * n, 2 * n) - &q * q.transpose(), points, sides, others }
    }

    fn design(&self, lines: &[(usize, usize)]) -> DMatrix<f64> {
        let mut design = DMatrix::zeros(lines.len(), 2 * self.points.len());
        for (row, (i, j)) in lines.iter().enumerate() {
            let (a, b) = (self.points[*i], self.points[*j]);
            let (dx, dy, d) = (b.x - a.x, b.y - a.y, (b.x - a.x).hypot(b.y - a.y));
            for (column, figure) in
                [(2 * i, -dx / d), (2 * i + 1, -dy / d), (2 * j, dx / d), (2 * j + 1, dy / d)]
            {
                design[(row, column)] = figure;
            }
        }
        design
    }

    fn taped(&self, braces: &[(usize, usize)]) -> Vec<(usize, usize)> {
        self.sides.iter().chain(braces).copied().collect()
    }

    /// Rank by singular values.
    fn rank(&self, braces: &[(usize, usize)]) -> usize {
        self.design(&self.taped(braces)).rank(1e-9)
    }

    /// The largest semi-axis of a corner's ellipse, free datum, mm; `None` where the shape is loose.
    fn worst(&self, braces: &[(usize, usize)]) -> Option<f64> {
        let n = self.points.len();
        let lines = self.taped(braces);
        // A stays, B stays at its height: their columns go.
        let held = self.design(&lines).remove_columns_at(&[0, 1, 3]);
        let sd = DVector::from_iterator(
            lines.len(),
            lines.iter().map(|(i, j)| class_ii(self.points[*i].distance(self.points[*j]))),
        );
        let mut weighted = held;
        for (mut row, sd) in weighted.row_iter_mut().zip(sd.iter()) {
            row /= *sd;
        }
        // Errors of the coordinates for errors of one standard deviation in each reading.
        let errors = if lines.len() == 2 * n - 3 {
            let lu = weighted.lu();
            let smallest = lu.u().diagonal().iter().fold(f64::INFINITY, |m, u| m.min(u.abs()));
            if smallest < 1e-9 {
                return None;
            }
            lu.try_inverse()?
        } else {
            if weighted.rank(1e-9) < 2 * n - 3 {
                return None;
            }
            weighted.pseudo_inverse(1e-12).ok()?
        };
        let mut whole = DMatrix::zeros(2 * n, lines.len());
        let kept: Vec<usize> = (0..2 * n).filter(|c| ![0, 1, 3].contains(c)).collect();
        for (row, column) in kept.into_iter().enumerate() {
            whole.row_mut(column).copy_from(&errors.row(row));
        }
        let free = &self.without_motion * whole;
        let worst = (0..n).map(|i| {
            let (x, y) = (free.row(2 * i), free.row(2 * i + 1));
            let (xx, yy, xy) = (x.dot(&x), y.dot(&y), x.dot(&y));
            (f64::midpoint(xx, yy) + ((xx - yy) / 2.0).hypot(xy)).sqrt()
        });
        Some(worst.fold(0.0, f64::max))
    }

    /// Every set of `count` lines that are not sides, in order of names.
    fn sets(&self, count: usize) -> Vec<Vec<(usize, usize)>> {
        let mut sets: Vec<Vec<usize>> = vec![vec![]];
        for _ in 0..count {
            sets = sets
                .iter()
                .flat_map(|set| {
                    (set.last().map_or(0, |last| last + 1)..self.others.len())
                        .map(move |next| [set.as_slice(), &[next]].concat())
                })
                .collect();
        }
        sets.into_iter().map(|set| set.into_iter().map(|i| self.others[i]).collect()).collect()
    }

    /// The lowest worst corner of all the sets, mm.
    fn best(&self, count: usize) -> f64 {
        let worst = self.sets(count).into_iter().filter_map(|set| self.worst(&set));
        worst.fold(f64::INFINITY, f64::min)
    }

    /// The largest slip that hides in one of the readings: `detectable` σ/√r, with r from the singular vectors.
    fn worst_hidden(&self, braces: &[(usize, usize)], detectable: f64) -> f64 {
        let lines = self.taped(braces);
        let sd: Vec<f64> =
            lines.iter().map(|(i, j)| class_ii(self.points[*i].distance(self.points[*j]))).collect();
        let mut weighted = self.design(&lines);
        for (mut row, sd) in weighted.row_iter_mut().zip(&sd) {
            row /= *sd;
        }
        let svd = weighted.svd(true, false);
        let (vectors, largest) = (svd.u.unwrap(), svd.singular_values.max());
        let kept: Vec<usize> =
            (0..svd.singular_values.len()).filter(|i| svd.singular_values[*i] > 1e-9 * largest).collect();
        let hidden = sd.iter().enumerate().map(|(row, sd)| {
            let leverage: f64 = kept.iter().map(|column| vectors[(row, *column)].powi(2)).sum();
            detectable * sd / (1.0 - leverage).sqrt()
        });
        hidden.fold(0.0, f64::max)
    }

    fn named(&self, names: &str) -> Option<f64> {
        let braces: Vec<(usize, usize)> = names.split('+').map(line).collect();
        self.worst(&braces)
    }
}

/// The indices of a line's two corners.
fn line(name: &str) -> (usize, usize) {
    let letters: Vec<usize> = name.bytes().map(|b| usize::from(b - b'A')).collect();
    (letters[0].min(letters[1]), letters[0].max(letters[1]))
}

/// The library's figure for the sides and these lines.
fn library(footprint: &Footprint, names: &str) -> Option<f64> {
    let points = footprint.points();
    let tape = Tape::default();
    let distance = |from: usize, to: usize| Distance {
        from,
        to,
        sd: tape.standard_deviation(points[from].distance(points[to])),
    };
    let n = points.len();
    let sides = (0..n).map(|i| distance(i, (i + 1) % n));
    let braces = names.split('+').map(|name| {
        let (from, to) = footprint.parse_line(name).unwrap();
        distance(from, to)
    });
    let taped: Vec<Distance> = sides.chain(braces).collect();
    network::free_covariance(&points, &taped).map(|covariance| network::worst_corner_sd(&covariance))
}

/// Source: an independent survey of this L (7.8 × 6.0 m, notch 3.0 × 2.4; class II tape, 1 mm reading): best three
/// AD+BE+DF 1.27, the fan from A 3.05, AD+BF+CE nearly loose at 68.8, best four AD+BE+CE+DF 1.21, best five
/// AD+AE+BD+BE+CF 1.04, all nine 0.87, those inside alone 1.40.
#[test]
fn the_bracing_of_the_l_is_as_surveyed() {
    let l = plan(L);
    let bracing = Bracing::new(&l);
    for (names, surveyed, to) in [
        ("AD+BE+DF", 1.27, 0.005),
        ("AC+AD+AE", 3.05, 0.005),
        ("AD+BF+CE", 68.8, 0.05),
        ("AD+BE+CE+DF", 1.21, 0.005),
        ("AD+AE+BD+BE+CF", 1.04, 0.005),
        ("AC+AD+AE+BD+BE+BF+CE+CF+DF", 0.87, 0.005),
        ("AC+AD+AE+BD+BF+DF", 1.40, 0.005),
    ] {
        assert_abs_diff_eq!(library(&l, names).unwrap(), surveyed, epsilon = to);
        assert_abs_diff_eq!(bracing.named(names).unwrap(), surveyed, epsilon = to);
    }
    for (count, best) in [(3, 1.27), (4, 1.21), (5, 1.04), (9, 0.87)] {
        assert_abs_diff_eq!(bracing.best(count), best, epsilon = 0.005);
    }
    let proof = answer(&l, 0).proof;
    assert_eq!(proof.names, ["AD", "BE", "DF"]);
    assert_abs_diff_eq!(proof.worst_corner_sd.unwrap().0, 1.27, epsilon = 0.005);
    assert_eq!((proof.redundancy, proof.fixed), (0, true));
}

/// Source: the same survey: of the 84 triples of diagonals of an L only 78 are rigid; the fan from A is 53rd of them.
#[test]
fn only_78_of_the_84_triples_of_an_l_are_rigid_and_the_fan_is_53rd() {
    let bracing = Bracing::new(&plan(L));
    let sets = bracing.sets(3);
    assert_eq!(sets.len(), 84);
    let mut rigid: Vec<f64> = sets.iter().filter_map(|set| bracing.worst(set)).collect();
    assert_eq!(rigid.len(), 78);
    let ranked = sets.iter().filter(|set| bracing.rank(set) == 9).count();
    assert_eq!(ranked, 78);
    rigid.sort_by(f64::total_cmp);
    let fan = bracing.named("AC+AD+AE").unwrap();
    assert_eq!(rigid.iter().position(|worst| *worst >= fan - 1e-9).unwrap() + 1, 53);
}

/// Source: Laman 1970: 2n − 3 independent distances, so an L needs its six sides and three more, a T eight and five.
#[test]
fn fewer_than_the_proof_set_never_fix_an_l_and_the_proof_set_does() {
    let l = plan(L);
    let bracing = Bracing::new(&l);
    for count in 0..3 {
        for set in bracing.sets(count) {
            assert!(bracing.rank(&set) < 9, "{set:?}");
            assert_eq!(bracing.rank(&set), 6 + count, "{set:?}");
        }
    }
    for text in [
        L,
        T,
        "7800x6000",
        "9000x3000+2400x2100@0+2400x2100@6600",
        "9000x6000-2000x1500@tl-1000x1200@br+3000x900@500",
    ] {
        let footprint = plan(text);
        let bracing = Bracing::new(&footprint);
        let proof = answer(&footprint, 0).proof;
        let braces: Vec<(usize, usize)> = proof.names.iter().map(|name| line(name)).collect();
        let n = footprint.len();
        assert_eq!(braces.len(), n - 3, "{text}");
        assert_eq!(bracing.rank(&braces), 2 * n - 3, "{text}");
        for without in 0..braces.len() {
            let mut fewer = braces.clone();
            fewer.remove(without);
            assert_eq!(bracing.rank(&fewer), 2 * n - 4, "{text} without {:?}", braces[without]);
        }
    }
}

/// Source: the same survey: this T (8.4 × 3.0 bar, 3.6 × 3.3 stem in the middle): best five 1.49, fan from A 3.84.
#[test]
fn the_bracing_of_the_t_is_as_surveyed() {
    let t = plan(T);
    let bracing = Bracing::new(&t);
    assert_abs_diff_eq!(bracing.named("AC+AD+AE+AF+AG").unwrap(), 3.84, epsilon = 0.005);
    let proof = answer(&t, 0).proof;
    assert_eq!(proof.names.len(), 5);
    assert_abs_diff_eq!(proof.worst_corner_sd.unwrap().0, 1.49, epsilon = 0.005);
    assert_abs_diff_eq!(
        bracing.named(&proof.names.join("+")).unwrap(),
        proof.worst_corner_sd.unwrap().0,
        epsilon = 1e-6
    );
}

/// The worst corner of the set found is at most `over` times the best of all sets' above it.
fn search_is_best(footprint: &Footprint, over: f64, what: &str) {
    let bracing = Bracing::new(footprint);
    let best = bracing.best(footprint.len() - 3);
    let proof = answer(footprint, 0).proof;
    let found = proof.worst_corner_sd.unwrap().0;
    assert_abs_diff_eq!(bracing.named(&proof.names.join("+")).unwrap(), found, epsilon = 1e-5 * found);
    assert!(found <= best * (1.0 + over), "{what}: found {found} by {:?}, best {best}", proof.names);
}

#[test]
fn the_search_finds_the_best_set_of_any_l() {
    search_is_best(&plan(L), 1e-5, L);
    for outline in outlines_of(6, 21).take(60) {
        search_is_best(&footprint(&outline), 1e-5, &format!("{outline:?}"));
    }
}

#[test]
fn the_search_finds_the_best_set_of_a_t_and_a_u() {
    for text in [T, "9000x3000+3600x2400@1200", "9000x3000+3600x2400", "9000x3000+2400x2100@0+2400x2100@6600"]
    {
        search_is_best(&plan(text), 1e-5, text);
    }
}

/// Out of 15 504 sets the exchanges may miss the best by a little: by 4.1 % at the most on 300 outlines, 19 of them.
#[test]
fn the_search_finds_the_best_set_of_random_outlines_of_eight_corners_or_one_as_good() {
    for outline in outlines_of(8, 22).take(6) {
        search_is_best(&footprint(&outline), 0.05, &format!("{outline:?}"));
    }
}

/// With a tape that reaches nothing the answer says so instead of giving a set that does not do it.
#[test]
fn a_short_tape_leaves_the_shape_loose_and_says_so() {
    let options = Options { tape: Tape { length: Some(3000.0), ..Tape::default() }, ..Options::default() };
    let answer = diagonals(&plan(L), &options).unwrap();
    assert_eq!(answer.proof.names, [""; 0]);
    assert!(!answer.proof.fixed && answer.proof.worst_corner_sd.is_none());
    assert_eq!(answer.proof.redundancy, -3);
    assert_eq!(answer.sides_past_tape, ["AB", "BC", "EF", "FA"]);
}

/// By hand: along 7800 a tape of 5 m goes twice, to the whole metre past half way; what it doesn't reach is not taped.
#[test]
fn a_side_longer_than_the_tape_is_taped_in_two_and_a_diagonal_longer_is_not_chosen() {
    let tape = Tape { length: Some(5000.0), ..Tape::default() };
    let answer = diagonals(&plan(L), &Options { tape, ..Options::default() }).unwrap();
    let pulls: Vec<(&str, Vec<f64>)> = answer
        .in_pulls
        .iter()
        .map(|side| (side.name.as_str(), side.pulls.iter().map(|pull| pull.0).collect()))
        .collect();
    assert_eq!(pulls, [("AB", vec![4000.0, 3800.0]), ("FA", vec![3000.0, 3000.0])]);
    assert!(answer.diagonals.iter().all(|d| d.length.0 <= 5000.0 || !(d.proof || d.spare)));
    // Two pulls of 3900, each with its own error: class II over 4 m is 1.1 mm.
    assert_abs_diff_eq!(
        tape.standard_deviation(7800.0),
        (2.0 * (1.1 * 1.1 / 3.0 + 1.0_f64)).sqrt(),
        epsilon = 1e-9
    );
}

proptest::proptest! {
    #[test]
    fn the_pulls_of_a_length_add_up_to_it_and_the_tape_reaches_each(
        length in 1.0_f64..40_000.0, reach in 500.0_f64..30_000.0
    ) {
        let tape = Tape { length: Some(reach), ..Tape::default() };
        let pulls = tape.pulls(length, 1000.0);
        if pulls.is_empty() {
            proptest::prop_assert!(length > 4.0 * reach);
        } else {
            proptest::prop_assert!(pulls.iter().all(|pull| *pull > 0.0 && *pull <= reach), "{:?}", pulls);
            assert_abs_diff_eq!(pulls.iter().sum::<f64>(), length, epsilon = 1e-6);
            proptest::prop_assert!((pulls.len() as f64 - 1.0) * reach < length, "{:?}", pulls);
        }
    }
}

/// Source: the redundancy of every reading from the inverse of the whole design, whose trace is the redundancy; 4.1321 is
/// the published figure for a test at 0.1 % that finds four in five.
#[test]
fn what_hides_is_that_of_the_whole_adjustment() {
    let mut compared = 0;
    for outline in outlines_of(6, 23).take(60) {
        let footprint = footprint(&outline);
        let found = answer(&footprint, 2);
        let bracing = Bracing::new(&footprint);
        let braces: Vec<(usize, usize)> =
            found.proof.names.iter().chain(&found.spares.names).map(|name| line(name)).collect();
        let worst = bracing.worst_hidden(&braces, 4.1321);
        if let Some(hides) = found.spares.hides {
            assert_abs_diff_eq!(hides.0, worst, epsilon = 1e-6 * worst);
            compared += 1;
        }
    }
    assert!(compared > 30, "{compared}");
}

/// Few sets are all tried; a T's 15,504 are searched, and the answer says so.
#[test]
fn a_set_is_called_proven_only_where_every_set_was_tried() {
    assert!(answer(&plan(L), 2).proof.proven);
    assert!(!answer(&plan(T), 2).proof.proven);
}
