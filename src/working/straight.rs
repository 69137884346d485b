//! Straightness by hand: each reading less the block, and the best line through what is left.

use crate::board::Board;
use crate::length::{MM_PER_INCH, Units, printed};
use crate::lines::{Stands, Straight};
use crate::page::Steps;

/// Each station, then the least-squares line.
pub(crate) fn steps(answer: &Straight, units: Units) -> Vec<Steps> {
    let board = Board::gaps(units);
    let stations = Steps {
        title: "Out of line: the reading less the block".to_owned(),
        steps: answer
            .stations
            .iter()
            .map(|station| {
                format!(
                    "at {}: {} − {} = {}, {}",
                    units.with_unit(station.at.0),
                    board.figure(station.reading.0),
                    board.figure(answer.block.0),
                    board.with_unit(station.out.0),
                    match station.stands {
                        Stands::OnLine => "on the line",
                        Stands::In => "so it stands in",
                        Stands::Out => "so it stands out",
                    }
                )
            })
            .collect(),
    };
    std::iter::once(stations).chain(best(answer, units)).collect()
}

/// The least-squares line, in mm or in inches.
fn best(answer: &Straight, units: Units) -> Option<Steps> {
    let best = answer.best.as_ref()?;
    let n = answer.stations.len() as f64;
    let mean = |pick: fn(&crate::lines::Station) -> f64| answer.stations.iter().map(pick).sum::<f64>() / n;
    let (mean_at, mean_out) = (mean(|s| s.at.0), mean(|s| s.out.0));
    let squares: f64 = answer.stations.iter().map(|s| (s.at.0 - mean_at).powi(2)).sum();
    let products: f64 = answer.stations.iter().map(|s| (s.at.0 - mean_at) * (s.out.0 - mean_out)).sum();
    let slope = products / squares;
    let (unit, per_unit) = match units {
        Units::Mm | Units::M => ("mm", 1.0),
        Units::FeetInches => ("in", MM_PER_INCH),
    };
    let show = |mm: f64| printed(mm / per_unit, 3);
    let square = |square_mm: f64| printed(square_mm / (per_unit * per_unit), 3);
    let (each, many) = match units {
        Units::Mm | Units::M => ("mm in a metre", 1000.0),
        Units::FeetInches => ("in in a foot", 12.0),
    };
    Some(Steps {
        title: "Best straight line, least squares".to_owned(),
        steps: vec![
            format!("mean of the stations: {} {unit}", show(mean_at)),
            format!("mean out of line: {} {unit}", show(mean_out)),
            format!("sum of (station − mean)²: {} {unit}²", square(squares)),
            format!("sum of (station − mean) × (out of line − mean): {} {unit}²", square(products)),
            format!(
                "slope: {} ÷ {} × {many} = {} {each}",
                square(products),
                square(squares),
                printed(slope * many, 3)
            ),
            format!(
                "at the first station {} from the string, at the last {}; the largest distance from it is {}",
                units.small(best.at_first.0),
                units.small(best.at_last.0),
                units.small(best.worst.0)
            ),
        ],
    })
}
