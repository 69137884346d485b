//! Every command in the README is run and its output compared to what the README shows.
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

/// A folder with the project's `examples/` in it, where commands may write.
fn clean_folder() -> PathBuf {
    let folder = env::temp_dir().join(format!("pegline-readme-{}", std::process::id()));
    let _gone = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    std::os::unix::fs::symlink(examples, folder.join("examples")).unwrap();
    folder
}

#[test]
fn every_output_in_the_readme_is_what_the_program_prints() {
    let readme = Document::open("README.md");
    let folder = clean_folder();
    let (fresh, commands) = readme.rerun(&folder);
    fs::remove_dir_all(&folder).unwrap();
    assert!(commands > 3, "the README shows commands");
    if env::var_os("PEGLINE_REWRITE").is_some() {
        fs::write(&readme.path, &fresh).unwrap();
    } else {
        for (shown, printed) in readme.text.lines().zip(fresh.lines()) {
            assert_eq!(
                shown, printed,
                "the README differs; after checking, PEGLINE_REWRITE=1 cargo test readme"
            );
        }
        assert_eq!(readme.text.lines().count(), fresh.lines().count());
    }
}
