//! A whole day from one script: what is typed besides figures, and how many lines come back.
//!
//! The same day played on the first release took 17 commands, 1,903 characters and 856 lines, the plan typed 11 times.

use std::fs;

use crate::program::pegline;

const PLAN: &str = "7260x5340-2880x2110";

/// What is typed behind `pegline`, and what is called out then.
const DAY: [(&str, &str); 11] = [
    ("job new 7260x5340-2880x2110 --house AB -o j.json", ""),
    ("j.json", ""),
    ("lines j.json --layers skin=102,cavity=50,plate=140 --footing 600 --keep", ""),
    ("plates j.json --width 140 --stock 3.6m:10.80,4.8m:15.60 --opening CD:900@600 --keep", ""),
    ("book j.json plate", "7259\n3232\n2979\n2879\n2110\n4381\n5338\n5443\n4863\n6068\n"),
    ("book j.json level", "1409\n1411\n1416\n1412\n1421\n1415\n"),
    ("packs j.json --packers 1,2,3,5,10 --limit 15 --keep", ""),
    ("book j.json string CD", "20\n20\n22\n19\n20\n"),
    ("book j.json drop", "50\n2398\n2396\n2397\n"),
    ("heights j.json --stack plate=38,rail=38,rail=38,binder=38 --ceiling 2300 --keep", ""),
    ("order j.json", ""),
];

#[test]
fn a_day_is_typed_in_500_characters_and_read_in_250_lines() {
    let folder = std::env::temp_dir().join(format!("pegline-one-day-{}", std::process::id()));
    let _gone = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let (mut typed, mut lines, mut plans) = (0, 0, 0);
    for (words, called) in DAY {
        let ran = pegline(words.split(' ')).within(&folder).input(called.to_owned()).run();
        assert_eq!(ran.code, 0, "{words}\n{}{}", ran.out, ran.err);
        let script = format!("pegline {words}\n{called}");
        typed += script.chars().filter(|c| !c.is_ascii_digit()).count();
        plans += script.matches(PLAN).count();
        lines += ran.out.lines().count();
        if words.ends_with("plate") {
            assert!(ran.out.contains("(2979 struck out)"), "{}", ran.out);
            assert!(ran.out.contains("\n\nSquare"), "{}", ran.out);
        }
    }
    fs::remove_dir_all(&folder).unwrap();
    assert!(typed < 500 && lines < 250, "{typed} characters typed besides figures, {lines} lines read");
    assert_eq!(plans, 1);
}
