//! A text sheet cut into pages for a printer, so that no question runs across two.

/// Lines that a sheet of A4 takes, printed as plain text.
const LINES: usize = 60;

/// Puts a form feed before each question that would not end on the page it begins on.
#[must_use]
pub fn leaves(text: &str) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let begins = |line: &str| line.starts_with("Question ");
    let mut out = String::with_capacity(text.len());
    let mut row = 0;
    for (i, line) in lines.iter().enumerate() {
        let rest = &lines[i + 1..];
        let rows = 1 + rest.iter().position(|next| begins(next)).unwrap_or(rest.len());
        if begins(line) && row > 0 && row + rows > LINES {
            out.push('\u{c}');
            row = 0;
        }
        out.push_str(line);
        out.push('\n');
        row += 1;
    }
    out
}
