//! Orders: quantities, prices, sums, price lists.

mod jobs;
mod lists;
mod merchant;
mod page;
mod quote;
mod random;
mod sums;

/// A CSV text as rows under its header, by column name.
fn rows(text: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    reader.deserialize().map(Result::unwrap).collect()
}

/// A decimal text with at most two places in hundredths, by the digits alone.
fn hundredths(text: &str) -> i128 {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    assert!(part.len() <= 2, "{text}");
    format!("{whole}{part:0<2}").parse().unwrap()
}
