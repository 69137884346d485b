//! One line of a batch answered.

use std::fmt::Display;
use std::panic::{UnwindSafe, catch_unwind};

use pegline::answer::{Answered, BlankLine, Envelope, ErrorLine, LineFault, Question};
use pegline::job::{Fault, Job, read};
use pegline::page::{Detail, Spreadsheet};
use pegline::words::and_more;

use crate::cli::output::unseen_escaped;

/// A line of input: its text, or why it could not be read.
pub(super) type Line = Result<String, String>;

/// A line's answer and whether it is good.
pub(super) struct Reply {
    /// What is printed of it; as CSV, with the header.
    pub(super) text: String,
    /// What is wrong with the line, where what is printed has no room for it.
    pub(super) fault: Option<String>,
    pub(super) good: bool,
}

/// What is asked of every line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Asked {
    pub(super) question: Question,
    /// For whom as CSV; JSON for none.
    pub(super) csv: Option<Spreadsheet>,
}

/// The answer to line `number`, with its line feed. A blank line has an answer too, so that line and answer go together.
pub(super) fn answer(asked: Asked, line: &Line, number: usize) -> Reply {
    if line.as_ref().is_ok_and(|text| text.trim().is_empty()) {
        let json = || serde_json::to_string(&BlankLine::default()).unwrap_or_default() + "\n";
        let text = asked.csv.map_or_else(json, |_| String::new());
        return Reply { text, fault: None, good: true };
    }
    line_by_itself(asked, number, || answer_job(asked, line, number))
}

/// What comes of a line, whatever that is: the others are answered even if the program fails on this one.
fn line_by_itself(
    asked: Asked,
    number: usize,
    answer: impl FnOnce() -> Result<Reply, Fault> + UnwindSafe,
) -> Reply {
    let failed = |_| {
        Err(whole("the program failed on this line, which is a fault of its own: keep the line to report it"))
    };
    catch_unwind(answer).unwrap_or_else(failed).unwrap_or_else(|fault| {
        if asked.csv.is_some() {
            let fault = Some(format!("error: line {number}: {fault}\n"));
            return Reply { text: String::new(), fault, good: false };
        }
        let error = LineFault { line: Some(number), field: &fault.field, message: &fault.message };
        // Strings and a number always serialize.
        let json = serde_json::to_string(&ErrorLine { error }).unwrap_or_default();
        Reply { text: json + "\n", fault: None, good: false }
    })
}

/// A fault of the line as a whole.
fn whole(message: impl Display) -> Fault {
    Fault::new("", message)
}

fn answer_job(Asked { question, csv }: Asked, line: &Line, number: usize) -> Result<Reply, Fault> {
    let text = line.as_ref().map_err(whole)?;
    let file = read(text).map_err(|error| {
        let more = error.faults.more();
        let mut fault = first(error.faults.into_iter().map(|(fault, _)| fault), more);
        // A job file as people write it, over many lines.
        let text = text.trim();
        if text.starts_with('{') && !(text.ends_with('}') || text.ends_with("},")) {
            fault.message += "; here a whole job stands on one line";
        }
        fault
    })?;
    let job = Job::check(&file).map_err(|faults| {
        let more = faults.more();
        first(faults.into_iter(), more)
    })?;
    let answer = job.answer(question).map_err(|error| whole(error.in_job_file()))?;
    let good = answer.good();
    if let Some(spreadsheet) = csv {
        let rows = answer.rows(job.units).behind("job", job.name.as_deref().unwrap_or_default());
        let text = rows.behind("input_line", &number.to_string()).csv(spreadsheet).map_err(whole)?;
        return Ok(Reply { text, fault: None, good });
    }
    let remarks = answer.remarks(&job, Detail::Full);
    let envelope = Envelope::new(question, &job, &answer, &[], &remarks);
    let json = serde_json::to_string(&envelope).map_err(whole)?;
    Ok(Reply { text: unseen_escaped(json) + "\n", fault: None, good })
}

/// The first fault, with the others' messages after its own, and how many `more` there are.
fn first(mut faults: impl Iterator<Item = Fault>, more: usize) -> Fault {
    let Some(first) = faults.next() else { return whole("this is not a job") };
    let others = faults.map(|fault| fault.to_string()).chain(and_more(more));
    let message = [first.message].into_iter().chain(others).collect::<Vec<_>>().join("; ");
    Fault { message, ..first }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_that_the_program_fails_on_costs_that_line_alone() {
        let asked = Asked { question: Question::Diagonals, csv: None };
        let reply = line_by_itself(asked, 7, || panic!("on purpose"));
        assert!(!reply.good);
        assert!(
            reply
                .text
                .starts_with(r#"{"error":{"line":7,"field":"","message":"the program failed on this line"#)
        );
        assert!(reply.text.ends_with("}\n"));
    }
}
