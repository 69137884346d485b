//! Running marks: everything on a side measured from one corner, so that one pull of the tape marks it all.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::plan::{Footprint, SAME_PLACE};

/// What a stretch of a side is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ItemKind {
    /// A door or window opening.
    Opening,
    /// A partition that meets the wall.
    Partition,
    /// A joint between two wall panels.
    Joint,
}

/// Something on a side.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// What it is.
    pub kind: ItemKind,
    /// The index of the side it is on.
    pub side: usize,
    /// Where it begins, mm from the side's first corner clockwise.
    pub from: f64,
    /// Where it ends, mm; the same for a joint.
    pub to: f64,
    /// What it is called.
    pub name: String,
    /// Of an opening, whether it is a window: wall and plate go on under it.
    pub window: bool,
}

/// What is to be marked.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MarksQuestion {
    /// The sides, each with whether it is measured from its second corner; in the order wanted.
    pub sides: Vec<(usize, bool)>,
    /// The openings, partitions and joints.
    pub items: Vec<Item>,
    /// Studs at these centres from the corner, mm.
    pub studs: Option<f64>,
}

/// What is at a mark.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum Thing {
    /// A corner of the outline.
    Corner {
        /// Its letter.
        name: String,
    },
    /// Where something begins, coming from the corner.
    Begins {
        /// What.
        kind: ItemKind,
        /// What it is called.
        name: String,
    },
    /// Where it ends.
    Ends {
        /// What.
        kind: ItemKind,
        /// What it is called.
        name: String,
    },
    /// A joint between panels.
    Joint {
        /// What it is called.
        name: String,
    },
    /// The middle of a stud.
    Stud,
}

/// A mark on a side.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct MarkAt {
    /// How far from the corner that the side is measured from, mm.
    pub at: Mm,
    /// All that is there.
    pub things: Vec<Thing>,
}

/// The marks of one side.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct SideMarks {
    /// The side's name, the corner it is measured from first.
    pub side: String,
    /// The corner that every mark is measured from.
    pub from: String,
    /// The marks in order.
    pub marks: Vec<MarkAt>,
    /// Studs that would stand in an opening, left out.
    pub studs_in_openings: usize,
}

/// The running marks of every side asked for.
pub(super) fn running_marks(footprint: &Footprint, question: &MarksQuestion) -> Vec<SideMarks> {
    question.sides.iter().map(|(side, backward)| side_marks(footprint, question, *side, *backward)).collect()
}

fn side_marks(footprint: &Footprint, question: &MarksQuestion, index: usize, backward: bool) -> SideMarks {
    let side = footprint.sides()[index];
    let corner = |i: usize| footprint.corners()[i].name.to_string();
    let (first, last) =
        if backward { (corner(side.to), corner(side.from)) } else { (corner(side.from), corner(side.to)) };
    let here = |item: &Item| {
        if backward { (side.length - item.to, side.length - item.from) } else { (item.from, item.to) }
    };
    let mut found = vec![
        (0.0, Thing::Corner { name: first.clone() }),
        (side.length, Thing::Corner { name: last.clone() }),
    ];
    let items = || question.items.iter().filter(|item| item.side == index);
    for item in items() {
        let (from, to) = here(item);
        let (kind, name) = (item.kind, item.name.clone());
        if kind == ItemKind::Joint {
            found.push((from, Thing::Joint { name }));
        } else {
            let begins = Thing::Begins { kind, name: name.clone() };
            found.push((from, begins));
            found.push((to, Thing::Ends { kind, name }));
        }
    }
    let mut studs_in_openings = 0;
    // Counted up one by one and multiplied, so that the last stud carries no sum of roundings.
    let mut count = 1.0;
    while let Some(studs) = question.studs {
        let centre = studs * count;
        if centre >= side.length - SAME_PLACE {
            break;
        }
        let in_opening = items().any(|item| {
            let (from, to) = here(item);
            item.kind == ItemKind::Opening && centre > from + SAME_PLACE && centre < to - SAME_PLACE
        });
        if in_opening {
            studs_in_openings += 1;
        } else {
            found.push((centre, Thing::Stud));
        }
        count += 1.0;
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut marks: Vec<MarkAt> = vec![];
    for (at, thing) in found {
        match marks.last_mut() {
            Some(last) if at - last.at.0 <= SAME_PLACE => last.things.push(thing),
            _ => marks.push(MarkAt { at: Mm(at), things: vec![thing] }),
        }
    }
    SideMarks { side: format!("{first}{last}"), from: first, marks, studs_in_openings }
}
