//! Lines answered over all cores, the answers written in the order of the lines.

use std::collections::BTreeMap;
use std::io::{self, BufWriter, IsTerminal, Write};
use std::num::NonZero;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use super::reply::{Asked, Line, Reply, answer};
use crate::cli::failure::Failure;

/// Lines taken but not written yet: enough to keep every core busy behind a slow one, few enough that memory stays flat.
pub(super) const IN_HAND: usize = 1024;
/// The most lines that are taken at once.
const LARGEST_HANDFUL: usize = 64;
/// A handful answered in less than this could have been larger.
const QUICK: Duration = Duration::from_millis(5);
/// The least time between two words on how far the work has come.
const BETWEEN_PROGRESS: Duration = Duration::from_secs(3);

/// What the workers share: where the lines come from, and how far taking and writing have come.
struct Work {
    asked: Asked,
    lines: Mutex<Receiver<Line>>,
    gate: Mutex<Gate>,
    /// Told when a line is written, or the work is to stop.
    moved: Condvar,
}

#[derive(Default)]
struct Gate {
    taken: usize,
    written: usize,
    stopped: bool,
}

impl Work {
    /// Answers handful after handful of lines, and sends each with the number of its first line, from 1.
    fn run(&self, replies: &Sender<(usize, Vec<Reply>)>) {
        let _stop = StopOnPanic(self);
        // Quick jobs are taken by the handful, since each exchange between the threads costs; slow ones one by one.
        let mut handful = 1;
        while let Some((first, lines)) = self.next(handful) {
            let started = Instant::now();
            let numbered = (first..).zip(&lines);
            let answers = numbered.map(|(number, line)| answer(self.asked, line, number));
            if replies.send((first, answers.collect())).is_err() {
                return;
            }
            handful = if started.elapsed() < QUICK {
                (handful * 2).min(LARGEST_HANDFUL)
            } else {
                (handful / 2).max(1)
            };
        }
    }

    /// The next lines, as many as there are up to `handful`, and the number of the first; waits for that one, and until the
    /// answers that wait for an earlier one are few enough.
    fn next(&self, handful: usize) -> Option<(usize, Vec<Line>)> {
        // Lines are numbered in the order in which they are taken, so no other may be taken between the two.
        let lines = held(&self.lines);
        let mut gate = held(&self.gate);
        while gate.taken >= gate.written + IN_HAND && !gate.stopped {
            gate = self.moved.wait(gate).unwrap_or_else(PoisonError::into_inner);
        }
        if gate.stopped {
            return None;
        }
        drop(gate);
        let mut taken = vec![lines.recv().ok()?];
        taken.extend(lines.try_iter().take(handful - 1));
        let mut gate = held(&self.gate);
        let first = gate.taken + 1;
        gate.taken += taken.len();
        Some((first, taken))
    }

    fn wrote(&self, written: usize) {
        held(&self.gate).written = written;
        self.moved.notify_all();
    }

    fn stop(&self) {
        held(&self.gate).stopped = true;
        self.moved.notify_all();
    }
}

/// A worker that panics takes its line with it: the others would wait for it for ever.
struct StopOnPanic<'a>(&'a Work);

impl Drop for StopOnPanic<'_> {
    fn drop(&mut self) {
        if thread::panicking() {
            self.0.stop();
        }
    }
}

/// What a lock guards stays whole here, whoever else panicked.
fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Answers lines as they come, over all cores, and writes the answers in the order of the lines; whether all were good.
/// Where fewer threads are to be had than there are cores, those there are do it.
pub(super) fn answer_lines(asked: Asked, lines: Receiver<Line>) -> Result<bool, Failure> {
    let work =
        Arc::new(Work { asked, lines: Mutex::new(lines), gate: Mutex::default(), moved: Condvar::new() });
    let (sender, replies) = channel();
    let mut workers = 0;
    for _ in 0..thread::available_parallelism().map_or(1, NonZero::get) {
        let (work, sender) = (Arc::clone(&work), sender.clone());
        workers += usize::from(thread::Builder::new().spawn(move || work.run(&sender)).is_ok());
    }
    drop(sender);
    if workers > 0 {
        return write_in_order(&work, &replies).map_err(writing_failed);
    }
    let lines = held(&work.lines);
    answer_one_by_one(asked, lines.iter().map(Ok))
}

/// Answers and writes line after line in this thread; whether all were good.
pub(super) fn answer_one_by_one(
    asked: Asked,
    lines: impl Iterator<Item = io::Result<Line>>,
) -> Result<bool, Failure> {
    let mut out = io::stdout().lock();
    let mut good = true;
    let mut printer = Printer::of(asked);
    for (number, line) in (1..).zip(lines) {
        let line = line.map_err(|error| Failure::Io { doing: "reading standard input".to_owned(), error })?;
        let reply = answer(asked, &line, number);
        good &= reply.good;
        printer.print(&mut out, &reply).map_err(writing_failed)?;
    }
    out.flush().map_err(writing_failed)?;
    Ok(good)
}

fn writing_failed(error: io::Error) -> Failure {
    Failure::Io { doing: "writing to standard output".to_owned(), error }
}

/// Writes each answer as soon as those before it are written.
fn write_in_order(work: &Work, replies: &Receiver<(usize, Vec<Reply>)>) -> io::Result<bool> {
    let mut out = BufWriter::new(io::stdout().lock());
    let mut waiting = BTreeMap::new();
    let (mut written, mut good) = (0, true);
    let mut progress = Progress::new();
    let mut printer = Printer::of(work.asked);
    loop {
        let at_hand = if let Ok(numbered) = replies.try_recv() {
            Ok(numbered)
        } else {
            // Whoever reads the answers gets what there is while the next are worked out.
            out.flush()?;
            replies.recv()
        };
        let Ok((first, replies)) = at_hand else { break };
        waiting.insert(first, replies);
        while let Some(next) = waiting.remove(&(written + 1)) {
            for reply in next {
                good &= reply.good;
                printer.print(&mut out, &reply)?;
                written += 1;
            }
        }
        work.wrote(written);
        progress.tell(written);
    }
    if held(&work.gate).taken == written {
        Ok(good)
    } else {
        Err(io::Error::other(format!("the answer to line {} was lost", written + 1)))
    }
}

/// Prints replies in their order: of CSV the header once, and what is wrong with a line beside it.
struct Printer {
    csv: bool,
    headed: bool,
}

impl Printer {
    const fn of(asked: Asked) -> Self {
        Self { csv: asked.csv.is_some(), headed: false }
    }

    fn print(&mut self, out: &mut impl Write, reply: &Reply) -> io::Result<()> {
        let body = reply.text.split_once('\n').filter(|_| self.csv && self.headed).map(|(_, body)| body);
        self.headed |= !reply.text.is_empty();
        out.write_all(body.unwrap_or(&reply.text).as_bytes())?;
        if let Some(fault) = &reply.fault {
            out.flush()?;
            anstream::stderr().write_all(fault.as_bytes())?;
        }
        Ok(())
    }
}

/// How far the work has come, said now and then on standard error if it is a terminal.
struct Progress {
    terminal: bool,
    told: Instant,
}

impl Progress {
    fn new() -> Self {
        Self { terminal: io::stderr().is_terminal(), told: Instant::now() }
    }

    fn tell(&mut self, written: usize) {
        if self.terminal && self.told.elapsed() >= BETWEEN_PROGRESS {
            // Progress is a courtesy: a terminal that has gone away is no reason to stop.
            let _told = writeln!(anstream::stderr(), "{written} jobs answered");
            self.told = Instant::now();
        }
    }
}
