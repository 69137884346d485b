//! What `-h` prints: one screen.

use std::env;

use clap::builder::Resettable;
use clap::error::Error;
use clap::{ArgMatches, Args, Command, FromArgMatches};

use super::examples::HEADING;

/// On one screen there is no room for the options' headings, and no need.
const WITHOUT_HEADINGS: &str = "\
{about}

{usage-heading} {usage}

{positionals}
{options}{after-help}
";

/// The arguments of a command. `-h` lists those that its first example shows, `--help` all of them; what is said of the command stays its own, whatever its arguments' structs say of themselves.
#[derive(Debug)]
pub(super) struct Screen<A>(pub(super) A);

impl<A: Args> Args for Screen<A> {
    fn augment_args(command: Command) -> Command {
        let about = Resettable::from(command.get_about().cloned());
        let long_about = Resettable::from(command.get_long_about().cloned());
        let ending = command.get_after_help().map(ToString::to_string).unwrap_or_default();
        let first = first_example(&ending);
        let shown = |option: &str| first.iter().any(|word| word.strip_prefix("--") == Some(option));
        let command = A::augment_args(command).about(about).long_about(long_about).mut_args(|argument| {
            let hidden = argument.get_long().is_some_and(|option| !shown(option));
            argument.hide_short_help(hidden)
        });
        if env::args_os().any(|word| word == "-h") {
            command.help_template(WITHOUT_HEADINGS)
        } else {
            command
        }
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

/// The words of the first example, which may go on over several lines.
fn first_example(ending: &str) -> Vec<&str> {
    let examples = ending.split_once(HEADING).map_or("", |(_, examples)| examples);
    let goes_on = |line: &&str| line.ends_with('\\');
    let lines = examples.lines().take_while(goes_on).chain(examples.lines().find(|line| !goes_on(line)));
    lines.flat_map(str::split_whitespace).collect()
}

impl<A: FromArgMatches> FromArgMatches for Screen<A> {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, Error> {
        A::from_arg_matches(matches).map(Self)
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), Error> {
        self.0.update_from_arg_matches(matches)
    }
}
