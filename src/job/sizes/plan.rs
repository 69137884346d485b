//! Whether a plan can be, and what was probably meant by one that can't.

use super::size::plain;
use crate::length::Units;
use crate::plan::{Footprint, PlanError};
use crate::words::{and_list, quoted};

/// The least that a plan can measure across and down, and a side of it; and the least and the most that are usual.
const LEAST_PLAN: f64 = 300.0;
const LEAST_SIDE: f64 = 10.0;
const USUAL_PLAN: f64 = 900.0;
const USUAL_SIDE: (f64, f64) = (100.0, 60_000.0);

/// How a plan is read from its text.
pub(in crate::job) type ReadPlan = fn(&str, Units) -> Result<(Footprint, Units), PlanError>;

/// What is wrong with a plan that can't be, as it was typed, and what was probably meant.
pub(in crate::job) fn plan_refusal(
    text: &str,
    (footprint, written_in): &(Footprint, Units),
    default_units: Units,
    read: ReadPlan,
) -> Option<String> {
    let short = short(footprint, LEAST_PLAN, LEAST_SIDE)?;
    let meant = [("m", Units::M), ("ft", Units::FeetInches), ("mm", Units::Mm)].into_iter().find_map(
        |(unit, units)| {
            let (meant, _) = read(text, units).ok().filter(|_| units != default_units)?;
            let long = meant.sides().iter().all(|side| side.length <= USUAL_SIDE.1);
            (long && self::short(&meant, USUAL_PLAN, USUAL_SIDE.0).is_none()).then(|| with_unit(text, unit))
        },
    );
    let feet = *written_in == Units::FeetInches;
    let is = short.words(if feet { *written_in } else { default_units });
    // A shell takes the marks of feet and inches away where they stand in pairs.
    let with_feet = with_unit(text, "ft");
    let whole = text.bytes().all(|b| !b.is_ascii_alphabetic() || b.eq_ignore_ascii_case(&b'x'))
        && !text.contains(['.', ',']);
    let in_mm = default_units == Units::Mm;
    let in_feet = whole
        && in_mm
        && read(&with_feet, Units::Mm)
            .is_ok_and(|(meant, _)| self::short(&meant, USUAL_PLAN, USUAL_SIDE.0).is_none());
    Some(match meant {
        Some(meant) if in_feet => {
            let mut instead = vec![meant, with_feet];
            instead.dedup();
            let instead: Vec<String> = instead.iter().map(|plan| quoted(plan)).collect();
            format!(
                "{is}: write {} (a shell takes ' and \" away from a plan without quotes)",
                instead.join(", or ")
            )
        }
        Some(meant) => format!("{is}: write {}", quoted(&meant)),
        None if in_mm && whole => format!(
            "{is}: look at its numbers and their units (a shell takes ' and \" away: write 26ft4in, or put the plan in \
             double quotes)"
        ),
        None => format!("{is}: look at its numbers and their units"),
    })
}

/// What is to be looked at before any answer on the plan is believed: a size that seldom is, letters against the walk.
pub(in crate::job) fn plan_doubts(footprint: &Footprint, shown: Units) -> Vec<String> {
    let name = |side: usize| footprint.side_name(side);
    let walked = footprint.walked_anticlockwise().map(|sides| {
        let sides: Vec<String> = sides.map(name).collect();
        format!(
            "the walk goes anticlockwise and the letters clockwise: its sides in order are {}",
            and_list(&sides)
        )
    });
    let sides = footprint.sides().iter().enumerate();
    let longest = sides.max_by(|(_, a), (_, b)| a.length.total_cmp(&b.length));
    let size = if let Some(short) = short(footprint, USUAL_PLAN, USUAL_SIDE.0) {
        Some(format!("{}, which is unusual", short.words(shown)))
    } else {
        longest.filter(|(_, side)| side.length > USUAL_SIDE.1).map(|(longest, side)| {
            format!("side {} is {} long, which is unusual", name(longest), shown.with_unit(side.length))
        })
    };
    walked.into_iter().chain(size).collect()
}

/// What is too short about a plan.
enum Short {
    /// All of it, across or down, mm.
    Plan(&'static str, f64),
    /// One side, by its name, mm.
    Side(String, f64),
}

impl Short {
    fn words(&self, units: Units) -> String {
        match self {
            Self::Plan(way, mm) => format!("the plan is {} {way}", plain(*mm, units)),
            Self::Side(name, mm) => format!("side {name} is {} long", plain(*mm, units)),
        }
    }
}

/// The first thing that is under the least for a plan or for a side.
fn short(footprint: &Footprint, least_plan: f64, least_side: f64) -> Option<Short> {
    let (across, down) = footprint.extent();
    let whole = [(across, "across"), (down, "down")].into_iter().find(|(mm, _)| *mm < least_plan);
    if let Some((mm, way)) = whole {
        return Some(Short::Plan(way, mm));
    }
    let side = footprint.sides().iter().position(|side| side.length < least_side)?;
    Some(Short::Side(footprint.side_name(side), footprint.sides()[side].length))
}

/// A plan's text with `unit` behind every number that has none.
fn with_unit(text: &str, unit: &str) -> String {
    let is_digit = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
    let mut out = String::new();
    let mut rest = text.trim();
    while let Some(start) = rest.find(is_digit) {
        let end = rest[start..].find(|c| !is_digit(c)).map_or(rest.len(), |length| start + length);
        out.push_str(&rest[..end]);
        rest = &rest[end..];
        let has_unit =
            rest.trim_start().starts_with(['m', 'f', 'i', 'c', 'M', 'F', 'I', '\'', '"', '/', '′', '″']);
        if !has_unit {
            out.push_str(unit);
        }
    }
    out + rest
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{parse_expression, parse_walk};

    fn said(text: &str) -> Result<Option<String>, PlanError> {
        let plan = parse_expression(text, Units::Mm)?;
        Ok(plan_refusal(text, &plan, Units::Mm, parse_expression))
    }

    #[test]
    fn a_plan_in_bare_metres_or_feet_is_told_what_to_write() -> Result<(), PlanError> {
        for (text, expected) in [
            ("6.4x5.1", Some("the plan is 6.4 mm across: write 6.4mx5.1m")),
            ("7.26x5.34m", Some("the plan is 7.26 mm across: write 7.26mx5.34m")),
            (
                "24x18",
                Some(
                    "the plan is 24 mm across: write 24mx18m, or 24ftx18ft (a shell takes ' and \" away from a plan \
                     without quotes)",
                ),
            ),
            // Too long for metres.
            (
                "78x60",
                Some(
                    "the plan is 78 mm across: write 78ftx60ft (a shell takes ' and \" away from a plan without quotes)",
                ),
            ),
            ("7800x6000-3x2.4", Some("side CD is 3 mm long: look at its numbers and their units")),
            ("7.8 x 6 - 3 x 2.4 @tl", Some("the plan is 7.8 mm across: write 7.8m x 6m - 3m x 2.4m @tl")),
            ("7800x6000-3000x2400", None),
            ("1200x900", None),
            ("26ftx1/4in", Some("the plan is 1/4\" down: look at its numbers and their units")),
            // As a shell leaves of 26'4x20'2.
            (
                "264x202",
                Some(
                    "the plan is 264 mm across: look at its numbers and their units (a shell takes ' and \" away: write \
                     26ft4in, or put the plan in double quotes)",
                ),
            ),
        ] {
            assert_eq!(said(text)?.as_deref(), expected);
        }
        let walk = "7.8 R 6 R 7.8 R 6";
        let told = plan_refusal(walk, &parse_walk(walk, Units::Mm)?, Units::Mm, parse_walk);
        assert_eq!(told.as_deref(), Some("the plan is 7.8 mm across: write 7.8m R 6m R 7.8m R 6m"));
        Ok(())
    }
}
