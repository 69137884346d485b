//! `pegline batch`: a job a line in, an answer a line out, in order.

mod reply;
mod work;

use std::io::{self, BufRead, BufReader, IsTerminal};
use std::sync::mpsc::{SyncSender, sync_channel};
use std::thread;

use clap::Args;
use pegline::answer::Question;
use pegline::job::LARGEST_FILE;

use super::args::{Format, OutputArgs};
use super::failure::{Exit, Failure};
use reply::Line;
use work::{IN_HAND, answer_lines};

#[derive(Debug, Args)]
pub(super) struct BatchArgs {
    /// The command to answer for each job, such as diagonals or plates.
    #[arg(value_name = "COMMAND", value_parser = question)]
    question: Question,
}

fn question(name: &str) -> Result<Question, String> {
    Question::ALL.into_iter().find(|question| question.name() == name).ok_or_else(|| {
        let names: Vec<&str> = Question::ALL.iter().map(|question| question.name()).collect();
        format!("write one of {}", names.join(", "))
    })
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
        let good = answer_lines(self.question, receiver)?;
        match reading.join() {
            Ok(Ok(())) => Ok(if good { Exit::Good } else { Exit::Bad }),
            Ok(Err(error)) => Err(Failure::Io { doing: "reading standard input".to_owned(), error }),
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
