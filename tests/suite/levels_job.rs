//! Whatever a job file says of levels: an answer that can be printed and written, or faults; never a panic.

use pegline::answer::{Answered, Envelope, Question};
use pegline::job::{HeightsSection, Job, JobFile, LengthEntry, PacksSection};
use pegline::page::{Block, Detail, Look, Spreadsheet, text};
use pegline::report::page;
use proptest::prelude::*;

fn length() -> impl Strategy<Value = LengthEntry> {
    prop_oneof![
        20 => (1_u32..3000).prop_map(|mm| LengthEntry::Text(format!("{mm}mm"))),
        1 => prop::sample::select(vec!["12x5", "1/8in", "7ft6in", "2.4m", "0", "-3", "1e9", "", "x", "0x1", "99999999999x1"])
            .prop_map(|text| LengthEntry::Text(text.to_owned())),
        1 => any::<f64>().prop_map(LengthEntry::Number),
    ]
}

fn reading() -> impl Strategy<Value = String> {
    prop_oneof![
        40 => "[A-F]=1?[0-9]{1,2}mm",
        20 => "(AB|CB|EF|FA)@[12]?[0-9]{1,3}mm=-?[0-9]{1,2}mm",
        // Rarely, so that most jobs come through to an answer.
        1 => "\\PC{0,12}",
    ]
}

fn set_ups() -> impl Strategy<Value = Option<Vec<Vec<String>>>> {
    prop::option::of(prop::collection::vec(prop::collection::vec(reading(), 0..7), 0..3))
}

fn file() -> impl Strategy<Value = JobFile> {
    let word = |words: &[&'static str]| {
        prop::option::weighted(0.2, prop::sample::select(words.to_vec()).prop_map(str::to_owned))
    };
    let packs = (
        (set_ups(), set_ups(), word(&["A", "c", "AB@600", "Z"])),
        prop::option::of(prop::collection::vec(length(), 0..4)),
        prop::array::uniform3(prop::option::weighted(0.3, length())),
        prop::option::weighted(0.3, prop::sample::select(vec!["nhbc", "us-remodelling"])),
    );
    let layer = prop_oneof![
        40 => "(plate|binder|rail|floor|lining|slab|dpc|floor:a long name for a screed)=[0-9]{1,2}(\\.5)?mm",
        1 => "\\PC{0,12}",
    ];
    let heights = (
        prop::option::of(prop::collection::vec(
            (1800_u32..2600).prop_map(|mm| LengthEntry::Text(format!("{mm}mm"))),
            0..4,
        )),
        prop::array::uniform4(prop::option::weighted(0.7, length())),
        prop::option::of(prop::collection::vec(layer, 0..8)),
        word(&["1:40", "design", "1 in 80", "0", "1:0"]),
        word(&["wall", "house", "roof"]),
    );
    (word(&["mm", "m", "ft-in"]), prop::bool::ANY, packs, heights).prop_map(
        |(units, house, packs, heights)| {
            let ((staff, levels, datum), packers, [studs, limit, solid], preset) = packs;
            let (drops, [level_depth, ceiling, hanger, run], stack, fall, fall_to) = heights;
            JobFile {
                units,
                plan: Some("7800mmx6000mm-3000mmx2400mm".to_owned()),
                house: house.then(|| vec!["AB".to_owned()]),
                studs,
                packs: Some(PacksSection {
                    staff,
                    heights: levels,
                    datum,
                    packers,
                    limit,
                    solid,
                    preset: preset.map(str::to_owned),
                    within: None,
                }),
                heights: Some(HeightsSection {
                    drops,
                    level_depth,
                    ceiling,
                    stack,
                    hanger,
                    run,
                    fall,
                    fall_to,
                    ..HeightsSection::default()
                }),
                ..JobFile::default()
            }
        },
    )
}

proptest! {
    // About one in ten jobs comes through to an answer.
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn every_job_is_answered_or_refused(file in file()) {
        // Faults of one section must not keep the other from being tried.
        let packs = JobFile { heights: None, ..file.clone() };
        let heights = JobFile { packs: None, ..file };
        for (file, question) in [(packs, Question::Packs), (heights, Question::Heights)] {
            let Ok(job) = Job::check(&file) else { continue };
            let Ok(answer) = job.answer(question) else { continue };
            let steps = answer.steps(&job);
            let page = page(&answer, &job, Detail::Full, 80, &steps);
            prop_assert!(page.remarks.verdict.is_some() && page.remarks.cautions.len() == 1);
            let envelope = Envelope::new(question, &job, &answer, &steps, &page.remarks);
            prop_assert!(serde_json::to_string(&envelope).is_ok());
            prop_assert!(answer.rows(job.units).csv(Spreadsheet::default()).is_ok());
            for line in text(&page, Look::default()).lines() {
                prop_assert!(line.chars().count() <= 80, "{line}");
            }
            let drawn = page.blocks.iter().any(|block| matches!(block, Block::Lines(_)));
            prop_assert_eq!(drawn, question == Question::Heights);
        }
    }
}
