//! Lengths of timber drawn in characters, to scale: each piece with its name and length, and the offcut.

use crate::length::Units;
use crate::stock::Bar;

/// A drawing of so many columns for each bar, with its label before it; where a piece is too small on the drawing to be
/// named, a list follows.
pub(super) fn drawings(bars: &[(String, &Bar)], units: Units, columns: usize) -> Vec<String> {
    let longest = bars.iter().map(|(_, bar)| bar.stock.to_mm().0).fold(1.0, f64::max);
    let labels = bars.iter().map(|(label, _)| label.chars().count()).max().unwrap_or(0);
    let room = columns.saturating_sub(labels + 2);
    let mut lines = vec![];
    for (label, bar) in bars {
        let (drawn, complete) = drawing(bar, longest, room, units);
        lines.push(format!(" {label:>labels$} {drawn}").trim_end().to_owned());
        if !complete {
            lines.extend(list(bar, labels + 2, units, columns));
        }
    }
    lines
}

/// The bar to scale, and whether everything on it could be named. More pieces than the page has columns for are one.
fn drawing(bar: &Bar, longest: f64, room: usize, units: Units) -> (String, bool) {
    let each: Vec<Drawn> = bar
        .pieces
        .iter()
        .map(|piece| {
            let length = piece.length.to_mm().0;
            let figure = units.figure(length);
            let full = if piece.name.is_empty() { figure } else { format!("{} {figure}", piece.name) };
            Drawn { length, full, short: piece.name.clone() }
        })
        .collect();
    to_scale(bar, &each, longest, room, units).unwrap_or_else(|| {
        let full = format!("{} pieces", each.len());
        let all = Drawn { length: each.iter().map(|piece| piece.length).sum(), short: full.clone(), full };
        let (drawn, _) = to_scale(bar, &[all], longest, room, units).unwrap_or_default();
        (drawn, false)
    })
}

/// A piece as it is drawn: its length, mm, and what may stand in it.
struct Drawn {
    length: f64,
    full: String,
    short: String,
}

/// The same with these pieces; `None` if the least columns of each push the drawing past the page.
fn to_scale(bar: &Bar, pieces: &[Drawn], longest: f64, room: usize, units: Units) -> Option<(String, bool)> {
    let column = |mm: f64| columns(mm / longest * (room - 1) as f64);
    let mut drawn = "├".to_owned();
    let (mut at, mut column_at, mut complete) = (0.0, 0, true);
    let stock = bar.stock.to_mm().0;
    let cut: f64 = pieces.iter().map(|piece| piece.length).sum();
    let offcut = bar.offcut.to_mm().0;
    // Kerfs and trim are shared out between the pieces, so that the drawing ends where the timber does.
    let stretch = if cut > 0.0 { (stock - offcut) / cut } else { 1.0 };
    for (place, piece) in pieces.iter().enumerate() {
        at += piece.length * stretch;
        let to = column(at).max(column_at + 1);
        let inside = to - column_at - 1;
        let labels = [piece.full.as_str(), piece.short.as_str(), ""];
        let named = labels.into_iter().find(|label| label.chars().count() <= inside).unwrap_or("");
        complete &= named == piece.full;
        drawn.push_str(&filled(named, inside, '─'));
        drawn.push(if place + 1 == pieces.len() { '┤' } else { '┼' });
        column_at = to;
    }
    let end = column(stock);
    let inside = end.saturating_sub(column_at);
    let figure = units.figure(offcut);
    let named = if figure.chars().count() <= inside && offcut > 0.0 { figure.as_str() } else { "" };
    drawn.push_str(&filled(named, inside, '░'));
    (column_at < room).then_some((drawn, complete))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place on the page, 0 to 80")]
fn columns(place: f64) -> usize {
    place.round().max(0.0) as usize
}

/// A label in the middle of so many columns of `fill`.
fn filled(label: &str, columns: usize, fill: char) -> String {
    let label = if label.is_empty() || label.chars().count() + 2 > columns {
        label.to_owned()
    } else {
        format!(" {label} ")
    };
    let rest = columns.saturating_sub(label.chars().count());
    let before: String = std::iter::repeat_n(fill, rest / 2).collect();
    let after: String = std::iter::repeat_n(fill, rest - rest / 2).collect();
    format!("{before}{label}{after}")
}

/// The pieces and the offcut in words, under the drawing.
fn list(bar: &Bar, indent: usize, units: Units, columns: usize) -> Vec<String> {
    let mut items: Vec<(String, usize)> = vec![];
    for piece in &bar.pieces {
        let length = units.figure(piece.length.to_mm().0);
        let item = if piece.name.is_empty() { length } else { format!("{} {length}", piece.name) };
        match items.last_mut() {
            Some((last, count)) if *last == item => *count += 1,
            _ => items.push((item, 1)),
        }
    }
    let mut words: Vec<String> = items
        .into_iter()
        .map(|(item, count)| if count > 1 { format!("{count} × {item}") } else { item })
        .collect();
    words.push(format!("offcut {}", units.figure(bar.offcut.to_mm().0)));
    let mut lines: Vec<String> = vec![];
    for (place, word) in words.iter().enumerate() {
        let word = if place + 1 < words.len() { format!("{word},") } else { word.clone() };
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= columns => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(format!("{:indent$}{word}", "")),
        }
    }
    lines
}
