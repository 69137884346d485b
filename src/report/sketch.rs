//! The page with the plan drawn in characters.

use super::cautions::BURIED_SERVICES;
use super::plan;
use crate::answer::{Answered, Sketch};
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Block, Detail, Figure, Page, Picture, Remarks, Rows, Steps, Verdict, each};
use crate::plan::Footprint;
use crate::sketch::{
    CharacterDrawing, CheckLine, CheckUse, Drawing, SketchError, character_drawing, characters, svg_element,
    svg_narrow,
};

/// The width of a drawing for a narrow screen, mm: capitals are then 6.5 of the 390 dots that a telephone has across.
const NARROW: f64 = 150.0;

/// The most rows of a drawing: what is left of a screen for the lines round it.
pub(super) const ROWS: usize = 15;

impl Answered for Sketch {
    /// What to hold it against, since a drawing shows best whether the right plan was typed.
    fn remarks(&self, job: &Job, _: Detail) -> Remarks {
        let footprint = &self.drawing.footprint;
        let (across, down) = footprint.extent();
        let units = job.units;
        let words = format!(
            "Hold this against the drawing: {} across, {} down, {} corners",
            units.with_unit(across),
            units.with_unit(down),
            footprint.len()
        );
        let mut remarks = Remarks { verdict: Some(Verdict { good: true, words }), ..Remarks::default() };
        remarks.caution(BURIED_SERVICES);
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        if detail == Detail::Full {
            plan::echo(page, job, detail);
        }
        page.blocks.extend(figure(self, job, page.columns, ROWS).text);
    }

    /// The rows for a spreadsheet: what is pegged out, and on the site's grid if there is one.
    fn rows(&self, _: Units) -> Rows {
        each(&self.points)
            .column("what", |point| point.kind)
            .column("name", |point| &point.name)
            .column("across_mm", |point| point.across)
            .column("down_mm", |point| point.down)
            .column("east_m", |point| point.east_m)
            .column("north_m", |point| point.north_m)
            .into()
    }

    fn steps(&self, _: &Job) -> Vec<Steps> {
        vec![]
    }
}

/// The drawing in characters, on so many columns and rows, with its legend.
pub(super) fn figure(answer: &Sketch, job: &Job, columns: usize, rows: usize) -> Figure {
    let drawn = character_drawing(&answer.drawing, columns, rows);
    let legend = legend(answer, &drawn, job);
    let mut text = vec![Block::Lines(drawn.lines), Block::Lines(vec![String::new()])];
    text.extend(legend);
    Figure { text, picture: None }
}

/// The outline with the lines of these names dotted in.
pub(super) fn with_proof(
    footprint: &Footprint,
    names: &[String],
    units: Units,
    columns: usize,
    rows: usize,
) -> Vec<String> {
    let mut drawing = Drawing::new(footprint, units);
    let ends = names.iter().filter_map(|name| footprint.parse_line(name));
    drawing.checks.extend(ends.map(|(from, to)| CheckLine { from, to, purpose: CheckUse::Proof }));
    characters(&drawing, columns, rows)
}

/// The drawing as it lies on paper.
pub(super) fn picture(answer: &Sketch) -> Result<Picture, SketchError> {
    let scene = answer.scene()?;
    let sheet = scene.sheet;
    Ok(Picture {
        svg: svg_element(&scene),
        narrow: svg_narrow(&answer.drawing, NARROW),
        paper: format!("{} {}", sheet.paper.name(), sheet.orientation()),
        size: sheet.size(),
    })
}

/// What the drawing in characters can't show or say by itself.
fn legend(answer: &Sketch, drawn: &CharacterDrawing, job: &Job) -> Vec<Block> {
    let units = job.units;
    let mut facts = vec![];
    let mut fact = |name: &str, what: String| facts.push(Block::Fact(name.to_owned(), what));
    let footprint = &answer.drawing.footprint;
    let corners = footprint.corners();
    let taped: Vec<String> = answer
        .checks
        .iter()
        .filter(|check| check.purpose == CheckUse::Proof)
        .map(|check| {
            let length = corners[check.from].at.distance(corners[check.to].at);
            format!("{} {}", footprint.line_name(check.from, check.to), units.figure(length))
        })
        .collect();
    if !taped.is_empty() {
        let name = if drawn.with_checks { "Dotted, the proof set" } else { "Proof set" };
        fact(name, taped.join(", "));
    }
    let sides = footprint.sides();
    if sides.iter().any(|side| side.house) {
        fact("Thick", "existing wall".to_owned());
    }
    let left_over: Vec<String> = drawn
        .unlabelled
        .iter()
        .filter_map(|i| {
            let length = units.figure(sides.get(*i)?.length);
            Some(format!("{} {length}", footprint.side_name(*i)))
        })
        .collect();
    if !left_over.is_empty() {
        fact("Sides with no room for their length", left_over.join(", "));
    }
    if drawn.stretched {
        fact("Not to scale", "steps too short for a character are drawn longer than they are".to_owned());
    }
    let north = job.sketch.north;
    let north = north.map_or_else(String::new, |north| format!("; north {}", direction(north)));
    let column = column(units, drawn.column);
    fact("Scale", format!("a column is {column}, a row twice that{north}"));
    facts
}

/// Columns are round numbers of mm, and can be less than one.
fn column(units: Units, mm: f64) -> String {
    match units {
        Units::Mm | Units::M if mm < 1.0 => format!("{mm} mm"),
        Units::Mm | Units::M => format!("{} mm", decimal(mm, 1).trim_end_matches('0').trim_end_matches('.')),
        Units::FeetInches => format!("about {}", units.with_unit(mm)),
    }
}

/// A direction on the page in words.
fn direction(degrees: f64) -> String {
    format!("{}° clockwise from up", decimal(degrees, 0))
}
