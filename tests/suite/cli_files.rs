//! Where output goes: closed pipes, full disks, files written whole or not at all, jobs from files.

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use insta::assert_snapshot;

use crate::program::pegline;

const L: &str = "7800x6000-3000x2400";

fn directory(name: &str) -> PathBuf {
    let directory = std::env::temp_dir().join(format!("pegline-cli-{name}-{}", std::process::id()));
    fs::create_dir_all(&directory).unwrap();
    directory
}

fn plain(arguments: &[&str]) -> Command {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin!("pegline"));
    command.env_clear().env("LANG", "C.UTF-8").args(arguments);
    command
}

#[test]
fn a_reader_that_goes_away_ends_the_run_quietly() {
    let mut child =
        plain(&["diagonals", L, "--working"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_in_one_line_with_exit_2() {
    for arguments in [
        vec!["diagonals", L],
        vec!["diagonals", L, "--json"],
        vec!["job", "schema"],
        vec!["job", "new", "--sample"],
    ] {
        let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let output = plain(&arguments).stdout(full).stderr(Stdio::piped()).output().unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(said.starts_with("error: writing to standard output: the disk is full"), "{said}");
    }
}

#[test]
fn a_file_is_written_whole_or_not_at_all_and_never_over_another_without_force() {
    let directory = directory("output");
    let file = directory.join("job.json");
    assert_eq!(pegline(["job", "new", "T", "--sample", "-o", "job.json"]).within(&directory).answer(), "");
    let written = fs::read_to_string(&file).unwrap();
    assert_eq!(written, pegline(["job", "new", "T", "--sample"]).answer());
    let said = pegline(["job", "new", "L", "--sample", "-o", "job.json"]).within(&directory).refusal();
    assert_snapshot!(said, @"error: -o job.json: the file exists: add --force to replace it, or name another");
    assert_eq!(fs::read_to_string(&file).unwrap(), written, "kept as it was");
    pegline(["job", "new", "L", "--sample", "-o", "job.json", "--force"]).within(&directory).answer();
    assert_eq!(fs::read_to_string(&file).unwrap(), pegline(["job", "new", "L", "--sample"]).answer());
    let said = pegline(["job", "new", "--sample", "-o", "no/such/place.json"]).within(&directory).refusal();
    assert_snapshot!(said, @"error: -o no/such/place.json: there is no folder `no/such` to write it in: make it first, or name another");
    fs::create_dir(directory.join("taken")).unwrap();
    let said = pegline(["job", "new", "--sample", "-o", "taken", "--force"]).within(&directory).refusal();
    assert_snapshot!(said, @"error: -o taken: this is a folder: name a file in it");
    let mut left: Vec<String> = fs::read_dir(&directory)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    left.sort();
    assert_eq!(left, ["job.json", "taken"], "no part files are left");
    fs::remove_dir_all(directory).unwrap();
}

/// By its own name, by another, by a link of either kind, or by way of standard input.
#[cfg(unix)]
#[test]
fn what_is_read_is_never_written_over() {
    let directory = directory("own-input");
    let job = directory.join("job.json");
    pegline(["job", "new", "L", "--sample", "-o", "job.json"]).within(&directory).answer();
    let written = fs::read_to_string(&job).unwrap();
    fs::hard_link(&job, directory.join("hard.json")).unwrap();
    std::os::unix::fs::symlink("job.json", directory.join("soft.json")).unwrap();
    for name in ["job.json", "./job.json", "hard.json", "soft.json"] {
        let said =
            pegline(["diagonals", "--job", "job.json", "--json", "--force", "-o", name]).within(&directory);
        assert_eq!(
            said.refusal(),
            format!("error: -o {name}: it is job.json, which is read here: name another file\n")
        );
    }
    let piped = plain(&["sheet", "--job", "-", "--json", "--force", "-o", "job.json"])
        .current_dir(&directory)
        .stdin(fs::File::open(&job).unwrap())
        .output()
        .unwrap();
    assert_eq!(
        String::from_utf8(piped.stderr).unwrap(),
        "error: -o job.json: it is standard input, which is read here: name another file\n"
    );
    let said = pegline(["sheet", "--job", "job.json", "--html", "--force", "-o", "job.json"])
        .within(&directory)
        .refusal();
    assert_snapshot!(said, @"error: -o job.json: what is written here is HTML, and .json says another: name it .html");
    let prices = pegline([
        "order",
        "--job",
        "job.json",
        "--prices",
        "prices.csv",
        "--format",
        "csv",
        "--force",
        "-o",
        "prices.csv",
    ]);
    fs::write(directory.join("prices.csv"), "item,rate\npeg,0.64\n").unwrap();
    assert_eq!(
        prices.within(&directory).refusal(),
        "error: -o prices.csv: it is prices.csv, which is read here: name another file\n"
    );
    assert_eq!(fs::read_to_string(&job).unwrap(), written, "kept as it was");
    fs::remove_dir_all(directory).unwrap();
}

#[cfg(unix)]
#[test]
fn a_file_replaced_stays_a_link_and_keeps_who_may_read_it() {
    use std::os::unix::fs::PermissionsExt;

    let directory = directory("kept");
    let file = directory.join("private.json");
    pegline(["job", "new", "L", "--sample", "-o", "private.json"]).within(&directory).answer();
    fs::set_permissions(&file, fs::Permissions::from_mode(0o600)).unwrap();
    std::os::unix::fs::symlink("private.json", directory.join("link.json")).unwrap();
    pegline(["job", "new", "T", "--sample", "--force", "-o", "link.json"]).within(&directory).answer();
    assert_eq!(fs::read_link(directory.join("link.json")).unwrap(), PathBuf::from("private.json"));
    assert_eq!(fs::read_to_string(&file).unwrap(), pegline(["job", "new", "T", "--sample"]).answer());
    assert_eq!(file.metadata().unwrap().permissions().mode() & 0o777, 0o600);
    fs::remove_dir_all(directory).unwrap();
}

/// A run that is ended while it writes leaves the file, or none, and no part of one.
#[cfg(unix)]
#[test]
fn no_part_of_a_file_is_left_behind_by_ctrl_c() {
    let directory = directory("ctrl-c");
    for pause in 0..40 {
        let mut child = plain(&["job", "new", "L", "--sample", "-o", &format!("{pause}.json")])
            .current_dir(&directory)
            .spawn()
            .unwrap();
        std::thread::sleep(std::time::Duration::from_micros(150 * pause));
        let _sent =
            Command::new("kill").args(["-INT", &child.id().to_string()]).stderr(Stdio::null()).status();
        child.wait().unwrap();
    }
    let whole = pegline(["job", "new", "L", "--sample"]).answer();
    for entry in fs::read_dir(&directory).unwrap() {
        let path = entry.unwrap().path();
        assert!(path.extension().is_some_and(|ending| ending == "json"), "{}", path.display());
        assert_eq!(fs::read_to_string(path).unwrap(), whole);
    }
    fs::remove_dir_all(directory).unwrap();
}

#[test]
fn the_ending_of_a_files_name_chooses_the_format_or_is_refused() {
    let directory = directory("endings");
    let begins = |arguments: &[&str], file: &str| {
        assert_eq!(pegline([arguments, &["-o", file]].concat()).within(&directory).answer(), "");
        fs::read_to_string(directory.join(file)).unwrap()
    };
    assert!(begins(&["sketch", L], "plan.svg").starts_with("<svg"));
    assert!(begins(&["sheet", L], "sheet.HTML").starts_with("<!DOCTYPE html>"));
    assert!(begins(&["diagonals", L], "lines.csv").starts_with("line,from,to,"));
    assert!(begins(&["diagonals", L], "lines.json").starts_with("{\n  \"pegline\""));
    assert_eq!(begins(&["diagonals", L], "lines.txt"), pegline(["diagonals", L]).answer());
    assert_eq!(begins(&["practice", "corners"], "sheet.txt"), pegline(["practice", "corners"]).answer());
    assert_eq!(begins(&["job", "schema"], "schema.json"), pegline(["job", "schema"]).answer());
    let said = |arguments: &[&str]| pegline(arguments).within(&directory).refusal();
    assert_snapshot!(said(&["sheet", L, "-o", "sheet.pdf"]), @"error: -o sheet.pdf: nothing here is written as .pdf: name it .txt or, for a sheet, .html, which a browser prints to PDF");
    assert_snapshot!(said(&["order", L, "-o", "order.xlsx"]), @"error: -o order.xlsx: nothing here is written as .xlsx: name it .csv, which a spreadsheet opens");
    assert_snapshot!(said(&["sketch", L, "--svg", "-o", "plan.png"]), @"error: -o plan.png: nothing here is written as .png: a drawing is written as .svg by `pegline sketch`");
    assert_snapshot!(said(&["diagonals", L, "-o", "plan.svg"]), @"error: -o plan.svg: what is written here is text, and .svg says another: name it .txt");
    assert_snapshot!(said(&["diagonals", L, "--json", "-o", "lines.csv"]), @"error: -o lines.csv: what is written here is JSON, and .csv says another: name it .json");
    assert_snapshot!(said(&["man", "-o", "pegline.json"]), @"error: -o pegline.json: man prints text alone, and .json says another: name it .txt");
    assert_snapshot!(said(&["batch", "diagonals", "-o", "answers.json"]), @"error: -o: batch prints each answer as it comes: write > and a file's name last instead");
    assert_snapshot!(said(&["diagonals", L, "--force"]), @"error: --force: it replaces the file that -o names: name one, or leave --force out");
    fs::remove_dir_all(directory).unwrap();
}

/// As a Windows shell saves what is printed.
#[test]
fn a_file_in_utf_16_with_its_mark_is_read() {
    let directory = directory("utf-16");
    let job = pegline(["job", "new", "L", "--sample"]).answer();
    let marked = || format!("\u{feff}{job}");
    let little: Vec<u8> = marked().encode_utf16().flat_map(u16::to_le_bytes).collect();
    let big: Vec<u8> = marked().encode_utf16().flat_map(u16::to_be_bytes).collect();
    let plain = pegline(["diagonals", "--job", "-"]).input(job.clone()).answer();
    for bytes in [&little, &big] {
        fs::write(directory.join("job.json"), bytes).unwrap();
        assert_eq!(pegline(["diagonals", "--job", "job.json"]).within(&directory).answer(), plain);
        fs::write(directory.join("cut.json"), &bytes[..bytes.len() - 1]).unwrap();
        let said = pegline(["diagonals", "--job", "cut.json"]).within(&directory).refusal();
        assert_eq!(said, "error: cut.json: this is not text (UTF-8): a job file is JSON\n");
    }
    fs::remove_dir_all(directory).unwrap();
}

/// Moved there, a file would do away with what is no file: a device, a pipe, a socket.
#[cfg(unix)]
#[test]
fn what_is_no_file_is_never_replaced() {
    use std::os::unix::fs::FileTypeExt;

    let directory = directory("socket");
    let place = directory.join("taken");
    let socket = std::os::unix::net::UnixListener::bind(&place).unwrap();
    for force in [&[][..], &["--force"]] {
        let arguments = [&["job", "new", "--sample", "-o", "taken"], force].concat();
        let said = pegline(arguments).within(&directory).refusal();
        assert_eq!(
            said,
            "error: -o taken: this is a device or a pipe, not a file: name another, or leave -o out to have it printed\n"
        );
        assert!(place.metadata().unwrap().file_type().is_socket());
    }
    drop(socket);
    fs::remove_dir_all(directory).unwrap();
}

/// All look before any has written; one is first, and none is replaced.
#[test]
fn of_many_that_write_one_file_at_once_a_single_one_does() {
    let directory = directory("at-once");
    let children: Vec<_> = (0..12)
        .map(|place| {
            plain(&["job", "new", "--sample", ["L", "T", "U"][place % 3], "-o", "job.json"])
                .current_dir(&directory)
                .stderr(Stdio::piped())
                .spawn()
                .unwrap()
        })
        .collect();
    let mut wrote = vec![];
    for (place, child) in children.into_iter().enumerate() {
        let output = child.wait_with_output().unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        if output.status.success() {
            wrote.push(["L", "T", "U"][place % 3]);
        } else {
            assert!(said.contains("the file exists: add --force"), "{said}");
        }
    }
    assert_eq!(wrote.len(), 1, "{wrote:?}");
    assert_eq!(
        fs::read_to_string(directory.join("job.json")).unwrap(),
        pegline(["job", "new", "--sample", wrote[0]]).answer()
    );
    assert_eq!(fs::read_dir(&directory).unwrap().count(), 1, "no part files are left");
    fs::remove_dir_all(directory).unwrap();
}

/// Not even the superuser may make a file there.
#[cfg(target_os = "linux")]
#[test]
fn where_no_file_can_be_made_none_is_and_it_is_told_in_one_line() {
    for force in [&[][..], &["--force"]] {
        let arguments = [&["job", "new", "--sample", "-o", "/proc/pegline.json"], force].concat();
        let said = pegline(&arguments).refusal();
        assert!(said.starts_with("error: writing /proc/pegline.json: "), "{said}");
        assert_eq!(said.lines().count(), 1, "{said}");
    }
    // A link that leads nowhere is there: it is kept.
    let directory = directory("link");
    std::os::unix::fs::symlink("nowhere.json", directory.join("job.json")).unwrap();
    let said = pegline(["job", "new", "--sample", "-o", "job.json"]).within(&directory).refusal();
    assert_snapshot!(said, @"error: -o job.json: the file exists: add --force to replace it, or name another");
    assert_eq!(fs::read_link(directory.join("job.json")).unwrap(), PathBuf::from("nowhere.json"));
    fs::remove_dir_all(directory).unwrap();
}

#[test]
fn a_job_file_is_checked_and_answered_and_options_override_it() {
    let directory = directory("job");
    pegline(["job", "new", "L", "--sample", "-o", "job.json"]).within(&directory).answer();
    assert_snapshot!(pegline(["job", "check", "job.json"]).within(&directory).answer(), @r"
        job.json: nothing wrong

        Job: Rear extension
        Plan: 7800x6000-3000x2400, 6 corners, 7800 mm across, 6000 mm down, area
          39.60 m², round the outside 27600 mm
        Sides: AB 7800 (house), BC 3600, CD 3000, DE 2400, EF 4800, FA 6000
        Plate: 140 mm wide
        Studs: at 600 mm centres
        Limits: level 10 mm, straightness 3 mm
        ");
    let from_file = pegline(["diagonals", "--job", "job.json", "--json"]).within(&directory).json();
    assert_eq!(from_file["job"], "Rear extension");
    assert_eq!(from_file["plan"]["sides"][0]["house"], true);
    let text = fs::read_to_string(directory.join("job.json")).unwrap();
    let piped = pegline(["diagonals", "--job", "-", "--json"]).input(text).json();
    assert_eq!(piped, from_file);
    let other = pegline(["diagonals", "9000x7000-3000x2400", "--job", "job.json", "--house", "CD", "--json"])
        .within(&directory)
        .json();
    assert_eq!(other["plan"]["expression"], "9000x7000-3000x2400");
    assert_eq!(other["plan"]["sides"][0]["house"], false);
    assert_eq!(other["plan"]["sides"][2]["house"], true);
    fs::remove_dir_all(directory).unwrap();
}

#[test]
fn the_job_files_schema_is_the_committed_one() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/job.schema.json");
    let committed = fs::read_to_string(path).unwrap_or_default();
    let printed = pegline(["job", "schema"]).answer();
    assert!(
        committed == printed,
        "fixtures/job.schema.json is not what `pegline job schema` prints. If the change of the job file is meant, \
         refresh it:\n    cargo run -- job schema > fixtures/job.schema.json"
    );
}
