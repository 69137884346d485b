//! Run lengths by hand: the side, what each end adds or takes off, and each bar's sum.

use crate::board::Board;
use crate::exact::Tenths;
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
    let board = Board::lengths(units);
    let show = |mm: f64| board.worked(units, mm);
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
                board.with_unit(side),
                signed(board, -from),
                signed(board, to - side),
                board.with_unit(run.length.0)
            ),
        ],
    })
}

fn signed(board: Board, mm: f64) -> String {
    let sign = if mm < 0.0 { "−" } else { "+" };
    format!("{sign} {}", board.with_unit(mm.abs()))
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
    let board = Board::lengths(units);
    let (lengths, total) = added(board, plate.iter().map(|run| run.length.0));
    let (perimeter, width) = (board.shown_mm(footprint.perimeter()), board.shown_mm(answer.width.0));
    Some(Steps {
        title: "Check: the runs together".to_owned(),
        steps: vec![
            format!("{lengths} = {}", board.with_unit(total)),
            format!(
                "the perimeter less four widths: {} − 4 × {} = {}",
                board.with_unit(perimeter),
                board.with_unit(width),
                board.with_unit(perimeter - 4.0 * width)
            ),
        ],
    })
}

/// Lengths with plus signs between them, and what they come to as they are shown, mm.
fn added(board: Board, lengths: impl Iterator<Item = f64>) -> (String, f64) {
    let lengths: Vec<f64> = lengths.map(|mm| board.shown_mm(mm)).collect();
    let figures: Vec<String> = lengths.iter().map(|mm| board.figure(*mm)).collect();
    (figures.join(" + "), lengths.iter().sum())
}

/// Each bar's pieces and saw cuts added up.
pub(crate) fn bar_steps(bars: &[Bar], timber: &Timber, units: Units) -> impl Iterator<Item = Steps> {
    let board = Board::lengths(units);
    let shown = move |length: Tenths| board.shown_mm(length.to_mm().0);
    let (kerf, trim) = (shown(timber.kerf), shown(timber.trim));
    bars.iter().map(move |bar| {
        let show = |mm: f64| board.with_unit(mm);
        let (pieces, total) = added(board, bar.pieces.iter().map(|piece| piece.length.to_mm().0));
        let between = bar.pieces.len().saturating_sub(1);
        let stock = shown(bar.stock);
        let over = stock - trim - total - between as f64 * kerf;
        // Where anything is over, one more cut parts it from the last piece, and may take all of it.
        let (cuts, last) = if over > 0.0 { (between + 1, over.min(kerf)) } else { (between, 0.0) };
        let kerfs = between as f64 * kerf + last;
        let taken = if last > 0.0 && last < kerf {
            format!("{between} × {} and {} at the end = {}", show(kerf), show(last), show(kerfs))
        } else {
            format!("{cuts} × {} = {}", show(kerf), show(kerfs))
        };
        let mut steps = vec![format!("pieces: {pieces} = {}", show(total)), format!("saw cuts: {taken}")];
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
            show(stock - total - kerfs - trim)
        ));
        Steps { title: format!("Bar {}, {}", bar.number, units.with_unit(bar.stock.to_mm().0)), steps }
    })
}
