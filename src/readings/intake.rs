//! From what the tapes read to the distances that are adjusted.
//!
//! Readings of one line by one tape that agree are averaged. Their mean carries the tape's own error whole (it is the same
//! in each) and the reading error shared out: sd² = (MPE/√3)² + max(a, p)/m. Here a is the variance expected of one reading,
//! and p pools it with the spread s² that was seen, which has m − 1 degrees of freedom and is worth little by itself:
//! p = (ν a + (m − 1) s²)/(ν + m − 1), with ν = [`PROMISED`]. Readings whose range is more than such readings have but once
//! in 1,000 are not averaged: they part at their widest gap, so that the wrong one can be named.

use crate::geometry::Mm;
use crate::length::Units;
use crate::tape::Tape;

use super::correct::{self, Corrections};
use super::error::Error;
use super::input::{Input, Reading};
use super::network::chi_square::{ALPHA_READING, joint_factor};
use super::network::observation::Observation;

/// One distance, from one or more readings of a line by one tape.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Taped {
    /// The line, with the tape or the turn where the line has several.
    pub(super) name: String,
    pub(super) tape: usize,
    pub(super) observation: Observation,
    /// Mean of what was read, mm.
    pub(super) read: f64,
    /// How many readings.
    pub(super) count: usize,
    /// Standard deviation of the readings about their mean, mm, where there are several.
    pub(super) spread: Option<f64>,
    pub(super) corrections: Corrections,
}

/// The distances, in the order in which the lines were first read.
pub(super) fn take_in(input: &Input<'_>) -> Result<Vec<Taped>, Error> {
    // A line read by one tape, in the order first met.
    let mut lines: Vec<((usize, usize, usize), Vec<Reading>)> = Vec::new();
    for reading in input.readings {
        let key = (reading.from.min(reading.to), reading.from.max(reading.to), reading.tape);
        match lines.iter_mut().find(|(other, _)| *other == key) {
            Some((_, readings)) => readings.push(*reading),
            None => lines.push((key, vec![*reading])),
        }
    }
    let mut taped = Vec::new();
    for (_, readings) in &lines {
        for group in agreeing(readings, &input.tapes[readings[0].tape].tape) {
            taped.push(average(input, &group)?);
        }
    }
    label(&mut taped, input.units);
    Ok(taped)
}

/// The readings of one line, in order of size, parted at their widest gap for as long as their range is too wide for one
/// length.
fn agreeing(readings: &[Reading], tape: &Tape) -> Vec<Vec<Reading>> {
    let mut sorted = readings.to_vec();
    sorted.sort_by(|a, b| a.value.total_cmp(&b.value));
    let sd = single_variance(tape).sqrt();
    let mut groups = Vec::new();
    let mut left = vec![sorted];
    while let Some(mut group) = left.pop() {
        let alone = group.len() < 2;
        let range = group.last().zip(group.first()).map_or(0.0, |(last, first)| last.value - first.value);
        if alone || range <= widest(group.len()) * sd {
            groups.push(group);
            continue;
        }
        // Of gaps alike, the one nearest to the middle.
        let gap =
            |i: usize| (group[i].value - group[i - 1].value, -(2.0 * i as f64 - group.len() as f64).abs());
        let at = (1..group.len()).reduce(|a, b| if gap(b) > gap(a) { b } else { a }).unwrap_or(1);
        let upper = group.split_off(at);
        left.extend([upper, group]);
    }
    groups
}

/// The range, in standard deviations, that so many readings of one length pass once in 1,000: the differences of all their
/// pairs held to that together (Bonferroni, within 0.3 % of the tables of the studentised range).
fn widest(count: usize) -> f64 {
    joint_factor(count * count.saturating_sub(1) / 2, ALPHA_READING) * std::f64::consts::SQRT_2
}

/// The variance that the tape and the hand promise is worth as many readings as have so many degrees of freedom. Ours, no
/// source.
const PROMISED: f64 = 4.0;

/// Variance of one reading about the tape's own error, mm²; never quite zero, so that a weight exists.
fn single_variance(tape: &Tape) -> f64 {
    (tape.reading.powi(2) + tape.ends.powi(2)).max(1e-4)
}

fn average(input: &Input<'_>, group: &[Reading]) -> Result<Taped, Error> {
    let (from, to, tape_index) = (group[0].from, group[0].to, group[0].tape);
    let name = input.footprint.line_name(from, to);
    let used = &input.tapes[tape_index];
    let m = group.len() as f64;
    let read = group.iter().map(|r| r.value).sum::<f64>() / m;
    let spread = (group.len() > 1)
        .then(|| (group.iter().map(|r| (r.value - read).powi(2)).sum::<f64>() / (m - 1.0)).sqrt());
    let nothing_left = |left: f64| Error::NothingLeft { line: name.clone(), value: read, left };
    let held_off = read - used.held_on;
    if held_off <= 0.0 {
        return Err(nothing_left(held_off));
    }
    let rise = group.iter().map(|r| r.rise).sum::<f64>() / m;
    let mut corrections = correct::corrections(held_off, rise, &used.conditions);
    if used.held_on > 0.0 {
        corrections.held_on = Some(Mm(-used.held_on));
    }
    let value = read + corrections.total();
    if !(value > 0.0 && value.is_finite()) {
        // A slope steeper than the line is long leaves nothing level.
        return Err(nothing_left(if value.is_finite() { value } else { 0.0 }));
    }
    let single = single_variance(&used.tape);
    let own =
        (used.tape.standard_deviation(value).powi(2) - used.tape.reading.powi(2) - used.tape.ends.powi(2))
            .max(0.0);
    let pooled = |s: f64| (PROMISED * single + (m - 1.0) * s * s) / (PROMISED + m - 1.0);
    let random = spread.map_or(single, |s| single.max(pooled(s))) / m;
    Ok(Taped {
        name,
        tape: tape_index,
        observation: Observation { from, to, value, sd: (own + random).sqrt() },
        read,
        count: group.len(),
        spread,
        corrections,
    })
}

/// Tells apart the distances of one line: by their tape, or by what was read where one tape read it twice and disagreed.
fn label(taped: &mut [Taped], units: Units) {
    let lines: Vec<(String, usize)> = taped.iter().map(|t| (t.name.clone(), t.tape)).collect();
    for (i, one) in taped.iter_mut().enumerate() {
        let (line, tape) = &lines[i];
        let same_line = lines.iter().filter(|(name, _)| name == line).count();
        let same_tape = lines.iter().filter(|other| *other == &lines[i]).count();
        if same_tape > 1 {
            one.name = match units {
                Units::Mm | Units::M => format!("{line} ({})", round_to_tenth(one.read)),
                Units::FeetInches => format!("{line} ({})", units.figure(one.read)),
            };
        } else if same_line > 1 && *tape > 0 {
            one.name = format!("{line} (tape {})", tape + 1);
        }
    }
    // A name must mean one reading, however fine the tape and whichever tape read it.
    for i in 1..taped.len() {
        let again = (1..=i + 1).find(|n| {
            let name = numbered(&taped[i].name, *n);
            taped[..i].iter().all(|other| other.name != name)
        });
        taped[i].name = numbered(&taped[i].name, again.unwrap_or(1));
    }
}

fn numbered(name: &str, n: usize) -> String {
    if n == 1 { name.to_owned() } else { format!("{name} no {n}") }
}

fn round_to_tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
