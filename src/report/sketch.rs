//! The page with the plan drawn in characters.

use super::cautions::BURIED_SERVICES;
use crate::answer::{Answered, Sketch};
use crate::job::Job;
use crate::length::{Units, decimal};
use crate::page::{Block, Detail, Figure, Page, Picture, Remarks, Rows, Steps, each};
use crate::sketch::{CheckUse, SketchError, svg_element, svg_narrow};

/// The width of a drawing for a narrow screen, mm: capitals are then 6.5 of the 390 dots that a telephone has across.
const NARROW: f64 = 150.0;

/// The longest plan echoed whole; the drawing shows the rest.
const LONGEST_PLAN: usize = 70;

impl Answered for Sketch {
    /// What is said of the drawing as a whole.
    fn remarks(&self, _: &Job, _: Detail) -> Remarks {
        let mut remarks = Remarks::default();
        if self.terminal.stretched {
            remarks.note("steps too short for a character are drawn longer than they are");
        }
        remarks.caution(BURIED_SERVICES);
        remarks
    }

    /// Fills the page. With the drawing in its 15 rows it is 24 lines at most for the usual shapes.
    fn body(&self, page: &mut Page, job: &Job, _: Detail) {
        if let Some(name) = &job.name {
            page.fact("Job", name);
        }
        if let Some(plan) = job.expression.as_ref().filter(|plan| plan.len() <= LONGEST_PLAN) {
            page.fact("Plan", plan);
        }
        page.lines(vec![String::new()]);
        page.lines(self.terminal.lines.clone());
        page.lines(vec![String::new()]);
        page.blocks.extend(legend(self, job));
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

/// The drawing as one of several parts: in characters with its legend.
pub(super) fn figure(answer: &Sketch, job: &Job) -> Figure {
    let mut text = vec![Block::Lines(answer.terminal.lines.clone()), Block::Lines(vec![String::new()])];
    text.extend(legend(answer, job));
    Figure { text, picture: None }
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
fn legend(answer: &Sketch, job: &Job) -> Vec<Block> {
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
        let name = if answer.terminal.with_checks { "Dotted, the proof set" } else { "Proof set" };
        fact(name, taped.join(", "));
    }
    let sides = footprint.sides();
    if sides.iter().any(|side| side.house) {
        fact("Thick", "existing wall".to_owned());
    }
    let left_over: Vec<String> = answer
        .terminal
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
