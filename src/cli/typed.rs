//! A part of the job file as options of a command.

use clap::builder::{Resettable, Str};
use clap::error::Error;
use clap::{ArgMatches, Args, Command, FromArgMatches};

/// A part of the job whose fields are typed as options. What it says of itself in the job file, and the heading that its
/// options stand under, stay its own.
#[derive(Debug, Clone)]
pub(super) struct Typed<S>(pub(super) S);

impl<S: Args> Args for Typed<S> {
    fn augment_args(command: Command) -> Command {
        let about = Resettable::from(command.get_about().cloned());
        let long_about = Resettable::from(command.get_long_about().cloned());
        let heading =
            Resettable::from(command.get_next_help_heading().map(|heading| Str::from(heading.to_owned())));
        S::augment_args(command).about(about).long_about(long_about).next_help_heading(heading)
    }

    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

impl<S: FromArgMatches> FromArgMatches for Typed<S> {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, Error> {
        S::from_arg_matches(matches).map(Self)
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), Error> {
        self.0.update_from_arg_matches(matches)
    }
}
