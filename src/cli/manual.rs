//! `pegline man`: the manual page of the program, or of one command.

use clap::{Args, Command};
use clap_mangen::Man;
use clap_mangen::roff::{Roff, roman};
use pegline::words::nearest;

use super::args::{Format, OutputArgs};
use super::examples::HEADING;
use super::failure::{Exit, Failure};
use super::output::write_out;

#[derive(Debug, Args)]
pub(super) struct ManArgs {
    /// The command, such as plates, or job new; the whole program's page if none is named.
    #[arg(value_name = "COMMAND", num_args = 0..)]
    command: Vec<String>,
}

impl ManArgs {
    pub(super) fn run(self, program: Command, out: &OutputArgs) -> Result<Exit, Failure> {
        out.only("man", Format::Table)?;
        // The `help` command would be listed as a page of its own.
        let mut program = program.disable_help_subcommand(true);
        program.build();
        let mut asked = &program;
        for name in &self.command {
            let names: Vec<&str> = asked.get_subcommands().map(Command::get_name).collect();
            let meant = nearest(name, &names).unwrap_or(name);
            asked = asked.find_subcommand(meant).ok_or_else(|| {
                Failure::input(if names.is_empty() {
                    format!("COMMAND: `{}` has no commands of its own: leave `{name}` out", asked.get_name())
                } else {
                    format!("COMMAND: there is no command `{name}`: write one of {}", names.join(", "))
                })
            })?;
        }
        let page = page(asked, &program)
            .map_err(|error| Failure::Io { doing: "writing the manual page".to_owned(), error })?;
        write_out(&page, out, &[])?;
        Ok(Exit::Good)
    }
}

/// The page of `command` in the form that `man` reads.
fn page(command: &Command, program: &Command) -> std::io::Result<String> {
    let ending = command.get_after_help().map(ToString::to_string).unwrap_or_default();
    let version = program.get_version().unwrap_or_default();
    let man = Man::new(command.clone()).source(format!("pegline {version}")).manual("pegline manual");
    let mut page = vec![];
    man.render_title(&mut page)?;
    man.render_name_section(&mut page)?;
    man.render_synopsis_section(&mut page)?;
    man.render_description_section(&mut page)?;
    man.render_options_section(&mut page)?;
    if command.get_subcommands().next().is_some() {
        man.render_subcommands_section(&mut page)?;
    }
    ending_sections(&ending).to_writer(&mut page)?;
    Ok(quotes_once(&String::from_utf8_lossy(&page)))
}

/// Each section brings the definition of a straight quote; once, after the title, is enough, and lets a page start with
/// its title as `man` expects.
fn quotes_once(page: &str) -> String {
    let is_quotes = |line: &&str| line.ends_with(".ds Aq \\(aq") || line.ends_with(".ds Aq '");
    let quotes: Vec<&str> = page.lines().filter(is_quotes).take(2).collect();
    let mut lines: Vec<&str> = page.lines().filter(|line| !is_quotes(line)).collect();
    lines.splice(1..1, quotes);
    lines.join("\n") + "\n"
}

/// The exit codes, and the examples line for line: a manual page would fill them into one paragraph otherwise.
fn ending_sections(ending: &str) -> Roff {
    let (codes, examples) = ending.split_once(HEADING).unwrap_or((ending, ""));
    let codes = codes.trim();
    let codes = codes.strip_prefix("Exit code: ").unwrap_or(codes);
    let mut roff = Roff::default();
    roff.control("SH", ["EXIT STATUS"]);
    roff.text([roman(codes)]);
    roff.control("SH", ["EXAMPLES"]);
    roff.control("nf", []);
    for line in examples.lines().filter(|line| !line.is_empty()) {
        roff.text([roman(line)]);
    }
    roff.control("fi", []);
    roff
}
