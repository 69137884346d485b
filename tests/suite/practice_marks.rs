//! Marking: a filled sheet comes back right, each slip is known when it is planted, and what can't be read is told.
#![allow(clippy::float_cmp, clippy::cast_possible_truncation, reason = "whole millimetres are exact")]

use std::collections::BTreeSet;

use pegline::length::Units;
use pegline::page::{Look, text};
use pegline::practice::{
    Answer, Blank, Form, Kind, Level, Mark, Marks, Question, Sheet, Slip, Topic, Wrong, mark, read_form,
    read_text, sheets_in,
};
use pegline::report::practice::question_sheet;
use proptest::prelude::*;

use crate::practice_support::drawn;

/// What belongs in a blank, as a person writes it.
fn right(blank: &Blank, units: Units) -> String {
    match &blank.answer {
        Answer::Length(steps) if units == Units::Mm => steps.to_string(),
        Answer::Length(steps) => units.with_unit(*steps as f64 * units.tape_step()),
        Answer::Count(count) => count.to_string(),
        Answer::Word { right, .. } => right.clone(),
    }
}

/// The printed sheet with each blank filled by `fill`.
fn filled(sheet: &Sheet, fill: &dyn Fn(&Question, &Blank) -> String) -> String {
    let mut printed = text(&question_sheet(sheet, ""), Look::default());
    for question in &sheet.questions {
        for blank in &question.blanks {
            printed = printed.replacen("________", &fill(question, blank), 1);
        }
    }
    printed
}

fn marked(text: &str) -> Marks {
    mark(&read_text(text).unwrap())
}

#[test]
fn a_sheet_filled_right_is_all_right() {
    for topic in Topic::ALL {
        for level in Level::ALL {
            for units in [Units::Mm, Units::FeetInches] {
                for seed in 0..20 {
                    let sheet = drawn(topic, level, seed, 4, units);
                    let marks = marked(&filled(&sheet, &|_, blank| right(blank, units)));
                    assert_eq!((marks.verdict, marks.right), (Mark::Right, 4), "{marks:?}");
                }
            }
        }
    }
}

#[test]
fn a_sheet_left_empty_is_all_missing() {
    for units in [Units::Mm, Units::FeetInches] {
        let sheet = drawn(Topic::Packs, Level::Three, 5, 3, units);
        let marks = marked(&text(&question_sheet(&sheet, ""), Look::default()));
        assert!(marks.questions.iter().all(|question| question.mark == Mark::Missing));
        assert_eq!(marks.verdict, Mark::Missing);
    }
}

#[test]
fn an_ascii_sheet_with_carriage_returns_reads_the_same() {
    let sheet = drawn(Topic::Misread, Level::Three, 9, 3, Units::Mm);
    let look = Look { ascii: true, ..Look::default() };
    let mut printed = text(&question_sheet(&sheet, ""), look);
    assert!(printed.is_ascii());
    for question in &sheet.questions {
        for blank in &question.blanks {
            printed = printed.replacen("________", &right(blank, Units::Mm), 1);
        }
    }
    assert_eq!(marked(&printed.replace('\n', "\r\n")).verdict, Mark::Right);
}

/// Every wrong answer that a question expects is told by its slip, and between them the topics expect every slip.
#[test]
fn every_planted_slip_is_recognised() {
    let mut seen = BTreeSet::new();
    for topic in Topic::ALL {
        for level in Level::ALL {
            for units in [Units::Mm, Units::FeetInches] {
                for seed in 0..40 {
                    let sheet = drawn(topic, level, seed, 2, units);
                    plant(&sheet, units, &mut seen);
                }
            }
        }
    }
    // Those of any hand are planted one by one below.
    seen.extend([
        "swapped digits",
        "unit",
        "rounding",
        "round figure",
        "one mark",
        "minus left",
        "changed places",
        "feet decimals",
        "inch decimals",
        "too few packers",
        "too many packers",
    ]);
    let all: BTreeSet<&str> = Slip::ALL.iter().map(|slip| slip.name()).collect();
    assert_eq!(all.difference(&seen).collect::<Vec<_>>(), Vec::<&&str>::new());
}

fn plant(sheet: &Sheet, units: Units, seen: &mut BTreeSet<&'static str>) {
    for (q, question) in sheet.questions.iter().enumerate() {
        for (b, blank) in question.blanks.iter().enumerate() {
            for trap in &blank.traps {
                let wrong = match &trap.to {
                    Wrong::Length(steps) if units == Units::Mm => steps.to_string(),
                    Wrong::Length(steps) => units.with_unit(*steps as f64 * units.tape_step()),
                    Wrong::Bare { top, bottom } => (*top as f64 / *bottom as f64).to_string(),
                    Wrong::Count(count) => count.to_string(),
                    Wrong::Word(word) => word.clone(),
                };
                let at = (question.number, blank.label.as_str());
                let page = filled(sheet, &|question, other| {
                    if (question.number, other.label.as_str()) == at {
                        wrong.clone()
                    } else {
                        right(other, units)
                    }
                });
                let marks = marked(&page);
                let found = &marks.questions[q].blanks[b];
                assert_eq!((found.mark, found.slip), (Mark::Wrong, Some(trap.slip)), "{wrong} for {blank:?}");
                assert_eq!(marks.right, sheet.questions.len() - 1);
                seen.insert(trap.slip.name());
            }
        }
    }
}

/// The slip that `wrong`, worked out here by hand, is taken for in the first blank of a question.
fn slip_of(topic: Topic, level: Level, units: Units, find: &str, blank: usize, wrong: &str) -> &'static str {
    for seed in 0..3000 {
        let sheet = drawn(topic, level, seed, 1, units);
        let question = &sheet.questions[0];
        if question.given.contains(find) {
            let at = question.blanks[blank].label.clone();
            let page = filled(&sheet, &|_, other| {
                if other.label == at { wrong.to_owned() } else { right(other, units) }
            });
            let marks = marked(&page);
            return marks.questions[0].blanks[blank].slip.map_or("", Slip::name);
        }
    }
    panic!("no question with {find}")
}

#[test]
fn slips_worked_out_by_hand_are_recognised() {
    // A rectangle of 3200 by 6000: the diagonal is 6800, √(10240000 + 36000000).
    let diagonal =
        |wrong| slip_of(Topic::Diagonals, Level::One, Units::Mm, "AB 3200 mm, BC 6000 mm", 0, wrong);
    for (wrong, name) in [
        ("9200", "added sides"),
        ("46240000", "no root"),
        ("46240000 mm²", "no root"),
        ("23120000", "halved for root"),
        ("5075", "squares taken off"), // √(36000000 − 10240000) = 5075.43
        ("6000", "side for diagonal"),
        ("8600", "swapped digits"),
        ("6.8", "unit"),
        ("680", "unit"),
        ("6801", "rounding"),
        ("6799.2", "rounding"),
        ("6900", "round figure"),
        ("5800", "round figure"),
        ("7123", ""),
        ("6800", ""),
        ("6.8m", ""),
    ] {
        assert_eq!(diagonal(wrong), name, "{wrong}");
    }
    // 12 by 16 ft: 20 ft.
    let feet = |wrong| slip_of(Topic::Diagonals, Level::One, Units::FeetInches, "AB 12', BC 16'", 0, wrong);
    for (wrong, name) in [
        ("28ft", "added sides"),
        ("400", "no root"),
        ("240", "unit"), // inches written as feet
        ("20ft 1/16in", "rounding"),
        ("21ft", "round figure"),
        ("20ft 1in", "round figure"),
        ("20", ""),
        ("240in", ""),
    ] {
        assert_eq!(feet(wrong), name, "{wrong}");
    }
}

#[test]
fn packers_are_told_too_few_and_too_many() {
    let sheet = drawn(Topic::Packs, Level::One, 7, 6, Units::Mm);
    for (change, name) in [(-1, "too few packers"), (5, "too many packers")] {
        let page = filled(&sheet, &|_, blank| match blank.answer {
            Answer::Count(count) => (count + change).to_string(),
            _ => right(blank, Units::Mm),
        });
        let marks = marked(&page);
        for question in &marks.questions {
            assert_eq!(question.blanks[1].slip.map(Slip::name), Some(name));
        }
    }
}

#[test]
fn a_line_may_be_named_from_either_end_and_an_error_written_with_its_sign() {
    let sheet = drawn(Topic::Misread, Level::Two, 4, 3, Units::Mm);
    let page = filled(&sheet, &|_, blank| {
        let word = right(blank, Units::Mm);
        match blank.kind {
            Kind::Word => word.chars().rev().collect::<String>().to_lowercase(),
            _ => format!("-{word}"),
        }
    });
    assert_eq!(marked(&page).verdict, Mark::Right);
}

fn form(json: &str) -> Form {
    serde_json::from_str(json).unwrap()
}

#[test]
fn a_form_is_marked_like_the_sheet() {
    let sheet = drawn(Topic::Diagonals, Level::Two, 7, 3, Units::Mm);
    let answer = |i: usize| match sheet.questions[i].blanks[0].answer {
        Answer::Length(steps) => steps,
        _ => 0,
    };
    let json = format!(
        r#"{{"topic":"diagonals","level":2,"seed":7,"count":3,"answers":{{"1":{},"2":"{} mm"}}}}"#,
        answer(0),
        answer(1)
    );
    let marks = mark(&read_form(&form(&json)).unwrap());
    let found: Vec<Mark> = marks.questions.iter().map(|question| question.mark).collect();
    assert_eq!(found, [Mark::Right, Mark::Right, Mark::Missing]);
    assert_eq!(marks.verdict, Mark::Wrong);
}

fn form_faults(json: &str) -> Vec<String> {
    match read_form(&form(json)) {
        Err(faults) => faults.iter().map(ToString::to_string).collect(),
        Ok(reading) => mark(&reading).remarks,
    }
}

#[test]
fn a_form_that_cannot_be_read_says_where() {
    let head = r#""topic":"misread","level":1,"seed":7,"count":2"#;
    for (json, said) in [
        (
            r#"{"topic":"stairs","level":4,"seed":1,"count":2,"answers":{}}"#.to_owned(),
            vec![
                "topic: no topic `stairs`: write diagonals, corners, plates, packs, heights, misread, lines, straight, readings, joists or mixed",
                "level: no level `4`: write 1, 2 or 3",
            ],
        ),
        (
            r#"{"topic":"packs","level":1,"seed":1,"count":51,"answers":{}}"#.to_owned(),
            vec!["count: `51` questions: write a number from 1 to 50"],
        ),
        (
            r#"{"topic":"packs","level":1,"seed":1,"count":5,"units":"m","answers":{}}"#.to_owned(),
            vec!["units: no practice sheet is made in `m`: write mm or ft-in"],
        ),
        (
            r#"{"topic":"packs","level":1,"seed":1,"count":5,"edition":99,"answers":{}}"#.to_owned(),
            vec![
                "edition: the sheet is of edition `99` and this program makes edition 2: mark it with the program that printed it",
            ],
        ),
        (
            format!(r#"{{{head},"answers":{{"3":["AB",100]}}}}"#),
            vec!["answers.3: there is no question 3: the sheet has 2"],
        ),
        (
            format!(r#"{{{head},"answers":{{"1":100}}}}"#),
            vec![
                "answers.1: question 1 has 2 blanks, but 1 answer: write a list of 2, null for one left blank",
            ],
        ),
        (
            format!(r#"{{{head},"answers":{{"1":["ZZ","wide"]}}}}"#),
            vec![
                "answers.1: question 1, wrong reading: `ZZ` is none of its answers: write AB or BC or CD or DA or AC or BD",
                "answers.1: question 1, out by: `wide` is not a length: write one such as 6435",
            ],
        ),
    ] {
        assert_eq!(form_faults(&json), said, "{json}");
    }
}

#[test]
fn a_sheet_that_cannot_be_read_says_where() {
    let said = |text: &str| -> Vec<String> {
        match read_text(text) {
            Err(faults) => faults.iter().map(ToString::to_string).collect(),
            Ok(reading) => mark(&reading).remarks,
        }
    };
    let head = "Practice: packs, level 1, seed 7, 2 questions, mm, edition 2";
    let shown = "write it as in `Practice: diagonals, level 1, seed 7, 8 questions, mm, edition 2`";
    for (text, message) in [
        (
            "AC = 8591".to_owned(),
            "there is no head line: keep the sheet's first line, as in `Practice: diagonals, level 1, seed 7, 8 questions, mm, edition 2`".to_owned(),
        ),
        (
            "\nPractice: packs, level 1".to_owned(),
            format!("line 2: `Practice: packs, level 1` is not a sheet's head line: {shown}"),
        ),
        (
            head.replace("seed 7", "seed -7"),
            "line 1: `-7` is not a seed: write a whole number from 0 to 4294967295".to_owned(),
        ),
        (
            head.replace("edition 2", "edition 0"),
            "line 1: the sheet is of edition `0` and this program makes edition 2: mark it with the program that printed it".to_owned(),
        ),
        (
            format!("{head}\nQuestion 9\n"),
            "line 2: there is no question 9: the sheet has 2".to_owned(),
        ),
        (
            format!("{head}\nQuestion 1\n  pack at C = thick mm\n"),
            "line 3: question 1, pack at C: `thick` is not a length: write one such as 6435".to_owned(),
        ),
        (
            format!("{head}\nQuestion 1\n  fewest packers = 2.5\n"),
            "line 3: question 1, fewest packers: `2.5` is not a whole number: write a count such as 3".to_owned(),
        ),
        (
            format!("{head}\nQuestion 1\n  fewest packers = 2\n fewest packers = 3\n"),
            "line 4: question 1, fewest packers: it is filled twice: keep one".to_owned(),
        ),
    ] {
        assert_eq!(said(&text), [message], "{text}");
    }
}

#[test]
fn what_cannot_be_read_is_one_blank_and_the_rest_is_marked() {
    let sheet = drawn(Topic::Diagonals, Level::Two, 7, 3, Units::Mm);
    let page = |second: &str| {
        let at = sheet.questions[1].blanks[0].label.clone();
        marked(&filled(&sheet, &|question, blank| {
            if question.number == 2 && blank.label == at {
                second.to_owned()
            } else {
                right(blank, Units::Mm)
            }
        }))
    };
    for unreadable in ["dont know", "??", "14,364", "over 90", "39-6 1/2", "8 59 1"] {
        let marks = page(unreadable);
        let found: Vec<Mark> = marks.questions.iter().map(|question| question.blanks[0].mark).collect();
        assert_eq!(found, [Mark::Right, Mark::Unread, Mark::Right], "{unreadable}");
        assert_eq!(marks.remarks.len(), 1, "{unreadable}: {:?}", marks.remarks);
    }
    // Digits grouped as the working groups them are read.
    let answer = right(&sheet.questions[1].blanks[0], Units::Mm);
    let (thousands, rest) = answer.split_at(answer.len() - 3);
    for grouped in [format!("{thousands} {rest}"), format!("{thousands}\u{202f}{rest} mm")] {
        assert_eq!(page(&grouped).verdict, Mark::Right, "{grouped}");
    }
}

#[test]
fn words_that_were_changed_and_the_head_line_of_another_sheet_are_told() {
    let sheet = drawn(Topic::Plates, Level::Three, 7, 3, Units::Mm);
    let printed = filled(&sheet, &|_, blank| right(blank, Units::Mm));
    assert_eq!(marked(&printed).remarks, Vec::<String>::new());
    // A pupil's own working between the lines is none of the words.
    assert_eq!(marked(&printed.replace("How long", "9060 - 145 =\nHow long")).remarks, Vec::<String>::new());
    let width = sheet.questions[1].given.split("Plate ").nth(1).unwrap().split(' ').next().unwrap();
    let (first, rest) = printed.split_once("Question 2").unwrap();
    let rest = rest.replacen(&format!("Plate {width} mm"), "Plate 99 mm", 1);
    let edited = format!("{first}Question 2{rest}");
    let told = marked(&edited).remarks;
    assert!(told[0].starts_with("question 2 is not worded as on the sheet"), "{told:?}");
    let other = marked(&printed.replace("seed 7", "seed 8")).remarks;
    assert_eq!(other.len(), 1);
    assert!(other[0].contains("the head line may be another sheet's"), "{other:?}");
}

#[test]
fn a_name_on_the_sheet_is_read_and_several_sheets_in_one_text_are_taken_apart() {
    let sheet = |seed| {
        let sheet = drawn(Topic::Plates, Level::One, seed, 2, Units::Mm);
        filled(&sheet, &|_, blank| right(blank, Units::Mm))
    };
    let named = sheet(3).replacen('\n', "\nName: Pupil _One____  Date: today\n", 1);
    assert_eq!(marked(&named).name.as_deref(), Some("Pupil One"));
    assert_eq!(marked(&sheet(3).replacen('\n', "\nName: ______ Date: ___\n", 1)).name, None);
    let both = format!("{named}\n{}", sheet(4));
    let seeds: Vec<u32> = sheets_in(&both).iter().map(|text| marked(text).ask.seed).collect();
    assert_eq!(seeds, [3, 4]);
    assert_eq!(sheets_in("no sheet").len(), 1);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn whatever_is_written_on_a_sheet_is_marked_or_told(
        topic in 0_usize..11,
        units in prop_oneof![Just(Units::Mm), Just(Units::FeetInches)],
        written in proptest::collection::vec("[-+0-9a-zA-Z.,/'\"²_= ]{0,12}|\\PC{0,20}", 6),
        head in "\\PC{0,60}",
    ) {
        let sheet = drawn(Topic::ALL[topic], Level::Three, 1, 2, units);
        let mut page = text(&question_sheet(&sheet, ""), Look::default());
        for word in &written {
            page = page.replacen("________", word, 1);
        }
        for page in [page.clone(), format!("Practice: {head}\n{page}"), page.replacen("seed 1", &head, 1)] {
            match read_text(&page).map(|reading| mark(&reading)) {
                Ok(marks) => prop_assert!(marks.questions.len() <= 50),
                Err(faults) => prop_assert!(faults.iter().all(|fault| !fault.to_string().is_empty())),
            }
        }
    }
}
