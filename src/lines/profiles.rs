//! The boards as they are made: which lines each carries, how long it is, and the nails on shared ones.

use schemars::JsonSchema;
use serde::Serialize;

use super::boards::{BoardKind, marks};
use super::faces::Faces;
use super::runs::{Reach, Rect, Run};
use crate::geometry::{Mm, Point};
use crate::length::{MM_PER_INCH, Units};
use crate::plan::{Footprint, SAME_PLACE};

/// Boards in one line that would stand nearer than this, mm, are made as one: their pegs would be in each other's way.
/// Common practice, no source.
const APART: f64 = 100.0;

/// Boards are cut to steps of this, mm: 50 mm, or 2 in.
const fn cut_step(units: Units) -> f64 {
    match units {
        Units::Mm | Units::M => 50.0,
        Units::FeetInches => 2.0 * MM_PER_INCH,
    }
}

/// A board or a group of nails as it is made, with all the lines that it carries.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Profile {
    /// Its label.
    pub label: String,
    /// What it is.
    pub kind: BoardKind,
    /// Its length, mm; 0 for nails in the house wall.
    pub length: Mm,
    /// The sides whose lines it carries.
    pub carries: Vec<String>,
    /// Its middle, mm across the page.
    pub x: Mm,
    /// Its middle, mm down the page.
    pub y: Mm,
    /// Whether it lies across the page rather than down it.
    pub across: bool,
    /// Where several lines share it: every nail from its left or top end to its right or bottom end, with its distance
    /// from the first nail.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub nails: Vec<SharedNail>,
}

/// A nail on a board that several lines share.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct SharedNail {
    /// The side whose line it is.
    pub side: String,
    /// The face.
    pub face: String,
    /// How far from the first nail at the left or the top, mm.
    pub along: Mm,
}

/// How many boards of one length.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Size {
    /// The length, mm.
    pub length: Mm,
    /// How many.
    pub count: usize,
}

/// Every board, and for each run the labels of the two that it ends on.
pub(super) fn profiles(
    footprint: &Footprint,
    runs: &[Run],
    faces: &Faces,
    reach: Reach,
    units: Units,
) -> (Vec<Profile>, Vec<[String; 2]>) {
    let mut groups = groups(footprint, runs, reach);
    groups.sort_by_key(|group| group.ends[0]);
    let mut labels = vec![[String::new(), String::new()]; runs.len()];
    let (mut boards, mut nails) = (0, 0);
    let profiles = groups
        .iter()
        .map(|group| {
            let house = runs[group.ends[0].0].ends[group.ends[0].1].house;
            let label = if house {
                nails += 1;
                format!("N{nails}")
            } else {
                boards += 1;
                format!("P{boards}")
            };
            for (run, end) in &group.ends {
                labels[*run][*end].clone_from(&label);
            }
            profile(footprint, runs, faces, group, label, cut_step(units))
        })
        .collect();
    (profiles, labels)
}

/// The ends that one board carries, and what it takes up.
struct Group {
    ends: Vec<(usize, usize)>,
    takes: Rect,
}

/// Boards that lie in one line and would stand nearer than [`APART`] are one board.
fn groups(footprint: &Footprint, runs: &[Run], reach: Reach) -> Vec<Group> {
    let mut groups: Vec<Group> = vec![];
    for (index, run) in runs.iter().enumerate() {
        for end in 0..2 {
            let mut group = Group { ends: vec![(index, end)], takes: run.board(footprint, end, reach) };
            let joins = |other: &Group| {
                let (first, side) = other.ends[0];
                let at = (run.end_at(footprint, end), runs[first].end_at(footprint, side));
                let one_line = if run.heading.is_across() {
                    (at.0.x - at.1.x).abs() <= SAME_PLACE
                } else {
                    (at.0.y - at.1.y).abs() <= SAME_PLACE
                };
                !run.ends[end].house
                    && !runs[first].ends[side].house
                    && one_line
                    && runs[first].heading.is_across() == run.heading.is_across()
            };
            // A board that bridges two groups joins both.
            while let Some(i) =
                groups.iter().position(|other| joins(other) && other.takes.nearer(group.takes, APART))
            {
                let mut other = groups.remove(i);
                other.ends.append(&mut group.ends);
                other.ends.sort_unstable();
                let low = Point::new(
                    other.takes.low.x.min(group.takes.low.x),
                    other.takes.low.y.min(group.takes.low.y),
                );
                let high = Point::new(
                    other.takes.high.x.max(group.takes.high.x),
                    other.takes.high.y.max(group.takes.high.y),
                );
                other.takes = Rect { low, high };
                group = other;
            }
            groups.push(group);
        }
    }
    groups
}

fn profile(
    footprint: &Footprint,
    runs: &[Run],
    faces: &Faces,
    group: &Group,
    label: String,
    step: f64,
) -> Profile {
    let (first, end) = group.ends[0];
    let run = &runs[first];
    let house = run.ends[end].house;
    let across = !run.heading.is_across();
    let takes = group.takes;
    let long = if across { takes.high.x - takes.low.x } else { takes.high.y - takes.low.y };
    let mut carries: Vec<String> = vec![];
    for side in group.ends.iter().flat_map(|(run, _)| &runs[*run].sides) {
        let name = footprint.side_name(*side);
        if !carries.contains(&name) {
            carries.push(name);
        }
    }
    Profile {
        label,
        kind: if house { BoardKind::HouseWall } else { BoardKind::Profile },
        length: Mm(if house { 0.0 } else { ((long - SAME_PLACE) / step).ceil() * step }),
        carries,
        x: Mm(f64::midpoint(takes.low.x, takes.high.x)),
        y: Mm(f64::midpoint(takes.low.y, takes.high.y)),
        across,
        nails: if group.ends.len() > 1 {
            shared_nails(footprint, runs, faces, group, across)
        } else {
            vec![]
        },
    }
}

fn shared_nails(
    footprint: &Footprint,
    runs: &[Run],
    faces: &Faces,
    group: &Group,
    across: bool,
) -> Vec<SharedNail> {
    let mut nails: Vec<(f64, String, String)> = group
        .ends
        .iter()
        .flat_map(|(run, end)| {
            let run = &runs[*run];
            let side = footprint.side_name(run.sides[0]);
            marks(run.end_at(footprint, *end), run.heading, &faces.faces)
                .into_iter()
                .map(move |nail| (if across { nail.x.0 } else { nail.y.0 }, side.clone(), nail.face))
        })
        .collect();
    nails.sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
    let first = nails.first().map_or(0.0, |nail| nail.0);
    nails.into_iter().map(|(at, side, face)| SharedNail { side, face, along: Mm(at - first) }).collect()
}
