//! The job file's section on joists, and its checking.

mod reading;
mod section;

use super::cuts::seconds;
pub use section::{JoistsSection, RoofOpeningEntry};

use reading::Reading;

use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
use crate::joists::{JoistsError, Question, Support, joists};
use crate::length::InUnits;
use crate::plan::Footprint;
use crate::stock::Timber;

/// What is asked of the joists, and what to cut them from.
#[derive(Debug, Clone, PartialEq)]
pub struct JoistsJob {
    /// The question.
    pub question: Question,
    /// Whether heights were read from a staff, the bigger the lower.
    pub staff: bool,
    /// The timber; nothing for sale and none in the van where none was given.
    pub timber: Timber,
    /// How long to look for the best cut, seconds.
    pub seconds: f64,
    /// What was not given.
    pub assumed: Assumed,
}

/// What is taken because it was not given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Assumed {
    /// How thick a joist is.
    pub thickness: bool,
    /// How thick the new walls are: as the bearing.
    pub wall: bool,
}

/// The joists that the section asks for; none without both supports and centres. Saw cut and trim are as of `timber`, and
/// walls as thick as the plate is wide unless it is said.
pub(in crate::job) fn joists_job(
    section: &JoistsSection,
    footprint: &Footprint,
    timber: Option<&Timber>,
    plate_width: Option<&LengthEntry>,
    at: Cursor<'_>,
) -> Option<JoistsJob> {
    let before = at.faults();
    let reading = Reading { section, footprint, at };
    let question = reading.question(plate_width);
    let timber = reading.timber(timber);
    let seconds = seconds(section.seconds, at.field("seconds"));
    let staff = section.staff_from.is_some() || section.staff_to.is_some();
    let assumed = Assumed {
        thickness: section.thickness.is_none(),
        wall: section.wall.is_none() && plate_width.is_none(),
    };
    let job = JoistsJob { question: question?, staff, timber, seconds, assumed };
    if at.faults() == before {
        // The packers are checked by themselves, so that they aren't shared out twice.
        let alone = Question { packers: vec![], ..job.question.clone() };
        if let Err(error) = joists(footprint, &alone, at.units) {
            at.field(field(&error, section)).fault(error.message(at.units));
        }
    }
    Some(job)
}

/// The field to mend; none where it is the whole section.
fn field(error: &JoistsError, section: &JoistsSection) -> &'static str {
    match error {
        JoistsError::NoSupport | JoistsError::NotFacing { .. } | JoistsError::TwoWays { .. } => "to",
        JoistsError::Bearing { .. } => "bearing",
        JoistsError::Centres { .. } => "centres",
        JoistsError::Opening { .. } => "openings",
        JoistsError::Doubled { .. } => "double",
        JoistsError::NotOnSupport { support: Support::From, .. } if section.staff_from.is_some() => {
            "staff_from"
        }
        JoistsError::NotOnSupport { support: Support::From, .. } => "heights_from",
        JoistsError::NotOnSupport { .. } if section.staff_to.is_some() => "staff_to",
        JoistsError::NotOnSupport { .. } => "heights_to",
        JoistsError::Fall(_) => "fall",
        JoistsError::Packers(_) | JoistsError::Amount(_) | JoistsError::NoRoom { .. } => "",
    }
}
