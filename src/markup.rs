//! Text as it may stand in XML and HTML.

use crate::words::one_line;

/// `text` with the signs that mean something in markup spelt out, and a mark for each character that neither may hold.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in one_line(text).chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => out.push(char::REPLACEMENT_CHARACTER),
            c => out.push(c),
        }
    }
    out
}
