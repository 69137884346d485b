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
//!     for_sale: vec![ForSale { length: Tenths::from_mm(6000), price: Some(Pence(2160)), count: None }],
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
mod choice;
mod dpc;
mod error;
mod handing;
mod lines;
mod marks;
mod options;
mod runs;
mod whole;
mod zones;

pub use anchors::{Anchor, AnchorRule, AnchorTrouble, Studs, Trouble};
pub use answer::{Gap, HandingTold, Piece, Plates, Run};
pub use choice::{Choice, ChoiceEnd, Ends, MoreSplices, SplicesForMoney};
pub use dpc::{Dpc, DpcRule, Fixings, StrapRule, Straps, dpc, fixings, straps};
pub use error::{CLOSEST, PlatesError};
pub use handing::{Corners, Handing, UnknownCorners, plate_corners};
pub use lines::Layer;
pub use options::{Options, Partition, SpliceRules, Stretch};
pub use runs::{End, SideRun, Strip, runs, strip};
pub use zones::Zone;

use crate::cutting::{self, Bound, Effort, Favour, House, HousePlan, plan_house};
use crate::exact::{Pence, int};
use crate::geometry::{Mm, Ratio};
use crate::plan::Footprint;
use crate::stock::{cut_order, effort, rests, waste_percent};
use lines::{Line, lines};
use marks::{anchors_on, piece_names};
use whole::Whole;

/// Steps for what more splices save, where that is not what was asked.
const CHOICE_STEPS: u64 = 300_000;

/// Lays out the plates round a footprint.
///
/// Of the time allowed, three quarters go to the list, a quarter to what more splices would save if that is asked for.
pub fn plates(footprint: &Footprint, options: &Options) -> Result<Plates, PlatesError> {
    options.check(footprint.len())?;
    let effort = effort(options.seconds)?;
    let whole = Whole::new(footprint, options)?;
    let house = whole.house(options, options.favour, part(effort, 3));
    let plan = lay(&house, options)?;
    // The way round that was chosen must fit the plan: no plate over another.
    let handing = whole.chosen(&plan.shapes);
    runs(footprint, options.width, &handing)?;
    let lines = whole.lines(&plan.shapes);
    let rest = part(effort, 1);
    let rest = Effort { steps: rest.steps.min(CHOICE_STEPS), ..rest };
    let house = House { effort: rest, ..house };
    let told = HandingTold { asked: options.corners, tried: whole.ways(), of: whole.ways() };
    let plate_corners = plate_corners(footprint).len();
    Ok(answer(options, told, &lines, plan, house, plate_corners))
}

/// So many quarters of the work.
fn part(whole: Effort, quarters: u32) -> Effort {
    Effort { steps: whole.steps / 4 * u64::from(quarters), time: whole.time / 4 * quarters }
}

fn lay(house: &House, options: &Options) -> Result<HousePlan, PlatesError> {
    plan_house(house).map_err(|error| {
        // Whether it is the binder's splices that have no place.
        let apart = House { over: vec![], ..house.clone() };
        let lap = options.splices.lap;
        if error == cutting::Error::StockRunsOut && options.binder && plan_house(&apart).is_ok() {
            PlatesError::NoLap { lap }
        } else {
            error.into()
        }
    })
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

fn answer(
    options: &Options,
    corners: HandingTold,
    lines: &[Line],
    plan: HousePlan,
    cost_first: House,
    plate_corners: usize,
) -> Plates {
    let timber = &options.timber;
    let layout = &plan.layout;
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
    let plate: f64 = lines.iter().filter(|line| line.layer == Layer::Plate).map(|line| line.length).sum();
    // The plate may run through a door until it is cut out: no strip stays on the threshold.
    let doors = options.openings.iter().filter(|_| !options.cut_openings);
    let under = doors.fold(plate, |plate, door| plate - (door.to - door.from)).max(0.0);
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
    let (bound, bound_splices) = bound(options.favour, layout);
    let bars = timber.bars(&layout.bars, |cut| names[cut.run][cut.piece].clone());
    Plates {
        width: Mm(options.width),
        corners,
        cut_order: cut_order(&bars),
        rests: rests(&bars),
        bars,
        buy: timber.buy(&layout.taken),
        from_van: timber.from_van(&layout.taken),
        bought: layout.bought,
        used: layout.used,
        waste_percent: Ratio(waste_percent(layout.bought, layout.used)),
        splices: layout.splices,
        cost: timber.cost(layout.cost),
        priced: timber.priced(),
        favour: options.favour,
        bound: timber.cost(bound),
        bound_splices,
        proven: layout.proven,
        gap: layout.gap.map(|gap| match gap {
            cutting::Gap::Splices { more } => Gap::Splices(more),
            cutting::Gap::Money { more } => Gap::Cost(timber.cost(more)),
        }),
        more_splices: MoreSplices::new(timber.clone(), plan, options.favour, cost_first),
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
fn bound(favour: Favour, layout: &cutting::Layout) -> (Pence, Option<i64>) {
    let worth = if let Favour::ASplice(worth) = favour { worth.0 } else { 0 };
    match layout.bound {
        Bound::FewestSplices { splices, cost } | Bound::Cost { cost, splices } => (cost, Some(splices)),
        Bound::CostPlusPerSplice { total } => (Pence(total.0 - worth * int(layout.splices)), None),
    }
}
