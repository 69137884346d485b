//! Joists over random plans against an independent program.
//!
//! The program knows points alone: whether one lies in the room, the outline less the new walls. It finds by bisection how
//! far the room reaches from the house at every half millimetre's place that matters, and holds each joist to that.

use geo::{Contains, Coord, LineString, Polygon, Rect};
use pegline::joists::{Joists, Question};
use pegline::length::Units;
use pegline::packers::Packer;
use pegline::plan::{Footprint, Spot};
use proptest::prelude::*;

use super::{marks, plan, set_out};
use crate::packing::programme::least;

const WALL: f64 = 100.0;

/// An L or T with the house along its top, in steps of 50: the expression, and the sides along its bottom.
fn plans() -> impl Strategy<Value = (String, &'static str)> {
    let l = (40..160_i32, 40..120_i32, 12..25_i32, 12..25_i32, any::<bool>()).prop_map(
        |(w, d, cw, cd, right)| {
            let (place, to) = if right { ("br", "CD,EF") } else { ("bl", "CD,EF") };
            (format!("{}x{}-{}x{}@{place}", w * 50, d * 50, cw * 50, cd * 50), to)
        },
    );
    let t = (80..180_i32, 30..80_i32, 15..30_i32, 12..60_i32, 12..30_i32).prop_map(|(w, d, lw, ld, at)| {
        (format!("{}x{}+{}x{}@{}", w * 50, d * 50, lw * 50, ld * 50, at * 50), "CD,EF,GH")
    });
    prop_oneof![l, t]
}

fn outline(footprint: &Footprint) -> Polygon {
    let points = footprint.corners().iter().map(|corner| Coord { x: corner.at.x, y: corner.at.y });
    Polygon::new(LineString::new(points.collect()), vec![])
}

/// How far the room reaches from the house at `x`: a place is in it if the wall's thickness to the left, to the right and
/// below is still inside the outline.
fn reach(outline: &Polygon, x: f64) -> f64 {
    let inside = |y: f64| {
        [(-WALL, 0.0), (WALL, 0.0), (-WALL, WALL), (WALL, WALL)]
            .iter()
            .all(|(dx, dy)| outline.contains(&Coord { x: x + dx * 0.999_999, y: y + dy }))
    };
    let (mut low, mut high) = (0.5, 20_000.0);
    if !inside(low) {
        return 0.0;
    }
    while high - low > 1e-4 {
        let middle = f64::midpoint(low, high);
        if inside(middle) { low = middle } else { high = middle }
    }
    (high * 100.0).round() / 100.0
}

/// Stretches of the same reach: from, to, reach.
fn zones(outline: &Polygon, width: f64) -> Vec<(f64, f64, f64)> {
    let mut zones: Vec<(f64, f64, f64)> = vec![];
    let mut x = 0.0;
    while x < width {
        let deep = reach(outline, x + 25.0);
        match zones.last_mut() {
            Some(zone) if (zone.2 - deep).abs() < 0.5 => zone.1 = x + 50.0,
            _ => zones.push((x, x + 50.0, deep)),
        }
        x += 50.0;
    }
    zones.retain(|zone| zone.2 > 0.0);
    zones
}

fn asked(footprint: &Footprint, to: &str, centres: f64, thickness: f64, clear: f64) -> Question {
    Question {
        from: vec![0],
        to: pegline::plan::parse_sides(to, footprint).unwrap(),
        hung: vec![0],
        wall: WALL,
        bearing: 75.0,
        gap: 3.0,
        ..Question::new(centres, thickness, clear)
    }
}

fn held(answer: &Joists, footprint: &Footprint, question: &Question) -> Result<(), TestCaseError> {
    let outline = outline(footprint);
    let (width, _) = footprint.extent();
    let zones = zones(&outline, width);
    let Question { centres, thickness, clear, .. } = *question;
    let found = marks(answer);
    for joist in &answer.joists {
        let zone = zones.iter().find(|z| z.0 <= joist.near.0 && joist.near.0 + thickness <= z.1);
        prop_assert!(zone.is_some(), "joist {} at {} stands across two stretches", joist.name, joist.near.0);
        let deep = zone.unwrap().2;
        prop_assert!(
            (joist.length.0 - (deep + 75.0 - 3.0)).abs() < 0.02,
            "joist {}: {} and {deep}",
            joist.name,
            joist.length.0
        );
        let body = Rect::new(
            Coord { x: joist.near.0 + 0.001, y: joist.from.at.0 },
            Coord { x: joist.near.0 + thickness - 0.001, y: joist.to.at.0 - 0.001 },
        );
        prop_assert!(outline.contains(&body.to_polygon()), "joist {} leaves the plan", joist.name);
        prop_assert!((joist.from.x.0 - (joist.near.0 + thickness / 2.0)).abs() < 1e-9);
    }
    for pair in found.windows(2) {
        prop_assert!(pair[1] - pair[0] >= thickness - 1e-9, "{pair:?} overlap");
        prop_assert!(pair[1] - pair[0] <= centres + 1e-9, "{pair:?} are too far apart");
    }
    // A wall beside the joists ends a stretch where the next one reaches less, or there is none.
    let mut walls = vec![];
    for (i, zone) in zones.iter().enumerate() {
        let less = |other: Option<&(f64, f64, f64)>| other.is_none_or(|other| other.2 < zone.2);
        if less(i.checked_sub(1).and_then(|before| zones.get(before))) {
            walls.push((zone.0, true));
        }
        if less(zones.get(i + 1)) {
            walls.push((zone.1, false));
        }
    }
    let clears = |at: f64, begins: bool| {
        let away = |near: f64| if begins { near - at } else { at - near - thickness };
        found.iter().map(|near| away(*near)).filter(|away| *away >= -1e-9).fold(f64::INFINITY, f64::min)
    };
    for (at, begins) in &walls {
        let away = clears(*at, *begins);
        prop_assert!(
            (clear - 1e-9..=clear.max(75.0) + 1e-9).contains(&away),
            "{away} clear of the wall at {at}"
        );
    }
    // Every place at centres from the first that nothing is in the way of has its joist.
    let first = zones[0].0 + clear;
    prop_assert!((found[0] - first).abs() < 1e-9);
    let last = found[found.len() - 1];
    for near in (0..).map(|k| first + f64::from(k) * centres).take_while(|near| *near <= last) {
        let kept = |wall: (f64, bool)| if walls.contains(&wall) { clear } else { 0.0 };
        let whole = zones
            .iter()
            .any(|z| z.0 + kept((z.0, true)) <= near && near + thickness <= z.1 - kept((z.1, false)));
        let there = found.iter().any(|other| (other - near).abs() < 1e-9);
        let in_the_way = found.iter().any(|other| (other - near).abs() < thickness);
        prop_assert!(there || !whole || in_the_way, "nothing stands at {near}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn joists_stand_where_an_independent_program_has_room_for_them(
        (expression, to) in plans(),
        centres in 30..61_i32,
        thickness in prop::sample::select(vec![38.0, 47.0, 63.0]),
        clear in prop::sample::select(vec![25.0, 50.0, 75.0]),
    ) {
        let footprint = plan(&expression);
        let question = asked(&footprint, to, f64::from(centres) * 10.0, thickness, clear);
        let answer = set_out(&footprint, &question).unwrap();
        held(&answer, &footprint, &question)?;
    }

    /// Set out from B, joists are those of the plan mirrored and set out from A.
    #[test]
    fn from_the_other_end_the_marks_are_those_of_the_mirrored_plan(
        (w, d, cw, cd) in (40..160_i32, 40..120_i32, 12..25_i32, 12..25_i32),
        centres in 30..61_i32,
    ) {
        let l = |place: &str| plan(&format!("{}x{}-{}x{}@{place}", w * 50, d * 50, cw * 50, cd * 50));
        let (right, left) = (l("br"), l("bl"));
        let forward = set_out(&left, &asked(&left, "CD,EF", f64::from(centres) * 10.0, 47.0, 50.0)).unwrap();
        let backward = Question { backward: true, ..asked(&right, "CD,EF", f64::from(centres) * 10.0, 47.0, 50.0) };
        let backward = set_out(&right, &backward).unwrap();
        prop_assert_eq!(marks(&forward), marks(&backward));
        let lengths = |answer: &Joists| answer.joists.iter().map(|j| j.length.0).collect::<Vec<_>>();
        prop_assert_eq!(lengths(&forward), lengths(&backward));
    }

    /// A plan turned on its side has the same joists across it.
    #[test]
    fn joists_that_run_across_the_page_are_those_that_run_down_it(
        (w, d, cw, cd) in (40..160_i32, 40..120_i32, 12..25_i32, 12..25_i32),
        centres in 30..61_i32,
    ) {
        let down = plan(&format!("{}x{}-{}x{}", w * 50, d * 50, cw * 50, cd * 50));
        let (across, _) = pegline::plan::parse_expression(
            &format!("{}x{}-{}x{}", d * 50, w * 50, cd * 50, cw * 50), Units::Mm).unwrap();
        let across = across.with_house(&[5]);
        let one = set_out(&down, &asked(&down, "CD,EF", f64::from(centres) * 10.0, 47.0, 50.0)).unwrap();
        let other = Question {
            from: vec![5],
            hung: vec![5],
            backward: true,
            ..asked(&across, "BC,DE", f64::from(centres) * 10.0, 47.0, 50.0)
        };
        let other = set_out(&across, &other).unwrap();
        prop_assert_eq!(marks(&one), marks(&other));
        let ends = |answer: &Joists| answer.joists.iter().map(|j| (j.length.0, j.to.mark.unwrap().0)).collect::<Vec<_>>();
        prop_assert_eq!(ends(&one), ends(&other));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]

    /// The packs against an integer programme over the whole van; the gaps by a straight line from corner to corner.
    #[test]
    fn the_packs_are_as_good_as_an_integer_programme_finds(
        heights in prop::collection::vec(-6..7_i32, 4),
        van in prop::collection::vec(prop::option::of(0..8_u32), 4),
    ) {
        let footprint = plan("3000x4000-1400x1500");
        let [f, e, d, c]: [f64; 4] = std::array::from_fn(|i| f64::from(heights[i]));
        let at = |name: &str| Spot::parse(name, &footprint, Units::Mm).unwrap();
        let mut question = asked(&footprint, "CD,EF", 600.0, 47.0, 50.0);
        question.heights_to = vec![(at("F"), f), (at("E"), e), (at("D"), d), (at("C"), c)];
        let sizes: [(u32, Option<u32>); 4] = std::array::from_fn(|i| ([10, 20, 30, 50][i], van[i]));
        question.packers =
            sizes.iter().map(|(t, count)| Packer { thickness: f64::from(*t) / 10.0, count: *count }).collect();
        let answer = set_out(&footprint, &question).unwrap();
        let height = |near: f64| {
            let middle = near + 23.5;
            if middle < 1600.0 { f + (e - f) * middle / 1600.0 } else { d + (c - d) * (middle - 1600.0) / 1400.0 }
        };
        // Over the corner of DE a joist stands on CD, as high as D.
        let on = |near: f64| if (1500.0..1600.0).contains(&near) && near + 23.5 < 1600.0 { d } else { height(near) };
        let highest = marks(&answer).into_iter().map(on).fold(f64::NEG_INFINITY, f64::max);
        let gaps: Vec<f64> = marks(&answer).into_iter().map(|near| highest - on(near)).collect();
        let mut cost = [0_u32; 4];
        for (joist, gap) in answer.joists.iter().zip(&gaps) {
            let seat = joist.to.seat.as_ref().unwrap();
            prop_assert!((seat.up.0 - gap).abs() < 1e-9, "{}: {} and {gap}", joist.name, seat.up.0);
            let tenths = |mm: f64| format!("{:.0}", mm.abs() * 10.0).parse::<u32>().unwrap();
            let off = tenths(seat.remainder.0);
            cost[0] += u32::from(off > 10);
            cost[1] += off;
            cost[2] += if seat.remainder.0 < -0.01 { off } else { 0 };
            cost[3] += u32::try_from(seat.packers.len()).unwrap();
        }
        let levels = answer.levels.unwrap();
        if levels.proven {
            let whole: Vec<u32> = gaps.iter().map(|gap| format!("{:.0}", (gap * 10.0 + 1e-9).round()).parse().unwrap()).collect();
            if let Some(best) = least(&whole, &sizes, 4) {
                prop_assert_eq!(cost.to_vec(), best);
            }
        }
    }
}
