//! The arithmetic of every step that is shown, done again from the words of the step: what stands before an `=` comes to
//! what stands after it, to half of the last decimal shown.

use pegline::answer::Question;
use pegline::length::Units;
use pegline::practice::{Level, Topic};
use serde_json::Value;

use crate::answers_support::jobs;
use crate::practice_support::drawn;
use crate::program::pegline;

/// One sign of a sum.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Sign {
    Number(f64),
    Op(char),
}

/// A number and how far from it a rounded one may be; the rest of the text.
fn number(text: &str) -> Option<(f64, f64, &str)> {
    let digits = |c: char| c.is_ascii_digit();
    let mut end = text.find(|c| !digits(c)).unwrap_or(text.len());
    if end == 0 {
        return None;
    }
    // Digits grouped in threes.
    while let Some(group) = text[end..].strip_prefix(' ') {
        let length = group.find(|c| !digits(c)).unwrap_or(group.len());
        if length != 3 || end > 3 && text[..end].rfind(' ').is_none() {
            break;
        }
        end += 4;
    }
    let mut decimals = 0;
    if let Some(part) = text[end..].strip_prefix('.') {
        decimals = part.find(|c| !digits(c)).unwrap_or(part.len());
        if decimals > 0 {
            end += 1 + decimals;
        }
    }
    let value: f64 = text[..end].replace(' ', "").parse().ok()?;
    let half = 0.5 * 0.1_f64.powi(i32::try_from(decimals).ok()?);
    Some((value, half, &text[end..]))
}

/// Inches and parts of one: `6-1/2"`, `1/2"`, `6"`.
fn inches(text: &str) -> Option<(f64, &str)> {
    let end = text.find('"')?;
    let (word, rest) = (&text[..end], &text[end + 1..]);
    let part = |text: &str| -> Option<f64> {
        match text.split_once('/') {
            Some((top, bottom)) => Some(top.parse::<f64>().ok()? / bottom.parse::<f64>().ok()?),
            None => text.parse().ok(),
        }
    };
    let value = match word.split_once('-') {
        Some((whole, more)) => whole.parse::<f64>().ok()? + part(more)?,
        None => part(word)?,
    };
    (!word.contains(' ')).then_some((value, rest))
}

/// A length in feet and inches, in inches.
fn feet(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit()).filter(|end| *end > 0);
    if let Some((end, rest)) = end.and_then(|end| Some((end, text[end..].strip_prefix("'")?))) {
        let whole = 12.0 * text[..end].parse::<f64>().ok()?;
        let more = rest.strip_prefix(' ').and_then(inches);
        return Some(more.map_or((whole, rest), |(part, rest)| (whole + part, rest)));
    }
    inches(text)
}

const UNITS: [&str; 16] =
    ["mm²", "in²", "ft²", "m²", "mm", "in", "ft", "m/s²", "g/m", "N/m", "°", "m", "N", "%", "lb/ft", "lb"];

/// A sum's signs and the half of its last decimal; nothing if there is anything else in it.
fn signs(text: &str) -> Option<(Vec<Sign>, f64)> {
    let mut rest = text.trim();
    let mut found = vec![];
    let mut half = 0.0;
    while !rest.is_empty() {
        rest = rest.trim_start();
        if let Some((value, after)) = feet(rest) {
            found.push(Sign::Number(value));
            rest = after;
            continue;
        }
        if let Some((value, off, after)) = number(rest) {
            found.push(Sign::Number(value));
            half = off;
            rest = after;
            let after = rest.trim_start();
            if let Some(unit) = UNITS.iter().find(|unit| {
                after.strip_prefix(**unit).is_some_and(|next| !next.starts_with(char::is_alphanumeric))
            }) {
                rest = &after[unit.len()..];
            } else if let Some(after) = rest.strip_prefix('²') {
                found.push(Sign::Op('²'));
                rest = after;
            }
            continue;
        }
        let sign = rest.chars().next()?;
        if !"+−×÷()√".contains(sign) {
            return None;
        }
        found.push(Sign::Op(sign));
        rest = &rest[sign.len_utf8()..];
    }
    Some((found, half))
}

/// What a sum comes to, × and ÷ before + and −.
fn value(signs: &[Sign], at: &mut usize, level: u8) -> Option<f64> {
    match level {
        0 => {
            let mut sum = value(signs, at, 1)?;
            while let Some(Sign::Op(op @ ('+' | '−'))) = signs.get(*at) {
                *at += 1;
                let next = value(signs, at, 1)?;
                sum += if *op == '+' { next } else { -next };
            }
            Some(sum)
        }
        1 => {
            let mut product = value(signs, at, 2)?;
            while let Some(Sign::Op(op @ ('×' | '÷'))) = signs.get(*at) {
                *at += 1;
                let next = value(signs, at, 2)?;
                product = if *op == '×' { product * next } else { product / next };
            }
            Some(product)
        }
        _ => {
            let found = match signs.get(*at)? {
                Sign::Number(number) => {
                    *at += 1;
                    *number
                }
                Sign::Op('−') => {
                    *at += 1;
                    -value(signs, at, 2)?
                }
                Sign::Op('√') => {
                    *at += 1;
                    value(signs, at, 2)?.sqrt()
                }
                Sign::Op('(') => {
                    *at += 1;
                    let inside = value(signs, at, 0)?;
                    (signs.get(*at) == Some(&Sign::Op(')'))).then_some(())?;
                    *at += 1;
                    inside
                }
                Sign::Op(_) => return None,
            };
            if signs.get(*at) == Some(&Sign::Op('²')) {
                *at += 1;
                return Some(found * found);
            }
            Some(found)
        }
    }
}

fn comes_to(text: &str) -> Option<(f64, f64, usize)> {
    let (signs, half) = signs(text)?;
    let mut at = 0;
    let found = value(&signs, &mut at, 0)?;
    (at == signs.len()).then_some((found, half, signs.len()))
}

/// How many sums of a step were done again; those that are wrong go to the `faults`.
fn checked(step: &str, faults: &mut Vec<String>) -> usize {
    let parts: Vec<&str> = step.split(" = ").collect();
    let mut count = 0;
    for pair in parts.windows(2) {
        // What is said before a colon, and after a comma, is no part of the sum.
        let sum = pair[0].rsplit(": ").next().unwrap();
        let result = pair[1].split([',', ';', ':']).next().unwrap();
        let (Some((left, _, signs)), Some((right, half, _))) = (comes_to(sum), comes_to(result)) else {
            continue;
        };
        if signs > 1 {
            if (left - right).abs() > half * 1.000_001 + 1e-9 {
                faults.push(format!("{sum} is {left}, not {result}: {step}"));
            }
            count += 1;
        }
    }
    count
}

#[test]
fn the_checker_sees_a_wrong_sum() {
    let mut faults = vec![];
    assert_eq!(checked("a² = 4050 × 4050 = 16 402 500 mm²", &mut faults), 1);
    assert_eq!(checked("BC: 14' 6-1/2\" − 3-1/2\" = 14' 3\"", &mut faults), 1);
    assert!(faults.is_empty(), "{faults:?}");
    for (i, wrong) in ["c = √25 = 6 mm", "x: 3 × (2 − 5) = −8 mm", "12 ÷ 7 = 1.72"].into_iter().enumerate()
    {
        checked(wrong, &mut faults);
        assert_eq!(faults.len(), i + 1, "{wrong}");
    }
}

/// The worked examples of a command's answer to a job: their steps.
fn worked(command: &str, job: &Value) -> Vec<Vec<String>> {
    let ran = pegline([command, "--job", "-", "--working", "--json"]).input(job.to_string()).run();
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    let examples = json["working"].as_array().into_iter().flatten();
    let steps = |example: &Value| {
        let steps = example["steps"].as_array().unwrap();
        steps.iter().map(|step| step.as_str().unwrap().to_owned()).collect()
    };
    examples.map(steps).collect()
}

#[test]
fn every_step_of_every_commands_working_is_right_as_it_is_shown() {
    let (mut sums, mut faults) = (0, vec![]);
    for worked_job in jobs() {
        for command in Question::ALL
            .map(Question::name)
            .into_iter()
            .filter(|name| !matches!(*name, "sketch" | "sheet" | "day"))
        {
            let examples = worked(command, &worked_job.job);
            sums += examples.iter().flatten().map(|step| checked(step, &mut faults)).sum::<usize>();
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(sums > 1000, "{sums} sums were done again");
}

#[test]
fn every_step_of_every_topics_working_is_right_as_it_is_shown() {
    for topic in Topic::ALL {
        let (mut sums, mut faults) = (0, vec![]);
        for seed in 0..60 {
            for level in Level::ALL {
                for units in [Units::Mm, Units::FeetInches] {
                    let sheet = drawn(topic, level, seed, 1, units);
                    sums += sheet.questions[0]
                        .working
                        .iter()
                        .map(|step| checked(step, &mut faults))
                        .sum::<usize>();
                }
            }
        }
        assert!(faults.is_empty(), "{}: {}", topic.name(), faults.join("\n"));
        assert!(sums > 100, "{}: {sums} sums were done again", topic.name());
    }
}
