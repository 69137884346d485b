//! Orders of every kind, held against sums in wider integers that share nothing with the code.

use pegline::exact::{Pence, Percent, Rate, Tenths};
use pegline::job::read_prices;
use pegline::order::{Added, Much, Price, Question, Unit, order};
use proptest::prelude::*;

use super::sums::{need, price};

fn much() -> impl Strategy<Value = Much> {
    prop_oneof![
        (1_u64..5000).prop_map(Much::Things),
        (1_u64..300, 1_i64..100_000).prop_map(|(count, each)| Much::Lengths { count, each: Tenths(each) }),
        (1_i64..5_000_000).prop_map(|length| Much::Running {
            length: Tenths(length),
            lap: Tenths(0),
            roll: None
        }),
    ]
}

/// A price that the need can be priced by.
fn price_of(
    item: &str,
    much: &Much,
    pack: i64,
    rate: i64,
    waste: i64,
    packed: bool,
    by_metre: bool,
) -> Price {
    let (unit, pack) = match much {
        Much::Running { .. } => (Unit::Metre, packed.then_some(pack)),
        Much::Lengths { .. } if by_metre => (Unit::Metre, None),
        _ => (Unit::Each, packed.then_some((pack / 100 + 1) * 100)),
    };
    Price { waste: Some(Percent(waste)), ..price(item, unit, pack, rate) }
}

proptest! {
    #[test]
    fn a_quantity_is_enough_and_no_whole_unit_too_much(
        much in much(), pack in 1_i64..10_000, rate in 0_i64..1_000_000, waste in 0_i64..=10_000,
        packed: bool, by_metre: bool,
    ) {
        let item = "thing".to_owned();
        let priced = price_of(&item, &much, pack, rate, waste, packed, by_metre);
        let question = Question {
            needs: vec![need(&item, much.clone())],
            prices: vec![priced.clone()],
            ..Question::default()
        };
        let answer = order(&question);
        prop_assume!(answer.is_ok());
        let line = answer.unwrap().lines.remove(0);
        // Everything in ten-thousandths of a hundredth of the unit.
        let wanted = match &much {
            Much::Things(count) => i128::from(*count) * 100 * (10_000 + i128::from(waste)),
            Much::Lengths { count, .. } if priced.unit == Some(Unit::Each) => {
                i128::from(*count) * 100 * (10_000 + i128::from(waste))
            }
            Much::Lengths { count, each } => i128::from(*count) * i128::from(each.0) * (10_000 + i128::from(waste)) / 100,
            Much::Running { length, .. } => i128::from(length.0) * (10_000 + i128::from(waste)) / 100,
            Much::Own { .. } => unreachable!(),
        };
        let size = line.pack.map_or(100, |pack| i128::from(pack.0));
        let bought = i128::from(line.quantity.0) * size * 100;
        prop_assert!(bought >= wanted, "{bought} {wanted} {line:?}");
        // The last unit bought is needed: by the pack a pack, by the piece one, by the metre 0.01 of it on the need and
        // on the waste each, or the last whole length.
        let last = match (&much, line.pack, &priced.unit) {
            (_, Some(pack), _) => (i128::from(pack.0) + 200) * 10_000,
            (Much::Running { .. }, None, _) => 3 * 10_000,
            (Much::Lengths { each, .. }, None, Some(Unit::Metre)) => (i128::from(each.0) / 100 + 2) * 10_000,
            _ => 100 * 10_000,
        };
        prop_assert!(bought - wanted <= last, "{bought} {wanted} {line:?}");
    }

    #[test]
    fn the_total_is_the_sum_of_the_lines_and_its_tax(
        lines in prop::collection::vec((much(), 0_i64..100_000, any::<bool>()), 1..30),
        tax in prop::option::of(0_i64..=10_000),
    ) {
        let named = |i: usize| format!("item {i}");
        let question = Question {
            needs: lines.iter().enumerate().map(|(i, (much, ..))| need(&named(i), much.clone())).collect(),
            prices: lines
                .iter()
                .enumerate()
                .filter(|(_, (.., priced))| *priced)
                .map(|(i, (much, rate, _))| price_of(&named(i), much, 100, *rate, 0, false, false))
                .collect(),
            tax: tax.map(Percent),
            ..Question::default()
        };
        let answer = order(&question).unwrap();
        prop_assert_eq!(answer.lines.len(), lines.len());
        let mut net = 0_i128;
        for (line, (_, rate, priced)) in answer.lines.iter().zip(&lines) {
            prop_assert_eq!(line.rate, priced.then_some(Rate::from(Pence(*rate))));
            let Some(amount) = line.amount else { continue };
            // Within half a penny of the product, a half up: −50 ≤ product − 100 amount < 50.
            let left = i128::from(line.quantity.0) * i128::from(*rate) - 100 * i128::from(amount.0);
            prop_assert!((-50..50).contains(&left), "{line:?}");
            net += i128::from(amount.0);
        }
        prop_assert_eq!(i128::from(answer.net.0), net);
        let taxed = i128::from(answer.total.0) - net;
        let left = net * i128::from(tax.unwrap_or(0)) - 10_000 * taxed;
        prop_assert!((-5000..5000).contains(&left));
        prop_assert_eq!(answer.unpriced, lines.iter().filter(|(.., priced)| !priced).count());
    }

    #[test]
    fn markup_contingency_and_tax_are_the_independent_sums(
        lines in prop::collection::vec(
            (1_u64..500, 0_i64..100_000, prop::option::of(0_i64..=5_000), prop::option::of(0_i64..4)),
            1..20,
        ),
        of_all in (prop::option::of(0_i64..=5_000), prop::option::of(0_i64..=5_000), prop::option::of(0_i64..=3_000)),
    ) {
        let (markup, contingency, tax) = of_all;
        let named = |i: usize| format!("item {i}");
        let added = |own: Option<i64>, rate: Option<i64>| Added {
            markup: own.map(Percent),
            tax: rate.map(|rate| Percent(rate * 500)),
        };
        let question = Question {
            needs: lines.iter().enumerate().map(|(i, line)| need(&named(i), Much::Things(line.0))).collect(),
            prices: lines
                .iter()
                .enumerate()
                .map(|(i, (_, rate, own, at))| Price {
                    added: added(*own, *at),
                    ..price(&named(i), Unit::Each, None, *rate)
                })
                .collect(),
            markup: markup.map(Percent),
            contingency: contingency.map(Percent),
            tax: tax.map(Percent),
            ..Question::default()
        };
        let answer = order(&question).unwrap();
        // Half up, by whole numbers: (2 a p + 10000) ÷ 20000.
        let part = |of: i128, percent: i64| (2 * of * i128::from(percent) + 10_000) / 20_000;
        let mut at = std::collections::BTreeMap::<i64, i128>::new();
        let mut net = 0;
        for (count, rate, own, line_tax) in &lines {
            let amount = i128::from(*count) * i128::from(*rate);
            let with = amount + own.or(markup).map_or(0, |percent| part(amount, percent));
            net += with;
            if let Some(percent) = line_tax.map(|rate| rate * 500).or(tax) {
                *at.entry(percent).or_default() += with;
            }
        }
        if let Some(percent) = contingency {
            let sum = part(net, percent);
            net += sum;
            if let Some(tax) = tax {
                *at.entry(tax).or_default() += sum;
            }
        }
        let taxed: i128 = at.iter().map(|(percent, of)| part(*of, *percent)).sum();
        prop_assert_eq!(i128::from(answer.net.0), net);
        prop_assert_eq!(i128::from(answer.tax.unwrap_or_default().0), taxed);
        prop_assert_eq!(i128::from(answer.total.0), net + taxed);
    }

    #[test]
    fn any_text_is_a_price_list_or_refused(text in "\\PC*") {
        let _read = read_prices(&text);
    }

    #[test]
    fn a_price_list_of_stray_cells_is_checked_or_refused_in_its_place(
        cells in prop::collection::vec(prop::collection::vec("[a-zé\u{fe}0-9.,;\"\n\r\t £x-]{0,6}", 1..8), 1..8),
        delimiter in prop::sample::select(vec![',', ';', '\t']),
        header: bool,
    ) {
        let mut text = String::new();
        if header {
            text += &["item", "size", "unit", "pack", "rate", "waste_percent"].join(&delimiter.to_string());
            text.push('\n');
        }
        for row in cells {
            text += &row.join(&delimiter.to_string());
            text.push('\n');
        }
        if let Err(error) = read_prices(&text) {
            prop_assert!(!error.faults.is_empty());
            for (fault, place) in &error.faults {
                prop_assert!(!fault.message.contains('\n') && place.line >= 1);
                let _shown = place.echo();
            }
        }
    }

    #[test]
    fn a_csv_price_list_reads_back_as_written(
        rows in prop::collection::vec(("[a-z][a-z ,;\"]{0,12}[a-z]", 0_i64..100_000_000, "[ -~]{0,8}"), 1..20),
    ) {
        let mut writer = csv::Writer::from_writer(vec![]);
        writer.write_record(["item", "rate", "size"]).unwrap();
        for (item, rate, size) in &rows {
            writer.write_record([item, &Pence(*rate).to_string(), size]).unwrap();
        }
        let text = String::from_utf8(writer.into_inner().unwrap()).unwrap();
        let read = read_prices(&text).unwrap();
        prop_assert_eq!(read.entries.len(), rows.len());
        for (entry, (item, rate, _)) in read.entries.iter().zip(&rows) {
            prop_assert_eq!(&entry.item, item);
            prop_assert_eq!(entry.rate.read().unwrap(), Pence(*rate));
        }
    }
}
