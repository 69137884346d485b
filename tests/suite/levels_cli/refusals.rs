//! What is refused, each from one short input: exit code 2, and what to write instead.

use super::{run, run_with};

fn refused(words: &str) -> String {
    let output = run(words);
    assert_eq!(output.code, 2, "{words}");
    assert!(output.out.is_empty(), "{words}");
    let said = output.err;
    said.strip_prefix("error: ").unwrap().trim_end().to_owned()
}

#[test]
fn readings_that_can_not_be_used_name_the_option_and_what_to_write() {
    let plan = "packs 7800x6000";
    for (words, said) in [
        (
            "",
            "there are no readings: write --staff A=1412,B=1409 (the bigger, the lower) or --heights A=0,B=-3, or `packs` in the job file",
        ),
        (
            "--staff A1412",
            "--staff: `A1412` is not a reading: write the place and what was read there: A=1412, or AB@2400=1409",
        ),
        ("--staff A=14O9", "--staff: `A=14O9`: `14O9` is not a length: write 1409"),
        ("--staff Z=1", "--staff: there is no corner `Z`: the corners are A to D"),
        ("--heights AC@10=4", "--heights: there is no side `AC`: the sides are AB, BC, CD, DA"),
        ("--staff AB@9000=1", "--staff: `AB@9000` is off the side: AB runs from 0 to 7800 mm"),
        (
            "--house AB --staff AB@900=1",
            "--staff: AB@900 is on the house, where there is no plate to pack: leave it out",
        ),
        ("--staff A=1412", "--staff: too few readings: read two places or more"),
        (
            "--staff A=1001,B=1002 --staff C=1001,D=1002",
            "--staff: set-up 2 reads no place that the others read: read one place from both, so that they tie together, \
             or give its readings with theirs if the instrument never moved",
        ),
        (
            "--staff A=1412,B=409",
            "--staff: A lies 1003 mm below the datum: more than the 1000 mm that can be packed; check the reading and \
             its unit",
        ),
        (
            "--staff A=1001,B=1002 --datum C",
            "--datum: datum `C` has no reading: name a place that was read, or leave it out for the highest",
        ),
        (
            "--staff A=1001,B=1002 --packers x5",
            "--packers: `` is not a number of packers: write 12x5 for twelve of 5, or 5 alone for plenty",
        ),
        (
            "--staff A=1001,B=1002 --packers 0.05",
            "--packers: `0.05` is 0.05 mm: write 0.05m or 50 (a packer is 0.1 mm to 100 mm)",
        ),
        (
            "--staff A=1001,B=1002 --packers 5,5",
            "--packers: packer of 5 mm is given twice: give each thickness once, with its count",
        ),
        (
            "--staff A=1001,B=1002 --preset nhcb",
            "--preset: no published limit `nhcb` for level: write one of nhbc, labc, tms-602, kent, us-remodelling, or \
             your own limit in mm",
        ),
        ("--staff A=1001,B=1002 --studs 0", "--studs: `0` must be more than zero"),
        (
            "--staff A=1001,B=1002 --studs 50",
            "--studs: 50 mm centres are too close: 100 mm is the least taken, and 600mm or 400mm are usual",
        ),
        ("--staff A=1001,B=1002 --within=-1", "--within: `-1` is less than zero: write 0 or more"),
    ] {
        assert_eq!(refused(&format!("{plan} {words}")), said, "{words}");
    }
    assert!(refused("packs --staff A=1001,B=1002").starts_with("there is no plan: write one such as"));
}

#[test]
fn heights_that_can_not_be_worked_out_name_the_option_and_what_to_write() {
    let drop = "--drop 2398 --level-depth 50";
    for (words, said) in [
        (
            "",
            "there is no wall head and no ceiling: write --drop 2398 --level-depth 50, or --ceiling 2400, or both, or `heights` in the job file",
        ),
        (
            "--drop 2398",
            "--drop: the level's own depth is needed too: measure it (levels differ) and give it \
             (--level-depth, or `level_depth` in the job file)",
        ),
        (
            "--drop 250 --level-depth 280",
            "--drop: drop of 250 mm from a level 280 mm deep: the wall head comes out below the datum",
        ),
        (
            "--ceiling 2400 --stack plaet=38",
            "--stack: layer `plaet` has no place in the stack: name it packing, dpc, plate, rail, binder, floor, lining \
             or slab; `role:name` gives a layer its own name",
        ),
        (
            "--ceiling 2400 --stack binder",
            "--stack: `binder` is not a layer: write its name and its thickness: plate=38",
        ),
        (
            "--ceiling 2400 --stack plate=3m",
            "--stack: the panel comes out at −600 mm: the layers named take more than there is; check them and the drop",
        ),
        (
            "--drop 7ft --level-depth 2in --stack plate=8ft",
            "--stack: the panel comes out at −1' 2\": the layers named take more than there is; check them and the drop",
        ),
        (
            "--ceiling 2400 --hanger 2400",
            "--hanger: the run between the joists' two supports is needed too: give it (--run, or `run` in the job file)",
        ),
        (
            "--ceiling 2400 --run 3600",
            "--run: the level of the joist hanger on the house is needed too: give it (--hanger, or `hanger` in the job file)",
        ),
        (
            "--ceiling 2400 --hanger 2300 --run 3600 --fall 40",
            "--fall: `40` is not a fall: write 1:40, 1/4in for that much in a foot, or a name: design (1:40), irc (1:48), \
             finished (1:80)",
        ),
        (
            "--ceiling 2400 --hanger 2300 --run 3600 --fall-to roof",
            "--fall-to: `roof` is not an end of the joists: write wall or house",
        ),
    ] {
        assert_eq!(refused(&format!("heights {words}")), said, "{words}");
    }
    assert_eq!(refused(&format!("heights {drop} --ceiling 0")), "--ceiling: `0` must be more than zero");
}

#[test]
fn a_slip_in_a_job_file_is_shown_in_its_place() {
    let typo = "{\n  \"plan\": \"7800x6000\",\n  \"packs\": {\"packres\": [1]}\n}";
    let output = run_with("packs --job -", typo);
    assert_eq!(output.code, 2);
    assert_eq!(
        output.err,
        "error: standard input:3:13: packs.packres: there is no field `packres` here: did you mean `packers`?\n\
         3 |   \"packs\": {\"packres\": [1]}\n  |             ^\n"
    );
    for (job, said) in [
        (
            r#"{"plan": "7800x6000", "packs": {"staff": [["A=1", "G=2"]]}}"#,
            "standard input:1:51: packs.staff[0][1]: there is no corner `G`: the corners are A to D",
        ),
        (
            r#"{"plan": "7800x6000", "packs": {"staff": [["A=1001", "B=1002"]], "datum": "C"}}"#,
            "standard input:1:75: packs.datum: datum `C` has no reading",
        ),
        (
            r#"{"plan": "7800x6000", "packs": {"limit": 5, "preset": "nhbc"}}"#,
            "standard input:1:55: packs.preset: the limit is given twice: leave out `preset` or `limit`",
        ),
        (
            r#"{"heights": {"stack": ["plate=38", "plate"]}}"#,
            "standard input:1:36: heights.stack[1]: `plate` is not a layer",
        ),
    ] {
        let output = run_with("job check -", job);
        let printed = output.err;
        assert!(printed.contains(said), "{printed}");
        assert_eq!(output.code, 2);
    }
}
