//! The program used wrongly: exit 2, and what to write instead.

use insta::assert_snapshot;

use crate::outlines::Random;
use crate::program::pegline;

const L: &str = "7800x6000-3000x2400";
const L_WALK: &str = "7800 R 3600 R 3000 L 2400 R 4800 R 6000";

#[test]
fn what_is_not_json_is_told_in_one_line() {
    let said = pegline(["diagonals", "--job", "-"]).input("not json\n").refusal();
    assert_eq!(said.lines().count(), 1, "{said}");
}

#[test]
fn a_plan_typed_with_spaces_and_no_quotes_is_the_same_plan() {
    let spaced = ["diagonals", "7800", "x", "6000", "--house", "AB", "--format", "csv"];
    let joined = ["diagonals", "7800x6000", "--house", "AB", "--format", "csv"];
    assert_eq!(pegline(spaced).answer(), pegline(joined).answer());
}

/// Each wrong use from one short command.
#[test]
fn wrong_use_exits_2_and_says_what_to_write() {
    let said = |arguments: &[&str]| pegline(arguments).refusal();
    assert_snapshot!(said(&["diagonals"]), @"error: there is no plan: write one such as 7800x6000-3000x2400 after the command, or --walk, or `plan` in a job file (--job FILE)");
    assert_snapshot!(said(&["diagonals", L, "--walk", L_WALK]), @"error: PLAN can't stand with --walk: leave one of them out");
    assert_snapshot!(said(&["diagonals", "78OOx6000"]), @"error: PLAN: `OOx6000` after `78`: write x and the depth, as in 7800x6000");
    assert_snapshot!(said(&["diagonals", L, "--house", "AC"]), @"error: --house: there is no side `AC`: the sides are AB, BC, CD, DE, EF, FA");
    assert_snapshot!(said(&["diagonals", L, "--tape-class", "IV"]), @"error: --tape-class: no tape class `IV`: write I, II or III (on the tape's blade), or US");
    assert_snapshot!(said(&["diagonals", L, "--tape-length", "8yd"]), @"error: --tape-length: `8yd` has the unit `yd`: write mm, m, ft or in (6435, 6.435m, 21ft1-3/8in)");
    assert_snapshot!(said(&["diagonals", L, "--tape-length", "0"]), @"error: --tape-length: `0` must be more than zero");
    assert_snapshot!(said(&["diagonals", L, "--tape-reading=-1"]), @"error: --tape-reading: `-1` is less than zero: write 0 or more");
    assert_snapshot!(said(&["diagonals", L, "--units", "cm"]), @"error: --units: no units `cm`: write mm, m or ft-in");
    assert_snapshot!(said(&["diagonals", L, "--spares", "99"]), @"error: --spares: 99 is too many: write 0 to 20");
    assert_snapshot!(said(&["diagonals", L, "--spares", "x"]), @"error: --spares: `x` can't be taken: write a whole number, 0 or more");
    assert_snapshot!(said(&["diagonals", L, "--format", "xml"]), @"error: --format: `xml` is not one of them: write table, json or csv");
    assert_snapshot!(said(&["diagonals", L, "--jsno"]), @"error: there is no option `--jsno`: did you mean --json?");
    assert_snapshot!(said(&["diagnals", L]), @"error: there is no command `diagnals`: did you mean diagonals?");
    assert_snapshot!(said(&["corners", "--tapes", "3m,4m"]), @"error: --tapes: 2 tapes are given: write three, along one side, along the other and between their ends");
    assert_snapshot!(said(&["corners", "--tapes", "3m,4m,9m"]), @"error: tapes of 3.000 m, 4.000 m and 9.000 m make no triangle: the longest must be shorter than the other two together; read them again");
    assert_snapshot!(said(&["corners", "--tapes", "12ft,16ft,30ft"]), @"error: tapes of 12', 16' and 30' make no triangle: the longest must be shorter than the other two together; read them again");
    assert_snapshot!(said(&["corners", L, "--corner", "Q", "--tapes", "3m,4m,5m"]), @"error: --corner: there is no corner `Q`: the corners are A to F");
    assert_snapshot!(said(&["job", "new", "hexagon", "--sample"]), @"error: there is no starter for `hexagon`: write rectangle, L, T or U");
    assert_snapshot!(said(&["job", "new", "--sample", "--force"]), @"error: --force: it replaces the file that -o names: name one, or leave --force out");
    assert_snapshot!(said(&["diagonals", "--job", "nowhere.json"]), @"error: reading the job from nowhere.json: there is no such file or folder: look at its name again");
}

#[test]
fn help_is_an_answer_and_no_arguments_at_all_is_not() {
    assert!(pegline(["--help"]).answer().contains("Exit code: 0"));
    assert!(pegline(["diagonals", "--help"]).answer().contains("Examples:\n  pegline diagonals"));
    assert_eq!(pegline(["--version"]).answer(), format!("pegline {}\n", env!("CARGO_PKG_VERSION")));
    let none = pegline([""; 0]).run();
    assert_eq!((none.code, none.out.as_str()), (2, ""));
    for command in ["diagonals", "corners", "job"] {
        let help = pegline([command, "--help"]).answer();
        for line in help.lines() {
            assert!(line.chars().count() <= 80, "{command}: {line}");
        }
    }
}

/// Some hundred through the program; thousands go through the library in the length, plan and job tests.
#[test]
fn bad_input_of_every_kind_exits_2_with_a_clear_line() {
    let mut random = Random::new(51);
    let pieces = [
        "7800",
        "x",
        "6000",
        "-",
        "+",
        "@",
        "br",
        "tl",
        "0",
        "-5",
        "NaN",
        "inf",
        "1e300",
        "٣",
        "'",
        "\"",
        "ft",
        "m",
        "R",
        "L",
        ",",
        ".",
        "1/2in",
        " ",
        "\u{0301}",
        "999999999999",
        "AB",
        "é",
    ];
    for _ in 0..300 {
        let text: String = (0..=random.below(8)).map(|_| random.pick(&pieces)).collect();
        let option = random.pick(&["plan", "walk", "house", "tape-length", "tapes", "limit"]);
        let arguments: Vec<String> = match option {
            "plan" => vec!["diagonals".into(), "--".into(), text.clone()],
            "walk" => vec!["diagonals".into(), format!("--walk={text}")],
            "house" => vec!["diagonals".into(), L.into(), format!("--house={text}")],
            "tape-length" => vec!["corners".into(), L.into(), format!("--tape-length={text}")],
            "tapes" => vec!["corners".into(), format!("--tapes={text},4m,5m")],
            _ => vec!["corners".into(), "--tapes=3m,4m,5m".into(), format!("--limit={text}")],
        };
        let ran = pegline(&arguments).run();
        match ran.code {
            0 | 1 => assert_eq!(ran.err, "", "{arguments:?}"),
            2 => {
                assert_eq!(ran.out, "", "{arguments:?}");
                assert!(
                    ran.err.lines().all(|line| line.starts_with("error: ")) && !ran.err.is_empty(),
                    "{arguments:?}: {}",
                    ran.err
                );
            }
            code => panic!("{arguments:?}: exit {code}: {}", ran.err),
        }
    }
}
