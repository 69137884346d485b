//! Plates round a footprint: runs, splices and stock chosen together and proven best, anchors, damp-proof course.
//!
//! ```
//! use pegline::exact::{Pence, Tenths};
//! use pegline::length::Units;
//! use pegline::plan::parse_expression;
//! use pegline::plates::{Options, plates};
//! use pegline::stock::{ForSale, Timber};
//!
//! let (footprint, _) = parse_expression("6000x4000", Units::Mm)?;
//! let timber = Timber {
//!     for_sale: vec![ForSale { length: Tenths::from_mm(6000), price: Some(Pence(2160)) }],
//!     ..Timber::default()
//! };
//! let answer = plates(&footprint, &Options::new(140.0, timber))?;
//! assert_eq!((answer.splices, answer.proven), (0, true));
//! // The runs come to the perimeter less four widths, whichever goes through.
//! assert_eq!(answer.runs.iter().map(|run| run.length.0).sum::<f64>(), 20_000.0 - 4.0 * 140.0);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub mod anchors;
mod answer;
mod check;
mod choose;
mod dpc;
mod error;
mod handing;
mod lay;
mod lines;
mod marks;
mod options;
mod runs;
mod zones;

pub use anchors::{Anchor, AnchorRule, AnchorTrouble, Studs, Trouble};
pub use answer::{ChoiceEnd, Ends, Gap, HandingTold, Piece, Plates, Run};
pub use dpc::{Dpc, DpcRule, Fixings, StrapRule, Straps, dpc, fixings, straps};
pub use error::{CLOSEST, PlatesError};
pub use handing::{Corners, Handing, UnknownCorners, plate_corners};
pub use lines::Layer;
pub use options::{Options, Partition, SpliceRules, Stretch};
pub use runs::{End, SideRun, Strip, runs, strip};
pub use zones::Zone;

use crate::cutting::{Effort, Favour};
use crate::exact::Pence;
use crate::geometry::{Mm, Ratio};
use crate::plan::Footprint;
use crate::stock::{effort, waste_percent};
use choose::choose;
use lay::{Laid, lay, share};
use lines::{Line, lines};
use marks::{anchors_on, piece_names};

/// Lays out the plates round a footprint.
///
/// Of the time allowed, a quarter goes to choosing the handing, half to the list, a quarter to its two ends.
pub fn plates(footprint: &Footprint, options: &Options) -> Result<Plates, PlatesError> {
    options.check(footprint.len())?;
    let whole = effort(options.seconds)?;
    let chosen = choose(footprint, options, share(whole, 4))?;
    let mut all = lines(footprint, options, &chosen.handing, Layer::Plate)?;
    if options.binder {
        all.extend(lines(footprint, options, &chosen.handing, Layer::Binder)?);
    }
    let laid = lay(&all, options, options.favour, share(whole, 2))?;
    let ends = ends(&all, options, &laid, share(whole, 8))?;
    let told = HandingTold { asked: options.corners, tried: chosen.tried, of: chosen.of };
    let plate_corners = plate_corners(footprint).len();
    Ok(answer(options, told, &all, &laid, ends, plate_corners))
}

/// Where each run of a layer may be spliced, whatever the other layer does: its name, and closed intervals from its start.
pub fn splice_zones(
    footprint: &Footprint,
    options: &Options,
    plate: &Handing,
    layer: Layer,
) -> Result<Vec<(String, Vec<Zone>)>, PlatesError> {
    Ok(lines(footprint, options, plate, layer)?
        .into_iter()
        .map(|line| {
            let zones = line.zones(&[], 0.0);
            (line.name, zones)
        })
        .collect())
}

/// The fewest splices and the least cost; what was favoured is not worked out again.
fn ends(lines: &[Line], options: &Options, laid: &Laid, effort: Effort) -> Result<Ends, PlatesError> {
    let end = |favour| -> Result<ChoiceEnd, PlatesError> {
        let told = |laid: &Laid| ChoiceEnd {
            splices: laid.layout.splices,
            cost: options.timber.cost(laid.layout.cost),
            proven: laid.proven(),
        };
        if laid.favour == favour { Ok(told(laid)) } else { Ok(told(&lay(lines, options, favour, effort)?)) }
    };
    Ok(Ends { fewest_splices: end(Favour::Splices)?, cheapest: end(Favour::Cost)? })
}

fn answer(
    options: &Options,
    corners: HandingTold,
    lines: &[Line],
    laid: &Laid,
    ends: Ends,
    plate_corners: usize,
) -> Plates {
    let timber = &options.timber;
    let layout = &laid.layout;
    let names = piece_names(lines, layout);
    let runs: Vec<Run> = lines
        .iter()
        .zip(&layout.runs)
        .zip(&names)
        .map(|((line, run), names)| Run {
            side: line.name.clone(),
            layer: line.layer,
            length: Mm(line.length),
            start: line.start,
            end: line.end,
            from_corner: Mm(line.origin),
            pieces: run
                .pieces
                .iter()
                .zip(names)
                .map(|(piece, name)| Piece {
                    name: name.clone(),
                    from: piece.from,
                    to: piece.to,
                    length: piece.length,
                    bar: piece.bar,
                })
                .collect(),
        })
        .collect();
    let under: f64 = lines.iter().filter(|line| line.layer == Layer::Plate).map(|line| line.length).sum();
    let plate_pieces: Vec<f64> = runs
        .iter()
        .filter(|run| run.layer == Layer::Plate)
        .flat_map(|run| run.pieces.iter().map(|piece| piece.length.to_mm().0))
        .collect();
    // Partitions carry no roof here: straps go along the outline.
    let top = if options.binder { Layer::Binder } else { Layer::Plate };
    let top: Vec<f64> = lines
        .iter()
        .filter(|line| line.layer == top && !options.partitions.iter().any(|inside| inside.name == line.name))
        .map(|line| line.length)
        .collect();
    let (anchors, anchor_troubles) = match &options.anchors {
        Some(rule) => anchors_on(options, rule, lines, &runs),
        None => (vec![], vec![]),
    };
    let (bound, bound_splices) = bound(options, laid);
    let name = |cut: &crate::cutting::Cut| names[cut.run][cut.piece].clone();
    Plates {
        width: Mm(options.width),
        corners,
        bars: timber.bars(&layout.bars, name),
        buy: timber.buy(&layout.taken),
        from_van: timber.from_van(&layout.taken),
        bought: layout.bought,
        used: layout.used,
        waste_percent: Ratio(waste_percent(layout.bought, layout.used)),
        splices: layout.splices,
        cost: timber.cost(layout.cost),
        priced: timber.priced(),
        favour: laid.favour,
        bound: timber.cost(bound),
        bound_splices,
        proven: laid.proven(),
        gap: gap(options, laid),
        ends,
        anchor_rule: options.anchors.clone(),
        anchors,
        anchor_troubles,
        dpc: dpc(options.width, under, plate_corners + 2 * options.partitions.len(), options.dpc),
        fixings: options.fix_every.map(|every| fixings(&plate_pieces, every)),
        straps: options.straps.map(|rule| straps(&top, rule)),
        runs,
    }
}

/// The bound as cost, and as splices where they count by themselves.
fn bound(options: &Options, laid: &Laid) -> (Pence, Option<i64>) {
    let splices = i64::try_from(laid.layout.splices).unwrap_or(i64::MAX);
    // A proven list is its own bound, to the last splice.
    let (first, second) = laid.bound.min(laid.value());
    match options.favour {
        Favour::Splices => (Pence(second), Some(first)),
        Favour::Cost => (Pence(first), Some(second)),
        Favour::ASplice(worth) => (Pence(first - worth.0 * splices), None),
    }
}

fn gap(options: &Options, laid: &Laid) -> Option<Gap> {
    if laid.proven() {
        return None;
    }
    let (value, bound) = (laid.value(), laid.bound);
    let splices_first = options.favour == Favour::Splices;
    let cost = |more| Gap::Cost(options.timber.cost(Pence(more)));
    Some(if value.0 > bound.0 {
        let more = value.0 - bound.0;
        if splices_first { Gap::Splices(more) } else { cost(more) }
    } else {
        let more = value.1 - bound.1;
        if splices_first { cost(more) } else { Gap::Splices(more) }
    })
}
