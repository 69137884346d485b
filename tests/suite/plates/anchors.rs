//! Anchors: the published rules value by value, and placing them by trying every place.

use pegline::plates::anchors::place;
use pegline::plates::{AnchorRule, Trouble};
use pegline::rules::{ANCHOR_SETS, DPC_LAP, SPLICE_LAP, Seen, US_BOLT, US_EMBEDMENT, anchor_set};
use proptest::prelude::*;

const INCH: f64 = 25.4;

fn rule(key: &str) -> AnchorRule {
    let set = anchor_set(key).unwrap();
    AnchorRule { set: Some(set), spacing: set.spacing, end: set.end, edge: set.edge, apart: 50.0 }
}

/// Source: US International Residential Code R403.1.6, seen on secondary pages: 6 ft (1829 mm) apart, 12 in (305 mm) and
/// seven bolt diameters from an end, two a piece, 1/2 in bolt, 7 in (178 mm) embedment.
/// New Zealand: within 150 mm of each end, 900 mm centres.
#[test]
fn the_published_rules_have_their_published_values() {
    let us = anchor_set("US").unwrap();
    assert_eq!((us.spacing.round(), us.end.round(), us.least), (1829.0, 305.0, 2));
    assert!((us.spacing - 72.0 * INCH).abs() < 1e-9 && (us.end - 12.0 * INCH).abs() < 1e-9);
    assert!((us.edge - 3.5 * INCH).abs() < 1e-9 && (US_BOLT - 12.7).abs() < 1e-9);
    assert!((US_EMBEDMENT - 7.0 * INCH).abs() < 1e-9 && (US_EMBEDMENT - 178.0).abs() < 0.5);
    let nz = anchor_set("nz").unwrap();
    assert_eq!((nz.spacing, nz.end, nz.least), (900.0, 150.0, 2));
    assert!(ANCHOR_SETS.iter().all(|set| set.source.seen == Seen::Secondary));
    assert!(anchor_set("uk").is_err());
}

/// Source: IRC R602.3.2, 24 in (610 mm), seen on secondary pages; NHBC 5.1.19 and 6.3.13, 100 mm.
#[test]
fn the_published_laps_have_their_published_values() {
    assert!((SPLICE_LAP.value - 24.0 * INCH).abs() < 1e-9);
    assert!((SPLICE_LAP.value - 610.0).abs() < 0.5);
    assert!((DPC_LAP.value - 100.0).abs() < 1e-9);
}

/// By hand with the US rule in whole millimetres on the safe side: 304 from each end, at most 1828 apart. 2436 mm leaves
/// 1828 between: two. 2437 mm leaves 1829: three. 5860 mm leaves 5252: four, 1750.67 apart.
#[test]
fn anchors_of_whole_pieces_come_out_as_by_hand() {
    let at = |length: f64| place(length, &rule("us"), &[], 0.0, 1.0).at;
    assert_eq!(at(2436.0), [304, 2132]);
    assert_eq!(at(2437.0), [304, 1219, 2133]);
    assert_eq!(at(5860.0), [304, 2055, 3805, 5556]);
    // In sixteenths of an inch the rule's own figures are exact: 12 in and 72 in.
    let sixteenth = INCH / 16.0;
    assert_eq!(place(96.0 * INCH, &rule("us"), &[], 0.0, sixteenth).at, [192, 1344]);
    // A short piece: a quarter in from each end, but not nearer than seven diameters (89 mm).
    assert_eq!(at(600.0), [150, 450]);
    assert_eq!(at(240.0), [89, 151]);
    // Two anchors keep 50 mm: 228 leaves 50 between, 227 leaves 49.
    assert_eq!(at(228.0), [89, 139]);
    assert_eq!(place(227.0, &rule("us"), &[], 0.0, 1.0).trouble, Some(Trouble::TooShort));
}

/// By hand: 2400 mm with studs at 0, 600, … 2400 and 50 mm kept clear. Without studs 150 and 900 apart gives 150, 850,
/// 1550, 2250; 550…650 and 1150…1250 and 1750…1850 are closed, and none of those is in them.
#[test]
fn an_anchor_under_a_stud_moves_to_the_nearest_clear_place() {
    let studs: Vec<f64> = (0..5).map(|i| f64::from(i) * 600.0).collect();
    assert_eq!(place(2400.0, &rule("nz"), &studs, 50.0, 1.0).at, [150, 850, 1550, 2250]);
    // Shifted studs, one middle at 850: 801…899 is closed, so the second goes to 800 or 900; 800 keeps 750 to the third,
    // and 900 keeps 750 to the first: equally far, the lower is taken.
    assert_eq!(place(2400.0, &rule("nz"), &[850.0], 50.0, 1.0).at, [150, 800, 1550, 2250]);
}

/// The fewest places that keep the rule and are clear, by trying them all: for each place the fewest that lead to it,
/// itself the first or one further than those before it.
fn fewest(length: usize, rule: &AnchorRule, clear: &dyn Fn(usize) -> bool) -> Option<usize> {
    let at = |place: usize| place as f64;
    let from_ends = |place: usize| at(place) >= rule.edge && at(length - place) >= rule.edge;
    let mut reached: Vec<Option<usize>> = vec![];
    let mut found: Option<usize> = None;
    for place in 0..=length {
        if !clear(place) || !from_ends(place) {
            reached.push(None);
            continue;
        }
        let before = reached.iter().enumerate().filter_map(|(from, many)| Some((from, (*many)?)));
        let next = before
            .filter(|(from, _)| (rule.apart..=rule.spacing).contains(&at(place - from)))
            .map(|(_, many)| many + 1)
            .min();
        if let Some(many) = next.filter(|_| at(length - place) <= rule.end) {
            found = Some(found.map_or(many, |found| found.min(many)));
        }
        reached.push(if at(place) <= rule.end { Some(1) } else { next });
    }
    found
}

/// By hand: a plate of 19 ft 6-1/2 in with studs 16 in apart and 2 in clear of each. 8-1/2, 80-1/2, 152-1/2 and 224-1/2 in
/// are 72 in apart, the last 10 in from the end, and none within 2 in of a multiple of 16 in: four bolts do.
#[test]
fn no_bolt_is_placed_that_the_rule_doesn_t_need() {
    let studs: Vec<f64> = (0..16).map(|i| f64::from(i) * 16.0 * INCH).collect();
    let placed = place(234.5 * INCH, &rule("us"), &studs, 2.0 * INCH, INCH / 16.0);
    assert_eq!((placed.at.len(), placed.trouble), (4, None), "{:?}", placed.at);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn anchors_keep_the_rule_and_only_the_impossible_is_flagged(
        length in 20..1500_usize,
        spacing in 100..500_i32,
        end in 20..150_i32,
        edge in 0..100_i32,
        centres in prop::option::of(60..200_i32),
        clear in 5..60_i32,
        shift in 0..200_i32,
        apart in 0.0..1.0_f64,
    ) {
        let rule = AnchorRule {
            set: None,
            spacing: f64::from(spacing),
            end: f64::from(end),
            edge: f64::from(edge.min(end)),
            apart: (apart * f64::from(spacing) / 3.0).floor(),
        };
        let studs: Vec<f64> = centres.map_or_else(Vec::new, |centres| {
            (0..100).map(|i| f64::from(i * centres - shift)).filter(|at| *at < 1700.0).collect()
        });
        let clear = f64::from(clear);
        let is_clear = |place: usize| studs.iter().all(|stud| (place as f64 - stud).abs() >= clear);
        let placed = place(length as f64, &rule, &studs, clear, 1.0);
        match placed.trouble {
            Some(Trouble::TooShort) => prop_assert_eq!(fewest(length, &rule, &|_| true), None),
            Some(Trouble::UnderStud) => prop_assert_eq!(fewest(length, &rule, &is_clear), None),
            None => {
                let at: Vec<usize> = placed.at.iter().map(|at| usize::try_from(*at).unwrap()).collect();
                prop_assert!(at.len() >= 2);
                prop_assert!(studs.is_empty() || Some(at.len()) == fewest(length, &rule, &is_clear), "{at:?}");
                prop_assert!(at.iter().all(|at| is_clear(*at)), "{at:?}");
                let (first, last) = (at[0] as f64, (length - at[at.len() - 1]) as f64);
                for from_end in [first, last] {
                    prop_assert!(from_end >= rule.edge && from_end <= rule.end, "{at:?}");
                }
                for pair in at.windows(2) {
                    prop_assert!(pair[0] < pair[1] && (rule.apart..=rule.spacing).contains(&((pair[1] - pair[0]) as f64)), "{at:?}");
                }
            }
        }
    }
}
