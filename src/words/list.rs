//! Lists, counts and the letter that begins a line.

use std::fmt::Display;

/// A list in words: `none`, `AD`, `AD and BE`, `AD, BE and DF`.
#[must_use]
pub fn and_list(items: &[impl AsRef<str>]) -> String {
    list(items, "and")
}

/// A list of choices in words: `none`, `AD`, `AD or BE`, `AD, BE or DF`.
#[must_use]
pub fn or_list(items: &[impl AsRef<str>]) -> String {
    list(items, "or")
}

fn list(items: &[impl AsRef<str>], word: &str) -> String {
    let items: Vec<&str> = items.iter().map(AsRef::as_ref).collect();
    match &items[..] {
        [] => "none".to_owned(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} {word} {last}", most.join(", ")),
    }
}

/// A number of things: `1 splice`, `2 splices`.
#[must_use]
pub fn count<N: Copy + Display + PartialEq + From<u8>>(number: N, thing: &str) -> String {
    let plural = if number == N::from(1) { "" } else { "s" };
    format!("{number} {thing}{plural}")
}

/// How many are not told: `and 29,980 more`; nothing where all are.
#[must_use]
pub fn and_more(number: usize) -> Option<String> {
    let digits = number.to_string();
    let mut grouped = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    (number > 0).then(|| format!("and {grouped} more"))
}

/// `text` with its first letter a capital: what begins a line.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_has_its_word_before_the_last_alone() {
        assert_eq!(and_list(&[] as &[&str]), "none");
        assert_eq!(and_list(&["AD"]), "AD");
        assert_eq!(or_list(&["AD", "BE"]), "AD or BE");
        assert_eq!(or_list(&["AD".to_owned(), "BE".to_owned(), "DF".to_owned()]), "AD, BE or DF");
    }

    #[test]
    fn one_thing_alone_has_no_s() {
        assert_eq!([0, 1, 2].map(|number| count(number, "peg")), ["0 pegs", "1 peg", "2 pegs"]);
    }

    #[test]
    fn thousands_are_marked_in_what_is_not_told() {
        let words = |number| and_more(number).unwrap_or_default();
        assert_eq!(
            [0, 7, 980, 29_980, 1_000_000].map(words),
            ["", "and 7 more", "and 980 more", "and 29,980 more", "and 1,000,000 more"]
        );
    }

    #[test]
    fn a_capital_may_be_more_than_one_letter() {
        assert_eq!([capital("pegs"), capital(""), capital("ßa")], ["Pegs", "", "SSa"]);
    }
}
