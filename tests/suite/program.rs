//! Runs the built program with a clean environment: `LANG=C.UTF-8` and nothing else.

use std::path::Path;

use assert_cmd::Command;

/// One run of the program, before it starts.
pub(crate) struct Program(Command);

/// How a run ended.
#[derive(Debug)]
pub(crate) struct Ran {
    /// The exit code.
    pub(crate) code: i32,
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
}

/// The program with these arguments.
pub(crate) fn pegline<A: AsRef<std::ffi::OsStr>>(arguments: impl IntoIterator<Item = A>) -> Program {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("pegline"));
    command.env_clear().env("LANG", "C.UTF-8").args(arguments);
    Program(command)
}

/// The words of a line of a fixture, and what is on standard input: `'…'` holds words together, and what follows ` < ` is
/// standard input.
pub(crate) fn typed(line: &str) -> (Vec<String>, String) {
    // JSON has escapes of its own for the rest.
    let escaped = |text: &str| text.replace("\\n", "\n").replace("\\t", "\t");
    let (typed, input) = line.split_once(" < ").unwrap_or((line, ""));
    let mut words = vec![];
    for (place, part) in typed.split('\'').enumerate() {
        if place % 2 == 1 {
            words.push(escaped(part));
        } else {
            words.extend(part.split_whitespace().map(str::to_owned));
        }
    }
    (words, escaped(input))
}

impl Program {
    /// With this on standard input.
    pub(crate) fn input(mut self, bytes: impl Into<Vec<u8>>) -> Self {
        self.0.write_stdin(bytes);
        self
    }

    /// With this environment variable.
    pub(crate) fn env(mut self, name: &str, value: &str) -> Self {
        self.0.env(name, value);
        self
    }

    /// In this directory.
    pub(crate) fn within(mut self, directory: &Path) -> Self {
        self.0.current_dir(directory);
        self
    }

    /// Runs it.
    pub(crate) fn run(mut self) -> Ran {
        let output = self.0.output().unwrap();
        Ran {
            code: output.status.code().expect("the program ended by itself"),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    /// Runs it and gives standard output; it must exit 0 and say nothing on standard error.
    pub(crate) fn answer(self) -> String {
        let ran = self.run();
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
        ran.out
    }

    /// Runs it and gives its JSON answer; it must exit 0.
    pub(crate) fn json(self) -> serde_json::Value {
        serde_json::from_str(&self.answer()).unwrap()
    }

    /// Runs it and gives standard error; it must exit 2 and print nothing on standard output.
    pub(crate) fn refusal(self) -> String {
        let ran = self.run();
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{}", ran.err);
        assert!(ran.err.starts_with("error: "), "{}", ran.err);
        ran.err
    }
}
