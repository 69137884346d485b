//! From the job file's section on taped readings to a checked question.

mod section;
mod taped;

use crate::job::LengthEntry;
use crate::job::faults::Faults;
pub use section::{ReadingsSection, SecondTapeSection};
use taped::{celsius, hanging, line_and_length};

use crate::length::{Length, MM_PER_FOOT, MM_PER_INCH, Units};
use crate::plan::Footprint;
use crate::readings::{
    BUILT_WITHIN, Conditions, Error, FitKind, Input, Limit, Masonry, Reading, Sag, TapeUse, check,
};
use crate::tape::{Tape, TapeClass};

/// Taped readings and how to judge them.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingsQuestion {
    /// The readings, in the order given.
    pub readings: Vec<Reading>,
    /// The tapes, the first one first.
    pub tapes: Vec<TapeUse>,
    /// How near to the plan the outline is taken to be built, one standard deviation, mm.
    pub built_within: f64,
    /// How the true outline is laid on what was built.
    pub fit: Option<FitKind>,
    /// How far out of square a corner may be.
    pub limit: Option<Limit>,
    /// The most that a side may be long or short, mm, where that is not `limit`.
    pub size_limit: Option<f64>,
    /// Set when the readings are of the masonry.
    pub masonry: Option<Masonry>,
}

impl ReadingsQuestion {
    /// The question as it is put of a plan.
    #[must_use]
    pub fn input<'a>(&'a self, footprint: &'a Footprint, units: Units) -> Input<'a> {
        Input {
            built_within: self.built_within,
            fit: self.fit,
            limit: self.limit,
            size_limit: self.size_limit,
            masonry: self.masonry,
            units,
            ..Input::new(footprint, &self.readings, &self.tapes)
        }
    }
}

/// The question that `section` puts of `footprint`; none without a reading.
pub(in crate::job) fn question(
    section: &ReadingsSection,
    footprint: &Footprint,
    tape: Tape,
    bare: Units,
    faults: &mut Faults,
) -> Option<ReadingsQuestion> {
    let mut taken = Taken { footprint, bare, faults };
    let mut readings = taken.readings("readings.read", section.read.as_deref(), 0);
    let temperature = taken.read("readings.temperature", section.temperature.as_deref(), celsius);
    let first = TapeUse {
        tape,
        held_on: taken.held_on("readings.held_on", section.held_on.as_ref()),
        conditions: Conditions {
            temperature,
            sag: taken.sag("readings.sag", section.sag.as_deref()),
            tension: None,
        },
    };
    let mut tapes = vec![first];
    if let Some(second) = &section.second_tape {
        readings.extend(taken.readings("readings.second_tape.read", second.read.as_deref(), 1));
        tapes.push(taken.second_tape(second, first));
        if second.read.iter().flatten().all(|text| text.trim().is_empty()) {
            let problem =
                "nothing is read with the second tape: write what it read, as AB=7801, or leave it out";
            taken.faults.add("readings.second_tape.read", problem);
        }
    }
    taken.rises(section.rise.as_deref(), &mut readings);
    let question = ReadingsQuestion {
        readings,
        tapes,
        built_within: taken
            .faults
            .positive("readings.built_within", section.built_within.as_ref(), bare)
            .unwrap_or(BUILT_WITHIN),
        fit: taken.fit(section.fit.as_deref()),
        limit: taken.limit(section),
        size_limit: taken.faults.not_negative("readings.size_limit", section.size_limit.as_ref(), bare),
        masonry: taken.masonry(section),
    };
    if question.readings.is_empty() {
        return None;
    }
    if faults.is_empty()
        && let Err(error) = check(&question.input(footprint, bare))
    {
        let second = section.read.is_none();
        let field = match error {
            Error::Setting { .. } => "readings",
            _ if second => "readings.second_tape.read",
            _ => "readings.read",
        };
        faults.add(field, error);
    }
    Some(question)
}

/// A line with its length as it was typed.
struct Taped<'a> {
    place: usize,
    ends: (usize, usize),
    typed: &'a str,
    length: Length,
}

/// The units that a whole list may have been typed in by mistake: what to call them, what to write behind a number, and
/// how many mm one is; and how far a reading may be from the plan for all that, as a part of it.
const OTHER_UNITS: [(&str, &str, f64); 5] = [
    ("metres", "m", 1_000.0),
    ("centimetres", "", 10.0),
    ("feet", "ft", MM_PER_FOOT),
    ("inches", "in", MM_PER_INCH),
    ("millimetres", "mm", 1.0),
];
const NEAR: f64 = 0.15;

/// What is said where every reading is a bare number and fits its line on the plan in another unit.
fn in_another_unit(lines: &[Taped<'_>], footprint: &Footprint, default_units: Units) -> Option<String> {
    let first = lines.first()?;
    let own = default_units.in_mm();
    let drawn = |(a, b): (usize, usize)| footprint.corners()[a].at.distance(footprint.corners()[b].at);
    let fits = |line: &Taped<'_>, factor: f64| {
        let reading = line.length.mm / own * factor;
        line.length.written_in.is_none() && (reading / drawn(line.ends) - 1.0).abs() < NEAR
    };
    let others = OTHER_UNITS.into_iter().filter(|(_, _, factor)| (factor - own).abs() > 1e-9);
    let (name, unit, factor) =
        others.into_iter().find(|(_, _, factor)| lines.iter().all(|line| fits(line, *factor)))?;
    let line = footprint.line_name(first.ends.0, first.ends.1);
    let instead = if unit.is_empty() {
        format!("{line}={}", default_units.figure(first.length.mm / own * factor))
    } else {
        format!("{line}={}{unit}", first.typed.trim())
    };
    Some(format!(
        "every reading fits the plan as {name}, and a bare number here is {}: write {instead}",
        default_units.name()
    ))
}

/// A section being taken in.
struct Taken<'a> {
    footprint: &'a Footprint,
    bare: Units,
    faults: &'a mut Faults,
}

impl Taken<'_> {
    /// Lines with their lengths, each from `AB=7802`.
    fn lines<'g>(&mut self, field: &str, given: Option<&'g [String]>) -> Vec<Taped<'g>> {
        let mut lines = vec![];
        // Behind a comma at the end of a list there is nothing.
        let given = given.unwrap_or_default().iter().enumerate();
        for (i, text) in given.filter(|(_, text)| !text.trim().is_empty()) {
            let read = line_and_length(text, self.footprint, self.bare);
            if let Some((ends, typed, length)) = self.faults.take(&format!("{field}[{i}]"), read) {
                lines.push(Taped { place: i, ends, typed, length });
            }
        }
        lines
    }

    fn readings(&mut self, field: &str, given: Option<&[String]>, tape: usize) -> Vec<Reading> {
        let mut readings = vec![];
        let lines = self.lines(field, given);
        if let Some(meant) = in_another_unit(&lines, self.footprint, self.bare) {
            self.faults.add(field, meant);
            return readings;
        }
        for Taped { place: i, ends: (from, to), typed, length } in lines {
            if length.mm > 0.0 {
                let value = self.faults.plausible(&format!("{field}[{i}]"), typed, length, self.bare);
                readings.extend(value.map(|value| Reading { tape, ..Reading::new(from, to, value) }));
            } else {
                let line = self.footprint.line_name(from, to);
                let problem = format!("{line}: a reading must be more than zero");
                self.faults.add(&format!("{field}[{i}]"), problem);
            }
        }
        readings
    }

    /// Lays the differences in level over the readings of their lines.
    fn rises(&mut self, given: Option<&[String]>, readings: &mut [Reading]) {
        let mut seen = vec![];
        for Taped { place: i, ends: (from, to), typed, length } in self.lines("readings.rise", given) {
            let rise = self.faults.plausible(&format!("readings.rise[{i}]"), typed, length, self.bare);
            let Some(rise) = rise else { continue };
            let same = |r: &&mut Reading| (r.from.min(r.to), r.from.max(r.to)) == (from, to);
            let mut any = false;
            for reading in readings.iter_mut().filter(same) {
                reading.rise = rise;
                any = true;
            }
            let line = self.footprint.line_name(from, to);
            let steep = readings
                .iter()
                .any(|r| (r.from.min(r.to), r.from.max(r.to)) == (from, to) && rise.abs() >= r.value);
            let problem = if steep {
                format!(
                    "{line} rises by more than its reading: write how much higher one end lies than the other"
                )
            } else if seen.contains(&(from, to)) {
                format!("{line} is given twice: leave one out")
            } else if any {
                seen.push((from, to));
                continue;
            } else {
                format!("{line} is not read: read it, or leave its rise out")
            };
            self.faults.add(&format!("readings.rise[{i}]"), problem);
        }
    }

    fn second_tape(&mut self, second: &SecondTapeSection, first: TapeUse) -> TapeUse {
        let class: Option<TapeClass> =
            self.read("readings.second_tape.class", second.class.as_deref(), str::parse);
        TapeUse {
            tape: Tape { class: class.unwrap_or(first.tape.class), ..first.tape },
            held_on: self.held_on("readings.second_tape.held_on", second.held_on.as_ref()),
            conditions: Conditions {
                sag: self.sag("readings.second_tape.sag", second.sag.as_deref()),
                ..first.conditions
            },
        }
    }

    /// The value of a field that may be absent.
    fn read<T, E: std::fmt::Display>(
        &mut self,
        field: &str,
        text: Option<&str>,
        parse: impl FnOnce(&str) -> Result<T, E>,
    ) -> Option<T> {
        self.faults.take(field, parse(text?))
    }

    fn held_on(&mut self, field: &str, entry: Option<&LengthEntry>) -> f64 {
        self.faults.not_negative(field, entry, self.bare).unwrap_or_default()
    }

    fn sag(&mut self, field: &str, text: Option<&str>) -> Option<Sag> {
        self.read(field, text, hanging)
    }

    fn fit(&mut self, text: Option<&str>) -> Option<FitKind> {
        let footprint = self.footprint;
        self.read("readings.fit", text, |text| match text.trim().to_ascii_lowercase().as_str() {
            "free" => Ok(FitKind::Free),
            "least-worst" => Ok(FitKind::LeastWorst),
            side => footprint.parse_side(side).map(FitKind::Held).map_err(|_| {
                let last = footprint.len() - 1;
                format!(
                    "`{}` is no way to fit: write a side to hold it on ({} to {}), free or least-worst",
                    text.trim(),
                    footprint.side_name(0),
                    footprint.side_name(last)
                )
            }),
        })
    }

    fn limit(&mut self, section: &ReadingsSection) -> Option<Limit> {
        if section.limit.is_some() && section.preset.is_some() {
            self.faults.add("readings.preset", "the limit is given twice: leave out `preset` or `limit`");
        }
        let own = self.faults.not_negative("readings.limit", section.limit.as_ref(), self.bare);
        let preset = self.read("readings.preset", section.preset.as_deref(), Limit::published);
        own.map(Limit::Own).or(preset)
    }

    /// An overhang is of a plate on masonry, so giving its limit says that there is one.
    fn masonry(&mut self, section: &ReadingsSection) -> Option<Masonry> {
        let limit = self.faults.not_negative("readings.overhang", section.overhang.as_ref(), self.bare);
        let asked = section.masonry.unwrap_or(limit.is_some());
        asked.then_some(Masonry { limit })
    }
}
