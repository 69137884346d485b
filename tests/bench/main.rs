//! `cargo bench`: what the day's sums cost, in process.
//!
//! Figures from one run can be compared with each other; figures from two runs can't.
#![allow(clippy::unwrap_used, reason = "a bench stops at the first surprise")]
#![allow(clippy::print_stdout, reason = "a bench prints its figures")]

use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};
use std::{env, fs, path::PathBuf, sync::OnceLock, thread};

use divan::Bencher;
use divan::counter::ItemsCount;
use pegline::answer::{Answer, Question};
use pegline::book::Book;
use pegline::cutting::{
    CutList, Effort, Favour, PieceList, Problem, Rules, Run, Stock, Wanted, cut_pieces, plan_runs,
};
use pegline::exact::{Pence, Tenths};
use pegline::geometry::Point;
use pegline::job::{Job, read};
use pegline::length::Units;
use pegline::plan::{Footprint, parse_expression};
use pegline::plates;
use pegline::readings::{Datum, Input, Observation, Reading, TapeUse, Verdict, adjust, readings};
use pegline::square::{Options, diagonals};
use pegline::stock::{self, ForSale, Timber};
use serde_json::Value;

mod houses;
#[path = "../suite/cutting/mip.rs"]
mod mip;

fn main() {
    divan::main();
    if env::args().skip(1).all(|word| word.starts_with('-')) {
        println!("{}", houses::houses());
        println!("{}", early_stop());
        for jobs in BATCHES {
            println!("batch of {jobs}: at most {} of memory", batch_memory(jobs));
        }
        let scipy = Command::new("python3").arg("tests/bench/adjustment.py").output();
        let said =
            scipy.map(|done| String::from_utf8_lossy(&done.stdout).trim().to_owned()).unwrap_or_default();
        println!("{}", if said.is_empty() { "no SciPy here to adjust fifteen readings" } else { &said });
    }
}

/// Plates that a row of the field book's table is counted over.
const INVENTED: u32 = 167;

/// How many tapes the field book asks for until it calls the verdict, beside the 15 lines that an L has, and how often the
/// verdict on all 15 is another. The plates are invented: each corner within 1 mm, or one 28 mm out, or one reading of the
/// nine that fix the shape 100 out, until it is taped again.
fn early_stop() -> String {
    let mut rows = vec![
        "the field book over invented plates: tapes until the verdict is called, another on all lines"
            .to_owned(),
    ];
    for limit in [10, 20] {
        for (kind, out, slip) in
            [("good", 0.0, 0.0), ("a corner 28 mm out", 25.0, 0.0), ("a tape read 100 mm out", 0.0, 100.0)]
        {
            let runs: Vec<(u32, bool)> =
                (1..=INVENTED).map(|number| booked(limit, Dice(u64::from(number)), out, slip)).collect();
            let each = f64::from(runs.iter().map(|(tapes, _)| tapes).sum::<u32>()) / f64::from(INVENTED);
            let another = runs.iter().filter(|(_, another)| *another).count();
            rows.push(format!("  limit {limit} mm, {kind}: {each:.1}, {another} of {INVENTED}"));
        }
    }
    rows.join("\n")
}

/// The tapes until the verdict is called, and whether it is another once every line is taped.
fn booked(limit: u32, mut dice: Dice, out: f64, slip: f64) -> (u32, bool) {
    let mut lines = taped(&mut dice, out);
    lines[dice.below(9)].2 = slip;
    let job = read(&format!(r#"{{"plan": "{ELL}", "readings": {{"limit": {limit}}}}}"#)).unwrap();
    let mut book = Book::open(job, "plate").unwrap();
    let mut tapes = 0;
    while let Some(name) = book.asked().map(str::to_owned) {
        let line = lines.iter_mut().find(|line| line.0 == name).unwrap();
        let slip = std::mem::take(&mut line.2);
        line.3 = true;
        book.line(&format!("{name} {}", (line.1 + slip).round()));
        tapes += 1;
    }
    let called = verdict(&book);
    for (name, length, ..) in lines.into_iter().filter(|line| !line.3) {
        book.line(&format!("{name} {}", length.round()));
    }
    (tapes, called != verdict(&book))
}

fn verdict(book: &Book) -> Verdict {
    let Some(Answer::Readings(answer)) = book.answer() else { panic!("no readings") };
    answer.verdict
}

const ELL: &str = "7800x6000-3000x2400";

/// Every line between corners pegged nearly right, the nine that fix the shape first: its name, what it reads, no slip,
/// and that it isn't taped.
fn taped(dice: &mut Dice, out: f64) -> Vec<(String, f64, f64, bool)> {
    let plan = parse_expression(ELL, Units::Mm).unwrap().0;
    let moved = 1 + dice.below(5);
    let place = |(i, at): (usize, Point)| {
        let (dx, dy) = if i == moved { (out, out / 2.0) } else { (0.0, 0.0) };
        Point::new(at.x + dx + dice.spread(), at.y + dy + dice.spread())
    };
    let corners: Vec<Point> = plan.points().into_iter().enumerate().map(place).collect();
    let fixing = [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 0), (0, 3), (1, 4), (3, 5)];
    let others = (0..6).flat_map(|from| (from + 1..6).map(move |to| (from, to)));
    let others = others.filter(|(a, b)| !fixing.contains(&(*a, *b)) && !fixing.contains(&(*b, *a)));
    let ends: Vec<(usize, usize)> = fixing.into_iter().chain(others).collect();
    let length = |a: usize, b: usize, dice: &mut Dice| corners[a].distance(corners[b]) + 2.0 * dice.spread();
    ends.into_iter().map(|(a, b)| (plan.line_name(a, b), length(a, b, dice), 0.0, false)).collect()
}

/// Random numbers enough for an invented plate.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        self.0 >> 33
    }

    fn below(&mut self, most: usize) -> usize {
        usize::try_from(self.next()).unwrap() % most
    }

    /// From -1 to 1.
    fn spread(&mut self) -> f64 {
        self.next() as f64 / f64::from(1_u32 << 30) - 1.0
    }
}

const PROGRAM: &str = env!("CARGO_BIN_EXE_pegline");

/// An empty Rust program, built once a run, beside the other build products.
fn empty() -> &'static PathBuf {
    static EMPTY: OnceLock<PathBuf> = OnceLock::new();
    EMPTY.get_or_init(|| {
        let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
        let (source, built) = (folder.join("empty.rs"), folder.join("empty"));
        fs::write(&source, "fn main() {}\n").unwrap();
        let rustc = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
        let done = Command::new(rustc)
            .args(["-O", "-C", "panic=abort", "-C", "strip=symbols", "-o"])
            .args([&built, &source])
            .status()
            .unwrap();
        assert!(done.success());
        built
    })
}

/// Each command as a whole process, beside a program that does nothing.
#[divan::bench(sample_count = 60, args = [
    "(empty program)", "diagonals", "corners", "lines", "plates", "readings", "packs", "heights", "order", "sketch",
    "sheet",
])]
fn start_up(bencher: Bencher<'_, '_>, command: &str) {
    let run = |program: &str, args: &[&str]| {
        let status = Command::new(program).args(args).stdout(Stdio::null()).status().unwrap();
        assert_eq!(status.code(), Some(0));
    };
    if command == "(empty program)" {
        let empty = empty().to_str().unwrap();
        bencher.bench(|| run(empty, &[]));
    } else {
        bencher.bench(|| run(PROGRAM, &[command, "--job", "examples/garden-room.json"]));
    }
}

/// How many jobs are put through `batch`.
const BATCHES: [usize; 3] = [1_000, 10_000, 100_000];

/// So many L-shaped plots, a job a line.
fn plots(jobs: usize) -> Vec<u8> {
    let mut lines = vec![];
    for plot in 0..jobs {
        let (across, down) = (6000 + plot % 997, 5000 + plot % 499);
        writeln!(lines, r#"{{"name": "Plot {plot}", "plan": "{across}x{down}-2000x1800", "house": ["AB"]}}"#)
            .unwrap();
    }
    lines
}

/// A job a line through the built program; the time should grow with the number of lines.
#[divan::bench(sample_count = 3, args = BATCHES)]
fn batch_of_check_sizes(bencher: Bencher<'_, '_>, jobs: usize) {
    let file = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("{jobs}.jsonl"));
    fs::write(&file, plots(jobs)).unwrap();
    bencher.counter(ItemsCount::new(jobs)).bench(|| {
        let input = fs::File::open(&file).unwrap();
        let status = Command::new(PROGRAM)
            .args(["batch", "diagonals"])
            .stdin(input)
            .stdout(Stdio::null())
            .status()
            .unwrap();
        assert!(status.success());
    });
}

/// The most memory that a batch held at any time; asked of the system while the answered program waits for more. Linux alone
/// says it.
fn batch_memory(jobs: usize) -> String {
    let mut batch = Command::new(PROGRAM)
        .args(["batch", "diagonals"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = batch.stdin.take().unwrap();
    let writing = thread::spawn(move || {
        input.write_all(&plots(jobs)).unwrap();
        input
    });
    let answers = BufReader::new(batch.stdout.take().unwrap()).lines();
    assert_eq!(answers.take(jobs).map_while(Result::ok).count(), jobs);
    let status = fs::read_to_string(format!("/proc/{}/status", batch.id())).unwrap_or_default();
    drop(writing.join().unwrap());
    assert!(batch.wait().unwrap().success());
    let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    peak.map_or_else(|| "an amount not known here".to_owned(), |peak| peak.trim().to_owned())
}

/// Every question of the invented garden room, in process, its job read and checked beforehand.
#[divan::bench(args = Question::ALL.map(Question::name))]
fn garden_room(bencher: Bencher<'_, '_>, name: &str) {
    let question = Question::ALL.into_iter().find(|question| question.name() == name).unwrap();
    let job = Job::check(&read(include_str!("../../examples/garden-room.json")).unwrap()).unwrap();
    // It has no list of pieces and no offset-block readings: those two answer with what is missing.
    bencher.bench(|| job.answer(question).is_ok());
}

/// The L with its own eleven readings, one of them a slip; a staircase of 26 corners with 300 readings, 30 of them slips.
#[divan::bench(args = ["L, 11 readings", "L, 11 readings, a slip", "26 corners, 300 readings, 30 slips"])]
fn judging(bencher: Bencher<'_, '_>, case: &str) {
    let (plan, taken) = match case {
        "L, 11 readings" => ell(0.0),
        "L, 11 readings, a slip" => ell(100.0),
        _ => staircase(),
    };
    let tapes = [TapeUse::default()];
    bencher.bench(|| readings(&Input::new(&plan, &taken, &tapes)).unwrap());
}

/// A reading to the millimetre, some tenths off as real ones are.
fn reading(points: &[Point], from: usize, to: usize, slip: f64) -> Reading {
    let off = f64::from(u32::try_from((7 * from + 3 * to) % 5).unwrap()) / 2.0 - 1.0;
    Reading::new(from, to, (points[from].distance(points[to]) + off + slip).round())
}

fn ell(slip: f64) -> (Footprint, Vec<Reading>) {
    let plan = parse_expression("7800x6000-3000x2400", Units::Mm).unwrap().0;
    let lines = [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 0), (0, 3), (1, 4), (3, 5), (1, 5), (2, 4)];
    let taken = lines.map(|(a, b)| reading(&plan.points(), a, b, if (a, b) == (1, 5) { slip } else { 0.0 }));
    (plan, taken.to_vec())
}

fn staircase() -> (Footprint, Vec<Reading>) {
    let steps = (1..=12).map(f64::from).flat_map(|k| {
        [Point::new(13_000.0 - 1000.0 * k, 900.0 * k), Point::new(12_000.0 - 1000.0 * k, 900.0 * k)]
    });
    let points: Vec<Point> =
        [Point::new(0.0, 0.0), Point::new(12_000.0, 0.0)].into_iter().chain(steps).collect();
    let plan = Footprint::from_points(&points).unwrap();
    let lines = (0..26).flat_map(|from| (from + 1..26).map(move |to| (from, to))).take(300);
    let slip = |i: usize| if i % 10 == 3 { [100.0, -100.0, 60.0][i / 10 % 3] } else { 0.0 };
    let taken = lines.enumerate().map(|(i, (from, to))| reading(&points, from, to, slip(i))).collect();
    (plan, taken)
}

/// Fifteen readings of the L adjusted; beside it, where Python has `SciPy`, `tests/bench/adjustment.py` does the same.
#[divan::bench]
fn adjustment_of_fifteen_readings(bencher: Bencher<'_, '_>) {
    let points = ell(0.0).0.points();
    let lines = (0..6).flat_map(|from| (from + 1..6).map(move |to| (from, to)));
    let observations: Vec<Observation> = lines
        .map(|(from, to)| Observation { from, to, value: reading(&points, from, to, 3.0).value, sd: 1.5 })
        .collect();
    bencher.bench(|| adjust(&points, &observations, Datum::Free).unwrap());
}

/// A list of pieces, by ours and by a general-purpose solver given every pattern: both find and prove the least cost.
#[divan::bench(args = ["ours", "general-purpose solver"])]
fn twenty_one_pieces(bencher: Bencher<'_, '_>, by: &str) {
    let list = PieceList {
        pieces: [(900, 6), (1200, 5), (1500, 4), (2350, 3), (3100, 3)]
            .map(|(mm, count)| Wanted { length: Tenths::from_mm(mm), count })
            .to_vec(),
        stock: [(3600, 1080), (4800, 1560), (6000, 2160)]
            .map(|(mm, pence)| Stock { length: Tenths::from_mm(mm), price: Pence(pence), count: None })
            .to_vec(),
        rules: Rules { kerf: Tenths::from_mm(3), ..Rules::default() },
        effort: Effort::default(),
    };
    let ours = cut_pieces(&list).unwrap();
    assert!(ours.proven);
    assert_eq!(mip::cheapest_pieces(&list), Some(ours.cost.0));
    if by == "ours" {
        bencher.bench(|| cut_pieces(&list).unwrap().cost.0);
    } else {
        bencher.bench(|| mip::cheapest_pieces(&list).unwrap());
    }
}

/// Plates over all ways round the corners: a T of 8 runs, a stepped plan of 12 corners, one of 16, and a T with a head binder
/// and six partitions, 28 runs.
#[divan::bench(sample_count = 5, args = ["T", "12 corners", "16 corners", "T, binder, six partitions"])]
fn whole_house(bencher: Bencher<'_, '_>, case: &str) {
    let plan = match case {
        "12 corners" => "9000x6000-1500x1200@tl-1500x1200@tr-2000x1500@bl-2000x1500@br",
        "16 corners" => "12000x7000-1500x1200@tl-1500x1200@tr-2000x1500@bl-2000x1500@br+1600x900@5000",
        _ => "10000x2600+3800x1800",
    };
    let (footprint, _) = parse_expression(plan, Units::Mm).unwrap();
    let for_sale = [(3600, 1080), (4800, 1560), (6000, 2160)].map(|(mm, pence)| ForSale {
        length: Tenths::from_mm(mm),
        price: Some(Pence(pence)),
        count: None,
    });
    let mut options =
        plates::Options::new(140.0, Timber { for_sale: for_sale.to_vec(), ..Timber::default() });
    if case.contains("binder") {
        options.binder = true;
        options.partitions = [2100.0, 2900.0, 3300.0, 3600.0, 4100.0, 2600.0]
            .into_iter()
            .enumerate()
            .map(|(place, length)| plates::Partition { name: format!("P{place}"), length })
            .collect();
    }
    bencher.bench(|| plates::plates(&footprint, &options).unwrap().proven);
}

/// Twenty made lists, one after the other: 120 pieces of 20 to 100 from 150; 60 that fill twenty bars of 1000 by threes, with
/// nothing over; and six joiner's lists of 500 pieces from three priced lengths.
#[divan::bench(sample_count = 2, args = ["120 pieces", "60 by threes", "500 pieces"])]
fn made_lists(bencher: Bencher<'_, '_>, case: &str) {
    let lists: Vec<PieceList> = match case {
        "120 pieces" => {
            (1..=20).map(|seed| made(seed, &[(150, 1)], 0, |draw| from(draw, 20, 100), 120)).collect()
        }
        "60 by threes" => (1..=20).map(by_threes).collect(),
        _ => {
            let stock = [(36_000, 1080), (48_000, 1560), (60_000, 2160)];
            let list = |seed| made(seed, &stock, 30, |draw| 250 * from(draw, 12, 116), 500);
            (1..=6).map(list).map(|list| PieceList { effort: stock::effort(5.0).unwrap(), ..list }).collect()
        }
    };
    let cut: Vec<CutList> = lists.iter().map(|list| cut_pieces(list).unwrap()).collect();
    let proven = cut.iter().filter(|cut| cut.proven).count();
    let gap = |cut: &CutList| cut.gap.map_or(0.0, |gap| 100.0 * gap.0 as f64 / cut.cost.0 as f64);
    let gap = cut.iter().map(gap).fold(0.0, f64::max);
    println!("{case}: {proven} of {} proven, the others within {gap:.2} %", lists.len());
    bencher.bench(|| lists.iter().map(|list| cut_pieces(list).unwrap().cost.0).sum::<i64>());
}

/// A number from `least` to `most` (Marsaglia's xorshift).
fn from(draw: &mut u64, least: u64, most: u64) -> i64 {
    *draw ^= *draw << 13;
    *draw ^= *draw >> 7;
    *draw ^= *draw << 17;
    i64::try_from(least + *draw % (most - least + 1)).unwrap()
}

fn made(
    seed: u64,
    stock: &[(i64, i64)],
    kerf: i64,
    length: impl Fn(&mut u64) -> i64,
    count: usize,
) -> PieceList {
    let mut draw = seed * 77_777 + 5;
    list((0..count).map(|_| length(&mut draw)).collect(), stock, kerf)
}

fn by_threes(seed: u64) -> PieceList {
    let mut draw = seed * 91_237 + 5;
    let threes = (0..20).flat_map(|_| {
        let first = from(&mut draw, 380, 490);
        let second = from(&mut draw, 250, u64::try_from((1000 - first) / 2).unwrap());
        [first, second, 1000 - first - second]
    });
    list(threes.collect(), &[(1000, 1)], 0)
}

fn list(lengths: Vec<i64>, stock: &[(i64, i64)], kerf: i64) -> PieceList {
    let mut counts = BTreeMap::new();
    for length in lengths {
        *counts.entry(length).or_insert(0) += 1;
    }
    PieceList {
        pieces: counts.into_iter().map(|(length, count)| Wanted { length: Tenths(length), count }).collect(),
        stock: stock
            .iter()
            .map(|&(length, price)| Stock { length: Tenths(length), price: Pence(price), count: None })
            .collect(),
        rules: Rules { kerf: Tenths(kerf), ..Rules::default() },
        effort: stock::effort(1.0).unwrap(),
    }
}

/// A rectangle, an L, a T, and a stepped plan of 12 corners.
const PLANS: [&str; 4] = [
    "7800x6000",
    "7800x6000-3000x2400",
    "9000x3000+3600x2400",
    "9000x6000-1500x1200@tl-1500x1200@tr-2000x1500@bl-2000x1500@br",
];

#[divan::bench(args = PLANS)]
fn check_sizes(bencher: Bencher<'_, '_>, plan: &str) {
    let (footprint, _) = parse_expression(plan, Units::Mm).unwrap();
    bencher.bench(|| diagonals(&footprint, &Options::default()));
}

#[divan::bench]
fn job_text_to_check_sizes(bencher: Bencher<'_, '_>) {
    let text = r#"{"name": "Plot 1", "plan": "7800x6000-3000x2400", "house": ["AB"]}"#;
    bencher.bench(|| {
        let job = Job::check(&read(text).unwrap()).unwrap();
        job.answer(Question::Diagonals).unwrap()
    });
}

/// The nine footprints of the fixture, one after the other.
#[divan::bench(args = ["flat cheapest", "flat fewest", "graded cheapest", "graded fewest"])]
fn nine_footprints(bencher: Bencher<'_, '_>, case: &str) {
    let (prices, favour) = case.split_once(' ').unwrap();
    let favour = if favour == "cheapest" { Favour::Cost } else { Favour::Splices };
    let problems = problems(prices, favour);
    bencher.bench(|| {
        let layouts: Vec<_> = problems.iter().map(|problem| plan_runs(problem).unwrap()).collect();
        assert!(layouts.iter().all(|layout| layout.proven));
        layouts
    });
}

fn problems(prices: &str, favour: Favour) -> Vec<Problem> {
    let file: Value = serde_json::from_str(include_str!("../../fixtures/plates.json")).unwrap();
    let mm = |value: &Value| Tenths::from_mm(value.as_i64().unwrap());
    let list = |value: &Value| value.as_array().unwrap().clone();
    let run = |run: &Value| Run {
        name: run["name"].as_str().unwrap().to_owned(),
        length: mm(&run["length"]),
        splices: Some(list(&run["splice_allowed"]).iter().map(|zone| (mm(&zone[0]), mm(&zone[1]))).collect()),
    };
    let stock = |stock: &Value| Stock {
        length: mm(&stock["length"]),
        price: Pence(stock["pence"].as_i64().unwrap()),
        count: None,
    };
    list(&file["footprints"])
        .iter()
        .map(|footprint| Problem {
            runs: list(&footprint["runs"]).iter().map(run).collect(),
            stock: list(&file["stock"][prices]).iter().map(stock).collect(),
            rules: Rules { kerf: mm(&file["kerf"]), least_piece: mm(&file["min_piece"]), ..Rules::default() },
            favour,
            effort: Effort::default(),
        })
        .collect()
}
