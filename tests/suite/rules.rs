//! Every published limit against its published value.

use approx::assert_relative_eq;
use pegline::rules::{
    ANCHOR_SETS, BED_JOINTS, CLEAR_OF_WALL, COMMON_CEILING, DESIGN_FALL, DIAGONALS, FINISHED_FALL,
    JOIST_RULES, LEAST_CEILING, LEVEL, Law, PLAN_SIZES, Preset, ROOF_FALLS, SOLID_PACKING, STRAP_SPACING,
    STRUTTING, Seen, Source, US_FALL, find, right_angle,
};

const INCH: f64 = 25.4;
const FOOT: f64 = 304.8;

fn preset(table: &'static [Preset], key: &str) -> &'static Preset {
    find(table, "a test", key).unwrap()
}

fn limits(table: &'static [Preset], key: &str, expected: &[(f64, f64)]) {
    for &(length, limit) in expected {
        let found = preset(table, key).limit(length).unwrap();
        assert!((found - limit).abs() < 1e-9, "{key} at {length}: {found}, published {limit}");
    }
}

/// Source: DIN 18202 Table 1, dimensions on plan, seen on a secondary page: each band at its upper end and just over.
#[test]
fn din_18202_gives_each_band_of_its_table() {
    let bands = [
        (1000.0, 10.0),
        (1000.001, 12.0),
        (3000.0, 12.0),
        (3000.001, 16.0),
        (6000.0, 16.0),
        (6000.001, 20.0),
        (15_000.0, 20.0),
        (15_000.001, 24.0),
        (30_000.0, 24.0),
        (30_000.001, 30.0),
        (100_000.0, 30.0),
        (1.0, 10.0),
    ];
    limits(PLAN_SIZES, "din-18202", &bands);
    assert_eq!(preset(PLAN_SIZES, "DIN-18202").source.seen, Seen::Secondary);
}

/// Source: Kent, Handbook of Construction Tolerances, as a trade journal quotes it.
#[test]
fn kent_gives_its_sizes_its_hypotenuse_and_its_level() {
    let sizes = [(9.0 * FOOT, INCH / 8.0), (10.0 * FOOT, INCH / 4.0), (100.0 * FOOT, INCH / 4.0)];
    limits(PLAN_SIZES, "kent", &sizes);
    assert_eq!(preset(PLAN_SIZES, "kent").limit(101.0 * FOOT), None);
    // 3/4 in per 100 ft pro rata: 3/8 in at 50 ft, 0.15 in at 20 ft, 1.5 in at 200 ft.
    let hypotenuse = [(100.0 * FOOT, 19.05), (50.0 * FOOT, 9.525), (20.0 * FOOT, 3.81), (200.0 * FOOT, 38.1)];
    limits(DIAGONALS, "kent", &hypotenuse);
    assert_relative_eq!(
        preset(DIAGONALS, "kent").diagonal_limit(12.0 * FOOT, 16.0 * FOOT).unwrap(),
        3.81,
        epsilon = 1e-9
    );
    // 1/4 in per 10 ft, 1/2 in overall; held at 1/4 in under 10 ft.
    let level = [
        (5.0 * FOOT, 6.35),
        (10.0 * FOOT, 6.35),
        (15.0 * FOOT, 9.525),
        (20.0 * FOOT, 12.7),
        (60.0 * FOOT, 12.7),
    ];
    limits(LEVEL, "kent", &level);
    for table in [PLAN_SIZES, DIAGONALS, LEVEL] {
        assert_eq!(preset(table, "kent").source.seen, Seen::Secondary);
    }
}

/// Source: US residential remodelling performance standard, seen on a secondary page: 12 × 16 ft, 20 ft ± 1/2 in;
/// level 1/2 in within 20 ft. The angle, 0.248° at the limit, and 5/8 in over 12 ft are the page's figures put right.
#[test]
fn the_remodelling_standard_gives_half_an_inch_on_its_triangle_and_on_its_level() {
    let triangle = preset(DIAGONALS, "us-remodelling");
    assert_relative_eq!(triangle.diagonal_limit(12.0 * FOOT, 16.0 * FOOT).unwrap(), 12.7, epsilon = 1e-9);
    assert_eq!(triangle.limit(20.0 * FOOT), None, "stated for a triangle, not for a length");
    let angle = right_angle::opened_by(12.0 * FOOT, 16.0 * FOOT, 12.7).unwrap();
    assert!((angle.to_degrees() - 0.248).abs() < 0.001, "{}", angle.to_degrees());
    let over_twelve_feet = 12.0 * FOOT * angle.sin() / INCH;
    assert!((over_twelve_feet - 0.625).abs() < 1.0 / 64.0, "{over_twelve_feet} in");
    // The same angle on a triangle of twice the size: twice the limit.
    assert_relative_eq!(triangle.diagonal_limit(24.0 * FOOT, 32.0 * FOOT).unwrap(), 25.4, epsilon = 1e-9);
    assert_eq!(triangle.source.seen, Seen::Secondary);

    let level = preset(LEVEL, "us-remodelling");
    limits(LEVEL, "us-remodelling", &[(20.0 * FOOT, 12.7), (5.0 * FOOT, 12.7)]);
    assert_eq!(level.limit(20.1 * FOOT), None);
    assert_eq!(level.source.seen, Seen::Secondary);
}

/// Source: NHBC Standards (official page): ±8 mm per 5 m, ±12 over, pro rata under 5 m.
#[test]
fn nhbc_bed_joints_are_pro_rata_to_five_metres_and_fixed_over() {
    limits(
        BED_JOINTS,
        "nhbc",
        &[(5000.0, 8.0), (2500.0, 4.0), (1000.0, 1.6), (5000.001, 12.0), (20_000.0, 12.0)],
    );
    assert_eq!(preset(BED_JOINTS, "nhbc").source.seen, Seen::Official);
}

/// Source: LABC Warranty technical manual (official page): 10 mm to 5 m, 15 mm over, pro rata under 5 m.
#[test]
fn labc_bed_joints_are_pro_rata_to_five_metres_and_fixed_over() {
    limits(BED_JOINTS, "labc", &[(5000.0, 10.0), (2500.0, 5.0), (5000.001, 15.0), (20_000.0, 15.0)]);
    assert_eq!(preset(BED_JOINTS, "labc").source.seen, Seen::Official);
}

/// Source: TMS 602, seen on a secondary page: bed joints ±1/4 in per 10 ft, ±1/2 in in all.
#[test]
fn tms_602_bed_joints_stop_at_half_an_inch() {
    limits(
        BED_JOINTS,
        "tms-602",
        &[(10.0 * FOOT, 6.35), (15.0 * FOOT, 9.525), (20.0 * FOOT, 12.7), (100.0 * FOOT, 12.7)],
    );
    assert_eq!(preset(BED_JOINTS, "tms-602").source.seen, Seen::Secondary);
}

/// Source: ISO 4463-1, from memory: secondary ±1.5√L never under 8 mm, primary ±0.75√L never under 4 mm, L in metres.
#[test]
fn iso_4463_follows_the_root_and_says_that_it_is_from_memory() {
    limits(
        PLAN_SIZES,
        "iso-4463-secondary",
        &[(100_000.0, 15.0), (36_000.0, 9.0), (16_000.0, 8.0), (1000.0, 8.0)],
    );
    limits(
        PLAN_SIZES,
        "iso-4463-primary",
        &[(100_000.0, 7.5), (64_000.0, 6.0), (16_000.0, 4.0), (1000.0, 4.0)],
    );
    for key in ["iso-4463-primary", "iso-4463-secondary"] {
        assert_eq!(preset(PLAN_SIZES, key).source.seen, Seen::Memory);
        assert_eq!(preset(PLAN_SIZES, key).source.seen.words(), "from memory");
    }
}

/// Source: BS 6229, design 1:40 to finish at 1:80: 25 and 12.5 mm per m; a 3.6 m run drops 90 and 45 mm.
#[test]
fn flat_roof_falls_drop_the_published_amounts() {
    for (fall, per_metre, over_run) in [(DESIGN_FALL, 25.0, 90.0), (FINISHED_FALL, 12.5, 45.0)] {
        assert_relative_eq!(fall.over(1000.0), per_metre);
        assert_relative_eq!(fall.over(3600.0), over_run);
    }
    assert_eq!(ROOF_FALLS, [DESIGN_FALL, US_FALL, FINISHED_FALL]);
    // 1/4 in for every 12 in: a run of 12 ft drops 3 in.
    assert_relative_eq!(US_FALL.over(12.0 * FOOT), 3.0 * INCH);
    assert_eq!(US_FALL.source.seen, Seen::Memory);
}

/// Source: US residential code R305.1, 7 ft, printed as 2134 mm; 2.4 m is common practice, no source.
#[test]
fn ceilings_have_their_least_and_their_usual_height() {
    assert_eq!(format!("{:.0}", LEAST_CEILING.value), "2134");
    assert_relative_eq!(LEAST_CEILING.value, 7.0 * FOOT);
    assert_relative_eq!(COMMON_CEILING.value, 2400.0);
    assert_eq!(COMMON_CEILING.source.seen, Seen::Practice);
}

/// Source: UK guidance on sole plates seen in a secondary copy: solid packing under 5 mm.
#[test]
fn solid_packing_is_for_gaps_under_five_millimetres() {
    assert_relative_eq!(SOLID_PACKING.ask_from, 5.0);
    assert_eq!(SOLID_PACKING.source.seen, Seen::Secondary);
}

/// Sources: NHBC Standards 6.4.10 table 3 and 6.4.13 (official page): 75 mm on a timber wall plate, 90 on masonry, 75 in a
/// hanger, centres to 600. IRC R502.6 (secondary pages): 1-1/2 in on wood or metal, 3 in on masonry or concrete, printed as 38
/// and 76 mm. Ontario Building Code 9.23 and 9.20 (pages quoting it): 38 mm, on masonry 40.
#[test]
fn joists_bear_as_far_as_each_code_says() {
    let figures = JOIST_RULES.iter().map(|rule| {
        (
            rule.key,
            [rule.on_timber, rule.on_masonry, rule.on_steel, rule.in_hanger, rule.centres],
            rule.source.seen,
        )
    });
    let published = [
        ("nhbc", [Some(75.0), Some(90.0), None, Some(75.0), Some(600.0)], Seen::Official),
        ("irc", [Some(1.5 * INCH), Some(3.0 * INCH), Some(1.5 * INCH), None, None], Seen::Secondary),
        ("ontario", [Some(38.0), Some(40.0), Some(38.0), None, None], Seen::Secondary),
    ];
    assert_eq!(figures.collect::<Vec<_>>(), published);
}

/// Sources: NHBC Standards 6.4.15 table 4 (official page): under 2.5 m none, to 4.5 m one, over it two. A craft guide of the
/// same body, 2002, in a copy: first and last joist 25 to 75 mm clear of the wall.
#[test]
fn strutting_goes_by_the_span_and_the_first_joist_keeps_clear() {
    for (span, rows) in [(2499.0, 0), (2500.0, 1), (4500.0, 1), (4500.1, 2), (9000.0, 2)] {
        assert_eq!(STRUTTING.rows(span), rows, "{span}");
    }
    assert_eq!((CLEAR_OF_WALL.least, CLEAR_OF_WALL.most), (25.0, 75.0));
}

/// The numbers in a text, a fraction as one.
fn numbers(text: &str) -> Vec<f64> {
    let is_figure = |c: char| c.is_ascii_digit() || c == '.' || c == '/';
    let words = text.split(|c| !is_figure(c)).map(|word| word.trim_matches('.'));
    words
        .filter_map(|word| match word.split_once('/') {
            Some((top, bottom)) => Some(top.parse::<f64>().ok()? / bottom.parse::<f64>().ok()?),
            None => word.parse().ok(),
        })
        .collect()
}

/// A row is held to the publication's words, and its law to the row: every figure said is a published length or limit,
/// every published limit is said (or its figure at a metre, where it goes by the root), and the law gives it.
#[test]
fn every_preset_gives_the_values_that_its_publication_gives() {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-2 * b.abs();
    for preset in [PLAN_SIZES, DIAGONALS, LEVEL, BED_JOINTS].into_iter().flatten() {
        let said = numbers(preset.says);
        let mut known: Vec<f64> = vec![];
        if let Law::SameAngle { legs, .. } = preset.law {
            known.extend([legs.0 / FOOT, legs.1 / FOOT, legs.0, legs.1]);
        }
        assert!(!preset.published.is_empty(), "{}: give its published values", preset.key);
        for &(length, limit) in preset.published {
            let found = match preset.law {
                Law::SameAngle { legs: (a, b), .. } => {
                    preset.diagonal_limit(a, b).filter(|_| near(a.hypot(b), length))
                }
                _ => preset.limit(length),
            };
            let found = found.unwrap_or(f64::NAN);
            assert!((found - limit).abs() < 1e-9, "{} at {length}: {found}, published {limit}", preset.key);
            let limits = [limit, limit / INCH, limit / (length / 1000.0).sqrt()];
            assert!(
                limits.iter().any(|limit| said.iter().any(|figure| near(*figure, *limit))),
                "{}: `{}` doesn't say {limit} at {length}",
                preset.key,
                preset.says
            );
            known.extend(limits);
            known.extend([length, length / 1000.0, length / FOOT]);
        }
        for figure in said {
            assert!(
                known.iter().any(|value| near(figure, *value)),
                "{}: `{}`: {figure} is none of its published values",
                preset.key,
                preset.says
            );
        }
    }
}

#[test]
fn an_unknown_preset_is_refused_with_the_known_ones() {
    let error = find(BED_JOINTS, "bed joints", "nhcb").unwrap_err().to_string();
    assert!(error.contains("nhcb") && error.contains("nhbc, labc, tms-602"), "{error}");
}

#[test]
fn no_limit_comes_out_of_a_length_that_is_none() {
    for table in [PLAN_SIZES, DIAGONALS, LEVEL, BED_JOINTS] {
        for preset in table {
            for length in [f64::NAN, f64::INFINITY, -1.0, 0.0, f64::NEG_INFINITY] {
                assert_eq!(preset.limit(length), None, "{} at {length}", preset.key);
                assert_eq!(preset.diagonal_limit(length, 1.0), None, "{} at {length}", preset.key);
            }
        }
    }
}

#[test]
fn a_preset_is_written_with_its_source_and_its_scaling() {
    let json = serde_json::to_value(preset(BED_JOINTS, "nhbc")).unwrap();
    assert_eq!(json["key"], "nhbc");
    assert_eq!(json["source"]["seen"], "official page");
    assert_eq!(json["scaling"], "pro rata up to the stated length, fixed over it");
}

#[test]
fn every_published_limit_stands_in_the_table_of_sources_with_its_source_and_how_it_was_seen() {
    let sources = include_str!("../../src/rules/mod.rs");
    let rows: Vec<&str> = sources.lines().filter(|line| line.starts_with("//! | ")).collect();
    let mut published: Vec<(&str, Source)> = vec![("nhbc", STRAP_SPACING.source)];
    for table in [PLAN_SIZES, DIAGONALS, LEVEL, BED_JOINTS] {
        published.extend(table.iter().map(|preset| (preset.key, preset.source)));
    }
    published.extend(ANCHOR_SETS.iter().map(|set| (set.key, set.source)));
    published.extend(JOIST_RULES.iter().map(|rule| (rule.key, rule.source)));
    published.push((STRUTTING.key, STRUTTING.source));
    for (key, source) in published {
        // The publication's own name, without what part of it.
        let name = source.publication.split([',', ':']).next().unwrap();
        let seen = source.seen.words();
        assert!(
            rows.iter().any(|row| {
                row.contains(&format!("`{key}`"))
                    && row.to_lowercase().contains(&name.to_lowercase())
                    && row.contains(seen)
            }),
            "{key}: {}, {seen}",
            source.publication
        );
    }
}
