//! Help, completions and manual pages, over every command that the program lists.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::{env, fs};

use crate::program::pegline;
use crate::tree::tree;

fn directory(name: &str) -> PathBuf {
    let directory = env::temp_dir().join(format!("pegline-help-{name}-{}", std::process::id()));
    // A folder left by a run that was stopped may hold old files.
    let _removed = fs::remove_dir_all(&directory);
    fs::create_dir_all(&directory).unwrap();
    directory
}

#[test]
fn help_fits_80_columns_says_the_exit_codes_and_ends_with_examples() {
    let mut abouts = std::collections::BTreeMap::new();
    for command in tree() {
        let words = &command.words;
        let about = command.help.lines().next().unwrap().to_owned();
        let other = abouts.insert(about, words.clone());
        assert!(other.is_none(), "{words:?} says the same of itself as {other:?}");
        for line in command.help.lines() {
            assert!(line.chars().count() <= 80, "{words:?}: {line}");
        }
        let short = pegline(words.iter().map(String::as_str).chain(["-h"])).run();
        assert!(short.out.lines().all(|line| line.chars().count() <= 80), "{words:?}");
        assert!(short.out.lines().count() <= 24, "{words:?}: -h is one screen\n{}", short.out);
        assert!(short.out.contains("--help"), "{words:?}: -h says where the rest is\n{}", short.out);
        let (before, _) = command
            .help
            .split_once("\nExamples:\n")
            .unwrap_or_else(|| panic!("the help of {words:?} has no examples: see src/cli/examples.rs"));
        let codes = before.trim_end().rsplit("\n\n").next().unwrap().replace('\n', " ");
        assert!(codes.starts_with("Exit code: 0 ") && codes.contains("; 2 "), "{words:?}: {codes}");
        let named = format!("pegline {}", words.join(" "));
        assert!(
            command.examples().iter().any(|line| line.contains(named.trim_end())),
            "{words:?}: an example of the command itself"
        );
    }
}

/// Every example, in turn, in an empty folder of the command's own, by a shell as a reader would.
#[test]
#[cfg(unix)]
fn every_example_in_the_help_runs_and_ends_as_it_says() {
    let program = assert_cmd::cargo::cargo_bin!("pegline");
    let mut path = program.parent().unwrap().as_os_str().to_owned();
    path.push(":");
    path.push(env::var_os("PATH").unwrap_or_default());
    let mut ran = 0;
    for command in tree() {
        let here = directory(&format!("examples-{}", command.words.join("-")));
        for example in command.examples() {
            let output = Command::new("sh")
                .args(["-c", &example])
                .env("PATH", &path)
                .env("LC_ALL", "C.UTF-8")
                .stdin(Stdio::null())
                .current_dir(&here)
                .output()
                .unwrap();
            let said = example.split_once("exit code ").map_or("0", |(_, code)| code);
            assert_eq!(
                output.status.code().map(|code| code.to_string()).as_deref(),
                Some(said),
                "{example}\n{}{}",
                String::from_utf8_lossy(&output.stdout),
                String::from_utf8_lossy(&output.stderr)
            );
            ran += 1;
        }
        fs::remove_dir_all(here).unwrap();
    }
    assert!(ran >= 30, "{ran} examples");
}

#[test]
fn a_command_says_of_itself_in_its_help_what_the_list_of_commands_says() {
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let list = flat(&pegline(["--help"]).answer());
    for command in tree().iter().filter(|command| command.words.len() == 1) {
        let about = flat(
            command.help.lines().take_while(|line| !line.is_empty()).collect::<Vec<_>>().join(" ").as_str(),
        );
        assert!(list.contains(about.trim_end_matches('.')), "{:?}: {about}", command.words);
    }
}

#[test]
fn the_program_alone_prints_help_that_leads_to_the_first_command() {
    let ran = pegline([""; 0]).run();
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_eq!(pegline(["-h"]).answer(), ran.err);
    let (_, start) = ran.err.split_once("\nStart here:\n").unwrap();
    let first = start.lines().next().unwrap();
    let words = first.split_whitespace().skip(1);
    assert!(pegline(words).answer().starts_with("Tape all the sides, then AD"), "{first}");
    let (_, listed) = start.split_once("\nThe commands").unwrap();
    let listed: Vec<&str> = listed.split([' ', ',', '\n']).collect();
    for command in tree().iter().filter(|command| command.words.len() == 1) {
        assert!(listed.contains(&command.words[0].as_str()), "{:?} is on the screen", command.words);
    }
}

/// Two slips of the finger in every name: a letter typed twice, and a letter left out of the middle.
fn slips(name: &str) -> Vec<String> {
    let middle = name.len() / 2;
    let mut slips = vec![format!("{}{}", &name[..=middle], &name[middle..])];
    if name.len() > 4 {
        slips.push(format!("{}{}", &name[..middle], &name[middle + 1..]));
    }
    slips
}

#[test]
fn a_wrong_command_or_option_is_told_the_right_one() {
    for command in tree() {
        let words: Vec<&str> = command.words.iter().map(String::as_str).collect();
        let known = command.options();
        for (name, dashes) in
            command.commands().iter().map(|name| (name, "")).chain(known.iter().map(|name| (name, "--")))
        {
            for slip in slips(name) {
                if known.contains(&slip) {
                    continue;
                }
                let typed = format!("{dashes}{slip}");
                let said = pegline(words.iter().copied().chain([typed.as_str()])).refusal();
                let right = format!("{dashes}{name}");
                let meant = said.split_once("did you mean ");
                assert!(meant.is_some_and(|(_, meant)| meant.contains(&right)), "{words:?} {typed}: {said}");
            }
        }
    }
}

#[test]
fn each_completion_script_has_every_command_and_option() {
    let tree = tree();
    for shell in ["bash", "zsh", "fish"] {
        let script = pegline(["completions", shell]).answer();
        for command in &tree {
            for name in command.commands() {
                assert!(script.contains(&name), "{shell}: {name}");
            }
            for option in command.options() {
                // fish names an option without its dashes.
                let written = if shell == "fish" { format!("-l {option}") } else { format!("--{option}") };
                assert!(script.contains(&written), "{shell}: {:?} {option}", command.words);
            }
        }
    }
    let said = pegline(["completions", "csh"]).refusal();
    assert!(said.contains("write bash, elvish, fish"), "{said}");
}

/// Whether a program is on this machine; says so if a check is passed over.
#[expect(clippy::print_stderr, reason = "a check that is passed over is said")]
fn is_here(program: &str) -> bool {
    let here = Command::new(program)
        .arg("--version")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok();
    if !here {
        eprintln!("passed over: there is no {program} on this machine");
    }
    here
}

#[test]
fn shells_that_are_here_read_their_completion_script() {
    let here = directory("shells");
    for shell in ["bash", "zsh", "fish"] {
        pegline(["completions", shell, "-o", shell]).within(&here).answer();
        if !is_here(shell) {
            continue;
        }
        let read = Command::new(shell).args(["-n", shell]).current_dir(&here).output().unwrap();
        assert!(
            read.status.success() && read.stderr.is_empty(),
            "{shell}: {}",
            String::from_utf8_lossy(&read.stderr)
        );
    }
    if is_here("bash") {
        assert_eq!(completed(&here, &["pegline", "diag"]), ["diagonals"]);
        assert_eq!(completed(&here, &["pegline", "job", "ch"]), ["check"]);
        assert_eq!(completed(&here, &["pegline", "diagonals", "--sp"]), ["--spares"]);
    }
    fs::remove_dir_all(here).unwrap();
}

/// What bash offers for the last of `words`, by the script of [`shells_that_are_here_read_their_completion_script`].
fn completed(here: &Path, words: &[&str]) -> Vec<String> {
    let ask = format!(
        "source ./bash; COMP_WORDS=({}); COMP_CWORD={}; _pegline pegline {} {}; printf '%s\\n' \"${{COMPREPLY[@]}}\"",
        words.join(" "),
        words.len() - 1,
        words[words.len() - 1],
        words[words.len() - 2],
    );
    let offered = Command::new("bash").args(["--norc", "-c", &ask]).current_dir(here).output().unwrap();
    String::from_utf8(offered.stdout).unwrap().lines().map(str::to_owned).collect()
}

#[test]
fn every_command_has_a_manual_page_with_its_options_and_examples() {
    for command in tree() {
        let words: Vec<&str> = command.words.iter().map(String::as_str).collect();
        let page = pegline(["man"].into_iter().chain(words.iter().copied())).answer();
        let title = [&["pegline"], words.as_slice()].concat().join("-");
        assert!(page.starts_with(&format!(".TH {title} 1 ")), "{}", page.lines().next().unwrap());
        let plain = page.replace("\\-", "-").replace("\\*(Aq", "'");
        for name in command.commands() {
            assert!(plain.contains(&format!("{title}-{name}(1)")), "{title}: {name}");
        }
        for option in command.options() {
            assert!(plain.contains(&format!("--{option}")), "{title}: {option}");
        }
        assert!(
            plain.contains("\n.SH \"EXIT STATUS\"\n0 ") && plain.contains("\n.SH EXAMPLES\n.nf\n"),
            "{title}"
        );
        let first = command.examples()[0].split_whitespace().take(3).collect::<Vec<_>>().join(" ");
        assert!(plain.contains(&first), "{title}: {first}");
    }
    let said = pegline(["man", "roof"]).refusal();
    assert!(said.starts_with("error: COMMAND: there is no command `roof`: write one of day, "), "{said}");
    let said = pegline(["man", "plates", "new"]).refusal();
    assert_eq!(said, "error: COMMAND: `plates` has no commands of its own: leave `new` out\n");
}

#[test]
fn groff_reads_the_manual_page_without_a_warning() {
    if !is_here("groff") {
        return;
    }
    let here = directory("man");
    for command in tree() {
        let words = command.words.iter().map(String::as_str);
        pegline(["man"].into_iter().chain(words).chain(["-o", "page.1", "--force"])).within(&here).answer();
        let read = Command::new("groff")
            .args(["-man", "-ww", "-Tascii", "page.1"])
            .current_dir(&here)
            .output()
            .unwrap();
        let said = String::from_utf8_lossy(&read.stderr);
        // A word longer than the line is stretched round, which is no fault of the page.
        let faults: Vec<&str> = said.lines().filter(|line| !line.contains("adjust")).collect();
        assert!(read.status.success() && faults.is_empty(), "{:?}: {faults:?}", command.words);
    }
    fs::remove_dir_all(here).unwrap();
}
