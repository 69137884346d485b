//! Bad input to `pegline lines` and `pegline straight`: exit 2, nothing on standard output, and on standard error the
//! option and what to write instead.

use crate::lines_program::run;

/// Each line of arguments, split at spaces, must be refused with all of its words.
fn refused(cases: &[(&str, &[&str])]) {
    for (line, wanted) in cases {
        let args: Vec<&str> = line.split(' ').collect();
        let output = run(&args);
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(2), "{line}: {said}");
        assert!(output.stdout.is_empty(), "{line}");
        for words in *wanted {
            assert!(said.contains(words), "{line}: `{words}` is not in: {said}");
        }
    }
}

#[test]
fn a_bad_wall_or_setback_is_refused_by_its_option() {
    refused(&[
        ("lines", &["there is no plan"]),
        ("lines 6000x4000 --setback 100", &["--setback:", "400 mm or more"]),
        ("lines 6000x4000 --setback nan", &["--setback:"]),
        ("lines 6000x4000 --layers plate", &["--layers", "plate=140"]),
        ("lines 6000x4000 --layers plate=0", &["--layers:", "more than zero"]),
        ("lines 6000x4000 --layers a=1,A=2", &["--layers:", "two layers"]),
        ("lines 6000x4000 --layers footing=1", &["--layers:", "`footing`"]),
        ("lines 6000x4000 --layers a=1 --outline b", &["--outline:", "a outer", "a inner"]),
        ("lines 6000x4000 --footing 600", &["--footing:", "--layers"]),
        ("lines 6000x4000 --pull 0", &["--pull:", "more than zero"]),
        ("lines 6000x4000 --pull inf", &["--pull:", "1N"]),
        ("lines 6000x4000 --string 1lb", &["--string:", "g/m"]),
    ]);
}

#[test]
fn an_offset_that_cant_be_made_is_refused_with_the_largest_that_works() {
    refused(&[
        ("lines 6000x4000 --offset -2m", &["--offset:", "write -1999mm", "BC comes to nothing"]),
        ("lines 20ftx10ft --offset -5ft", &["--offset:", "write -4ft11-15/16in"]),
        ("lines 6000x4000 --offset 0", &["--offset:", "plan itself"]),
        ("lines 6000x4000 --offset 1e300", &["--offset:"]),
    ]);
}

#[test]
fn what_stands_along_a_side_is_refused_where_it_does_not_fit() {
    refused(&[
        ("lines 6000x4000 --openings CD900", &["--opening", "CD:900@1200"]),
        ("lines 6000x4000 --openings CD:900@5500", &["--opening:", "6400 mm", "6000 mm long"]),
        ("lines 6000x4000 --openings CD:900@0,CD:900@500", &["--opening:", "overlap by 400 mm"]),
        ("lines 6000x4000 --openings XY:900@0", &["--opening:", "AB, BC, CD, DA"]),
        ("lines 6000x4000 --partitions CD:0@0", &["--partitions:", "more than zero"]),
        ("lines 6000x4000 --joints CD:-5", &["--joints:", "less than zero"]),
        ("lines 6000x4000 --studs 50", &["--studs:", "100 mm"]),
        ("lines 6000x4000 --marks=AC", &["--marks:", "there is no side `AC`"]),
    ]);
}

#[test]
fn bad_readings_are_refused_by_their_option() {
    refused(&[
        ("straight", &["there are no readings"]),
        ("straight --read 0=20", &["--block:", "--block 20"]),
        ("straight --block 20 --read 0", &["--read", "1200=22"]),
        ("straight --block 20 --read 0=x", &["--read:", "x"]),
        ("straight --block 20 --read 0=20,0=21", &["--read:", "two readings at 0 mm"]),
        ("straight --block=-1 --read 0=20", &["--block:", "more than zero"]),
        ("straight --block 20 --read 0=20 --string-on top", &["--string-on:", "inside"]),
        ("straight 6000x4000 --side AB --block 20 --read 7000=20", &["--read:", "past the end of AB"]),
        ("straight 6000x4000 --side AC --block 20 --read 0=20", &["--side:", "AB, BC"]),
    ]);
}
