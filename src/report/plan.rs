//! The plan as understood: the cheapest guard against a slip of the keys.

use crate::job::Job;
use crate::length::{MM_PER_FOOT, Units, decimal};
use crate::packing::Limit as BedLimit;
use crate::page::{Detail, Page};
use crate::readings::Limit;
use crate::words::and_list;

/// Echoes the job's plan, on a short page in a line.
pub fn echo(page: &mut Page, job: &Job, detail: Detail) {
    echo_beside(page, job, detail, None);
}

/// The same, and beside it what else was given: what it is of, and how that was understood.
pub(super) fn echo_beside(page: &mut Page, job: &Job, detail: Detail, beside: Option<(&str, String)>) {
    let Some(footprint) = &job.footprint else { return };
    let units = job.units;
    if detail == Detail::Short {
        let sides = footprint.sides().iter().enumerate().filter(|(_, side)| side.house);
        let house: Vec<String> = sides.map(|(i, _)| footprint.side_name(i)).collect();
        let house = if house.is_empty() { String::new() } else { format!(", house {}", and_list(&house)) };
        let beside =
            beside.map_or_else(String::new, |(of, given)| format!("; {} {given}", of.to_lowercase()));
        page.fact("Plan", format!("{}{house}{beside}", job.expression.as_deref().unwrap_or("")));
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
    if let Some((of, given)) = beside {
        page.fact(of, given);
    }
}

/// The sizes that a bare number is most easily mistaken in: the plate's width, the studs, the limits.
pub fn echo_sizes(page: &mut Page, job: &Job) {
    let units = job.units;
    if let Some(plates) = &job.plates {
        page.fact("Plate", format!("{} wide", units.fine(plates.width)));
    }
    if let Some(studs) = job.lines.marks.as_ref().and_then(|marks| marks.studs) {
        page.fact("Studs", format!("at {} centres", units.centres(studs)));
    }
    let readings = job.readings.as_ref();
    let square = readings.and_then(|readings| readings.limit).and_then(|limit| match limit {
        Limit::Own(mm) => Some(mm),
        Limit::Size(_) | Limit::Diagonal(_) => None,
    });
    let level = job.packs.as_ref().and_then(|packs| packs.limit).and_then(|limit| match limit {
        BedLimit::Own(mm) => Some(mm),
        BedLimit::AlongWall(_) | BedLimit::Across(_) => None,
    });
    let limits = [
        ("diagonals", job.check_limit),
        ("corner", job.angle.as_ref().and_then(|angle| angle.limit)),
        ("readings", square),
        ("size", readings.and_then(|readings| readings.size_limit)),
        ("overhang", readings.and_then(|readings| readings.masonry?.limit)),
        ("level", level),
        ("straightness", job.straight.as_ref().and_then(|straight| straight.limit)),
    ];
    let limits: Vec<String> =
        limits.into_iter().filter_map(|(of, mm)| Some(format!("{of} {}", units.gap(mm?)))).collect();
    if !limits.is_empty() {
        page.fact("Limits", limits.join(", "));
    }
}

/// An area of mm² in the units that go with `units`.
pub(super) fn area(square_mm: f64, units: Units) -> String {
    match units {
        Units::Mm | Units::M => format!("{} m²", decimal(square_mm / 1e6, 2)),
        Units::FeetInches => format!("{} ft²", decimal(square_mm / (MM_PER_FOOT * MM_PER_FOOT), 1)),
    }
}
