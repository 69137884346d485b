//! The page of every command as it is printed by default: what to do on line 1, a screen for an L, any width from 40 to 100.

use std::collections::HashSet;
use std::fs;
use std::sync::OnceLock;

use pegline::answer::{Answer, Question};
use pegline::job::{Job, read};
use pegline::page::{Detail, Look, text};
use pegline::report::page;
use serde_json::{Value, json};

use crate::answers_support::jobs;
use crate::program::pegline;
#[cfg(target_os = "linux")]
use crate::terminal::Terminal;

/// The jobs that answer every question, and those of the examples.
fn worked() -> Vec<(String, Value)> {
    let examples = ["garden-room", "side-return", "workshop", "plot1", "plot2", "plot3"].map(|name| {
        let path = format!("{}/examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
        (name.to_owned(), serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap())
    });
    jobs().into_iter().map(|worked| (worked.name, worked.job)).chain(examples).collect()
}

/// A question of a job, answered once and laid out as often as it takes.
struct Asked {
    name: String,
    command: &'static str,
    job: Job,
    answer: Answer,
}

impl Asked {
    fn page(&self, columns: usize, detail: Detail) -> String {
        let look = Look { width: columns, ..Look::default() };
        text(&page(&self.answer, &self.job, detail, columns, &[]), look)
    }
}

/// Every question that each job answers.
fn asked() -> &'static [Asked] {
    static ASKED: OnceLock<Vec<Asked>> = OnceLock::new();
    ASKED.get_or_init(|| {
        let mut asked = vec![];
        for (name, job) in worked() {
            let job = Job::check(&read(&job.to_string()).unwrap().booked(None).unwrap()).unwrap();
            for question in Question::ALL {
                let command = question.name();
                let (name, job) = (name.clone(), job.clone());
                let answer = job.answer(question);
                asked.extend(answer.map(|answer| Asked { name, command, job, answer }));
            }
        }
        assert!(asked.len() > 140, "{} pages", asked.len());
        asked
    })
}

/// A word without what stands behind it in a sentence.
fn bare(word: &str) -> &str {
    word.trim_end_matches([';', ',', ':'])
}

/// What a page says, its words alone: rules, drawings and their scale left out.
fn words(page: &str) -> HashSet<&str> {
    let drawn = |line: &&str| line.contains(|c: char| ('\u{2500}'..'\u{25a0}').contains(&c) || c == '·');
    let said = page.lines().filter(|line| !drawn(line) && !line.starts_with("Scale: "));
    said.flat_map(str::split_whitespace).map(bare).collect()
}

/// The first word of a page that is a part of one on the wide page, and no word of that itself. A drawing that has no room
/// is told in words of its own, and figures may stand on it; a plan to type again may be longer than the page is wide.
fn broken<'a>(page: &'a str, wide: &str, columns: usize) -> Option<&'a str> {
    let whole: HashSet<&str> = wide.split_whitespace().map(bare).collect();
    let of_a_drawing =
        |word: &str| ["Room", "offcut"].contains(&word) || word.contains(|c: char| c.is_ascii_digit());
    words(page).into_iter().filter(|word| !whole.contains(word) && !of_a_drawing(word)).find(|word| {
        let known = words(wide);
        let mut parted =
            known.iter().filter(|whole| whole.starts_with(word) || whole.ends_with(word)).peekable();
        parted.peek().is_some() && parted.all(|whole| whole.chars().count() + 2 <= columns)
    })
}

#[test]
fn every_page_is_laid_out_for_any_width_and_no_word_is_broken() {
    for asked in asked() {
        let Asked { name, command, .. } = asked;
        for detail in [Detail::Short, Detail::Full] {
            let wide = asked.page(80, detail);
            for columns in [40, 50, 80, 100] {
                let page = asked.page(columns, detail);
                for line in page.lines() {
                    assert!(line.chars().count() <= columns, "{name} {command} at {columns}: {line}");
                }
                assert_eq!(
                    broken(&page, &wide, columns),
                    None,
                    "{name} {command} at {columns}\n{page}\n{wide}"
                );
            }
        }
    }
}

#[test]
fn the_program_prints_the_page_that_was_read_here() {
    let (name, job) = worked().remove(2);
    for asked in asked().iter().filter(|asked| asked.name == name && asked.command != "day") {
        let page = pegline([asked.command, "-"]).input(job.to_string()).env("COLUMNS", "50").run();
        assert_eq!(page.out, asked.page(50, Detail::Short), "{}", asked.command);
    }
    // What to type next stands on the program's page alone.
    for columns in [40, 50, 80, 100] {
        let page = pegline(["7800x6000-3000x2400"]).env("COLUMNS", &columns.to_string()).answer();
        assert!(page.contains("Next: pegline job new"), "{page}");
        assert!(page.lines().all(|line| line.chars().count() <= columns), "at {columns}\n{page}");
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
    for asked in asked() {
        let page = asked.page(80, Detail::Short);
        let first = page.lines().next().unwrap_or_default();
        let counted = first.starts_with(|c: char| c.is_ascii_digit());
        let begins = starts.iter().any(|start| first.starts_with(start)) || counted;
        assert!(begins, "{} {}: {first}", asked.name, asked.command);
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
    for command in Question::ALL.map(Question::name) {
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
