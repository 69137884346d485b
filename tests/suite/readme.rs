//! Every command in the README and in `examples/*.md` is run and its output compared to what stands there.
//!
//! After a change of output: `PEGLINE_REWRITE=1 cargo test readme`, then read the difference.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

/// A document whose `console` blocks are commands (`$ …`) and what they print.
struct Document {
    path: PathBuf,
    text: String,
}

impl Document {
    fn open(name: &str) -> Self {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(name);
        Self { text: fs::read_to_string(&path).unwrap(), path }
    }

    /// The text with every command's output put in afresh, and the number of commands.
    fn rerun(&self, folder: &Path) -> (String, usize) {
        let mut fresh = String::new();
        let mut commands = 0;
        let mut in_console = false;
        for line in self.text.lines() {
            if line == "```console" {
                in_console = true;
            } else if line == "```" {
                in_console = false;
            }
            if !in_console || line == "```console" {
                writeln!(fresh, "{line}").unwrap();
            } else if let Some(command) = line.strip_prefix("$ ") {
                commands += 1;
                write!(fresh, "{line}\n{}", run(command, folder)).unwrap();
            }
        }
        (fresh, commands)
    }
}

/// What a shell prints for a command, standard error included, in `folder`.
fn run(command: &str, folder: &Path) -> String {
    let program = assert_cmd::cargo::cargo_bin!("pegline");
    // The build under test stands in for the one that a reader would build.
    let command = command.replace("cargo run --release --", "pegline");
    let mut path = program.parent().unwrap().as_os_str().to_owned();
    path.push(":");
    path.push(env::var_os("PATH").unwrap_or_default());
    let output = Command::new("sh")
        .args(["-c", &format!("{{ {command}; }} 2>&1")])
        .env("PATH", path)
        .env("LC_ALL", "C.UTF-8")
        .env_remove("NO_COLOR")
        .current_dir(folder)
        .output()
        .unwrap();
    String::from_utf8(output.stdout).unwrap()
}

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")
}

/// A folder with a copy of the project's `examples/` in it, where commands may write.
fn clean_folder(name: &str) -> PathBuf {
    let name = name.replace('/', "-");
    let folder = env::temp_dir().join(format!("pegline-{name}-{}", std::process::id()));
    let _gone = fs::remove_dir_all(&folder);
    fs::create_dir_all(folder.join("examples")).unwrap();
    for file in fs::read_dir(examples()).unwrap() {
        let file = file.unwrap();
        fs::copy(file.path(), folder.join("examples").join(file.file_name())).unwrap();
    }
    folder
}

fn every_output_is_what_the_program_prints(name: &str) {
    let document = Document::open(name);
    let folder = clean_folder(name);
    let (fresh, commands) = document.rerun(&folder);
    fs::remove_dir_all(&folder).unwrap();
    assert!(commands > 3, "{name} shows commands");
    if env::var_os("PEGLINE_REWRITE").is_some() {
        fs::write(&document.path, &fresh).unwrap();
    } else {
        for (shown, printed) in document.text.lines().zip(fresh.lines()) {
            assert_eq!(shown, printed, "{name} differs; after checking, PEGLINE_REWRITE=1 cargo test readme");
        }
        assert_eq!(document.text.lines().count(), fresh.lines().count());
    }
}

#[test]
fn every_output_in_the_readme() {
    every_output_is_what_the_program_prints("README.md");
}

#[test]
fn every_output_of_the_day() {
    every_output_is_what_the_program_prints("examples/the-day.md");
}

#[test]
fn every_output_of_the_three_jobs() {
    every_output_is_what_the_program_prints("examples/three-jobs.md");
}

#[test]
fn every_output_in_training() {
    every_output_is_what_the_program_prints("examples/training.md");
}

#[test]
fn every_output_in_the_office() {
    every_output_is_what_the_program_prints("examples/office.md");
}

#[test]
fn no_document_of_the_examples_is_left_out() {
    let documents = fs::read_dir(examples())
        .unwrap()
        .filter(|file| file.as_ref().unwrap().path().extension().is_some_and(|ending| ending == "md"));
    assert_eq!(documents.count(), 4, "a document without its test above");
}

/// The rows of the README's table of commands: the command's name, and the line to type.
fn commands_of_the_readme() -> Vec<(String, String)> {
    let readme = Document::open("README.md").text;
    let rows = readme.lines().skip_while(|line| !line.starts_with("| Command |")).skip(2);
    rows.take_while(|row| row.starts_with("| "))
        .map(|row| {
            let row = row.replace("\\|", "\u{1}");
            let cells: Vec<&str> = row.trim_matches(['|', ' ']).split(" | ").collect();
            let plain = |cell: &str| cell.trim_matches('`').replace('\u{1}', "|");
            (plain(cells[0]), plain(cells[2]))
        })
        .collect()
}

#[test]
fn the_readmes_table_has_every_command_that_answers_a_question() {
    let help = run("pegline --help", Path::new("."));
    let listed = help.lines().skip_while(|line| *line != "Commands:").skip(1);
    let listed: Vec<&str> = listed
        .take_while(|line| !line.is_empty())
        .filter_map(|line| line.strip_prefix("  ").and_then(|line| line.split(' ').next()))
        .filter(|name| !["", "completions", "man", "help"].contains(name))
        .collect();
    let rows = commands_of_the_readme();
    for name in &listed {
        assert!(rows.iter().any(|(command, _)| command == name), "{name} has no row");
    }
    assert_eq!(rows.len(), listed.len());
}

#[test]
fn every_line_to_type_in_the_readmes_table_is_answered() {
    let folder = clean_folder("table");
    for (name, line) in commands_of_the_readme() {
        let printed = run(&format!("{{ {line}; }}; echo \"exit $?\""), &folder);
        let code = printed.trim_end().rsplit("exit ").next().unwrap();
        assert!(["0", "1"].contains(&code), "{name}: `{line}` prints\n{printed}");
        assert!(!printed.contains("error: "), "{name}: `{line}` prints\n{printed}");
    }
    fs::remove_dir_all(&folder).unwrap();
}
