//! Whole answers, checked against the rules as a joiner would check them with a tape on the finished plates.

use pegline::cutting::Favour;
use pegline::exact::{Pence, Tenths};
use pegline::plan::Footprint;
use pegline::plates::{Corners, Handing, Layer, Options, Plates, PlatesError, Run, dpc, fixings, plates};
use pegline::plates::{DpcRule, splice_zones};
use pegline::stock::{Cost, ForSale, InVan, Timber};
use proptest::prelude::*;

use super::shapes::{WIDTH, outlines};
use super::zones::{options, place};

const W: f64 = WIDTH as f64;

/// Three lengths, of the second so many as the merchant has; the van; what the saw and the ends take.
fn timber(prices: [i64; 3], van: usize, merchant: Option<usize>, (kerf, trim): (i64, i64)) -> Timber {
    Timber {
        for_sale: [3000, 4200, 6000]
            .into_iter()
            .zip(prices)
            .map(|(length, price)| ForSale {
                length: Tenths::from_mm(length),
                price: Some(Pence(price)),
                count: merchant.filter(|_| length == 4200),
            })
            .collect(),
        in_van: vec![InVan { length: Tenths::from_mm(3600), count: van }],
        kerf: Tenths(kerf),
        trim: Tenths(trim),
    }
}

/// Panics with the reason if the answer could not be cut and laid.
fn check(options: &Options, answer: &Plates) {
    let least = Tenths::nearest(options.splices.least_piece);
    let mut splices = 0;
    let mut on_bars: Vec<Vec<(String, Tenths)>> = vec![vec![]; answer.bars.len()];
    for run in &answer.runs {
        assert_eq!(run.pieces[0].from, Tenths(0));
        assert!((run.pieces.last().unwrap().to.to_mm().0 - run.length.0).abs() <= 0.05);
        splices += run.pieces.len() - 1;
        for pair in run.pieces.windows(2) {
            assert_eq!(pair[0].to, pair[1].from, "{} has a hole", run.side);
        }
        for piece in &run.pieces {
            assert_eq!(piece.length.0, piece.to.0 - piece.from.0);
            assert!(run.pieces.len() == 1 || piece.length >= least, "{} is too short", piece.name);
            on_bars[piece.bar].push((piece.name.clone(), piece.length));
        }
    }
    assert_eq!(answer.splices, splices);
    let kerf = options.timber.kerf.0;
    for (bar, mut pieces) in answer.bars.iter().zip(on_bars) {
        let mut listed: Vec<(String, Tenths)> =
            bar.pieces.iter().map(|piece| (piece.name.clone(), piece.length)).collect();
        listed.sort();
        pieces.sort();
        assert_eq!(listed, pieces, "bar {}", bar.number);
        let cut: i64 = pieces.iter().map(|(_, length)| length.0).sum();
        let kerfs = kerf * i64::try_from(pieces.len() - 1).unwrap();
        let over = bar.stock.0 - options.timber.trim.0 - cut - kerfs;
        assert!(over >= 0, "bar {} is overfull", bar.number);
        assert_eq!(bar.offcut.0, (over - kerf).max(0), "one more cut parts what is over, bar {}", bar.number);
    }
    let mut names: Vec<&str> =
        answer.runs.iter().flat_map(|run| &run.pieces).map(|piece| piece.name.as_str()).collect();
    names.sort_unstable();
    let all = names.len();
    names.dedup();
    assert_eq!(names.len(), all, "two pieces are called alike");
    let van: usize = answer.from_van.iter().map(|line| line.count).sum();
    for sold in &options.timber.for_sale {
        let taken = answer.buy.iter().find(|line| line.length == sold.length).map_or(0, |line| line.count);
        assert!(sold.count.is_none_or(|most| taken <= most), "{taken} of {:?}", sold.length);
    }
    assert!(van <= options.timber.in_van.iter().map(|item| item.count).sum());
    let amount: i64 = answer.buy.iter().map(|line| line.amount.unwrap().0).sum();
    assert_eq!(answer.cost, Cost::Money(Pence(amount)));
    assert_eq!(answer.proven, answer.gap.is_none());
    assert!(!answer.proven || answer.bound == answer.cost);
    laps(options, answer);
}

/// Every splice of the binder keeps the lap from every splice of the plate under it.
fn laps(options: &Options, answer: &Plates) {
    let splices = |run: &Run| -> Vec<f64> {
        run.pieces.iter().skip(1).map(|piece| piece.from.to_mm().0 + run.from_corner.0).collect()
    };
    for binder in answer.runs.iter().filter(|run| run.layer == Layer::Binder) {
        for under in answer.runs.iter().filter(|run| run.layer == Layer::Plate && run.side == binder.side) {
            for at in splices(binder) {
                for below in splices(under) {
                    assert!(
                        (at - below).abs() >= options.splices.lap - 1e-6,
                        "{}: {at} over {below}",
                        binder.side
                    );
                }
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn every_answer_can_be_cut_and_laid_by_the_rules(
        footprint in outlines(),
        given in options(),
        corners in 0..3_usize,
        binder in any::<bool>(),
        favour in 0..3_usize,
        prices in (650..750_i64, 950..1050_i64, 1400..1700_i64),
        van in 0..3_usize,
        merchant in prop::option::of(1..4_usize),
        saw in (0..6_i64, 0..30_i64),
    ) {
        let (mut options, openings, partition) = given;
        let corners = [Corners::Alternate, Corners::Follow, Corners::Best][corners];
        let handing =
            if corners == Corners::Follow { Handing::follow(&footprint) } else { Handing::alternate(&footprint) };
        place(&mut options, &footprint, &handing, &openings, partition);
        options.corners = corners;
        options.binder = binder && footprint.len() <= 6;
        options.favour = [Favour::Splices, Favour::Cost, Favour::ASplice(Pence(300))][favour];
        options.timber = timber([prices.0, prices.1, prices.2], van, merchant, (saw.0 * 10, saw.1 * 10));
        options.seconds = 0.05;
        match plates(&footprint, &options) {
            Ok(answer) => {
                check(&options, &answer);
                if corners != Corners::Best {
                    within_zones(&footprint, &options, &handing, &answer);
                }
            }
            // Random rules may leave a run longer than any bar with nowhere to be spliced; that is said.
            Err(PlatesError::Cutting(_) | PlatesError::NoLap { .. }) => {}
            Err(error) => prop_assert!(false, "{error}"),
        }
    }
}

/// Each splice lies in an open place of its run; what is open is checked by itself elsewhere.
fn within_zones(footprint: &Footprint, options: &Options, handing: &Handing, answer: &Plates) {
    for layer in [Layer::Plate, Layer::Binder] {
        let runs: Vec<&Run> = answer.runs.iter().filter(|run| run.layer == layer).collect();
        if runs.is_empty() {
            continue;
        }
        let zones = splice_zones(footprint, options, handing, layer).unwrap();
        assert_eq!(zones.len(), runs.len());
        for (run, (_, zones)) in runs.iter().zip(zones) {
            for piece in run.pieces.iter().skip(1) {
                assert!(
                    zones.iter().any(|(from, to)| *from <= piece.from && piece.from <= *to),
                    "{}",
                    piece.name
                );
            }
        }
    }
}

/// Hand arithmetic: 12 m of plate and two laps of 100 mm are 12.2 m of strip. Rolls of 5 m joined with laps of 100 mm give
/// 5.0, 9.9 and 14.8 m: three. Of 4.1 m: 4.1, 8.1 and 12.1 m are not enough, so four; of 4.2 m: 4.2, 8.3, 12.4, three.
#[test]
fn strip_and_rolls_come_out_as_by_hand() {
    let rolls = |roll: f64| {
        let strip = dpc(140.0, 12_000.0, 2, DpcRule { lap: 100.0, roll: Some(roll) });
        assert!((strip.strip.0 - 12_200.0).abs() < 1e-9);
        strip.rolls.unwrap()
    };
    assert_eq!([5000.0, 4100.0, 4200.0, 12_200.0, 20_000.0].map(rolls), [3, 4, 3, 1, 1]);
}

/// Hand arithmetic: at most 600 mm apart, 1200 mm takes 3, 1201 mm 4, 500 mm 2.
#[test]
fn fixings_come_out_as_by_hand() {
    assert_eq!(fixings(&[1200.0, 1201.0, 500.0], 600.0).count, 9);
    assert_eq!(fixings(&[600.0], 600.0).count, 2);
}

/// The best handing is never worse than the two fixed ones, by the measure that was asked for.
#[test]
fn the_best_handing_is_at_least_as_good_as_either_fixed_one() {
    for plan in ["7800x6000-3000x2400", "9600x7150-3600x3000", "10800x3550+4800x4105"] {
        let (footprint, _) = pegline::plan::parse_expression(plan, pegline::length::Units::Mm).unwrap();
        for favour in [Favour::Splices, Favour::Cost] {
            let with = |corners| {
                let answer = plates(
                    &footprint,
                    &Options {
                        corners,
                        favour,
                        ..Options::new(W, timber([700, 1000, 1600], 0, None, (30, 0)))
                    },
                )
                .unwrap();
                let Cost::Money(Pence(cost)) = answer.cost else { panic!("priced") };
                let splices = i64::try_from(answer.splices).unwrap();
                assert!(answer.proven);
                if favour == Favour::Cost { (cost, splices) } else { (splices, cost) }
            };
            let best = with(Corners::Best);
            assert!(best <= with(Corners::Alternate) && best <= with(Corners::Follow), "{plan}");
        }
    }
}
