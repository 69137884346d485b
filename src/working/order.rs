//! An order by hand: each line's waste, whole units and packs, its price; then the sum and the tax, rounding last.

use crate::exact::{Hundredths, Pence, Percent, Rate};
use crate::length::{Units, trimmed};
use crate::order::{Line, Order, Unit};
use crate::page::Steps;

/// Each line that has something to work out, then the totals.
pub(crate) fn steps(answer: &Order, units: Units) -> Vec<Steps> {
    let lines = answer.lines.iter().filter_map(|line| line_steps(line, units));
    lines.chain(totals(answer)).collect()
}

fn line_steps(line: &Line, units: Units) -> Option<Steps> {
    if line.rate.is_none() && line.pack.is_none() && line.waste_percent == Percent(0) {
        return None;
    }
    let unit = match &line.needed_unit {
        Unit::Each => String::new(),
        unit => format!(" {}", unit.word()),
    };
    let mut steps = vec![format!("needed: {}{unit}", line.needed)];
    let mut have = line.needed.0 as f64 / 100.0;
    let whole = line.needed_unit == Unit::Each;
    if let Some(spare) = line.spare.filter(|_| line.lengths.is_none()) {
        have += spare as f64;
        steps.push(format!("with the spare: {} + {spare} = {}", line.needed, trimmed(have, 0)));
    } else if line.waste_percent != Percent(0) && !line.by_length() {
        let factor = 1.0 + line.waste_percent.0 as f64 / 1e4;
        let with = have * factor;
        steps.push(format!(
            "with {} % waste: {} × {} = {}{unit}",
            line.waste_percent,
            line.needed,
            trimmed(factor, 4),
            trimmed(with, 6)
        ));
        have = with;
        if whole {
            have = (with - 1e-9).ceil();
            if have > with {
                steps.push(format!("whole ones: {}", trimmed(have, 0)));
            }
        } else if line.pack.is_none() && Hundredths(line.quantity.0).to_string() != trimmed(with, 6) {
            steps.push(format!("up to the next 0.01: {}{unit}", line.quantity));
        }
    }
    if let Some(whole) = line.lengths {
        let spare = line.spare.map_or_else(String::new, |spare| format!(", {spare} of them spare"));
        steps.push(format!("whole lengths: {whole}{spare}"));
        steps.push(format!("they come to {}{unit}", line.quantity));
    }
    if let Some(pack) = line.pack {
        steps.push(packs(line, pack, have));
    }
    if let Some(rate) = line.rate {
        let amount = line.amount.unwrap_or_default();
        steps.extend(product("amount", line.quantity, rate, amount));
        if let (Some(percent), Some(markup), Some(net)) = (line.markup_percent, line.markup, line.net()) {
            steps.extend(part("markup", amount, percent, markup));
            steps.push(format!("with markup: {amount} + {markup} = {net}"));
        }
    }
    Some(Steps {
        title: match line.size.words(&line.item, units) {
            size if size.is_empty() => line.item.clone(),
            size => format!("{} {size}", line.item),
        },
        steps,
    })
}

/// How many packs or rolls; n rolls give n × roll − (n − 1) × lap.
fn packs(line: &Line, pack: Hundredths, have: f64) -> String {
    let roll = pack.0 as f64 / 100.0;
    let lap = line.lap.0 as f64 / 100.0;
    let have_words = trimmed(have, 4);
    if line.lap.0 > 0 {
        let lap_words = line.lap.to_string();
        return format!(
            "rolls, a lap less at each joint: ({have_words} − {lap_words}) / ({pack} − {lap_words}) = {}, so {}",
            trimmed((have - lap) / (roll - lap), 4),
            line.quantity
        );
    }
    format!(
        "in {}: {have_words} / {pack} = {}, so {}",
        if line.needed_unit == Unit::Each { "packs" } else { "rolls" },
        trimmed(have / roll, 4),
        line.quantity
    )
}

/// `a × b = c`, then c to the penny where it has more decimals.
fn product(name: &str, quantity: Hundredths, rate: Rate, rounded: Pence) -> Vec<String> {
    let exact = i128::from(quantity.0) * i128::from(rate.0);
    let mut steps = vec![format!("{name}: {quantity} × {rate} = {}", millionths(exact))];
    if exact % 10_000 != 0 {
        steps.push(format!("rounded to 0.01: {rounded}"));
    }
    steps
}

/// An exact amount in millionths, with two decimals or as many more as it has.
fn millionths(exact: i128) -> String {
    let text = format!("{}.{:06}", exact / 1_000_000, exact % 1_000_000);
    match text.strip_suffix("0000") {
        Some(short) => short.to_owned(),
        None => text.trim_end_matches('0').to_owned(),
    }
}

/// `a × p / 100 = c`, then c to the penny where it has more decimals.
fn part(name: &str, of: Pence, percent: Percent, rounded: Pence) -> Vec<String> {
    // Pence × hundredths of one per cent: millionths of the money unit.
    let exact = i128::from(of.0) * i128::from(percent.0);
    let text = format!("{}.{:06}", exact / 1_000_000, exact % 1_000_000);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    let mut steps = vec![format!("{name}: {of} × {percent} / 100 = {text}")];
    if exact % 10_000 != 0 {
        steps.push(format!("rounded to 0.01: {rounded}"));
    }
    steps
}

fn sum(name: &str, parts: &[Pence], total: Pence) -> String {
    let parts: Vec<String> = parts.iter().map(ToString::to_string).collect();
    format!("{name}: {} = {total}", parts.join(" + "))
}

fn totals(answer: &Order) -> Option<Steps> {
    let lines: Vec<Pence> = answer.lines.iter().filter_map(Line::net).collect();
    if lines.is_empty() {
        return None;
    }
    let mut steps = vec![];
    if let (Some(percent), Some(contingency)) = (answer.contingency_percent, answer.contingency) {
        let before = Pence(answer.net.0 - contingency.0);
        steps.push(sum("lines", &lines, before));
        steps.extend(part("contingency", before, percent, contingency));
        steps.push(sum("net", &[before, contingency], answer.net));
    } else {
        steps.push(sum("net", &lines, answer.net));
    }
    if let Some(tax) = answer.tax {
        for at in &answer.taxes {
            if at.net != answer.net {
                let of_lines = answer.lines.iter().filter(|line| line.tax_percent == Some(at.percent));
                let contingency = answer.contingency.filter(|_| answer.tax_percent == Some(at.percent));
                let parts: Vec<Pence> = of_lines.filter_map(Line::net).chain(contingency).collect();
                steps.push(sum(&format!("at {} %", at.percent), &parts, at.net));
            }
            steps.extend(part("tax", at.net, at.percent, at.tax));
        }
        if answer.taxes.len() > 1 {
            let taxes: Vec<Pence> = answer.taxes.iter().map(|at| at.tax).collect();
            steps.push(sum("tax in all", &taxes, tax));
        }
        steps.push(sum("total", &[answer.net, tax], answer.total));
    }
    Some(Steps { title: "Total".to_owned(), steps })
}
