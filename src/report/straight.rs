//! The page of offset-block readings: the verdict, then each station and which way to tap it.

use super::plan;
use crate::answer::Answered;
use crate::job::Job;
use crate::length::Units;
use crate::lines::{Stands, Station, Straight, StraightLine, StraightVerdict, StringSide};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict, each};
use crate::words::capital;
use crate::working;

impl Answered for Straight {
    fn good(&self) -> bool {
        Self::good(self)
    }

    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let mut remarks = Remarks { verdict: Some(verdict(self, job.units)), ..Remarks::default() };
        if detail != Detail::Short {
            remarks.note("Out of line: the reading less the block; + is too far from the string, − too near");
        }
        if let Some(best) = self.narrowest.as_ref().filter(|_| self.verdict == Some(StraightVerdict::Out))
            && self.limit.is_some_and(|limit| best.worst.0 <= limit.0)
        {
            remarks.note("it is straight within the limit, but not along this string: see the line with the smallest largest distance, and check what the ends stand on before tapping anything between");
        }
        remarks
    }

    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        plan::echo(page, job, detail);
        inputs(page, self, units);
        let name = self.side.as_deref().unwrap_or("the side");
        page.heading(format!("Stations along {name}"));
        page.table(table(self, units, detail));
        if self.stations.len() > 1 && detail != Detail::Short {
            page.heading("Straight lines through the stations");
            page.table(lines(self, units));
        }
    }

    fn rows(&self, _: Units) -> Rows {
        each(&self.stations)
            .column("at_mm", |station| station.at)
            .column("reading_mm", |station| station.reading)
            .column("out_mm", |station| station.out)
            .column("stands", |station| word(station.stands))
            .column("from_ends_mm", |station| station.from_ends)
            .column("from_best_mm", |station| station.from_best)
            .column("over", |station| station.over)
            .into()
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        working::straight::steps(self, job.units)
    }
}

fn found(answer: &Straight, units: Units) -> String {
    let count = answer.stations.len();
    let worst = worst(answer).map_or(Stands::OnLine, |station| station.stands);
    let place = units.with_unit(answer.worst_at.0);
    match worst {
        Stands::OnLine if count == 1 => "the station is on the line".to_owned(),
        Stands::OnLine => format!("all of {count} stations are on the line"),
        way => format!(
            "{} is {} {} at {place}",
            if count == 1 { "the station".to_owned() } else { format!("the worst of {count} stations") },
            units.small(answer.worst.0),
            word(way)
        ),
    }
}

/// The side against its limit, if there is one, and which way the worst station is to be tapped.
fn verdict(answer: &Straight, units: Units) -> Verdict {
    let found = found(answer, units);
    let worst = worst(answer).filter(|station| station.stands != Stands::OnLine);
    let tap = worst.map_or_else(String::new, |station| format!(": tap it {}", tap(station.stands, answer)));
    let (Some(limit), Some(verdict)) = (answer.limit, answer.verdict) else {
        return Verdict { good: true, words: format!("{}{tap}", capital(&found)) };
    };
    let limit = units.small(limit.0);
    let good = verdict == StraightVerdict::Straight;
    let words = if good {
        format!("Straight within {limit}: {found}")
    } else {
        format!("Out of line: {found}, over the limit of {limit}{tap}")
    };
    Verdict { good, words }
}

/// The station farthest out.
fn worst(answer: &Straight) -> Option<&Station> {
    answer.stations.iter().find(|station| station.at == answer.worst_at)
}

fn inputs(page: &mut Page, answer: &Straight, units: Units) {
    if let Some(side) = &answer.side {
        let from = side.chars().next().filter(|_| side.chars().count() == 2);
        let from = from.map_or_else(String::new, |corner| format!(", measured from {corner}"));
        page.fact("Side", format!("{side}{from}"));
    }
    page.fact(
        "String",
        format!(
            "on the {} face, on blocks of {}",
            match answer.string {
                StringSide::Outside => "outer",
                StringSide::Inside => "inner",
            },
            units.small(answer.block.0)
        ),
    );
}

const fn word(stands: Stands) -> &'static str {
    match stands {
        Stands::Out => "out",
        Stands::In => "in",
        Stands::OnLine => "on the line",
    }
}

/// Which way to tap a plate that stands so.
fn tap(stands: Stands, answer: &Straight) -> String {
    let inward = answer.inward.as_deref();
    match stands {
        Stands::OnLine => "leave it".to_owned(),
        Stands::Out => inward.map_or_else(|| "inward".to_owned(), |side| format!("in, toward {side}")),
        Stands::In => inward.map_or_else(|| "outward".to_owned(), |side| format!("out, away from {side}")),
    }
}

fn table(answer: &Straight, units: Units, detail: Detail) -> Table {
    Table::of(&answer.stations)
        .numbers(units.head("At"), |station| units.figure(station.at.0))
        .numbers(units.small_head("Reading"), |station| units.small_figure(station.reading.0))
        .numbers(units.small_head("Out of line"), |station| units.small_signed(station.out.0))
        .when(detail != Detail::Short, |table| table.words("Stands", |station| word(station.stands)))
        .words("Tap it", |station| tap(station.stands, answer))
        .when(answer.limit.is_some(), |table| {
            table.words("Limit", |station| if station.over { "over" } else { "ok" })
        })
        .into()
}

fn lines(answer: &Straight, units: Units) -> Table {
    let string = StraightLine {
        at_first: crate::geometry::Mm(0.0),
        at_last: crate::geometry::Mm(0.0),
        worst: answer.worst,
    };
    let rows = [
        ("the string", Some(&string)),
        ("first station to last", Some(&answer.end_to_end)),
        ("best, least squares", answer.best.as_ref()),
        ("smallest largest distance", answer.narrowest.as_ref()),
    ];
    Table::of(rows.into_iter().filter_map(|(name, line)| Some((name, line?))))
        .words("Line", |(name, _)| name)
        .numbers(units.small_head("At first"), |(_, line)| units.small_signed(line.at_first.0))
        .numbers(units.small_head("At last"), |(_, line)| units.small_signed(line.at_last.0))
        .numbers(units.small_head("Largest distance"), |(_, line)| units.small_figure(line.worst.0))
        .into()
}
