//! A scene as SVG: one drawing, millimetres, fixed decimals, nothing fetched from anywhere.

use std::fmt::Write;

use super::compose::{Strip, strip};
use super::drawing::Drawing;
use super::elements::{Label, Line, Mark, Part, Pen, Wording};
use super::scene::{Figure, Scene};
use crate::length::decimal;
use crate::markup::escaped;

/// The faces meant, which share the widths that places were found with.
const FACES: &str = "Arial, Helvetica, 'Liberation Sans', sans-serif";

/// The scene as an SVG file, ended by a line feed. It prints true to its scale on the paper that it names;
/// on a screen, which may show it at any size, it leaves the scale to its bar.
///
/// Coordinates are mm on paper to 0.01. Every text is held to the width it was given room for.
#[must_use]
pub fn svg(scene: &Scene) -> String {
    let (paper, way) = (scene.sheet.paper.name(), scene.sheet.orientation());
    let style = format!(
        "<style>@page{{size:{paper} {way};margin:0}}svg{{color-scheme:only light}}\
         @media screen{{.scale{{display:none}}}}</style>\n"
    );
    of_scene(scene, &style)
}

/// The scene as an SVG element in a page that says by itself how it is printed.
#[must_use]
pub fn svg_element(scene: &Scene) -> String {
    of_scene(scene, "")
}

/// The drawing as an SVG element for a screen too narrow for a sheet of paper: the figure with its key under it, no wider than
/// `width` mm, its lettering as large as on paper. Nothing where it does not fit at any usual scale.
#[must_use]
pub fn svg_narrow(drawing: &Drawing, width: f64) -> Option<String> {
    let Strip { title, size, figure: Figure { lines, marks, labels } } = strip(drawing, width)?;
    Some(picture(&title, size, "", (&lines, &marks, &labels)))
}

fn of_scene(scene: &Scene, style: &str) -> String {
    picture(&scene.title, scene.sheet.size(), style, (&scene.lines, &scene.marks, &scene.labels))
}

fn picture(
    title: &str,
    (width, height): (f64, f64),
    style: &str,
    (lines, marks, labels): (&[Line], &[Mark], &[Label]),
) -> String {
    let mut out = String::new();
    // Writing to a string can't fail.
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\">\n<title>{}</title>\n\
         {style}<rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>",
        escaped(title)
    );
    let _ =
        writeln!(out, "<g fill=\"none\" stroke=\"#000\" stroke-linecap=\"butt\" stroke-linejoin=\"miter\">");
    for group in lines.chunk_by(|a, b| key(a) == key(b)) {
        path(&mut out, group);
    }
    for circle in marks {
        mark(&mut out, circle);
    }
    let _ = writeln!(out, "</g>\n<g fill=\"#000\" font-family=\"{FACES}\" text-anchor=\"middle\">");
    for text in labels {
        label(&mut out, text);
    }
    out.push_str("</g>\n</svg>\n");
    out
}

/// Lines alike in this are drawn as one path.
fn key(line: &Line) -> (Part, Pen, bool, &str) {
    (line.part, line.pen, line.filled, &line.name)
}

fn path(out: &mut String, group: &[Line]) {
    let Some(first) = group.first() else { return };
    let mut path = String::new();
    for line in group {
        for (i, p) in line.points.iter().enumerate() {
            let command = if i == 0 { 'M' } else { 'L' };
            let _ = write!(path, "{command}{} {}", decimal(p.x, 2), decimal(p.y, 2));
        }
        if line.closed {
            path.push('Z');
        }
    }
    let _ = write!(out, "<path class=\"{}\"", class(first.part));
    if !first.name.is_empty() {
        let _ = write!(out, " data-name=\"{}\"", escaped(&first.name));
    }
    let _ = write!(out, " stroke-width=\"{}\"", decimal(first.pen.width(), 2));
    if first.pen == Pen::Gap {
        out.push_str(" stroke=\"#fff\"");
    }
    if !first.pen.pattern().is_empty() {
        let dashes: Vec<String> = first.pen.pattern().iter().map(|mm| decimal(*mm, 2)).collect();
        let _ = write!(out, " stroke-dasharray=\"{}\"", dashes.join(" "));
    }
    if first.filled {
        out.push_str(" fill=\"#000\"");
    }
    let _ = writeln!(out, " d=\"{path}\"/>");
}

fn mark(out: &mut String, mark: &Mark) {
    let fill = if mark.filled { "#000" } else { "none" };
    let _ = writeln!(
        out,
        "<circle class=\"{}\" stroke-width=\"{}\" fill=\"{fill}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
        class(mark.part),
        decimal(Pen::Narrow.width(), 2),
        decimal(mark.middle.x, 2),
        decimal(mark.middle.y, 2),
        decimal(mark.radius, 2)
    );
}

fn label(out: &mut String, label: &Label) {
    let frame = label.frame;
    let (x, y) = (decimal(frame.middle.x, 2), decimal(frame.middle.y, 2));
    let turn = decimal(frame.turn, 2);
    let turned = if frame.turn == 0.0 { String::new() } else { format!(" rotate({turn})") };
    // Where the picture is shown smaller than it is, the page that holds it can leave the scale out.
    let claim = if label.wording == Wording::Scale { " class=\"scale\"" } else { "" };
    let _ = write!(out, "<g{claim} transform=\"translate({x} {y}){turned}\">");
    if label.breaks_lines {
        let _ = write!(
            out,
            "<rect fill=\"#fff\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            decimal(-frame.width / 2.0 - 0.3, 2),
            decimal(-frame.height / 2.0, 2),
            decimal(frame.width + 0.6, 2),
            decimal(frame.height, 2)
        );
    }
    let start = if label.from_left {
        format!(" text-anchor=\"start\" x=\"{}\"", decimal(-frame.width / 2.0, 2))
    } else {
        String::new()
    };
    let _ = writeln!(
        out,
        "<text{start} font-size=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" y=\"{}\">{}</text></g>",
        decimal(label.lettering.type_size(), 2),
        decimal(frame.width, 2),
        decimal(label.lettering.base_below_middle(), 2),
        escaped(&label.text)
    );
}

const fn class(part: Part) -> &'static str {
    match part {
        Part::Outline => "outline",
        Part::House => "house",
        Part::Proof => "proof",
        Part::Spare => "spare",
        Part::Extension => "extension",
        Part::Dimension => "dimension",
        Part::Tick => "tick",
        Part::Leader => "leader",
        Part::Opening => "opening",
        Part::Anchor => "anchor",
        Part::Board => "board",
        Part::Nail => "nail",
        Part::String => "string",
        Part::North => "north",
        Part::Key => "key",
        Part::Bar => "bar",
        Part::Plate => "plate",
        Part::Splice => "splice",
        Part::Joist => "joist",
        Part::Border => "border",
    }
}
