//! Filled sheets from files, folders and standard input: marked one by one, and told together.

use std::fs;
use std::path::Path;

use pegline::job::LARGEST_FILE;
use pegline::practice::{ClassMarks, Fault, Mark, Returned, mark, read_form, read_text, sheets_in};
use pegline::report::practice::{mark_rows, marked_class, marked_sheet};
use pegline::words::one_line;

use super::answer::printed;
use super::form::form;
use crate::cli::args::OutputArgs;
use crate::cli::encoding::text_of;
use crate::cli::failure::{Exit, Failure};
use crate::cli::output::write_out;
use crate::cli::source::bytes_of;

/// The most filled sheets marked in one run.
const MOST_SHEETS: usize = 1000;

/// Marks every sheet in the files and folders `names`. A sheet that can't be read is told at the end, the others are
/// marked all the same.
pub(super) fn mark_files(names: &[String], out: &OutputArgs) -> Result<Exit, Failure> {
    let format = out.format()?;
    let files = files(names)?;
    let mut returned = vec![];
    let mut faults = vec![];
    for name in &files {
        let shown = if name == "-" { "standard input".to_owned() } else { one_line(name) };
        match sheets(name, &shown) {
            Ok(sheets) => {
                for sheet in sheets {
                    match sheet {
                        Ok(sheet) => returned.push(sheet),
                        Err(messages) => faults.extend(messages),
                    }
                }
            }
            Err(Failure::Input(messages)) => faults.extend(messages),
            Err(other) if files.len() == 1 => return Err(other),
            Err(other) => faults.push(other.message()),
        }
    }
    if returned.is_empty() {
        return Err(Failure::faults(faults.into_iter(), 0));
    }
    let units = returned[0].marks.ask.units;
    let (text, verdict) = match returned.as_slice() {
        [one] if names.len() == 1 && files == names => {
            let rows = || mark_rows(&returned);
            (printed(units, &one.marks, &marked_sheet(one), rows, format, out)?, one.marks.verdict)
        }
        _ => {
            let class = ClassMarks::of(returned);
            let rows = || mark_rows(&class.sheets);
            (printed(units, &class, &marked_class(&class), rows, format, out)?, class.verdict)
        }
    };
    let inputs: Vec<&str> = files.iter().map(String::as_str).collect();
    write_out(&text, out, &inputs)?;
    match verdict {
        _ if !faults.is_empty() => Err(Failure::faults(faults.into_iter(), 0)),
        Mark::Right => Ok(Exit::Good),
        _ => Ok(Exit::Bad),
    }
}

/// The files named, and those in the folders named, by name; hidden ones are passed over.
fn files(names: &[String]) -> Result<Vec<String>, Failure> {
    let mut files = vec![];
    for name in names {
        if !Path::new(name).is_dir() {
            files.push(name.clone());
            continue;
        }
        let failed = |error| Failure::Io { doing: format!("reading the folder {}", one_line(name)), error };
        let mut inside = vec![];
        for entry in fs::read_dir(name).map_err(failed)? {
            let path = entry.map_err(failed)?.path();
            let hidden = path.file_name().is_some_and(|file| file.to_string_lossy().starts_with('.'));
            if path.is_file() && !hidden {
                inside.push(path.to_string_lossy().into_owned());
            }
        }
        inside.sort();
        if inside.is_empty() {
            return Err(Failure::input(format!(
                "--mark {}: there is no file in this folder",
                one_line(name)
            )));
        }
        files.extend(inside);
    }
    if files.len() > MOST_SHEETS {
        return Err(Failure::input(format!(
            "--mark: {} files are named: {MOST_SHEETS} is the most marked in one run",
            files.len()
        )));
    }
    Ok(files)
}

/// The sheets of the file `name`, each marked, or why it can't be.
fn sheets(name: &str, shown: &str) -> Result<Vec<Result<Returned, Vec<String>>>, Failure> {
    let text = read(name, shown)?;
    let stem = Path::new(name).file_name().map_or(shown.into(), |file| file.to_string_lossy());
    let messages =
        |shown: &str, faults: Vec<Fault>| faults.iter().map(|fault| format!("{shown}: {fault}")).collect();
    if text.trim_start().starts_with('{') {
        let reading = read_form(&form(&text, shown)?).map_err(|faults| messages(shown, faults));
        return Ok(vec![reading.map(|reading| Returned { file: stem.into_owned(), marks: mark(&reading) })]);
    }
    let parts = sheets_in(&text);
    let of = |place: &str, i: usize| {
        if parts.len() > 1 { format!("{place}, sheet {}", i + 1) } else { place.to_owned() }
    };
    let marked = parts.iter().enumerate().map(|(i, part)| {
        let reading = read_text(part).map_err(|faults| messages(&of(shown, i), faults))?;
        Ok(Returned { file: of(&stem, i), marks: mark(&reading) })
    });
    Ok(marked.collect())
}

/// The text of a filled sheet's file, or of standard input for `-`.
fn read(name: &str, shown: &str) -> Result<String, Failure> {
    let bytes = bytes_of(
        name,
        format!("reading the filled sheet from {shown}"),
        "--mark: no file is named for the filled sheet: write its name, or - for standard input",
        "--mark -: standard input is a terminal: pipe a filled sheet in, or name its file",
    )?;
    if bytes.len() > LARGEST_FILE {
        return Err(Failure::input(format!(
            "{shown}: the file is over {LARGEST_FILE} bytes (1 MiB): a filled sheet is a few kilobytes"
        )));
    }
    text_of(bytes, "this is not text (UTF-8): save the filled sheet as plain text or JSON")
        .map_err(|problem| Failure::input(format!("{shown}: {problem}")))
}
