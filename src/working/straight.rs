//! Straightness by hand: each reading less the block, and the best line through what is left.

use crate::length::{Units, decimal};
use crate::lines::{Stands, Straight};
use crate::page::Steps;

/// Each station, then the least-squares line.
pub(crate) fn steps(answer: &Straight, units: Units) -> Vec<Steps> {
    let stations = Steps {
        title: "Out of line: the reading less the block".to_owned(),
        steps: answer
            .stations
            .iter()
            .map(|station| {
                format!(
                    "at {}: {} − {} = {}, {}",
                    units.with_unit(station.at.0),
                    units.small_figure(station.reading.0),
                    units.small_figure(answer.block.0),
                    units.small(station.out.0),
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

/// The least-squares line, worked in mm whatever the units: the sums are the same.
fn best(answer: &Straight, units: Units) -> Option<Steps> {
    let best = answer.best.as_ref()?;
    let n = answer.stations.len() as f64;
    let mean = |pick: fn(&crate::lines::Station) -> f64| answer.stations.iter().map(pick).sum::<f64>() / n;
    let (mean_at, mean_out) = (mean(|s| s.at.0), mean(|s| s.out.0));
    let squares: f64 = answer.stations.iter().map(|s| (s.at.0 - mean_at).powi(2)).sum();
    let products: f64 = answer.stations.iter().map(|s| (s.at.0 - mean_at) * (s.out.0 - mean_out)).sum();
    let slope = products / squares;
    let show = |mm: f64| decimal(mm, 3);
    Some(Steps {
        title: "Best straight line, least squares".to_owned(),
        steps: vec![
            format!("mean of the stations: {} mm", show(mean_at)),
            format!("mean out of line: {} mm", show(mean_out)),
            format!("sum of (station − mean)²: {} mm²", show(squares)),
            format!("sum of (station − mean) × (out of line − mean): {} mm²", show(products)),
            format!(
                "slope: {} ÷ {} = {} mm in a metre",
                show(products),
                show(squares),
                decimal(slope * 1000.0, 3)
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
