//! Files that are written whole or not at all.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use pegline::words::one_line;

use signal_hook::consts::TERM_SIGNALS;
use signal_hook::{SigId, flag, low_level};

use super::failure::Failure;

/// Names tried for the part beside the file, where a run that was cut short left some behind.
const MOST_NAMES: u32 = 100;

/// Writes a file whole or not at all: beside its place first, then moved there. An existing file is kept unless
/// `force` is given, also one that comes up while this is being written; one of the `inputs` is always kept.
pub(super) fn write_file(path: &Path, contents: &str, force: bool, inputs: &[&str]) -> Result<(), Failure> {
    let shown = one_line(&path.display().to_string());
    let exists =
        || Failure::input(format!("-o {shown}: the file exists: add --force to replace it, or name another"));
    if path == Path::new("-") {
        return Err(Failure::input("-o -: a file's name is wanted: leave -o out to have it printed"));
    }
    if path.is_dir() {
        return Err(Failure::input(format!("-o {shown}: this is a folder: name a file in it")));
    }
    // Moving a file there would do away with a device or a pipe.
    if path.metadata().is_ok_and(|there| !there.is_file()) {
        return Err(Failure::input(format!(
            "-o {shown}: this is a device or a pipe, not a file: name another, or leave -o out to have it printed"
        )));
    }
    if let Some(input) = inputs.iter().find(|input| is_same_file(path, input)) {
        let input = if *input == "-" { "standard input" } else { input };
        return Err(Failure::input(format!(
            "-o {shown}: it is {}, which is read here: name another file",
            one_line(input)
        )));
    }
    // A link that leads nowhere is there too.
    if !force && path.symlink_metadata().is_ok() {
        return Err(exists());
    }
    let failed = |error: io::Error| {
        // There are folders where no file can be made, such as /proc.
        let folder = path.parent().filter(|folder| !(folder.as_os_str().is_empty() || folder.exists()));
        match folder {
            Some(folder) if error.kind() == io::ErrorKind::NotFound => Failure::input(format!(
                "-o {shown}: there is no folder `{}` to write it in: make it first, or name another",
                folder.display()
            )),
            _ => Failure::Io { doing: format!("writing {shown}"), error },
        }
    };
    let held = HeldOff::new();
    let written = if force {
        replace(path, contents).map_err(failed)
    } else {
        let placed = Part::write(path, contents)
            .and_then(|part| part.place_new(path, |from, to| fs::hard_link(from, to)));
        placed.map_err(|error| match error.kind() {
            io::ErrorKind::AlreadyExists => exists(),
            _ => failed(error),
        })
    };
    held.let_through();
    written
}

/// Writes what was typed into a file that was read: whole or not at all.
pub(super) fn replace_file(path: &Path, contents: &str) -> Result<(), Failure> {
    let held = HeldOff::new();
    let written = replace(path, contents);
    held.let_through();
    written.map_err(|error| Failure::Io {
        doing: format!("writing {}", one_line(&path.display().to_string())),
        error,
    })
}

/// A link stays one: what it leads to is replaced.
fn replace(path: &Path, contents: &str) -> io::Result<()> {
    let place = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    Part::write(&place, contents)?.replace(&place)
}

/// Whether `path` is the file that `input` names, by whichever name or link; `-` is standard input.
fn is_same_file(path: &Path, input: &str) -> bool {
    let same_name = || Some(path.canonicalize().ok()? == Path::new(input).canonicalize().ok()?);
    (input != "-" && same_name().unwrap_or(false)) || same_place(path, input).unwrap_or(false)
}

#[cfg(unix)]
fn same_place(path: &Path, input: &str) -> io::Result<bool> {
    use std::os::fd::AsFd;
    use std::os::unix::fs::MetadataExt;

    let other = if input == "-" {
        File::from(io::stdin().as_fd().try_clone_to_owned()?).metadata()?
    } else {
        Path::new(input).metadata()?
    };
    let place = |file: &fs::Metadata| (file.dev(), file.ino());
    Ok(place(&path.metadata()?) == place(&other))
}

#[cfg(not(unix))]
#[expect(clippy::unnecessary_wraps, reason = "it can fail where a file's place can be looked at")]
fn same_place(_: &Path, _: &str) -> io::Result<bool> {
    Ok(false)
}

/// What would end the run (Ctrl-C) held off for the moment that a file takes, so that no part of one is left behind.
struct HeldOff {
    came: Arc<AtomicUsize>,
    signals: Vec<SigId>,
}

impl HeldOff {
    fn new() -> Self {
        let came = Arc::new(AtomicUsize::new(0));
        let hold = |signal: &i32| {
            let number = usize::try_from(*signal).ok()?;
            flag::register_usize(*signal, Arc::clone(&came), number).ok()
        };
        let signals = TERM_SIGNALS.iter().filter_map(hold).collect();
        Self { came, signals }
    }

    fn let_through(self) {
        for signal in self.signals {
            let _known = low_level::unregister(signal);
        }
        if let Ok(signal @ 1..) = i32::try_from(self.came.load(Ordering::SeqCst)) {
            // It ends the run as it would have done; where it can't, the run ends by itself in a moment.
            let _ended = low_level::emulate_default_handler(signal);
        }
    }
}

/// A file beside its place; it goes away unless it is moved there.
struct Part(PathBuf);

impl Drop for Part {
    fn drop(&mut self) {
        // The part is of no use to anyone; that it can't be removed is not worth a message.
        let _removed = fs::remove_file(&self.0);
    }
}

impl Part {
    /// Writes the part of `path` to the disk.
    fn write(path: &Path, contents: &str) -> io::Result<Self> {
        let (part, mut file) = Self::create(path)?;
        if let Ok(there) = path.metadata() {
            // Who may read what is replaced may read what replaces it.
            file.set_permissions(there.permissions())?;
        }
        file.write_all(contents.as_bytes())?;
        file.sync_all()?;
        Ok(part)
    }

    /// An empty part under a name that no one has.
    fn create(path: &Path) -> io::Result<(Self, File)> {
        let mut number = 0;
        loop {
            // Its own name, or that of a file with a long one would be too long.
            let part = path.with_file_name(format!(".pegline.{}.{number}.part", std::process::id()));
            match OpenOptions::new().write(true).create_new(true).open(&part) {
                Ok(file) => return Ok((Self(part), file)),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists && number < MOST_NAMES => {
                    number += 1;
                }
                Err(error) => return Err(error),
            }
        }
    }

    /// Moves it to `path`, over what is there.
    fn replace(self, path: &Path) -> io::Result<()> {
        fs::rename(&self.0, path)
    }

    /// Puts it at `path`, where nothing may be: a move would replace a file that has come up since it was looked for, a
    /// second link to the part does not. Where there are no links (some sticks and shares) the file is made anew, which
    /// is as sure not to replace another, but not to be whole after a power cut.
    fn place_new(self, path: &Path, link: impl Fn(&Path, &Path) -> io::Result<()>) -> io::Result<()> {
        match link(&self.0, path) {
            Err(error) if error.kind() != io::ErrorKind::AlreadyExists => {
                let mut part = File::open(&self.0)?;
                let mut file = File::create_new(path)?;
                let copied = io::copy(&mut part, &mut file).and_then(|_| file.sync_all());
                if copied.is_err() {
                    let _removed = fs::remove_file(path);
                }
                copied
            }
            placed => placed,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn none(_: &Path, _: &Path) -> io::Result<()> {
        Err(io::ErrorKind::Unsupported.into())
    }

    /// The folder's files by name, with what is in each.
    fn files(folder: &Path) -> io::Result<Vec<(String, String)>> {
        let mut files = vec![];
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            files.push((name, fs::read_to_string(entry.path())?));
        }
        files.sort();
        Ok(files)
    }

    #[test]
    fn where_there_are_no_links_a_file_is_made_anew_and_none_replaced() -> io::Result<()> {
        let folder = std::env::temp_dir().join(format!("pegline-part-{}", std::process::id()));
        fs::create_dir_all(&folder)?;
        let path = folder.join("job.json");
        let file = |contents: &str| vec![("job.json".to_owned(), contents.to_owned())];
        Part::write(&path, "first")?.place_new(&path, none)?;
        assert_eq!(files(&folder)?, file("first"));
        for link in [none, |from: &Path, to: &Path| fs::hard_link(from, to)] {
            let refused = Part::write(&path, "second")?.place_new(&path, link);
            assert_eq!(refused.map_err(|error| error.kind()), Err(io::ErrorKind::AlreadyExists));
            assert_eq!(files(&folder)?, file("first"));
        }
        // A part that a run of the same number left behind is no hindrance, and is not taken away.
        let (left, _) = Part::create(&path)?;
        Part::write(&path, "third")?.replace(&path)?;
        assert_eq!(files(&folder)?.len(), 2);
        drop(left);
        assert_eq!(files(&folder)?, file("third"));
        fs::remove_dir_all(&folder)
    }
}
