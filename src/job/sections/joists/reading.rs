//! What is written of the joists, read and checked field by field.

use super::section::JoistsSection;
use crate::job::faults::Faults;
use crate::job::sections::heights::one_in;
use crate::job::sections::packs::packers;
use crate::job::sections::stock::{StockSection, timber};
use crate::job::{Fault, JobFile, LengthEntry};
use crate::joists::{BearsOn, Mark, Question, RoofOpening, Rows, Support};
use crate::length::{Length, Units};
use crate::packers::CLOSE_ENOUGH;
use crate::plan::{Footprint, Spot};
use crate::rules::{STRUTTING, joist_rule};
use crate::stock::Timber;
use crate::words::quoted;

/// How thick a joist is unless it is said, mm: a target size of EN 336; in a job in feet and inches, 1-1/2 in.
const THICKNESS: f64 = 47.0;
const THICKNESS_IN_INCHES: f64 = 1.5 * crate::length::MM_PER_INCH;
/// How far the first and last joists keep clear of the wall beside them unless it is said, mm: half way between the
/// published least and most.
const CLEAR: f64 = 50.0;

/// The section, read with the plan in hand.
pub(super) struct Reading<'a> {
    pub(super) section: &'a JoistsSection,
    pub(super) footprint: &'a Footprint,
    /// The units of bare numbers.
    pub(super) bare: Units,
    pub(super) faults: &'a mut Faults,
}

impl Reading<'_> {
    /// The question; none without both supports and centres. Figures are answered in the second of `units`.
    pub(super) fn question(&mut self, file: &JobFile, units: (Units, Units)) -> Option<Question> {
        let section = self.section;
        let from = self.sides("joists.from", section.from.as_ref());
        let to = self.sides("joists.to", section.to.as_ref());
        let centres = self.positive("joists.centres", section.centres.as_ref());
        let thickness =
            self.positive("joists.thickness", section.thickness.as_ref()).unwrap_or(match units.1 {
                Units::FeetInches => THICKNESS_IN_INCHES,
                Units::Mm | Units::M => THICKNESS,
            });
        let clear = self.length("joists.clear", section.clear.as_ref()).unwrap_or(CLEAR);
        let given = section.hang.as_ref().map(|_| self.sides("joists.hang", section.hang.as_ref()));
        let hung = given.unwrap_or_else(|| {
            (0..self.footprint.len()).filter(|side| self.footprint.sides()[*side].house).collect()
        });
        let bearing = self.length("joists.bearing", section.bearing.as_ref());
        let plates = file.plates.as_ref().and_then(|plates| plates.width.as_ref()?.read(self.bare).ok());
        let wall = self.length("joists.wall", section.wall.as_ref()).or(plates.map(|width| width.mm));
        let [heights_from, heights_to] = self.heights();
        let fall = section.fall.as_ref().and_then(|text| self.faults.take("joists.fall", one_in(text)));
        let down_to = self.word(
            "joists.fall_to",
            section.fall_to.as_ref(),
            &[("to", Support::To), ("from", Support::From)],
        );
        if section.fall_to.is_some() && section.fall.is_none() {
            self.faults
                .add("joists.fall_to", "the fall is needed too: give it (--fall, or `fall` in the job file)");
        }
        let mut question = Question {
            backward: self.backward(from.first().copied()),
            hung,
            bearing: bearing.unwrap_or(0.0),
            wall: wall.or(bearing).unwrap_or(0.0),
            gap: self.length("joists.hanger_gap", section.hanger_gap.as_ref()).unwrap_or(0.0),
            seat: self.length("joists.hanger_seat", section.hanger_seat.as_ref()),
            bearer: self.length("joists.bearer", section.bearer.as_ref()).unwrap_or(0.0),
            bolts: self.positive("joists.bolts", section.bolts.as_ref()),
            bears_on: self.word(
                "joists.bears_on",
                section.bears_on.as_ref(),
                &[("timber", BearsOn::Timber), ("masonry", BearsOn::Masonry), ("steel", BearsOn::Steel)],
            ),
            mark: self.word(
                "joists.mark",
                section.mark.as_ref(),
                &[("near", Mark::Near), ("far", Mark::Far), ("centre", Mark::Centre)],
            ),
            openings: self.openings(),
            double_trimming: section.double_trimming.unwrap_or(false),
            doubled: self.lengths("joists.double", section.double.as_ref()),
            rows: self.rows(),
            heights_from,
            heights_to,
            fall: fall.map(|n| (n, down_to)),
            packers: packers("joists.packers", section.packers.as_ref(), units.0, units.1, self.faults),
            within: self.length("joists.within", section.within.as_ref()).unwrap_or(CLOSE_ENOUGH),
            rule: section.rule.as_ref().and_then(|key| self.faults.take("joists.rule", joist_rule(key))),
            ..Question::new(0.0, thickness, clear)
        };
        if section.from.is_none() || section.to.is_none() || section.centres.is_none() {
            return None;
        }
        (question.from, question.to, question.centres) = (from, to, centres?);
        let bears = question.from.iter().chain(&question.to).any(|side| !question.hung.contains(side));
        if bears && section.bearing.is_none() {
            self.faults.add(
                "joists.bearing",
                "how far the joists bear is needed: give it (--bearing, or `bearing` in the job file), or name the sides where they hang",
            );
            return None;
        }
        Some(question)
    }

    /// Whether the first side of the first support is named from its second corner.
    fn backward(&self, first: Option<usize>) -> bool {
        let name = self.section.from.as_ref().and_then(|names| names.first());
        first
            .zip(name)
            .is_some_and(|(side, name)| !self.footprint.side_name(side).eq_ignore_ascii_case(name.trim()))
    }

    fn sides(&mut self, field: &str, names: Option<&Vec<String>>) -> Vec<usize> {
        let mut sides = vec![];
        for (i, name) in names.into_iter().flatten().enumerate() {
            sides.extend(self.faults.take(&format!("{field}[{i}]"), self.footprint.parse_side(name)));
        }
        sides
    }

    fn positive(&mut self, field: &str, entry: Option<&LengthEntry>) -> Option<f64> {
        self.faults.positive(field, entry, self.bare)
    }

    fn length(&mut self, field: &str, entry: Option<&LengthEntry>) -> Option<f64> {
        self.faults.not_negative(field, entry, self.bare)
    }

    fn lengths(&mut self, field: &str, entries: Option<&Vec<LengthEntry>>) -> Vec<f64> {
        let entries = entries.into_iter().flatten().enumerate();
        entries.filter_map(|(i, entry)| self.length(&format!("{field}[{i}]"), Some(entry))).collect()
    }

    /// One of a few words; the first where none is given.
    fn word<T: Copy + Default>(&mut self, field: &str, given: Option<&String>, words: &[(&str, T)]) -> T {
        let Some(given) = given else { return T::default() };
        let found = words.iter().find(|(word, _)| word.eq_ignore_ascii_case(given.trim()));
        if found.is_none() {
            let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
            self.faults.add(
                field,
                format!(
                    "`{}` is none of the words here: write {}",
                    quoted(given),
                    crate::words::or_list(&known)
                ),
            );
        }
        found.map(|(_, value)| *value).unwrap_or_default()
    }

    fn openings(&mut self) -> Vec<RoofOpening> {
        let mut openings = vec![];
        for (i, entry) in self.section.openings.iter().flatten().enumerate() {
            let path = format!("joists.openings[{i}]");
            let mut needed = |key: &str, entry: Option<&LengthEntry>, zero: bool| {
                let field = format!("{path}.{key}");
                if entry.is_none() {
                    self.faults.add(&field, "give width, length, along and out");
                }
                if zero { self.length(&field, entry) } else { self.positive(&field, entry) }
            };
            let width = needed("width", entry.width.as_ref(), false);
            let length = needed("length", entry.length.as_ref(), false);
            let along = needed("along", entry.along.as_ref(), true);
            let out = needed("out", entry.out.as_ref(), true);
            let named = entry.name.clone().filter(|name| !name.trim().is_empty());
            if let (Some(width), Some(length), Some(along), Some(out)) = (width, length, along, out) {
                let name = named.unwrap_or_else(|| format!("opening {}", i + 1));
                openings.push(RoofOpening { name, along, out, width, length });
            }
        }
        openings
    }

    fn rows(&mut self) -> Rows {
        let Some(given) = &self.section.noggings else { return Rows::None };
        if given.trim().eq_ignore_ascii_case(STRUTTING.key) {
            return Rows::Published;
        }
        let count = given.trim().parse().map(Rows::Count).map_err(|_| {
            format!(
                "`{}` is no number of rows: write how many, or {} for as many as the span asks for",
                quoted(given),
                STRUTTING.key
            )
        });
        self.faults.take("joists.noggings", count).unwrap_or_default()
    }

    /// The heights along both supports, the first's first, from the one kind of reading that was given.
    fn heights(&mut self) -> [Vec<(Spot, f64)>; 2] {
        let section = self.section;
        let staff = section.staff_from.is_some() || section.staff_to.is_some();
        if staff && (section.heights_from.is_some() || section.heights_to.is_some()) {
            let field = if section.staff_from.is_some() { "joists.staff_from" } else { "joists.staff_to" };
            self.faults.add(field, "give staff readings or heights, not both: they have no zero in common");
        }
        let mut read = |field: &str, given: Option<&Vec<String>>, sign: f64| -> Vec<(Spot, f64)> {
            let given = given.into_iter().flatten().enumerate();
            let readings = given.filter_map(|(i, text)| {
                let reading = self.reading(text);
                let (spot, value) = self.faults.take(&format!("{field}[{i}]"), reading)?;
                Some((spot, sign * value))
            });
            readings.collect()
        };
        if staff {
            [
                read("joists.staff_from", section.staff_from.as_ref(), -1.0),
                read("joists.staff_to", section.staff_to.as_ref(), -1.0),
            ]
        } else {
            [
                read("joists.heights_from", section.heights_from.as_ref(), 1.0),
                read("joists.heights_to", section.heights_to.as_ref(), 1.0),
            ]
        }
    }

    /// Reads `A=-3`.
    fn reading(&self, text: &str) -> Result<(Spot, f64), String> {
        let Some((place, value)) = text.split_once('=') else {
            return Err(format!(
                "`{}` is not a reading: write the place and what was read there: A=0, or AB@2400=-3",
                quoted(text)
            ));
        };
        let spot = Spot::parse(place, self.footprint, self.bare).map_err(|error| error.to_string())?;
        let value =
            Length::parse(value, self.bare).map_err(|error| format!("`{}`: {error}", quoted(text)))?;
        Ok((spot, value.mm))
    }

    /// The joists' own timber; saw cut and trim are the job's.
    pub(super) fn timber(&mut self, file: &JobFile) -> Timber {
        let shared = file.stock.as_ref();
        let stock = StockSection {
            lengths: self.section.stock.clone(),
            have: self.section.have.clone(),
            kerf: shared.and_then(|stock| stock.kerf.clone()),
            trim: shared.and_then(|stock| stock.trim.clone()),
        };
        let mut own = Faults::default();
        let found = timber(Some(&stock), self.bare, &mut own).unwrap_or_default();
        for Fault { field, message } in own {
            let own_field =
                field.replace("stock.lengths", "joists.stock").replace("stock.have", "joists.have");
            // What is wrong with the saw cut is said of the job's stock.
            if own_field.starts_with("joists.") {
                self.faults.add(&own_field, message);
            }
        }
        found
    }
}
