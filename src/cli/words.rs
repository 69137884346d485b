//! The words of the command line put as the parser takes them: what may be left out is added.

use std::ffi::OsString;

use clap::{ArgAction, Command};

use super::args::is_job_file;

/// What a plan or a job file is asked where no command is named.
const DAY: &str = "day";

/// Options of the whole program whose value stands in a word of its own.
const WITH_VALUE: [&str; 3] = ["--format", "-o", "--output"];

/// The words typed, the program's name first. A plan or a job file without a command is asked for the day; a list goes on
/// over spaces, where the next word is of its kind. `program` is built only if there may be such a list.
pub(super) fn arranged(typed: impl Iterator<Item = OsString>, program: fn() -> Command) -> Vec<OsString> {
    let mut words: Vec<OsString> = typed.collect();
    let Some(at) = first_word(&words) else { return words };
    if text(&words[at]).starts_with(|c: char| c.is_ascii_digit()) || is_job_file(text(&words[at])) {
        words.insert(at, DAY.into());
    }
    if words[at + 1..].windows(3).any(|w| is_option(&w[0]) && !is_option(&w[2]))
        || words[at + 1..].windows(2).any(|w| text(&w[0]).contains('=') && !is_option(&w[1]))
    {
        join_lists(&mut words, at, program());
    }
    words
}

/// The first word that is no option and no option's value.
fn first_word(words: &[OsString]) -> Option<usize> {
    let is_value = |at: usize| at > 1 && WITH_VALUE.contains(&text(&words[at - 1]));
    (1..words.len()).find(|at| !is_option(&words[*at]) && !is_value(*at))
}

fn text(word: &OsString) -> &str {
    word.to_str().unwrap_or_default()
}

fn is_option(word: &OsString) -> bool {
    let text = text(word);
    text.len() > 1 && text.starts_with('-')
}

/// Puts the items of a list that stand in words of their own behind the list's first, with commas.
fn join_lists(words: &mut Vec<OsString>, command: usize, mut program: Command) {
    program.build();
    let Some(command_named) = program.find_subcommand(text(&words[command])) else { return };
    let is_list = |option: &str| {
        let argument = command_named.get_arguments().find(|argument| argument.get_long() == Some(option));
        argument.is_some_and(|argument| {
            argument.get_value_delimiter().is_some() || matches!(argument.get_action(), ArgAction::Append)
        })
    };
    let mut plan_given = false;
    let mut at = command + 1;
    while at < words.len() {
        let word = text(&words[at]).to_owned();
        let Some(option) = word.strip_prefix("--") else {
            plan_given |= !is_option(&words[at]);
            at += 1;
            continue;
        };
        let (option, value) = match option.split_once('=') {
            Some((option, value)) => (option, Some(value.to_owned())),
            None => {
                (option, words.get(at + 1).filter(|word| !is_option(word)).map(|word| text(word).to_owned()))
            }
        };
        let first = if word.contains('=') { at } else { at + 1 };
        at = first + 1;
        let Some(kind) = value.as_deref().filter(|_| is_list(option)).and_then(Kind::of) else {
            continue;
        };
        let goes_on = |word: &OsString| {
            !is_option(word) && Kind::of(text(word)) == Some(kind) && (kind != Kind::Number || plan_given)
        };
        while words.get(at).is_some_and(goes_on) {
            let next = words.remove(at);
            let comma = if text(&words[first]).ends_with(',') { "" } else { "," };
            words[first].push(comma);
            words[first].push(next);
        }
    }
}

/// What an item of a list looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// `AB=7802`
    Named,
    /// `2400`, `4.8m:15.60`, `12x5`
    Number,
    /// `CD:900@1200`
    OnSide,
    /// `AB`
    Side,
}

impl Kind {
    fn of(item: &str) -> Option<Self> {
        let last = item.trim_end_matches(',').rsplit(',').next()?;
        if last.contains('=') {
            Some(Self::Named)
        } else if last.starts_with(|c: char| c.is_ascii_digit()) {
            Some(Self::Number)
        } else if last.contains(':') {
            Some(Self::OnSide)
        } else {
            (last.len() == 2 && last.chars().all(|c| c.is_ascii_alphabetic())).then_some(Self::Side)
        }
    }
}
