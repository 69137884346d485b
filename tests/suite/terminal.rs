//! The program on a terminal, for which Python's `pty` stands in.

use std::path::Path;
use std::process::Command;

/// Types each line where the program asks, and reads until it ends, or until it has said enough.
const SCRIPT: &str = r"
import fcntl, os, pty, struct, sys, termios
columns, typed, enough, program = int(sys.argv[1]), sys.argv[2].split(), sys.argv[3].encode(), sys.argv[4:]
pid, fd = pty.fork()
if pid == 0:
    os.environ.pop('COLUMNS', None)
    fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack('HHHH', 24, columns, 0, 0))
    os.execv(program[0], program)
seen = b''
for line in typed:
    while not seen.endswith(b'? '):
        seen += os.read(fd, 1)
    os.write(fd, line.encode() + b'\n')
    seen += b'|'
try:
    while not enough or enough not in seen:
        more = os.read(fd, 4096)
        if not more: break
        seen += more
except OSError:
    pass
if enough:
    os.kill(pid, 9)
sys.stdout.write(seen.decode())
";

/// What is to be seen on a terminal of so many columns.
pub(crate) struct Terminal<'a> {
    pub(crate) columns: usize,
    /// What is typed, a word each time that the program asks.
    pub(crate) typed: &'a str,
    /// The words after which the program is stopped; none where it ends by itself.
    pub(crate) enough: &'a str,
    pub(crate) folder: &'a Path,
}

impl Default for Terminal<'_> {
    fn default() -> Self {
        Self { columns: 80, typed: "", enough: "", folder: Path::new(".") }
    }
}

impl Terminal<'_> {
    /// Runs `command`; none where there is no Python to run it on.
    pub(crate) fn shows(&self, command: &str) -> Option<String> {
        let ran = Command::new("python3")
            .args(["-c", SCRIPT, &self.columns.to_string(), self.typed, self.enough])
            .arg(assert_cmd::cargo::cargo_bin!("pegline"))
            .args(command.split_whitespace())
            .env("NO_COLOR", "1")
            .current_dir(self.folder)
            .output();
        Some(String::from_utf8_lossy(&ran.ok()?.stdout).replace('\r', ""))
    }
}
