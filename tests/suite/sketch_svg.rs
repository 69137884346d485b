//! The SVG read back by an XML parser (roxmltree) and a polygon library (geo): nothing here uses the scene it was made from, only
//! the picture.

use geo::{Area, Distance, Euclidean, Intersects, LineString, Polygon};
use pegline::geometry::Point;
use pegline::length::{Length, Units};
use pegline::plan::{Footprint, parse_walk};
use pegline::sketch::{
    Anchor, Drawing, Opening, Paper, ProfileBoard, StringLine, Title, scene, svg, svg_narrow,
};
use roxmltree::{Document, Node};

use crate::program::pegline;

use super::sketch_outlines::{drawing, grown, many, usual};

/// A text of the picture.
#[derive(Debug)]
struct Text {
    words: String,
    box_: Polygon,
}

/// The numbers in `text`.
fn numbers(text: &str) -> Vec<f64> {
    text.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .filter(|word| !word.is_empty())
        .map(|word| word.parse().unwrap())
        .collect()
}

fn number(node: Node, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

/// Every text with its box: as wide as its `textLength`, from the base line up by three quarters of the type size and down by a
/// fifth, which holds every letter of the usual sans-serif faces.
fn texts(document: &Document) -> Vec<Text> {
    document
        .descendants()
        .filter(|node| node.has_tag_name("text"))
        .map(|node| {
            let place = numbers(node.parent().unwrap().attribute("transform").unwrap());
            let (x, y) = (place[0], place[1]);
            let (sin, cos) = place.get(2).copied().unwrap_or(0.0).to_radians().sin_cos();
            let (width, size) = (number(node, "textLength"), number(node, "font-size"));
            let base = number(node, "y");
            let left = match node.attribute("text-anchor") {
                Some("start") => number(node, "x"),
                _ => -width / 2.0,
            };
            let (top, bottom) = (base - 0.75 * size, base + 0.2 * size);
            let corners = [(left, top), (left + width, top), (left + width, bottom), (left, bottom)]
                .map(|(u, v)| (x + u * cos - v * sin, y + u * sin + v * cos));
            Text {
                words: node.text().unwrap_or("").to_owned(),
                box_: Polygon::new(LineString::from(corners.to_vec()), vec![]),
            }
        })
        .collect()
}

/// Fails unless no two texts overlap, and all of them and all lines lie on the sheet.
fn check_sheet(picture: &str, what: &str) {
    let document = Document::parse(picture).unwrap();
    let root = document.root_element();
    let view = numbers(root.attribute("viewBox").unwrap());
    let (width, height) = (view[2], view[3]);
    assert_eq!(root.attribute("width"), Some(format!("{width}mm").as_str()));
    // The page that it asks to be printed on is the one that it is drawn on, with no edge of the printer's own.
    let papers = [
        ("A4 portrait", 210.0, 297.0),
        ("A4 landscape", 297.0, 210.0),
        ("Letter portrait", 215.9, 279.4),
        ("Letter landscape", 279.4, 215.9),
    ];
    let style = document.descendants().find(|node| node.has_tag_name("style")).unwrap().text().unwrap();
    let paper = papers.iter().find(|(name, ..)| style.contains(&format!("@page{{size:{name};margin:0}}")));
    assert_eq!(paper.map(|(_, w, h)| (*w, *h)), Some((width, height)), "{style}");
    assert!(style.contains("@media screen{.scale{display:none}}"), "{what}: a scale is claimed on a screen");
    check_bar(&document, &texts(&document), what);
    check_dimensions(&document, what);
    let texts = texts(&document);
    check_lengths(&document, &texts, what);
    for (i, text) in texts.iter().enumerate() {
        for p in text.box_.exterior().points() {
            assert!(
                (0.0..=width).contains(&p.x()) && (0.0..=height).contains(&p.y()),
                "{what}: {text:?} is off the sheet"
            );
        }
        for other in &texts[..i] {
            assert!(
                !text.box_.intersects(&other.box_),
                "{what}: `{}` and `{}` overlap",
                text.words,
                other.words
            );
        }
    }
    for path in document.descendants().filter(|node| node.has_tag_name("path")) {
        for pair in numbers(path.attribute("d").unwrap()).chunks(2) {
            assert!(
                (0.0..=width).contains(&pair[0]) && (0.0..=height).contains(&pair[1]),
                "{what}: a line runs off the sheet"
            );
        }
    }
}

/// The straight lines of a kind: each two ends.
fn strokes(document: &Document, class: &str) -> Vec<[(f64, f64); 2]> {
    let paths = document.descendants().filter(|node| node.attribute("class") == Some(class));
    let paths = paths.filter_map(|node| node.attribute("d"));
    let lines = paths.flat_map(|path| path.split('M').filter(|line| !line.is_empty()));
    lines
        .flat_map(|line| {
            let mut at: Vec<(f64, f64)> = numbers(line).chunks(2).map(|pair| (pair[0], pair[1])).collect();
            if line.ends_with('Z') {
                at.push(at[0]);
            }
            at.windows(2).map(|ends| [ends[0], ends[1]]).collect::<Vec<_>>()
        })
        .collect()
}

/// Whether a line runs up and down the page.
fn upright([a, b]: [(f64, f64); 2]) -> bool {
    (a.0 - b.0).abs() < 1e-9
}

/// How far `p` is from the stroke.
fn off(p: (f64, f64), [a, b]: [(f64, f64); 2]) -> f64 {
    Euclidean.distance(&geo::Point::from(p), &geo::Line::new(a, b))
}

/// Fails unless every dimension line ends on extension lines that stand square to it, come from the outline's side and run on a
/// little past it, and no extension line lies on a string.
fn check_dimensions(document: &Document, what: &str) {
    let extensions = strokes(document, "extension");
    let dimensions = strokes(document, "dimension");
    assert!(dimensions.len() >= 2, "{what}: {dimensions:?}");
    for line in &dimensions {
        for end in line {
            let held = extensions.iter().any(|extension| {
                let past = [extension[0], extension[1]].map(|p| (p.0 - end.0).hypot(p.1 - end.1));
                upright(*extension) != upright(*line)
                    && off(*end, *extension) < 0.011
                    && (past[1] - 1.5).abs() < 0.021
                    && past[0] > 1.4
            });
            assert!(held, "{what}: a dimension line ends in the air at {end:?}");
        }
    }
    for string in strokes(document, "string") {
        for extension in extensions.iter().filter(|extension| upright(**extension) == upright(string)) {
            let along: Vec<f64> = (0..=20)
                .map(|i| f64::from(i) / 20.0)
                .map(|t| {
                    let [a, b] = *extension;
                    off((a.0 + (b.0 - a.0) * t, a.1 + (b.1 - a.1) * t), string)
                })
                .collect();
            assert!(along.iter().all(|off| *off > 0.1), "{what}: an extension line hides a string");
        }
    }
}

/// Fails unless every length written on a dimension line is that of the stretch between two strokes that it stands on; how many
/// stand so.
fn check_lengths(document: &Document, texts: &[Text], what: &str) -> usize {
    let has = |words: &str| texts.iter().any(|text| text.words == words);
    let units = match (has("millimetres"), has("metres")) {
        (true, _) => Units::Mm,
        (_, true) => Units::M,
        _ => Units::FeetInches,
    };
    let stated = texts.iter().find_map(|text| text.words.strip_prefix("1:")?.parse::<f64>().ok()).unwrap();
    let strokes_at: Vec<(f64, f64)> = strokes(document, "tick")
        .iter()
        .map(|[a, b]| (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1)))
        .collect();
    let mut on_lines = 0;
    for line in strokes(document, "dimension") {
        let along = |p: (f64, f64)| if upright(line) { p.1 } else { p.0 };
        let mut at: Vec<f64> =
            strokes_at.iter().filter(|p| off(**p, line) < 0.02).map(|p| along(*p)).collect();
        at.sort_by(f64::total_cmp);
        for text in texts {
            let ring: Vec<(f64, f64)> = text.box_.exterior().points().map(|p| (p.x(), p.y())).collect();
            let Ok(said) = Length::parse(&text.words, units) else { continue };
            let apart = Euclidean.distance(&text.box_, &geo::Line::new(line[0], line[1]));
            let level = (ring[0].1 - ring[1].1).abs() < 0.01;
            if apart > 1.0 || level == upright(line) {
                continue;
            }
            let middle = f64::midpoint(along(ring[0]), along(ring[2]));
            let Some(ends) = at.windows(2).find(|ends| ends[0] < middle && middle < ends[1]) else {
                continue;
            };
            let long = (ends[1] - ends[0]) * stated;
            assert!(
                (said.mm - long).abs() < 0.03 * stated + 1.0,
                "{what}: {} stands on a line of {long} mm",
                text.words
            );
            on_lines += 1;
        }
    }
    on_lines
}

/// Fails unless the scale bar is as long as it says, at the scale that the title block states.
fn check_bar(document: &Document, texts: &[Text], what: &str) {
    let bar = document.descendants().find(|node| node.attribute("class") == Some("bar")).unwrap();
    let xs: Vec<f64> = numbers(bar.attribute("d").unwrap()).chunks(2).map(|pair| pair[0]).collect();
    let long = xs.iter().copied().fold(f64::MIN, f64::max) - xs.iter().copied().fold(f64::MAX, f64::min);
    let stated = texts.iter().find_map(|text| text.words.strip_prefix("1:")?.parse::<f64>().ok()).unwrap();
    let name = bar.attribute("data-name").unwrap();
    let said = match (name.strip_suffix(" mm"), name.strip_suffix(" m")) {
        (Some(mm), _) => mm.parse().unwrap(),
        (None, Some(m)) => 1000.0 * m.parse::<f64>().unwrap(),
        (None, None) => Length::parse(name, Units::FeetInches).unwrap().mm,
    };
    // Its ends are rounded to 0.01 mm on paper.
    assert!((long * stated - said).abs() < 0.011 * stated, "{what}: a bar of {said} is {}", long * stated);
    assert!((10.0..60.0).contains(&long), "{what}: the bar is {long} on paper");
}

/// Fails unless the picture's outline is the plan at the scale that it states.
fn check_outline(picture: &str, footprint: &Footprint, what: &str) {
    let document = Document::parse(picture).unwrap();
    let outline = document.descendants().find(|node| node.attribute("class") == Some("outline")).unwrap();
    let path = outline.attribute("d").unwrap();
    assert!(path.ends_with('Z'), "{what}: the outline closes");
    let drawn: Vec<Vec<f64>> = numbers(path).chunks(2).map(<[f64]>::to_vec).collect();
    let stated = texts(&document)
        .into_iter()
        .find_map(|text| text.words.strip_prefix("1:").map(|ratio| ratio.parse::<f64>().unwrap()))
        .unwrap();
    assert_eq!(drawn.len(), footprint.len(), "{what}");
    // A coordinate is rounded to 0.01 mm: two of them differ from the truth by at most 0.01 mm on paper.
    let first = &drawn[0];
    let corners = footprint.corners();
    for (on_paper, corner) in drawn.iter().zip(corners) {
        let dx = (corner.at.x - corners[0].at.x) / stated;
        let dy = (corner.at.y - corners[0].at.y) / stated;
        assert!(
            (on_paper[0] - first[0] - dx).abs() < 0.010_001
                && (on_paper[1] - first[1] - dy).abs() < 0.010_001,
            "{what}: {} is out of place",
            corner.name
        );
    }
}

/// Fails unless each corner's letter is there once, next to its corner or nearer to it than to where a leader would be
/// needed, and every side's length is written.
fn check_words(picture: &str, footprint: &Footprint, units: Units, what: &str) {
    let document = Document::parse(picture).unwrap();
    let words: Vec<String> = texts(&document).into_iter().map(|text| text.words).collect();
    for corner in footprint.corners() {
        let letter = corner.name.to_string();
        let count = words.iter().filter(|word| **word == letter).count();
        // The north arrow's N is not drawn here.
        assert_eq!(count, 1, "{what}: {letter}");
    }
    for side in footprint.sides() {
        let length = units.figure(side.length);
        assert!(words.contains(&length), "{what}: no {length}");
    }
}

/// Fails unless each line to tape is named on the picture, or at least in the key with its length.
fn check_taped(picture: &str, drawing: &Drawing, what: &str) {
    let document = Document::parse(picture).unwrap();
    let words = texts(&document).into_iter().map(|text| text.words).collect::<Vec<_>>().join(" ");
    let corners = drawing.footprint.corners();
    for check in &drawing.checks {
        let [from, to] = [check.from, check.to].map(|i| &corners[i]);
        let length = from.at.distance(to.at);
        let named = format!("{}{} {}", from.name, to.name, drawing.units.figure(length));
        assert!(words.contains(&named), "{what}: no {named} in {words}");
    }
}

#[test]
fn the_usual_shapes_are_drawn_to_the_stated_scale_with_every_letter_and_length_and_no_text_over_another() {
    for (footprint, units) in usual() {
        let drawing = drawing(&footprint, units);
        let picture = svg(&scene(&drawing, None).unwrap());
        let what = format!("{:?}", footprint.extent());
        check_taped(&picture, &drawing, &what);
        check_sheet(&picture, &what);
        let document = Document::parse(&picture).unwrap();
        assert!(check_lengths(&document, &texts(&document), &what) >= 2, "{what}: no length on its line");
        check_outline(&picture, &footprint, &what);
        check_words(&picture, &footprint, units, &what);
    }
}

#[test]
fn hundreds_of_grown_outlines_of_4_to_26_corners_are_drawn_with_no_text_over_another() {
    let outlines = many(28);
    assert!(outlines.len() > 300);
    for (i, footprint) in outlines.iter().enumerate() {
        let units = Units::ALL[i % 3];
        let drawing = drawing(footprint, units);
        let picture = svg(&scene(&drawing, None).unwrap());
        let what = format!("outline {i}, {} corners", footprint.len());
        check_taped(&picture, &drawing, &what);
        check_sheet(&picture, &what);
        check_outline(&picture, footprint, &what);
        check_words(&picture, footprint, units, &what);
    }
}

#[test]
fn outlines_from_a_millimetre_to_a_kilometre_find_a_scale() {
    for size in [0.01, 1.0, 250.0, 80_000.0, 1e6] {
        let footprint = grown(5, 26, &[size, size / 3.0]);
        let picture = svg(&scene(&drawing(&footprint, Units::Mm), None).unwrap());
        let what = format!("26 corners with steps of {size} mm");
        check_sheet(&picture, &what);
        check_outline(&picture, &footprint, &what);
    }
}

/// For a telephone: no wider than asked, no text over another, no claim to a scale.
#[test]
fn a_strip_for_a_narrow_screen_holds_every_letter_and_length_and_claims_no_scale() {
    for (footprint, units) in usual() {
        let picture = svg_narrow(&drawing(&footprint, units), 150.0).unwrap();
        let what = format!("{:?} on a strip", footprint.extent());
        let document = Document::parse(&picture).unwrap();
        let view = numbers(document.root_element().attribute("viewBox").unwrap());
        assert!((view[2] - 150.0).abs() < 1e-9, "{what}");
        let texts = texts(&document);
        for (i, text) in texts.iter().enumerate() {
            assert!(!text.words.contains("1:"), "{what}: {}", text.words);
            assert!(
                texts[..i].iter().all(|other| !text.box_.intersects(&other.box_)),
                "{what}: {}",
                text.words
            );
            let inside = |p: geo::Point| (0.0..=view[2]).contains(&p.x()) && (0.0..=view[3]).contains(&p.y());
            assert!(text.box_.exterior().points().all(inside), "{what}: {} is off the strip", text.words);
        }
        check_words(&picture, &footprint, units, &what);
    }
}

/// Everything a caller may add, on an L.
fn full(footprint: &Footprint) -> Drawing {
    let at = Point::new;
    let mut full = drawing(footprint, Units::Mm);
    full.openings = vec![
        Opening { side: 4, from: 900.0, to: 1810.0, window: false, text: "door 910".to_owned() },
        Opening { side: 5, from: 2000.0, to: 3200.0, window: true, text: "window 1200".to_owned() },
    ];
    full.anchors = [150.0, 1350.0, 2550.0, 3450.0].map(|at| Anchor { side: 1, at, inward: 70.0 }).to_vec();
    full.boards = vec![
        ProfileBoard {
            label: "P1".to_owned(),
            from: at(8400.0, -500.0),
            to: at(8400.0, 500.0),
            nails: vec![at(8400.0, 0.0), at(8400.0, 100.0)],
            off: Some(600.0),
        },
        ProfileBoard {
            label: "P2".to_owned(),
            from: at(-600.0, 5500.0),
            to: at(-600.0, 6500.0),
            nails: vec![at(-600.0, 6000.0)],
            off: None,
        },
    ];
    full.strings = vec![StringLine { from: at(-600.0, 6000.0), to: at(6000.0, 6000.0) }];
    full.north = Some(315.0);
    full.title = Title {
        job: Some("Garden room <2> & \"porch\" \u{1}, a name that goes on for longer than there is room for it, on and on".repeat(2)),
        date: Some("24 September 2026".to_owned()),
        drawn_by: Some("the joiner".to_owned()),
        number: Some("12".to_owned()),
        revision: Some("B".to_owned()),
    };
    full
}

#[test]
fn openings_anchors_boards_strings_north_and_a_long_name_find_their_places() {
    let (footprint, _) = pegline::plan::parse_expression("7800x6000-3000x2400", Units::Mm).unwrap();
    let footprint = footprint.with_house(&[0]);
    let picture = svg(&scene(&full(&footprint), None).unwrap());
    check_sheet(&picture, "the full drawing");
    check_outline(&picture, &footprint, "the full drawing");
    let document = Document::parse(&picture).unwrap();
    let count = |class: &str, tag: &str| {
        document
            .descendants()
            .filter(|node| node.has_tag_name(tag) && node.attribute("class") == Some(class))
            .count()
    };
    assert_eq!(count("nail", "circle"), 3);
    assert_eq!(count("anchor", "circle"), 4);
    assert_eq!(count("board", "path"), 1, "boards lie in one path");
    assert_eq!(count("house", "path"), 1);
    // The outline has a gap at the door, and goes on under the window.
    let gaps = document.descendants().filter(|node| node.attribute("stroke") == Some("#fff"));
    let gaps: Vec<&str> = gaps.filter_map(|node| node.attribute("d")).collect();
    assert_eq!(gaps.iter().map(|gap| gap.matches('M').count()).sum::<usize>(), 1, "{gaps:?}");
    let words: Vec<String> = texts(&document).into_iter().map(|text| text.words).collect();
    for word in ["door 910", "window 1200", "N", "P1 600", "P2", "24 September 2026", "the joiner", "12", "B"]
    {
        assert!(words.iter().any(|there| there == word), "{word} in {words:?}");
    }
    let named = words.iter().find(|word| word.starts_with("Garden room")).unwrap();
    assert!(named.contains("<2> & \"porch\""), "{named}");
}

/// The hatched strip lies behind the house side: outside the outline, along all of it.
#[test]
fn the_house_side_is_hatched_outside_the_outline() {
    let (footprint, _) = pegline::plan::parse_expression("7800x6000-3000x2400@tr", Units::Mm).unwrap();
    let footprint = footprint.with_house(&[1]);
    let picture = svg(&scene(&drawing(&footprint, Units::Mm), None).unwrap());
    let document = Document::parse(&picture).unwrap();
    let path_of = |class: &str| -> Vec<f64> {
        let node = document.descendants().find(|node| node.attribute("class") == Some(class)).unwrap();
        numbers(node.attribute("d").unwrap())
    };
    let outline: Vec<(f64, f64)> = path_of("outline").chunks(2).map(|p| (p[0], p[1])).collect();
    let plan = Polygon::new(LineString::from(outline.clone()), vec![]);
    let wall = geo::Line::new(outline[1], outline[2]);
    let hatch = path_of("house");
    let strokes = hatch.chunks(4);
    assert!(strokes.len() > 20);
    for stroke in strokes {
        let middle =
            geo::Point::new(f64::midpoint(stroke[0], stroke[2]), f64::midpoint(stroke[1], stroke[3]));
        assert!(!plan.intersects(&middle), "a hatching line lies inside");
        assert!(Euclidean.distance(&middle, &wall) < 4.01);
    }
    assert!(plan.unsigned_area() > 0.0);
}

/// Between M and J is a notch as narrow as one dimension line, which is that of JK: LM's length must not stand along it.
#[test]
fn a_length_without_a_line_keeps_off_the_line_of_the_side_opposite() {
    let walk =
        "9000 R 2500 R 1200 L 1500 R 1500 R 1500 L 900 L 3000 R 2400 R 3000 L 600 L 1200 R 2400 R 3700";
    let (footprint, _) = parse_walk(walk, Units::Mm).unwrap();
    let picture = svg(&scene(&drawing(&footprint, Units::Mm), None).unwrap());
    check_sheet(&picture, walk);
    let document = Document::parse(&picture).unwrap();
    let (along, across): (Vec<Text>, Vec<Text>) =
        texts(&document).into_iter().filter(|text| text.words == "1200").partition(|text| {
            let ring: Vec<geo::Point> = text.box_.exterior().points().collect();
            (ring[0].x() - ring[1].x()).abs() < 0.01
        });
    assert!(along.is_empty() && across.len() == 2, "{along:?} {across:?}");
}

/// Each string runs from nail to nail along a side of the outline, in a pattern of its own that no other line outside has.
#[test]
fn each_string_runs_from_nail_to_nail_along_a_side() {
    for job in ["garden-room", "workshop"] {
        let picture = pegline(["sketch", "--job", &format!("examples/{job}.json"), "--svg"]).run().out;
        check_sheet(&picture, job);
        let document = Document::parse(&picture).unwrap();
        let of_class = |class: &'static str| {
            document.descendants().filter(move |node| node.attribute("class") == Some(class))
        };
        let nails: Vec<(f64, f64)> =
            of_class("nail").map(|node| (number(node, "cx"), number(node, "cy"))).collect();
        let sides = strokes(&document, "outline");
        let strings = strokes(&document, "string");
        assert!(strings.len() >= 5, "{job}: {strings:?}");
        for string in strings {
            for end in string {
                let nailed = nails.iter().any(|nail| (nail.0 - end.0).hypot(nail.1 - end.1) < 0.011);
                assert!(nailed, "{job}: no nail at {end:?}");
            }
            let along = sides.iter().filter(|side| side.iter().all(|corner| off(*corner, string) < 0.011));
            assert!(along.count() > 0, "{job}: {string:?} lies along no side");
        }
        let pattern = |class: &'static str| of_class(class).next().unwrap().attribute("stroke-dasharray");
        assert_eq!(pattern("string"), Some("6.00 0.75 0.25 0.75 0.25 0.75"));
        assert_eq!([pattern("extension"), pattern("dimension")], [None, None]);
        assert_ne!(pattern("string"), pattern("proof"));
    }
}

/// North at 30° clockwise from up the page points up and to the right: the arrow's head by its tip and the middle of its foot.
#[test]
fn the_north_arrow_points_where_north_is() {
    let (footprint, _) = pegline::plan::parse_expression("6000x4000", Units::Mm).unwrap();
    for north in [0.0, 30.0, 90.0, 200.0, 315.0] {
        let mut with_north = drawing(&footprint, Units::Mm);
        with_north.north = Some(north);
        let picture = svg(&scene(&with_north, None).unwrap());
        let document = Document::parse(&picture).unwrap();
        let head = document
            .descendants()
            .find(|node| {
                node.attribute("class") == Some("north")
                    && node.attribute("fill") == Some("#000")
                    && node.has_tag_name("path")
            })
            .unwrap();
        let p = numbers(head.attribute("d").unwrap());
        let foot = (f64::midpoint(p[2], p[4]), f64::midpoint(p[3], p[5]));
        let bearing = (p[0] - foot.0).atan2(foot.1 - p[1]).to_degrees().rem_euclid(360.0);
        assert!((bearing - north).abs() < 0.5, "{north}: the arrow points to {bearing}");
    }
}

/// Letter paper, and scales of inches to the foot, for a plan in feet; what is dimensioned at an opening.
#[test]
fn a_plan_in_feet_is_drawn_on_letter_at_an_inch_scale_with_its_openings_dimensioned() {
    let (footprint, units) = pegline::plan::parse_expression("28ftx12ft+12ftx8ft@8ft", Units::Mm).unwrap();
    let mut on_letter = drawing(&footprint, units);
    on_letter.paper = Paper::Letter;
    on_letter.openings = vec![Opening {
        side: 4,
        from: 4.0 * 304.8,
        to: 7.0 * 304.8,
        window: false,
        text: "door 3ft".to_owned(),
    }];
    let picture = svg(&scene(&on_letter, None).unwrap());
    check_sheet(&picture, "letter");
    check_outline(&picture, &footprint, "letter");
    let document = Document::parse(&picture).unwrap();
    let words: Vec<String> = texts(&document).into_iter().map(|text| text.words).collect();
    for word in ["Letter", "1:64", "4'", "3'", "5'"] {
        assert!(words.iter().any(|there| there == word), "{word} in {words:?}");
    }
}

#[test]
fn a_picture_refers_to_nothing_outside_itself_and_keeps_to_two_decimals() {
    let (footprint, units) = usual().swap_remove(3);
    let picture = svg(&scene(&full(&footprint), None).unwrap());
    for word in ["href", "url(", "<script", "<image", "@import"] {
        assert!(!picture.contains(word), "{word}");
    }
    assert_eq!(picture.matches("http").count(), 1, "the SVG namespace alone");
    let document = Document::parse(&picture).unwrap();
    for path in document.descendants().filter(|node| node.has_tag_name("path")) {
        for word in path.attribute("d").unwrap().split(['M', 'L', ' ']) {
            let decimals = word.trim_end_matches('Z').split_once('.').map(|(_, d)| d.len());
            assert!(word.is_empty() || decimals == Some(2), "{word}");
        }
    }
    let again = svg(&scene(&full(&footprint), None).unwrap());
    assert_eq!(picture, again, "the same drawing comes out the same");
    let _ = units;
}
