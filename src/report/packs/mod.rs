//! The page of packers, by place and by stud.

mod sentences;

use super::cautions::PACKING_AND_BEARINGS;
use super::figures::{gap_head, gaps, lengths, stack};
use super::plan;
use crate::answer::Answered;
use crate::job::Job;
use crate::length::Units;
use crate::packing::{Against, DatumRule, Flag, PackVerdict, Packing, Packs, Readings, Station};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict, each};
use crate::words::{and_list, capital, count};
use crate::working;

impl Answered for Packs {
    fn good(&self) -> bool {
        self.verdict.good()
    }

    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let units = job.units;
        let mut remarks = Remarks::default();
        let headline = sentences::sentences(self, units).into_iter().next().unwrap_or_default();
        remarks.verdict = Some(Verdict { good: self.verdict.good(), words: verdict(self, units, &headline) });
        if detail != Detail::Short {
            limit(&mut remarks, self);
            packing(&mut remarks, self, job);
        }
        not_made_up(&mut remarks, self, units);
        if has_packers(self, job) {
            near(&mut remarks, self, units);
        }
        remarks.caution(PACKING_AND_BEARINGS);
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        for sentence in sentences::sentences(self, units).into_iter().skip(1) {
            page.paragraph(capital(&sentence));
        }
        plan::echo(page, job, detail);
        if detail != Detail::Short {
            if let Some(packing) = &job.packs {
                as_read(page, packing, job);
            }
            page.fact("Datum", format!("{}, {}", self.datum.name, datum_words(self)));
            bed(page, self, units);
        }
        let with_packers = has_packers(self, job);
        if with_packers {
            page.fact("Take from the van", totals(self, units));
        }
        page.heading("At the places read");
        page.table(places(self, units, with_packers));
        if !self.studs.is_empty() && detail == Detail::Short {
            page.fact("Under the studs", {
                let apart = job.packs.as_ref().and_then(|packing| packing.studs);
                let apart = apart.map_or_else(String::new, |mm| format!(" at {} centres", units.centres(mm)));
                format!("{}{apart}; --full lists them", count(self.studs.len(), "stud"))
            });
        } else if !self.studs.is_empty() {
            page.heading("Under the studs, from the first corner of each side");
            page.table(studs(&self.studs, units, with_packers));
        }
    }

    /// The rows for a spreadsheet, lengths in mm: the places read, then the studs between them.
    fn rows(&self, units: Units) -> Rows {
        let read = self.stations.iter().map(|place| ("reading", place));
        each(read.chain(self.studs.iter().map(|place| ("stud", place))))
            .column("place", |(_, place)| &place.name)
            .column("side", |(_, place)| &place.side)
            .column("along_mm", |(_, place)| place.along)
            .column("under", |(under, _)| under)
            .column("height_mm", |(_, place)| place.height)
            .column("pack_mm", |(_, place)| place.pack)
            .column("packers_mm", |(_, place)| &place.packers)
            .column("remainder_mm", |(_, place)| place.remainder)
            .column("mind", |(_, place)| minded(&place.flags))
            .when(units == Units::FeetInches, |rows| {
                rows.column("pack", |(_, place)| units.figure(place.pack.0))
                    .column("packers", |(_, place)| stack(&place.packers, units))
            })
            .into()
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        match (&job.packs, &job.footprint) {
            (Some(packing), Some(footprint)) => working::packs::steps(self, packing, footprint, job.units),
            _ => vec![],
        }
    }
}

/// Whether there are packers to make up with, and gaps that can be trusted.
fn has_packers(answer: &Packs, job: &Job) -> bool {
    job.packs.as_ref().is_some_and(|packing| !packing.packers.is_empty()) && answer.read_again.is_none()
}

/// The verdict, and the limit that it was held against.
fn verdict(answer: &Packs, units: Units, headline: &str) -> String {
    let headline = capital(headline);
    match (&answer.bed.check, answer.verdict) {
        (Some(check), PackVerdict::Level | PackVerdict::Pack) => match check.against {
            Against::Published(preset) if check.not_covered > 0 => {
                format!("{headline}; what {} judges of the bed is within it", preset.key)
            }
            Against::Published(preset) => format!("{headline}; the bed is within {}", preset.key),
            Against::Own(_) => format!("{headline}; within the limit of {}", units.gap(check.limit.0)),
        },
        _ => headline,
    }
}

fn datum_words(answer: &Packs) -> &'static str {
    match answer.datum.rule {
        DatumRule::Named => "as named",
        DatumRule::Highest => "the highest place",
    }
}

/// Echoes the readings: a slip of the keys shows here.
fn as_read(page: &mut Page, packing: &Packing, job: &Job) {
    let Some(footprint) = &job.footprint else { return };
    for (i, set_up) in packing.set_ups.iter().enumerate().filter(|(_, s)| !s.readings.is_empty()) {
        let list: Vec<String> = set_up
            .readings
            .iter()
            .map(|(place, mm)| {
                format!("{} {}", place.name(footprint, packing.units), lengths(job.units, &[*mm]).concat())
            })
            .collect();
        let (kind, means) = match set_up.kind {
            Readings::Staff => ("Staff", "the bigger, the lower"),
            Readings::Heights => ("Heights", "up is +"),
        };
        let name = if packing.set_ups.len() > 1 {
            format!("Set-up {}, {}", i + 1, kind.to_lowercase())
        } else {
            kind.to_owned()
        };
        page.fact(name, format!("{} ({means})", list.join(", ")));
    }
}

fn bed(page: &mut Page, answer: &Packs, units: Units) {
    let bed = &answer.bed;
    let mut words =
        format!("{} is highest and {} lowest, {} apart", bed.highest, bed.lowest, units.gap(bed.spread.0));
    if bed.spread.0 <= 0.0 {
        "every place read is as high as the others".clone_into(&mut words);
    }
    page.fact("Bed", words);
    let Some(check) = &bed.check else { return };
    if let Against::Published(_) = check.against {
        let within = if check.within { "within" } else { "over" };
        page.fact(
            "Limit",
            format!(
                "{} to {}, {} apart, differ by {}: {within} the {} allowed there",
                check.between[0],
                check.between[1],
                units.with_unit(check.distance.0),
                units.gap(check.difference.0),
                units.gap(check.limit.0),
            ),
        );
    }
}

/// The published limit that the bed was held against.
fn limit(remarks: &mut Remarks, answer: &Packs) {
    let Some(check) = &answer.bed.check else { return };
    if let Against::Published(preset) = check.against {
        remarks.note(format!(
            "limit {}: {} ({}; {}; {})",
            preset.key,
            preset.says,
            preset.source.publication,
            preset.source.seen.words(),
            preset.law.words()
        ));
        if check.not_covered > 0 {
            remarks.note(format!(
                "{} pairs of places are too far apart for that limit, or have no new wall between them, and were not judged",
                check.not_covered
            ));
        }
    }
}

fn totals(answer: &Packs, units: Units) -> String {
    let list: Vec<String> = answer
        .totals
        .iter()
        .map(|total| format!("{} of {}", total.count, units.gap(total.thickness.0)))
        .collect();
    match answer.pieces {
        0 => "no packers".to_owned(),
        pieces => format!("{} ({pieces} in all)", list.join(", ")),
    }
}

fn places(answer: &Packs, units: Units, with_packers: bool) -> Table {
    let column = |of: &dyn Fn(&Station) -> f64| {
        let values: Vec<f64> = answer.stations.iter().map(of).collect();
        gaps(units, &values)
    };
    let (heights, packs) = (column(&|s| s.height.0), column(&|s| s.pack.0));
    Table::of(answer.stations.iter().zip(heights.iter().zip(&packs)))
        .words("Place", |(station, _)| &station.name)
        .numbers(gap_head(units, "Height"), |(_, (height, _))| height)
        .numbers(gap_head(units, "Pack"), |(_, (_, pack))| pack)
        .when(with_packers, |table| {
            table.words(gap_head(units, "Packers"), |(station, _)| stack(&station.packers, units))
        })
        .words("Mind", |(station, _)| minded(&station.flags))
        .into()
}

/// Studs beside each other on a side that take the same stack are one row. What the depth of a gap alone asks for is
/// left to the notes.
fn studs(studs: &[Station], units: Units, with_packers: bool) -> Table {
    let bad = |s: &Station| -> Vec<Flag> { s.flags.iter().copied().filter(|f| f.bad()).collect() };
    let alike = |a: &Station, b: &Station| {
        a.side == b.side && a.packers == b.packers && bad(a) == bad(b) && (with_packers || a.pack == b.pack)
    };
    let packs: Vec<f64> = studs.iter().map(|s| s.pack.0).collect();
    let packs = gaps(units, &packs);
    let mut next = packs.iter();
    let rows = studs.chunk_by(|a, b| alike(a, b)).scan("", |side, row| {
        let new_side = *side != row[0].side;
        *side = &row[0].side;
        let first = next.next()?;
        Some((row, new_side, first, next.by_ref().take(row.len() - 1).last().unwrap_or(first)))
    });
    Table::of(rows)
        .words("Side", |(row, new, ..)| if new { row[0].side.as_str() } else { "" })
        .words(units.head("At"), |(row, ..)| {
            span(&units.figure(row[0].along.0), &units.figure(row[row.len() - 1].along.0))
        })
        .numbers("Studs", |(row, ..)| row.len().to_string())
        .words(gap_head(units, "Pack"), |(.., first, last)| span(first, last))
        .when(with_packers, |table| {
            table.words(gap_head(units, "Packers"), |(row, ..)| stack(&row[0].packers, units))
        })
        .when(studs.iter().any(|stud| !bad(stud).is_empty()), |table| {
            table.words("Mind", |(row, ..)| minded(&bad(&row[0])))
        })
        .into()
}

fn span(first: &str, last: &str) -> String {
    if first == last { first.to_owned() } else { format!("{first} to {last}") }
}

fn minded(flags: &[Flag]) -> String {
    let words: Vec<&str> = flags.iter().map(|flag| flag.label()).collect();
    words.join(", ")
}

/// What may fill the gaps.
fn packing(remarks: &mut Remarks, answer: &Packs, job: &Job) {
    let Some(filling) = job.packs.as_ref().map(|packing| packing.filling) else { return };
    let solid = flagged(answer, Flag::SolidOnly);
    let deep = flagged(answer, Flag::AskDesigner);
    if solid.is_some() || answer.solid_source.is_some() && deep.is_some() {
        let source = filling.source;
        remarks.note(format!("{} ({}; {})", filling.says, source.publication, source.seen.words()));
    }
    if let Some(places) = deep {
        let gap = job.units.gap(answer.solid_gap.0);
        remarks.note(if answer.solid_source.is_some() {
            format!(
                "{places}: {gap} and deeper; ask the designer what may fill it (--solid takes the figure of the \
                 designer's schedule)"
            )
        } else {
            format!("{places}: deeper than the {gap} that the schedule packs solid; ask the designer")
        });
    }
}

/// Which gaps the packers don't make up.
fn not_made_up(remarks: &mut Remarks, answer: &Packs, units: Units) {
    let short: Vec<String> = answer
        .stations
        .iter()
        .chain(&answer.studs)
        .filter(|station| station.flags.contains(&Flag::NotMadeUp))
        .map(|station| format!("{} by {}", station.name, units.gap(station.remainder.0)))
        .collect();
    if !short.is_empty() {
        remarks.note(format!("not made up: {}", and_list(&short)));
    }
}

/// Which places read are made up, and not to the millimetre.
fn near(remarks: &mut Remarks, answer: &Packs, units: Units) {
    let near: Vec<String> = answer.stations.iter().filter_map(|station| nearly(station, units)).collect();
    if !near.is_empty() {
        remarks.note(format!("made up as near as the van allows: {}", and_list(&near)));
    }
}

/// By how much a place that counts as made up misses its gap: `B 1 mm short`; nothing where that is too little to see, or
/// where there is no gap, as above the datum.
fn nearly(station: &Station, units: Units) -> Option<String> {
    let off = station.remainder.0;
    let made_up = station.pack.0 > 0.0 && !station.flags.contains(&Flag::NotMadeUp);
    (made_up && off.abs() >= LEAST_SEEN).then(|| {
        let way = if off > 0.0 { "short" } else { "over" };
        format!("{} {} {way}", station.name, units.gap(off.abs()))
    })
}

/// What a packer misses its gap by and no one sees, mm.
const LEAST_SEEN: f64 = 0.5;

/// Where a flag stands: `at A and D and under 12 studs`.
fn flagged(answer: &Packs, flag: Flag) -> Option<String> {
    let has = |station: &&Station| station.flags.contains(&flag);
    let places: Vec<String> = answer.stations.iter().filter(has).map(|s| s.name.clone()).collect();
    let studs = match answer.studs.iter().filter(has).count() {
        0 => None,
        1 => Some("under 1 stud".to_owned()),
        n => Some(format!("under {n} studs")),
    };
    let at = (!places.is_empty()).then(|| format!("at {}", and_list(&places)));
    let parts: Vec<String> = at.into_iter().chain(studs).collect();
    (!parts.is_empty()).then(|| parts.join(" and "))
}
