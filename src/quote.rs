//! What was typed, as it is quoted in a message: one line, no more than it takes to recognise it.

/// The most characters quoted.
const ENOUGH: usize = 40;

/// `text` without the space round it, cut after 40 characters, with a mark for each character that is not to be seen:
/// a message must stay on its line and must not steer the terminal.
pub(crate) fn quoted(text: &str) -> String {
    let text = text.trim();
    let cut = text.char_indices().nth(ENOUGH).map(|(end, _)| end);
    let shown = text[..cut.unwrap_or(text.len())].chars().map(visible);
    shown.chain(cut.map(|_| '…')).collect()
}

/// The character itself, or `\u{fffd}` for a control character.
pub(crate) fn visible(c: char) -> char {
    if c.is_control() { char::REPLACEMENT_CHARACTER } else { c }
}
