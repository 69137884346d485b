//! The job file's section on joists, and its checking.

mod reading;
mod section;

use super::cuts::seconds;
pub use section::{JoistsSection, RoofOpeningEntry};

use reading::Reading;

use crate::job::JobFile;
use crate::job::faults::Faults;
use crate::joists::{JoistsError, Question, Support, joists};
use crate::length::Units;
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

/// The joists that the job asks for; none without both supports and centres. A bare number is in the first of `units`.
pub(in crate::job) fn joists_job(
    file: &JobFile,
    footprint: Option<&Footprint>,
    units: (Units, Units),
    faults: &mut Faults,
) -> Option<JoistsJob> {
    let (section, footprint) = (file.joists.as_ref()?, footprint?);
    let before = faults.count();
    let mut reading = Reading { section, footprint, bare: units.0, faults };
    let question = reading.question(file, units);
    let timber = reading.timber(file);
    let seconds = seconds("joists.seconds", section.seconds, reading.faults);
    let staff = section.staff_from.is_some() || section.staff_to.is_some();
    let plates = file.plates.as_ref().and_then(|plates| plates.width.as_ref());
    let assumed =
        Assumed { thickness: section.thickness.is_none(), wall: section.wall.is_none() && plates.is_none() };
    let job = JoistsJob { question: question?, staff, timber, seconds, assumed };
    if faults.count() == before {
        // The packers are checked by themselves, so that they aren't shared out twice.
        let bare = Question { packers: vec![], ..job.question.clone() };
        if let Err(error) = joists(footprint, &bare, units.1) {
            faults.add(field(&error, section), error.message(units.1));
        }
    }
    Some(job)
}

/// The field to mend.
fn field(error: &JoistsError, section: &JoistsSection) -> &'static str {
    match error {
        JoistsError::NoSupport | JoistsError::NotFacing { .. } | JoistsError::TwoWays { .. } => "joists.to",
        JoistsError::Bearing { .. } => "joists.bearing",
        JoistsError::Centres { .. } => "joists.centres",
        JoistsError::Opening { .. } => "joists.openings",
        JoistsError::Doubled { .. } => "joists.double",
        JoistsError::NotOnSupport { support: Support::From, .. } if section.staff_from.is_some() => {
            "joists.staff_from"
        }
        JoistsError::NotOnSupport { support: Support::From, .. } => "joists.heights_from",
        JoistsError::NotOnSupport { .. } if section.staff_to.is_some() => "joists.staff_to",
        JoistsError::NotOnSupport { .. } => "joists.heights_to",
        JoistsError::Fall(_) => "joists.fall",
        JoistsError::Packers(_) | JoistsError::Amount(_) | JoistsError::NoRoom { .. } => "joists",
    }
}
