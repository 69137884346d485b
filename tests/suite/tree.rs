//! The commands and options that the program has, as its own help lists them, so that a new one can't slip past a test.

use crate::program::pegline;

/// A command of the program, as it is written after the program's name.
#[derive(Debug, Clone)]
pub(crate) struct Listed {
    /// Its words: `["job", "new", "--sample"]`; none for the program itself.
    pub(crate) words: Vec<String>,
    /// Its long help.
    pub(crate) help: String,
}

impl Listed {
    /// The long options that the help lists, without their dashes.
    pub(crate) fn options(&self) -> Vec<String> {
        let is_letter = |c: char| c.is_ascii_alphanumeric() || c == '-';
        self.help
            .lines()
            .filter(|line| line.starts_with("  ") && line.trim_start().starts_with('-'))
            .filter_map(|line| line.split_once("--"))
            .map(|(_, rest)| rest.split(|c| !is_letter(c)).next().unwrap().to_owned())
            .collect()
    }

    /// The names of the commands below it.
    pub(crate) fn commands(&self) -> Vec<String> {
        self.help
            .lines()
            .skip_while(|line| *line != "Commands:")
            .skip(1)
            .take_while(|line| !line.is_empty())
            .filter(|line| line.starts_with("  ") && !line.starts_with("   "))
            .map(|line| line.split_whitespace().next().unwrap().to_owned())
            .filter(|name| name != "help")
            .collect()
    }

    /// The lines under `Examples:`, a line that ends in a backslash joined to the next.
    pub(crate) fn examples(&self) -> Vec<String> {
        let (_, examples) = self.help.split_once("\nExamples:\n").unwrap_or_else(|| {
            panic!("the help of {:?} has no examples: see src/cli/examples.rs", self.words)
        });
        let joined = examples.replace("\\\n", " ");
        let lines: Vec<String> = joined.lines().map(|line| line.trim().to_owned()).collect();
        for line in &lines {
            assert!(line.contains("pegline "), "an example is broken over its line: {lines:#?}");
        }
        lines
    }
}

/// The program and every command under it, in the order of the help.
pub(crate) fn tree() -> Vec<Listed> {
    let mut found = vec![];
    let mut open = vec![vec![]];
    while let Some(words) = open.pop() {
        let help = pegline(words.iter().map(String::as_str).chain(["--help"])).answer();
        let listed = Listed { words, help };
        for name in listed.commands().into_iter().rev() {
            let mut below = listed.words.clone();
            below.push(name);
            open.push(below);
        }
        found.push(listed);
    }
    assert!(found.len() > 16, "the help lists the commands: {found:?}");
    found
}
