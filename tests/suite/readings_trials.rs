//! What is said of a day's taping, tried on many invented jobs: slips and crooked building drawn from other laws than the
//! program's own table of them, too.

use pegline::geometry::Point;
use pegline::length::Units;
use pegline::plan::{Footprint, parse_expression, parse_walk};
use pegline::readings::{Input, Limit, MASONRY_ENDS, Reading, Readings, TapeUse, Verdict, readings};
use pegline::square::{Options, diagonals};
use pegline::tape::Tape;

/// A small generator of our own (a 64-bit mixing counter), so that a run can be repeated anywhere.
#[derive(Debug)]
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Evenly between 0 and 1.
    pub(crate) fn even(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of so many.
    pub(crate) fn pick(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % count as u64).unwrap()
    }

    /// A normal figure with this standard deviation: by the polar angle of a pair.
    pub(crate) fn normal(&mut self, sd: f64) -> f64 {
        let radius = (-2.0 * (1.0 - self.even()).ln()).sqrt();
        sd * radius * (std::f64::consts::TAU * self.even()).cos()
    }

    /// This, long or short.
    fn either_way(&mut self, by: f64) -> f64 {
        if self.even() < 0.5 { by } else { -by }
    }
}

/// An outline, and the lines taped on it.
#[derive(Clone)]
pub(crate) struct Site {
    pub(crate) plan: Footprint,
    pub(crate) lines: Vec<(usize, usize)>,
}

impl Site {
    /// With all sides and these diagonals; or, of none, with the program's own set and spares.
    pub(crate) fn new(plan: Footprint, names: &[&str]) -> Self {
        let own = diagonals(&plan, &Options::default()).unwrap();
        let own: Vec<&str> = own.proof.names.iter().chain(&own.spares.names).map(String::as_str).collect();
        let names = if names.is_empty() { &own } else { names };
        let n = plan.len();
        let sides = (0..n).map(|i| (i, (i + 1) % n));
        let lines = sides.chain(names.iter().map(|name| plan.parse_line(name).unwrap())).collect();
        Self { plan, lines }
    }
}

/// A rectangle, an L with the fewest spares and with every diagonal, a T and a stepped plan of ten corners.
pub(crate) fn sites() -> Vec<Site> {
    let plan = |text: &str| parse_expression(text, Units::Mm).unwrap().0;
    let walk = |text: &str| parse_walk(text, Units::Mm).unwrap().0;
    let ell = "7800x6000-3000x2400";
    vec![
        Site::new(plan("6000x4200"), &[]),
        Site::new(plan(ell), &[]),
        Site::new(plan(ell), &["AC", "AD", "AE", "BD", "BE", "BF", "CE", "CF", "DF"]),
        Site::new(walk("8400 R 3000 R 2400 L 3300 R 3600 R 3300 L 2400 R 3000"), &[]),
        Site::new(walk("7070 R 1910 R 1500 L 2120 R 1670 L 1290 R 1160 L 1130 R 2740 R 6450"), &[]),
    ]
}

/// How it was built: the corners as they stand.
type Built = fn(&Site, &mut Dice) -> Vec<Point>;

fn scattered(site: &Site, mut by: impl FnMut() -> f64) -> Vec<Point> {
    site.plan.points().iter().map(|p| Point::new(p.x + by(), p.y + by())).collect()
}

pub(crate) fn built_within<const SD: u32>(site: &Site, dice: &mut Dice) -> Vec<Point> {
    scattered(site, || dice.normal(f64::from(SD)))
}

/// Anywhere within 15 mm, all alike.
fn built_anywhere(site: &Site, dice: &mut Dice) -> Vec<Point> {
    scattered(site, || 30.0 * (dice.even() - 0.5))
}

fn perfect(site: &Site, dice: &mut Dice) -> Vec<Point> {
    scattered(site, || dice.normal(0.5))
}

/// Nearly right, but for one side that stands 100 in or out.
fn one_side_out(site: &Site, dice: &mut Dice) -> Vec<Point> {
    let mut built = scattered(site, || dice.normal(3.0));
    let side = dice.pick(site.plan.len());
    let by = dice.either_way(100.0);
    let (x, y) = site.plan.sides()[side].heading.outward();
    for corner in [site.plan.sides()[side].from, site.plan.sides()[side].to] {
        built[corner] = Point::new(built[corner].x + by * x, built[corner].y + by * y);
    }
    built
}

/// Nearly right, but for one corner that stands 60 across or down from its place.
fn one_corner_out(site: &Site, dice: &mut Dice) -> Vec<Point> {
    let mut built = scattered(site, || dice.normal(3.0));
    let corner = dice.pick(site.plan.len());
    let by = dice.either_way(60.0);
    let p = built[corner];
    built[corner] = if dice.even() < 0.5 { Point::new(p.x + by, p.y) } else { Point::new(p.x, p.y + by) };
    built
}

/// One reading's slip, mm; none where nobody slips.
type Slip = fn(&mut Dice) -> f64;

pub(crate) fn usual(dice: &mut Dice) -> f64 {
    let sizes = [30.0, 100.0, 200.0, 1000.0];
    let size = sizes[dice.pick(sizes.len())];
    dice.either_way(size)
}

pub(crate) fn of_any_size(dice: &mut Dice) -> f64 {
    let size = 11.0 + 289.0 * dice.even();
    dice.either_way(size)
}

fn small(dice: &mut Dice) -> f64 {
    let size = 10.0 + 80.0 * dice.even();
    dice.either_way(size)
}

/// A kind of day.
#[derive(Clone, Copy)]
struct Kind {
    name: &'static str,
    built: Built,
    /// How vague each corner's mark is for each line taped to it, mm.
    vague: f64,
    slip: Option<Slip>,
    /// How roughly the tape's ends are said to be held, mm.
    ends: f64,
    /// What 0.1.0 made of 1,000 such jobs.
    before: &'static str,
}

const CLEAN: Kind = Kind {
    name: "clean, built within 5",
    built: built_within::<5>,
    vague: 0.0,
    slip: None,
    ends: 0.0,
    before: "4 accused",
};

/// Brickwork by the program's own default for its ends: crooked, and its corners vague by 2.
const BRICK: Kind = Kind {
    name: "masonry",
    built: built_within::<15>,
    vague: 2.0,
    slip: None,
    ends: MASONRY_ENDS,
    before: "",
};

const KINDS: [Kind; 16] = [
    Kind { name: "slip of 30, 100, 200, 1000", slip: Some(usual), before: "835 right, 45 innocent", ..CLEAN },
    Kind {
        name: "slip of any size, 11 to 300",
        slip: Some(of_any_size),
        before: "883 right, 32 innocent",
        ..CLEAN
    },
    Kind {
        name: "the same, built within 15",
        slip: Some(of_any_size),
        built: built_within::<15>,
        before: "873 right, 34 innocent",
        ..CLEAN
    },
    Kind {
        name: "the same, anywhere in 15",
        slip: Some(of_any_size),
        built: built_anywhere,
        before: "",
        ..CLEAN
    },
    Kind { name: "the same, corners vague by 2", slip: Some(of_any_size), vague: 2.0, before: "", ..CLEAN },
    Kind {
        name: "perfect plate, slip of 10 to 90",
        slip: Some(small),
        built: perfect,
        before: "617 right, 74 innocent, 25 moved",
        ..CLEAN
    },
    CLEAN,
    Kind { name: "clean, built within 15", built: built_within::<15>, before: "20 accused", ..CLEAN },
    Kind { name: "clean, built anywhere in 15", built: built_anywhere, before: "", ..CLEAN },
    Kind { name: "clean, corners vague by 2", vague: 2.0, before: "423 accused", ..CLEAN },
    Kind { name: "clean, corners vague by 4", vague: 4.0, before: "", ..CLEAN },
    Kind { name: "clean, one side 100 out", built: one_side_out, before: "125 accused", ..CLEAN },
    Kind { name: "clean, one corner 60 out", built: one_corner_out, before: "22 accused", ..CLEAN },
    Kind { name: "masonry, slip of any size", slip: Some(of_any_size), ..BRICK },
    Kind { name: "masonry, clean", ..BRICK },
    Kind { name: "masonry, clean, vague by 4", vague: 4.0, ..BRICK },
];

/// What came of a kind's jobs.
#[derive(Debug, Default, Clone, Copy)]
struct Tally {
    jobs: usize,
    /// The wrong reading, and no other, is named.
    right: usize,
    /// A reading is named that is not wrong.
    innocent: usize,
    /// Nothing is named, and a tape is asked for.
    open: usize,
    /// Nothing is said of any reading.
    silent: usize,
    /// Something is told to move by more than 8 mm.
    moved: usize,
}

/// Tapes the lines of what was built by a class II tape, to the millimetre; which reading slipped.
fn tape(site: &Site, kind: &Kind, dice: &mut Dice) -> (Vec<Reading>, Option<usize>) {
    let built = (kind.built)(site, dice);
    let mut taken = taped(site, &built, kind.vague, dice);
    let slipped = kind.slip.map(|slip| (dice.pick(site.lines.len()), slip(dice)));
    if let Some((index, slip)) = slipped {
        taken[index].value = (taken[index].value + slip).round();
    }
    (taken, slipped.map(|(index, _)| index))
}

/// The same with nobody slipping.
pub(crate) fn taped(site: &Site, built: &[Point], vague: f64, dice: &mut Dice) -> Vec<Reading> {
    let read = |(from, to): &(usize, usize)| {
        let length = built[*from].distance(built[*to]);
        let ends = dice.normal(vague) + dice.normal(vague);
        Reading::new(
            *from,
            *to,
            (length + dice.normal(Tape::default().standard_deviation(length)) + ends).round(),
        )
    };
    site.lines.iter().map(read).collect()
}

fn judge(site: &Site, kind: &Kind, taken: &[Reading]) -> Readings {
    let tape = Tape { ends: kind.ends, ..Tape::default() };
    let limit = Some(Limit::Own(10.0));
    readings(&Input { limit, ..Input::new(&site.plan, taken, &[TapeUse { tape, ..TapeUse::default() }]) })
        .unwrap()
}

fn tally(sites: &[Site], kind: &Kind, jobs: usize, seed: u64) -> Tally {
    let mut dice = Dice::new(seed);
    let mut tally = Tally { jobs, ..Tally::default() };
    for _ in 0..jobs {
        let site = &sites[dice.pick(sites.len())];
        let (taken, slipped) = tape(site, kind, &mut dice);
        let answer = judge(site, kind, &taken);
        let wrong = slipped.map(|index| site.plan.line_name(site.lines[index].0, site.lines[index].1));
        let named: Vec<&String> = answer.misreads.iter().filter_map(|m| m.name.as_ref()).collect();
        if named.iter().any(|name| Some(*name) != wrong.as_ref()) {
            tally.innocent += 1;
        } else if !named.is_empty() {
            tally.right += 1;
        } else if answer.verdict == Verdict::Misread {
            tally.open += 1;
        } else {
            tally.silent += 1;
        }
        let far = |m: &pegline::readings::Move| m.sure && m.distance.0 > 8.0;
        tally.moved += usize::from(answer.moves.iter().any(far));
    }
    tally
}

/// Prints the table: `cargo test --release --test suite -- --ignored --nocapture many_invented`.
#[test]
#[ignore = "prints a table; takes a minute or two"]
#[expect(clippy::print_stdout, reason = "the table is what it is for")]
fn what_is_said_of_many_invented_days() {
    let sites = sites();
    println!(
        "{:33} {:>6} {:>6} {:>8} {:>6} {:>6} {:>6}  0.1.0, of 1,000",
        "", "jobs", "right", "innocent", "open", "silent", "moved"
    );
    for (i, kind) in KINDS.iter().enumerate() {
        let t = tally(&sites, kind, 2000, 1000 + i as u64);
        println!(
            "{:33} {:6} {:6} {:8} {:6} {:6} {:6}  {}",
            kind.name, t.jobs, t.right, t.innocent, t.open, t.silent, t.moved, kind.before
        );
    }
    for kind in KINDS.iter().filter(|kind| kind.slip.is_none()) {
        let (passed, said) = detection(kind, 1000, 7);
        println!("{}: of 1000 slips said to show (median {said:.0} mm) {passed} pass", kind.name);
    }
}

/// Of clean days, `jobs` of them, with the slip that the page says would show put on the weakest line of the same plate taped
/// anew: how many of those pass unseen. And the median of what is said.
fn detection(kind: &Kind, jobs: usize, seed: u64) -> (usize, f64) {
    let (sites, mut dice) = (sites(), Dice::new(seed));
    let mut said: Vec<f64> = Vec::new();
    let mut passed = 0;
    while said.len() < jobs {
        let site = &sites[dice.pick(sites.len())];
        let mut plate = Dice::new(dice.next());
        let built = (kind.built)(site, &mut plate);
        let clean = judge(site, kind, &taped(site, &built, kind.vague, &mut dice));
        let Some((slip, weakest)) = clean.shows.zip(clean.weakest) else { continue };
        let mut taken = taped(site, &built, kind.vague, &mut dice);
        let line = site.plan.parse_line(&weakest).unwrap();
        let slipped = taken.iter_mut().find(|r| (r.from, r.to) == line || (r.to, r.from) == line).unwrap();
        slipped.value = (slipped.value + dice.either_way(slip.0)).round();
        said.push(slip.0);
        passed += usize::from(judge(site, kind, &taken).verdict != Verdict::Misread);
    }
    said.sort_by(f64::total_cmp);
    (passed, said[jobs / 2])
}

/// Of perfect plates taped on the set that `diagonals` chooses for a limit, no more than one in 20 is too close to call; and
/// a limit that no lines can tell is said before anything is taped.
#[test]
fn a_set_chosen_for_a_limit_can_call_it() {
    let mut dice = Dice::new(11);
    for site in sites() {
        let chosen = |limit: f64| {
            let options = Options { limit: Some(limit), ..Options::default() };
            diagonals(&site.plan, &options).unwrap()
        };
        let least = chosen(0.1).limit.unwrap();
        assert!(!least.called && least.least_of_all.0 > 1.0);
        assert_eq!(
            chosen(0.1).spares.names,
            diagonals(&site.plan, &Options::default()).unwrap().spares.names
        );
        let limit = least.least_of_all.0 + 1.0;
        let set = chosen(limit);
        assert!(set.limit.unwrap().called && set.limit.unwrap().least.0 <= limit);
        let names: Vec<&str> = set.proof.names.iter().chain(&set.spares.names).map(String::as_str).collect();
        let site = Site::new(site.plan, &names);
        let plan = site.plan.points();
        let close = (0..60).filter(|_| {
            let taken = taped(&site, &plan, 0.0, &mut dice);
            let limit = Some(Limit::Own(limit));
            let tapes = [TapeUse::default()];
            let answer = readings(&Input { limit, ..Input::new(&site.plan, &taken, &tapes) }).unwrap();
            !answer.too_close.is_empty()
        });
        assert!(close.count() <= 5, "{names:?} at {limit}");
    }
}

/// The same, few of each: what a crew is told must hold in the suite too.
#[test]
fn the_innocent_are_not_named_nor_clean_jobs_accused() {
    let sites = sites();
    let (mut innocent, mut right, mut slipped) = (0, 0, 0);
    for (i, kind) in KINDS.iter().enumerate() {
        let t = tally(&sites, kind, 40, 500 + i as u64);
        innocent += t.innocent;
        if kind.slip.is_some() {
            slipped += t.jobs;
            right += t.right;
        } else {
            assert!(t.open + t.innocent <= 2, "{}: {t:?}", kind.name);
        }
        if kind.name.starts_with("perfect") {
            assert!(t.moved <= 1, "{t:?}");
        }
    }
    assert!(innocent <= 1, "{innocent} innocent readings named");
    assert!(right * 100 >= slipped * 78, "{right} of {slipped} named");
}
