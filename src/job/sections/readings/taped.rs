//! The small texts of a taping: a line and what was read of it, how warm the blade was, how it hung.

use crate::length::{Length, Units};
use crate::plan::Footprint;
use crate::readings::Sag;

/// Reads `AB=7802`, `AB 7802` or `AB:7802`: the two corners, the lower index first, and the length as it was typed, which may be negative.
pub(super) fn line_and_length<'a>(
    text: &'a str,
    footprint: &Footprint,
    default_units: Units,
) -> Result<((usize, usize), &'a str, Length), String> {
    let text = text.trim();
    let Some((name, value)) = text.split_once('=').or_else(|| text.split_once([':', ' '])) else {
        return Err(format!(
            "`{text}` is not a reading: write the line and what the tape read, as AB=7802 (a comma starts the next)"
        ));
    };
    let line = footprint.parse_line(name).ok_or_else(|| no_line(text, name.trim(), footprint))?;
    let length = Length::parse(value, default_units)
        .map_err(|error| format!("{}: {error}", footprint.line_name(line.0, line.1)))?;
    Ok((line, value, length))
}

/// Why `name` is no line of the outline.
fn no_line(text: &str, name: &str, footprint: &Footprint) -> String {
    let letters: Vec<char> = name.chars().collect();
    let [first, second] = letters[..] else {
        return format!("`{text}`: `{name}` is not a line: write its two corners, as AB=7802");
    };
    let strange = [first, second].into_iter().find(|letter| footprint.corner_index(*letter).is_none());
    match strange {
        Some(letter) => format!(
            "`{text}`: there is no corner {letter}: the corners are A to {}",
            footprint.corners()[footprint.len() - 1].name
        ),
        None => format!("`{text}`: from {first} to {second} is no distance: write two corners, as AB=7802"),
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

/// Reads `19,50` or `19 g/m, 50 N, 2 spans`: a blade's grams per metre, the pull, and the spans it hung in.
pub(super) fn hanging(text: &str) -> Result<Sag, String> {
    let wrong = || {
        format!(
            "`{}` is not how a tape hangs: write the blade's grams per metre, the pull in newtons, and the spans if more \
             than one: 19,50 or 19,50,2",
            text.trim()
        )
    };
    let parts: Vec<&str> = text.split(',').map(str::trim).collect();
    let number = |part: &str, units: [&str; 2]| {
        let bare = units.iter().find_map(|unit| part.strip_suffix(unit)).unwrap_or(part);
        bare.trim().parse::<f64>().map_err(|_| wrong())
    };
    let (mass, pull, spans) = match parts[..] {
        [mass, pull] => (mass, pull, "1"),
        [mass, pull, spans] => (mass, pull, spans),
        _ => return Err(wrong()),
    };
    let spans = spans.trim_end_matches("spans").trim_end_matches("span").trim();
    let sag = Sag {
        mass: number(mass, ["g/m", "g"])?,
        pull: number(pull, ["N", "n"])?,
        spans: spans.parse().map_err(|_| wrong())?,
    };
    let sane = (0.0..=1000.0).contains(&sag.mass)
        && (1.0..=1000.0).contains(&sag.pull)
        && (1..=1000).contains(&sag.spans);
    if sane { Ok(sag) } else { Err(wrong()) }
}
