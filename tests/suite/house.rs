//! The house is as DEVELOPERS.md draws it: every import of `src` against its table of rooms, and no circle in a room.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// A module's path from the crate's root: `["job", "sections", "tape"]`.
type Module = Vec<String>;

/// Rooms whose files still stand on one another in circles.
const NOT_YET: &[&str] = &[];

/// What the test knows of a source file.
#[derive(Default)]
struct File {
    /// The paths that it names, made to start at the crate's root.
    names: BTreeSet<Vec<String>>,
    /// What it passes on or names for itself: the name, and the path behind it.
    aliases: BTreeMap<String, Vec<String>>,
}

type Files = BTreeMap<Module, File>;

/// Every file of `src`, by its module.
fn files() -> Files {
    let mut found = Files::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("src")];
    let root = folders[0].clone();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let inside = path.strip_prefix(&root).unwrap().with_extension("");
                let mut module: Module =
                    inside.iter().map(|part| part.to_str().unwrap().to_owned()).collect();
                module.retain(|part| !["mod", "lib"].contains(&part.as_str()));
                found.insert(module.clone(), read(&fs::read_to_string(path).unwrap(), &module));
            }
        }
    }
    found
}

/// Reads a file's imports and paths; its own tests may look where they like.
fn read(text: &str, module: &[String]) -> File {
    let code = text.split("#[cfg(test)]").next().unwrap_or_default();
    let words = words(code);
    let mut file = File::default();
    let mut at = 0;
    while at < words.len() {
        match words[at].as_str() {
            "use" => {
                at = import(&words, at + 1, &[], module, &mut file);
            }
            "crate" | "super" | "self" | "pegline" if words.get(at + 1).is_some_and(|next| next == "::") => {
                let mut path = vec![words[at].clone()];
                let is_visibility = at > 0 && words[at - 1] == "in";
                while words.get(at + 1).is_some_and(|next| next == "::") && is_name(&words[at + 2]) {
                    path.push(words[at + 2].clone());
                    at += 2;
                }
                if !is_visibility {
                    file.names.insert(from_root(&path, module));
                }
            }
            _ => {}
        }
        at += 1;
    }
    file
}

/// Reads a tree of imports from `at` on, and says where it ends.
fn import(words: &[String], mut at: usize, before: &[String], module: &[String], file: &mut File) -> usize {
    let mut path = before.to_vec();
    loop {
        match words[at].as_str() {
            "{" => loop {
                at = import(words, at + 1, &path, module, file);
                if words[at] == "}" {
                    return at + 1;
                }
            },
            "::" => at += 1,
            "as" => {
                let last = from_root(&path, module);
                file.aliases.insert(words[at + 1].clone(), last);
                at += 2;
            }
            word if is_name(word) || word == "*" => {
                path.push(word.to_owned());
                at += 1;
            }
            _ => break,
        }
    }
    if path.len() > before.len() {
        if path.last().is_some_and(|last| last == "self" && path.len() > 1) {
            path.pop();
        }
        let full = from_root(&path, module);
        if let Some(last) = full.last() {
            file.aliases.entry(last.clone()).or_insert_with(|| full.clone());
        }
        file.names.insert(full);
    }
    at
}

/// A path made to start at the crate's root; one that starts with another name is the file's own child, or another
/// crate's.
fn from_root(path: &[String], module: &[String]) -> Vec<String> {
    let mut base = module.to_vec();
    let mut rest = path;
    while let Some((first, behind)) = rest.split_first() {
        match first.as_str() {
            "crate" | "pegline" => base.clear(),
            "super" => drop(base.pop()),
            "self" => {}
            _ => break,
        }
        rest = behind;
    }
    base.extend(rest.iter().cloned());
    base
}

fn is_name(word: &str) -> bool {
    word.starts_with(|c: char| c.is_alphabetic() || c == '_')
}

/// The words and signs of a file, without its comments, texts and characters.
fn words(code: &str) -> Vec<String> {
    let mut words = Vec::new();
    let letters: Vec<char> = code.chars().collect();
    let mut at = 0;
    while at < letters.len() {
        let rest = &letters[at..];
        let skip = match rest {
            ['/', '/', ..] => rest.iter().take_while(|c| **c != '\n').count(),
            ['r', '#', '"', ..] => {
                3 + rest[3..].windows(2).take_while(|pair| *pair != ['"', '#']).count() + 2
            }
            ['"', ..] => text(rest),
            ['\'', '\\', _, ..] => 3 + rest[3..].iter().take_while(|c| **c != '\'').count() + 1,
            ['\'', _, '\'', ..] => 3,
            [':', ':', ..] => {
                words.push("::".to_owned());
                2
            }
            [c, ..] if c.is_alphanumeric() || *c == '_' => {
                let word: String = rest.iter().take_while(|c| c.is_alphanumeric() || **c == '_').collect();
                words.push(word.clone());
                word.chars().count()
            }
            [c, ..] => {
                if !c.is_whitespace() {
                    words.push(c.to_string());
                }
                1
            }
            [] => 1,
        };
        at += skip;
    }
    words
}

/// How long the text in quotes is that begins here.
fn text(letters: &[char]) -> usize {
    let mut at = 1;
    while letters.get(at).is_some_and(|c| *c != '"') {
        at += if letters[at] == '\\' { 2 } else { 1 };
    }
    at + 1
}

/// The file that a path leads to, by way of what files pass on; `None` for another crate's.
fn home(files: &Files, path: &[String], depth: usize) -> Option<Module> {
    let mut module = Module::new();
    for (i, name) in path.iter().enumerate() {
        module.push(name.clone());
        if files.contains_key(&module) {
            continue;
        }
        module.pop();
        if let Some(behind) = files.get(&module)?.aliases.get(name)
            && behind[..] != path[..=i]
            && depth < 8
        {
            let onward: Vec<String> = behind.iter().chain(&path[i + 1..]).cloned().collect();
            return home(files, &onward, depth + 1).or(Some(module));
        }
        break;
    }
    Some(module)
}

/// The arrows between files: from each to those that it names.
fn arrows(files: &Files) -> BTreeMap<Module, BTreeSet<Module>> {
    files
        .iter()
        .map(|(module, file)| {
            let ends = file.names.iter().filter_map(|path| home(files, path, 0)).filter(|end| end != module);
            let inside =
                files.keys().filter(|other| other.len() == module.len() + 1 && other.starts_with(module));
            let inside = inside.filter(|_| !module.is_empty());
            (module.clone(), ends.chain(inside.cloned()).collect())
        })
        .collect()
}

/// What the table says that a room stands on.
#[derive(Debug, PartialEq)]
enum Below {
    /// These rooms, each of them and no other.
    Rooms(BTreeSet<String>),
    /// Any room above its own.
    AnyAbove,
}

/// The table of rooms in DEVELOPERS.md: each room, in its order, and what it stands on.
fn table() -> Vec<(String, Below)> {
    let guide = include_str!("../../DEVELOPERS.md");
    let ticked = |cell: &str| cell.split('`').skip(1).step_by(2).map(str::to_owned).collect::<Vec<_>>();
    let mut rows = Vec::new();
    for line in guide.lines().skip_while(|line| !line.starts_with("| Room ")).skip(2) {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        let [_, room, _, below, _] = cells[..] else { break };
        let below = if below == "any above" {
            Below::AnyAbove
        } else {
            Below::Rooms(ticked(below).into_iter().collect())
        };
        rows.extend(ticked(room).pop().map(|room| (room, below)));
    }
    assert!(rows.len() > 20, "the table of rooms is not found in DEVELOPERS.md: {rows:?}");
    rows
}

#[test]
fn every_room_stands_on_what_the_table_says_and_on_nothing_else() {
    let mut used: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (from, ends) in arrows(&files()) {
        if let Some(room) = from.first().filter(|room| *room != "main") {
            let others = ends.iter().filter_map(|end| end.first()).filter(|end| *end != room);
            used.entry(room.clone()).or_default().extend(others.cloned());
        }
    }
    let mut wrong = Vec::new();
    let mut above = BTreeSet::new();
    for (room, below) in table() {
        match (used.remove(&room), below) {
            (None, _) => wrong.push(format!("{room} is in the table and not in src")),
            (Some(used), Below::Rooms(below)) if used != below => {
                wrong.push(format!("{room} stands on {used:?}, and the table says {below:?}"));
            }
            (Some(used), _) => {
                let not_above: Vec<_> = used.difference(&above).collect();
                if !not_above.is_empty() {
                    wrong.push(format!("{room} stands on {not_above:?}, which the table has below it"));
                }
            }
        }
        above.insert(room);
    }
    wrong.extend(used.keys().map(|room| format!("{room} is in src and not in the table")));
    assert!(
        wrong.is_empty(),
        "mend the import, or the table of rooms in DEVELOPERS.md:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn inside_a_room_no_file_takes_from_its_parent_and_no_two_stand_on_each_other() {
    let arrows = arrows(&files());
    // A room's own file passes its children on; what a child takes from it is told by itself.
    let up = |from: &Module, end: &Module| from.starts_with(end) || end.starts_with(from);
    let beside = |from: &Module| {
        let ends = arrows[from].iter().filter(|end| end.first() == from.first() && !up(from, end));
        ends.cloned().collect::<Vec<_>>()
    };
    let reached = |from: &Module| {
        let (mut seen, mut next) = (BTreeSet::new(), beside(from));
        while let Some(file) = next.pop() {
            if !seen.contains(&file) {
                next.extend(beside(&file));
                seen.insert(file);
            }
        }
        seen
    };
    let mut circles: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for from in arrows.keys().filter(|from| !from.is_empty()) {
        let taken_from_above = arrows[from].iter().filter(|end| from.starts_with(end) && !end.is_empty());
        let round = beside(from).into_iter().filter(|end| reached(end).contains(from));
        for end in taken_from_above.cloned().chain(round) {
            circles.entry(&from[0]).or_default().push(format!("{} on {}", from.join("/"), end.join("/")));
        }
    }
    let held: Vec<_> = circles.iter().filter(|(room, _)| !NOT_YET.contains(room)).collect();
    assert!(held.is_empty(), "move what both need into a file of its own: {held:#?}");
    let mended: Vec<_> = NOT_YET.iter().filter(|room| !circles.contains_key(*room)).collect();
    assert!(mended.is_empty(), "these rooms have no circle any more: strike them off NOT_YET: {mended:?}");
}

/// A length is said in the units of who is told, so that `length` alone writes the unit behind a figure; `report` and
/// `working` have columns and sums that are in mm whatever the units.
#[test]
fn no_message_writes_mm_behind_a_figure_of_its_own() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = BTreeSet::new();
    for module in files().keys().filter(|module| {
        module.first().is_some_and(|room| !["length", "report", "working"].contains(&room.as_str()))
    }) {
        let path = module.iter().fold(root.clone(), |path, part| path.join(part));
        let text = fs::read_to_string(path.with_extension("rs"))
            .or_else(|_| fs::read_to_string(path.join("mod.rs")));
        let says = |line: &str| line.contains("} mm") && !line.trim_start().starts_with("//");
        if text.unwrap().lines().any(says) {
            found.insert(module.join("/"));
        }
    }
    assert!(found.is_empty(), "write lengths through Units: {found:?}");
}
