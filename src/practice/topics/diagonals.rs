//! Check diagonals: of a rectangle, then of an L or T with a side to be worked out first.

use super::posed::posed;
use crate::practice::answer::Wrong;
use crate::practice::board::pythagoras;
use crate::practice::picture::picture;
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, root, root_near_edge};
use crate::practice::shape::{Leg, Shape};
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    let (shape, from, to) = match level {
        Level::One => {
            let (_, _, shape) = Shape::neat(random, scale)?;
            let from = random.below(2);
            (shape, from, from + 2)
        }
        Level::Two => {
            let shape = Shape::any(random, scale)?;
            let from = random.below(2);
            (shape, from, from + 2)
        }
        Level::Three => with_a_side_left_out(random, scale)?,
    };
    let (across, down) = (shape.leg(from, to, true)?, shape.leg(from, to, false)?);
    let (a, b) = (across.total, down.total);
    let square = a * a + b * b;
    if root_near_edge(square) || a == b {
        return None;
    }
    let name = shape.footprint.line_name(from, to);
    let mut blank = Blank::rounded(&name, root(square));
    slips(&mut blank, scale, &across, &down);
    let across_is = format!("across = {}", shape.words(&across));
    let down_is = format!("down = {}", shape.words(&down));
    Some(posed(
        picture(&shape.footprint),
        shape.sizes(),
        format!("What should the diagonal {name} read on the tape?"),
        vec![blank],
        pythagoras(scale, (&across_is, a), (&down_is, b), &name),
        vec![a.min(b), a.max(b)],
    ))
}

/// An L or T, a diagonal of it, and a side not given so that one of the diagonal's legs is a sum or a difference.
fn with_a_side_left_out(random: &mut Random, scale: Scale) -> Option<(Shape, usize, usize)> {
    let mut shape = Shape::bent(random, scale)?;
    let n = shape.len();
    let (from, to) = (random.below(n), random.below(n));
    let (from, to) = (from.min(to), from.max(to));
    let (one, other) = (shape.at[from], shape.at[to]);
    if one.0 == other.0 || one.1 == other.1 {
        return None;
    }
    let left_out = random.below(n);
    shape.given[left_out] = false;
    let to_work_out = [true, false]
        .into_iter()
        .filter_map(|across| shape.leg(from, to, across))
        .any(|leg| leg.terms.len() > 1);
    to_work_out.then_some((shape, from, to))
}

fn slips(blank: &mut Blank, scale: Scale, across: &Leg, down: &Leg) {
    let (a, b) = (across.total, down.total);
    let square = a * a + b * b;
    let per = scale.per(&[a, b]);
    for (slip, times) in [(Slip::NoRoot, 1), (Slip::HalvedForRoot, 2)] {
        let (top, bottom) = (square, times * per * per);
        blank.trap(slip, Wrong::Bare { top, bottom });
    }
    blank.slip(Slip::AddedSides, a + b);
    blank.slips(across.slips().into_iter().map(|(slip, a)| (slip, root(a * a + b * b))));
    blank.slips(down.slips().into_iter().map(|(slip, b)| (slip, root(a * a + b * b))));
    blank.slip(Slip::SquaresTakenOff, root((a * a - b * b).abs()));
    blank.slip(Slip::SideForDiagonal, a.max(b));
    blank.slip(Slip::SideForDiagonal, a.min(b));
}
