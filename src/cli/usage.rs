//! Wrong usage in our own words: what clap found out, told in one paragraph, its suggestions kept.

use std::path::Path;

use clap::error::{ContextKind, ContextValue, ErrorKind};
use pegline::words::{is_near, or_list};

/// The message, if it is one to be told in words of ours; clap's own serves for the rest (help, version).
pub(super) fn words(error: &clap::Error) -> Option<String> {
    let said = Said(error);
    match error.kind() {
        ErrorKind::InvalidValue => Some(said.value()),
        ErrorKind::ValueValidation => Some(said.unreadable()),
        ErrorKind::UnknownArgument => Some(said.unknown()),
        ErrorKind::InvalidSubcommand => Some(said.command()),
        ErrorKind::ArgumentConflict => Some(said.conflict()),
        ErrorKind::MissingRequiredArgument => {
            let bare = |argument: &str| argument.replace(['<', '>', '[', ']'], "");
            let missing: Vec<String> = said.all(ContextKind::InvalidArg).map(bare).collect();
            Some(format!("{} is missing: write it as well (--help shows how)", missing.join(" and ")))
        }
        ErrorKind::MissingSubcommand => Some(format!(
            "there is no command: write one of {}",
            or_list(&said.listed(ContextKind::ValidSubcommand))
        )),
        ErrorKind::TooManyValues | ErrorKind::WrongNumberOfValues => {
            Some(format!("{} takes no such value: write it alone", said.option()))
        }
        ErrorKind::InvalidUtf8 => Some("an argument is not text (UTF-8): type it again".to_owned()),
        _ => None,
    }
}

struct Said<'a>(&'a clap::Error);

impl Said<'_> {
    fn all(&self, kind: ContextKind) -> impl Iterator<Item = &str> {
        let strings = match self.0.get(kind) {
            Some(ContextValue::String(one)) => std::slice::from_ref(one),
            Some(ContextValue::Strings(many)) => many.as_slice(),
            _ => &[],
        };
        strings.iter().map(String::as_str)
    }

    fn listed(&self, kind: ContextKind) -> Vec<String> {
        self.all(kind).map(str::to_owned).collect()
    }

    fn first(&self, kind: ContextKind) -> &str {
        self.all(kind).next().unwrap_or_default()
    }

    /// The option or the argument that is wrong.
    fn option(&self) -> String {
        plain(self.first(ContextKind::InvalidArg))
    }

    /// No value, or one that is not among those there are.
    fn value(&self) -> String {
        let (option, value) = (self.option(), self.first(ContextKind::InvalidValue));
        let choices = self.listed(ContextKind::ValidValue);
        let found = if value.is_empty() {
            "nothing is given".to_owned()
        } else {
            format!("`{value}` is not one of them")
        };
        if choices.is_empty() {
            let shape = self.first(ContextKind::InvalidArg).replace(['<', '>'], "");
            format!("{option}: {found}: write {shape}")
        } else {
            format!("{option}: {found}: write {}", or_list(&choices))
        }
    }

    /// A value that can't be read; what the reader says of it may tell it already.
    fn unreadable(&self) -> String {
        let (option, value) = (self.option(), self.first(ContextKind::InvalidValue));
        let why =
            std::error::Error::source(self.0).map_or_else(String::new, |why| plain_reason(&why.to_string()));
        if value.trim().is_empty() && !why.is_empty() {
            // A reason that quotes the value says what to write behind it.
            let instead = why.split_once("`: ").map_or(why.as_str(), |(_, instead)| instead);
            format!("{option}: nothing is given: {instead}")
        } else if why.contains('`') {
            format!("{option}: {why}")
        } else {
            format!("{option}: `{value}` can't be taken: {why}")
        }
    }

    fn unknown(&self) -> String {
        let given = self.first(ContextKind::InvalidArg);
        let suggested = near(given, self.listed(ContextKind::SuggestedArg));
        let is_value = |rest: &str| rest.starts_with(|c: char| c.is_ascii_digit() || c == '.');
        if matches!(given, "--svg" | "--pdf" | "--dxf") {
            format!("there is no option `{given}` here: `pegline sketch` draws the plan, with --svg to scale")
        } else if given == "--html" {
            "there is no option `--html` here: `pegline sheet --html` writes the page".to_owned()
        } else if matches!(given, "--job" | "--units") {
            format!("the command stands before its options: `pegline diagonals {given} …`")
        } else if given == "-v" {
            "there is no option `-v`: -V prints the version".to_owned()
        } else if given == "--csv" {
            "there is no option `--csv` here: write --format csv".to_owned()
        } else if !suggested.is_empty() {
            format!("there is no option `{given}`: did you mean {}?", or_list(&suggested))
        } else if given.strip_prefix('-').is_some_and(is_value) {
            format!(
                "there is no option `{given}`: a cut-out follows its plan without a space (7800x6000-3000x2400), and a value below zero its option (--offset -20)"
            )
        } else if given.starts_with('-') {
            format!("there is no option `{given}` here: --help lists those there are")
        } else if is_file_name(given) {
            format!(
                "`{given}` is a word too many: leave it out, or write before it the option that takes a file (--help shows which), or < to read it as standard input"
            )
        } else {
            format!(
                "`{given}` is a word too many: leave it out, or put quotes round words that belong together"
            )
        }
    }

    fn command(&self) -> String {
        let given = self.first(ContextKind::InvalidSubcommand);
        let suggested = near(given, self.listed(ContextKind::SuggestedSubcommand));
        if is_file_name(given) {
            return format!(
                "`{given}` is a file: write a command before it (--help lists those there are), as in `pegline job check {given}`"
            );
        }
        if suggested.is_empty() {
            format!("there is no command `{given}`: --help lists those there are")
        } else {
            format!("there is no command `{given}`: did you mean {}?", or_list(&suggested))
        }
    }

    fn conflict(&self) -> String {
        let prior: Vec<String> = self.all(ContextKind::PriorArg).map(plain).collect();
        let option = self.option();
        if prior.is_empty() {
            format!("{option} can't stand with the rest: leave it out")
        } else if prior == [option.as_str()] {
            format!("{option} is given twice: leave one of them out")
        } else {
            format!("{option} can't stand with {}: leave one of them out", prior.join(" and "))
        }
    }
}

/// The suggestions that may have been meant; the parser's own go further.
fn near(given: &str, suggested: Vec<String>) -> Vec<String> {
    let bare = |word: &str| word.trim_start_matches('-').to_owned();
    suggested.into_iter().filter(|word| is_near(&bare(given), &bare(word))).collect()
}

/// Whether a word ends like the name of a file that goes into the program or comes out of it.
pub(super) fn is_file_name(word: &str) -> bool {
    let ending = Path::new(word).extension().and_then(|ending| ending.to_str());
    ending.is_some_and(|ending| {
        ["json", "jsonl", "csv", "txt", "svg", "html"].iter().any(|known| ending.eq_ignore_ascii_case(known))
    })
}

/// What the standard library says of a number that it can't read, as what to write.
fn plain_reason(why: &str) -> String {
    if why.contains("float") {
        "write a number, such as 0.5".to_owned()
    } else if let Some((_, range)) = why.split_once(" is not in ") {
        format!("write a whole number from {}", range.replace("..=", " to "))
    } else if why.contains("digit") || why.contains("integer") || why.contains("number too ") {
        "write a whole number, 0 or more".to_owned()
    } else {
        why.to_owned()
    }
}

/// An argument's name alone: `--walk` of `--walk <SIDES>`, `PLAN` of `[PLAN]...`.
fn plain(argument: &str) -> String {
    let name = argument.split(' ').next().unwrap_or(argument);
    if name.starts_with('-') {
        name.to_owned()
    } else {
        name.chars().filter(|c| c.is_alphanumeric() || *c == '-').collect()
    }
}
