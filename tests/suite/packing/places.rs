//! Places by name.

use pegline::length::Units;
use pegline::packing::{Readings, packs};
use pegline::plan::{Spot, SpotError};

use super::{STAFF, at, outline, packing, set_up};

#[test]
fn a_place_is_named_from_either_end_of_its_side_and_in_either_case() {
    assert_eq!(at("AB@600"), at("ba@7.2m"));
    assert_eq!(at(" c "), at("BC@3600"));
    assert_eq!(at("FA@6000"), at("A"));
    assert_eq!(at("AF@0"), at("a"));
    let feet = Spot::parse("BC@10ft", &outline(), Units::FeetInches).unwrap();
    assert!((feet.distance() - 3048.0).abs() < 1e-9);
}

#[test]
fn what_is_no_place_on_the_plan_says_what_to_write() {
    let extension = outline().with_house(&[0, 5]);
    let on_plate = |text: &str| Spot::parse(text, &extension, Units::Mm)?.on_plate(&extension);
    let refused = |text: &str| on_plate(text).unwrap_err().to_string();
    assert_eq!(refused("Z"), "there is no corner `Z`: the corners are A to F");
    assert_eq!(refused("AC@1"), "there is no side `AC`: the sides are AB, BC, CD, DE, EF, FA");
    assert_eq!(refused("BC@3601"), "`BC@3601` is off the side: BC runs from 0 to 3600 mm");
    assert_eq!(refused("BC@-1"), "`BC@-1` is off the side: BC runs from 0 to 3600 mm");
    assert_eq!(
        refused("BC"),
        "`BC` is not a place: write a corner such as A, or a side and the distance along it: AB@2400"
    );
    assert_eq!(refused("BC@24x0"), "BC@24x0: `24x0` is not a length: write 6435, 6.435m or 21ft1-3/8in");
    // AB and FA are the house: no plate along them, nor at A between them; B carries the end of BC's plate.
    assert_eq!(refused("AB@100"), "AB@100 is on the house, where there is no plate to pack: leave it out");
    assert!(refused("A").contains("on the house"));
    assert!(on_plate("B").is_ok());
}

#[test]
fn a_place_found_on_another_plan_is_refused() {
    let input = packing(vec![set_up(Readings::Staff, &STAFF)]);
    let (square, _) = pegline::plan::parse_expression("3000x3000", Units::Mm).unwrap();
    let error = packs(&square, &input).unwrap_err();
    assert_eq!(error, SpotError::OffPlan.into());
}
