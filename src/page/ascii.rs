//! The plain spelling of the few signs beyond ASCII that pages use.

/// `text` in ASCII alone; a sign without a plain spelling becomes `?`.
#[must_use]
pub fn ascii(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            c if c.is_ascii() => plain.push(c),
            '²' => plain.push_str("^2"),
            '³' => plain.push_str("^3"),
            '√' => plain.push_str("sqrt "),
            '×' => plain.push('x'),
            '±' => plain.push_str("+/-"),
            '→' => plain.push_str("->"),
            '°' => plain.push_str(" deg"),
            '·' | '•' | '−' | '–' | '—' | '─' | '━' | '┄' | '╌' => plain.push('-'),
            '═' => plain.push('='),
            '│' | '┃' | '║' | '┆' => plain.push('|'),
            '┌' | '┐' | '└' | '┘' | '├' | '┤' | '┬' | '┴' | '┼' | '╭' | '╮' | '╯' | '╰' =>
            {
                plain.push('+');
            }
            '█' | '▓' | '▒' | '░' | '■' => plain.push('#'),
            '≤' => plain.push_str("<="),
            '≥' => plain.push_str(">="),
            '≈' => plain.push('~'),
            '÷' => plain.push('/'),
            '…' => plain.push_str("..."),
            '’' | '‘' | '′' => plain.push('\''),
            '“' | '”' | '″' => plain.push('"'),
            'α' => plain.push_str("alpha"),
            'θ' => plain.push_str("theta"),
            'σ' => plain.push_str("sd"),
            '▲' | '△' => plain.push('^'),
            '▼' | '▽' => plain.push('v'),
            '►' | '▶' => plain.push('>'),
            '◄' | '◀' => plain.push('<'),
            _ => plain.push('?'),
        }
    }
    plain
}
