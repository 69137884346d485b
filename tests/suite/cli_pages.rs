//! What holds on every page: 80 columns, whole figures, no escape codes, ASCII where asked.

use crate::outlines::{footprint, outlines, outlines_of, walk_text};
use crate::program::pegline;

const L: &str = "7800x6000-3000x2400";
/// With its units, so that others can be asked for.
const L_MM: &str = "7800mmx6000mm-3000mmx2400mm";

/// Plans of all kinds, for what must hold on every page: the widest figures and the most corners among them.
fn many_pages() -> Vec<Vec<String>> {
    let mut plans: Vec<String> = outlines(41).take(25).map(|o| walk_text(&footprint(&o))).collect();
    plans.extend(outlines_of(26, 42).take(2).map(|o| walk_text(&footprint(&o))));
    plans.push("900000x999999-300.125x2400.875".to_owned());
    plans.push("300x300".to_owned());
    plans.push("999ft11-15/16inx999ft11-15/16in-333ft10-11/16inx222ft10-13/16in".to_owned());
    plans.push(format!("{}20000x6000-1000x1500@bl-1500x1500@br-700x800@tl-900x900@tr+2000x1000@1000+2100x1200@5000.5+1900x1300@9000", ""));
    let mut pages = vec![];
    for plan in &plans {
        for units in ["mm", "m", "ft-in"] {
            let source = if plan.contains('R') || plan.contains('L') { "--walk" } else { "" };
            // Bare numbers are millimetres, so say so before other units are asked for.
            let plan = if source.is_empty() || units == "mm" {
                plan.clone()
            } else {
                plan.split(' ')
                    .map(|w| if w.parse::<f64>().is_ok() { format!("{w}mm") } else { w.to_owned() })
                    .collect::<Vec<_>>()
                    .join(" ")
            };
            let units =
                if plan.contains("mm") || plan.contains("ft") || units == "mm" { units } else { "mm" };
            for command in ["diagonals", "corners"] {
                let mut page = vec![command.to_owned()];
                page.extend((!source.is_empty()).then(|| source.to_owned()));
                page.extend([plan.clone(), "--units".to_owned(), units.to_owned()]);
                pages.push(page);
            }
        }
    }
    pages
}

#[test]
fn no_line_of_a_page_is_over_80_columns_or_has_escape_codes() {
    for page in many_pages() {
        let out = pegline(&page).answer();
        for line in out.lines() {
            assert!(line.chars().count() <= 80, "{page:?}:\n{line}");
            assert!(!line.contains(char::is_control), "{page:?}:\n{line}");
        }
    }
    let long = pegline(["diagonals", L_MM, "--working", "--units", "ft-in"]).answer();
    assert!(long.lines().all(|line| line.chars().count() <= 80));
}

/// A figure broken over two lines inside its inches, 4-1 above 3/16in, would be read as another.
#[test]
fn a_figure_is_never_broken_inside_its_inches() {
    let out = pegline(["diagonals", "36ft10-3/16inx30ft11-5/16in-10ft10-7/16inx8ft9-1/16in"]).answer();
    for word in out.split_whitespace() {
        let start = word.starts_with('/') || word.ends_with('-') || word.ends_with('/');
        assert!(!start || word == "-", "{word} in\n{out}");
    }
}

#[test]
fn ascii_is_ascii_alone() {
    for page in many_pages().into_iter().step_by(7) {
        let out = pegline(page.iter().map(String::as_str).chain(["--ascii", "--working"])).answer();
        assert!(out.is_ascii(), "{page:?}:\n{out}");
        assert!(!out.contains('?'), "{page:?}: a sign without a spelling:\n{out}");
    }
    let asked = pegline(["diagonals", L, "--ascii"]).answer();
    for (name, locale) in [("LANG", "C"), ("LC_ALL", "POSIX"), ("LC_CTYPE", "de_DE.ISO-8859-1")] {
        assert_eq!(pegline(["diagonals", L]).env(name, locale).answer(), asked, "{name}={locale}");
    }
    assert!(!pegline(["diagonals", L]).env("LC_ALL", "en_GB.utf8").answer().is_ascii());
    let refused = pegline(["diagonals", "6000×4000−1000×7000", "--ascii"]).refusal();
    assert!(!refused.is_empty());
}

#[test]
fn no_escape_codes_go_into_a_pipe_nor_under_no_color() {
    for (name, value) in [("TERM", "xterm-256color"), ("NO_COLOR", "1"), ("COLORTERM", "truecolor")] {
        let out = pegline(["corners", "--tapes", "3m,4m,5.02m", "--limit", "1"]).env(name, value).run();
        assert!(!out.out.contains('\u{1b}') && !out.err.contains('\u{1b}'), "{name}: {out:?}");
        let err = pegline(["diagonals", "--nonsense"]).env(name, value).refusal();
        assert!(!err.contains('\u{1b}'), "{name}: {err:?}");
    }
    let forced = pegline(["corners", "--tapes", "3m,4m,5.02m", "--limit", "1"])
        .env("CLICOLOR_FORCE", "1")
        .env("NO_COLOR", "1")
        .run();
    assert!(!forced.out.contains('\u{1b}'), "{}", forced.out);
}

#[test]
fn a_name_or_plan_with_control_characters_cannot_steer_the_terminal() {
    let job = "{\"name\": \"a\\nb\\u001b[31mred\\u0007\", \"plan\": \"6000x4000\"}";
    let out = pegline(["diagonals", "--job", "-"]).input(job).answer();
    assert!(!out.replace('\n', "").contains(char::is_control), "{out:?}");
    let err = pegline(["diagonals", "78\n00x\u{1b}[31m6"]).refusal();
    assert_eq!(err.lines().count(), 1, "{err:?}");
    assert!(!err.trim_end().contains(char::is_control), "{err:?}");
    let err = pegline(["diagonals", "--job", "no\nsuch\u{1b}[31m"]).refusal();
    assert!(err.lines().count() == 1 && !err.trim_end().contains(char::is_control), "{err:?}");
}

/// Whatever an opening, a booking, a layer or an item is called, on every page and in every format.
#[test]
fn a_name_turns_no_direction_of_writing_and_ends_no_line_on_any_page() {
    for sign in ['\u{202e}', '\u{2066}', '\u{200f}', '\u{2028}', '\u{85}', '\u{9b}', '\u{7f}'] {
        let name = format!("n{sign}m");
        let job = serde_json::json!({
            "name": name, "plan": L, "house": ["AB"],
            "openings": [{ "side": "CD", "at": 600, "width": 900, "name": name }],
            "lines": { "layers": [{ "name": "skin", "width": 102 }, { "name": "plate", "width": 140 }] },
            "plates": { "width": 140 }, "stock": { "lengths": [{ "length": "4.8m" }] },
            "heights": { "drops": [2398], "level_depth": 50, "stack": ["plate=38", format!("floor:{name}=65")] },
            "bookings": [{ "name": name, "readings": { "read": ["AB=7800"] } }],
            "joists": {
                "from": ["AB"], "to": ["EF", "CD"], "centres": 600, "thickness": 50, "bearing": 75,
                "openings": [{ "width": 600, "length": 600, "along": 900, "out": 600, "name": name }],
            },
        });
        for command in ["day", "lines", "sketch", "sheet", "plates", "heights", "readings", "joists", "order"]
        {
            for format in ["", "--working", "--html", "--svg", "--json", "--format=csv"] {
                let words = [command, "--job", "-", format];
                let ran =
                    pegline(words.into_iter().filter(|word| !word.is_empty())).input(job.to_string()).run();
                for said in [ran.out, ran.err] {
                    assert!(!said.contains(sign), "{command} {format}: {said:?}");
                }
            }
        }
        let cut = pegline(["cuts", "--job", "-"]).input(format!("{{\"{sign}\": 1, \"plan\": 7}}")).refusal();
        assert!(!cut.contains(sign), "{cut:?}");
    }
}

#[test]
fn a_bar_of_more_pieces_than_a_page_has_columns_is_drawn_as_one_and_told_in_words() {
    for (pieces, told, drawn) in [
        ("160x25", "160 × 25, offcut 320", "160 pieces"),
        ("60x20,1x3000", "3000, 60 × 20, offcut 417", "61 pieces"),
        ("20x20,1x3000", "3000, 20 × 20, offcut 1337", "3000"),
    ] {
        let out = pegline(["cuts", "--pieces", pieces, "--stock", "4.8m"]).run().out;
        let widest = out.lines().map(|line| line.chars().count()).max().unwrap();
        assert!(widest <= 80, "{widest} columns: {out}");
        assert!(out.lines().any(|line| line.trim() == told), "{out}");
        assert!(out.lines().any(|line| line.contains('├') && line.contains(drawn)), "{out}");
    }
}
