//! What a line is never broken within: a length, its unit, and the name that it is of.

/// A space that wrapping does not break at.
pub(super) const GLUE: char = '\u{a0}';

/// Replaces by [`GLUE`] the space between a number and a word of one or two letters, which is a unit; between feet and
/// inches; between groups of three digits; and between the letters of a corner or a line and its figure.
pub(super) fn glued(text: &str) -> String {
    let mut words = text.split(' ').peekable();
    let mut glued = String::with_capacity(text.len());
    while let Some(word) = words.next() {
        glued.push_str(word);
        if let Some(next) = words.peek() {
            let short = next.trim_end_matches([',', ';', '.', ')', '²']);
            let unit = (1..=2).contains(&short.chars().count()) && short.chars().all(char::is_alphabetic);
            let after_digit = word.ends_with(|c: char| c.is_ascii_digit());
            let before_digit = next.trim_start_matches(['+', '−']).starts_with(|c: char| c.is_ascii_digit());
            let feet = word.strip_suffix('\'').is_some_and(|n| n.ends_with(|c: char| c.is_ascii_digit()));
            let named = word.len() <= 2 && word.chars().all(|c| c.is_ascii_uppercase());
            let three = next.get(..3).is_some_and(|group| group.bytes().all(|c| c.is_ascii_digit()));
            let together = (after_digit && (unit || three)) || (before_digit && (feet || named));
            glued.push(if together { GLUE } else { ' ' });
        }
    }
    glued
}

/// The same for a browser, which would break after the hyphen of `2-1/4"` too.
#[must_use]
pub fn unbroken(text: &str) -> String {
    glued(text).replace('-', "-\u{2060}")
}
