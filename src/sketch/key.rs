//! The key: the scale bar, what each kind of line is, and the lines to tape with their lengths.

use super::bar::Bar;
use super::drawing::{CheckUse, Drawing};
use super::elements::{Label, Line, Mark, Part, Pen, Wording};
use super::lettering::Lettering;
use super::outline;
use super::scale::Scale;
use super::scene::Figure;
use crate::geometry::Point;

/// Height of a line of the key, mm.
const LINE: f64 = 4.2;
/// Height of the scale bar with its figures, mm.
const BAR: f64 = 8.5;
/// Width of a sample, mm.
const SAMPLE: f64 = 13.5;
/// Said on anything that goes to where pegs are driven.
const CAUTION: &str = "Caution: check for buried services before driving pegs";

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sample {
    House,
    Line(Pen),
    Anchor { filled: bool },
    Board,
    Plate,
    Splice,
    None,
}

struct Entry {
    sample: Sample,
    text: Vec<String>,
}

/// The key, its entries wrapped to a width.
pub(super) struct Key {
    entries: Vec<Entry>,
    bar: Bar,
}

impl Key {
    /// The key of `drawing` at `scale`, `width` mm wide.
    pub(super) fn new(drawing: &Drawing, scale: Scale, width: f64) -> Self {
        Self { entries: entries(drawing, width - 5.5), bar: Bar::new(scale, drawing.units) }
    }

    /// Its height, mm.
    pub(super) fn height(&self) -> f64 {
        let lines: usize = self.entries.iter().map(|entry| entry.text.len()).sum();
        lines as f64 * LINE + BAR + 3.0
    }

    /// Draws it, its top left corner at (`left`, `top`).
    pub(super) fn draw(&self, figure: &mut Figure, left: f64, top: f64) {
        self.bar.draw(figure, Point::new(left + 3.0, top + BAR - 0.8));
        key(figure, &self.entries, left, top + BAR);
    }
}

fn entries(drawing: &Drawing, width: f64) -> Vec<Entry> {
    let mut entries = vec![];
    let mut add = |sample: Sample, text: &str| {
        let width = if sample == Sample::None { width } else { width - SAMPLE - 2.5 };
        entries.push(Entry { sample, text: Lettering::Small.wrap(text, width) });
    };
    if drawing.footprint.sides().iter().any(|side| side.house) {
        add(Sample::House, "existing wall");
    }
    for (purpose, pen, words) in
        [(CheckUse::Proof, Pen::Chain, "proof set"), (CheckUse::Spare, Pen::Dashed, "spare")]
    {
        let sizes = check_sizes(drawing, purpose);
        if !sizes.is_empty() {
            add(Sample::Line(pen), &format!("{words}: {}", sizes.join(", ")));
        }
    }
    if let Some(layout) = &drawing.plates {
        add(
            Sample::Plate,
            &format!(
                "plate, {} wide, each piece by its name and its length to cut",
                drawing.units.figure(layout.width)
            ),
        );
        if !layout.splices.is_empty() {
            add(Sample::Splice, "splice");
        }
        if !layout.anchors.is_empty() {
            add(Sample::Anchor { filled: true }, "anchor, marked from the run's end at its first letter");
        }
        if !layout.packs.is_empty() {
            add(Sample::None, "+7: packed up by so much there");
        }
    }
    if let Some(layout) = &drawing.joists {
        add(Sample::Line(Pen::Medium), &layout.words);
    }
    if !drawing.anchors.is_empty() {
        add(Sample::Anchor { filled: false }, "anchor");
    }
    if !drawing.boards.is_empty() {
        add(Sample::Board, "profile board, and how far off the plan its nails stand");
    }
    if !drawing.strings.is_empty() {
        add(Sample::Line(Pen::DoubleChain), "string line");
    }
    add(Sample::None, CAUTION);
    entries
}

/// The check sizes of a purpose, each on one line with its name.
fn check_sizes(drawing: &Drawing, purpose: CheckUse) -> Vec<String> {
    let corners = drawing.footprint.corners();
    let checks = drawing.checks.iter().filter(|check| check.purpose == purpose);
    checks
        .filter_map(|check| {
            let length = corners.get(check.from)?.at.distance(corners.get(check.to)?.at);
            let name = drawing.footprint.line_name(check.from, check.to);
            let glued = drawing.units.figure(length).replace(' ', "\u{a0}");
            Some(format!("{name}\u{a0}{glued}"))
        })
        .collect()
}

fn key(figure: &mut Figure, entries: &[Entry], left: f64, top: f64) {
    let mut y = top + 1.5;
    for entry in entries {
        let middle = y + LINE / 2.0;
        let (from, to) = (left + 3.0, left + 3.0 + SAMPLE);
        sample(figure, entry.sample, (from, to), middle);
        let text_left = if entry.sample == Sample::None { from } else { to + 2.5 };
        for text in &entry.text {
            let base = y + LINE / 2.0 + Lettering::Small.capitals() / 2.0;
            let text = text.replace('\u{a0}', " ");
            figure.labels.push(Label::from_left(
                Wording::Key,
                text,
                Lettering::Small,
                Point::new(text_left, base),
            ));
            y += LINE;
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
        Sample::Plate => {
            let ends = [(from, -1.0), (to, -1.0), (to, 1.0), (from, 1.0)];
            let band = ends.map(|(x, d)| Point::new(x, y + d)).to_vec();
            figure.lines.push(Line::new(Part::Key, Pen::Wide, band).closed());
        }
        Sample::Splice => {
            let middle = f64::midpoint(from, to);
            let stroke = vec![Point::new(middle, y - 1.6), Point::new(middle, y + 1.6)];
            figure.lines.push(Line::new(Part::Key, Pen::Medium, stroke));
        }
        Sample::Anchor { filled } => figure.marks.push(Mark {
            part: Part::Key,
            middle: Point::new(f64::midpoint(from, to), y),
            radius: outline::ANCHOR,
            filled,
        }),
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
