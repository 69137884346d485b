//! Every page that a day in feet and inches brings, read for what does not belong there.
//!
//! `fixtures/feet/pages.txt` has a run a line, with the job beside it; `'…'` holds words together.

use std::fs;
use std::path::Path;

use crate::program::pegline;

/// The words of a line. A quote opens before a word and closes behind one, so that 25'-6" stays whole.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![];
    let mut rest = line;
    while !rest.is_empty() {
        let (word, after) = match rest
            .strip_prefix('\'')
            .and_then(|held| held.split_once("' ").or_else(|| Some((held.strip_suffix('\'')?, ""))))
        {
            Some(held) => held,
            None => rest.split_once(' ').unwrap_or((rest, "")),
        };
        words.push(word.to_owned());
        rest = after;
    }
    words
}

/// The metric units in a page, outside the plan as it was typed and what a publication says in brackets.
fn metric(page: &str) -> Vec<String> {
    let one = page.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut found = vec![];
    let mut before = "";
    for word in one.split(' ') {
        let bare = word.trim_matches(|c: char| !c.is_alphanumeric() && c != '²' && c != '/');
        let figure = before.ends_with(|c: char| c.is_ascii_digit());
        let published = before.starts_with('(') && word.contains(')');
        let unit = |unit: &str| matches!(unit, "mm" | "cm" | "m" | "m²" | "mm²" | "g/m" | "N" | "kg");
        let number = bare.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
        let of_figure = unit(bare) && figure || unit(number) && number != bare;
        if (of_figure && !published) || bare.starts_with("metre") || bare.starts_with("millimet") {
            found.push(format!("{before} {word}"));
        }
        before = word;
    }
    found
}

/// What a document shows, without its tags and its style.
fn shown(document: &str) -> String {
    let body = document.rsplit("</style>").next().unwrap_or_default();
    body.replace("&quot;", "\"")
        .split('<')
        .filter_map(|part| Some(part.split_once('>')?.1))
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn no_page_in_feet_has_a_metric_unit_or_a_length_broken_over_two_lines() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/feet");
    let lines = fs::read_to_string(folder.join("pages.txt")).unwrap();
    let mut faults = vec![];
    for line in lines.lines() {
        for columns in ["80", "50"] {
            let ran = pegline(words(line)).within(&folder).env("COLUMNS", columns).run();
            assert!(ran.code < 2, "{line}: {}", ran.err);
            let out = if line.ends_with("--html") { shown(&ran.out) } else { ran.out.clone() };
            // A limit of another country that was asked for by name is told in its own figures.
            if !line.contains("--preset nhbc") {
                faults.extend(metric(&out).into_iter().map(|unit| format!("{line}: {unit}")));
            }
            let feet = |text: &str| {
                text.trim_end()
                    .strip_suffix('\'')
                    .is_some_and(|text| text.ends_with(|c: char| c.is_ascii_digit()))
            };
            let inches = |text: &str| {
                let word = text.split_whitespace().next().unwrap_or_default();
                word.strip_suffix('"')
                    .is_some_and(|figure| figure.chars().all(|c| c.is_ascii_digit() || "-/".contains(c)))
            };
            let document = if line.ends_with("--html") { ran.out.as_str() } else { "" };
            let flows =
                |row: &&str| ["<p>", "<p ", "<tr>", "<li>", "<h"].iter().any(|tag| row.starts_with(tag));
            let flowing = document.lines().filter(flows).map(shown).collect::<Vec<_>>().join(" ");
            let flowing: Vec<&str> = flowing.split(' ').collect();
            let loose = flowing.windows(2).filter(|pair| feet(pair[0]) && inches(pair[1]));
            faults.extend(loose.map(|pair| format!("{line}: {} may break", pair.join(" "))));
            let rows: Vec<&str> = out.lines().collect();
            let broken =
                rows.windows(2).filter(|pair| feet(pair[0]) && inches(pair[1]) && !pair[0].contains('│'));
            faults.extend(broken.map(|pair| format!("{line} at {columns}: {}", pair.join(" / "))));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Each run in `fixtures/feet/refused.txt` is refused, in feet and inches and without float noise; a plan without any unit
/// is the one that is told in millimetres, since nothing in it says otherwise.
#[test]
fn no_refusal_in_feet_has_a_metric_unit_or_a_figure_of_many_decimals() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/feet");
    let mut faults = vec![];
    for line in fs::read_to_string(folder.join("refused.txt")).unwrap().lines() {
        let refusal = pegline(words(line)).within(&folder).refusal();
        if !refusal.contains("a shell takes ' and \" away") || refusal.contains("--read") {
            faults.extend(metric(&refusal).into_iter().map(|unit| format!("{line}: {unit}")));
        }
        let noisy = |word: &&str| {
            word.split_once('.')
                .is_some_and(|(_, part)| part.bytes().take_while(u8::is_ascii_digit).count() > 3)
        };
        faults.extend(refusal.split_whitespace().filter(noisy).map(|word| format!("{line}: {word}")));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

fn page(line: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/feet");
    let ran = pegline(words(line)).within(&folder).run();
    assert!(ran.code < 2, "{line}: {}", ran.err);
    ran.out
}

#[test]
fn the_width_the_studs_and_the_limits_are_told_as_they_were_understood() {
    let sizes = "Plate: 5-1/2\" wide\nStuds: at 16\" centres\nLimits: readings 1/4\", overhang 3/8\", level 1/2\", \
                 straightness 1/8\"\n";
    let checked = page("job check job.json");
    assert!(checked.contains(sizes), "{checked}");
    let plates = page("plates job.json").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(plates.contains("house AB; plate 5-1/2\" wide, studs at 16\" centres Run"), "{plates}");
    let packs = page("packs job.json");
    assert!(packs.contains("\nUnder the studs: 47 studs at 16\" centres; "), "{packs}");
    let lines = page("lines job.json --studs 19.2in");
    assert!(lines.contains("from the corner, studs at 19.2\" centres\n"), "{lines}");
}

#[test]
fn a_plan_and_a_walk_are_read_as_any_drawing_has_them() {
    for plan in
        ["diagonals '26'-4\" x 20'-0\"' --full", "diagonals --walk '26'-4\" R 20'-0\" R 26'-4\"' --full"]
    {
        assert!(page(plan).contains("26' 4\" across, 20' down"), "{plan}");
    }
}

/// A number beside one in feet is feet, where the plan is refused too.
#[test]
fn a_bare_number_takes_its_neighbour_s_unit() {
    for plan in ["26x20ft", "26ftx20"] {
        assert!(page(&format!("diagonals {plan} --full")).contains("26' across, 20' down"), "{plan}");
    }
    let refusal = pegline(["diagonals", "26x20ft-30ftx8ft"]).refusal();
    assert!(refusal.contains("smaller than the plan both ways, 26' x 20'"), "{refusal}");
}

#[test]
fn what_is_cut_bought_and_packed_stands_in_the_csv_as_a_tape_has_it_and_json_names_its_own_unit() {
    for (part, row) in [
        ("plates", "plate,CD,butts,through,3111.5,CD,0,3111.5,3111.5,5,3657.6,,,,\"10' 2-1/2\"\"\",12'\n"),
        ("plates", ",3657.6,4,9.80,39.20,,12'\n"),
        ("cuts", ",,,\"3' 1-1/2\"\"\",12'\n"),
        ("packs", "\"3/8\"\"\",\"1/4\"\" + 1/8\"\"\"\n"),
        ("joists", ",5994.4,\"19' 8\"\"\"\n"),
        ("lines", "\"2' 8\"\"\"\n"),
    ] {
        let csv = page(&format!("{part} job.json --format csv"));
        assert!(csv.contains(row), "{csv}");
    }
    assert!(page("plates job.json --json").contains("\"units\": \"ft-in\",\n  \"lengths\": \"mm\","));
    assert!(!page("diagonals 7800x6000 --json").contains("\"lengths\": \"mm\""));
}

/// With the US rule for anchors what is usual beside it there, and the lap of the two plates with its source.
#[test]
fn the_notes_are_those_of_where_the_rules_come_from() {
    let us = page("plates job.json --full");
    let us = us.split_whitespace().collect::<Vec<_>>().join(" ");
    for note in [
        "treated sill on masonry or concrete",
        "a sill seal under it",
        "a nut and a washer on each bolt (common practice, no source)",
        "at least two a piece",
        "R602.3.2",
        "R403.1.6",
        "and the local code",
    ] {
        assert!(us.contains(note), "{note}: {us}");
    }
    assert!(!us.contains("NHBC"), "{us}");
    let uk = page("plates 7800x6000 --width 140 --stock 4.8m --full");
    assert!(uk.contains("NHBC Standards 5.1.19") && !uk.contains("sill"), "{uk}");
}

#[test]
fn a_scale_is_taken_as_inches_to_the_foot() {
    let drawn = |scale: &str| page(&format!("sketch job.json --svg --scale '{scale}'"));
    assert_eq!(drawn("1/8in=1ft"), drawn("1:96"));
    assert_eq!(drawn("1/8\"=1'-0\""), drawn("1:96"));
}
