//! The plan as understood: the cheapest guard against a slip of the keys.

use crate::job::Job;
use crate::length::{MM_PER_FOOT, Units, decimal};
use crate::page::{Detail, Page};
use crate::words::and_list;

/// Echoes the job's plan, on a short page in a line.
pub fn echo(page: &mut Page, job: &Job, detail: Detail) {
    let Some(footprint) = &job.footprint else { return };
    let units = job.units;
    if detail == Detail::Short {
        let sides = footprint.sides().iter().enumerate().filter(|(_, side)| side.house);
        let house: Vec<String> = sides.map(|(i, _)| footprint.side_name(i)).collect();
        let house = if house.is_empty() { String::new() } else { format!(", house {}", and_list(&house)) };
        page.fact("Plan", format!("{}{house}", job.expression.as_deref().unwrap_or("")));
        return;
    }
    let (width, depth) = footprint.extent();
    let size = format!("{} across, {} down", units.with_unit(width), units.with_unit(depth));
    if let Some(name) = &job.name {
        page.fact("Job", name);
    }
    page.fact(
        "Plan",
        format!(
            "{}, {} corners, {size}, area {}, round the outside {}",
            job.expression.as_deref().unwrap_or(""),
            footprint.len(),
            area(footprint.area(), units),
            units.with_unit(footprint.perimeter()),
        ),
    );
    let sides: Vec<String> = (0..footprint.len())
        .map(|i| {
            let side = footprint.sides()[i];
            let house = if side.house { " (house)" } else { "" };
            format!("{} {}{house}", footprint.side_name(i), units.figure(side.length))
        })
        .collect();
    page.fact("Sides", sides.join(", "));
    if let Some(depth) = footprint.house_depth() {
        page.fact("House", format!("goes back {} from its walls", units.with_unit(depth)));
    }
}

/// An area of mm² in the units that go with `units`.
pub(super) fn area(square_mm: f64, units: Units) -> String {
    match units {
        Units::Mm | Units::M => format!("{} m²", decimal(square_mm / 1e6, 2)),
        Units::FeetInches => format!("{} ft²", decimal(square_mm / (MM_PER_FOOT * MM_PER_FOOT), 1)),
    }
}
