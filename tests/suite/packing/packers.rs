//! The fewest packers against every stack there is.

use pegline::length::Units;
use pegline::packers::{self, MakeUp, Packer, PackersError};
use proptest::prelude::*;

fn make_up(gaps: &[f64], packers: &[Packer]) -> Result<MakeUp, PackersError> {
    packers::make_up(gaps, packers, 1.0, Units::Mm)
}

fn plenty(sizes: &[f64]) -> Vec<Packer> {
    sizes.iter().map(|t| Packer { thickness: *t, count: None }).collect()
}

fn counted(van: &[(f64, u32)]) -> Vec<Packer> {
    van.iter().map(|(t, n)| Packer { thickness: *t, count: Some(*n) }).collect()
}

fn thicknesses(made: &MakeUp, gap: usize) -> Vec<f64> {
    made.stacks[gap].packers.iter().map(|t| t.0).collect()
}

/// Every way of taking up to `counts` of `sizes` (tenths) with a total of at most `most`: total and pieces, per size.
fn every_stack(sizes: &[u32], counts: &[u32], most: u32) -> Vec<Vec<u32>> {
    let mut stacks = vec![vec![]];
    for count in counts {
        stacks = stacks
            .into_iter()
            .flat_map(|stack: Vec<u32>| {
                (0..=*count).map(move |n| {
                    let mut longer = stack.clone();
                    longer.push(n);
                    longer
                })
            })
            .filter(|stack| stack.iter().zip(sizes).map(|(n, t)| n * t).sum::<u32>() <= most)
            .collect();
    }
    stacks
}

/// What a stack comes to, the first part counting most: places farther than a millimetre from their gap, tenths off,
/// tenths over, pieces.
type Cost = [u32; 4];

fn cost(gap: u32, sizes: &[u32], stack: &[u32]) -> Cost {
    let total: u32 = stack.iter().zip(sizes).map(|(n, t)| n * t).sum();
    let off = gap.abs_diff(total);
    [u32::from(off > 10), off, total.saturating_sub(gap), stack.iter().sum()]
}

fn plus(a: Cost, b: Cost) -> Cost {
    std::array::from_fn(|i| a[i] + b[i])
}

/// The cheapest way to serve all gaps from one heap, by trying everything.
fn brute(gaps: &[u32], sizes: &[u32], counts: &[u32]) -> Cost {
    let Some((gap, rest)) = gaps.split_first() else {
        return [0; 4];
    };
    every_stack(sizes, counts, 2 * gap)
        .into_iter()
        .map(|stack| {
            let left: Vec<u32> = counts.iter().zip(&stack).map(|(c, n)| c - n).collect();
            plus(cost(*gap, sizes, &stack), brute(rest, sizes, &left))
        })
        .min()
        .unwrap()
}

pub(crate) fn found_cost(made: &MakeUp) -> Cost {
    let tenths = |mm: f64| format!("{:.0}", mm.abs() * 10.0).parse::<u32>().unwrap();
    let places = made.stacks.iter().map(|stack| {
        let off = tenths(stack.remainder.0);
        let over = if stack.remainder.0 < -0.01 { off } else { 0 };
        [u32::from(off > 10), off, over, u32::try_from(stack.packers.len()).unwrap()]
    });
    places.fold([0; 4], plus)
}

/// What left the van is what lies under the plate, and it is as thick as the gaps less the remainders.
fn conserves(made: &MakeUp, gaps: &[f64]) -> Result<(), TestCaseError> {
    let under: f64 = made.stacks.iter().flat_map(|s| &s.packers).map(|t| t.0).sum();
    let taken: f64 = made.totals.iter().map(|t| t.thickness.0 * t.count as f64).sum();
    let filled: f64 = gaps.iter().zip(&made.stacks).map(|(g, s)| g - s.remainder.0).sum();
    prop_assert!((under - taken).abs() < 1e-6 && (under - filled).abs() < 1e-6);
    let pieces: usize = made.stacks.iter().map(|s| s.packers.len()).sum();
    prop_assert_eq!(pieces as u64, made.pieces);
    prop_assert_eq!(made.totals.iter().map(|t| t.count).sum::<u64>(), made.pieces);
    Ok(())
}

fn sizes() -> impl Strategy<Value = Vec<u32>> {
    prop::collection::btree_set(3_u32..60, 1..5).prop_map(|set| set.into_iter().collect())
}

fn of_sizes(sizes: &[u32], counts: Option<&[u32]>) -> Vec<Packer> {
    let count = |i: usize| counts.map(|c| c[i]);
    sizes
        .iter()
        .enumerate()
        .map(|(i, t)| Packer { thickness: f64::from(*t) / 10.0, count: count(i) })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    /// Outside check: brute force over every stack.
    #[test]
    fn a_stack_from_plenty_is_the_nearest_of_the_fewest_pieces(sizes in sizes(), gap in 0_u32..130) {
        let gaps = [f64::from(gap) / 10.0];
        let made = make_up(&gaps, &of_sizes(&sizes, None)).unwrap();
        let counts: Vec<u32> = sizes.iter().map(|t| 2 * gap / t).collect();
        prop_assert_eq!(found_cost(&made), brute(&[gap], &sizes, &counts));
        prop_assert!(made.proven);
        conserves(&made, &gaps)?;
    }

    /// Outside check: brute force over every way to share out the heap.
    #[test]
    fn a_counted_van_is_shared_out_with_the_fewest_pieces(
        van in prop::collection::btree_map(1_u32..12, 0_u32..4, 1..4),
        gaps in prop::collection::vec(0_u32..25, 1..4),
    ) {
        let (sizes, counts): (Vec<u32>, Vec<u32>) = van.into_iter().unzip();
        let in_mm: Vec<f64> = gaps.iter().map(|g| f64::from(*g) / 10.0).collect();
        let made = make_up(&in_mm, &of_sizes(&sizes, Some(&counts))).unwrap();
        prop_assert!(made.proven);
        prop_assert_eq!(found_cost(&made), brute(&gaps, &sizes, &counts));
        conserves(&made, &in_mm)?;
        for (size, count) in sizes.iter().zip(&counts) {
            let used = made.totals.iter().find(|t| (t.thickness.0 * 10.0 - f64::from(*size)).abs() < 0.1);
            prop_assert!(used.is_none_or(|t| t.count <= u64::from(*count)));
        }
    }

    #[test]
    fn the_same_van_gives_the_same_stacks(counts in prop::collection::vec(0_u32..30, 5), gaps in prop::collection::vec(0_u32..30, 1..30)) {
        let van: Vec<(f64, u32)> = [1.0, 2.0, 3.0, 5.0, 10.0].into_iter().zip(counts).collect();
        let gaps: Vec<f64> = gaps.into_iter().map(f64::from).collect();
        let once = make_up(&gaps, &counted(&van)).unwrap();
        conserves(&once, &gaps)?;
        let mut backwards = van;
        backwards.reverse();
        prop_assert_eq!(&once, &make_up(&gaps, &counted(&backwards)).unwrap());
    }

    #[test]
    fn no_gap_or_packer_is_a_panic(gaps in prop::collection::vec(any::<f64>(), 0..4), sizes in prop::collection::vec((any::<f64>(), any::<Option<u32>>()), 0..4)) {
        let van: Vec<Packer> = sizes.into_iter().map(|(thickness, count)| Packer { thickness, count }).collect();
        let _ = make_up(&gaps, &van);
    }
}

/// Ours, by hand: of the stacks of two for 6 mm from 1, 2, 3, 5 the one with the thickest packer.
#[test]
fn of_equal_stacks_the_one_with_the_thickest_packers_is_taken() {
    let made = make_up(&[6.0, 4.0, 13.0], &plenty(&[1.0, 2.0, 3.0, 5.0, 10.0])).unwrap();
    assert_eq!(thicknesses(&made, 0), [5.0, 1.0]);
    assert_eq!(thicknesses(&made, 1), [3.0, 1.0]);
    assert_eq!(thicknesses(&made, 2), [10.0, 3.0]);
}

/// Ours, by hand: fewest pieces is not thickest first. 6 from 1, 3, 4 is 3 + 3, not 4 + 1 + 1.
#[test]
fn thickest_first_is_not_always_fewest() {
    let made = make_up(&[6.0], &plenty(&[1.0, 3.0, 4.0])).unwrap();
    assert_eq!(thicknesses(&made, 0), [3.0, 3.0]);
}

#[test]
fn a_gap_between_two_makeable_ones_says_what_is_left() {
    let made = make_up(&[4.0, 4.5, 4.6, 0.4], &plenty(&[3.0])).unwrap();
    let left: Vec<String> = made.stacks.iter().map(|s| format!("{:.1}", s.remainder.0)).collect();
    // 4.5 lies midway between 3 and 6: the thinner one, which doesn't lift the plate.
    assert_eq!(left, ["1.0", "1.5", "-1.4", "0.4"]);
}

#[test]
fn an_empty_van_leaves_every_gap_open() {
    let made = make_up(&[4.0, 0.0], &[]).unwrap();
    assert_eq!((made.pieces, made.stacks[0].remainder.0), (0, 4.0));
    let none_left = make_up(&[4.0, 0.0], &counted(&[(2.0, 0)])).unwrap();
    assert_eq!(none_left.stacks, made.stacks);
    assert!(none_left.proven);
}

#[test]
fn a_house_full_of_studs_from_a_counted_van_is_proven() {
    let gaps: Vec<f64> = (0..60).map(|i| f64::from(i % 13)).collect();
    let van = counted(&[(1.0, 40), (2.0, 40), (3.0, 20), (5.0, 20), (10.0, 10)]);
    let made = make_up(&gaps, &van).unwrap();
    assert!(made.proven, "{} pieces", made.pieces);
    assert!(made.stacks.iter().all(|s| s.remainder.0 == 0.0));
}

#[test]
fn packers_that_are_none_are_refused() {
    for bad in [0.0, -1.0, 0.05, 0.123, 100.1, f64::NAN, f64::INFINITY, 1e300] {
        let refused = make_up(&[1.0], &plenty(&[bad]));
        assert!(matches!(refused, Err(PackersError::Thickness { .. })), "{bad}");
    }
    assert_eq!(make_up(&[1.0], &plenty(&[2.0, 2.0])), Err(PackersError::Twice(2.0)));
    for bad in [f64::NAN, f64::INFINITY, -1.0, 1001.0, 1e300] {
        assert!(make_up(&[bad], &plenty(&[1.0])).is_err(), "{bad}");
    }
}

/// Ours: shims of 1/16, 1/8 and 1/4 in under 7/16 in and under 1/2 in and a hair.
#[test]
fn a_job_in_feet_and_inches_counts_packers_in_sixteenths() {
    const SIXTEENTH: f64 = 25.4 / 16.0;
    let shims = plenty(&[SIXTEENTH, 2.0 * SIXTEENTH, 4.0 * SIXTEENTH]);
    let made = packers::make_up(&[7.0 * SIXTEENTH, 12.9], &shims, 1.0, Units::FeetInches).unwrap();
    let in_sixteenths = |gap: usize| -> Vec<f64> {
        let packers = made.stacks[gap].packers.iter();
        packers.map(|t| (t.0 / SIXTEENTH * 1e6).round() / 1e6).collect()
    };
    assert_eq!(in_sixteenths(0), [4.0, 2.0, 1.0]);
    assert_eq!(in_sixteenths(1), [4.0, 4.0]);
    assert!(made.stacks.iter().all(|s| s.remainder.0 == 0.0) && made.proven);
    let metric = packers::make_up(&[3.0], &plenty(&[3.0]), 1.0, Units::FeetInches).unwrap_err();
    assert_eq!(
        metric.to_string(),
        "packer of 3.000 mm: packers are counted in sixteenths of an inch, from 1/16in to 4in, in a job in feet and inches"
    );
}
