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

/// `text` with `\u{fffd}` for each control character: a message must stay on its line and must not steer the terminal.
#[must_use]
pub fn one_line(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { char::REPLACEMENT_CHARACTER } else { c }).collect()
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
    }
}
