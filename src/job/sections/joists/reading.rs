//! What is written of the joists, read and checked field by field.

use super::section::JoistsSection;
use crate::job::LengthEntry;
use crate::job::cursor::Cursor;
use crate::job::sections::heights::one_in;
use crate::job::sections::packs::packers;
use crate::job::sections::stock::lengths;
use crate::joists::{BearsOn, Mark, Question, RoofOpening, Rows, Support};
use crate::packers::CLOSE_ENOUGH;
use crate::plan::{Footprint, Spot};
use crate::rules::{STRUTTING, joist_rule};
use crate::stock::Timber;
use crate::words::quoted;

/// How thick a joist is unless it is said, mm: a target size of EN 336; in a job in feet and inches, 1-1/2 in.
const THICKNESS: f64 = 47.0;
/// How far the first and last joists keep clear of the wall beside them unless it is said, mm: half way between the
/// published least and most.
const CLEAR: f64 = 50.0;

/// The section, read with the plan in hand.
#[derive(Clone, Copy)]
pub(super) struct Reading<'a> {
    pub(super) section: &'a JoistsSection,
    pub(super) footprint: &'a Footprint,
    pub(super) at: Cursor<'a>,
}

impl Reading<'_> {
    /// The question; none without both supports and centres. Walls are as thick as the plate is wide unless it is said.
    pub(super) fn question(self, plate_width: Option<&LengthEntry>) -> Option<Question> {
        let section = self.section;
        let from = self.sides("from", section.from.as_ref());
        let to = self.sides("to", section.to.as_ref());
        let centres = self.positive("centres", section.centres.as_ref());
        let thickness = self
            .positive("thickness", section.thickness.as_ref())
            .unwrap_or(self.at.units.usual(THICKNESS, 1.5));
        let clear = self.length("clear", section.clear.as_ref()).unwrap_or(self.at.units.usual(CLEAR, 2.0));
        let bearing = self.length("bearing", section.bearing.as_ref());
        let plate_width = plate_width.and_then(|width| width.read(self.at.default_units).ok());
        let wall = self.length("wall", section.wall.as_ref()).or(plate_width.map(|width| width.mm));
        let [heights_from, heights_to] = self.heights();
        let mut question = Question {
            backward: self.backward(from.first().copied()),
            hung: self.hung(),
            bearing: bearing.unwrap_or(0.0),
            wall: wall.or(bearing).unwrap_or(0.0),
            gap: self.length("hanger_gap", section.hanger_gap.as_ref()).unwrap_or(0.0),
            seat: self.length("hanger_seat", section.hanger_seat.as_ref()),
            bearer: self.length("bearer", section.bearer.as_ref()).unwrap_or(0.0),
            bolts: self.positive("bolts", section.bolts.as_ref()),
            bears_on: self.word(
                "bears_on",
                section.bears_on.as_ref(),
                &[("timber", BearsOn::Timber), ("masonry", BearsOn::Masonry), ("steel", BearsOn::Steel)],
            ),
            mark: self.word(
                "mark",
                section.mark.as_ref(),
                &[("near", Mark::Near), ("far", Mark::Far), ("centre", Mark::Centre)],
            ),
            openings: self.openings(),
            double_trimming: section.double_trimming.unwrap_or(false),
            doubled: self.lengths("double", section.double.as_ref()),
            rows: self.rows(),
            heights_from,
            heights_to,
            fall: self.fall(),
            packers: packers(section.packers.as_ref(), self.at.field("packers")),
            within: self
                .length("within", section.within.as_ref())
                .unwrap_or(self.at.units.usual(CLOSE_ENOUGH, 1.0 / 16.0)),
            rule: section.rule.as_ref().and_then(|key| self.at.field("rule").take(joist_rule(key))),
            ..Question::new(0.0, thickness, clear)
        };
        if section.from.is_none() || section.to.is_none() || section.centres.is_none() {
            return None;
        }
        (question.from, question.to, question.centres) = (from, to, centres?);
        let bears = question.from.iter().chain(&question.to).any(|side| !question.hung.contains(side));
        if bears && section.bearing.is_none() {
            self.at.field("bearing").fault("how far the joists bear is needed: give it (--bearing, or `bearing` in the job file), or name the sides where they hang",
            );
            return None;
        }
        Some(question)
    }

    /// The sides where joists hang: the house's, unless they are named.
    fn hung(self) -> Vec<usize> {
        if self.section.hang.is_some() {
            return self.sides("hang", self.section.hang.as_ref());
        }
        (0..self.footprint.len()).filter(|side| self.footprint.sides()[*side].house).collect()
    }

    /// The n of the fall 1:n, and where it runs down to.
    fn fall(self) -> Option<(f64, Support)> {
        let section = self.section;
        let down_to =
            self.word("fall_to", section.fall_to.as_ref(), &[("to", Support::To), ("from", Support::From)]);
        if section.fall_to.is_some() && section.fall.is_none() {
            self.at
                .field("fall_to")
                .fault("the fall is needed too: give it (--fall, or `fall` in the job file)");
        }
        Some((self.at.field("fall").take(one_in(section.fall.as_ref()?))?, down_to))
    }

    /// Whether the first side of the first support is named from its second corner.
    fn backward(self, first: Option<usize>) -> bool {
        let name = self.section.from.as_ref().and_then(|names| names.first());
        first
            .zip(name)
            .is_some_and(|(side, name)| !self.footprint.side_name(side).eq_ignore_ascii_case(name.trim()))
    }

    fn sides(self, field: &str, names: Option<&Vec<String>>) -> Vec<usize> {
        let mut sides = vec![];
        for (i, name) in names.into_iter().flatten().enumerate() {
            sides.extend(self.at.item(field, i).take(self.footprint.parse_side(name)));
        }
        sides
    }

    fn positive(self, field: &str, entry: Option<&LengthEntry>) -> Option<f64> {
        self.at.field(field).positive(entry)
    }

    fn length(self, field: &str, entry: Option<&LengthEntry>) -> Option<f64> {
        self.at.field(field).not_negative(entry)
    }

    fn lengths(self, field: &str, entries: Option<&Vec<LengthEntry>>) -> Vec<f64> {
        let entries = entries.into_iter().flatten().enumerate();
        entries.filter_map(|(i, entry)| self.at.item(field, i).not_negative(Some(entry))).collect()
    }

    /// One of a few words; the first where none is given.
    fn word<T: Copy + Default>(self, field: &str, given: Option<&String>, words: &[(&str, T)]) -> T {
        let Some(given) = given else { return T::default() };
        let found = words.iter().find(|(word, _)| word.eq_ignore_ascii_case(given.trim()));
        if found.is_none() {
            let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
            self.at.field(field).fault(format!(
                "`{}` is none of the words here: write {}",
                quoted(given),
                crate::words::or_list(&known)
            ));
        }
        found.map(|(_, value)| *value).unwrap_or_default()
    }

    fn openings(self) -> Vec<RoofOpening> {
        let mut openings = vec![];
        for (i, entry) in self.section.openings.iter().flatten().enumerate() {
            let item = self.at.item("openings", i);
            let needed = |key: &str, entry: Option<&LengthEntry>, zero: bool| {
                let at = item.field(key);
                if entry.is_none() {
                    at.fault("give width, length, along and out");
                }
                if zero { at.not_negative(entry) } else { at.positive(entry) }
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

    fn rows(self) -> Rows {
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
        self.at.field("noggings").take(count).unwrap_or_default()
    }

    /// The heights along both supports, the first's first, from the one kind of reading that was given.
    fn heights(self) -> [Vec<(Spot, f64)>; 2] {
        let section = self.section;
        let staff = section.staff_from.is_some() || section.staff_to.is_some();
        if staff && (section.heights_from.is_some() || section.heights_to.is_some()) {
            let field = if section.staff_from.is_some() { "staff_from" } else { "staff_to" };
            self.at
                .field(field)
                .fault("give staff readings or heights, not both: they have no zero in common");
        }
        let read = |field: &str, given: Option<&Vec<String>>, sign: f64| -> Vec<(Spot, f64)> {
            let given = given.into_iter().flatten().enumerate();
            let readings = given.filter_map(|(i, text)| {
                let reading = self.reading(text);
                let (spot, value) = self.at.item(field, i).take(reading)?;
                Some((spot, sign * value))
            });
            readings.collect()
        };
        if staff {
            [
                read("staff_from", section.staff_from.as_ref(), -1.0),
                read("staff_to", section.staff_to.as_ref(), -1.0),
            ]
        } else {
            [
                read("heights_from", section.heights_from.as_ref(), 1.0),
                read("heights_to", section.heights_to.as_ref(), 1.0),
            ]
        }
    }

    /// Reads `A=-3`.
    fn reading(self, text: &str) -> Result<(Spot, f64), String> {
        let Some((place, value)) = text.split_once('=') else {
            return Err(format!(
                "`{}` is not a reading: write the place and what was read there: {}",
                quoted(text),
                self.at.units.example("A=0, or AB@2400=-3", "A=0, or AB@8ft=-1/8in")
            ));
        };
        let spot =
            Spot::parse(place, self.footprint, self.at.default_units).map_err(|error| error.to_string())?;
        let value = self.at.length(value).map_err(|problem| format!("`{}`: {problem}", quoted(text)))?;
        Ok((spot, value.mm))
    }

    /// The joists' own timber; saw cut and trim are the job's.
    pub(super) fn timber(self, shared: Option<&Timber>) -> Timber {
        let (sale, have) = (self.section.stock.as_deref(), self.section.have.as_deref());
        let at = self.at;
        let own =
            lengths(sale.unwrap_or_default(), at.field("stock"), have.unwrap_or_default(), at.field("have"));
        shared.map_or(own.clone(), |shared| Timber { kerf: shared.kerf, trim: shared.trim, ..own })
    }
}
