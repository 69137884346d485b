//! `pegline book`: the field book over a stream, a line in and a line out, saved before it is answered.

use std::io::{self, BufRead, IsTerminal, Write};

use clap::Args;
use pegline::book::Book;
use pegline::job::rewritten;
use pegline::report::page;
use pegline::words::capital;

use super::args::{Format, OutputArgs};
use super::ask::exit;
use super::failure::{Exit, Failure};
use super::output::{page_text, sentence_text, width};
use super::source::Source;
use super::write::replace_file;

/// The longest line taken, bytes: more is no reading.
const LONGEST_LINE: u64 = 1000;

#[derive(Debug, Args)]
pub(super) struct BookArgs {
    /// The job file that the readings go into.
    #[arg(value_name = "JOB")]
    file: String,
    /// What is booked: plate, brick or a name of your own for taped lines; level; string and its side; drop.
    #[arg(value_name = "WHAT", default_value = "plate", num_args = 0..)]
    what: Vec<String>,
}

impl BookArgs {
    pub(super) fn run(self, out: &OutputArgs) -> Result<Exit, Failure> {
        out.only("book", Format::Table)?;
        if self.file == "-" {
            return Err(Failure::input(
                "JOB -: the readings come from standard input: name the job file that they go into",
            ));
        }
        let source = Source::open(&self.file)?;
        let mut text = source.text().to_owned();
        let mut book = Book::open(source.job_file()?, &self.what.join(" ")).map_err(Failure::input)?;
        let asks = io::stdin().is_terminal();
        // A line in is a line out where a program reads it.
        let columns = if asks { width(out) } else { usize::from(u16::MAX) };
        if asks {
            say(&sentence_text(&book.heading(), columns, out))?;
        }
        while !asks || book.asked().is_some() {
            if let (true, Some(asked)) = (asks, book.asked()) {
                say(&format!("{asked}? "))?;
            }
            let Some(line) = next_line()? else { break };
            let reply = book.line(&line);
            if reply.changed {
                text = rewritten(&text, book.file()).map_err(Failure::input)?;
                replace_file(self.file.as_ref(), &text)?;
            }
            for line in reply.lines {
                say(&sentence_text(&line, columns, out))?;
            }
        }
        say("\n")?;
        let Some(answer) = book.answer() else {
            say(&sentence_text(&capital(&book.stands()), columns, out))?;
            return Ok(Exit::Bad);
        };
        say(&page_text(&page(answer, book.job(), out.detail(), width(out), &[]), out))?;
        Ok(exit(answer))
    }
}

/// Prints at once.
fn say(words: &str) -> Result<(), Failure> {
    let mut stdout = io::stdout().lock();
    let said = stdout.write_all(words.as_bytes()).and_then(|()| stdout.flush());
    said.map_err(|error| Failure::Io { doing: "writing to standard output".to_owned(), error })
}

/// The next line of standard input; nothing at its end. What is too long for a line is cut off, and so is no reading.
fn next_line() -> Result<Option<String>, Failure> {
    let failed = |error| Failure::Io { doing: "reading standard input".to_owned(), error };
    let mut stdin = io::stdin().lock();
    let mut bytes = vec![];
    let mut input = io::Read::take(&mut stdin, LONGEST_LINE);
    if input.read_until(b'\n', &mut bytes).map_err(failed)? == 0 {
        return Ok(None);
    }
    if !bytes.ends_with(b"\n") && input.limit() == 0 {
        stdin.skip_until(b'\n').map_err(failed)?;
    }
    Ok(Some(String::from_utf8_lossy(&bytes).into_owned()))
}
