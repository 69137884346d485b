//! Where splices may lie, by trying every tenth of a millimetre that matters against the rules as they are put in words.

use pegline::exact::Tenths;
use pegline::plan::Footprint;
use pegline::plates::{Handing, Layer, Options, Partition, SpliceRules, Stretch, runs, splice_zones};
use pegline::stock::Timber;
use proptest::prelude::*;

use super::shapes::{WIDTH, outlines};

const W: f64 = WIDTH as f64;

/// A place along a side in tenths from its first corner.
fn tenths(mm: f64) -> i64 {
    Tenths::nearest(mm).0
}

/// Options without openings and partition, then those: a side, how far along it and how wide, in parts; a side and how far.
pub(super) type Given = (Options, Vec<(usize, f64, f64)>, Option<(usize, f64)>);

/// Options with everything that closes a part of a run.
pub(super) fn options() -> impl Strategy<Value = Given> {
    let rules =
        (300..900_i32, 0..900_i32, 0..200_i32, prop::option::of(500..1500_i32), any::<bool>(), 0..120_i32);
    let openings = prop::collection::vec((0..24_usize, 0.0..1.0_f64, 0.2..1.0_f64), 0..4);
    let partition = prop::option::of((0..24_usize, 0.0..1.0_f64));
    (rules, any::<bool>(), openings, partition).prop_map(|(rules, cut, openings, partition)| {
        let (least, corner, post, panels, last, panel) = rules;
        let options = Options {
            cut_openings: cut,
            splices: SpliceRules {
                least_piece: f64::from(least),
                corner_distance: Some(f64::from(corner)),
                post_clear: f64::from(post),
                panels: panels.map(f64::from),
                panels_from_last: last,
                panel_clear: f64::from(panel),
                lap: 600.0,
            },
            ..Options::new(W, Timber::default())
        };
        (options, openings, partition)
    })
}

/// Puts the openings and the partition on the plan: one opening a side at most, well on the plate.
pub(super) fn place(
    options: &mut Options,
    footprint: &Footprint,
    handing: &Handing,
    openings: &[(usize, f64, f64)],
    partition: Option<(usize, f64)>,
) {
    let runs = runs(footprint, W, handing).unwrap();
    for &(side, at, wide) in openings {
        let run = &runs[side % runs.len()];
        if options.openings.iter().any(|other| other.side == run.side) {
            continue;
        }
        let length = footprint.sides()[run.side].length;
        let from = ((-run.past_start).max(0.0) + at * (length / 2.0)).round();
        let width = (wide * 900.0).round().min(length - W - from);
        if width > 100.0 {
            options.openings.push(Stretch { side: run.side, from, to: from + width });
        }
    }
    if let Some((side, at)) = partition {
        let run = &runs[side % runs.len()];
        let length = footprint.sides()[run.side].length;
        let from = (at * (length - 100.0)).round();
        options.partitions.push(Partition { name: "P".to_owned(), length: 2400.0 });
        options.met.push(Stretch { side: run.side, from, to: from + 90.0 });
        options.joints.push((run.side, (from / 3.0).round()));
    }
}

/// Whether the rules in words let a splice lie at `at` tenths from the side's first corner on a run that reaches from
/// `run.0` to `run.1` and has openings at its ends or not, where the plate reaches from `plate.0` to `plate.1`.
fn lets(
    options: &Options,
    (side, layer): (usize, Layer),
    run: (i64, i64, bool, bool),
    plate: (i64, i64),
    at: i64,
) -> bool {
    let rules = options.splices;
    let corner = tenths(rules.corner_distance.unwrap());
    let least = tenths(rules.least_piece);
    let margin = |opening: bool| if opening { least } else { corner };
    if at - run.0 < margin(run.2) || run.1 - at < margin(run.3) {
        return false;
    }
    let clear = |from: i64, to: i64, by: i64| at <= from - by || at >= to + by;
    let post = tenths(rules.post_clear);
    // Where the plate is laid through a door and cut out later, what is left beside the door is a piece as well.
    let beside = if layer == Layer::Plate && !options.cut_openings { post.max(least) } else { post };
    let keeps = |stretches: &[Stretch], by: i64| {
        let mut here = stretches.iter().filter(|stretch| stretch.side == side);
        here.all(|stretch| clear(tenths(stretch.from), tenths(stretch.to), by))
    };
    let of_stretches = keeps(&options.openings, beside) && keeps(&options.met, post);
    let of_joints = options
        .joints
        .iter()
        .filter(|(on, _)| *on == side)
        .all(|(_, joint)| clear(tenths(*joint), tenths(*joint), tenths(rules.panel_clear)));
    let of_panels = rules.panels.is_none_or(|every| {
        let (every, by) = (tenths(every), tenths(rules.panel_clear));
        (1..=(plate.1 - plate.0) / every)
            .map(
                |count| {
                    if rules.panels_from_last { plate.1 - count * every } else { plate.0 + count * every }
                },
            )
            .filter(|joint| *joint > plate.0 && *joint < plate.1)
            .all(|joint| clear(joint, joint, by))
    });
    of_stretches && of_joints && of_panels
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn a_splice_may_lie_exactly_where_the_rules_in_words_let_it(
        footprint in outlines(),
        bits in prop::collection::vec(any::<bool>(), 24),
        given in options(),
        binder in any::<bool>(),
    ) {
        let handing = Handing::new(bits[..footprint.len()].to_vec());
        let (mut options, openings, partition) = given;
        place(&mut options, &footprint, &handing, &openings, partition);
        let plate = runs(&footprint, W, &handing).unwrap();
        let (layer, laid) = if binder {
            (Layer::Binder, runs(&footprint, W, &handing.opposite()).unwrap())
        } else {
            (Layer::Plate, plate.clone())
        };
        let mut told = splice_zones(&footprint, &options, &handing, layer).unwrap().into_iter();
        for (run, under) in laid.iter().zip(&plate) {
            let length = footprint.sides()[run.side].length;
            let ends = |run: &pegline::plates::SideRun| (tenths(-run.past_start), tenths(length + run.past_end));
            let (first, last) = ends(run);
            let mut parts = vec![(first, last, false, false)];
            if let Some(opening) = options.openings.iter().find(|opening| opening.side == run.side)
                && options.cut_openings
                && layer == Layer::Plate
            {
                let (from, to) = (tenths(opening.from), tenths(opening.to));
                parts = vec![(first, from, false, true), (to, last, true, false)];
                parts.retain(|part| part.0 < part.1);
            }
            for part in parts {
                let (name, zones) = told.next().unwrap();
                prop_assert_eq!(&name, &footprint.side_name(run.side));
                // Everything in these plans is at whole or half millimetres, so every half says enough.
                for at in (part.0..=part.1).step_by(5) {
                    let place = Tenths(at - part.0);
                    let open = zones.iter().any(|(from, to)| *from <= place && place <= *to);
                    prop_assert_eq!(open, lets(&options, (run.side, layer), part, ends(under), at), "{} at {}", name, place);
                }
            }
        }
    }
}
