//! The library as one who has no job file uses it: plain structs in, plain answers out, and nonsense refused.

use pegline::cuts::{self, cuts};
use pegline::cutting::Wanted;
use pegline::exact::{Pence, Tenths};
use pegline::heights::{End, Joists as Supports, Layer, Taped, WallHead, heights};
use pegline::joists::{self, RoofOpening, Rows, Support};
use pegline::length::Units;
use pegline::lines::{
    Item, ItemKind, LinesQuestion, MOST_BLOCK_READINGS, MarksQuestion, Reading, StraightQuestion, StringLine,
    StringSide, Wall, lines, straight, usual_setback,
};
use pegline::packers::Packer;
use pegline::packing::{Datum, Limit, Packing, Readings, SetUp, packs};
use pegline::plan::{Footprint, Spot, parse_expression};
use pegline::plates::{self, AnchorRule, DpcRule, Stretch, Studs, plates};
use pegline::readings::{self, Input, TapeUse};
use pegline::rules::SOLID_PACKING;
use pegline::square::{CornersQuestion, corners, diagonals};
use pegline::stock::{ForSale, Timber, effort};
use pegline::tape::Tape;
use proptest::prelude::*;

fn outline(text: &str) -> Footprint {
    parse_expression(text, Units::Mm).unwrap().0
}

fn timber() -> Timber {
    let for_sale = [(3600, 1080), (4800, 1560)].map(|(length, price)| ForSale {
        length: Tenths::from_mm(length),
        price: Some(Pence(price)),
        count: None,
    });
    Timber { for_sale: for_sale.to_vec(), ..Timber::default() }
}

fn question(footprint: &Footprint) -> LinesQuestion<'_> {
    static WALL: Wall = Wall { layers: vec![], outline: None, footing: None, projection: None };
    LinesQuestion {
        footprint,
        setback: usual_setback(Units::Mm),
        wall: &WALL,
        string: StringLine::default(),
        offset: None,
        marks: None,
        units: Units::Mm,
    }
}

#[test]
fn a_plan_is_squared_plated_and_lined_out_without_a_job() {
    let plan = outline("7800x6000-3000x2400");
    let checks = diagonals(&plan, &pegline::square::Options::default()).unwrap();
    assert_eq!(checks.proof.names, ["AD", "BE", "DF"]);
    let cut = plates(&plan, &plates::Options::new(140.0, timber())).unwrap();
    assert!(cut.proven, "an L from two lengths");
    let set_out = lines(&question(&plan)).unwrap();
    assert_eq!(set_out.lines.len(), 6, "a line a side");
}

/// What no sum can take.
const NONSENSE: [f64; 5] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -140.0, 1e300];

#[test]
fn a_width_a_time_a_tape_or_a_block_that_can_be_none_is_refused_beside_the_sums() {
    let plan = outline("4000x3000");
    let options = || plates::Options::new(140.0, timber());
    for bad in NONSENSE.into_iter().chain([0.0]) {
        assert!(plates(&plan, &plates::Options::new(bad, timber())).is_err(), "width {bad}");
        let step = plates::Options { step: bad, ..options() };
        assert!(plates(&plan, &step).is_err(), "step {bad}");
        let anchors = Some(AnchorRule { set: None, spacing: bad, end: 300.0, edge: 0.0, apart: 50.0 });
        assert!(plates(&plan, &plates::Options { anchors, ..options() }).is_err(), "anchors {bad}");
        let studs = Some(Studs { centres: bad, clear: 50.0 });
        assert!(plates(&plan, &plates::Options { studs, ..options() }).is_err(), "studs {bad}");
        let dpc = DpcRule { lap: 100.0, roll: Some(bad) };
        assert!(plates(&plan, &plates::Options { dpc, ..options() }).is_err(), "roll {bad}");
        assert!(lines(&LinesQuestion { setback: bad, ..question(&plan) }).is_err(), "setback {bad}");
        let marks = MarksQuestion { studs: Some(bad.min(1e-9)), ..MarksQuestion::default() };
        let marked = LinesQuestion { marks: Some(&marks), ..question(&plan) };
        assert!(lines(&marked).is_err(), "studs at {bad}");
        let string = StringLine { pull: bad, ..StringLine::default() };
        assert!(lines(&LinesQuestion { string, ..question(&plan) }).is_err(), "pull {bad}");
    }
    for bad in NONSENSE {
        assert!(effort(bad).is_err(), "seconds {bad}");
        assert!(plates(&plan, &plates::Options { seconds: bad, ..options() }).is_err(), "seconds {bad}");
        let pieces = vec![Wanted { length: Tenths::from_mm(900), count: 3 }];
        assert!(cuts(&cuts::Question { pieces, timber: timber(), seconds: bad }).is_err(), "seconds {bad}");
        for tape in [
            Tape { reading: bad, ..Tape::default() },
            Tape { ends: bad, ..Tape::default() },
            Tape { length: Some(bad), ..Tape::default() },
        ] {
            let options = pegline::square::Options { tape, ..Default::default() };
            assert!(diagonals(&plan, &options).is_err(), "{tape:?}");
            let asked = CornersQuestion {
                footprint: Some(&plan),
                tape,
                units: Units::Mm,
                tapes: Some([3000.0, 4000.0, 5000.0]),
                corner: Some(0),
                limit: None,
            };
            assert!(corners(&asked).is_err(), "{tape:?}");
        }
    }
}

#[test]
fn a_side_that_the_outline_has_not_is_refused_and_never_a_panic() {
    let plan = outline("4000x3000");
    let openings = vec![Stretch { side: 99, from: 100.0, to: 900.0 }];
    assert!(plates(&plan, &plates::Options { openings, ..plates::Options::new(140.0, timber()) }).is_err());
    let item = Item {
        kind: ItemKind::Opening,
        side: 99,
        from: 0.0,
        to: 900.0,
        name: "door".to_owned(),
        window: false,
    };
    for marks in [
        MarksQuestion { sides: vec![(99, false)], ..MarksQuestion::default() },
        MarksQuestion { items: vec![item], ..MarksQuestion::default() },
    ] {
        assert!(lines(&LinesQuestion { marks: Some(&marks), ..question(&plan) }).is_err());
    }
    assert_eq!([plan.side_name(99), plan.line_name(0, 99)], ["??", "??"]);
}

fn blocks(readings: Vec<Reading>, block: f64) -> StraightQuestion {
    StraightQuestion {
        side: None,
        block,
        string: StringSide::Outside,
        readings,
        limit: Some(3.0),
        inward: None,
    }
}

#[test]
fn two_hundred_block_readings_are_taken_and_one_more_is_refused() {
    let readings = |count: usize| (0..count).map(|i| Reading { at: i as f64, reading: 20.0 }).collect();
    assert!(straight(&blocks(readings(MOST_BLOCK_READINGS), 20.0)).unwrap().is_some());
    let refused = straight(&blocks(readings(MOST_BLOCK_READINGS + 1), 20.0)).unwrap_err().to_string();
    assert!(refused.contains("201") && refused.contains("200"), "{refused}");
}

/// A stud's middle on a jamb stands in no opening: one from 900 to 2100 under studs every 300 hides three, not five.
#[test]
fn a_stud_exactly_on_a_jamb_is_a_stud() {
    let plan = outline("6000x3000");
    let item = Item {
        kind: ItemKind::Opening,
        side: 0,
        from: 900.0,
        to: 2100.0,
        name: "door".to_owned(),
        window: false,
    };
    let marks = MarksQuestion { sides: vec![(0, false)], items: vec![item], studs: Some(300.0) };
    let answer = lines(&LinesQuestion { marks: Some(&marks), ..question(&plan) }).unwrap();
    let told = serde_json::to_value(&answer.marks).unwrap();
    let marks = told[0]["marks"].as_array().unwrap();
    let at = |mm: f64| marks.iter().find(|mark| mark["at"] == mm).map(|mark| mark["things"].to_string());
    assert_eq!(told[0]["studs_in_openings"], 3, "{told}");
    assert!(at(900.0).is_some_and(|things| things.contains("stud")), "{told}");
}

/// Any number at all: one that may be meant, or one that can't be.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => 0.0..10_000.0_f64,
        1 => proptest::num::f64::ANY,
        1 => proptest::sample::select(vec![0.0, -1.0, f64::NAN, f64::INFINITY, 1e-300, 1e9]),
    ]
}

/// A number like this one, as a rule; now and then any at all.
fn like(usual: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        9 => Just(usual),
        9 => (0.5 * usual..1.5 * usual).prop_map(|mm: f64| (10.0 * mm).round() / 10.0),
        1 => number(),
    ]
}

fn perhaps(usual: f64) -> impl Strategy<Value = Option<f64>> {
    proptest::option::of(like(usual))
}

/// Whether no figure of an answer is infinite or none.
fn in_numbers(answer: &impl std::fmt::Debug) -> bool {
    let words = format!("{answer:?}");
    !words.contains("NaN") && !["(inf", " inf", "-inf"].iter().any(|infinite| words.contains(infinite))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn plates_of_any_numbers_are_refused_or_make_sense(
        (width, step, seconds) in (number(), number(), 0.0..0.01_f64),
        (side, from, to) in (0..9_usize, number(), number()),
        (least, lap, panels) in (number(), number(), proptest::option::of(number())),
    ) {
        let plan = outline("4000x3000");
        let mut options = plates::Options::new(width, timber());
        options.step = step;
        options.seconds = seconds;
        options.openings = vec![Stretch { side, from, to }];
        options.splices.least_piece = least;
        options.splices.lap = lap;
        options.splices.panels = panels;
        if let Ok(answer) = plates(&plan, &options) {
            prop_assert!(width > 0.0 && width < 4000.0, "a plate {width} mm wide");
            prop_assert!(answer.runs.iter().all(|run| run.length.0 > 0.0 && run.length.0.is_finite()));
        }
    }

    #[test]
    fn blocks_of_any_numbers_are_refused_or_answered_in_numbers(
        block in number(),
        readings in proptest::collection::vec((number(), number()), 0..6),
    ) {
        let readings = readings.into_iter().map(|(at, reading)| Reading { at, reading }).collect();
        if let Ok(Some(answer)) = straight(&blocks(readings, block)) {
            prop_assert!(answer.worst.0.is_finite() && answer.end_to_end.worst.0.is_finite(), "{answer:?}");
        }
    }

    #[test]
    fn corners_and_diagonals_of_any_tape_are_refused_or_answered_in_numbers(
        (reading, ends, length) in (number(), number(), proptest::option::of(number())),
        tapes in [number(), number(), number()],
    ) {
        let plan = outline("4000x3000");
        let tape = Tape { reading, ends, length, ..Tape::default() };
        let options = pegline::square::Options { tape, ..Default::default() };
        if let Ok(answer) = diagonals(&plan, &options) {
            prop_assert!(answer.proof.worst_corner_sd.is_none_or(|sd| sd.0.is_finite()));
        }
        let asked = CornersQuestion {
            footprint: Some(&plan), tape, units: Units::Mm, tapes: Some(tapes), corner: Some(99), limit: None,
        };
        if let Ok(answer) = corners(&asked) {
            let found = answer.found.unwrap().angle;
            prop_assert!(found.out_of_square.0.is_finite() && found.sd.0.is_finite(), "{found:?}");
        }
    }

    #[test]
    fn lines_of_any_numbers_are_refused_or_answered_in_numbers(
        (setback, weight, pull) in (number(), number(), number()),
        offset in proptest::option::of(number()),
    ) {
        let plan = outline("4000x3000");
        let string = StringLine { grams_per_metre: weight, pull, ..StringLine::default() };
        if let Ok(answer) = lines(&LinesQuestion { setback, string, offset, ..question(&plan) }) {
            prop_assert!(answer.lines.iter().all(|line| line.sag.0.is_finite() && line.string_length.0.is_finite()));
        }
    }

    #[test]
    fn levels_of_any_numbers_are_refused_or_answered_in_numbers(
        read in proptest::collection::vec((0..12_usize, like(20.0)), 0..7),
        (staff, studs, solid) in (any::<bool>(), perhaps(600.0), perhaps(10.0)),
        (packer, count, tolerance, limit) in (like(5.0), proptest::option::of(0..40_u32), like(1.0), like(5.0)),
    ) {
        let plan = outline("4000x3000");
        let spot = |at: usize| Spot::parse(["A", "B", "C", "D", "AB@900", "CD@1200"][at % 6], &plan, Units::Mm).unwrap();
        let input = Packing {
            set_ups: vec![SetUp {
                kind: if staff { Readings::Staff } else { Readings::Heights },
                readings: read.into_iter().map(|(at, figure)| (spot(at), figure)).collect(),
            }],
            datum: Datum::Highest,
            packers: vec![Packer { thickness: packer, count }],
            studs,
            limit: Some(Limit::Own(limit)),
            tolerance,
            solid,
            filling: SOLID_PACKING,
            units: Units::Mm,
        };
        if let Ok(answer) = packs(&plan, &input) {
            prop_assert!(in_numbers(&answer), "{answer:?}");
        }
    }

    #[test]
    fn heights_of_any_numbers_are_refused_or_answered_in_numbers(
        drops in proptest::collection::vec((like(2398.0), perhaps(6.0)), 0..5),
        (level_depth, ceiling, spread_limit) in (perhaps(50.0), perhaps(2300.0), perhaps(2000.0)),
        layers in proptest::collection::vec((0..7_usize, like(38.0)), 0..7),
        joists in proptest::option::of((like(2400.0), perhaps(2350.0), like(3600.0), perhaps(40.0))),
    ) {
        let names = ["packing", "plate", "rail", "binder", "floor", "lining", "slab"];
        let input = WallHead {
            drops: drops.into_iter().map(|(drop, pack)| Taped { drop, place: None, pack }).collect(),
            level_depth,
            layers: layers.into_iter().map(|(at, thick)| Layer::new(names[at], thick).unwrap()).collect(),
            ceiling,
            spread_limit,
            joists: joists.map(|(house, wall, run, one_in)| Supports { house, wall, run, one_in, down_to: End::Wall }),
        };
        if let Ok(answer) = heights(&input) {
            prop_assert!(in_numbers(&answer), "{answer:?}");
        }
    }

    #[test]
    fn joists_of_any_numbers_are_refused_or_answered_in_numbers(
        (centres, thickness, wall, clear) in (like(400.0), like(47.0), like(140.0), like(50.0)),
        (bearing, gap, bearer, within) in (like(90.0), like(3.0), like(50.0), like(1.0)),
        (seat, bolts, fall) in (perhaps(60.0), perhaps(600.0), perhaps(40.0)),
        (along, out, width, length) in (like(1200.0), like(900.0), like(600.0), like(900.0)),
        (doubled, packer) in (like(1200.0), like(2.0)),
    ) {
        let plan = outline("4000x3000");
        let corner = |name: &str| Spot::parse(name, &plan, Units::Mm).unwrap();
        let question = joists::Question {
            from: vec![0],
            to: vec![2],
            hung: vec![0],
            wall,
            bearing,
            gap,
            bearer,
            seat,
            bolts,
            openings: vec![RoofOpening { name: "rooflight".to_owned(), along, out, width, length }],
            doubled: vec![doubled],
            rows: Rows::Count(2),
            heights_from: vec![(corner("A"), 0.0), (corner("B"), -gap)],
            heights_to: vec![(corner("C"), clear)],
            fall: fall.map(|n| (n, Support::To)),
            packers: vec![Packer { thickness: packer, count: None }],
            within,
            ..joists::Question::new(centres, thickness, clear)
        };
        if let Ok(answer) = joists::joists(&plan, &question, Units::Mm) {
            prop_assert!(in_numbers(&answer), "{answer:?}");
        }
    }

    #[test]
    fn taped_readings_of_any_numbers_are_refused_or_answered_in_numbers(
        read in proptest::collection::vec((0..5_usize, 0..5_usize, like(4000.0), 0..40_usize, like(3.0)), 0..4),
        (held_on, limit, size_limit) in (like(10.0), perhaps(10.0), perhaps(20.0)),
        near in any::<bool>(),
    ) {
        let plan = outline("4000x3000");
        // Near what they should be, most of them, so that there is something to judge.
        let long = [4000.0, 3000.0, 4000.0, 3000.0];
        let mut taken: Vec<_> = read
            .into_iter()
            .map(|(from, to, value, tape, rise)| readings::Reading { tape: tape / 39, rise, ..readings::Reading::new(from, to, value) })
            .collect();
        if near {
            taken.extend((0..4).map(|side| readings::Reading::new(side, (side + 1) % 4, long[side])));
            taken.extend([(0, 2), (1, 3)].map(|(a, b)| readings::Reading::new(a, b, 5003.0)));
        }
        let tapes = [TapeUse { held_on, ..TapeUse::default() }];
        let input = Input { limit: limit.map(readings::Limit::Own), size_limit, ..Input::new(&plan, &taken, &tapes) };
        if let Ok(answer) = readings::readings(&input) {
            prop_assert!(in_numbers(&answer), "{answer:?}");
        }
    }
}
