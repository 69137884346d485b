//! The drawing in characters.

use pegline::length::Units;
use pegline::page::ascii;
use pegline::plan::Footprint;
use pegline::sketch::character_drawing;

use super::sketch_outlines::{drawing, many, usual};

/// Where each corner's letter stands, (column, row); fails unless each is there exactly once.
fn letters(lines: &[String], footprint: &Footprint, what: &str) -> Vec<(usize, usize)> {
    let all: Vec<(char, usize, usize)> = lines
        .iter()
        .enumerate()
        .flat_map(|(row, line)| line.chars().enumerate().map(move |(column, c)| (c, column, row)))
        .filter(|(c, _, _)| c.is_ascii_uppercase())
        .collect();
    assert_eq!(all.len(), footprint.len(), "{what}:\n{}", lines.join("\n"));
    footprint
        .corners()
        .iter()
        .map(|corner| {
            let (_, column, row) = all.iter().find(|(c, _, _)| *c == corner.name).unwrap();
            (*column, *row)
        })
        .collect()
}

#[test]
fn no_drawing_is_over_80_by_24_and_every_corner_is_lettered_once() {
    let outlines = many(20).into_iter().map(|footprint| (footprint, Units::Mm));
    let inches = many(4).into_iter().map(|footprint| (footprint, Units::FeetInches));
    for (i, (footprint, units)) in usual().into_iter().chain(outlines).chain(inches).enumerate() {
        let drawing = drawing(&footprint, units);
        for (columns, rows) in [(80, 24), (80, 16), (40, 14), (0, 0)] {
            let drawn = character_drawing(&drawing, columns, rows);
            let what = format!("outline {i} in {columns} x {rows}");
            assert!(drawn.lines.len() <= rows.max(14), "{what}");
            assert!(drawn.lines.iter().all(|line| line.chars().count() <= columns.max(40)), "{what}");
            letters(&drawn.lines, &footprint, &what);
            let plain: Vec<String> = drawn.lines.iter().map(|line| ascii(line)).collect();
            assert!(plain.iter().all(|line| !line.contains('?')), "{what}");
            for (line, plain) in drawn.lines.iter().zip(&plain) {
                assert_eq!(line.chars().count(), plain.len(), "{what}: plain signs are as wide");
            }
        }
    }
}

#[test]
fn a_drawing_that_is_not_stretched_is_true_to_scale_both_ways_to_half_a_character() {
    let mut true_to_scale = 0;
    let outlines = many(12).into_iter().map(|footprint| (footprint, Units::Mm));
    for (i, (footprint, units)) in usual().into_iter().chain(outlines).enumerate() {
        let drawn = character_drawing(&drawing(&footprint, units), 80, 24);
        if drawn.stretched {
            continue;
        }
        true_to_scale += 1;
        let what = format!("outline {i}");
        let places = letters(&drawn.lines, &footprint, &what);
        let left = places.iter().map(|place| place.0).min().unwrap();
        let top = places.iter().map(|place| place.1).min().unwrap();
        for (place, corner) in places.iter().zip(footprint.corners()) {
            let across = (place.0 - left) as f64 - corner.at.x / drawn.column;
            let down = (place.1 - top) as f64 - corner.at.y / (2.0 * drawn.column);
            assert!(across.abs() <= 0.500_001 && down.abs() <= 0.500_001, "{what}");
        }
    }
    assert!(true_to_scale > 40, "{true_to_scale}");
}

/// A stretched one keeps the order of all corners across and down.
#[test]
fn steps_too_short_for_a_character_keep_their_order() {
    for footprint in many(8) {
        let drawn = character_drawing(&drawing(&footprint, Units::Mm), 80, 24);
        let places = letters(&drawn.lines, &footprint, "outline");
        for (a, at_a) in footprint.corners().iter().zip(&places) {
            for (b, at_b) in footprint.corners().iter().zip(&places) {
                assert_eq!(a.at.x < b.at.x, at_a.0 < at_b.0);
                assert_eq!(a.at.y < b.at.y, at_a.1 < at_b.1);
            }
        }
    }
}

#[test]
fn the_usual_shapes_have_every_length_on_them() {
    for (footprint, units) in usual() {
        let drawn = character_drawing(&drawing(&footprint, units), 80, 24);
        assert_eq!(drawn.unlabelled, Vec::<usize>::new(), "{}", drawn.lines.join("\n"));
        let text = drawn.lines.join("\n");
        for side in footprint.sides() {
            assert!(text.contains(&units.figure(side.length)), "{text}");
        }
    }
}

/// Small enough to be checked by eye: 6 by 4 m, a column 200 mm and a row 400 mm: 30 columns and 10 rows on.
#[test]
fn a_small_rectangle_with_a_house_side_comes_out_so() {
    let (footprint, _) = pegline::plan::parse_expression("6000x4000", Units::Mm).unwrap();
    let footprint = footprint.with_house(&[3]);
    let drawn = character_drawing(&drawing(&footprint, Units::Mm), 43, 11);
    assert_eq!(drawn.lines.len(), 11);
    insta::assert_snapshot!(drawn.lines.join("\n"), @r"
          A─────────── 6000 ────────────B
          █  '..                        │
          █     '..                     │
          █        '..                  │
          █           '..               │
     4000 █              '..            │ 4000
          █                 '..         │
          █                    '..      │
          █                       '..   │
          █                          '..│
          D─────────── 6000 ────────────C
    ");
}

/// By hand: with a quarter of 40 columns kept free on either side, A and B stand at the ends of the 20 between.
#[test]
fn half_of_a_narrow_terminal_is_the_outline_s_however_long_the_lengths_beside_it_are() {
    let plan = "23ft4-5/8inx20ft3-3/16in-8ft4-3/16inx5ft3-5/16in";
    let (footprint, _) = pegline::plan::parse_expression(plan, Units::FeetInches).unwrap();
    let drawn = character_drawing(&drawing(&footprint, Units::FeetInches), 40, 14);
    let at = letters(&drawn.lines, &footprint, "40 columns");
    assert_eq!(at[1].0 - at[0].0, 19, "{}", drawn.lines.join("\n"));
}
