//! The levelling book: back sights, intermediates and fore sights reduced to heights.
//!
//! Both customary reductions are worked and checked against each other: the *height of the line of sight* (height of
//! the point behind plus its back sight) and *rise and fall* (each reading from the one before it). When the last
//! point's height is known, the closing error is shared equally among the set-ups: everything read from the k-th of
//! n takes k/n of it, the other way.

use serde::Serialize;

use super::error::{LevelsError, at_most, length};
use crate::geometry::Mm;

/// One line of the book, readings in mm. A change point has its fore sight and its next back sight on one line.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BookLine {
    /// Name of the point.
    pub point: String,
    /// Reading on a point of known height: the first from a set-up.
    pub back: Option<f64>,
    /// Reading between a set-up's first and last.
    pub intermediate: Option<f64>,
    /// The last reading from a set-up.
    pub fore: Option<f64>,
}

/// The book as it was kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Book {
    /// Height of the first point, mm.
    pub start: f64,
    /// Height that the last point is known to have, mm, if it is.
    pub known_end: Option<f64>,
    /// The lines, in the order of reading.
    pub lines: Vec<BookLine>,
}

/// One line, reduced. Heights in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReducedLine {
    /// Name of the point.
    pub point: String,
    /// Rise from the reading before (negative: a fall); none on the first line.
    pub rise: Option<Mm>,
    /// Height of the line of sight that the point's height was read from.
    pub sight: Mm,
    /// Reduced height.
    pub height: Mm,
    /// Height after the closing error is shared out; the same as `height` when the end isn't known.
    pub adjusted: Mm,
}

/// The book, reduced. All in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reduction {
    /// The lines in the book's order.
    pub lines: Vec<ReducedLine>,
    /// Number of set-ups.
    pub set_ups: usize,
    /// Sum of the back sights.
    pub back_sights: Mm,
    /// Sum of the fore sights.
    pub fore_sights: Mm,
    /// Sum of the rises.
    pub rises: Mm,
    /// Sum of the falls, as a positive figure.
    pub falls: Mm,
    /// Last height less the first: equal to back less fore sights, and to rises less falls, whatever was read.
    pub difference: Mm,
    /// Height the last point came to, less the height it is known to have.
    pub misclosure: Option<Mm>,
}

/// Reduces a levelling book.
pub fn reduce_book(book: &Book) -> Result<Reduction, LevelsError> {
    at_most("lines in the levelling book", book.lines.len(), 10_000)?;
    let start = length("start height", book.start)?;
    let known_end = book
        .known_end
        .map(|h| length("known end height", h))
        .transpose()?;
    let mut walk = Walk::new(start);
    let last = book.lines.len().saturating_sub(1);
    for (i, line) in book.lines.iter().enumerate() {
        walk.take(i, line, i == last)?;
    }
    if book.lines.len() < 2 {
        return Err(LevelsError::NoReadings);
    }
    let misclosure = known_end.map(|known| walk.height - known);
    let correction = misclosure.map_or(0.0, |m| -m / walk.set_ups as f64);
    let lines = walk
        .lines
        .into_iter()
        .map(|(set_up, mut line)| {
            line.adjusted = Mm(line.height.0 + correction * set_up as f64);
            line
        })
        .collect();
    Ok(Reduction {
        lines,
        set_ups: walk.set_ups,
        back_sights: Mm(walk.back),
        fore_sights: Mm(walk.fore),
        rises: Mm(walk.rises),
        falls: Mm(walk.falls),
        difference: Mm(walk.height - start),
        misclosure: misclosure.map(Mm),
    })
}

/// The reduction so far.
struct Walk {
    height: f64,
    sight: f64,
    before: f64,
    set_ups: usize,
    back: f64,
    fore: f64,
    rises: f64,
    falls: f64,
    lines: Vec<(usize, ReducedLine)>,
}

impl Walk {
    const fn new(start: f64) -> Self {
        Self {
            height: start,
            sight: start,
            before: 0.0,
            set_ups: 0,
            back: 0.0,
            fore: 0.0,
            rises: 0.0,
            falls: 0.0,
            lines: Vec::new(),
        }
    }

    fn take(&mut self, i: usize, line: &BookLine, last: bool) -> Result<(), LevelsError> {
        let wrong = |problem| {
            Err(LevelsError::Book {
                line: i + 1,
                point: line.point.clone(),
                problem,
            })
        };
        let checked = |reading: Option<f64>| {
            reading
                .map(|r| length(format!("reading at {}", line.point), r))
                .transpose()
        };
        let (back, intermediate, fore) = (
            checked(line.back)?,
            checked(line.intermediate)?,
            checked(line.fore)?,
        );
        if i == 0 {
            return match (back, intermediate, fore) {
                (Some(back), None, None) => {
                    self.record(line, 0, None);
                    self.look_back(back);
                    Ok(())
                }
                _ => wrong("the first line has a back sight and nothing else"),
            };
        }
        match (back, intermediate, fore) {
            (None, Some(reading), None) if !last => self.look(line, reading),
            (None, None, Some(reading)) if last => {
                self.look(line, reading);
                self.fore += reading;
            }
            (Some(back), None, Some(reading)) if !last => {
                self.look(line, reading);
                self.fore += reading;
                self.look_back(back);
            }
            _ if last => return wrong("the last line has a fore sight and nothing else"),
            _ => {
                return wrong(
                    "give an intermediate alone, or a fore sight and a back sight at a change point",
                );
            }
        }
        Ok(())
    }

    /// Sets up over a back sight on the point just reached.
    fn look_back(&mut self, back: f64) {
        self.back += back;
        self.sight = self.height + back;
        self.before = back;
        self.set_ups += 1;
    }

    /// Reads the next point from the set-up in use.
    fn look(&mut self, line: &BookLine, reading: f64) {
        let rise = self.before - reading;
        if rise > 0.0 {
            self.rises += rise;
        } else {
            self.falls -= rise;
        }
        self.before = reading;
        self.height = self.sight - reading;
        self.record(line, self.set_ups, Some(Mm(rise)));
    }

    fn record(&mut self, line: &BookLine, set_up: usize, rise: Option<Mm>) {
        let reduced = ReducedLine {
            point: line.point.clone(),
            rise,
            sight: Mm(self.sight),
            height: Mm(self.height),
            adjusted: Mm(self.height),
        };
        self.lines.push((set_up, reduced));
    }
}
