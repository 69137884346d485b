//! Joists on two supports: which end is too low for the fall that is wanted, and by how much.

use super::posed::posed;
use crate::practice::answer::Wrong;
use crate::practice::board::{amount, exact_sum, rounded, so, sum};
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, Sizes, nearest, quotient_near_edge};
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

/// The two supports.
const ENDS: [&str; 2] = ["hanger", "bearing"];

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    let hanger = scale.of(Sizes(2300, 2700, 1), Sizes(90 * 16, 106 * 16, 1)).draw(random);
    let spread = scale.of(Sizes(-20, 20, 1), Sizes(-16, 16, 1)).draw(random);
    let (one_in, run, to_wall) = match level {
        Level::One => (0, 0, true),
        Level::Two | Level::Three => {
            let one_in = random.one_of(&[40, 48, 50, 60, 80])?;
            let run = scale.of(Sizes(2400, 4800, 10), Sizes(8 * 192, 16 * 192, 8)).draw(random);
            (one_in, run, level == Level::Two || random.coin())
        }
    };
    // The fall that is wanted from the hanger to the bearing, times `bottom`.
    let (top, bottom) = if one_in == 0 { (0, 1) } else { (if to_wall { run } else { -run }, one_in) };
    let wanted = nearest(top, bottom);
    let bearing = hanger - wanted + spread;
    let found = hanger - bearing;
    // What the hanger has to come up by; the bearing, if it is negative.
    let missing = top - found * bottom;
    let pack = nearest(missing, bottom);
    if pack.abs() < 3 || quotient_near_edge(missing, bottom) || quotient_near_edge(top, bottom) {
        return None;
    }
    let fall = match (one_in, to_wall) {
        (0, _) => "The joists are to lie level.".to_owned(),
        (n, true) => {
            format!("The joists are to fall 1 in {n} away from the house; the run is {}.", scale.text(run))
        }
        (n, false) => {
            format!("The joists are to fall 1 in {n} to the house; the run is {}.", scale.text(run))
        }
    };
    let given = format!(
        "The joists' hanger on the house is {} above the datum, their bearing on the new wall {}. {fall}",
        scale.text(hanger),
        scale.text(bearing)
    );
    let asked = format!("Which end has to be packed up, and by how much, to the nearest {}?", scale.step());
    let low = ENDS[usize::from(pack < 0)];
    let mut end = Blank::word("pack up the", low, ENDS.map(str::to_owned).to_vec());
    end.trap(Slip::OtherSupport, Wrong::Word(ENDS[usize::from(pack > 0)].to_owned()));
    let mut size =
        if one_in == 0 { Blank::length("by", pack.abs()) } else { Blank::rounded("by", pack.abs()) };
    size.slip(Slip::NoFall, found.abs())
        .slip(Slip::FallAlone, wanted.abs())
        .slip(Slip::FallWrongWay, nearest(-top - found * bottom, bottom).abs());
    let working = working(scale, [hanger, bearing], (top, bottom), run);
    Some(posed(vec![], given, asked, vec![end, size], working, vec![hanger, bearing, top, bottom]))
}

fn working(scale: Scale, [hanger, bearing]: [i64; 2], (top, bottom): (i64, i64), run: i64) -> Vec<String> {
    let found = hanger - bearing;
    let missing = top - found * bottom;
    let mut steps =
        vec![format!("hanger less bearing, the fall as it stands: {}", sum(scale, hanger, '−', bearing))];
    let wanted = amount(scale, top, bottom);
    if bottom > 1 {
        let fall = amount(scale, top.abs(), bottom);
        steps.push(format!("the fall wanted: {} ÷ {bottom} = {fall}", amount(scale, run, 1)));
        if top < 0 {
            steps.push(format!("it runs down to the house, so it counts as {wanted}"));
        }
    }
    steps.push(format!("wanted less found: {}", exact_sum(scale, (top, bottom), '−', (found, 1))));
    steps.push(if missing > 0 {
        "more than nothing: the hanger is too low".to_owned()
    } else {
        "less than nothing: the bearing is too low".to_owned()
    });
    if bottom > 1 {
        steps.extend(rounded(scale, "by", missing.abs(), bottom));
    } else {
        steps.push(so(scale, "by", missing.abs()));
    }
    steps
}
