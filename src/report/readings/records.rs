//! The readings as rows for a spreadsheet.

use crate::geometry::{Mm, Ratio};
use crate::length::{Units, decimal};
use crate::page::Records;
use crate::readings::{ReadingLine, Readings};

/// A row a reading, lengths in mm.
pub(super) fn records(answer: &Readings) -> Records {
    let mut records = Records::new(&[
        "line",
        "tape",
        "count",
        "read_mm",
        "spread_mm",
        "held_on_mm",
        "temperature_mm",
        "slope_mm",
        "sag_mm",
        "used_mm",
        "sd_mm",
        "residual_mm",
        "redundancy",
        "w",
        "suspect",
        "left_out",
        "slip_mm",
        "likely",
        "hides_mm",
    ]);
    records.rows = answer.readings.iter().map(row).collect();
    records
}

fn row(line: &ReadingLine) -> Vec<String> {
    let mm = |length: Option<Mm>| length.map_or_else(String::new, |mm| Units::Mm.exact(mm.0));
    let ratio = |ratio: Option<Ratio>| ratio.map_or_else(String::new, |ratio| decimal(ratio.0, 6));
    vec![
        line.name.clone(),
        line.tape.to_string(),
        line.count.to_string(),
        mm(Some(line.read)),
        mm(line.spread),
        mm(line.corrections.held_on),
        mm(line.corrections.temperature),
        mm(line.corrections.slope),
        mm(line.corrections.sag),
        mm(Some(line.used)),
        mm(Some(line.sd)),
        mm(line.residual),
        ratio(line.redundancy),
        ratio(line.w),
        line.suspect.to_string(),
        line.left_out.to_string(),
        mm(line.slip),
        line.likely.clone().unwrap_or_default(),
        mm(line.hides),
    ]
}
