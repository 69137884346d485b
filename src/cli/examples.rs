//! What the program says of itself, and how the help of each command ends: what its exit codes mean, then examples that
//! run as they stand.
//!
//! A test runs every example of a command in turn in one empty folder. A line that ends with another exit code than 0
//! says so in its remark.

/// The line that the examples stand under.
pub(super) const HEADING: &str = "\nExamples:\n";

/// Exit codes, then examples.
macro_rules! ending {
    ($codes:literal: $($example:literal)+) => {
        concat!("Exit code: ", $codes, "\n\nExamples:", $("\n  ", $example),+)
    };
}

/// Exit codes of a command that judges nothing.
macro_rules! plain_ending {
    ($($example:literal)+) => {
        ending!("0 answered; 2 not answered (wrong usage or input)": $($example)+)
    };
}

pub(super) const PROGRAM: &str = ending!(
    "0 answered, and good if a verdict was asked for; 1 answered, and the verdict is bad; \
     2 not answered (wrong usage or input)":
    "pegline 7800x6000-3000x2400 --house AB   # start here: what to tape"
    "pegline job new 7800x6000-3000x2400 --house AB -o plot4.json"
    "pegline plates plot4.json --width 140 --stock 4.8m --keep"
    "pegline plates --help                    # each command's own examples"
);
/// What the program alone says, and what `-h` prints of it.
pub(super) const SCREEN: &str = "\
Setting-out calculator for timber-framed extensions

Start here:
  pegline 7800x6000-3000x2400 --house AB
      where the day stands: what to tape, what to type next
  pegline job new 7800x6000-3000x2400 --house AB -o plot4.json
      the job, typed once
  pegline book plot4.json plate
      readings as they are called out

The commands, each with its own -h:
  The day      day, book, sheet, sketch
  Setting out  diagonals, corners, lines, straight, readings
  Levels       packs, heights, joists
  Timber       plates, cuts, order
  Beside it    job, batch, practice, completions, man

A bare number is millimetres; 6.435m and 21ft1-3/8in are taken too.
pegline --help says what each command does, and every option of them all.
";
pub(super) const DAY: &str = ending!(
    "0 answered, and every verdict in it good; 1 one of them is bad; \
     2 not answered (wrong usage or input)":
    "pegline 7800x6000-3000x2400 --house AB   # the same without the command"
    "pegline job new 7800x6000-3000x2400 --house AB -o plot4.json"
    "pegline day plot4.json"
);
pub(super) const BOOK: &str = ending!(
    "0 answered, and the verdict is good; 1 it is bad, or not called yet; \
     2 not answered (wrong usage or input)":
    "pegline job new 4000x3000 -o plot4.json"
    "printf 'AB 4001\\nBC 3000\\n?\\n' | pegline book plot4.json plate  # exit code 1"
    "printf '1412\\n1409\\n1405\\n1411\\n' | pegline book plot4.json level"
);
pub(super) const DIAGONALS: &str = plain_ending!(
    "pegline diagonals 7800x6000-3000x2400 --house AB"
    "pegline diagonals 7800 x 6000 --working"
    "pegline diagonals 25ft6inx19ft8-1/2in --tape-length 26ft"
    "pegline diagonals --walk \"7800 R 3600 R 3000 L 2400\" --json"
);
pub(super) const CORNERS: &str = ending!(
    "0 answered, and within --limit if one was given; 1 the corner is over it; \
     2 not answered (wrong usage or input)":
    "pegline corners 7800x6000-3000x2400 --tape-length 8m"
    "pegline corners --tapes 3m,4m,5.004m --limit 10"
    "pegline corners 6000x4000 --tapes 3m,4m,5.02m --limit 5   # exit code 1"
);
pub(super) const LINES: &str = plain_ending!(
    "pegline lines 7800x6000-3000x2400 --house AB --setback 1.2m"
    "pegline lines 7800x6000 --layers skin=102,cavity=50,plate=140 --footing 600"
    "pegline lines 7800x6000 --offset 500 --marks --studs 600"
);
pub(super) const STRAIGHT: &str = ending!(
    "0 answered, and within --limit if one was given; 1 a station is over it; \
     2 not answered (wrong usage or input)":
    "pegline straight --block 20 --read 0=20,1200=22,2400=17 --limit 3"
    "pegline straight --side CD --block 20 --read 0=20,1200=25,2400=20 \\"
    "  --limit 3                              # exit code 1"
);
pub(super) const PLATES: &str = plain_ending!(
    "pegline plates 7800x6000-3000x2400 --house AB --width 140 \\"
    "  --stock 3.6m:10.80,4.8m:15.60,6.0m:21.60"
    "pegline plates 6000x4000 --width 140 --stock 4.8m --binder --format csv"
);
pub(super) const CUTS: &str = plain_ending!(
    "pegline cuts --pieces 4x1200,2x2350,3x900 --stock 3000,4800"
    "pegline cuts --pieces 4x1200,2x2350 --stock 3.6m:10.80,4.8m:15.60"
);
pub(super) const READINGS: &str = ending!(
    "0 answered, and square; 1 out of square, misread or not fixed; \
     2 not answered (wrong usage or input)":
    "pegline readings 7800x6000 \\"
    "  --read AB=7802,BC=6001,CD=7801,DA=5999,AC=9843,BD=9840"
    "pegline readings 7800x6000 --limit 5 \\"
    "  --read AB=7800,BC=6000,CD=7800,DA=6000,AC=9860,BD=9821   # exit code 1"
);
pub(super) const PACKS: &str = ending!(
    "0 answered, and within the limit if one was given; 1 over it, or a gap that can't be packed; \
     2 not answered (wrong usage or input)":
    "pegline packs 7800x6000 --staff A=1412,B=1409,C=1405 --packers 1,2,3,5,10"
    "pegline packs 7800x6000 --heights A=0,B=-3,C=2,D=-12 --limit 9   # exit code 1"
);
pub(super) const HEIGHTS: &str = ending!(
    "0 answered, and the heights meet; 1 too low, or the drops disagree; \
     2 not answered (wrong usage or input)":
    "pegline heights --ceiling 2400 --stack plate=38,rail=38,rail=38,binder=38"
    "pegline heights --drop 2398,2396 --level-depth 50 \\"
    "  --stack plate=38,binder=38 --ceiling 2300"
);
pub(super) const JOISTS: &str = ending!(
    "0 answered, and good; 1 short of packers, or against the rule asked for; \
     2 not answered (wrong usage or input)":
    "pegline joists 7800x6000-3000x2400 --house AB --from AB --to EF,CD \\"
    "  --centres 400 --bearing 100 --hanger-gap 3"
    "pegline joists 4000x3000 --house AB --from AB --to CD --centres 600 \\"
    "  --bearing 60 --rule nhbc               # exit code 1"
);
pub(super) const SKETCH: &str = plain_ending!(
    "pegline sketch 7800x6000-3000x2400 --house AB"
    "pegline sketch 7800x6000-3000x2400 --north 20 --svg -o plan.svg"
);
pub(super) const SHEET: &str = ending!(
    "0 answered, and every verdict in it good; 1 one of them is bad; \
     2 not answered (wrong usage or input)":
    "pegline sheet 7800x6000-3000x2400 --house AB"
    "pegline job new L --sample -o job.json"
    "pegline sheet job.json --html -o plot.html"
);
pub(super) const ORDER: &str = plain_ending!(
    "pegline job new L --sample -o job.json"
    "pegline order job.json --tax 20"
    "printf 'item,rate\\npeg,0.64\\n' | pegline order job.json --prices -"
);
pub(super) const BATCH: &str = ending!(
    "0 every line answered, and good; 1 a line not answered, or its verdict bad; \
     2 nothing answered (wrong usage or input)":
    "echo '{\"plan\": \"7800x6000-3000x2400\"}' | pegline batch diagonals"
    "echo '{\"plan\": \"7800\"}' | pegline batch diagonals   # exit code 1"
);
pub(super) const PRACTICE: &str = ending!(
    "0 printed, or every answer right; 1 an answer wrong or missing; \
     2 not answered (wrong usage or input)":
    "pegline practice diagonals --level 2 --seed 7 > sheet.txt"
    "pegline practice diagonals --level 2 --seed 7 --answers"
    "pegline practice --mark sheet.txt        # nothing filled in: exit code 1"
    "echo 'Pupil One' | pegline practice mixed --class - -o class.html"
);
pub(super) const JOB: &str = plain_ending!(
    "pegline job new 7800x6000-3000x2400 --house AB -o plot4.json"
    "pegline job check plot4.json"
    "pegline diagonals plot4.json"
);
pub(super) const JOB_NEW: &str = plain_ending!(
    "pegline job new 7800x6000-3000x2400 --house AB -o plot4.json"
    "pegline job new rectangle --sample | pegline diagonals -"
);
pub(super) const JOB_CHECK: &str = ending!(
    "0 nothing wrong; 2 a fault, or the file can't be read":
    "pegline job new 9000x3000+3600x2400 -o job.json"
    "pegline job check job.json"
);
pub(super) const JOB_SCHEMA: &str = plain_ending!(
    "pegline job schema > job.schema.json"
    "pegline job schema --answers > answers.schema.json"
);
pub(super) const COMPLETIONS: &str = plain_ending!(
    "pegline completions bash -o pegline.bash    # then: source pegline.bash"
    "pegline completions zsh -o _pegline"
    "pegline completions fish -o pegline.fish"
);
pub(super) const MAN: &str = plain_ending!(
    "pegline man -o pegline.1                 # then: man -l pegline.1"
    "pegline man plates -o pegline-plates.1"
);
