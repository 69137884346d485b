//! The figure at one scale: lines, then dimensions and letters found places for, not yet on a sheet.

use super::dimensions::{Measure, Row, chain, farthest, put};
use super::drawing::Drawing;
use super::elements::{Label, Line, Part, Pen, Wording};
use super::hidden::{Hidden, beside, hidden};
use super::lettering::Lettering;
use super::outline;
use super::place::{Candidate, Places, around};
use super::plates;
use super::scale::Scale;
use super::scene::Figure;
use super::shape::{Frame, Segment};
use super::view::{Seen, View, seen};
use crate::geometry::Point;

/// Up to this many corners the large lettering is used.
const FEW_CORNERS: usize = 12;
/// Up to this many lines to tape are lettered like the sides.
const FEW_CHECKS: usize = 9;
/// A taped line's text is left to the key rather than put where it costs this much: over the outline, or two lines more.
const POOREST_CHECK: f64 = 40.0;
/// From what is drawn round the outline to the openings' dimension line, mm.
const OPENING_ROW: f64 = 8.0;
/// How near a corner its letter may come, mm.
const LETTER_GAP: f64 = 1.6;

/// Composes the figure, the plan's (0, 0) at its own. Nothing where a letter or a side's length finds no place: a smaller scale
/// leaves more room round the outline.
pub(super) fn compose(drawing: &Drawing, scale: Scale) -> Option<Figure> {
    let per_mm = scale.on_paper(1.0);
    let sides = seen(&drawing.footprint, per_mm);
    let mut figure = Figure::default();
    outline::draw(&mut figure, drawing, &sides, per_mm);
    let mut places = Places::default();
    note(&figure, &mut places);
    if let Some(layout) = &drawing.plates {
        plates::pieces(&mut figure, &mut places, layout, &sides, per_mm)?;
    }
    dimensioned(&mut figure, &mut places, drawing, &sides, per_mm)?;
    openings(&mut figure, &mut places, drawing, &sides, per_mm);
    if let Some(layout) = &drawing.plates {
        plates::packs(&mut figure, &mut places, drawing, layout, per_mm)?;
        plates::names(&mut figure, &mut places, layout, &sides, per_mm)?;
        plates::anchors(&mut figure, &mut places, drawing, layout, &sides, per_mm)?;
    } else {
        boards(&mut figure, &mut places, drawing, per_mm)?;
        checks(&mut figure, &mut places, drawing, per_mm);
    }
    break_lines(&mut figure);
    Some(figure)
}

/// Notes what is drawn, so that texts keep off it.
fn note(figure: &Figure, places: &mut Places) {
    for line in &figure.lines {
        places.line(line, worth(line.part, line.pen));
    }
    for mark in &figure.marks {
        let size = 2.0 * mark.radius;
        places.area(Frame::level(mark.middle, size, size), 15.0);
    }
}

/// Corner letters and the lengths of sides, round the outline and in its notches.
fn dimensioned(
    figure: &mut Figure,
    places: &mut Places,
    drawing: &Drawing,
    sides: &[Seen],
    per_mm: f64,
) -> Option<()> {
    let few = drawing.footprint.len() <= FEW_CORNERS;
    let sizes = if few { Lettering::Medium } else { Lettering::Small };
    let jambs = opening_rows(drawing, sides, figure, per_mm);
    for row in &jambs {
        let start = |along| start_at_sides(sides, row.view, along);
        row.draw(figure, places, |along| past_strings(drawing, row.view, along, per_mm, start(along)));
    }
    let rows = rows(drawing, sides, figure, per_mm);
    for row in &rows {
        let start = |along| outermost(drawing, row.view, along, per_mm);
        row.draw(figure, places, |along| past_strings(drawing, row.view, along, per_mm, start(along)));
    }
    let hidden = hidden(sides, sizes, |side| measure(drawing, side));
    for side in &hidden {
        if let Hidden::Line(side, row) = side {
            row.draw(figure, places, |_| side.out);
        }
    }
    // In a narrow notch a letter gives way more easily than a length on its line.
    for side in &hidden {
        if let Hidden::Line(_, row) = side {
            row.label(figure, places, sizes)?;
        }
    }
    letters(figure, places, drawing, per_mm, few)?;
    for row in &jambs {
        row.label(figure, places, Lettering::Small)?;
    }
    let mut reached: Vec<(View, f64)> = vec![];
    for row in &rows {
        reached.push((row.view, row.label(figure, places, sizes)?));
    }
    for row in overall(drawing, &rows, &reached, sizes, per_mm) {
        // From the first row's line where that is divided too, else from the outline itself: no line begins in the air.
        let first = rows.iter().find(|first| first.view == row.view);
        row.draw(figure, places, |along| match first {
            Some(first) if first.is_divided_at(along) => first.out,
            _ => {
                let start = outermost(drawing, row.view, along, per_mm);
                past_strings(drawing, row.view, along, per_mm, start)
            }
        });
        row.label(figure, places, sizes)?;
    }
    for side in &hidden {
        if let Hidden::Beside(side, measure) = side {
            beside(figure, places, *side, measure, sizes)?;
        }
    }
    Some(())
}

/// What a text across such a line costs.
const fn worth(part: Part, pen: Pen) -> f64 {
    match part {
        Part::Outline | Part::Board | Part::Plate => 40.0,
        Part::House => 8.0,
        Part::Proof | Part::Spare => 12.0,
        Part::Opening => match pen {
            Pen::Gap => 0.0,
            _ => 30.0,
        },
        _ => 15.0,
    }
}

fn measure(drawing: &Drawing, side: Seen) -> Measure {
    Measure {
        wording: Wording::Side,
        name: drawing.footprint.side_name(side.side),
        text: drawing.units.figure(drawing.footprint.sides()[side.side].length),
        from: side.from,
        to: side.to,
    }
}

fn rows(drawing: &Drawing, sides: &[Seen], figure: &Figure, per_mm: f64) -> Vec<Row> {
    let drawn = figure.extent();
    let (width, depth) = drawing.footprint.extent();
    let mut outline = super::shape::Extent::NOTHING;
    outline.include(Point::default());
    outline.include(Point::new(width * per_mm, depth * per_mm));
    let marked = plates::widest_mark(drawing);
    View::ALL
        .into_iter()
        .filter_map(|view| chain(view, sides, outline, drawn, marked, |side| measure(drawing, side)))
        .collect()
}

/// A row for the openings of the sides seen in each view: from corner to jamb, over the opening, and on to the other corner.
fn opening_rows(drawing: &Drawing, sides: &[Seen], figure: &Figure, per_mm: f64) -> Vec<Row> {
    let drawn = figure.extent();
    let marked = plates::widest_mark(drawing);
    let row = |view: View| {
        let mut measures = vec![];
        for side in sides.iter().filter(|side| side.view == view && side.clearance.is_infinite()) {
            let mut stops = vec![side.from, side.to];
            for opening in drawing.openings.iter().filter(|opening| opening.side == side.side) {
                for mm in [opening.from, opening.to] {
                    let at = outline::along(drawing, side.side, mm)?;
                    stops.push(view.split(at).0 * per_mm);
                }
            }
            if stops.len() == 2 {
                continue;
            }
            stops.sort_by(f64::total_cmp);
            stops.dedup_by(|b, a| (*a - *b).abs() < 1e-6);
            measures.extend(stops.iter().zip(stops.iter().skip(1)).map(|(from, to)| Measure {
                wording: Wording::Opening,
                name: drawing.footprint.side_name(side.side),
                text: drawing.units.figure((to - from) / per_mm),
                from: *from,
                to: *to,
            }));
        }
        (!measures.is_empty()).then(|| Row {
            view,
            out: farthest(view, drawn) + OPENING_ROW + if view.0.is_across() { 0.0 } else { marked },
            measures,
            leaving: 0.0,
        })
    };
    View::ALL.into_iter().filter_map(row).collect()
}

/// How far out the side lies that is seen at `along`.
fn start_at_sides(sides: &[Seen], view: View, along: f64) -> f64 {
    let there =
        sides.iter().filter(|side| side.view == view && side.from - 1e-6 <= along && along <= side.to + 1e-6);
    there.map(|side| side.out).fold(f64::NEG_INFINITY, f64::max)
}

/// How far out the footprint reaches at `along`, mm on paper.
fn outermost(drawing: &Drawing, view: View, along: f64, per_mm: f64) -> f64 {
    let corners = drawing.footprint.corners().iter();
    corners
        .map(|corner| view.split(corner.at))
        .filter(|(at, _)| (at * per_mm - along).abs() < 1e-6)
        .map(|(_, out)| out * per_mm)
        .fold(f64::NEG_INFINITY, f64::max)
}

/// `start`, or past the end of a string that runs on from there: an extension line on it would hide which it is.
fn past_strings(drawing: &Drawing, view: View, along: f64, per_mm: f64, start: f64) -> f64 {
    let ends = drawing.strings.iter().map(|string| [string.from, string.to].map(|p| view.split(p)));
    ends.filter(|ends| ends.iter().all(|(at, _)| (at * per_mm - along).abs() < 1e-6))
        .flatten()
        .map(|(_, out)| out * per_mm)
        .fold(start, f64::max)
}

/// The whole width below and the whole depth at the right, where no side gives it.
fn overall(
    drawing: &Drawing,
    rows: &[Row],
    reached: &[(View, f64)],
    lettering: Lettering,
    per_mm: f64,
) -> Vec<Row> {
    let (width, depth) = drawing.footprint.extent();
    let wanted = [
        (View(crate::plan::Heading::Left), width, "width"),
        (View(crate::plan::Heading::Down), depth, "depth"),
    ];
    let mut overall = vec![];
    for (view, length, name) in wanted {
        let given = drawing.footprint.sides().iter().any(|side| {
            side.heading.is_across() == view.0.is_across() && (side.length - length).abs() < 1e-6
        });
        let first = rows.iter().find(|row| row.view == view);
        if let (false, Some(first)) = (given, first) {
            let reached = reached.iter().find(|(v, _)| *v == view).map_or(first.out, |r| r.1);
            overall.push(Row {
                view,
                out: first.out.max(reached) + lettering.height() + 3.0,
                measures: vec![Measure {
                    wording: Wording::Overall,
                    name: name.to_owned(),
                    text: drawing.units.figure(length),
                    from: 0.0,
                    to: length * per_mm,
                }],
                leaving: 0.0,
            });
        }
    }
    overall
}

fn letters(
    figure: &mut Figure,
    places: &mut Places,
    drawing: &Drawing,
    per_mm: f64,
    few: bool,
) -> Option<()> {
    let lettering = if few { Lettering::Large } else { Lettering::Medium };
    for (i, corner) in drawing.footprint.corners().iter().enumerate() {
        let (arrives, leaves) = drawing.footprint.sides_at(i);
        let outward = [arrives, leaves].map(|side| drawing.footprint.sides()[side].heading.outward());
        let toward = Point::new(outward[0].0 + outward[1].0, outward[0].1 + outward[1].1);
        let at = Point::new(corner.at.x * per_mm, corner.at.y * per_mm);
        let mut label = Label::new(Wording::Corner, corner.name, lettering, at);
        label.name = corner.name.to_string();
        let candidates = around(&label, at, toward, LETTER_GAP, 4.0);
        put(figure, places, label, candidates)?;
    }
    Some(())
}

fn openings(figure: &mut Figure, places: &mut Places, drawing: &Drawing, sides: &[Seen], per_mm: f64) {
    for opening in &drawing.openings {
        let Some(side) = sides.get(opening.side) else {
            continue;
        };
        let heading = side.view.0;
        let start = drawing.footprint.corners()[drawing.footprint.sides()[side.side].from].at;
        let ((x, y), half) = (heading.step(), f64::midpoint(opening.from, opening.to));
        let at = Point::new((start.x + x * half) * per_mm, (start.y + y * half) * per_mm);
        let inward = side.view.join(0.0, -1.0);
        let mut label = Label::new(Wording::Opening, opening.text.clone(), Lettering::Small, at);
        label.name = drawing.footprint.side_name(opening.side);
        // Where none is free, the key of openings on the page has it.
        let clear = drawing.plates.as_ref().map_or(2.0, |layout| layout.width * per_mm + 0.8);
        let candidates = around(&label, at, inward, clear, clear + 2.0);
        let _ = put(figure, places, label, candidates);
    }
}

/// Labels the profile boards on the side away from the plan's middle.
fn boards(figure: &mut Figure, places: &mut Places, drawing: &Drawing, per_mm: f64) -> Option<()> {
    let (width, depth) = drawing.footprint.extent();
    for board in &drawing.boards {
        let middle =
            Point::new(f64::midpoint(board.from.x, board.to.x), f64::midpoint(board.from.y, board.to.y));
        let toward = Point::new(middle.x - width / 2.0, middle.y - depth / 2.0);
        let at = Point::new(middle.x * per_mm, middle.y * per_mm);
        let off = board.off.map_or_else(String::new, |mm| format!(" {}", drawing.units.figure(mm)));
        let text = format!("{}{off}", board.label);
        let mut label = Label::new(Wording::Board, text, Lettering::Small, at);
        label.name.clone_from(&board.label);
        let candidates = around(&label, at, toward, 1.0, 4.0);
        put(figure, places, label, candidates)?;
    }
    Some(())
}

/// Writes each taped line's name and length on it where a place can be found, small or its name alone where that is all there
/// is room for; the key has the lengths of all.
fn checks(figure: &mut Figure, places: &mut Places, drawing: &Drawing, per_mm: f64) {
    let lettering = if drawing.checks.len() <= FEW_CHECKS { Lettering::Medium } else { Lettering::Small };
    let mut left = vec![];
    for check in &drawing.checks {
        let corners = drawing.footprint.corners();
        let (Some(from), Some(to)) = (corners.get(check.from), corners.get(check.to)) else {
            continue;
        };
        let [a, b] = [from.at, to.at].map(|p| Point::new(p.x * per_mm, p.y * per_mm));
        // From left to right, or upward where it stands upright, so that it reads from below or from the right.
        let upright = (a.x - b.x).abs() < 1e-6;
        let forward = if upright { b.y < a.y } else { a.x < b.x };
        let line = if forward { Segment::new(a, b) } else { Segment::new(b, a) };
        let name = drawing.footprint.line_name(check.from, check.to);
        let whole = format!("{name} {}", drawing.units.figure(from.at.distance(to.at)));
        match on_line(places, line, &whole, lettering) {
            Some(label) => figure.labels.push(Label { name, ..label }),
            None => left.push((line, whole, name)),
        }
    }
    for (line, whole, name) in left {
        let label = on_line(places, line, &whole, Lettering::Small)
            .or_else(|| on_line(places, line, &name, Lettering::Small));
        figure.labels.extend(label.map(|label| Label { name, ..label }));
    }
}

/// The text on a line, which is broken for it, or along one edge of it, as near the middle as can be; nothing where there is
/// no place that is not too poor.
fn on_line(places: &mut Places, line: Segment, text: &str, lettering: Lettering) -> Option<Label> {
    let mut label = Label::new(Wording::Diagonal, text, lettering, line.at(0.5));
    let upright = (line.a.x - line.b.x).abs() < 1e-6;
    label.frame.turn =
        if upright { -90.0 } else { (line.b.y - line.a.y).atan2(line.b.x - line.a.x).to_degrees() };
    let room = label.frame.width + 4.0;
    let frame = label.frame;
    let aside = frame.height / 2.0 + 0.4;
    let candidates = (0..40).flat_map(move |i: u32| {
        let off = f64::from(i.div_ceil(2)) * 0.02 * if i.is_multiple_of(2) { 1.0 } else { -1.0 };
        let inside = line.length() * (0.5 - f64::abs(off)) >= room / 2.0;
        let at = Frame { middle: line.at(0.5 + off), ..frame };
        let beside = [(0.0, 0.0), (-aside, 4.0), (aside, 5.0)].map(|(down, cost)| Candidate {
            frame: Frame { middle: at.point(0.0, down), ..frame },
            leader: None,
            cost: f64::abs(off) * 16.0 + cost,
        });
        beside.into_iter().filter(move |_| inside)
    });
    label.frame = places.take_below(candidates, POOREST_CHECK)?.frame;
    Some(label)
}

/// Marks the texts that a line runs behind, so that it is broken for them.
fn break_lines(figure: &mut Figure) {
    for label in &mut figure.labels {
        let frame = label.frame.grown(0.3).laid();
        let mut segments = figure.lines.iter().flat_map(Line::segments);
        label.breaks_lines = segments.any(|segment| frame.is_crossed_by(segment));
    }
}
