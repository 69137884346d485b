//! The page of an order: the lines and what they come to, what waste and packs add, what is in the van.

use super::cautions::{BURIED_SERVICES, FIXINGS};
use super::plan;
use crate::answer::Answered;
use crate::exact::{Hundredths, Pence, Percent};
use crate::geometry::Mm;
use crate::job::Job;
use crate::length::Units;
use crate::order::{CutBar, CutPiece, CutTogether, LINE, Line, Order, PEG, Size, Unit, UnusedPrice};
use crate::page::{Detail, Page, Remarks, Rows, Steps, Table, Verdict, each};
use crate::words::{and_list, count};
use crate::working;

/// Unused prices that are named; of more, how many.
const MOST_NAMED: usize = 6;

impl Answered for Order {
    fn good(&self) -> bool {
        self.complete || !self.to_be_complete
    }

    fn remarks(&self, job: &Job, detail: Detail) -> Remarks {
        let mut remarks = Remarks {
            verdict: Some(Verdict { good: self.good(), words: headline(self) }),
            ..Remarks::default()
        };
        notes(&mut remarks, self, job.units, detail);
        cautions(&mut remarks, self);
        remarks
    }

    /// Fills the page; how quantities come about is on a full page alone.
    fn body(&self, page: &mut Page, job: &Job, detail: Detail) {
        let units = job.units;
        plan::echo(page, job, detail);
        if !self.plots.is_empty() {
            page.fact("Plots", and_list(&self.plots));
        }
        page.heading("To order");
        page.table(lines(self, units));
        totals(page, self);
        if self.taxes.len() > 1 || self.markup.is_some() {
            page.heading("Markup and tax by line");
            page.table(quoted(self, units));
        }
        let added = added(self, units);
        if detail == Detail::Full && !added.rows.is_empty() {
            page.heading("Waste, packs, rolls and lengths");
            page.table(added);
        }
        if !self.plots.is_empty() {
            page.heading("Needed by each plot");
            page.table(by_plot(self, units));
        }
        for together in &self.cut_together {
            cut_together(page, together, units);
        }
        if !self.from_van.is_empty() {
            page.heading("In the van, not bought");
            page.table(
                Table::of(&self.from_van)
                    .words("Item", |taken| &taken.item)
                    .numbers("Size", |taken| taken.size.words(&taken.item, units))
                    .numbers("How many", |taken| taken.quantity.to_string()),
            );
        }
    }

    /// The rows for a spreadsheet: what to buy, then what the van has. Money has its two decimals whatever it comes to.
    fn rows(&self, units: Units) -> Rows {
        let mm = |size: &Size| if let Size::Length(mm) = size { Some(*mm) } else { None };
        let each_of = || Unit::Each.word().to_owned();
        let mut rows: Rows = each(&self.lines)
            .column("item", |line| &line.item)
            .column("size", |line| line.size.words(&line.item, units))
            .column("size_mm", |line| mm(&line.size))
            .column("quantity", |line| line.quantity)
            .column("unit", |line| &line.unit)
            .column("rate", |line| line.rate.map(|rate| rate.to_string()))
            .column("amount", |line| line.amount.map(|amount| amount.to_string()))
            .column("needed", |line| line.needed)
            .column("needed_unit", |line| line.needed_unit.word().to_owned())
            .column("waste_percent", |line| line.waste_percent)
            .column("from", |line| &line.from)
            .column("status", |line| if line.amount.is_some() { "priced" } else { "no price" })
            .column("plot", |line| {
                let plots = line.plots.iter().map(|plot| format!("{}: {}", plot.plot, plot.needed));
                plots.collect::<Vec<_>>().join("; ")
            })
            .column("markup_percent", |line| line.markup_percent)
            .column("markup", |line| line.markup.map(|markup| markup.to_string()))
            .column("tax_percent", |line| line.tax_percent)
            .column("money", |line| line.rate.and(self.money.as_ref()))
            .into();
        rows.add(
            each(self.contingency)
                .column("item", |_| "contingency")
                .column("amount", |sum| sum.to_string())
                .column("tax_percent", |_| self.tax_percent)
                .column("money", |_| &self.money),
        );
        rows.add(
            each(&self.from_van)
                .column("item", |taken| &taken.item)
                .column("size", |taken| taken.size.words(&taken.item, units))
                .column("size_mm", |taken| mm(&taken.size))
                .column("quantity", |taken| taken.quantity)
                .column("unit", |_| each_of())
                .column("needed", |taken| taken.quantity)
                .column("needed_unit", |_| each_of())
                .column("waste_percent", |_| 0)
                .column("from", |taken| taken.from)
                .column("status", |_| "in the van"),
        );
        rows
    }

    fn steps(&self, job: &Job) -> Vec<Steps> {
        working::order::steps(self, job.units)
    }
}

/// Of every part that the order comes from.
fn cautions(remarks: &mut Remarks, answer: &Order) {
    let from = |part: &str| {
        let lines = answer.lines.iter().map(|line| line.from.as_str());
        let van = answer.from_van.iter().map(|taken| taken.from);
        lines.chain(van).any(|from| from.split(", ").any(|from| from == part))
    };
    if answer.lines.iter().any(|line| line.item == PEG) {
        remarks.caution(BURIED_SERVICES);
    }
    if from("plates") {
        remarks.caution(FIXINGS);
    }
    if from("packs") {
        remarks.caution(super::cautions::PACKING_AND_BEARINGS);
    }
}

fn headline(answer: &Order) -> String {
    let priced = answer.lines.len() - answer.unpriced;
    if priced == 0 {
        return format!("{} to order, none of them priced", count(answer.lines.len(), "line"));
    }
    let total = match (&answer.taxes[..], answer.tax) {
        ([at], Some(tax)) if at.net == answer.net => {
            format!("Total {}: net {} and {} % tax {tax}", answer.total, answer.net, at.percent)
        }
        (_, Some(tax)) => format!("Total {}: net {} and tax {tax}", answer.total, answer.net),
        _ => format!("Total {} for {}", answer.total, count(priced, "line")),
    };
    match answer.unpriced {
        0 => total,
        1 => format!("{total}; without 1 line that has no price"),
        n => format!("{total}; without {n} lines that have no price"),
    }
}

fn named(line: &Line, units: Units) -> String {
    with_size(&line.item, &line.size, units)
}

fn with_size(item: &str, size: &Size, units: Units) -> String {
    match size.words(item, units) {
        size if size.is_empty() => item.to_owned(),
        size => format!("{item} {size}"),
    }
}

fn lines(answer: &Order, units: Units) -> Table {
    Table::of(&answer.lines)
        .words("Item", |line| &line.item)
        .numbers("Size", |line| line.size.words(&line.item, units))
        .numbers("Quantity", quantity)
        .words("Unit", |line| &line.unit)
        .numbers(in_money(answer, "Rate"), |line| {
            line.rate.map_or_else(|| "–".to_owned(), |rate| rate.to_string())
        })
        .numbers(in_money(answer, "Amount"), |line| {
            line.amount.map_or_else(|| "no price".to_owned(), |sum| sum.to_string())
        })
        .into()
}

/// The head of a column of money, with what it is in.
fn in_money(answer: &Order, name: &str) -> String {
    answer.money.as_ref().map_or_else(|| name.to_owned(), |money| format!("{name} {money}"))
}

/// Whole things as such; lengths and the like with both decimals.
fn quantity(line: &Line) -> String {
    match line.unit.as_str() {
        "m" | "ft" => line.quantity.two_places(),
        _ => line.quantity.to_string(),
    }
}

fn totals(page: &mut Page, answer: &Order) {
    if answer.unpriced == answer.lines.len() {
        return;
    }
    let without = if answer.unpriced > 0 { ", without what has no price" } else { "" };
    if let Some(markup) = answer.markup {
        page.fact("Markup", format!("{markup} in all"));
    }
    if let (Some(percent), Some(sum)) = (answer.contingency_percent, answer.contingency) {
        page.fact("Contingency", format!("{percent} % of {} = {sum}", Pence(answer.net.0 - sum.0)));
    }
    if answer.tax.is_none() {
        page.fact("Total", format!("{}{without}; no tax is added", answer.total));
        return;
    }
    page.fact("Net", format!("{}{without}", answer.net));
    for at in &answer.taxes {
        page.fact("Tax", format!("{} % of {} = {}", at.percent, at.net, at.tax));
    }
    page.fact("Total", format!("{}{without}", answer.total));
}

/// What a quote adds to each line.
fn quoted(answer: &Order, units: Units) -> Table {
    let percent = |percent: Option<Percent>| percent.map_or_else(|| "–".to_owned(), |it| it.to_string());
    let money = |sum: Option<Pence>| sum.map_or_else(|| "–".to_owned(), |sum| sum.to_string());
    Table::of(answer.lines.iter().filter(|line| line.amount.is_some()))
        .words("Item", |line| &line.item)
        .numbers("Size", |line| line.size.words(&line.item, units))
        .numbers(in_money(answer, "Amount"), |line| money(line.amount))
        .numbers("Markup %", |line| percent(line.markup_percent))
        .numbers(in_money(answer, "With it"), |line| money(line.net()))
        .numbers("Tax %", |line| percent(line.tax_percent))
        .into()
}

/// How the quantities come about that are not simply what the job needs.
fn added(answer: &Order, units: Units) -> Table {
    let more =
        |line: &&Line| line.pack.is_some() || line.lengths.is_some() || line.waste_percent != Percent(0);
    Table::of(answer.lines.iter().filter(more))
        .words("Item", |line| &line.item)
        .numbers("Size", |line| line.size.words(&line.item, units))
        .numbers("Needed", |line| format!("{}{}", line.needed, unit_behind(line)))
        .numbers("Waste %", |line| match line.waste_percent {
            Percent(0) => String::new(),
            percent => percent.to_string(),
        })
        .words("Bought", |line| bought(line, units))
        .into()
}

/// What each plot needs of each line, before waste and whole packs.
fn by_plot(answer: &Order, units: Units) -> Table {
    let each = |line: &&Line| {
        let plots = line.plots.iter();
        let needed = plots.map(|plot| format!("{}: {}{}", plot.plot, plot.needed, unit_behind(line)));
        needed.collect::<Vec<_>>().join("; ")
    };
    Table::of(&answer.lines)
        .words("Item", |line| &line.item)
        .numbers("Size", |line| line.size.words(&line.item, units))
        .words("Needed", |line| each(&line))
        .into()
}

/// What several plots cut together, and what it saves.
fn cut_together(page: &mut Page, together: &CutTogether, units: Units) {
    page.heading(format!("Cut together for all plots: {}", together.from));
    if together.bars.is_empty() {
        page.paragraph("It costs no less, so each plot's are cut by themselves.");
        return;
    }
    page.table(bars(together, units));
    let length = |length: Mm| format!("{} of timber", units.with_unit(length.0));
    if let Some(saved) = together.saved.map(|money| money.to_string()).or(together.saved_length.map(length)) {
        page.fact("Less than plot by plot", saved);
    }
}

/// What is cut from each length.
fn bars(together: &CutTogether, units: Units) -> Table {
    let piece = |piece: &CutPiece| {
        let name = if piece.name.is_empty() { String::new() } else { format!(" {}", piece.name) };
        format!("{}{name} {}", piece.plot, units.figure(piece.length.0))
    };
    let pieces = |bar: &&CutBar| bar.pieces.iter().map(piece).collect::<Vec<_>>().join("; ");
    Table::of(&together.bars)
        .numbers("No", |bar| bar.number.to_string())
        .words("Item", |bar| if bar.in_van { "from the van" } else { bar.item })
        .numbers(units.head("Length"), |bar| units.figure(bar.length.0))
        .words("Pieces", |bar| pieces(&bar))
        .numbers(units.head("Left"), |bar| units.figure(bar.offcut.0))
        .into()
}

/// The unit behind a quantity, which of things is none.
fn unit_behind(line: &Line) -> String {
    match &line.needed_unit {
        Unit::Each => String::new(),
        unit => format!(" {}", unit.word()),
    }
}

fn bought(line: &Line, units: Units) -> String {
    let unit = unit_behind(line);
    let spare = line.spare.map_or_else(String::new, |spare| format!(", {spare} of them spare"));
    match (line.pack, line.lengths) {
        (None, Some(lengths)) => {
            format!("{lengths} × {} = {}{unit}{spare}", line.size.words(&line.item, units), line.quantity)
        }
        (Some(pack), _) => {
            let all = Hundredths(line.quantity.0 / 100 * pack.0);
            let lap = if line.lap.0 > 0 && line.quantity.0 > 100 { ", less the laps" } else { "" };
            format!("{} × {pack}{unit} = {all}{unit}{lap}", line.quantity)
        }
        (None, None) => format!("{}{unit}{spare}", line.quantity),
    }
}

fn notes(remarks: &mut Remarks, answer: &Order, units: Units, detail: Detail) {
    let whole = detail != Detail::Short;
    let unpriced: Vec<String> =
        answer.lines.iter().filter(|line| line.amount.is_none()).map(|line| named(line, units)).collect();
    if !unpriced.is_empty() && whole {
        remarks
            .note(format!("no price: {}; give one with --prices or in `order.prices`", and_list(&unpriced)));
    }
    unused(remarks, &answer.unused_prices, units);
    for overruled in &answer.overruled {
        remarks.note(format!(
            "{}: the price that its lengths were chosen by, {}, stands; the price list's {} is not used",
            with_size(&overruled.item, &overruled.size, units),
            overruled.rate,
            overruled.listed
        ));
    }
    if !whole {
        return;
    }
    for part in &answer.not_ordered {
        remarks.note(format!("no {}: give {}", part.what, part.give));
    }
    for remark in &answer.remarks {
        remarks.note(remark);
    }
    if answer.lines.iter().any(|line| line.item == LINE && line.waste_percent == Percent(0)) {
        remarks.note("line: nothing is added for knots and waste; --waste line=5 adds 5 %");
    }
}

/// A price with its size to the tenth of a millimetre: it differs by little from the one that was meant.
fn exactly(price: &UnusedPrice, units: Units) -> String {
    match price.size {
        Size::Length(mm) => format!("{} {}", price.item, units.gap(mm.0)),
        Size::Any | Size::Text(_) => price.item.clone(),
    }
}

/// Prices that no line used: each that may be a slip of the keys, the others together.
fn unused(remarks: &mut Remarks, unused: &[UnusedPrice], units: Units) {
    let name = |price: &UnusedPrice| with_size(&price.item, &price.size, units);
    for (price, size) in unused.iter().filter_map(|price| Some((price, price.size_meant.as_ref()?))) {
        remarks.note(format!(
            "the price of {} is used by no line: did you mean {}?",
            exactly(price, units),
            with_size(&price.item, size, units)
        ));
    }
    for price in unused {
        if let Some(meant) = &price.did_you_mean {
            remarks
                .note(format!("the price of `{}` is used by no line: did you mean `{meant}`?", name(price)));
        }
    }
    let others = unused.iter().filter(|price| price.did_you_mean.is_none() && price.size_meant.is_none());
    let mut others: Vec<String> = others.map(name).collect();
    if others.is_empty() {
        return;
    }
    if others.len() > MOST_NAMED + 1 {
        let more = others.len() - MOST_NAMED;
        others.truncate(MOST_NAMED);
        others.push(format!("{more} more"));
    }
    remarks.note(format!("prices that no line uses: {}", and_list(&others)));
}
