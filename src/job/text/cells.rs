//! Where on a line of CSV its cells stand.

/// Where on its line each cell starts, in characters from 1, and whether a double quote opened there is not closed on the
/// line. As CSV has it, only a cell's first character can open a quoted text: `3/8"` is as it stands.
pub(super) fn cells(line: &str, delimiter: char) -> (Vec<usize>, bool) {
    enum At {
        Start,
        Plain,
        Quoted,
        Closing,
    }
    let mut starts = vec![1];
    let mut at = At::Start;
    for (i, c) in line.chars().enumerate() {
        at = match at {
            At::Start | At::Closing if c == '"' => At::Quoted,
            At::Quoted if c == '"' => At::Closing,
            At::Quoted => At::Quoted,
            _ if c == delimiter => {
                starts.push(i + 2);
                At::Start
            }
            _ => At::Plain,
        };
    }
    (starts, matches!(at, At::Quoted))
}

/// Where on its line the cell in `place` (from 0) starts; the line's end where there is none.
pub(super) fn cell_column(line: &str, place: usize, delimiter: char) -> usize {
    let (starts, _) = cells(line, delimiter);
    starts.get(place).copied().unwrap_or_else(|| line.chars().count() + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_start_behind_each_delimiter_outside_a_quoted_text() {
        assert_eq!(cells("peg,,0.64", ','), (vec![1, 5, 6], false));
        assert_eq!(cells("", ','), (vec![1], false));
        assert_eq!(cells("Æ;b", ';'), (vec![1, 3], false));
        assert_eq!(cells(r#""a,b",c"#, ','), (vec![1, 7], false));
        assert_eq!(cells(r#""a ""b"", c",d"#, ','), (vec![1, 14], false));
        // Inches are no quotes.
        assert_eq!(cells(r#"packer,3/8",each,"1""#, ','), (vec![1, 8, 13, 18], false));
        assert_eq!(cells(r#"a,"b,c"#, ','), (vec![1, 3], true));
        assert_eq!(cells(r#"a,"b""#, ','), (vec![1, 3], false));
        assert_eq!(cells(r#"a,"b"""#, ','), (vec![1, 3], true));
    }

    #[test]
    fn a_cell_that_is_not_there_is_at_the_end_of_the_line() {
        assert_eq!(cell_column("peg,0.64", 1, ','), 5);
        assert_eq!(cell_column("peg,0.64", 2, ','), 9);
    }
}
