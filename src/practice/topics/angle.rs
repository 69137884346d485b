//! A corner as found: three tapes, open or closed, and how far the longer leg's end is off.

use super::posed::posed;
use crate::board::{Board, squares, to_tape};
use crate::practice::answer::Wrong;
use crate::practice::follow::{Follow, How};
use crate::practice::picture::picture;
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, nearest, quotient, quotient_near_edge};
use crate::practice::shape::Shape;
use crate::practice::slip::Slip;

/// From the law of cosines: the end of leg b lies b·cos θ = (a² + b² − c²) ÷ (2a) along leg a.
pub(super) fn question(random: &mut Random, scale: Scale) -> Option<Question> {
    let shape = Shape::any(random, scale)?;
    let multiple = scale.of(100, 96) * random.within(6, 24, 1);
    let (a, b) = (3 * multiple, 4 * multiple);
    // Whole quarters of an inch keep the squares short enough for a board.
    let miss = scale.of(random.within(3, 25, 1), 4 * random.within(1, 5, 1));
    let open = random.coin();
    let c = 5 * multiple + if open { miss } else { -miss };
    // A is between DA, which runs down the page, and AB.
    let (shorter, longer) = if random.coin() { ("AB", "DA") } else { ("DA", "AB") };
    let room = |name: &str, size: i64| size <= shape.side(usize::from(name == "DA"));
    let over = c * c - a * a - b * b;
    let off = nearest(over, 2 * a).abs();
    if !room(shorter, a) || !room(longer, b) || quotient_near_edge(over, 2 * a) || off < 2 {
        return None;
    }
    let given = format!(
        "{} At corner A {} is marked along {shorter} and {} along {longer}; the tape between the marks reads {}.",
        shape.sizes(),
        scale.text(a),
        scale.text(b),
        scale.text(c)
    );
    let asked = "What would the tape read if the corner were square? Is the corner open (over a right angle) or closed \
                 (under one)? How far is the longer leg's mark off the line square to the shorter leg?";
    Some(posed(
        picture(&shape.footprint),
        given,
        asked.to_owned(),
        blanks(scale, a, b, c, off),
        working(scale, a, b, c),
        vec![a, c],
    ))
}

fn blanks(scale: Scale, a: i64, b: i64, c: i64, off: i64) -> Vec<Blank> {
    let over = c * c - a * a - b * b;
    let words = ["open", "closed"].map(str::to_owned).to_vec();
    let (right, wrong) = if over > 0 { ("open", "closed") } else { ("closed", "open") };
    let square = 5 * (a / 3);
    let mut tape = Blank::length("if square", square);
    tape.slip(Slip::AddedSides, a + b).slip(Slip::TapeAsRead, c);
    let per = scale.per(&[a, b]);
    tape.trap(Slip::NoRoot, Wrong::Bare { top: a * a + b * b, bottom: per * per });
    let mut sense = Blank::word("open or closed", right, words);
    sense.trap(Slip::OpenForClosed, Wrong::Word(wrong.to_owned()));
    sense.follows = Some(Follow { from: 0, how: How::TapeRead(c) });
    let mut end = Blank::rounded("off by", off);
    end.either_sign = true;
    end.slip(Slip::TapeDifference, (c - square).abs())
        .slip(Slip::NotHalved, nearest(over, a).abs())
        .slip(Slip::OtherLeg, nearest(over, 2 * b).abs());
    vec![tape, sense, end]
}

fn working(scale: Scale, a: i64, b: i64, c: i64) -> Vec<String> {
    let [leg, other, read] = [a, b, c].map(|steps| scale.mm(steps));
    let board = Board::squares(scale.0, &[leg, other, read]);
    let unit = board.unit();
    let per = scale.per(&[a, b, c]);
    let area = |square: i64| quotient(square, per * per);
    let square = 5 * (a / 3);
    let over = c * c - a * a - b * b;
    let mut steps = squares(board, scale.0, ("the shorter leg", leg), ("the longer leg", other));
    steps.push(format!("if square the tape would read {}", scale.text(square)));
    steps.push(format!("the tape squared = {0} × {0} = {1} {unit}²", quotient(c, per), area(c * c)));
    let (long, sense) = if over > 0 { ("more", "open") } else { ("less", "closed") };
    steps.push(format!("{} {unit}² is {long} than a² + b²: the corner is {sense}", area(c * c)));
    let (more, less) = if over > 0 { (c * c, a * a + b * b) } else { (a * a + b * b, c * c) };
    steps.push(format!(
        "the difference of the two: {} − {} = {} {unit}²",
        area(more),
        area(less),
        area(over.abs())
    ));
    steps.push(format!("2 × a = 2 × {} = {} {unit}", quotient(a, per), quotient(2 * a, per)));
    let off = board.with_unit(scale.mm(over.abs()) / (2 * a) as f64);
    steps.push(format!("{} ÷ {} = {off}", area(over.abs()), quotient(2 * a, per)));
    steps.extend(to_tape(board, scale.0, scale.mm(over.abs()) / (2 * a) as f64, "off by"));
    steps
}
