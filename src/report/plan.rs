//! The plan as understood: the cheapest guard against a slip of the keys.

use crate::job::Job;
use crate::length::decimal;
use crate::page::Page;

/// Echoes the job's plan.
pub fn echo(page: &mut Page, job: &Job) {
    let Some(footprint) = &job.footprint else { return };
    let units = job.units;
    let (width, depth) = footprint.extent();
    let size = format!(
        "{} across, {} down",
        units.with_unit(width),
        units.with_unit(depth)
    );
    if let Some(name) = &job.name {
        page.fact("Job", name);
    }
    page.fact(
        "Plan",
        format!(
            "{}, {} corners, {size}, area {} m², round the outside {}",
            job.expression.as_deref().unwrap_or(""),
            footprint.len(),
            decimal(footprint.area() / 1e6, 2),
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
    if width.max(depth) < 500.0 {
        page.note(format!(
            "the whole plan is only {} long: a bare number is {}; write 7.8m for metres",
            units.with_unit(width.max(depth)),
            units.name()
        ));
    }
}
