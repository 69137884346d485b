//! The small texts of a taping: a line and what was read of it, how warm the blade was, how it hung.

use crate::job::cursor::Cursor;
use crate::length::{Length, MM_PER_FOOT, Units};
use crate::plan::Footprint;
use crate::readings::Sag;
use crate::sag::{GRAMS_PER_POUND, NEWTONS_PER_POUND};

/// Reads `AB=7802`, `AB 7802` or `AB:7802`: the two corners, the lower index first, and the length as it was typed, which may be negative.
pub(super) fn line_and_length<'a>(
    text: &'a str,
    footprint: &Footprint,
    at: Cursor<'_>,
) -> Result<((usize, usize), &'a str, Length), String> {
    let text = text.trim();
    let Some((name, value)) = text.split_once('=').or_else(|| text.split_once([':', ' '])) else {
        let next = at.units.example("", "; a shell takes ' and \" away");
        return Err(format!(
            "`{text}` is not a reading: write the line and what the tape read, as AB={} (a comma starts the next{next})",
            example(at.units)
        ));
    };
    let line = footprint.parse_line(name).ok_or_else(|| no_line(text, name.trim(), footprint, at.units))?;
    let length =
        at.length(value).map_err(|problem| format!("{}: {problem}", footprint.line_name(line.0, line.1)))?;
    Ok((line, value, length))
}

/// A reading as it may be typed.
const fn example(units: Units) -> &'static str {
    units.example("7802", "25ft7-1/8in")
}

/// Why `name` is no line of the outline.
fn no_line(text: &str, name: &str, footprint: &Footprint, units: Units) -> String {
    let example = example(units);
    let letters: Vec<char> = name.chars().collect();
    let [first, second] = letters[..] else {
        return format!("`{text}`: `{name}` is not a line: write its two corners, as AB={example}");
    };
    let strange = [first, second].into_iter().find(|letter| footprint.corner_index(*letter).is_none());
    match strange {
        Some(letter) => format!(
            "`{text}`: there is no corner {letter}: the corners are A to {}",
            footprint.corners()[footprint.len() - 1].name
        ),
        None => {
            format!("`{text}`: from {first} to {second} is no distance: write two corners, as AB={example}")
        }
    }
}

/// Reads `4C`, `39F` or a bare number of °C.
pub(super) fn celsius(text: &str) -> Result<f64, String> {
    let wrong = || format!("`{}` is not a temperature: write 4C or 39F, -60 to 80 °C", text.trim());
    let plain = text.trim().to_ascii_uppercase().replace(['°', ' '], "").replace('−', "-");
    let (number, fahrenheit) = match plain.strip_suffix('F') {
        Some(number) => (number, true),
        None => (plain.strip_suffix('C').unwrap_or(&plain), false),
    };
    let degrees: f64 = number.parse().map_err(|_| wrong())?;
    let celsius = if fahrenheit { (degrees - 32.0) / 1.8 } else { degrees };
    if (-60.0..=80.0).contains(&celsius) { Ok(celsius) } else { Err(wrong()) }
}

/// Reads `19,50`, `19 g/m, 50 N, 2 spans` or `0.0128lb/ft,11lb`: what a blade weighs, the pull, and the spans it hung in.
pub(super) fn hanging(text: &str) -> Result<Sag, String> {
    let wrong = || {
        format!(
            "`{}` is not how a tape hangs: write what the blade weighs, the pull, and the spans if more than one: 19,50 or \
             19,50,2 in grams a metre and newtons, or 0.0128lb/ft,11lb",
            text.trim()
        )
    };
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let number = |part: &str, units: [(&str, f64); 3]| {
        let unit = units.iter().find_map(|(unit, worth)| Some((part.strip_suffix(unit)?, *worth)));
        let (bare, worth) = unit.unwrap_or((part, 1.0));
        bare.trim().parse::<f64>().map(|figure| figure * worth).map_err(|_| wrong())
    };
    let (mass, pull, spans) = match parts[..] {
        [mass, pull] => (mass, pull, "1"),
        [mass, pull, spans] => (mass, pull, spans),
        _ => return Err(wrong()),
    };
    let spans = spans.trim_end_matches("spans").trim_end_matches("span").trim();
    let sag = Sag {
        mass: number(mass, [("g/m", 1.0), ("g", 1.0), ("lb/ft", GRAMS_PER_POUND / MM_PER_FOOT * 1000.0)])?,
        pull: number(pull, [("N", 1.0), ("n", 1.0), ("lb", NEWTONS_PER_POUND)])?,
        spans: spans.parse().map_err(|_| wrong())?,
    };
    let sane = (0.0..=1000.0).contains(&sag.mass)
        && (1.0..=1000.0).contains(&sag.pull)
        && (1..=1000).contains(&sag.spans);
    if sane { Ok(sag) } else { Err(wrong()) }
}
