//! The page of every command as it is printed by default: what to do on line 1, a screen for an L, any width from 40 to 100.

use std::fs;

use serde_json::{Value, json};

use crate::answers_support::jobs;
use crate::program::pegline;
#[cfg(target_os = "linux")]
use crate::terminal::Terminal;

const COMMANDS: [&str; 13] = [
    "day",
    "diagonals",
    "corners",
    "lines",
    "straight",
    "plates",
    "cuts",
    "readings",
    "packs",
    "heights",
    "joists",
    "order",
    "sheet",
];

/// The jobs that answer every question, and those of the examples.
fn worked() -> Vec<(String, Value)> {
    let examples = ["garden-room", "side-return", "workshop", "plot1", "plot2", "plot3"].map(|name| {
        let path = format!("{}/examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
        (name.to_owned(), serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap())
    });
    jobs().into_iter().map(|worked| (worked.name, worked.job)).chain(examples).collect()
}

/// What a page says, its words alone: rules, drawings and their scale left out.
fn words(page: &str) -> Vec<&str> {
    let drawn = |line: &&str| line.contains(|c: char| ('\u{2500}'..'\u{25a0}').contains(&c) || c == '·');
    let said = page.lines().filter(|line| !drawn(line) && !line.starts_with("Scale: "));
    let said = said.flat_map(str::split_whitespace);
    said.map(|word| word.trim_end_matches([';', ',', ':'])).collect()
}

/// Whether a word is a part of one on the wide page, and no word of that itself. A drawing that has no room is told in
/// words of its own, and figures may stand on it; a plan to type again may be longer than the page is wide.
fn is_broken(word: &str, wide: &str, columns: usize) -> bool {
    let of_a_drawing = ["Room", "offcut"].contains(&word) || word.contains(|c: char| c.is_ascii_digit());
    let drawn = wide
        .split_whitespace()
        .map(|known| known.trim_end_matches([';', ',', ':']))
        .any(|known| known == word);
    let part = |whole: &&&str| **whole != word && (whole.starts_with(word) || whole.ends_with(word));
    let known = words(wide);
    let of_a_long_one = known.iter().filter(part).any(|whole| whole.chars().count() + 2 > columns);
    !of_a_drawing && !drawn && !of_a_long_one && known.iter().filter(part).count() > 0
}

#[test]
fn every_page_is_laid_out_for_any_width_and_no_word_is_broken() {
    for (name, job) in worked() {
        for command in COMMANDS.into_iter().chain(["sketch"]) {
            let asked = |columns: usize, full: bool| {
                let full = if full { &["--full"][..] } else { &[] };
                let words = [&[command, "-"][..], full].concat();
                pegline(words).input(job.to_string()).env("COLUMNS", &columns.to_string()).run()
            };
            for full in [false, true] {
                let wide = asked(80, full);
                if wide.code == 2 {
                    continue;
                }
                let others = [40, 50, 100].map(|columns| (columns, asked(columns, full).out));
                for (columns, page) in others.into_iter().chain([(80, wide.out.clone())]) {
                    for line in page.lines() {
                        assert!(line.chars().count() <= columns, "{name} {command} at {columns}: {line}");
                    }
                    let broken = words(&page).into_iter().find(|word| is_broken(word, &wide.out, columns));
                    assert_eq!(broken, None, "{name} {command} at {columns}\n{page}\n{}", wide.out);
                }
            }
        }
    }
}

#[test]
fn line_1_says_what_to_do_or_how_it_stands() {
    let starts = [
        "Tape ",
        "From ",
        "Set up ",
        "Straight",
        "Out of ",
        "The worst ",
        "All of ",
        "Buy ",
        "Nothing to ",
        "Square",
        "Square, ",
        "To size",
        "Pack ",
        "Panels ",
        "Total ",
        "Move ",
        "Misread",
        "Not fixed",
        "Read ",
        "Check first",
        "Hold this ",
        "No lines here",
        "Short of ",
        "The packers ",
        "Answered, none over its limit",
        "Within ",
        "Over ",
        "Corner ",
        "The corner ",
        "The plate ",
        "Brickwork",
        "Masonry",
    ];
    for (name, job) in worked() {
        for command in COMMANDS.into_iter().chain(["sketch"]) {
            let page = pegline([command, "-"]).input(job.to_string()).run();
            let first = page.out.lines().next().unwrap_or_default().to_owned();
            let counted = first.starts_with(|c: char| c.is_ascii_digit());
            let begins = starts.iter().any(|start| first.starts_with(start)) || counted;
            assert!(page.code == 2 || begins, "{name} {command}: {first}");
        }
    }
}

#[test]
fn an_l_takes_a_screen() {
    let mut job = pegline(["job", "new", "L", "--sample"]).json();
    job["plates"]["binder"] = false.into();
    job["readings"] = json!({
        "limit": "10",
        "read": ["AB=7802", "BC=3599", "CD=3001", "DE=2402", "EF=4799", "FA=6002", "AD=6000", "BE=6709", "DF=5368",
            "BF=9842", "CE=3842"],
    });
    job["joists"] = json!({
        "from": ["AB"], "to": ["EF", "CD"], "centres": "400", "bearing": "100", "thickness": "47", "wall": "140",
    });
    for command in [
        "day",
        "diagonals",
        "corners",
        "straight",
        "plates",
        "readings",
        "packs",
        "heights",
        "joists",
        "sketch",
    ] {
        let page = pegline([command, "-"]).input(job.to_string()).run();
        assert_ne!(page.code, 2, "{command}: {}", page.err);
        assert!(
            page.out.lines().count() <= 24,
            "{command}: {} lines\n{}",
            page.out.lines().count(),
            page.out
        );
        let whole = pegline([command, "-", "--full"]).input(job.to_string()).run();
        assert!(whole.out.lines().count() > page.out.lines().count(), "{command}");
    }
}

#[test]
fn json_and_csv_are_the_same_however_much_the_page_holds() {
    let (_, job) = worked().remove(2);
    for command in COMMANDS {
        for format in ["json", "csv"] {
            let asked = |more: &[&str]| {
                let words = [&[command, "-", "--format", format][..], more].concat();
                pegline(words).input(job.to_string()).run().out
            };
            assert_eq!(asked(&["--full"]), asked(&[]), "{command} {format}");
        }
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_page_is_as_wide_as_its_terminal() {
    let terminal = Terminal { columns: 50, ..Terminal::default() };
    let Some(seen) = terminal.shows("corners 7800x6000-3000x2400") else { return };
    assert!(seen.starts_with("From A mark "), "{seen}");
    let widest = seen.lines().map(|line| line.chars().count()).max();
    assert!(widest.is_some_and(|widest| (40..=50).contains(&widest)), "{seen}");
}
