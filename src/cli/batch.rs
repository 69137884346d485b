//! `pegline batch`: a job a line in, an answer a line out, in order.

use std::io::{self, BufRead, BufReader, IsTerminal, Write};
use std::num::NonZero;
use std::panic::resume_unwind;
use std::sync::mpsc::{Receiver, SyncSender, TryRecvError, sync_channel};
use std::thread;

use clap::Args;
use pegline::answer::{Envelope, ErrorLine, LineFault, Question};
use pegline::job::{Fault, Job, LARGEST_FILE, read};
use pegline::report::remarks;

use super::args::{Format, OutputArgs};
use super::failure::{Exit, Failure};

/// Lines in hand at once: enough to keep every core busy, few enough that memory stays flat.
const IN_HAND: usize = 512;
/// Said on standard error after every so many lines, where it is a terminal.
const PROGRESS: usize = 10_000;

#[derive(Debug, Args)]
pub(super) struct BatchArgs {
    /// The command to answer for each job, such as diagonals or plates.
    #[arg(value_name = "COMMAND", value_parser = question)]
    question: Question,
}

fn question(name: &str) -> Result<Question, String> {
    Question::ALL
        .into_iter()
        .find(|question| question.name() == name)
        .ok_or_else(|| {
            let names: Vec<&str> = Question::ALL.iter().map(|question| question.name()).collect();
            format!("write one of {}", names.join(", "))
        })
}

/// A line of input: its text, or why it could not be read.
type Line = Result<String, String>;

/// A line's answer and whether it is good.
struct Reply {
    json: String,
    good: bool,
}

impl BatchArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        out.only("batch", Format::Json)?;
        if io::stdin().is_terminal() {
            return Err(Failure::input(
                "standard input is a terminal: pipe job files in, one a line, as in `pegline batch diagonals < jobs.jsonl`",
            ));
        }
        let (sender, receiver) = sync_channel(2 * IN_HAND);
        let reading = thread::spawn(move || read_lines(BufReader::new(io::stdin()), &sender));
        let good = answer_lines(self.question, &receiver)?;
        drop(receiver);
        match reading.join() {
            Ok(Ok(())) => Ok(if good { Exit::Good } else { Exit::Bad }),
            Ok(Err(error)) => Err(Failure::Io {
                doing: "reading standard input".to_owned(),
                error,
            }),
            Err(_) => Err(Failure::input("reading standard input stopped")),
        }
    }
}

/// Sends each line on; a line that is too long is passed over without being held, and said.
fn read_lines(mut input: impl BufRead, lines: &SyncSender<Line>) -> io::Result<()> {
    loop {
        let mut bytes = vec![];
        let mut too_long = false;
        loop {
            let here = input.fill_buf()?;
            let end = here.iter().position(|byte| *byte == b'\n');
            let taken = end.unwrap_or(here.len());
            too_long |= bytes.len() + taken > LARGEST_FILE;
            if !too_long {
                bytes.extend_from_slice(&here[..taken]);
            }
            if end.is_none() && taken == 0 {
                if bytes.is_empty() && !too_long {
                    return Ok(());
                }
                break;
            }
            input.consume(taken + usize::from(end.is_some()));
            if end.is_some() {
                break;
            }
        }
        let line = if too_long {
            Err(format!("the line is over {LARGEST_FILE} bytes (1 MiB)"))
        } else {
            String::from_utf8(bytes).map_err(|_| "the line is not text (UTF-8)".to_owned())
        };
        if lines.send(line).is_err() {
            return Ok(());
        }
    }
}

/// Answers lines as they come, a handful at a time over all cores; whether all were good.
fn answer_lines(question: Question, lines: &Receiver<Line>) -> Result<bool, Failure> {
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let tell = io::stderr().is_terminal();
    let mut out = io::stdout().lock();
    let failed = |error| Failure::Io {
        doing: "writing to standard output".to_owned(),
        error,
    };
    let (mut done, mut good) = (0, true);
    while let Some(in_hand) = next_lines(lines) {
        for reply in answer_all(question, &in_hand, done, cores) {
            good &= reply.good;
            out.write_all(reply.json.as_bytes()).map_err(failed)?;
        }
        out.flush().map_err(failed)?;
        let before = done;
        done += in_hand.len();
        if tell && done / PROGRESS > before / PROGRESS {
            // Progress is a courtesy: a terminal that has gone away is no reason to stop.
            let _told = writeln!(anstream::stderr(), "{done} jobs answered");
        }
    }
    Ok(good)
}

/// The lines there are, up to [`IN_HAND`]; waits for the first. `None` when there are no more.
fn next_lines(lines: &Receiver<Line>) -> Option<Vec<Line>> {
    let mut in_hand = vec![lines.recv().ok()?];
    while in_hand.len() < IN_HAND {
        match lines.try_recv() {
            Ok(line) => in_hand.push(line),
            Err(TryRecvError::Empty | TryRecvError::Disconnected) => break,
        }
    }
    Some(in_hand)
}

/// Answers in the order of the lines, `before` lines having gone before.
fn answer_all(question: Question, lines: &[Line], before: usize, cores: usize) -> Vec<Reply> {
    let share = lines.len().div_ceil(cores);
    let answer_share = |first: usize, share: &[Line]| -> Vec<Reply> {
        (first..)
            .zip(share)
            .map(|(number, line)| answer(question, line, number))
            .collect()
    };
    if cores == 1 || lines.len() < cores {
        return answer_share(before + 1, lines);
    }
    thread::scope(|scope| {
        let at_work: Vec<_> = lines
            .chunks(share)
            .enumerate()
            .map(|(i, chunk)| scope.spawn(move || answer_share(before + 1 + i * share, chunk)))
            .collect();
        at_work
            .into_iter()
            .flat_map(|worker| worker.join().unwrap_or_else(|panic| resume_unwind(panic)))
            .collect()
    })
}

/// The answer to line `number`, with its line feed.
fn answer(question: Question, line: &Line, number: usize) -> Reply {
    answer_job(question, line).unwrap_or_else(|fault| {
        let error = LineFault {
            line: number,
            field: &fault.field,
            message: &fault.message,
        };
        // Strings and a number always serialize.
        let json = serde_json::to_string(&ErrorLine { error }).unwrap_or_default();
        Reply {
            json: json + "\n",
            good: false,
        }
    })
}

fn answer_job(question: Question, line: &Line) -> Result<Reply, Fault> {
    let whole = |message: String| Fault {
        field: String::new(),
        message,
    };
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
    let page = remarks(&answer, &job);
    let envelope = Envelope::new(question, &job, &answer, &[], &page);
    let json = serde_json::to_string(&envelope).map_err(|error| whole(error.to_string()))?;
    Ok(Reply {
        json: json + "\n",
        good: page.verdict.is_none_or(|verdict| verdict.good),
    })
}

/// The first fault, with the others' messages after its own.
fn first(faults: impl Iterator<Item = Fault>) -> Fault {
    faults
        .reduce(|mut first, other| {
            first.message = format!("{}; {other}", first.message);
            first
        })
        .unwrap_or_else(|| Fault {
            field: String::new(),
            message: "this is not a job".to_owned(),
        })
}
