//! Laying a group of runs from a given set of bars as a chain: the rest of each bar goes on into the next run.
//!
//! A chain takes the bars one after the other. Each bar finishes the current run or stops at a splice inside it,
//! may hold whole runs besides, and starts the next run from one of its ends. For each state the exact set of
//! splice positions that can be reached is kept, so nothing is lost to a grid.

use std::collections::HashMap;

use super::instance::Instance;
use super::intervals::Intervals;
use super::outcome::{BarPlan, Outcome, Stretch};
use crate::cutting::effort::Meter;
use crate::exact::int;

/// Looks for a chain that lays exactly the runs `group` (indices into the spans) from exactly these bars.
pub(super) fn lay(instance: &Instance, group: &[usize], counts: &[usize], meter: &mut Meter) -> Outcome {
    let mut scales = Vec::with_capacity(counts.len());
    let mut states = 1;
    for count in counts {
        scales.push(states);
        states *= count + 1;
    }
    let full = counts.iter().zip(&scales).map(|(count, scale)| count * scale).sum();
    let mut search = Search {
        instance,
        group,
        scales,
        full,
        parts: group.iter().map(|&run| instance.spans[run].allowed[0].parts().len() as u64).sum(),
        meter,
        seen: HashMap::new(),
        trail: Vec::new(),
    };
    let start = State {
        done: 0,
        current: None,
        left: counts.to_vec(),
        bars: counts.iter().sum(),
        stock: counts.iter().zip(&instance.kinds).map(|(&count, kind)| int(count) * kind.length).sum(),
        wanted: group.iter().map(|&run| instance.spans[run].length + instance.kerf).sum(),
    };
    match search.go(&start, &Intervals::single(0)) {
        Err(Spent) => Outcome::GaveUp,
        Ok(None) => Outcome::Impossible,
        Ok(Some(_)) => {
            search.trail.reverse();
            Outcome::Laid(search.trail)
        }
    }
}

/// The meter ran out.
struct Spent;

/// A run under way: its place in the group, and whether it is laid from its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Current {
    place: usize,
    backward: bool,
}

#[derive(Debug, Clone)]
struct State {
    /// Runs finished, as bits of places in the group.
    done: usize,
    current: Option<Current>,
    left: Vec<usize>,
    bars: usize,
    /// Length of the bars left.
    stock: i64,
    /// Length of the runs neither finished nor current, a kerf with each.
    wanted: i64,
}

/// Where the chain stands before the next bar.
#[derive(Clone, Copy)]
struct Standpoint<'a> {
    state: &'a State,
    reached: &'a Intervals,
    furthest: i64,
    /// What the next bar must spend on the current run to finish it, the kerf after it included.
    finish: i64,
}

/// A bar being filled.
#[derive(Debug, Clone)]
struct Fill {
    kind: usize,
    /// Whole runs on it, as bits of places, and the length that they take with a kerf each.
    wholes: usize,
    taken: i64,
    /// The state after this bar.
    next: State,
}

struct Search<'a> {
    instance: &'a Instance,
    group: &'a [usize],
    scales: Vec<usize>,
    full: usize,
    /// Stretches in which the group's runs may be spliced, all together: they are gone through at every bar.
    parts: u64,
    meter: &'a mut Meter,
    seen: HashMap<(usize, Option<Current>, usize), Intervals>,
    trail: Vec<BarPlan>,
}

impl Search<'_> {
    /// Lays the rest of the chain from some position in `reached`, and says from which.
    fn go(&mut self, state: &State, reached: &Intervals) -> Result<Option<i64>, Spent> {
        let code: usize = state.left.iter().zip(&self.scales).map(|(left, scale)| left * scale).sum();
        let seen = self.seen.entry((state.done, state.current, self.full - code)).or_default();
        if seen.covers(reached) {
            return Ok(None);
        }
        *seen = seen.union(reached);
        let Some(furthest) = reached.last() else {
            return Ok(None);
        };
        let finish = state.current.map_or(0, |current| {
            self.length(current.place) - furthest + self.after(current) + self.instance.kerf
        });
        let standpoint = Standpoint { state, reached, furthest, finish };
        for kind in 0..state.left.len() {
            if state.left[kind] == 0 {
                continue;
            }
            let length = self.instance.kinds[kind].length;
            let mut next = state.clone();
            next.left[kind] -= 1;
            next.bars -= 1;
            next.stock -= length;
            let fill = Fill { kind, wholes: 0, taken: 0, next };
            if let Some(at) = self.with_wholes(standpoint, &fill, 0)? {
                return Ok(Some(at));
            }
        }
        Ok(None)
    }

    /// Tries the bar as filled so far, then with each further run added whole.
    fn with_wholes(&mut self, from: Standpoint<'_>, fill: &Fill, first: usize) -> Result<Option<i64>, Spent> {
        if let Some(at) = self.with_bar(from, fill)? {
            return Ok(Some(at));
        }
        let room = self.instance.kinds[fill.kind].length + self.instance.kerf;
        for place in first..self.group.len() {
            let bit = 1 << place;
            let more = self.length(place) + self.instance.kerf;
            let current = from.state.current.is_some_and(|current| current.place == place);
            if from.state.done & bit != 0 || current || fill.taken + more > room {
                continue;
            }
            let mut with = fill.clone();
            with.wholes |= bit;
            with.taken += more;
            with.next.done |= bit;
            with.next.wanted -= more;
            if let Some(at) = self.with_wholes(from, &with, place + 1)? {
                return Ok(Some(at));
            }
        }
        Ok(None)
    }

    /// The bar with its whole runs chosen: end the chain, stop inside the current run, or start another.
    fn with_bar(&mut self, from: Standpoint<'_>, fill: &Fill) -> Result<Option<i64>, Spent> {
        if !self.meter.spend(1 + self.parts / 256) {
            return Err(Spent);
        }
        let Standpoint { state, reached, furthest, finish } = from;
        let kerf = self.instance.kerf;
        let room = self.instance.kinds[fill.kind].length - fill.taken;
        let finished = state.current.map(|current| (current, furthest, None));
        if fill.next.bars == 0 {
            if fill.next.wanted == 0 && finish <= room + kerf {
                self.note(fill, finished, None);
                return Ok(Some(furthest));
            }
            return Ok(None);
        }
        if let Some(current) = state.current {
            let least_piece = self.instance.least_piece;
            let spots = reached
                .ahead(least_piece, room - self.instance.overlap)
                .intersection(&self.allowed(current).clipped(self.least(&fill.next, current), i64::MAX));
            if !spots.is_empty()
                && let Some(to) = self.go(&fill.next, &spots)?
            {
                let at = reached.last_up_to(to - least_piece).unwrap_or(0);
                self.note(fill, Some((current, at, Some(to))), None);
                return Ok(Some(at));
            }
        }
        let mut after = fill.next.clone();
        if let Some(current) = state.current {
            after.done |= 1 << current.place;
        }
        for place in 0..self.group.len() {
            if after.done & (1 << place) != 0 {
                continue;
            }
            for backward in [false, true] {
                let starting = Current { place, backward };
                after.current = Some(starting);
                after.wanted = fill.next.wanted - self.length(place) - kerf;
                let most = room - finish - self.before(starting);
                let spots = self.allowed(starting).clipped(self.least(&after, starting), most);
                if !spots.is_empty()
                    && let Some(to) = self.go(&after, &spots)?
                {
                    self.note(fill, finished, Some((starting, to)));
                    return Ok(Some(furthest));
                }
            }
        }
        Ok(None)
    }

    fn length(&self, place: usize) -> i64 {
        self.instance.spans[self.group[place]].length
    }

    fn allowed(&self, current: Current) -> &Intervals {
        &self.instance.spans[self.group[current.place]].allowed[usize::from(current.backward)]
    }

    /// Overlap that the piece before a splice carries: the piece nearer the run's start does.
    fn before(&self, current: Current) -> i64 {
        if current.backward { 0 } else { self.instance.overlap }
    }

    /// Overlap that the piece after a splice carries.
    fn after(&self, current: Current) -> i64 {
        if current.backward { self.instance.overlap } else { 0 }
    }

    /// How far along the current run the next splice must lie so that the bars left can do the rest.
    fn least(&self, next: &State, current: Current) -> i64 {
        let splices = int(next.bars) - 1;
        self.length(current.place) + self.after(current) + next.wanted + splices * self.instance.overlap
            - next.stock
    }

    /// Writes the bar down: a stretch of the run under way, whole runs, the start of the next run.
    fn note(
        &mut self,
        fill: &Fill,
        under_way: Option<(Current, i64, Option<i64>)>,
        starting: Option<(Current, i64)>,
    ) {
        let mut pieces = Vec::new();
        if let Some((current, from, to)) = under_way {
            pieces.push(self.stretch(current, from, to.unwrap_or_else(|| self.length(current.place))));
        }
        for place in (0..self.group.len()).filter(|place| fill.wholes & (1 << place) != 0) {
            let whole = Current { place, backward: false };
            pieces.push(self.stretch(whole, 0, self.length(place)));
        }
        if let Some((current, to)) = starting {
            pieces.push(self.stretch(current, 0, to));
        }
        self.trail.push(BarPlan { kind: fill.kind, pieces });
    }

    /// Turns positions in the direction of laying into positions from the run's start.
    fn stretch(&self, current: Current, from: i64, to: i64) -> Stretch {
        let run = self.group[current.place];
        let length = self.length(current.place);
        if current.backward {
            Stretch { run, from: length - to, to: length - from }
        } else {
            Stretch { run, from, to }
        }
    }
}
