//! From the job file's section on taped readings to a checked question.

mod section;
mod taped;

use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
pub use section::{ReadingsSection, SecondTapeSection};
use taped::{celsius, hanging, line_and_length};

use crate::length::{InUnits, Length, MM_PER_FOOT, MM_PER_INCH, Units};
use crate::plan::Footprint;
use crate::readings::{
    BUILT_WITHIN, Conditions, Error, FitKind, Input, Limit, MASONRY_ENDS, Masonry, Reading, Sag, TapeUse,
    check,
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

/// The question that `section` puts of `footprint`; none without a reading. On masonry the tape's ends are held roughly, unless
/// `ends_said`.
pub(in crate::job) fn question(
    section: &ReadingsSection,
    footprint: &Footprint,
    mut tape: Tape,
    ends_said: bool,
    at: Cursor<'_>,
) -> Option<ReadingsQuestion> {
    let masonry = masonry(section, at);
    if masonry.is_some() && !ends_said {
        tape.ends = at.units.usual(MASONRY_ENDS, 1.0 / 8.0);
    }
    let taken = Taken { footprint, at };
    let mut readings = taken.readings(at.field("read"), section.read.as_deref(), 0);
    let temperature =
        section.temperature.as_deref().and_then(|text| at.field("temperature").take(celsius(text)));
    let first = TapeUse {
        tape,
        held_on: held_on(section.held_on.as_ref(), at),
        conditions: Conditions { temperature, sag: sag(section.sag.as_deref(), at), tension: None },
    };
    let mut tapes = vec![first];
    if let Some(second) = &section.second_tape {
        let at = at.field("second_tape");
        readings.extend(taken.readings(at.field("read"), second.read.as_deref(), 1));
        tapes.push(second_tape(second, first, at));
        if second.read.iter().flatten().all(|text| text.trim().is_empty()) {
            let problem =
                "nothing is read with the second tape: write what it read, as AB=7801, or leave it out";
            at.field("read").fault(problem);
        }
    }
    taken.rises(section.rise.as_deref(), &mut readings);
    let question = ReadingsQuestion {
        readings,
        tapes,
        built_within: at
            .field("built_within")
            .positive(section.built_within.as_ref())
            .unwrap_or(at.units.usual(BUILT_WITHIN, 3.0 / 8.0)),
        fit: taken.fit(section.fit.as_deref()),
        limit: limit(section, at),
        size_limit: at.field("size_limit").not_negative(section.size_limit.as_ref()),
        masonry,
    };
    if question.readings.is_empty() {
        return None;
    }
    if at.faults() == 0
        && let Err(error) = check(&question.input(footprint, at.default_units))
    {
        let second = at.field("second_tape");
        let at = match error {
            Error::Setting { .. } => at,
            _ if section.read.is_none() => second.field("read"),
            _ => at.field("read"),
        };
        at.fault(error.message(at.units));
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
    let all = if unit == "m" { ", or add --units m" } else { "" };
    Some(format!(
        "every reading fits the plan as {name}, and a bare number here is {}: write {instead}{all}",
        default_units.name()
    ))
}

/// A section being taken in.
#[derive(Clone, Copy)]
struct Taken<'a> {
    footprint: &'a Footprint,
    at: Cursor<'a>,
}

impl Taken<'_> {
    /// Lines with their lengths, each from `AB=7802`.
    fn lines<'g>(self, list: Cursor<'_>, given: Option<&'g [String]>) -> Vec<Taped<'g>> {
        let mut lines = vec![];
        // Behind a comma at the end of a list there is nothing.
        let given = given.unwrap_or_default().iter().enumerate();
        for (i, text) in given.filter(|(_, text)| !text.trim().is_empty()) {
            let read = line_and_length(text, self.footprint, list);
            if let Some((ends, typed, length)) = list.nth(i).take(read) {
                lines.push(Taped { place: i, ends, typed, length });
            }
        }
        lines
    }

    fn readings(self, list: Cursor<'_>, given: Option<&[String]>, tape: usize) -> Vec<Reading> {
        let mut readings = vec![];
        let lines = self.lines(list, given);
        let all_read = given.is_some_and(|given| given.len() == lines.len());
        let meant = in_another_unit(&lines, self.footprint, list.default_units).filter(|_| all_read);
        if let Some(meant) = meant {
            list.fault(meant);
            return readings;
        }
        for Taped { place: i, ends: (from, to), typed, length } in lines {
            if length.mm > 0.0 {
                let value = list.nth(i).plausible(typed, length);
                readings.extend(value.map(|value| Reading { tape, ..Reading::new(from, to, value) }));
            } else {
                let line = self.footprint.line_name(from, to);
                let problem = format!("{line}: a reading must be more than zero");
                list.nth(i).fault(problem);
            }
        }
        readings
    }

    /// Lays the differences in level over the readings of their lines.
    fn rises(self, given: Option<&[String]>, readings: &mut [Reading]) {
        let list = self.at.field("rise");
        let mut seen = vec![];
        for Taped { place: i, ends: (from, to), typed, length } in self.lines(list, given) {
            let rise = list.nth(i).plausible(typed, length);
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
            list.nth(i).fault(problem);
        }
    }

    fn fit(self, text: Option<&str>) -> Option<FitKind> {
        let footprint = self.footprint;
        let text = text?;
        let fit = match text.trim().to_ascii_lowercase().as_str() {
            "free" => Ok(FitKind::Free),
            "least-worst" => Ok(FitKind::LeastWorst),
            "fewest" => Ok(FitKind::Fewest),
            side => footprint.parse_side(side).map(FitKind::Held).map_err(|_| {
                let last = footprint.len() - 1;
                format!(
                    "`{}` is no way to fit: write a side to hold it on ({} to {}), free, least-worst or fewest",
                    text.trim(),
                    footprint.side_name(0),
                    footprint.side_name(last)
                )
            }),
        };
        self.at.field("fit").take(fit)
    }
}

fn second_tape(second: &SecondTapeSection, first: TapeUse, at: Cursor<'_>) -> TapeUse {
    let class: Option<TapeClass> =
        second.class.as_deref().and_then(|text| at.field("class").take(text.parse()));
    TapeUse {
        tape: Tape { class: class.unwrap_or(first.tape.class), ..first.tape },
        held_on: held_on(second.held_on.as_ref(), at),
        conditions: Conditions { sag: sag(second.sag.as_deref(), at), ..first.conditions },
    }
}

fn held_on(entry: Option<&LengthEntry>, at: Cursor<'_>) -> f64 {
    at.field("held_on").not_negative(entry).unwrap_or_default()
}

fn sag(text: Option<&str>, at: Cursor<'_>) -> Option<Sag> {
    at.field("sag").take(hanging(text?))
}

fn limit(section: &ReadingsSection, at: Cursor<'_>) -> Option<Limit> {
    let preset_at = at.field("preset");
    if section.limit.is_some() && section.preset.is_some() {
        preset_at.fault("the limit is given twice: leave out `preset` or `limit`");
    }
    let own = at.field("limit").not_negative(section.limit.as_ref());
    let preset = section.preset.as_deref().and_then(|key| preset_at.take(Limit::published(key)));
    own.map(Limit::Own).or(preset)
}

/// An overhang is of a plate on masonry, so giving its limit, or how far it may stand off the house, says that there is one.
fn masonry(section: &ReadingsSection, at: Cursor<'_>) -> Option<Masonry> {
    let limit = at.field("overhang").not_negative(section.overhang.as_ref());
    let stand_off = at.field("stand_off").not_negative(section.stand_off.as_ref());
    let asked = section.masonry.unwrap_or(limit.is_some() || stand_off.is_some_and(|by| by > 0.0));
    asked.then_some(Masonry { limit, stand_off: stand_off.unwrap_or_default() })
}
