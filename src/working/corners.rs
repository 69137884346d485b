//! 3-4-5 by hand: why it is square, why bigger is better, and the angle from three tapes.

use crate::board::{self, Board, step};
use crate::job::Job;
use crate::length::{Units, decimal, printed};
use crate::page::Steps;
use crate::plan::SAME_PLACE;
use crate::square::{CornerFound, CornerTriangle, Corners, neat_steps};

/// Why 3-4-5 works, each corner's triangle, and the corner as found.
pub(crate) fn steps(answer: &Corners, job: &Job) -> Vec<Steps> {
    let why = Steps {
        title: "Why 3-4-5 is square".to_owned(),
        steps: vec![
            "in a triangle with a right angle the squares on the two legs add up to the square on the third side"
                .to_owned(),
            "3² = 9".to_owned(),
            "4² = 16".to_owned(),
            "9 + 16 = 25".to_owned(),
            "√25 = 5: so legs of 3 and 4 are square to each other when their ends are 5 apart".to_owned(),
            "every number times the same multiple stays square: 6-8-10, 9-12-15, 30-40-50".to_owned(),
        ],
    };
    let corners = answer.corners.iter().filter_map(|check| {
        let best = check.best.as_ref()?;
        let mut steps = chosen(best, job);
        if let Some(plain) = &check.three_four_five {
            let board = Board::lengths(job.units);
            steps.insert(
                0,
                format!(
                    "3-4-5 fits with a multiple of {}, and 1 mm wrong would turn the longer side's end by {} mm: more than \
                     with {}",
                    board.with_unit(plain.multiple.0),
                    decimal(plain.mm_at_end_per_mm.0, 2),
                    best.triple
                ),
            );
        }
        steps.extend(triangle(best, job));
        Some(Steps { title: format!("Corner {}", check.name), steps })
    });
    let found = answer.found.iter().map(|found| angle(found, job.units));
    std::iter::once(why).chain(corners).chain(found).collect()
}

/// The numbers of a triangle laid out: along the first side, along the second, between the marks.
fn numbers(best: &CornerTriangle) -> [f64; 3] {
    [best.first.length.0, best.second.length.0, best.diagonal.0].map(|mm| (mm / best.multiple.0).round())
}

/// How long a side of the plan is, mm.
fn side(name: &str, job: &Job) -> Option<f64> {
    let footprint = job.footprint.as_ref()?;
    Some(footprint.sides()[footprint.parse_side(name).ok()?].length)
}

/// How the multiple was chosen: what each side and the tape have room for, down to a neat step.
fn chosen(best: &CornerTriangle, job: &Job) -> Vec<String> {
    let board = Board::lengths(job.units);
    let [first, second, third] = numbers(best);
    let mut rooms = vec![];
    for (name, number) in [(&best.first.side, first), (&best.second.side, second)] {
        rooms.extend(side(name, job).map(|length| (name.clone(), length, number)));
    }
    rooms.extend(job.tape.length.map(|length| ("the tape".to_owned(), length, third)));
    let mut steps: Vec<String> = rooms
        .iter()
        .map(|(name, length, number)| {
            format!("{name}: {} ÷ {number} = {}", board.figure(*length), board.with_unit(length / number))
        })
        .collect();
    let least = rooms.iter().map(|(_, length, number)| length / number).fold(f64::INFINITY, f64::min);
    let step = neat_steps(job.units).into_iter().find(|step| *step <= least + SAME_PLACE);
    if let Some(step) = step.filter(|_| !steps.is_empty()) {
        steps.push(format!(
            "the least of them, down to a whole multiple of {}: {}",
            board.with_unit(step),
            board.with_unit(best.multiple.0)
        ));
    }
    steps
}

fn triangle(best: &CornerTriangle, job: &Job) -> Vec<String> {
    let board = Board::lengths(job.units);
    let [first, second, third] = numbers(best);
    let times = |place: &str, number: f64, mm: f64| {
        format!("{place}: {number} × {} = {}", board.figure(best.multiple.0), in_both(board, job.units, mm))
    };
    let longer = side(&best.first.side, job).unwrap_or(0.0).max(side(&best.second.side, job).unwrap_or(0.0));
    let turn = decimal(best.mm_at_end_per_mm.0, 2);
    let so_many = match job.units {
        Units::Mm | Units::M => " mm",
        Units::FeetInches => " sixteenths of an inch",
    };
    vec![
        times(&format!("along {} from the corner", best.first.side), first, best.first.length.0),
        times(&format!("along {} from the corner", best.second.side), second, best.second.length.0),
        times("between the two marks", third, best.diagonal.0),
        format!(
            "{} wrong between the marks turns the longer side's end by {third} × {} ÷ ({first} × {second} × {}) = {turn}{so_many}",
            job.units.short(job.units.tape_step()),
            board.figure(longer),
            board.figure(best.multiple.0)
        ),
        format!(
            "with a triangle of half the size it would be 2 × {turn} = {}{so_many}",
            decimal(2.0 * hundredths(best), 2)
        ),
    ]
}

/// The turn as it is shown.
fn hundredths(best: &CornerTriangle) -> f64 {
    (best.mm_at_end_per_mm.0 * 100.0).round() / 100.0
}

/// A length worked out: `174 in = 14ft 6in`, `4800 mm`.
fn in_both(board: Board, units: Units, mm: f64) -> String {
    match units {
        Units::Mm | Units::M => board.with_unit(mm),
        Units::FeetInches => format!("{} = {}", board.with_unit(mm), units.with_unit(mm)),
    }
}

/// The cosine law, which is Pythagoras with what is left over.
pub(super) fn angle(found: &CornerFound, units: Units) -> Steps {
    let angle = &found.angle;
    let (a, b, c) = (angle.a.0, angle.b.0, angle.c.0);
    let board = Board::lengths(units);
    let unit = board.unit();
    let [long, wide, read] = [a, b, c].map(|mm| board.shown(mm));
    let [aa, bb, cc] = [long, wide, read].map(|figure| board.round(figure * figure));
    let over = board.round(aa + bb - cc);
    let twice = board.round(2.0 * long * wide);
    let cosine = over / twice;
    let off = board.shown(angle.at.0) * cosine.abs();
    let mut steps = board::squares(board, units, ("along one side", a), ("along the other", b));
    steps.extend([
        format!(
            "so square, the tape between the ends would read {} {unit}",
            units.exact(angle.square_diagonal.0)
        ),
        format!("c, as it was read = {}", board.worked(units, c)),
        format!("c² = {0} × {0} = {1} {unit}²", board.number(read), board.number(cc)),
        format!(
            "a² + b² − c² = {} + {} − {} = {} {unit}²",
            board.number(aa),
            board.number(bb),
            board.number(cc),
            board.number(over)
        ),
        format!(
            "2 × a × b = 2 × {} × {} = {} {unit}²",
            board.number(long),
            board.number(wide),
            board.number(twice)
        ),
        format!("cos θ = {} ÷ {} = {}", board.number(over), board.number(twice), printed(cosine, 9)),
        format!("θ = {}°", decimal(angle.angle_deg.0, 3)),
        format!(
            "at the end of the longer side: {} × {} = {} {unit} off the square, {}",
            board.number(board.shown(angle.at.0)),
            decimal(cosine.abs(), 9),
            board.number(off),
            if angle.out_of_square.0 < 0.0 { "inwards" } else { "outwards" },
        ),
        format!(
            "on the tape, to the nearest {}: {}",
            step(units),
            units.with_unit(angle.out_of_square.0.abs())
        ),
    ]);
    Steps {
        title: match &found.name {
            Some(name) => format!("Corner {name} as found"),
            None => "The corner as found".to_owned(),
        },
        steps,
    }
}
