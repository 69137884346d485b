//! Every file of fixtures/corpus through its entrance: nothing there panics or hangs, now or ever again.
//!
//! The files are examples to start the fuzz target from, what it found to reach more of the code, and what it found wrong.

use std::collections::BTreeSet;
use std::fs;
use std::panic::catch_unwind;
use std::path::Path;

use crate::entrances::ALL;

fn corpus() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/corpus"))
}

/// Through the entrance; where that panics, with which bytes.
fn enter(entrance: fn(&[u8]), bytes: &[u8], file: &Path) {
    let ended = catch_unwind(|| entrance(bytes));
    assert!(ended.is_ok(), "{} as {:?}", file.display(), String::from_utf8_lossy(bytes));
}

#[test]
fn whatever_the_corpus_holds_is_answered_or_refused() {
    for (name, entrance) in ALL {
        let mut files: Vec<_> =
            fs::read_dir(corpus().join(name)).unwrap().map(|entry| entry.unwrap().path()).collect();
        files.sort();
        assert!(files.len() >= 10, "{name}: {} files", files.len());
        for file in files {
            enter(entrance, &fs::read(&file).unwrap(), &file);
        }
    }
}

#[test]
fn every_folder_of_the_corpus_has_its_entrance() {
    let folders: BTreeSet<String> = fs::read_dir(corpus())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    let entrances: BTreeSet<String> = ALL.iter().map(|(name, _)| (*name).to_owned()).collect();
    assert_eq!(folders, entrances);
}

/// A handful of bytes changed in what the corpus holds, from one seed: a little of what the fuzz target does at length.
#[test]
fn the_corpus_slightly_spoilt_is_answered_or_refused() {
    let mut random = crate::outlines::Random::new(7);
    for (name, entrance) in ALL {
        let mut files: Vec<_> =
            fs::read_dir(corpus().join(name)).unwrap().map(|entry| entry.unwrap().path()).collect();
        files.sort();
        for file in files {
            let whole = fs::read(&file).unwrap();
            for _ in 0..3 {
                let mut bytes = whole.clone();
                for _ in 0..=random.below(3) {
                    let at = random.below(bytes.len() + 1);
                    let byte = random.pick(b"0123456789-+.,x@=: \n{}[]\"mABRL\xff");
                    match random.below(3) {
                        0 => bytes.insert(at, byte),
                        1 if at < bytes.len() => bytes[at] = byte,
                        _ => bytes.truncate(at.max(bytes.len().saturating_sub(40))),
                    }
                }
                enter(entrance, &bytes, &file);
            }
        }
    }
}
