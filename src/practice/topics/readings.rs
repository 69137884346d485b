//! Taped lines and what they say: whether they fix the shape, which way a corner is out, and which line to tape next.

use super::posed::posed;
use crate::geometry::Point;
use crate::network::{Distance, needed, rank};
use crate::practice::answer::Wrong;
use crate::practice::board::{amount, rounded};
use crate::practice::picture::{picture, places_of};
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, nearest, quotient, quotient_near_edge, root, root_near_edge};
use crate::practice::shape::Shape;
use crate::practice::slip::Slip;
use crate::practice::topic::Level;
use crate::words;

/// How many lines are offered to choose the next one from.
const OFFERED: usize = 3;

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    match level {
        Level::One => is_it_fixed(random, scale),
        Level::Two => out_of_square(random, scale),
        Level::Three => which_next(random, scale),
    }
}

/// A line between two corners.
type Line = (usize, usize);

/// The sides of an outline, and its diagonals: a line straight across or down is none.
fn lines(shape: &Shape) -> (Vec<Line>, Vec<Line>) {
    let n = shape.len();
    let all = (0..n).flat_map(|i| (i + 1..n).map(move |j| (i, j)));
    let (sides, mut others): (Vec<Line>, Vec<Line>) = all.partition(|(i, j)| j - i == 1 || j - i == n - 1);
    others.retain(|(i, j)| shape.at[*i].0 != shape.at[*j].0 && shape.at[*i].1 != shape.at[*j].1);
    (sides, others)
}

/// How many of these lines count: the others only check what they fix. None where it would be other in the picture,
/// which is all that is told of the sizes.
fn fixed_by(shape: &Shape, lines: &[Line]) -> Option<usize> {
    let taped: Vec<Distance> =
        lines.iter().map(|(from, to)| Distance { from: *from, to: *to, sd: 1.0 }).collect();
    let corners = places_of(&shape.footprint).into_iter();
    // A row is as high as two columns are wide.
    let drawn: Vec<Point> =
        corners.map(|(column, row)| Point::new(column as f64, 2.0 * row as f64)).collect();
    let fixed = rank(&shape.footprint.points(), &taped);
    (fixed == rank(&drawn, &taped)).then_some(fixed)
}

fn names(shape: &Shape, lines: &[Line]) -> Vec<String> {
    lines.iter().map(|(from, to)| shape.footprint.line_name(*from, *to)).collect()
}

/// The figures that a question on these lines turns on.
fn gist(corners: usize, lines: &[Line]) -> Vec<i64> {
    let ends = lines.iter().flat_map(|(from, to)| [*from, *to]);
    ends.chain([corners]).map(|number| i64::try_from(number).unwrap_or(0)).collect()
}

/// One of `lines`, taken out.
fn take(random: &mut Random, lines: &mut Vec<Line>) -> Option<Line> {
    (!lines.is_empty()).then(|| lines.remove(random.below(lines.len())))
}

/// A rectangle or an L with some lines taped: do they fix it, and if not, how many are missing?
fn is_it_fixed(random: &mut Random, scale: Scale) -> Option<Question> {
    let shape = if random.coin() { Shape::any(random, scale)? } else { Shape::bent(random, scale)? };
    let n = shape.len();
    let (mut taped, mut others) = lines(&shape);
    for _ in 0..random.below(n - 1) {
        taped.push(take(random, &mut others)?);
    }
    if random.coin() {
        let left_out = random.below(n);
        taped.remove(left_out);
    }
    let (counts, wanted) = (fixed_by(&shape, &taped)?, needed(n));
    let missing = i64::try_from(wanted - counts).ok()?;
    let given = format!(
        "{}, none of its corners known to be square. Taped: {}.",
        shape.described(),
        names(&shape, &taped).join(", ")
    );
    let asked = "Do these lines fix the shape, and how many more does it take at the least?";
    let (right, wrong) = if missing == 0 { ("yes", "no") } else { ("no", "yes") };
    let mut fixed = Blank::word("fixed", right, ["yes", "no"].map(str::to_owned).to_vec());
    fixed.trap(Slip::FixedOrNot, Wrong::Word(wrong.to_owned()));
    let mut more = Blank::count("more lines", missing);
    let plain = i64::try_from(wanted).ok()? - i64::try_from(taped.len()).ok()?;
    if plain.max(0) != missing {
        more.trap(Slip::CountedAll, Wrong::Count(plain.max(0)));
    }
    let mut working = vec![
        format!("{} to place: 2 × {n} − 3 = {wanted} lines that tie them", words::count(n, "corner")),
        format!("taped: {}", words::count(taped.len(), "line")),
    ];
    if counts < taped.len() {
        let over = words::count(taped.len() - counts, "line");
        working.push(format!("{over} of them only checks what the others fix: {counts} count"));
    }
    working.push(format!("more lines: {wanted} − {counts} = {missing}"));
    working.push(format!("fixed: {right}"));
    let gist = gist(n, &taped);
    Some(posed(picture(&shape.footprint), given, asked.to_owned(), vec![fixed, more], working, gist))
}

/// A rectangle pushed over: which way, and how far its lower side has to go back.
fn out_of_square(random: &mut Random, scale: Scale) -> Option<Question> {
    let shape = Shape::any(random, scale)?;
    let (a, b) = (shape.side(0), shape.side(1));
    let most = scale.of(30, 32);
    let pushed = random.within(-most, most, 1);
    // C and D pushed along by as much; what the two diagonals then read.
    let height = b * b - pushed * pushed;
    let (ac, bd) = ((a + pushed) * (a + pushed) + height, (a - pushed) * (a - pushed) + height);
    if root_near_edge(ac) || root_near_edge(bd) || pushed.abs() < 3 {
        return None;
    }
    let (ac, bd) = (root(ac), root(bd));
    let over = ac * ac - bd * bd;
    let push = nearest(over, 4 * a).abs();
    if quotient_near_edge(over, 4 * a) || push < 3 || ac == bd {
        return None;
    }
    let given = format!(
        "{} The sides are as given on all four sides, but AC reads {} and BD {}. AB stays as it is.",
        shape.sizes(),
        scale.text(ac),
        scale.text(bd)
    );
    let asked = format!(
        "Is corner A open (over a right angle) or closed (under one), and how far have C and D to be pushed along, to the \
         nearest {}?",
        scale.step()
    );
    let (right, wrong) = if bd > ac { ("open", "closed") } else { ("closed", "open") };
    let mut sense = Blank::word("corner A", right, ["open", "closed"].map(str::to_owned).to_vec());
    sense.trap(Slip::OpenForClosed, Wrong::Word(wrong.to_owned()));
    let mut size = Blank::rounded("push by", push);
    size.either_sign = true;
    size.slip(Slip::DiagonalDifference, (ac - bd).abs())
        .slip(Slip::HalfDifference, nearest((ac - bd).abs(), 2))
        .slip(Slip::OtherSide, nearest(over, 4 * b).abs())
        .slip(Slip::NotHalved, nearest(over, 2 * a).abs());
    let (per, unit) = scale.of((1, "mm"), (16, "in"));
    let figure = |steps: i64| quotient(steps, per);
    let area = |square: i64| quotient(square, per * per);
    let (long, short, name, other) = if ac > bd { (ac, bd, "AC", "BD") } else { (bd, ac, "BD", "AC") };
    let mut working = vec![
        format!("BD lies across corner A, and {name} is the longer: corner A is {right}"),
        format!("{name}² = {0} × {0} = {1} {unit}²", figure(long), area(long * long)),
        format!("{other}² = {0} × {0} = {1} {unit}²", figure(short), area(short * short)),
        format!("{} − {} = {} {unit}²", area(long * long), area(short * short), area(over.abs())),
        format!("4 × AB = 4 × {} = {} {unit}", figure(a), figure(4 * a)),
        format!("{} ÷ {} = {}", area(over.abs()), figure(4 * a), amount(scale, over.abs(), 4 * a)),
    ];
    working.extend(rounded(scale, "push by", over.abs(), 4 * a));
    Some(posed(picture(&shape.footprint), given, asked, vec![sense, size], working, vec![a, b, ac, bd]))
}

/// An L or T one line short of being fixed: which of those offered fixes it?
fn which_next(random: &mut Random, scale: Scale) -> Option<Question> {
    let shape = Shape::bent(random, scale)?;
    let n = shape.len();
    let (mut taped, mut others) = lines(&shape);
    // All sides, and diagonals that each tie something, until one is missing.
    while taped.len() + 1 < needed(n) {
        taped.push(take(random, &mut others)?);
    }
    if fixed_by(&shape, &taped)? != taped.len() {
        return None;
    }
    let mut offered = vec![];
    while offered.len() < OFFERED {
        offered.push(take(random, &mut others)?);
    }
    let mut right = vec![];
    for line in &offered {
        if fixed_by(&shape, &[taped.as_slice(), &[*line]].concat())? == needed(n) {
            right.push(*line);
        }
    }
    let [right] = right[..] else {
        return None;
    };
    offered.sort_unstable();
    let (taped_names, offered_names) = (names(&shape, &taped), names(&shape, &offered));
    let right = names(&shape, &[right]).pop()?;
    let given = format!(
        "{}, none of its corners known to be square. All its sides are taped, and {}. One more line can be taped: {}.",
        shape.described(),
        words::and_list(&taped_names[n..]),
        words::or_list(&offered_names)
    );
    let mut next = Blank::word("tape next", &right, offered_names.clone());
    for name in offered_names.iter().filter(|name| **name != right) {
        next.trap(Slip::TiedAlready, Wrong::Word(name.clone()));
    }
    let mut working = vec![
        format!("{} to place: 2 × {n} − 3 = {} lines that tie them", words::count(n, "corner"), needed(n)),
        format!("taped: {}, so one is missing", words::count(taped.len(), "line")),
    ];
    for name in offered_names.iter().filter(|name| **name != right) {
        working.push(format!(
            "{name} runs between corners that the taped lines hold already: it checks, and fixes nothing"
        ));
    }
    working
        .push(format!("{right} ties the parts that can still move against each other: tape next = {right}"));
    let gist = gist(n, &[taped.as_slice(), &offered].concat());
    let asked = "Which of them fixes the shape?".to_owned();
    Some(posed(picture(&shape.footprint), given, asked, vec![next], working, gist))
}
