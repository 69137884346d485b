//! A corner as found with three tapes.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
use crate::plan::Footprint;
use crate::words::{count, quoted};

/// A corner as found with three tapes.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct CornersSection {
    /// A corner as found: along one side, along the other, between the two ends.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "corners.tapes", value_name = "A,B,C", value_delimiter = ',')
    )]
    pub tapes: Option<Vec<LengthEntry>>,
    /// The corner that the tapes were taken at, by its letter.
    #[cfg_attr(feature = "cli", arg(long, id = "corners.corner", value_name = "LETTER"))]
    pub corner: Option<String>,
    /// The most the corner may be out of square at the end of its longer side.
    #[cfg_attr(feature = "cli", arg(long, id = "corners.limit", value_name = "LENGTH"))]
    pub limit: Option<LengthEntry>,
}

/// Three tapes at a corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AngleQuestion {
    /// Along one side, along the other, between the two ends, mm.
    pub tapes: [f64; 3],
    /// The corner's index in the outline, if one was named.
    pub corner: Option<usize>,
    /// The most it may be out of square at the end of the longer side, mm.
    pub limit: Option<f64>,
}

/// The question of a corner, if its three tapes are given.
pub(in crate::job) fn angle(
    section: &CornersSection,
    footprint: Option<&Footprint>,
    at: Cursor<'_>,
) -> Option<AngleQuestion> {
    let limit = at.field("limit").not_negative(section.limit.as_ref());
    let corner = section.corner.as_ref().and_then(|name| {
        let found = one_letter(name).and_then(|letter| footprint?.corner_index(letter));
        if found.is_none() {
            let there = match footprint {
                Some(footprint) => {
                    format!("the corners are A to {}", footprint.corners()[footprint.len() - 1].name)
                }
                None => "give the plan too".to_owned(),
            };
            at.field("corner").fault(format!("there is no corner `{}`: {there}", quoted(name)));
        }
        found
    });
    let tapes = section.tapes.as_ref()?;
    let read: Vec<Option<f64>> =
        tapes.iter().enumerate().map(|(i, entry)| at.item("tapes", i).positive(Some(entry))).collect();
    if let [Some(a), Some(b), Some(c)] = read[..] {
        return Some(AngleQuestion { tapes: [a, b, c], corner, limit });
    }
    if read.len() != 3 {
        at.field("tapes").fault(format!(
            "{} {} given: write three, along one side, along the other and between their ends",
            count(read.len(), "tape"),
            if read.len() == 1 { "is" } else { "are" }
        ));
    }
    None
}

fn one_letter(name: &str) -> Option<char> {
    let mut letters = name.trim().chars();
    letters.next().filter(|_| letters.next().is_none())
}
