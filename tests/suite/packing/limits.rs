//! Level against a limit, and gaps against what solid packers may fill.

use pegline::packing::{Flag, Limit, PackVerdict, Readings};
use pegline::rules::{BED_JOINTS, LEVEL, find};

use super::{STAFF, pack, packing, set_up, station};

/// Source: NHBC Standards (official page), ±8 mm per 5 m pro rata, 12 over. Ours: C to D is 3 m of wall, so
/// 4.8 mm; they differ by 6. C and E differ by 10, but with 5.4 m of wall between them.
#[test]
fn a_published_limit_is_taken_over_the_distance_between_two_places() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    input.limit = Some(Limit::AlongWall(find(BED_JOINTS, "bed joints", "nhbc").unwrap()));
    let answer = pack(&input).unwrap();
    let check = answer.bed.check.as_ref().unwrap();
    assert_eq!(check.between, ["C".to_owned(), "D".to_owned()]);
    assert!((check.limit.0 - 4.8).abs() < 1e-9 && !check.within);
    assert_eq!(answer.verdict, PackVerdict::OverLimit);
    let json = serde_json::to_value(&answer).unwrap();
    assert_eq!(json["bed"]["check"]["against"]["published"]["key"], "nhbc");
    // LABC Warranty allows 10 mm per 5 m: 6 mm over those 3 m, which is just within.
    input.limit = Some(Limit::AlongWall(find(BED_JOINTS, "bed joints", "labc").unwrap()));
    assert_eq!(pack(&input).unwrap().verdict, PackVerdict::Pack);
    // The remodelling standard stops at 20 ft: longer pairs are counted, not judged.
    input.limit = Some(Limit::Across(find(LEVEL, "level", "us-remodelling").unwrap()));
    let check = pack(&input).unwrap().bed.check.unwrap();
    assert!(check.within && check.not_covered > 0);
}

#[test]
fn gaps_are_flagged_against_the_guidance_or_the_users_own_figure() {
    let mut input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    let answer = pack(&input).unwrap();
    assert_eq!(station(&answer, "B").flags, [Flag::SolidOnly], "4 mm");
    assert_eq!(station(&answer, "F").flags, [Flag::AskDesigner], "5 mm is no longer under 5");
    assert_eq!(station(&answer, "C").flags, [], "no gap");
    assert!(answer.solid_source.is_some());
    input.solid = Some(9.0);
    input.limit = Some(Limit::Own(6.0));
    let answer = pack(&input).unwrap();
    assert_eq!(station(&answer, "F").flags, []);
    assert_eq!(station(&answer, "E").flags, [Flag::OverLimit, Flag::AskDesigner]);
    assert_eq!((answer.verdict, answer.solid_source), (PackVerdict::OverLimit, None));
}
