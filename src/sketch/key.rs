//! The key and the title block at the foot of the sheet, and the north arrow.

use super::drawing::{CheckUse, Drawing};
use super::elements::{Label, Line, Mark, Part, Pen, Wording};
use super::lettering::Lettering;
use super::scale::Scale;
use super::scene::Figure;
use super::shape::{Extent, Frame};
use super::sheet::Sheet;
use crate::geometry::Point;
use crate::length::Units;

/// Height of a line of the key, mm.
const KEY_LINE: f64 = 4.2;
/// Width of a sample in it, mm.
const SAMPLE: f64 = 13.5;
/// Height of the title block, mm: a row that holds two lines under its caption, and a row that holds one.
const TITLE_HEIGHT: f64 = 22.0;
/// Height of its upper row, mm.
const UPPER_ROW: f64 = 12.0;
/// Width of the cells right of the job's, mm.
const CELLS: [f64; 2] = [44.0, 36.0];
/// Said on anything that goes to where pegs are driven.
const CAUTION: &str = "Caution: check for buried services before driving pegs";

/// The foot of the sheet and the border round all of it.
pub(super) struct Foot {
    pub(super) figure: Figure,
    /// Where it begins, mm down the sheet.
    pub(super) top: f64,
}

/// Draws the foot of `sheet`.
pub(super) fn foot(drawing: &Drawing, sheet: Sheet, scale: Scale) -> Foot {
    let inside = sheet.inside();
    let mut figure = Figure::default();
    // Upright, the key lies over the title block; lying, at its left.
    let (key_width, title_left) = match sheet {
        Sheet::Portrait => (inside.width(), inside.left),
        Sheet::Landscape => (inside.width() - 145.0, inside.right - 145.0),
    };
    let entries = entries(drawing, key_width - SAMPLE - 8.0);
    let lines: usize = entries.iter().map(|entry| entry.text.len()).sum();
    let key_height = lines as f64 * KEY_LINE + 3.0;
    let top = match sheet {
        Sheet::Portrait => inside.bottom - TITLE_HEIGHT - key_height,
        Sheet::Landscape => inside.bottom - key_height.max(TITLE_HEIGHT),
    };
    key(&mut figure, &entries, inside.left, top);
    title(
        &mut figure,
        drawing,
        scale,
        Extent { left: title_left, top: inside.bottom - TITLE_HEIGHT, ..inside },
    );
    let around = vec![
        Point::new(inside.left, inside.top),
        Point::new(inside.right, inside.top),
        Point::new(inside.right, inside.bottom),
        Point::new(inside.left, inside.bottom),
    ];
    figure.lines.push(Line::new(Part::Border, Pen::Wide, around).closed());
    rule(&mut figure, Pen::Narrow, (inside.left, top), (inside.right, top));
    Foot { figure, top }
}

fn rule(figure: &mut Figure, pen: Pen, from: (f64, f64), to: (f64, f64)) {
    let ends = vec![Point::new(from.0, from.1), Point::new(to.0, to.1)];
    figure.lines.push(Line::new(Part::Border, pen, ends));
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sample {
    House,
    Line(Pen),
    Anchor,
    Board,
    None,
}

struct Entry {
    sample: Sample,
    text: Vec<String>,
}

fn entries(drawing: &Drawing, width: f64) -> Vec<Entry> {
    let mut entries = vec![];
    let mut add = |sample: Sample, text: &str| {
        entries.push(Entry { sample, text: Lettering::Small.wrap(text, width) });
    };
    if drawing.footprint.sides().iter().any(|side| side.house) {
        add(Sample::House, "existing wall");
    }
    for (purpose, pen, words) in
        [(CheckUse::Proof, Pen::Chain, "proof set"), (CheckUse::Spare, Pen::Dashed, "spare")]
    {
        // A size stays on one line with its name.
        let sizes: Vec<String> = drawing
            .checks
            .iter()
            .filter(|check| check.purpose == purpose)
            .filter_map(|check| {
                let corners = drawing.footprint.corners();
                let length = corners.get(check.from)?.at.distance(corners.get(check.to)?.at);
                let name = drawing.footprint.line_name(check.from, check.to);
                let glued = drawing.units.figure(length).replace(' ', "\u{a0}");
                Some(format!("{name}\u{a0}{glued}"))
            })
            .collect();
        if !sizes.is_empty() {
            add(Sample::Line(pen), &format!("{words}: {}", sizes.join(", ")));
        }
    }
    if !drawing.anchors.is_empty() {
        add(Sample::Anchor, "anchor");
    }
    if !drawing.boards.is_empty() {
        add(Sample::Board, "profile board with nails");
    }
    if !drawing.strings.is_empty() {
        add(Sample::Line(Pen::Narrow), "string line");
    }
    add(Sample::None, CAUTION);
    entries
}

fn key(figure: &mut Figure, entries: &[Entry], left: f64, top: f64) {
    let mut y = top + 1.5;
    for entry in entries {
        let middle = y + KEY_LINE / 2.0;
        let (from, to) = (left + 3.0, left + 3.0 + SAMPLE);
        sample(figure, entry.sample, (from, to), middle);
        let text_left = if entry.sample == Sample::None { from } else { to + 2.5 };
        for text in &entry.text {
            let base = y + KEY_LINE / 2.0 + Lettering::Small.capitals() / 2.0;
            let text = text.replace('\u{a0}', " ");
            figure.labels.push(Label::from_left(
                Wording::Key,
                text,
                Lettering::Small,
                Point::new(text_left, base),
            ));
            y += KEY_LINE;
        }
    }
}

fn sample(figure: &mut Figure, sample: Sample, (from, to): (f64, f64), y: f64) {
    let across = |y: f64| vec![Point::new(from, y), Point::new(to, y)];
    match sample {
        Sample::None => {}
        Sample::Line(pen) => figure.lines.push(Line::new(Part::Key, pen, across(y))),
        Sample::House => {
            let (low, high) = (y + 1.2, y - 1.2);
            figure.lines.push(Line::new(Part::Key, Pen::Wide, across(low)));
            let mut x = from;
            while x + 2.4 <= to {
                let ends = vec![Point::new(x, low), Point::new(x + 2.4, high)];
                figure.lines.push(Line::new(Part::Key, Pen::Narrow, ends));
                x += 2.0;
            }
        }
        Sample::Anchor => {
            let middle = Point::new(f64::midpoint(from, to), y);
            figure.marks.push(Mark { part: Part::Key, middle, radius: 1.0, filled: false });
            for (dx, dy) in [(1.6, 0.0), (0.0, 1.6)] {
                let ends = [-1.0, 1.0].map(|s| Point::new(middle.x + s * dx, middle.y + s * dy));
                figure.lines.push(Line::new(Part::Key, Pen::Narrow, ends.to_vec()));
            }
        }
        Sample::Board => {
            figure.lines.push(Line::new(Part::Key, Pen::Wide, across(y)));
            figure.marks.push(Mark {
                part: Part::Key,
                middle: Point::new(f64::midpoint(from, to), y),
                radius: 0.6,
                filled: true,
            });
        }
    }
}

const fn units_in_words(units: Units) -> &'static str {
    match units {
        Units::Mm => "millimetres",
        Units::M => "metres",
        Units::FeetInches => "feet, inches",
    }
}

fn title(figure: &mut Figure, drawing: &Drawing, scale: Scale, area: Extent) {
    rule(figure, Pen::Wide, (area.left, area.top), (area.right, area.top));
    rule(figure, Pen::Wide, (area.left, area.top), (area.left, area.bottom));
    let columns = [area.left, area.right - CELLS[0] - CELLS[1], area.right - CELLS[1], area.right];
    let middle = area.top + UPPER_ROW;
    rule(figure, Pen::Narrow, (area.left, middle), (area.right, middle));
    for x in &columns[1..3] {
        rule(figure, Pen::Narrow, (*x, area.top), (*x, area.bottom));
    }
    let job = drawing.title.job.as_deref().unwrap_or("");
    let date = drawing.title.date.as_deref().unwrap_or("");
    let scale = scale.to_string();
    let cells = [
        (0, area.top, "Job", job),
        (1, area.top, "Date", date),
        (2, area.top, "Sheet", "A4"),
        (0, middle, "Drawing", "Setting-out plan"),
        (1, middle, "Scale", &scale),
        (2, middle, "Sizes in", units_in_words(drawing.units)),
    ];
    for (column, top, caption, value) in cells {
        let (left, width) = (columns[column] + 1.5, columns[column + 1] - columns[column] - 3.0);
        figure.labels.push(Label::from_left(
            Wording::Title,
            caption,
            Lettering::Small,
            Point::new(left, top + 3.3),
        ));
        let (lettering, lines) = fitted(value, width, if top < middle { 2 } else { 1 });
        let count = lines.len();
        for (i, line) in lines.into_iter().enumerate() {
            let base = match (count, i) {
                (1, _) if top < middle => top + 9.6,
                (1, _) => top + 8.2,
                (_, 0) => top + 7.0,
                _ => top + 10.7,
            };
            figure.labels.push(Label::from_left(Wording::Title, line, lettering, Point::new(left, base)));
        }
    }
}

/// A value in one line of medium or as many as `most` of small lettering; what is over is cut off.
fn fitted(value: &str, width: f64, most: usize) -> (Lettering, Vec<String>) {
    let value = value.split_whitespace().collect::<Vec<_>>().join(" ");
    if Lettering::Medium.width(&value) <= width {
        let lines = if value.is_empty() { vec![] } else { vec![value] };
        return (Lettering::Medium, lines);
    }
    let mut lines = Lettering::Small.wrap(&value, width);
    if lines.len() > most {
        let rest = lines.split_off(most - 1).join(" ");
        lines.push(Lettering::Small.cut(&rest, width));
    }
    (Lettering::Small, lines)
}

/// Puts the north arrow in the first free place of `area`, from its top right; false where there is none.
pub(super) fn north(figure: &mut Figure, degrees: f64, area: Extent) -> bool {
    const RADIUS: f64 = 6.0;
    const STEP: f64 = 4.0;
    let size = 2.0 * (RADIUS + 5.5);
    let mut y = area.top + size / 2.0;
    while y <= area.bottom - size / 2.0 {
        let mut x = area.right - size / 2.0;
        while x >= area.left + size / 2.0 {
            let frame = Frame::level(Point::new(x, y), size, size);
            if is_free(figure, frame) {
                arrow(figure, frame.middle, degrees, RADIUS);
                return true;
            }
            x -= STEP;
        }
        y += STEP;
    }
    false
}

fn is_free(figure: &Figure, frame: Frame) -> bool {
    let grown = frame.grown(1.0).laid();
    let marks = figure.marks.iter().map(|mark| Frame::level(mark.middle, 2.0, 2.0));
    let texts = figure.labels.iter().map(|label| label.frame);
    let mut lines = figure.lines.iter().flat_map(Line::segments);
    !lines.any(|segment| grown.is_crossed_by(segment))
        && !marks.chain(texts).any(|other| grown.overlaps(&other.laid()))
}

fn arrow(figure: &mut Figure, middle: Point, degrees: f64, radius: f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let polar = |along: f64, across: f64| {
        Point::new(middle.x + sin * along + cos * across, middle.y - cos * along + sin * across)
    };
    figure.marks.push(Mark { part: Part::North, middle, radius, filled: false });
    let shaft = vec![polar(-radius, 0.0), polar(radius, 0.0)];
    figure.lines.push(Line::new(Part::North, Pen::Narrow, shaft));
    let mut head = Line::new(
        Part::North,
        Pen::Narrow,
        vec![polar(radius, 0.0), polar(radius - 4.5, 1.5), polar(radius - 4.5, -1.5)],
    )
    .closed();
    head.filled = true;
    figure.lines.push(head);
    let mut label = Label::new(Wording::North, "N", Lettering::Medium, polar(radius + 3.0, 0.0));
    "north".clone_into(&mut label.name);
    figure.labels.push(label);
}
