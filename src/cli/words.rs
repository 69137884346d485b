//! The words of the command line put as the parser takes them: what may be left out is added.

use std::ffi::OsString;

use clap::{Arg, ArgAction, Command};

use super::args::is_job_file;

/// What a plan or a job file is asked where no command is named.
const DAY: &str = "day";

/// Options of the whole program whose value stands in a word of its own.
const WITH_VALUE: [&str; 3] = ["--format", "-o", "--output"];

/// The words typed, the program's name first. A plan or a job file without a command is asked for the day; a command in
/// capitals is one; a list goes on over spaces, where the next word is of its kind. `program` is built only if there may be such a list.
pub(super) fn arranged(typed: impl Iterator<Item = OsString>, program: fn() -> Command) -> Vec<OsString> {
    let mut words: Vec<OsString> = typed.collect();
    let Some(at) = first_word(&words) else { return words };
    if text(&words[at]).chars().all(|c| c.is_ascii_alphabetic()) {
        words[at].make_ascii_lowercase();
    }
    if text(&words[at]).starts_with(|c: char| c.is_ascii_digit()) || is_job_file(text(&words[at])) {
        words.insert(at, DAY.into());
    }
    if words[at + 1..].windows(2).any(|pair| is_odd(text(&pair[0]), text(&pair[1]))) {
        rearrange(&mut words, at, program());
    }
    words
}

/// Whether a word and the next may have to be put otherwise for the parser: the program is built only then, to look.
fn is_odd(word: &str, next: &str) -> bool {
    let goes_on = !next.starts_with('-') && (word.contains('=') || !word.starts_with('-'));
    let holds_several = |word: &str| word.contains([' ', ';']);
    goes_on
        || is_below_zero(next)
        || [word, next].into_iter().any(|word| holds_several(word) || is_long(word))
}

/// A value below zero, which looks like an option.
fn is_below_zero(word: &str) -> bool {
    let after = word.strip_prefix('-').or_else(|| word.strip_prefix('−'));
    after.is_some_and(|after| after.starts_with(|c: char| c.is_ascii_digit() || c == '.'))
}

/// An option of several letters behind one hyphen.
fn is_long(word: &str) -> bool {
    word.strip_prefix('-')
        .is_some_and(|name| name.len() > 1 && name.starts_with(|c: char| c.is_ascii_alphabetic()))
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
    is_option_text(text(word))
}

fn is_option_text(text: &str) -> bool {
    text.len() > 1 && text.starts_with('-')
}

/// Puts right what can only have been meant one way: the items of a list that stand in words of their own, or with spaces
/// between them, go behind the list's first with commas; a walk's words go together; a value below zero goes to its
/// option; a long option gets its second hyphen.
fn rearrange(words: &mut Vec<OsString>, command: usize, mut program: Command) {
    program.build();
    let Some(command_named) = program.find_subcommand(text(&words[command])) else { return };
    let argument_named = |name: &str| {
        let is_called = |argument: &&Arg| {
            argument.get_long() == Some(name)
                || argument.get_all_aliases().is_some_and(|names| names.contains(&name))
        };
        command_named.get_arguments().find(is_called)
    };
    let mut plan_given = false;
    let mut at = command + 1;
    while at < words.len() {
        let word = text(&words[at]).to_owned();
        let one_hyphen = is_long(&word).then(|| &word[1..]);
        let Some(option) = word.strip_prefix("--").or(one_hyphen) else {
            if word.contains('=') {
                words[at] = with_commas(&word).into();
            }
            plan_given |= !is_option(&words[at]);
            at += 1;
            continue;
        };
        let (name, value) =
            option.split_once('=').map_or((option, None), |(name, value)| (name, Some(value)));
        let Some(argument) = argument_named(name) else {
            at += 1;
            continue;
        };
        if one_hyphen.is_some() {
            words[at] = format!("-{word}").into();
        }
        if !argument.get_action().takes_values() {
            at += 1;
            continue;
        }
        if value.is_none() && words.get(at + 1).is_some_and(|next| is_below_zero(text(next))) {
            let below_zero = words.remove(at + 1);
            words[at].push("=");
            words[at].push(below_zero);
            at += 1;
            continue;
        }
        let first = if value.is_some() { at } else { at + 1 };
        if words.get(first).is_none_or(|word| value.is_none() && is_option(word)) {
            at += 1;
            continue;
        }
        at = first + 1;
        if argument.get_value_delimiter().is_some() || matches!(argument.get_action(), ArgAction::Append) {
            words[first] = with_commas(text(&words[first])).into();
            join_list(words, first, plan_given);
        } else if name == "walk" {
            while words.get(at).is_some_and(goes_on_walking) {
                let next = words.remove(at);
                words[first].push(" ");
                words[first].push(next);
            }
        }
    }
}

/// Joins what goes on the list whose first items stand at `first`.
fn join_list(words: &mut Vec<OsString>, first: usize, plan_given: bool) {
    let at = first + 1;
    let value = text(&words[first]);
    let value = if is_option(&words[first]) { value.split_once('=').unwrap_or_default().1 } else { value };
    let Some(kind) = Kind::of(value) else { return };
    loop {
        let next = |by: usize| words.get(at + by).map(text).unwrap_or_default();
        let is_times = matches!(next(0), "x" | "X" | "×" | "*");
        if is_times && kind == Kind::Number && Kind::of(next(1)) == Some(Kind::Number) {
            words.remove(at);
            let length = words.remove(at);
            words[first].push("x");
            words[first].push(length);
            continue;
        }
        if is_option_text(next(0)) || Kind::of(next(0)) != Some(kind) || (kind == Kind::Number && !plan_given)
        {
            return;
        }
        let next = words.remove(at);
        let comma = if text(&words[first]).ends_with(',') { "" } else { "," };
        words[first].push(comma);
        words[first].push(next);
    }
}

/// Whether a word behind a walk goes on with it: neither a reading, nor a plan, nor a job file does.
fn goes_on_walking(word: &OsString) -> bool {
    !is_option(word) && !text(word).contains(['=', 'x']) && !is_job_file(text(word))
}

/// A list's text with commas between its items, where semicolons or spaces stand between items of one kind. Feet and their
/// inches may have a space between them.
fn with_commas(list: &str) -> String {
    let mut parts = list.split(';').map(Kind::of);
    let kind = parts.next().flatten();
    let list = if kind.is_some() && parts.all(|part| part == kind) { &list.replace(';', ",") } else { list };
    let mut words = list.split_whitespace();
    let kind = words.next().and_then(Kind::of);
    let alike = kind.is_some() && words.all(|word| Kind::of(word) == kind);
    let may_be_feet =
        kind == Some(Kind::Number) && list.contains(['\'', '"', '′', '″', '’', '”', 'f', 'i', '/']);
    if !alike || may_be_feet {
        return list.to_owned();
    }
    let items = list.split_whitespace().flat_map(|word| word.split(',')).filter(|item| !item.is_empty());
    items.collect::<Vec<_>>().join(",")
}

/// What an item of a list looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// `AB=7802`
    Named,
    /// `2400`, `4.8m:15.60`, `12x5`
    Number,
    /// `CD:900@1200`, `door=CD:900@1200`
    OnSide,
    /// `AB`
    Side,
}

impl Kind {
    fn of(item: &str) -> Option<Self> {
        let last = item.trim_end_matches([',', ' ']).rsplit(',').next()?.trim();
        let of_a_name = last.split_once('=').map(|(_, value)| value);
        let is_on_side =
            |item: &str| item.contains(':') && item.starts_with(|c: char| c.is_ascii_alphabetic());
        if is_on_side(of_a_name.unwrap_or(last)) {
            Some(Self::OnSide)
        } else if of_a_name.is_some() {
            Some(Self::Named)
        } else if last.starts_with(|c: char| c.is_ascii_digit()) {
            Some(Self::Number)
        } else {
            (last.len() == 2 && last.chars().all(|c| c.is_ascii_alphabetic())).then_some(Self::Side)
        }
    }
}
