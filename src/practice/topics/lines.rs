//! Lines: where the nails go on a profile board, and running marks along a side.

use super::posed::posed;
use crate::practice::board::sum;
use crate::practice::picture::picture;
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, Sizes};
use crate::practice::shape::Shape;
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    match level {
        Level::One => nails(random, scale, false),
        Level::Two => nails(random, scale, true),
        Level::Three => running_marks(random, scale),
    }
}

/// The faces of a wall from one nail, the outermost.
fn nails(random: &mut Random, scale: Scale, on_footing: bool) -> Option<Question> {
    // Widths as bricks, cavities and plates have them (from memory).
    let skin = random.one_of(&scale.of([90, 100, 102, 103, 110], [44, 48, 56, 58, 60]))?;
    let cavity = random.one_of(&scale.of([25, 40, 50, 60, 75], [16, 24, 32, 40, 56]))?;
    let plate = random.one_of(&scale.of([90, 95, 97, 120, 140, 145], [56, 88, 116, 56, 88, 116]))?;
    let wall = skin + cavity + plate;
    let footing = wall + scale.of(2, 2) * random.within(scale.of(50, 32), scale.of(150, 96), scale.of(5, 4));
    let stands_out = if on_footing { (footing - wall) / 2 } else { 0 };
    let wall_is = format!(
        "Wall from outside in: skin {}, cavity {}, plate {}.",
        scale.text(skin),
        scale.text(cavity),
        scale.text(plate)
    );
    let (given, first) = if on_footing {
        let centred = format!("{wall_is} A footing {} wide is centred under it.", scale.text(footing));
        (centred, "the footing's outer edge")
    } else {
        (wall_is, "the skin's outer face")
    };
    let asked = format!(
        "The board is marked with one pull of the tape from the outermost nail, {first}. At what reading does each nail go?"
    );
    let mut working = vec![];
    let mut blanks = vec![];
    let mut at = stands_out;
    if on_footing {
        working.push(format!(
            "the wall: {} + {} + {} = {}",
            scale.text(skin),
            scale.text(cavity),
            scale.text(plate),
            scale.text(wall)
        ));
        working.push(format!("footing less wall: {}", sum(scale, footing, '−', wall)));
        working.push(format!(
            "skin outer, half of it on either side: {} ÷ 2 = {}",
            scale.text(2 * stands_out),
            scale.text(stands_out)
        ));
        let mut outer = Blank::length("skin outer", stands_out);
        outer.slip(Slip::NotCentred, 2 * stands_out).slip(Slip::HalfTheFooting, footing / 2);
        blanks.push(outer);
    }
    for (name, width, left_out) in [
        ("skin inner", skin, None),
        ("plate outer", cavity, Some(skin)),
        ("plate inner", plate, Some(cavity)),
    ] {
        working.push(if at == 0 {
            format!("{name}: {}", scale.text(width))
        } else {
            format!("{name}: {}", sum(scale, at, '+', width))
        });
        at += width;
        let mut blank = Blank::length(name, at);
        blank.slip(Slip::OwnWidth, width);
        if let Some(left_out) = left_out {
            blank.slip(Slip::LayerLeftOut, at - left_out);
        }
        if on_footing {
            blank.slip(Slip::FromTheSkin, at - stands_out).slip(Slip::NotCentred, at + stands_out);
        }
        blanks.push(blank);
    }
    let gist = vec![skin, cavity, plate, stands_out];
    Some(posed(vec![], given, asked, blanks, working, gist))
}

/// An opening given from one corner of a side, marked from the other.
fn running_marks(random: &mut Random, scale: Scale) -> Option<Question> {
    let mut shape = Shape::bent(random, scale)?;
    let side = random.below(shape.len());
    shape.given[side] = false;
    let next = (side + 1) % shape.len();
    let leg = shape.leg(side, next, shape.footprint.sides()[side].heading.is_across())?;
    let width = random
        .one_of(&scale.of([762, 838, 900, 1200, 1500], [32 * 16, 34 * 16, 36 * 16, 48 * 16, 60 * 16]))?;
    let from = scale.of(Sizes(300, 4000, 10), Sizes(16 * 16, 12 * 192, 8)).draw(random);
    if leg.terms.len() < 2 || from + width + scale.of(300, 16 * 16) > leg.total {
        return None;
    }
    let (name, first, last) = (shape.side_name(side), shape.corner(side), shape.corner(next));
    let (near, far) = (leg.total - from - width, leg.total - from);
    let given = format!(
        "{} On {name} an opening {} wide begins {} from {first}.",
        shape.sizes(),
        scale.text(width),
        scale.text(from)
    );
    let asked = format!(
        "{name} is marked with one pull of the tape from {last}. At what readings are the two edges of the opening, the nearer to {last} first?"
    );
    let mut nearer = Blank::length("nearer edge", near);
    nearer.slip(Slip::OtherEnd, from).slip(Slip::WidthLeftOn, far);
    let mut farther = Blank::length("farther edge", far);
    farther.slip(Slip::OtherEnd, from + width).slip(Slip::OwnWidth, width);
    for (slip, wrong) in leg.slips() {
        nearer.slip(slip, wrong - from - width);
        farther.slip(slip, wrong - from);
    }
    let working = vec![
        format!("{name} = {} = {}", shape.words(&leg), scale.text(leg.total)),
        format!("farther edge: {}", sum(scale, leg.total, '−', from)),
        format!("nearer edge, the width on: {}", sum(scale, far, '−', width)),
    ];
    let gist = vec![leg.total, from, width];
    Some(posed(picture(&shape.footprint), given, asked, vec![nearer, farther], working, gist))
}
