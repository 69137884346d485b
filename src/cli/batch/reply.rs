//! One line of a batch answered.

use pegline::answer::{Envelope, ErrorLine, LineFault, Question};
use pegline::job::{Fault, Job, read};
use pegline::report::remarks;

/// A line of input: its text, or why it could not be read.
pub(super) type Line = Result<String, String>;

/// A line's answer and whether it is good.
pub(super) struct Reply {
    pub(super) json: String,
    pub(super) good: bool,
}

/// The answer to line `number`, with its line feed.
pub(super) fn answer(question: Question, line: &Line, number: usize) -> Reply {
    answer_job(question, line).unwrap_or_else(|fault| {
        let error = LineFault { line: number, field: &fault.field, message: &fault.message };
        // Strings and a number always serialize.
        let json = serde_json::to_string(&ErrorLine { error }).unwrap_or_default();
        Reply { json: json + "\n", good: false }
    })
}

fn answer_job(question: Question, line: &Line) -> Result<Reply, Fault> {
    let whole = |message: String| Fault { field: String::new(), message };
    let text = line.as_ref().map_err(|problem| whole(problem.clone()))?;
    let file = read(text).map_err(|error| {
        let mut fault = first(error.faults.into_iter().map(|(fault, _)| fault));
        // A job file as people write it, over many lines.
        let text = text.trim();
        if text.starts_with('{') && !(text.ends_with('}') || text.ends_with("},")) {
            fault.message += "; here a whole job stands on one line";
        }
        fault
    })?;
    let job = Job::check(&file).map_err(|faults| first(faults.into_iter()))?;
    let answer = job.answer(question).map_err(|error| whole(error.in_job_file()))?;
    let remarks = remarks(&answer, &job);
    let envelope = Envelope::new(question, &job, &answer, &[], &remarks);
    let json = serde_json::to_string(&envelope).map_err(|error| whole(error.to_string()))?;
    Ok(Reply { json: json + "\n", good: answer.good() })
}

/// The first fault, with the others' messages after its own.
fn first(faults: impl Iterator<Item = Fault>) -> Fault {
    faults
        .reduce(|mut first, other| {
            first.message = format!("{}; {other}", first.message);
            first
        })
        .unwrap_or_else(|| Fault { field: String::new(), message: "this is not a job".to_owned() })
}
