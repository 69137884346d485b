//! A line of the field book as it is typed.

/// What a line asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Typed<'a> {
    /// A blank line: what is asked is passed over, or kept as it is.
    Nothing,
    /// `?`
    WhereWeStand,
    /// `undo`
    Undo,
    /// `- AB`
    Strike(&'a str),
    /// `7802`: what was asked for.
    Reading(&'a str),
    /// `AB 7802`, `AB=7802`
    Of(&'a str, &'a str),
    /// `AB`: ask for this one.
    Name(&'a str),
}

impl<'a> Typed<'a> {
    pub(super) fn read(line: &'a str) -> Self {
        let line = line.trim();
        let is_figure = |word: &str| word.starts_with(|c: char| c.is_ascii_digit() || "+-−.".contains(c));
        if line.is_empty() {
            return Self::Nothing;
        }
        if line == "?" {
            return Self::WhereWeStand;
        }
        if line.eq_ignore_ascii_case("undo") {
            return Self::Undo;
        }
        if let Some(name) = line.strip_prefix('-').map(str::trim).filter(|name| !is_figure(name)) {
            return Self::Strike(name);
        }
        if let Some((name, reading)) = line.split_once('=') {
            return Self::Of(name.trim(), reading.trim());
        }
        // A reading may have a space in it (25ft 6in), a name has none.
        match line.split_once(char::is_whitespace) {
            Some((name, reading)) if !is_figure(name) => Self::Of(name, reading.trim()),
            _ if is_figure(line) => Self::Reading(line),
            _ => Self::Name(line),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_read_as_it_is_called_out() {
        for (line, expected) in [
            ("7802", Typed::Reading("7802")),
            (" 25ft 6-1/2in ", Typed::Reading("25ft 6-1/2in")),
            ("AB 7802", Typed::Of("AB", "7802")),
            ("ab=25ft 6in", Typed::Of("ab", "25ft 6in")),
            ("AB@2400 1412", Typed::Of("AB@2400", "1412")),
            ("- AB", Typed::Strike("AB")),
            ("-AB", Typed::Strike("AB")),
            ("-3", Typed::Reading("-3")),
            ("AB", Typed::Name("AB")),
            ("UNDO", Typed::Undo),
            ("?", Typed::WhereWeStand),
            ("  ", Typed::Nothing),
        ] {
            assert_eq!(Typed::read(line), expected, "{line}");
        }
    }
}
