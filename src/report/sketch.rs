//! The page with the plan drawn in characters.

use super::BURIED_SERVICES;
use crate::answer::Sketch;
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Block, Figure, Page, Records, Remarks};
use crate::sketch::{CheckUse, Label, Scene, svg_element};

/// The longest plan echoed whole; the drawing shows the rest.
const LONGEST_PLAN: usize = 70;

/// Fills the page. With the drawing in its 15 rows it is 24 lines at most for the usual shapes.
pub(super) fn body(page: &mut Page, answer: &Sketch, job: &Job) {
    if let Some(name) = &job.name {
        page.fact("Job", name);
    }
    if let Some(plan) = job.expression.as_ref().filter(|plan| plan.len() <= LONGEST_PLAN) {
        page.fact("Plan", plan);
    }
    page.lines(vec![String::new()]);
    page.lines(answer.terminal.lines.clone());
    page.lines(vec![String::new()]);
    page.blocks.extend(legend(answer, job));
    page.data(|| records(&answer.scene));
}

/// The drawing as one of several parts: in characters with its legend, and as it lies on an A4 sheet.
pub(super) fn figure(page: &Page, answer: &Sketch, job: &Job) -> Figure {
    let mut text = vec![Block::Lines(answer.terminal.lines.clone()), Block::Lines(vec![String::new()])];
    text.extend(legend(answer, job));
    let sheet = answer.scene.sheet;
    Figure {
        title: answer.scene.title.clone(),
        text,
        picture: page.picture(|| svg_element(&answer.scene)),
        paper: format!("{} {}", sheet.paper.name(), sheet.orientation()),
        size: sheet.size(),
    }
}

/// What is said of the drawing as a whole.
pub(super) fn remarks(answer: &Sketch) -> Remarks {
    let mut remarks = Remarks::default();
    if answer.terminal.stretched {
        remarks.note("steps too short for a character are drawn longer than they are");
    }
    remarks.caution(BURIED_SERVICES);
    remarks
}

/// What the drawing in characters can't show or say by itself.
fn legend(answer: &Sketch, job: &Job) -> Vec<Block> {
    let units = job.units;
    let mut facts = vec![];
    let mut fact = |name: &str, what: String| facts.push(Block::Fact(name.to_owned(), what));
    let taped: Vec<String> = answer
        .checks
        .iter()
        .filter(|(purpose, _, _)| *purpose == CheckUse::Proof)
        .map(|(_, name, length)| format!("{name} {}", units.figure(*length)))
        .collect();
    if !taped.is_empty() {
        let name = if answer.terminal.with_checks { "Dotted, the proof set" } else { "Proof set" };
        fact(name, taped.join(", "));
    }
    let footprint = job.footprint.as_ref();
    let sides = footprint.map_or(&[][..], |footprint| footprint.sides());
    if sides.iter().any(|side| side.house) {
        fact("Thick", "existing wall".to_owned());
    }
    let left_over: Vec<String> = answer
        .terminal
        .unlabelled
        .iter()
        .filter_map(|i| {
            let length = units.figure(sides.get(*i)?.length);
            Some(format!("{} {length}", footprint?.side_name(*i)))
        })
        .collect();
    if !left_over.is_empty() {
        fact("Sides with no room for their length", left_over.join(", "));
    }
    let north = job.sketch.north;
    let north = north.map_or_else(String::new, |north| format!("; north {}", direction(north)));
    let column = column(units, answer.terminal.column);
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

/// The labels of the A4 drawing: what, where, how large.
fn records(scene: &Scene) -> Records {
    let mut records =
        Records::new(&["wording", "name", "text", "x_mm", "y_mm", "width_mm", "height_mm", "turn_deg"]);
    for label in &scene.labels {
        records.rows.push(row(label));
    }
    records
}

fn row(label: &Label) -> Vec<String> {
    let figure = |mm: f64| decimal(mm, 3);
    let frame = label.frame;
    vec![
        label.wording.name().to_owned(),
        label.name.clone(),
        label.text.clone(),
        figure(frame.middle.x),
        figure(frame.middle.y),
        figure(frame.width),
        figure(frame.height),
        figure(frame.turn),
    ]
}
