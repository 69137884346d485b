//! Run lengths by hand: the side, what each end adds or takes off, and each bar's sum.

use super::triangle::length;
use crate::length::Units;
use crate::page::Steps;
use crate::plan::Footprint;
use crate::plates::{End, Layer, Plates, Run};
use crate::stock::{Bar, Timber};

/// Each run, the ring, each bar.
pub(crate) fn steps(answer: &Plates, footprint: &Footprint, timber: &Timber, units: Units) -> Vec<Steps> {
    let runs = answer.runs.iter().filter_map(|run| run_steps(answer, footprint, run, units));
    let ring = ring(answer, footprint, units);
    let bars = bar_steps(&answer.bars, timber, units);
    runs.chain(ring).chain(bars).collect()
}

fn run_steps(answer: &Plates, footprint: &Footprint, run: &Run, units: Units) -> Option<Steps> {
    let index = footprint.parse_side(&run.side).ok()?;
    let side = footprint.sides()[index].length;
    let width = answer.width.0;
    let show = |mm: f64| length(units, mm);
    // Where the run's ends are along the side says what each end adds or takes off.
    let (from, to) = (run.from_corner.0, run.from_corner.0 + run.length.0);
    let letters: Vec<char> = run.side.chars().collect();
    let end = |letter: char, end: End, past: f64| match end {
        End::House => format!("at {letter} it stops at the house: nothing to add or take off"),
        End::Opening => format!("at the opening on the way to {letter}: − {}", show(-past)),
        End::Through if past > 0.0 => {
            format!("at {letter}, an inward corner, it goes through and past the corner: + {}", show(width))
        }
        End::Through => format!("at {letter}, an outward corner, it goes through to the face: + 0"),
        End::Butts if past < 0.0 => {
            format!("at {letter}, an outward corner, it butts against the other run: − {}", show(width))
        }
        End::Butts => format!("at {letter}, an inward corner, it butts at the corner: − 0"),
    };
    let layer = match run.layer {
        Layer::Plate => "plate",
        Layer::Binder => "head binder",
    };
    Some(Steps {
        title: format!("Run {}, {layer}", run.side),
        steps: vec![
            format!("side {} = {}", run.side, show(side)),
            end(letters[0], run.start, -from),
            end(letters[1], run.end, to - side),
            format!(
                "run = {} {} {} = {}",
                show(side),
                signed(-from, units),
                signed(to - side, units),
                show(run.length.0)
            ),
        ],
    })
}

fn signed(mm: f64, units: Units) -> String {
    let sign = if mm < 0.0 { "−" } else { "+" };
    format!("{sign} {}", length(units, mm.abs()))
}

/// Round a whole ring the runs come to the perimeter less four widths, whichever way the corners go.
fn ring(answer: &Plates, footprint: &Footprint, units: Units) -> Option<Steps> {
    let plate: Vec<&Run> = answer
        .runs
        .iter()
        .filter(|run| run.layer == Layer::Plate && footprint.parse_side(&run.side).is_ok())
        .collect();
    if plate.len() != footprint.len() || footprint.sides().iter().any(|side| side.house) {
        return None;
    }
    let total: f64 = plate.iter().map(|run| run.length.0).sum();
    let show = |mm: f64| length(units, mm);
    let lengths: Vec<String> = plate.iter().map(|run| units.figure(run.length.0)).collect();
    Some(Steps {
        title: "Check: the runs together".to_owned(),
        steps: vec![
            format!("{} = {}", lengths.join(" + "), show(total)),
            format!(
                "the perimeter less four widths: {} − 4 × {} = {}",
                show(footprint.perimeter()),
                show(answer.width.0),
                show(footprint.perimeter() - 4.0 * answer.width.0)
            ),
        ],
    })
}

/// Each bar's pieces and saw cuts added up.
pub(crate) fn bar_steps(bars: &[Bar], timber: &Timber, units: Units) -> impl Iterator<Item = Steps> {
    let (kerf, trim) = (timber.kerf.to_mm().0, timber.trim.to_mm().0);
    bars.iter().map(move |bar| {
        let show = |mm: f64| length(units, mm);
        let pieces: Vec<String> =
            bar.pieces.iter().map(|piece| units.figure(piece.length.to_mm().0)).collect();
        let between = bar.pieces.len().saturating_sub(1);
        let total: f64 = bar.pieces.iter().map(|piece| piece.length.to_mm().0).sum();
        let (stock, offcut) = (bar.stock.to_mm().0, bar.offcut.to_mm().0);
        let over = stock - trim - total - between as f64 * kerf;
        // Where anything is over, one more cut parts it from the last piece, and may take all of it.
        let (cuts, last) = if over > 0.0 { (between + 1, over.min(kerf)) } else { (between, 0.0) };
        let kerfs = between as f64 * kerf + last;
        let taken = if last > 0.0 && last < kerf {
            format!("{between} × {} and {} at the end = {}", show(kerf), show(last), show(kerfs))
        } else {
            format!("{cuts} × {} = {}", show(kerf), show(kerfs))
        };
        let mut steps =
            vec![format!("pieces: {} = {}", pieces.join(" + "), show(total)), format!("saw cuts: {taken}")];
        let trimmed = if trim > 0.0 {
            steps.push(format!("trimmed off the ends: {}", show(trim)));
            format!(" − {}", show(trim))
        } else {
            String::new()
        };
        steps.push(format!(
            "left: {} − {} − {}{trimmed} = {}",
            show(stock),
            show(total),
            show(kerfs),
            show(offcut)
        ));
        Steps { title: format!("Bar {}, {}", bar.number, units.with_unit(stock)), steps }
    })
}
