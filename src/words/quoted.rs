//! What was typed, as it is told back: one line that can't steer the terminal.

/// The most characters quoted.
const ENOUGH: usize = 40;

/// `text` without the space round it, cut after 40 characters: no more than it takes to recognise it, on [one line](one_line).
#[must_use]
pub fn quoted(text: &str) -> String {
    let text = text.trim();
    match text.char_indices().nth(ENOUGH) {
        Some((end, _)) => format!("{}…", one_line(&text[..end])),
        None => one_line(text),
    }
}

/// `text` with `\u{fffd}` for each character that [steers](steers): a message must stay on its line and say what it says.
#[must_use]
pub fn one_line(text: &str) -> String {
    text.chars().map(|c| if steers(c) { char::REPLACEMENT_CHARACTER } else { c }).collect()
}

/// Whether a character steers what shows it and is not seen itself: a control character, an end of a line or paragraph,
/// one that turns the direction of writing.
#[must_use]
pub fn steers(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{2028}' | '\u{2029}' | '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
        )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forty_characters_are_quoted_and_no_more() {
        let forty = "é".repeat(40);
        assert_eq!(quoted(&format!("  {forty} ")), forty);
        assert_eq!(quoted(&format!("{forty}é")), format!("{forty}…"));
    }

    #[test]
    fn what_steers_a_terminal_is_marked() {
        assert_eq!(quoted("a\u{1b}[2Jb\nc"), "a\u{fffd}[2Jb\u{fffd}c");
        assert_eq!(quoted("a\u{202e}b\u{2028}c\u{9b}d"), "a\u{fffd}b\u{fffd}c\u{fffd}d");
    }
}
