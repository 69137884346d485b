//! The length of a plate run: the side, less or more the plate's width where it butts or goes round a corner.

use super::posed::posed;
use crate::plan::Turn;
use crate::practice::board::{so, sum};
use crate::practice::picture::picture;
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, Sizes};
use crate::practice::shape::{Leg, Shape};
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

/// One end of a run.
#[derive(Clone, Copy)]
struct End {
    corner: usize,
    /// The other side that meets there.
    other: usize,
    turn: Turn,
    through: bool,
}

impl End {
    /// What the end does to the run's length, in plate widths.
    const fn widths(self) -> i64 {
        widths(self.turn, self.through)
    }
}

/// At an outward corner the outline runs to the outer face, so the run that butts is a width short of it; at an inward
/// corner both faces stop at the corner, so the run that goes through is a width longer.
const fn widths(turn: Turn, through: bool) -> i64 {
    match (turn, through) {
        (Turn::Outward, false) => -1,
        (Turn::Inward, true) => 1,
        (Turn::Outward, true) | (Turn::Inward, false) => 0,
    }
}

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    let (mut shape, side) = match level {
        Level::One => {
            let sizes = scale.of(Sizes(2000, 12_000, 100), Sizes(8 * 192, 40 * 192, 192));
            let shape = Shape::rectangle(scale, sizes.draw(random), sizes.draw(random))?;
            (shape, random.below(2))
        }
        Level::Two => (Shape::any(random, scale)?, random.below(2)),
        Level::Three => {
            let shape = Shape::bent(random, scale)?;
            let side = random.below(shape.len());
            (shape, side)
        }
    };
    if level == Level::Three {
        shape.given[side] = false;
    }
    let next = (side + 1) % shape.len();
    let leg = shape.leg(side, next, shape.footprint.sides()[side].heading.is_across())?;
    if level == Level::Three && leg.terms.len() < 2 {
        return None;
    }
    // 38 × 90 and 2 × 4 studwork and the like: widths that are sold, common practice.
    let width = random.one_of(&scale.of([90, 95, 97, 120, 140, 145], [56, 88, 116, 56, 88, 116]))?;
    let turn = |corner: usize| shape.footprint.corners()[corner].turn;
    let ends = [
        End {
            corner: side,
            other: (side + shape.len() - 1) % shape.len(),
            turn: turn(side),
            through: random.coin(),
        },
        End { corner: next, other: next, turn: turn(next), through: random.coin() },
    ];
    let widths = ends[0].widths() + ends[1].widths();
    let run = leg.total + widths * width;
    if widths == 0 || run < 4 * width {
        return None;
    }
    let name = shape.side_name(side);
    let given =
        format!("{} Plate {} wide. {}", shape.sizes(), scale.text(width), corners(&shape, side, ends));
    let mut blank = Blank::length(format!("run {name}"), run);
    slips(&mut blank, &leg, ends, width);
    let others = (0..shape.len()).filter(|i| shape.given[*i] && *i != side).map(|i| shape.side(i));
    blank.slips(
        others.flat_map(|other| [other + widths * width, other].map(|length| (Slip::OtherSide, length))),
    );
    Some(posed(
        picture(&shape.footprint),
        given,
        format!("How long is the plate run on {name}?"),
        vec![blank],
        working(&shape, side, &leg, ends, width),
        vec![leg.total, widths, width],
    ))
}

/// Which run goes through at each end: `At B the run on AB goes through; at C the run on BC does.`
fn corners(shape: &Shape, side: usize, ends: [End; 2]) -> String {
    let through = |end: End| shape.side_name(if end.through { side } else { end.other });
    format!(
        "At {} the run on {} goes through; at {} the run on {} goes through.",
        shape.corner(ends[0].corner),
        through(ends[0]),
        shape.corner(ends[1].corner),
        through(ends[1])
    )
}

fn slips(blank: &mut Blank, leg: &Leg, ends: [End; 2], width: i64) {
    let side = leg.total;
    let at = ends.map(End::widths);
    let flipped = ends.map(|end| widths(end.turn, !end.through));
    let as_outward = ends.map(|end| widths(Turn::Outward, end.through));
    let with = |widths: i64| side + widths * width;
    blank.slip(Slip::NoWidth, with(0));
    if at[0] != 0 && at[1] != 0 {
        blank.slip(Slip::OneEnd, with(at[0])).slip(Slip::OneEnd, with(at[1]));
    }
    blank
        .slip(Slip::WidthWrongWay, with(-at[0] - at[1]))
        .slip(Slip::InwardCorner, with(as_outward[0] + as_outward[1]))
        .slip(Slip::WrongButt, with(flipped[0] + flipped[1]))
        .slip(Slip::WrongButt, with(flipped[0] + at[1]))
        .slip(Slip::WrongButt, with(at[0] + flipped[1]));
    let ends = (at[0] + at[1]) * width;
    blank.slips(leg.slips().into_iter().map(|(slip, side)| (slip, side + ends)));
}

fn working(shape: &Shape, side: usize, leg: &Leg, ends: [End; 2], width: i64) -> Vec<String> {
    let scale = shape.scale;
    let name = shape.side_name(side);
    let leg_is = shape.words(leg);
    let side_is = if leg_is == name { String::new() } else { format!(" = {leg_is}") };
    let mut steps = vec![format!("side {name}{side_is} = {}", scale.text(leg.total))];
    let mut length = leg.total;
    for end in ends {
        let corner = shape.corner(end.corner);
        let turn = match end.turn {
            Turn::Outward => "an outward",
            Turn::Inward => "an inward",
        };
        let (does, so) = match (end.through, end.widths()) {
            (true, 0) => ("goes through", "reaches the corner, nothing to add or take off"),
            (true, _) => ("goes through", "reaches past the corner by the plate's width"),
            (false, 0) => ("butts", "stops at the corner, nothing to add or take off"),
            (false, _) => ("butts", "stops short by the plate's width"),
        };
        let mut step = format!("at {corner}, {turn} corner, {name} {does}: it {so}");
        if end.widths() != 0 {
            let sign = if end.widths() > 0 { '+' } else { '−' };
            step = format!("{step}: {}", sum(scale, length, sign, width));
            length += end.widths() * width;
        }
        steps.push(step);
    }
    steps.push(so(scale, &format!("run {name}"), length));
    steps
}
