//! How a booking stands after a line: the job checked with it, once, and what that comes to.

use super::kind::Kind;
use crate::answer::Answer;
use crate::job::{Job, JobFile};
use crate::readings::Readings;

/// The job with what is booked.
#[derive(Debug, Clone)]
pub(super) struct Standing {
    pub(super) job: Job,
    /// What has to be known before the first reading, where it isn't.
    pub(super) setting: Option<&'static str>,
    /// What the booking's question answers; nothing while it can't be answered.
    pub(super) answer: Option<Answer>,
}

impl Standing {
    /// Checks the job with the booking called `name`; without any reading where there is no such booking.
    pub(super) fn of(file: &JobFile, name: &str, kind: Kind) -> Result<Self, String> {
        let booking = file.bookings.iter().flatten().find(|booking| booking.is_called(name));
        let read = booking.map(|booking| kind.entries(booking).len());
        let file = file.clone().booked(read.map(|_| name)).map_err(|fault| fault.message)?;
        let file = if read.is_some() { file } else { file.unread() };
        let job = checked(&file)?;
        // Of a single level an earlier booking would be the answer.
        let too_few = kind == Kind::Level && read.unwrap_or(0) < 2;
        let answer = if too_few { None } else { job.answer(kind.question()).ok() };
        Ok(Self { job, setting: kind.setting(&file), answer })
    }

    /// What the tapes come to so far.
    pub(super) fn taped(&self) -> Option<&Readings> {
        match &self.answer {
            Some(Answer::Readings(answer)) => Some(answer),
            _ => None,
        }
    }
}

/// The checked job, or all that is wrong with it in a line.
pub(super) fn checked(file: &JobFile) -> Result<Job, String> {
    Job::check(file)
        .map_err(|faults| faults.iter().map(|fault| fault.message.clone()).collect::<Vec<_>>().join("; "))
}
