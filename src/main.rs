//! The `pegline` program: parse, dispatch, exit code.

mod cli;

use std::process::ExitCode;

fn main() -> ExitCode {
    cli::run()
}
