//! Every way to share runs and bars out among the places where they can hang.

use std::rc::Rc;

use super::tables::{Hang, Trees};

impl Trees<'_> {
    /// Every bar count within `bars`, the empty one and itself included.
    pub(super) fn within(&mut self, bars: usize) -> Rc<Vec<usize>> {
        if let Some(parts) = self.within.get(&bars) {
            return Rc::clone(parts);
        }
        let whole = &self.digits[bars];
        let parts: Vec<usize> =
            (0..=bars).filter(|&part| self.digits[part].iter().zip(whole).all(|(a, b)| a <= b)).collect();
        // The ways through them are counted one by one; making the list is not.
        self.meter.spend(bars as u64 / 16);
        let parts = Rc::new(parts);
        self.within.insert(bars, Rc::clone(&parts));
        parts
    }

    /// Each choice of the last bar of a prefix and of what hangs on that bar.
    pub(super) fn prefix_ways(&mut self, hang: Hang) -> Vec<(usize, Hang)> {
        let mut ways = Vec::new();
        for kind in 0..self.scales.len() {
            if self.digits[hang.bars][kind] == 0 {
                continue;
            }
            let others = hang.bars - self.scales[kind];
            for &bars in self.within(others).iter() {
                let mut runs = hang.runs;
                loop {
                    let rest = hang.runs & !runs;
                    // What is left must make up the part before the bar, which takes a bar if it is there at all.
                    if (rest == 0 || bars != others) && (runs != 0 || bars == 0) {
                        ways.push((kind, Hang { runs, bars }));
                    }
                    if runs == 0 {
                        break;
                    }
                    runs = (runs - 1) & hang.runs;
                }
            }
        }
        ways
    }

    /// Each way to share `hang` between the two sides of a middle piece.
    pub(super) fn two_sides(&mut self, hang: Hang) -> Vec<(Hang, Hang)> {
        let mut ways = Vec::new();
        for &bars in self.within(hang.bars).iter() {
            let mut runs = hang.runs;
            loop {
                let first = Hang { runs, bars };
                let second = hang.without(first);
                let makes = |side: Hang| side.bars != 0 || side == Hang::NOTHING;
                if makes(first) && makes(second) {
                    ways.push((first, second));
                }
                if runs == 0 {
                    break;
                }
                runs = (runs - 1) & hang.runs;
            }
        }
        ways
    }

    /// Each choice of the piece on the bar that the first run belongs to, and of what hangs on that piece.
    pub(super) fn content_ways(&mut self, hang: Hang) -> Vec<(usize, Hang)> {
        let lowest = hang.runs & hang.runs.wrapping_neg();
        let rest = hang.runs & !lowest;
        let mut ways = Vec::new();
        for &bars in self.within(hang.bars).iter() {
            let mut more = rest;
            loop {
                let runs = more | lowest;
                if bars != 0 || more == 0 {
                    for place in (0..self.group.len()).filter(|place| runs & (1 << place) != 0) {
                        ways.push((place, Hang { runs: runs & !(1 << place), bars }));
                    }
                }
                if more == 0 {
                    break;
                }
                more = (more - 1) & rest;
            }
        }
        ways
    }
}
