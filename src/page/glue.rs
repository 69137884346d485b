//! What a line is never broken within: a length, its unit, and the name that it is of.

/// A space that wrapping does not break at.
pub(super) const GLUE: char = '\u{a0}';

/// Replaces by [`GLUE`] the space between a number and a word of one or two letters, which is a unit; between feet and
/// inches; between groups of three digits; and between the letters of a corner or a line and its figure.
pub(super) fn glued(text: &str) -> String {
    joined(text, |word, next| {
        let short = next.trim_end_matches([',', ';', '.', ')', '²']);
        let unit = (1..=2).contains(&short.chars().count()) && short.chars().all(char::is_alphabetic);
        let after_digit = word.ends_with(|c: char| c.is_ascii_digit());
        let before_digit = next.trim_start_matches(['+', '−']).starts_with(|c: char| c.is_ascii_digit());
        let named = word.len() <= 2 && word.chars().all(|c| c.is_ascii_uppercase());
        let three = next.get(..3).is_some_and(|group| group.bytes().all(|c| c.is_ascii_digit()));
        after_digit && (unit || three) || before_digit && named || feet_and_inches(word, next)
    })
}

/// Replaces by [`GLUE`] the space between feet and inches alone, whose two figures would be read as two lengths.
pub(super) fn lengths_glued(text: &str) -> String {
    joined(text, feet_and_inches)
}

fn feet_and_inches(word: &str, next: &str) -> bool {
    let digit = |c: char| c.is_ascii_digit();
    word.strip_suffix('\'').is_some_and(|feet| feet.ends_with(digit)) && next.starts_with(digit)
}

fn joined(text: &str, together: impl Fn(&str, &str) -> bool) -> String {
    let mut words = text.split(' ').peekable();
    let mut joined = String::with_capacity(text.len());
    while let Some(word) = words.next() {
        joined.push_str(word);
        if let Some(next) = words.peek() {
            joined.push(if together(word, next) { GLUE } else { ' ' });
        }
    }
    joined
}

/// The same for a browser, which would break after the hyphen of `2-1/4"` too.
#[must_use]
pub fn unbroken(text: &str) -> String {
    glued(text).replace('-', "-\u{2060}")
}
