//! `pegline batch`: a job a line in, an answer a line out, in order.

mod reply;
mod work;

use std::io::{self, BufRead, BufReader, IsTerminal};
use std::sync::mpsc::sync_channel;
use std::thread;

use clap::Args;
use pegline::answer::Question;
use pegline::job::LARGEST_FILE;

use super::args::{Format, OutputArgs};
use super::failure::{Exit, Failure};
use reply::{Asked, Line};
use work::{IN_HAND, answer_lines, answer_one_by_one};

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
        let csv = out.csv_asked();
        if csv.is_none() {
            out.only("batch", Format::Json)?;
        }
        let asked = Asked { question: self.question, csv };
        if out.to_file() || out.force {
            return Err(Failure::input(
                "-o: batch prints each answer as it comes: write > and a file's name last instead",
            ));
        }
        if io::stdin().is_terminal() {
            return Err(Failure::input(
                "standard input is a terminal: pipe job files in, one a line, as in `pegline batch diagonals < jobs.jsonl`",
            ));
        }
        let lines = || Lines(BufReader::new(io::stdin()));
        let (sender, receiver) = sync_channel(2 * IN_HAND);
        let reading = thread::Builder::new().spawn(move || {
            // Once the answers have nowhere to go the lines have not either.
            lines().map(|line| line.map(|line| sender.send(line))).find(|sent| !matches!(sent, Ok(Ok(()))))
        });
        let good = match reading {
            Ok(reading) => {
                let good = answer_lines(asked, receiver)?;
                match reading.join() {
                    Ok(Some(Err(error))) => return Err(reading_failed(error)),
                    Ok(_) => good,
                    Err(_) => return Err(Failure::input("reading standard input stopped")),
                }
            }
            // Where no thread is to be had this one does everything.
            Err(_) => answer_one_by_one(asked, lines())?,
        };
        Ok(if good { Exit::Good } else { Exit::Bad })
    }
}

fn reading_failed(error: io::Error) -> Failure {
    Failure::Io { doing: "reading standard input".to_owned(), error }
}

/// The lines of the input; one that is too long is passed over without being held, and said.
struct Lines<R>(R);

impl<R: BufRead> Iterator for Lines<R> {
    type Item = io::Result<Line>;

    fn next(&mut self) -> Option<Self::Item> {
        self.read().transpose()
    }
}

impl<R: BufRead> Lines<R> {
    fn read(&mut self) -> io::Result<Option<Line>> {
        let mut bytes = vec![];
        let mut too_long = false;
        loop {
            let here = self.0.fill_buf()?;
            let end = here.iter().position(|byte| *byte == b'\n');
            let taken = end.unwrap_or(here.len());
            too_long |= bytes.len() + taken > LARGEST_FILE;
            if !too_long {
                bytes.extend_from_slice(&here[..taken]);
            }
            if end.is_none() && taken == 0 {
                if bytes.is_empty() && !too_long {
                    return Ok(None);
                }
                break;
            }
            self.0.consume(taken + usize::from(end.is_some()));
            if end.is_some() {
                break;
            }
        }
        Ok(Some(if too_long {
            Err(format!("the line is over {LARGEST_FILE} bytes (1 MiB)"))
        } else {
            String::from_utf8(bytes).map_err(|_| "the line is not text (UTF-8)".to_owned())
        }))
    }
}
