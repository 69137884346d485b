//! The longest rest that the same bars can leave: pieces moved from one to another, which costs nothing.

use super::layout::{Bar, offcut};
use crate::exact::Tenths;

/// The shortest rest that is worth keeping: 600 mm, about the least that is carried back (common practice, no source).
pub const LEAST_REST: Tenths = Tenths::from_mm(600);

/// The bars with the longest rests, so many, are each tried as the one to leave a longer one.
const MOST_TRIED: usize = 8;

/// Moves pieces between the bars so that one of them leaves as long a rest as it can, if that is one to keep. `kerf` and
/// `trim` are what a cut takes and what each bar loses first; `apart` says whether a piece of a run must not come onto a bar.
pub(super) fn gather(bars: &mut [Bar], (kerf, trim): (i64, i64), apart: impl Fn(&Bar, usize) -> bool) {
    let cut = |bar: &Bar| bar.pieces.iter().map(|piece| piece.length.0 + kerf).sum::<i64>();
    let left: Vec<i64> = bars.iter().map(|bar| bar.length.0 - trim + kerf - cut(bar)).collect();
    let longest = left.iter().copied().max().unwrap_or(0);
    let mut order: Vec<usize> = (0..bars.len()).collect();
    order.sort_by_key(|&bar| (-left[bar], bar));
    let tried = order.into_iter().take(MOST_TRIED).map(|target| {
        let mut bench = Bench { bars: bars.to_vec(), left: left.clone(), kerf, apart: &apart };
        while bench.lengthen(target) {}
        (bench.left[target], bench.bars)
    });
    // The first of the best.
    let best = tried.fold(None, |best: Option<(i64, Vec<Bar>)>, next| match best {
        Some(best) if best.0 >= next.0 => Some(best),
        _ => Some(next),
    });
    if let Some((_, better)) = best.filter(|(rest, _)| *rest > longest && *rest - kerf >= LEAST_REST.0) {
        bars.clone_from_slice(&better);
    }
    for bar in bars {
        // The longest first: a slip is found out while there is timber to mend it.
        bar.pieces.sort_by_key(|piece| (-piece.length.0, piece.run, piece.piece));
        bar.offcut = offcut(bar.length.0 - trim, &bar.pieces, kerf);
    }
}

/// The bars while pieces are moved.
struct Bench<'a, F> {
    bars: Vec<Bar>,
    left: Vec<i64>,
    kerf: i64,
    apart: &'a F,
}

impl<F: Fn(&Bar, usize) -> bool> Bench<'_, F> {
    /// Gives a piece of the target to another bar, or changes it for a shorter one: the step that lengthens its rest most.
    fn lengthen(&mut self, target: usize) -> bool {
        let mut best: Option<(i64, usize, usize, Option<usize>)> = None;
        let mut offer = |gain: i64, piece, other, back| {
            if gain > best.map_or(0, |best| best.0) {
                best = Some((gain, piece, other, back));
            }
        };
        for (place, piece) in self.bars[target].pieces.iter().enumerate() {
            for other in (0..self.bars.len()).filter(|&other| other != target) {
                if (self.apart)(&self.bars[other], piece.run) {
                    continue;
                }
                let over = self.left[other] - piece.length.0 - self.kerf;
                if over >= 0 && self.bars[target].pieces.len() > 1 {
                    offer(piece.length.0 + self.kerf, place, other, None);
                }
                for (back, shorter) in self.bars[other].pieces.iter().enumerate() {
                    let fits = over + shorter.length.0 + self.kerf >= 0;
                    if fits && !(self.apart)(&self.bars[target], shorter.run) {
                        offer(piece.length.0 - shorter.length.0, place, other, Some(back));
                    }
                }
            }
        }
        let Some((gain, piece, other, back)) = best else { return false };
        let given = self.bars[target].pieces.remove(piece);
        if let Some(back) = back {
            let back = self.bars[other].pieces.remove(back);
            self.bars[target].pieces.push(back);
        }
        self.bars[other].pieces.push(given);
        self.left[target] += gain;
        self.left[other] -= gain;
        true
    }
}
