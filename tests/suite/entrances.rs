//! Every entrance of the library for bytes that may be anything: what the corpus test and the fuzz target drive.
//!
//! An entrance reads its bytes as the program would, answers what can be answered, and prints it every way.

use pegline::answer::{Answered, Envelope, Question};
use pegline::exact::parse_money;
use pegline::job::{Job, JobFile, LARGEST_FILE, LengthEntry, locate, read, read_prices};
use pegline::length::{Length, Units};
use pegline::page::{Detail, Look, Page, Rows, Spreadsheet, text};
use pegline::practice::{ClassMarks, Form, Pupil, Returned, mark, read_form, read_text};
use pegline::report::page;
use pegline::report::practice::{
    answer_rows, answer_sheet, mark_rows, marked_class, marked_sheet, question_rows, question_sheet,
};
use serde_json::{Map, Value, json};

/// An entrance's name, and the entrance.
type Entrance = (&'static str, fn(&[u8]));

/// The entrances by name; each has its folder in fixtures/corpus.
pub(crate) const ALL: [Entrance; 10] = [
    ("lengths", lengths),
    ("plans", plans),
    ("walks", walks),
    ("jobs", jobs),
    ("readings", readings),
    ("levels", levels),
    ("stock", stock),
    ("lines", lines),
    ("sheets", sheets),
    ("prices", prices),
];

/// Seconds of search where a list is cut: enough to enter every part of it.
const SECONDS: f64 = 0.01;

/// A length, a price and the name of units, in each of the units.
fn lengths(bytes: &[u8]) {
    let Ok(word) = str::from_utf8(bytes) else { return };
    let _money = parse_money(word).map_err(|error| error.to_string());
    let _units = word.parse::<Units>().map_err(|error| error.to_string());
    for bare in Units::ALL {
        let _positive = Length::parse_positive(word, bare).map_err(|error| error.to_string());
        match Length::parse(word, bare) {
            Ok(length) => {
                assert!(length.mm.is_finite(), "{word} is {}", length.mm);
                for units in Units::ALL {
                    assert_reads_back(&units.with_unit(length.mm), length.mm, units);
                    let _exact = units.exact(length.mm);
                }
            }
            Err(error) => assert!(!error.to_string().is_empty()),
        }
    }
}

/// What is printed is a length again, and the same to the nearest mark of a tape.
fn assert_reads_back(printed: &str, mm: f64, units: Units) {
    let again = Length::parse(printed, units).map(|length| length.mm);
    assert!(
        again.as_ref().is_ok_and(|again| (again - mm).abs() <= 0.8),
        "{mm} mm is printed {printed}, which reads {again:?}"
    );
}

/// A plan in one line, then the house sides.
fn plans(bytes: &[u8]) {
    footprint(bytes, "plan");
}

/// A walk in one line, then the house sides.
fn walks(bytes: &[u8]) {
    footprint(bytes, "walk");
}

fn footprint(bytes: &[u8], spelling: &str) {
    let Ok(words) = str::from_utf8(bytes) else { return };
    let (plan, house) = words.split_once('\n').unwrap_or((words, ""));
    let mut job = Map::from_iter([(spelling.to_owned(), json!(plan))]);
    if !house.is_empty() {
        job.insert("house".to_owned(), json!(house.split(',').collect::<Vec<_>>()));
    }
    answer(job, &[Question::Diagonals, Question::Corners]);
}

/// A job file.
fn jobs(bytes: &[u8]) {
    let Ok(words) = str::from_utf8(bytes) else { return };
    match read(words) {
        Ok(file) => answer_file(file, &Question::ALL, words),
        Err(error) => {
            assert!(!error.faults.is_empty(), "refused without a fault");
            for (fault, place) in error.faults {
                let _shown = (fault.to_string(), place.echo());
            }
        }
    }
}

/// A price list, for a small job that orders a little of everything.
fn prices(bytes: &[u8]) {
    let Ok(words) = str::from_utf8(bytes) else { return };
    match read_prices(words) {
        Ok(list) => {
            let job = include_str!("../../fixtures/order/job.json");
            let Ok(mut file) = read(job) else { return };
            let mut section = file.order.take().unwrap_or_default();
            section.prices = Some(list.entries);
            file.order = Some(section);
            answer_file(file, &[Question::Order], words);
        }
        Err(error) => {
            assert!(!error.faults.is_empty(), "refused without a fault");
            for (fault, place) in error.faults {
                let _shown = (fault.to_string(), place.echo());
            }
        }
    }
}

fn readings(bytes: &[u8]) {
    section(bytes, &[Question::Readings]);
}

fn levels(bytes: &[u8]) {
    section(bytes, &[Question::Packs, Question::Heights]);
}

fn stock(bytes: &[u8]) {
    section(bytes, &[Question::Plates, Question::Cuts]);
}

fn lines(bytes: &[u8]) {
    section(bytes, &[Question::Lines, Question::Straight, Question::Corners]);
}

/// Words as they stand behind options, a field a line: `plan 7800x6000`, `readings.read AB=7802,BC=3601`. The kind of each
/// value is the one that reads: a list for a field that takes one, or a text, a number, a yes.
fn section(bytes: &[u8], questions: &[Question]) {
    let Ok(words) = str::from_utf8(bytes) else { return };
    let mut job = Map::new();
    for line in words.lines() {
        let (path, value) = line.split_once(' ').unwrap_or((line, ""));
        let (section, field) = path.split_once('.').unwrap_or((path, ""));
        let value = value_of(path, value);
        if field.is_empty() {
            job.insert(section.to_owned(), value);
        } else if let Some(section) =
            job.entry(section).or_insert_with(|| Value::Object(Map::new())).as_object_mut()
        {
            section.insert(field.to_owned(), value);
        }
    }
    answer(job, questions);
}

fn value_of(path: &str, words: &str) -> Value {
    let list = || words.split(',').collect::<Vec<_>>();
    let objects = |first: &str, second: &str, mark: char| {
        let object = |word: &str| {
            let (a, b) = word.split_once(mark).unwrap_or((word, ""));
            let number = b.parse::<u64>().map_or_else(|_| json!(b), |number| json!(number));
            json!({ first: a, second: number })
        };
        Value::from(words.split(',').map(object).collect::<Vec<_>>())
    };
    match path {
        "house" | "readings.read" | "readings.rise" | "packs.packers" | "heights.drops" | "heights.stack"
        | "corners.tapes" | "lines.points" => json!(list()),
        "packs.staff" | "packs.heights" => {
            json!(words.split(';').map(|s| s.split(',').collect()).collect::<Vec<Vec<_>>>())
        }
        "stock.lengths" => objects("length", "price", ':'),
        "stock.have" | "cuts.pieces" => objects("length", "count", '*'),
        "straight.readings" => objects("at", "reading", '='),
        "lines.layers" => objects("name", "width", '='),
        "readings.masonry" | "plates.binder" | "tape.from_hook" => json!(words == "yes"),
        _ => serde_json::from_str(words)
            .ok()
            .filter(|value: &Value| words.starts_with('{') && value.is_object())
            .unwrap_or_else(|| json!(words)),
    }
}

/// Answers a job that is written in words.
fn answer(job: Map<String, Value>, questions: &[Question]) {
    let words = Value::from(job).to_string();
    if let Ok(file) = read(&words) {
        answer_file(file, questions, &words);
    }
}

fn answer_file(mut file: JobFile, questions: &[Question], words: &str) {
    if let Some(cuts) = &mut file.cuts {
        cuts.seconds = cuts.seconds.map_or(Some(SECONDS), |seconds| Some(seconds.min(SECONDS)));
    }
    if let Some(plates) = &mut file.plates {
        plates.seconds = plates.seconds.map_or(Some(SECONDS), |seconds| Some(seconds.min(SECONDS)));
    }
    let over = JobFile { studs: Some(LengthEntry::Text("600".to_owned())), ..JobFile::default() };
    file.clone().overlaid(&over).expect("what is typed can be laid over a file");
    let job = match Job::check(&file) {
        Ok(job) => job,
        Err(faults) => {
            assert!(!faults.is_empty(), "refused without a fault");
            for fault in faults {
                let _shown = (fault.to_string(), locate(words, &fault.field).echo());
            }
            return;
        }
    };
    for &question in questions {
        let answer = match job.answer(question) {
            Ok(answer) => answer,
            Err(error) => {
                assert!(!error.to_string().is_empty(), "refused without a word");
                continue;
            }
        };
        let steps = answer.steps(&job);
        let page = page(&answer, &job, Detail::Full, 80, &steps);
        let envelope = Envelope::new(question, &job, &answer, &steps, &page.remarks);
        let json = serde_json::to_string(&envelope).expect("an answer is JSON");
        print(&page, answer.rows(job.units), &json, words);
    }
}

/// Prints a page every way. A number that is none is null in JSON and shows on a page, unless it is a name that was `given`.
fn print(page: &Page, rows: Rows, json: &str, given: &str) {
    let _value: Value = serde_json::from_str(json).expect("what is printed as JSON is JSON");
    for ascii in [false, true] {
        let printed = text(page, Look { ascii, ..Look::default() });
        for word in printed.split(|c: char| c.is_whitespace() || matches!(c, '±' | ',')) {
            let none =
                matches!(word, "NaN" | "inf" | "-inf") && !given.contains(word.trim_start_matches('-'));
            assert!(!none, "no number on\n{printed}");
        }
    }
    rows.csv(Spreadsheet::default()).expect("an answer's rows are CSV");
}

/// A sheet of no one by name.
fn alone<S: Clone>(sheet: &S) -> Pupil<S> {
    Pupil { name: String::new(), sheet: sheet.clone() }
}

/// A filled practice sheet, plain or as JSON.
fn sheets(bytes: &[u8]) {
    let Ok(words) = str::from_utf8(bytes) else { return };
    if words.len() > LARGEST_FILE {
        return;
    }
    let reading = if words.trim_start().starts_with('{') {
        let Ok(form) = serde_json::from_str::<Form>(words) else {
            return;
        };
        read_form(&form)
    } else {
        read_text(words)
    };
    let reading = match reading {
        Ok(reading) => reading,
        Err(faults) => {
            for fault in faults {
                assert!(!fault.to_string().is_empty());
            }
            return;
        }
    };
    let sheet = &reading.sheet;
    print(&question_sheet(sheet, ""), question_rows(&[alone(sheet)]), &json!(sheet).to_string(), words);
    let answers = sheet.answers();
    print(&answer_sheet(&answers, ""), answer_rows(&[alone(&answers)]), &json!(answers).to_string(), words);
    let returned = [Returned { file: "sheet".to_owned(), marks: mark(&reading) }];
    let marks = &returned[0].marks;
    print(&marked_sheet(&returned[0]), mark_rows(&returned), &json!(marks).to_string(), words);
    let class = ClassMarks::of(returned.into());
    print(&marked_class(&class), mark_rows(&class.sheets), &json!(class).to_string(), words);
}
