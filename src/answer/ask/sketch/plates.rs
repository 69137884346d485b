//! The plates as they are drawn: pieces, splices, anchors and packs, each on its side of the outline.

use crate::answer::commands::{Known, Part};
use crate::answer::error::AnswerError;
use crate::job::Job;
use crate::packing::Packs;
use crate::plan::Footprint;
use crate::plates::{Layer, Plates};
use crate::sketch::{Anchor, LaidPiece, PlateLayout, Spot};

/// How the plate of the outline is laid, with the packs under it where the job has readings of its levels.
pub(super) fn layout(
    job: &Job,
    footprint: &Footprint,
    plates: &Plates,
    known: &[Part],
) -> Result<PlateLayout, AnswerError> {
    let units = job.units;
    let mut layout = PlateLayout { width: plates.width.0, ..PlateLayout::default() };
    for run in plates.runs.iter().filter(|run| run.layer == Layer::Plate) {
        let Ok(side) = footprint.parse_side(&run.side) else { continue };
        let at = |mm: f64| run.from_corner.0 + mm;
        for piece in &run.pieces {
            let (from, to) = (at(piece.from.to_mm().0), at(piece.to.to_mm().0));
            let text = format!("{} {}", piece.name, units.figure(piece.length.to_mm().0));
            layout.pieces.push(LaidPiece { side, from, to, name: piece.name.clone(), text });
        }
        for (one, _) in run.pieces.iter().zip(run.pieces.iter().skip(1)) {
            layout.splices.push(Spot { side, at: at(one.to.to_mm().0), text: String::new() });
        }
    }
    layout.anchors = anchors(footprint, plates)
        .map(|(Anchor { side, at, .. }, mark)| Spot { side, at, text: units.figure(mark) })
        .collect();
    if job.packs.is_some() {
        let packs = Packs::part(job, known)?;
        for station in packs.stations.iter().filter(|station| station.pack.0 > 0.0) {
            let Ok(side) = footprint.parse_side(&station.side) else { continue };
            let text = format!("+{}", units.figure(station.pack.0));
            layout.packs.push(Spot { side, at: station.along.0, text });
        }
    }
    Ok(layout)
}

/// The anchors of the plate on the masonry, each with its mark from the run's start; those of partitions have no side to
/// stand on.
pub(super) fn anchors(footprint: &Footprint, plates: &Plates) -> impl Iterator<Item = (Anchor, f64)> {
    plates.anchors.iter().filter_map(|anchor| {
        let run = plates.runs.iter().find(|run| run.side == anchor.side && run.layer == Layer::Plate)?;
        let side = footprint.parse_side(&anchor.side).ok()?;
        let (at, inward) = (run.from_corner.0 + anchor.at.0, plates.width.0 / 2.0);
        Some((Anchor { side, at, inward }, anchor.at.0))
    })
}
