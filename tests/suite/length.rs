//! Lengths as written and as a tape shows them.

use approx::assert_abs_diff_eq;
use insta::assert_snapshot;
use pegline::length::{LONGEST, Length, LengthError, Units, decimal};
use proptest::prelude::*;

fn mm(text: &str, bare: Units) -> f64 {
    Length::parse(text, bare).unwrap_or_else(|error| panic!("{text}: {error}")).mm
}

fn refusal(text: &str) -> String {
    let error = Length::parse(text, Units::Mm).expect_err(text);
    error.to_string()
}

/// Source: the inch is 25.4 mm and the foot 304.8 mm exactly (international yard and pound agreement of 1959).
#[test]
fn every_accepted_spelling_is_read_as_the_table_says() {
    let spellings = [
        ("6435", 6435.0),
        ("6435mm", 6435.0),
        (" 6435 mm ", 6435.0),
        ("6435MM", 6435.0),
        ("6435.5", 6435.5),
        ("0", 0.0),
        ("007", 7.0),
        (".5", 0.5),
        ("+12", 12.0),
        ("-12", -12.0),
        ("−12", -12.0),
        ("6.435m", 6435.0),
        ("6.435 M", 6435.0),
        ("6,43m", 6430.0),
        ("6,4355m", 6435.5),
        ("0,435m", 435.0),
        ("1234,567", 1234.567),
        ("6435,5", 6435.5),
        ("27ft6-1/2in", 8394.7),
        ("27ft 6-1/2in", 8394.7),
        ("27 ft 6 1/2 in", 8394.7),
        ("27feet6inches", 8382.0),
        ("1 foot 1 inch", 330.2),
        ("27'6-1/2\"", 8394.7),
        ("27′6 1/2″", 8394.7),
        ("27’6-1/2”", 8394.7),
        ("27'6''", 8382.0),
        ("27'6⁄8\"", 8248.65),
        ("27FT6IN", 8382.0),
        ("27ft", 8229.6),
        ("27'", 8229.6),
        ("27.5ft", 8382.0),
        ("27ft1/2in", 8242.3),
        ("27ft0-1/2in", 8242.3),
        ("27ft6.5in", 8394.7),
        ("6-1/2in", 165.1),
        ("6 1/2\"", 165.1),
        ("1/2in", 12.7),
        ("6.5in", 165.1),
        ("100in", 2540.0),
        ("-1ft6in", -457.2),
        ("1000000", LONGEST),
    ];
    for (text, expected) in spellings {
        assert_abs_diff_eq!(mm(text, Units::Mm), expected, epsilon = 1e-9);
    }
}

#[test]
fn a_bare_number_is_in_the_units_in_force_and_a_unit_overrides_them() {
    for (units, expected) in [(Units::Mm, 12.0), (Units::M, 12_000.0), (Units::FeetInches, 3657.6)] {
        assert_abs_diff_eq!(mm("12", units), expected, epsilon = 1e-9);
        assert_abs_diff_eq!(mm("12mm", units), 12.0, epsilon = 1e-9);
        assert_abs_diff_eq!(mm("1/2in", units), 12.7, epsilon = 1e-9);
    }
    for (text, written_in) in [
        ("12", None),
        ("12mm", Some(Units::Mm)),
        ("12m", Some(Units::M)),
        ("12ft", Some(Units::FeetInches)),
        ("1/2in", Some(Units::FeetInches)),
    ] {
        assert_eq!(Length::parse(text, Units::Mm).unwrap().written_in, written_in, "{text}");
    }
}

#[test]
fn every_refused_spelling_is_refused_with_what_to_write_instead() {
    let refused = [
        "NaN",
        "nan",
        "inf",
        "-inf",
        "infinity",
        "1e300",
        "1e3",
        "0x10",
        "٣",
        "６４３５",
        "²",
        "1_000",
        "6,435",
        "12,000",
        "123,456",
        "1,234,567",
        "6.4.3",
        "6,4,3",
        "6.",
        "6,",
        ".",
        "-",
        "+",
        "--5",
        "6435km",
        "6435 yards",
        "6435mmm",
        "6435m m",
        "6ft12in",
        "6ft13in",
        "6'12.0\"",
        "6-3/2in",
        "6-2/2in",
        "1/0in",
        "6-1/2mm",
        "1/2m",
        "25-6",
        "6ft-13in",
        "6in6ft",
        "6ft6ft",
        "6ft6mm",
        "6ft16",
        "",
        "   ",
        "mm",
        "ft",
        "x",
        "1000001",
        "1000.001m",
        "-1000001",
        "999999999999999999999999999999999999999999999999",
        "99999ft",
        "5 5",
        "\u{0}",
        "5\u{200b}",
    ];
    for text in refused {
        let said = refusal(text);
        assert!(!said.contains(char::is_control) && said.chars().count() < 160, "{text:?}: {said}");
    }
}

#[test]
fn each_length_error_says_what_and_what_to_write_instead() {
    assert_snapshot!(refusal(" "), @"a length is missing: write a number such as 6435, 6.435m or 21ft1-3/8in");
    assert_snapshot!(refusal("NaN"), @"`NaN` is not a length: write 6435, 6.435m or 21ft1-3/8in");
    assert_snapshot!(refusal("6435km"), @"`6435km` has the unit `km`: write mm, m, ft or in (6435, 6.435m, 21ft1-3/8in)");
    assert_snapshot!(refusal("6,435"), @"`6,435` can be read two ways: write 6.435 for the decimal comma or 6435 for thousands");
    assert_snapshot!(refusal("6ft13in"), @"`6ft13in`: inches beside feet must be under 12: write 2ft1in for 1ft13in");
    assert_snapshot!(refusal("6-3/2in"), @"`6-3/2in`: the fraction of an inch must be less than one: write 1-1/2in for 3/2in");
    assert_snapshot!(refusal("1/0in"), @"`1/0in`: a fraction can't have 0 below the line");
    assert_snapshot!(refusal("7800m"), @"`7800m` is over 1000 m: check the number and its unit");
    assert_snapshot!(Length::parse_positive("-5", Units::Mm).unwrap_err(), @"`-5` must be more than zero");
    assert_snapshot!("cm".parse::<Units>().unwrap_err(), @"no units `cm`: write mm, m or ft-in");
}

#[test]
fn the_limit_is_one_kilometre_whatever_the_unit() {
    for (text, bare) in [("1001", Units::M), ("3281", Units::FeetInches), ("1000001", Units::Mm)] {
        assert!(matches!(Length::parse(text, bare), Err(LengthError::TooLong { .. })));
    }
    assert_abs_diff_eq!(mm("1000m", Units::Mm), LONGEST);
}

#[test]
fn a_tape_rounds_half_away_from_zero_and_never_shows_minus_zero() {
    for (mm, shown) in [
        (0.4, "0"),
        (0.5, "1"),
        (1.5, "2"),
        (2.5, "3"),
        (-0.4, "0"),
        (-0.5, "−1"),
        (-2.5, "−3"),
        (8590.693, "8591"),
        (8590.5, "8591"),
        (-0.0, "0"),
    ] {
        assert_eq!(Units::Mm.figure(mm), shown, "{mm}");
        assert_eq!(Units::Mm.on_tape(mm).to_string(), shown.replace('−', "-"), "{mm}");
    }
    for (inches, shown) in [
        (0.0, "0\""),
        (1.0 / 32.0, "1/16\""),
        (3.0 / 32.0, "1/8\""),
        (0.99 / 32.0, "0\""),
        (-0.99 / 32.0, "0\""),
        (-1.0 / 32.0, "−1/16\""),
        (11.0 + 31.0 / 32.0, "1'"),
        (12.0, "1'"),
        (12.5, "1' 0-1/2\""),
        (330.5, "27' 6-1/2\""),
        (-18.0, "−1' 6\""),
        (13.0, "1' 1\""),
    ] {
        assert_eq!(Units::FeetInches.figure(inches * 25.4), shown, "{inches} in");
    }
    assert_eq!(decimal(-0.000_4, 3), "0.000");
    assert_eq!(Units::M.figure(-0.4), "0.000");
}

/// The same rounding everywhere: a page in metres must not show another millimetre than the JSON's tape length.
#[test]
fn metres_on_the_page_show_the_same_millimetre_as_millimetres_do() {
    for halves in 0_u32..40_001 {
        let mm = f64::from(halves) / 2.0;
        let metres: f64 = Units::M.figure(mm).parse().unwrap();
        assert_abs_diff_eq!(metres * 1000.0, Units::M.on_tape(mm), epsilon = 1e-6);
    }
}

/// A length written exactly half way between two marks of an inch tape goes up, whatever the last bit of its float.
#[test]
fn thirty_seconds_of_an_inch_round_up_to_sixteenths_at_any_size() {
    for thirty_seconds in 0_u32..50_000 {
        let mm = f64::from(2 * thirty_seconds + 1) * (25.4 / 32.0);
        let up = f64::from(thirty_seconds + 1) * (25.4 / 16.0);
        assert_abs_diff_eq!(Units::FeetInches.on_tape(mm), up, epsilon = 1e-6);
        assert_eq!(Units::FeetInches.figure(mm), Units::FeetInches.figure(up));
    }
}

fn any_units() -> impl Strategy<Value = Units> {
    prop::sample::select(Units::ALL.to_vec())
}

proptest! {
    #[test]
    fn what_is_printed_is_read_back_as_the_same_tape_length(value in -1e6_f64..1e6, units in any_units()) {
        let on_tape = units.on_tape(value);
        prop_assert!((on_tape - value).abs() <= units.tape_step() / 2.0 + 1e-6);
        let printed = units.with_unit(value);
        let read = mm(&printed, Units::Mm);
        prop_assert!((read - on_tape).abs() < 1e-6, "{} -> {} -> {}", value, printed, read);
        prop_assert_eq!(units.with_unit(read), printed.clone());
        prop_assert!(!printed.starts_with("−0 ") && !printed.starts_with("−0.000") && !printed.starts_with("−0\""));
    }

    #[test]
    fn any_text_is_read_or_refused_and_a_length_read_is_finite(text in any::<String>(), units in any_units()) {
        if let Ok(length) = Length::parse(&text, units) {
            prop_assert!(length.mm.is_finite() && length.mm.abs() <= LONGEST);
        }
    }

    #[test]
    fn any_text_of_the_signs_that_lengths_use_is_read_or_refused(
        text in "[-+−0-9.,/⁄ '\"′″’”mftinxe×]{0,12}",
        units in any_units(),
    ) {
        match Length::parse(&text, units) {
            Ok(length) => prop_assert!(length.mm.is_finite() && length.mm.abs() <= LONGEST),
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
    }

    #[test]
    fn feet_inches_and_sixteenths_are_read_as_plain_arithmetic_says(feet in 0_u32..3000, sixteenths in 0_u32..192) {
        let (inches, over) = (sixteenths / 16, sixteenths % 16);
        let expected = f64::from(feet) * 304.8 + f64::from(sixteenths) * 25.4 / 16.0;
        for text in [format!("{feet}ft{inches}-{over}/16in"), format!("{feet}' {inches} {over}/16\"")] {
            prop_assert!((mm(&text, Units::Mm) - expected).abs() < 1e-6, "{}", text);
        }
    }
}
