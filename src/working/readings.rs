//! Taped readings by hand: what is taken off each, and one corner's angle by the cosine law.

use super::corners;
use crate::board::Board;
use crate::geometry::Mm;
use crate::job::Job;
use crate::length::Units;
use crate::page::Steps;
use crate::plan::Footprint;
use crate::readings::{ReadingLine, Readings};
use crate::square::{CornerFound, angle_found, longer_side};

/// The subtractions, then the angle at the corner that is farthest out of those whose three lines were read.
pub(crate) fn steps(answer: &Readings, footprint: &Footprint, job: &Job) -> Vec<Steps> {
    let mut steps = vec![];
    let corrected: Vec<String> = answer.readings.iter().filter_map(|line| sum(line, job.units)).collect();
    if !corrected.is_empty() {
        steps.push(Steps { title: "From what the tape read to the length".to_owned(), steps: corrected });
    }
    steps.extend(angle(answer, footprint, job));
    steps
}

/// `AB: 7900 − 100 = 7800 mm`; nothing where nothing is added or taken off.
fn sum(line: &ReadingLine, units: Units) -> Option<String> {
    let terms: Vec<String> = line
        .corrections
        .parts()
        .into_iter()
        .filter_map(|(why, part)| part.map(|part| term(part, why, units)))
        .collect();
    (!terms.is_empty()).then(|| {
        format!(
            "{}: {} {} = {}",
            line.name,
            Board::lengths(units).figure(line.read.0),
            terms.join(" "),
            Board::lengths(units).worked(units, line.used.0)
        )
    })
}

fn term(part: Mm, why: &str, units: Units) -> String {
    let sign = if part.0 < 0.0 { '−' } else { '+' };
    format!("{sign} {} ({why})", Board::lengths(units).figure(part.0.abs()))
}

/// The cosine law at the corner that is farthest out, of those where both sides and the line across them were read.
fn angle(answer: &Readings, footprint: &Footprint, job: &Job) -> Option<Steps> {
    let used = |i: usize, j: usize| {
        let name = footprint.line_name(i, j);
        answer.readings.iter().find(|line| line.name == name && !line.suspect).map(|line| line.used.0)
    };
    let n = footprint.len();
    let found = (0..n).filter_map(|corner| {
        let (before, after) = ((corner + n - 1) % n, (corner + 1) % n);
        let (a, b, c) = (used(before, corner)?, used(corner, after)?, used(before, after)?);
        let (longer, end) = longer_side(footprint, corner);
        let angle = angle_found(a, b, c, Some(longer), &job.tape).ok()?;
        let name = |corner: usize| Some(footprint.corners()[corner].name.to_string());
        Some(CornerFound { name: name(corner), end: name(end), angle, limit: None, within: None })
    });
    let worst = found.reduce(|one, other| {
        let out = |found: &CornerFound| found.angle.out_of_square.0.abs();
        if out(&other) > out(&one) { other } else { one }
    })?;
    let mut steps = corners::angle(&worst, job.units);
    steps.title = format!("{} from its two sides and the line across, before fitting", steps.title);
    Some(steps)
}
