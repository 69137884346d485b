//! Out of square, what to move, and masonry: on an L built a little wrong on purpose.

use approx::assert_abs_diff_eq as close;
use pegline::readings::{Call, FitKind, Input, Limit, Masonry, Reading, Readings, Reason, Verdict, readings};

use crate::readings_support::{held_on, plan};

const SIDES: [&str; 6] = ["AB", "BC", "CD", "DE", "EF", "FA"];

/// Every line of an outline whose corners are where they are, to a tenth of a millimetre.
fn all_lines(built: &[(f64, f64)]) -> Vec<Reading> {
    let mut taken = Vec::new();
    for i in 0..built.len() {
        for j in i + 1..built.len() {
            let length = (built[j].0 - built[i].0).hypot(built[j].1 - built[i].1);
            taken.push(Reading::new(i, j, (length * 10.0).round() / 10.0));
        }
    }
    taken
}

const BUILT: [(f64, f64); 6] =
    [(0.0, 0.0), (7800.0, 0.0), (7800.0, 3600.0), (4800.0, 3600.0), (4800.0, 6000.0), (0.0, 6000.0)];

fn judge(taken: &[Reading], change: impl FnOnce(&mut Input<'_>)) -> Readings {
    let (plan, tapes) = (plan(&[0]), held_on(0.0));
    let mut input = Input::new(&plan, taken, &tapes);
    change(&mut input);
    readings(&input).unwrap()
}

#[test]
fn one_corner_out_moves_alone_and_a_whole_side_moves_together() {
    // C built 6 short of its place along BC.
    let mut built = BUILT;
    built[2].1 -= 6.0;
    let answer = judge(&all_lines(&built), |_| ());
    let c = &answer.moves[2];
    assert_eq!((c.words.as_str(), c.toward.as_str()), ("C: 6 mm away from B", "away from B"));
    close!(c.distance.0, 6.0, epsilon = 0.2);
    assert_eq!((c.components[0].side.as_str(), c.components[1].side.as_str()), ("BC", "CD"));
    // EF and its corners built 9 too low: the side moves in, as a whole.
    let mut built = BUILT;
    built[4].1 += 9.0;
    built[5].1 += 9.0;
    let answer = judge(&all_lines(&built), |_| ());
    assert_eq!(answer.side_moves.len(), 1);
    assert_eq!(answer.side_moves[0].words, "side EF: 9 mm in, both ends");
    assert_eq!(answer.moves[4].words, "E: with side EF");
    assert_eq!(answer.moves[4].toward, "toward D");
    assert_eq!(answer.verdict, Verdict::Square);
    let ef = answer.sides.iter().find(|s| s.name == "FA").unwrap();
    close!(ef.difference.0, 9.0, epsilon = 0.1);
}

/// B and C shifted 12 down the page while AB stays 7800 long: A closes by 12/7800, B opens by as much.
#[test]
fn out_of_square_is_told_at_the_end_of_the_sides_with_its_way() {
    let mut built = BUILT;
    built[1].1 += 12.0;
    built[2].1 += 12.0;
    let answer = judge(&all_lines(&built), |_| ());
    assert_eq!(answer.verdict, Verdict::Out);
    let a = &answer.angles[0];
    assert_eq!((a.sense, a.call), (pegline::readings::Sense::Closed, Call::Out));
    close!(a.ends[1].out.0, -12.0, epsilon = 0.1);
    close!(a.ends[0].out.0, -12.0 * 6000.0 / 7800.0, epsilon = 0.1);
    assert_eq!((a.ends[0].side.as_str(), a.ends[1].side.as_str()), ("FA", "AB"));
    close!(answer.angles[1].ends[0].out.0, 12.0, epsilon = 0.1);
}

/// A limit of 5 with the corner out by 4 or by 6: within the tape's uncertainty either way, so another tape is named.
#[test]
fn a_limit_within_the_uncertainty_is_too_close_to_call() {
    let diagonals = ["AC", "AD", "AE", "BD", "DF", "BF"];
    for (out, verdict) in [(0.0, Verdict::Square), (6.0, Verdict::Out), (20.0, Verdict::Out)] {
        let mut built = BUILT;
        built[1].1 += out;
        built[2].1 += out;
        let taken: Vec<Reading> = all_lines(&built)
            .into_iter()
            .filter(|r| {
                let name = plan(&[]).line_name(r.from, r.to);
                diagonals.contains(&name.as_str()) || SIDES.contains(&name.as_str())
            })
            .collect();
        let answer = judge(&taken, |input| input.limit = Some(Limit::Own(5.0)));
        assert_eq!(answer.verdict, verdict, "{out}");
        let a = &answer.angles[0];
        close!(a.ends[1].limit.unwrap().0, 5.0);
        match out {
            6.0 => {
                assert!(answer.too_close.contains(&"A".to_owned()));
                assert_eq!(a.call, Call::TooClose);
                assert!(answer.tape_next.iter().any(|n| n.reason == Reason::Sharpens));
            }
            20.0 => assert_eq!(a.call, Call::Out),
            _ => (),
        }
    }
}

/// Source: DIN 18202, Table 1 (secondary page): ±16 mm to 6 m, ±20 mm to 15 m.
#[test]
fn a_published_tolerance_on_dimensions_is_taken_at_each_sides_end() {
    let answer = judge(&all_lines(&BUILT), |input| {
        input.limit = Some(Limit::published("DIN-18202").unwrap());
    });
    let a = &answer.angles[0];
    close!(a.ends[0].limit.unwrap().0, 16.0);
    close!(a.ends[1].limit.unwrap().0, 20.0);
    assert_eq!((answer.verdict, a.call), (Verdict::Square, Call::Square));
    let limit = answer.limit.unwrap();
    assert_eq!(limit.preset.unwrap().key, "din-18202");
}

/// Source: site taping, 12-16-20 ft ± 1/2 in: out by 0.248° at the limit (a short diagonal; 0.249° a long one), 5/8 in over
/// 12 ft.
#[test]
fn a_published_tolerance_on_a_diagonal_is_taken_as_the_angle_it_allows() {
    let limit = Limit::published("us-remodelling").unwrap();
    let feet = |ft: f64| ft * 304.8;
    close!(limit.at(feet(12.0), feet(16.0)).unwrap(), 5.0 / 8.0 * 25.4, epsilon = 0.5);
    close!(limit.at(7800.0, 6000.0).unwrap(), 7800.0 * 0.248_f64.to_radians().sin(), epsilon = 0.15);
    // The angle is the same at the other side's end.
    close!(
        limit.at(6000.0, 7800.0).unwrap() / 6000.0,
        limit.at(7800.0, 6000.0).unwrap() / 7800.0,
        epsilon = 1e-12
    );
    let error = Limit::published("nhbc").unwrap_err().to_string();
    assert_eq!(
        error,
        "no published limit `nhbc` for a corner: write one of kent, us-remodelling, din-18202, iso-4463-primary, \
         iso-4463-secondary, or your own limit in mm"
    );
}

#[test]
fn masonry_shows_each_sides_overhang_at_both_ends() {
    // The wall under EF is 14 low at F only; the wall BC stands 8 out.
    let mut built = BUILT;
    built[5].1 += 14.0;
    built[1].0 += 8.0;
    built[2].0 += 8.0;
    let mut answers = [10.0, 20.0].map(|limit| {
        judge(&all_lines(&built), |input| {
            input.masonry = Some(Masonry { limit: Some(limit) });
        })
    });
    let [strict, loose] = &mut answers;
    assert_eq!((strict.verdict, loose.verdict), (Verdict::Out, Verdict::Square));
    let side =
        |answer: &Readings, name: &str| answer.overhangs.iter().find(|o| o.side == name).unwrap().clone();
    let (bc, ef) = (side(strict, "BC"), side(strict, "EF"));
    // The true plate stands back from masonry that is too far out.
    close!(bc.start.0, -8.0, epsilon = 0.2);
    close!(bc.end.0, -8.0, epsilon = 0.2);
    close!(ef.start.0, 0.0, epsilon = 0.2);
    close!(ef.end.0, -14.0, epsilon = 0.2);
    assert_eq!(strict.masonry.as_ref().unwrap().over, ["EF"]);
    close!(strict.masonry.as_ref().unwrap().setback.0, 14.0, epsilon = 0.2);
    // Laid least-worst, the largest is smaller than held on AB.
    let shared = judge(&all_lines(&built), |input| {
        input.masonry = Some(Masonry { limit: Some(10.0) });
        input.fit = Some(FitKind::LeastWorst);
    });
    assert!(shared.fit.unwrap().worst_overhang.0 < 8.0);
    assert_eq!(shared.verdict, Verdict::Square);
}
