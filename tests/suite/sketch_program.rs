//! `pegline sketch` from outside: files whole or not at all, options and job file alike, faults told.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;

use crate::program::{Ran, pegline};

const L: &str = "7800x6000-3000x2400";

fn run(args: &[&str]) -> Ran {
    pegline(std::iter::once(&"sketch").chain(args)).run()
}

fn standard_output(args: &[&str]) -> String {
    let output = run(args);
    assert_eq!(output.code, 0, "{args:?}");
    output.out
}

/// An empty folder of this test's own.
fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("pegline-sketch-{name}-{}", std::process::id()));
    let _gone = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

#[test]
fn the_terminal_page_of_the_usual_shapes_fits_80_by_24() {
    for plan in [L, "6000x4000", "9000x3000+3600x2400", "9000x3000+2400x2100@0+2400x2100@6600"] {
        let page = standard_output(&[plan, "--house", "AB", "--north", "20"]);
        assert!(page.lines().count() <= 24, "{page}");
        assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
        assert_eq!(page.matches("Caution:").count(), 1);
    }
}

#[test]
fn a_file_is_written_whole_and_never_over_another_without_force() {
    let folder = folder("file");
    let file = folder.join("plan.svg");
    let name = file.to_str().unwrap();
    assert_eq!(standard_output(&[L, "--svg", "-o", name]), "");
    let written = fs::read_to_string(&file).unwrap();
    assert_eq!(written, standard_output(&[L, "--svg"]));
    let refused = run(&["6000x4000", "--svg", "-o", name]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("--force"));
    assert_eq!(fs::read_to_string(&file).unwrap(), written, "kept");
    standard_output(&["6000x4000", "--svg", "-o", name, "--force"]);
    assert_ne!(fs::read_to_string(&file).unwrap(), written, "replaced");
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 1, "nothing left beside it");
    // A plan that can't be drawn leaves no file.
    let other = folder.join("other.svg");
    let failed = run(&[L, "--svg", "--scale", "1:20", "-o", other.to_str().unwrap()]);
    assert_eq!(failed.code, 2);
    assert!(!other.exists());
    fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn the_job_file_says_the_same_as_the_options() {
    let folder = folder("job");
    let file = folder.join("job.json");
    fs::write(
        &file,
        r#"{"plan": "7800x6000-3000x2400", "house": ["AB"], "sketch": {"date": "1 May", "north": -30, "scale": "1:100"}}"#,
    )
    .unwrap();
    let job = file.to_str().unwrap();
    let from_file = standard_output(&["--job", job, "--svg"]);
    let from_options = standard_output(&[
        L, "--house", "AB", "--date", "1 May", "--north", "330", "--scale", "1:100", "--svg",
    ]);
    assert_eq!(from_file, from_options);
    let overridden = standard_output(&["--job", job, "--scale", "1:50", "--svg"]);
    assert!(overridden.contains(">1:50<") && overridden.contains(">1 May<"));
    fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn json_gives_scale_sheet_labels_and_lines() {
    let answer: Value = serde_json::from_str(&standard_output(&[L, "--json"])).unwrap();
    assert_eq!(answer["command"], "sketch");
    let result = &answer["result"];
    assert_eq!(result["scale"], "1:50");
    assert_eq!(result["ratio"], 50);
    assert_eq!(result["sheet"]["size"], "A4");
    let labels = result["labels"].as_array().unwrap();
    let names = |wording: &str| -> Vec<&str> {
        let of_kind = labels.iter().filter(|label| label["wording"] == wording);
        let mut names: Vec<&str> = of_kind.map(|label| label["name"].as_str().unwrap()).collect();
        names.sort_unstable();
        names
    };
    assert_eq!(names("corner"), ["A", "B", "C", "D", "E", "F"]);
    assert_eq!(names("side"), ["AB", "BC", "CD", "DE", "EF", "FA"]);
    let lines = result["lines"].as_array().unwrap();
    let proof: Vec<&str> = lines
        .iter()
        .filter(|line| line["part"] == "proof")
        .map(|line| line["name"].as_str().unwrap())
        .collect();
    assert_eq!(proof, ["AD", "BE", "DF"]);
    let outline = lines.iter().find(|line| line["part"] == "outline").unwrap();
    let first = &outline["points"][0];
    assert_eq!(first, &result["origin"], "A is the plan's (0, 0) here");
}

/// The rows of a sketch's CSV.
fn points(args: &[&str]) -> Vec<csv::StringRecord> {
    let csv = standard_output(&[args, &["--format", "csv"]].concat());
    csv::Reader::from_reader(csv.as_bytes()).records().map(Result::unwrap).collect()
}

/// What the lines and the plates of the same job say, each point once: corners as walked, boards on their two pegs, as many
/// nails as are driven, the anchors in the middle of the plate.
#[test]
fn csv_lists_what_is_pegged_out_by_name() {
    let folder = folder("points");
    let file = folder.join("job.json");
    let job = r#"{"plan": "7800x6000-3000x2400", "house": ["AB"], "stock": {"lengths": [{"length": 4800}]},
        "lines": {"setback": 1000, "offset": 600, "layers": [{"name": "plate", "width": 140}]},
        "plates": {"width": 140, "anchors": {"spacing": 1200, "end": 150}}}"#;
    fs::write(&file, job).unwrap();
    let args = ["--job", file.to_str().unwrap()];
    let listed = points(&args);
    let of = |kind: &str| listed.iter().filter(|point| &point[0] == kind).collect::<Vec<_>>();
    let place = |name: &str| -> String {
        let named: Vec<_> = listed.iter().filter(|point| &point[1] == name).collect();
        assert_eq!(named.len(), 1, "{name}");
        format!("{} {}", &named[0][2], &named[0][3])
    };
    // By hand, from the plan.
    assert_eq!(of("corner").len(), 6);
    assert_eq!(place("D"), "4800 3600");
    // The house side stays; the others are held off outward.
    assert_eq!(place("A+600"), "-600 0");
    assert_eq!(place("E+600"), "5400 6600");
    // BC runs down the page and its board stands 1000 past C; the plate's inner face is 140 to the left of the line.
    assert_eq!(place("P1 BC plate outer"), "7800 4600");
    assert_eq!(place("P1 BC plate inner"), "7660 4600");
    // A board of 600 lies with its middle on the line.
    assert_eq!([place("P1 left peg"), place("P1 right peg")], ["7500 4600", "8100 4600"]);
    assert_eq!(place("BC 150"), "7730 150");
    let json = |command: &str| -> Value {
        let output = pegline([command].iter().chain(&args).chain(&["--json"])).run();
        serde_json::from_str::<Value>(&output.out).unwrap()["result"].take()
    };
    let (lines, plates) = (json("lines"), json("plates"));
    assert_eq!(of("peg").len() as u64, lines["pegs"].as_u64().unwrap());
    assert_eq!(of("anchor").len(), plates["anchors"].as_array().unwrap().len());
    // Two faces of the plate at either end of five strings.
    assert_eq!(of("nail").len(), 20);
    fs::remove_dir_all(&folder).unwrap();
}

/// On a grid where AB bears 30 degrees, a 3-4-5 outline: sines and cosines of 30 and 60 degrees by hand.
#[test]
fn points_are_given_on_the_site_s_own_grid_to_the_millimetre() {
    let plan = "4000x3000";
    let on = |more: &[&str]| points(&[&[plan, "--grid", "A=1000,2000.5"], more].concat());
    let grid = |point: &csv::StringRecord| format!("{} {}", &point[4], &point[5]);
    // B is 4 m along 30 degrees; D is 3 m along 120.
    let turned = on(&["--bearing", "30"]);
    assert_eq!(grid(&turned[1]), "1002 2003.964");
    assert_eq!(grid(&turned[3]), "1002.598 1999");
    // Without a bearing grid north is up the page, or where the north arrow points.
    assert_eq!(grid(&on(&[])[2]), "1004 1997.5");
    assert_eq!(grid(&on(&["--north", "60"])[1]), grid(&turned[1]));
    let far = points(&[plan, "--grid", "c=512345.678,5900000", "--bearing", "-90"]);
    assert_eq!(grid(&far[2]), "512345.678 5900000");
    assert_eq!(grid(&far[0]), "512349.678 5899997");
    for (args, message) in [
        (
            &["--grid", "E=1,2"][..],
            "error: --grid: `E=1,2` is no place on a grid: write a corner and its east and north, in metres, such as A=1000,2000\n",
        ),
        (
            &["--grid", "A=1,nan"],
            "error: --grid: `A=1,nan` is no place on a grid: write a corner and its east and north, in metres, such as A=1000,2000\n",
        ),
        (
            &["--bearing", "30"],
            "error: --bearing: there is no grid that it lies on: write --grid A=1000,2000 too\n",
        ),
    ] {
        let output = run(&[&[plan], args].concat());
        assert_eq!((output.code, output.err.as_str()), (2, message));
    }
}

#[test]
fn what_can_t_be_drawn_is_refused_with_what_to_write_instead() {
    for (args, message) in [
        (
            &[L, "--scale", "1:20"][..],
            "error: scale 1:20: the plan with its dimensions does not fit A4: write 1:50 or smaller, or leave it out\n",
        ),
        (
            &[L, "--scale", "50"],
            "error: --scale: `50` is not a scale: write 1 to a whole number up to 1000000, such as 1:50, or 1/4in=1ft\n",
        ),
        (
            &[L, "--north", "nan"],
            "error: --north: `nan` can't be taken: write degrees clockwise from up the page, 0 to 360, such as 20\n",
        ),
        (
            &[L, "--date", "the twenty-fourth of September"],
            "error: --date: 30 characters is too long: write 24 at most, such as 25 November\n",
        ),
        (&[L, "--svg", "--json"], "error: --svg: it is a format of its own: leave out --format and --json\n"),
    ] {
        let output = run(args);
        assert_eq!(output.code, 2, "{args:?}");
        assert_eq!(output.err, message);
        assert!(output.out.is_empty());
    }
}

/// How many lines and circles of `class` there are in the job's drawing.
fn drawn(job: &std::path::Path, more: &[&str], class: &str) -> usize {
    let args = [&["--job", job.to_str().unwrap(), "--svg"], more].concat();
    let picture = standard_output(&args);
    let document = roxmltree::Document::parse(&picture).unwrap();
    let marked = document.descendants().filter(|node| node.attribute("class") == Some(class));
    marked.filter(|node| node.has_tag_name("circle") || node.has_tag_name("path")).count()
}

#[test]
fn anchors_and_profiles_are_drawn_where_the_job_has_inputs_for_them_or_as_asked() {
    let folder = folder("show");
    let file = folder.join("job.json");
    let job = r#"{"plan": "7800x6000-3000x2400", "house": ["AB"], "lines": {"setback": 1000},
        "stock": {"lengths": [{"length": 4800}]}, "plates": {"width": 140, "anchors": {"rules": "nz"}}}"#;
    fs::write(&file, job).unwrap();
    let args = ["--job", file.to_str().unwrap(), "--json"];
    let output = pegline(["plates"].iter().chain(&args)).run();
    let plates: Value = serde_json::from_str(&output.out).unwrap();
    let anchors = plates["result"]["anchors"].as_array().unwrap().len();
    assert!(anchors > 10);
    assert_eq!(drawn(&file, &[], "anchor"), anchors);
    assert!(drawn(&file, &[], "board") > 0 && drawn(&file, &[], "string") > 0);
    // Each of the five strings of an L on its house ends on two nails.
    assert_eq!(drawn(&file, &[], "nail"), 10);
    assert_eq!(drawn(&file, &["--show", "profiles"], "anchor"), 0);
    assert_eq!(drawn(&file, &["--show", "anchors"], "board"), 0);
    let refused = run(&["--job", file.to_str().unwrap(), "--show", "anchors,walls"]);
    assert_eq!(refused.err, "error: --show: `walls` is nothing to draw: write anchors or profiles\n");
    fs::remove_dir_all(&folder).unwrap();
}

/// The plate layout against the cut list of the same job: every piece of the plate once, as long on paper as it is cut and as
/// wide as the plate, every anchor in it, every pack beside its place.
#[test]
fn the_plate_layout_shows_every_piece_of_the_cut_list_in_its_place() {
    for job in ["garden-room", "workshop", "side-return"] {
        let job = format!("examples/{job}.json");
        let json = |command: &str, more: &[&str]| -> Value {
            let args = [&[command, "--job", &job, "--json"], more].concat();
            // Refused where the job has no readings of levels: then there is nothing packed.
            serde_json::from_str(&pegline(args).run().out).unwrap_or_default()
        };
        let (plates, drawn) = (json("plates", &[]), json("sketch", &["--of", "plates"]));
        let (plates, drawn) = (&plates["result"], &drawn["result"]);
        let ratio = drawn["ratio"].as_f64().unwrap();
        let lines = drawn["lines"].as_array().unwrap();
        let bands: Vec<&Value> = lines.iter().filter(|line| line["part"] == "plate").collect();
        let runs = plates["runs"].as_array().unwrap().iter();
        let pieces: Vec<&Value> = runs
            .filter(|run| run["layer"] == "plate" && !run["side"].as_str().unwrap().contains(' '))
            .flat_map(|run| run["pieces"].as_array().unwrap())
            .collect();
        assert_eq!(bands.len(), pieces.len(), "{job}");
        for (band, piece) in bands.iter().zip(&pieces) {
            assert_eq!(band["name"], piece["name"], "{job}");
            let at = |i: usize, j: usize| band["points"][i][j].as_f64().unwrap();
            let side = |i: usize, k: usize| (at(i, 0) - at(k, 0)).hypot(at(i, 1) - at(k, 1)) * ratio;
            let cut = piece["length"].as_f64().unwrap();
            assert!((side(0, 1) - cut).abs() < 0.01 * ratio, "{job}: {} is {cut}", piece["name"]);
            assert!((side(1, 2) - plates["width"].as_f64().unwrap()).abs() < 0.01 * ratio, "{job}");
        }
        let labels = drawn["labels"].as_array().unwrap();
        let texts = |wording: &str| labels.iter().filter(|label| label["wording"] == wording).count();
        assert_eq!(texts("piece"), pieces.len(), "{job}");
        assert_eq!(texts("mark"), plates["anchors"].as_array().unwrap().len(), "{job}");
        let packs = json("packs", &[]);
        let packed = |s: &&Value| s["pack"].as_f64().unwrap() > 0.0;
        let packed =
            packs["result"]["stations"].as_array().map_or(0, |all| all.iter().filter(packed).count());
        assert_eq!(texts("pack"), packed, "{job}");
    }
}

#[test]
fn a_layout_without_plates_and_a_paper_that_is_none_are_refused() {
    for (args, message) in [
        (&[L, "--of", "plates"][..], "error: "),
        (&[L, "--of", "roof"], "error: --of: `roof` is nothing to draw: write plan, plates or joists\n"),
        (&[L, "--paper", "A3"], "error: --paper: `A3` is no paper known here: write A4 or letter\n"),
        (&[L, "--revision", "a\tb"], "error: --revision: write it on one line, without tabs\n"),
    ] {
        let output = run(args);
        assert_eq!((output.code, output.out.as_str()), (2, ""), "{args:?}");
        assert!(output.err.starts_with(message), "{}", output.err);
    }
}
