//! The three tables of trees, each entry worked out once.

use std::collections::HashMap;
use std::rc::Rc;

use crate::cutting::effort::Meter;
use crate::cutting::runs::instance::Instance;
use crate::cutting::runs::intervals::Intervals;
use crate::cutting::runs::score::NEVER;
use crate::exact::int;

/// The meter ran out.
pub(super) struct Spent;

/// Runs (bits of places in the group) and bars (a mixed-radix count) that hang on something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) struct Hang {
    pub(super) runs: usize,
    pub(super) bars: usize,
}

impl Hang {
    pub(super) const NOTHING: Self = Self { runs: 0, bars: 0 };

    pub(super) fn without(self, part: Self) -> Self {
        Self { runs: self.runs & !part.runs, bars: self.bars - part.bars }
    }
}

pub(super) struct Trees<'a> {
    pub(super) instance: &'a Instance,
    pub(super) group: &'a [usize],
    pub(super) scales: Vec<usize>,
    pub(super) all_bars: usize,
    /// Of every mixed-radix bar count: each kind's count, total length, number of bars, and the counts within it.
    pub(super) digits: Vec<Vec<usize>>,
    stock: Vec<i64>,
    number: Vec<usize>,
    pub(super) within: HashMap<usize, Rc<Vec<usize>>>,
    /// Timber that may be wasted in all.
    slack: i64,
    longest: i64,
    pub(super) meter: &'a mut Meter,
    prefixes: HashMap<(usize, bool, Hang), Rc<Intervals>>,
    rests: HashMap<(usize, Hang), i64>,
    contents: HashMap<Hang, i64>,
}

impl<'a> Trees<'a> {
    pub(super) fn new(
        instance: &'a Instance,
        group: &'a [usize],
        counts: &[usize],
        meter: &'a mut Meter,
    ) -> Self {
        let mut scales = Vec::with_capacity(counts.len());
        let mut states = 1;
        for count in counts {
            scales.push(states);
            states *= count + 1;
        }
        let digits: Vec<Vec<usize>> = (0..states)
            .map(|code| counts.iter().zip(&scales).map(|(count, scale)| code / scale % (count + 1)).collect())
            .collect();
        let stock: Vec<i64> = digits
            .iter()
            .map(|digits| {
                digits.iter().zip(&instance.kinds).map(|(&count, kind)| int(count) * kind.length).sum()
            })
            .collect();
        meter.spend((states * counts.len() / 16) as u64);
        let number = digits.iter().map(|digits| digits.iter().sum()).collect();
        let bars: usize = counts.iter().sum();
        let length = group.iter().map(|&run| instance.spans[run].length).sum();
        let need = instance.need(length, group.len(), bars, bars.saturating_sub(1));
        Self {
            instance,
            group,
            scales,
            all_bars: states - 1,
            slack: stock[states - 1] - need,
            longest: counts
                .iter()
                .zip(&instance.kinds)
                .filter(|&(&count, _)| count > 0)
                .map(|(_, kind)| kind.length)
                .max()
                .unwrap_or(0),
            digits,
            stock,
            number,
            within: HashMap::new(),
            meter,
            prefixes: HashMap::new(),
            rests: HashMap::new(),
            contents: HashMap::new(),
        }
    }

    pub(super) fn length(&self, place: usize) -> i64 {
        self.instance.spans[self.group[place]].length
    }

    fn allowed(&self, place: usize, backward: bool) -> &Intervals {
        &self.instance.spans[self.group[place]].allowed[usize::from(backward)]
    }

    /// Overlap of the piece before and after a splice, in the direction of laying.
    fn overlaps(&self, backward: bool) -> (i64, i64) {
        if backward { (0, self.instance.overlap) } else { (self.instance.overlap, 0) }
    }

    /// Length of runs, a kerf with each.
    fn wanted(&self, runs: usize) -> i64 {
        (0..self.group.len())
            .filter(|place| runs & (1 << place) != 0)
            .map(|place| self.length(place) + self.instance.kerf)
            .sum()
    }

    fn spend(&mut self, steps: usize) -> Result<(), Spent> {
        if self.meter.spend(steps as u64) { Ok(()) } else { Err(Spent) }
    }

    /// Where the first part of a run can end when exactly `hang` (at least one bar) makes it up and hangs on it.
    pub(super) fn prefix(
        &mut self,
        place: usize,
        backward: bool,
        hang: Hang,
    ) -> Result<Rc<Intervals>, Spent> {
        let key = (place, backward, hang);
        if let Some(known) = self.prefixes.get(&key) {
            return Ok(Rc::clone(known));
        }
        // Used = what hangs on it + the part itself; what the bars have over that is waste, which is limited.
        let inner = int(self.number[hang.bars]) - 1;
        let other = self.wanted(hang.runs) + inner * self.instance.overlap + self.overlaps(backward).0;
        let most = self.stock[hang.bars] - other;
        let window = self.allowed(place, backward).clipped(most - self.slack, most);
        let mut spots = Intervals::default();
        if !window.is_empty() {
            for way in self.prefix_ways(hang) {
                self.spend(1 + (window.parts().len() + spots.parts().len()) / 64)?;
                spots = spots.union(&self.reach(place, backward, hang, way)?.intersection(&window));
            }
        }
        let spots = Rc::new(spots);
        self.prefixes.insert(key, Rc::clone(&spots));
        Ok(spots)
    }

    /// Where the part can end if its last bar is of this kind and holds `on_bar` besides.
    pub(super) fn reach(
        &mut self,
        place: usize,
        backward: bool,
        hang: Hang,
        (kind, on_bar): (usize, Hang),
    ) -> Result<Intervals, Spent> {
        let rest = Hang { runs: hang.runs & !on_bar.runs, bars: hang.bars - self.scales[kind] - on_bar.bars };
        let least = self.content(on_bar)?;
        let room = self.instance.kinds[kind].length - least;
        if room < self.instance.least_piece {
            return Ok(Intervals::default());
        }
        if rest == Hang::NOTHING {
            return Ok(self.allowed(place, backward).clipped(0, room - self.overlaps(backward).0));
        }
        Ok(self
            .prefix(place, backward, rest)?
            .ahead(self.instance.least_piece, room - self.instance.overlap)
            .intersection(self.allowed(place, backward)))
    }

    /// The least that a run asks of one bar when exactly `hang` makes up its other parts.
    pub(super) fn rest(&mut self, place: usize, hang: Hang) -> Result<i64, Spent> {
        if hang == Hang::NOTHING {
            return Ok(self.length(place));
        }
        if let Some(&known) = self.rests.get(&(place, hang)) {
            return Ok(known);
        }
        let mut least = NEVER;
        if hang.bars != 0 {
            for (first, second) in self.two_sides(hang) {
                self.spend(1)?;
                if let Some((from, to)) = self.middle(place, first, second)? {
                    least = least.min(self.asked(from, to, second != Hang::NOTHING));
                }
            }
        }
        self.rests.insert((place, hang), least);
        Ok(least)
    }

    /// The shortest stretch left between a part from the start and a part from the end.
    pub(super) fn middle(
        &mut self,
        place: usize,
        first: Hang,
        second: Hang,
    ) -> Result<Option<(i64, i64)>, Spent> {
        let length = self.length(place);
        let ends = |side: Hang| side == Hang::NOTHING;
        let start =
            if ends(first) { Rc::new(Intervals::single(0)) } else { self.prefix(place, false, first)? };
        if start.is_empty() {
            return Ok(None);
        }
        let end =
            if ends(second) { Rc::new(Intervals::single(0)) } else { self.prefix(place, true, second)? };
        self.spend(start.parts().len() * end.parts().len() / 64)?;
        let most = length - self.instance.least_piece;
        let mut best: Option<(i64, i64)> = None;
        for &(a, b) in start.parts() {
            for &(c, d) in end.parts() {
                // The latest start and the latest end, drawn back where they leave too little between them.
                let over = (b + d - most).max(0);
                let from = b - over.min(b - a);
                let back = d - (over - (b - from));
                if back >= c && best.is_none_or(|(x, y)| length - back - from < y - x) {
                    best = Some((from, length - back));
                }
            }
        }
        Ok(best)
    }

    /// Timber that a stretch asks for: itself, and the overlap if a splice follows it.
    pub(super) fn asked(&self, from: i64, to: i64, spliced_after: bool) -> i64 {
        to - from + if spliced_after { self.instance.overlap } else { 0 }
    }

    /// The least that runs and bars ask of one bar that they all hang on, a kerf with each piece.
    pub(super) fn content(&mut self, hang: Hang) -> Result<i64, Spent> {
        if hang.runs == 0 {
            return Ok(if hang.bars == 0 { 0 } else { NEVER });
        }
        if let Some(&known) = self.contents.get(&hang) {
            return Ok(known);
        }
        let least = self.wanted(hang.runs) + int(self.number[hang.bars]) * self.instance.overlap
            - self.stock[hang.bars];
        let mut best = NEVER;
        if least <= self.longest + self.instance.kerf && least + self.slack > 0 {
            for (place, part) in self.content_ways(hang) {
                self.spend(1)?;
                let rest = self.rest(place, part)?;
                if rest < NEVER {
                    let others = self.content(others(hang, place, part))?;
                    best = best.min(rest + self.instance.kerf + others);
                }
            }
        }
        self.contents.insert(hang, best);
        Ok(best)
    }
}

/// What is left of `hang` when one piece of run `place` takes `part` with it.
pub(super) fn others(hang: Hang, place: usize, part: Hang) -> Hang {
    hang.without(Hang { runs: part.runs | (1 << place), bars: part.bars })
}
