//! Packing by hand: heights, gaps, packers, and the studs between two readings.

use crate::board::Board;
use crate::length::{Units, printed};
use crate::packing::{Packing, Packs, Readings, Station};
use crate::page::Steps;
use crate::plan::{Footprint, Spot};

/// The gaps from the readings, the packers that make them up, and the studs side by side.
pub(crate) fn steps(answer: &Packs, packing: &Packing, footprint: &Footprint, units: Units) -> Vec<Steps> {
    let board = Board::gaps(units);
    let name = |place: Spot| place.name(footprint, packing.units);
    let mut all = match packing.set_ups.as_slice() {
        [only] if only.kind == Readings::Staff && answer.closure.is_none() => {
            vec![gaps_from_staff(answer, &only.readings, &name, board)]
        }
        _ => vec![heights(answer, packing, &name, board), gaps(answer, board)],
    };
    let with_packers = !packing.packers.is_empty() && answer.read_again.is_none();
    if with_packers {
        all.push(Steps {
            title: "Packers: as near to each gap as the van allows, then the fewest".to_owned(),
            steps: answer.stations.iter().map(|s| format!("{}: {}", s.name, stack(s, board))).collect(),
        });
    }
    let sides = (0..footprint.len()).filter_map(|side| studs(answer, footprint, side, with_packers, board));
    all.extend(sides);
    all
}

fn gaps_from_staff(
    answer: &Packs,
    readings: &[(Spot, f64)],
    name: &dyn Fn(Spot) -> String,
    board: Board,
) -> Steps {
    // With one set-up and nothing read twice, the datum's reading is its line of sight above the datum.
    let datum = answer.set_ups.first().map_or(0.0, |sight| sight.sight.0);
    let mut lines = vec![format!(
        "the bigger the reading, the lower the place; the datum, {}, reads {}",
        answer.datum.name,
        board.with_unit(datum)
    )];
    let read = readings.iter();
    lines.extend(read.map(|(place, mm)| format!("{}: {}", name(*place), board.difference(*mm, datum))));
    Steps { title: "Gaps: the place's reading less the datum's".to_owned(), steps: lines }
}

fn heights(answer: &Packs, packing: &Packing, name: &dyn Fn(Spot) -> String, board: Board) -> Steps {
    let mut lines = vec![];
    if let Some(closure) = &answer.closure {
        for closing in &closure.closings {
            lines.push(format!(
                "{} read again from set-up {}: out by {}",
                closing.name,
                closing.set_up,
                board.with_unit(closing.misclosure.0)
            ));
        }
        lines.push(format!("shared out {}", closure.shared));
    }
    // What each place comes to from each of its readings.
    let mut found: Vec<(String, Vec<f64>)> = vec![];
    for (i, (set_up, sight)) in packing.set_ups.iter().zip(&answer.set_ups).enumerate() {
        for (place, mm) in &set_up.readings {
            let place = name(*place);
            let (height, sum) = match set_up.kind {
                Readings::Staff => (sight.sight.0 - mm, board.difference(sight.sight.0, *mm)),
                Readings::Heights => (mm + sight.sight.0, board.sum(*mm, sight.sight.0)),
            };
            lines.push(format!("{place}, set-up {}: {sum}", i + 1));
            match found.iter_mut().find(|(known, _)| *known == place) {
                Some((_, heights)) => heights.push(height),
                None => found.push((place, vec![height])),
            }
        }
    }
    for (place, heights) in found.iter().filter(|(_, heights)| heights.len() > 1) {
        let list: Vec<String> = heights.iter().map(|mm| board.figure(*mm)).collect();
        let mean = heights.iter().sum::<f64>() / heights.len() as f64;
        lines.push(format!("{place}, the mean of {}: {}", list.join(" and "), board.with_unit(mean)));
    }
    let kind = if answer.set_ups.iter().any(|s| s.kind == Readings::Staff) {
        "Heights: the line of sight less the staff reading"
    } else {
        "Heights as given"
    };
    Steps { title: kind.to_owned(), steps: lines }
}

fn gaps(answer: &Packs, board: Board) -> Steps {
    let datum = answer.datum.height.0;
    let stations = answer.stations.iter();
    Steps {
        title: format!("Gaps: the height of the datum, {}, less the place's", answer.datum.name),
        steps: stations.map(|s| format!("{}: {}", s.name, board.difference(datum, s.height.0))).collect(),
    }
}

/// `5 + 2 = 7 mm`, and what that leaves of the gap.
fn stack(station: &Station, board: Board) -> String {
    let sum: f64 = station.packers.iter().map(|packer| packer.0).sum();
    let gap = station.pack.0;
    if gap < 0.0 {
        return format!("{} above the datum: nothing to pack", board.with_unit(-gap));
    }
    let parts: Vec<String> = station.packers.iter().map(|packer| board.figure(packer.0)).collect();
    let made = if parts.is_empty() {
        "no packer".to_owned()
    } else {
        format!("{} = {}", parts.join(" + "), board.with_unit(sum))
    };
    let off = board.with_unit((gap - sum).abs());
    match gap - sum {
        left if left > 1e-6 => format!("{made}, {off} short of the gap"),
        left if left < -1e-6 => format!("{made}, {off} over the gap"),
        _ => made,
    }
}

/// The studs on one side: each on the straight line between the readings before and after it.
fn studs(answer: &Packs, footprint: &Footprint, side: usize, packers: bool, board: Board) -> Option<Steps> {
    let name = footprint.side_name(side);
    let (length, end) =
        (footprint.sides()[side].length, footprint.corners()[footprint.sides()[side].to].name);
    let mut read: Vec<(f64, &Station)> = answer
        .stations
        .iter()
        .filter_map(|s| {
            if s.side == name {
                Some((s.along.0, s))
            } else {
                (s.name == end.to_string()).then_some((length, s))
            }
        })
        .collect();
    read.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut lines = vec![];
    for pair in read.windows(2) {
        let [(from, first), (to, last)] = pair else {
            continue;
        };
        let studs = answer.studs.iter().filter(|stud| stud.side == name);
        let between: Vec<&Station> =
            studs.filter(|stud| stud.along.0 > *from && stud.along.0 < *to).collect();
        if !between.is_empty() {
            lines.extend(between_readings((*from, first), (*to, last), &between, packers, board));
        }
    }
    (!lines.is_empty()).then(|| Steps {
        title: format!("Studs on {name}, on a straight line from one reading to the next"),
        steps: lines,
    })
}

/// The studs between two readings, worked on with what is shown.
fn between_readings(
    (from, first): (f64, &Station),
    (to, last): (f64, &Station),
    studs: &[&Station],
    packers: bool,
    board: Board,
) -> Vec<String> {
    let change = board.shown_mm(last.pack.0) - board.shown_mm(first.pack.0);
    let run = board.shown_mm(to - from);
    let slope = (change / run * 1e9).round() / 1e9;
    let ratio = printed(slope, 9);
    let mut lines = vec![
        format!("{} to {}: {}", first.name, last.name, board.difference(last.pack.0, first.pack.0)),
        format!("for each 1 along: {} ÷ {} = {ratio}", board.figure(change), board.figure(run)),
    ];
    for stud in studs {
        let along = board.shown_mm(stud.along.0 - from);
        let rise = board.shown_mm(along * slope);
        lines.push(format!(
            "{} from {}: {} × {ratio} = {}",
            board.with_unit(along),
            first.name,
            board.figure(along),
            board.with_unit(rise)
        ));
        lines.push(format!("the gap there: {}", board.sum(first.pack.0, rise)));
        if packers {
            lines.push(format!("packers: {}", stack(stud, board)));
        }
    }
    lines
}
