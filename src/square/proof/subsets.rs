//! The search for a best set of candidates: every set where there are few, exchanges where there are many.

use super::exchange::best_by_exchange;
use super::state::{State, TIE};

/// Up to this many sets every one is tried.
const TRY_ALL: usize = 300;

/// The set of `count` candidates with the smallest worst corner, ascending, and whether every set was tried for it.
pub(super) fn best_proof(start: &State, count: usize) -> (Vec<usize>, bool) {
    let candidates = start.candidate_count();
    if count < candidates && sets(candidates, count) > TRY_ALL {
        (best_by_exchange(start, count), false)
    } else if (2..candidates).contains(&count) {
        (best_by_pairs(start, count), true)
    } else {
        (best_set(start, &[], count, |state, _, i, enough| state.worst_variance_with(i, enough)), true)
    }
}

/// The same, every set tried, the last two of each at once: `count` is two at least.
fn best_by_pairs(start: &State, count: usize) -> Vec<usize> {
    let candidates = start.candidate_count();
    let free: Vec<usize> = (0..candidates).collect();
    let (mut products, mut spreads) = (vec![0.0; candidates * start.size()], vec![0.0; candidates]);
    let mut best = Best::default();
    each_beginning(start, &free, (0, count, 2), &mut vec![], &mut |state, chosen, first| {
        state.products(&mut products, &mut spreads);
        for i in first..candidates {
            for j in i + 1..candidates {
                let score = state.worst_variance_with_both((i, j), &products, &spreads, best.score);
                best.offer(score, chosen, &[i, j]);
            }
        }
    });
    best.chosen
}

/// Chooses all but the last `last` of `left` from the places of `free` from `first` on, in every way; `ends` gets the state
/// with those taped, those, and the place from which the last are to be chosen.
fn each_beginning(
    state: &State,
    free: &[usize],
    (first, left, last): (usize, usize, usize),
    chosen: &mut Vec<usize>,
    ends: &mut impl FnMut(&State, &[usize], usize),
) {
    if left == last {
        ends(state, chosen, first);
        return;
    }
    for place in first..=free.len() - left {
        let mut next = state.clone();
        next.add(free[place]);
        chosen.push(free[place]);
        each_beginning(&next, free, (place + 1, left - 1, last), chosen, ends);
        chosen.pop();
    }
}

/// How many sets of `count` there are out of `free`, or very many.
fn sets(free: usize, count: usize) -> usize {
    (0..count).fold(1, |sets: usize, i| sets.saturating_mul(free - i) / (i + 1))
}

/// The set of `count` candidates, none of them in `without`, with the lowest score, ascending.
///
/// `score(state, chosen, i, enough)` is what `chosen` and `i` together come to, `state` having `chosen` taped already; over
/// `enough` it is no longer of interest by how much.
pub(super) fn best_set(
    start: &State,
    without: &[usize],
    count: usize,
    score: impl Fn(&State, &[usize], usize, f64) -> f64,
) -> Vec<usize> {
    let free: Vec<usize> = (0..start.candidate_count()).filter(|i| !without.contains(i)).collect();
    if count == 0 || count >= free.len() {
        return if count == 0 { vec![] } else { free };
    }
    let search = Search { free, score };
    let mut best = Best::default();
    if sets(search.free.len(), count) <= TRY_ALL {
        each_beginning(start, &search.free, (0, count, 1), &mut vec![], &mut |state, chosen, first| {
            for &i in &search.free[first..] {
                best.offer((search.score)(state, chosen, i, best.score), chosen, &[i]);
            }
        });
    } else {
        for beginning in [Beginning::LowestScore, Beginning::WidestSpread] {
            search.exchange(start, count, beginning, &mut best);
        }
    }
    best.chosen.sort_unstable();
    best.chosen
}

struct Best {
    score: f64,
    chosen: Vec<usize>,
}

impl Default for Best {
    fn default() -> Self {
        Self { score: f64::INFINITY, chosen: vec![] }
    }
}

impl Best {
    fn offer(&mut self, score: f64, chosen: &[usize], last: &[usize]) {
        if self.chosen.is_empty() || score < self.score * (1.0 - TIE) {
            self.score = score;
            self.chosen = [chosen, last].concat();
        }
    }
}

/// How the set that exchanges begin from is built up.
#[derive(Clone, Copy)]
enum Beginning {
    /// Each time the candidate that gives the lowest score.
    LowestScore,
    /// Each time the candidate that is least known from the rest: the D-optimal pick.
    WidestSpread,
}

struct Search<F> {
    free: Vec<usize>,
    score: F,
}

impl<F: Fn(&State, &[usize], usize, f64) -> f64> Search<F> {
    /// Builds a set up one by one, then exchanges one member at a time for as long as that lowers the score.
    fn exchange(&self, start: &State, count: usize, beginning: Beginning, best: &mut Best) {
        let mut state = start.clone();
        let mut chosen: Vec<usize> = vec![];
        while chosen.len() < count {
            let next = match beginning {
                Beginning::LowestScore => self.lowest(&state, &chosen).0,
                Beginning::WidestSpread => self.widest(&state, &chosen),
            };
            state.add(next);
            chosen.push(next);
        }
        let mut now = f64::INFINITY;
        let mut unchanged = 0;
        let mut without = state.clone();
        while unchanged < count {
            let out = chosen.remove(0);
            without.copy_from(&state);
            without.remove(out);
            let (i, lower) = self.lowest(&without, &chosen);
            if lower < now * (1.0 - TIE) {
                now = lower;
                best.offer(now, &chosen, &[i]);
                without.add(i);
                state.copy_from(&without);
                chosen.push(i);
                unchanged = 1;
            } else {
                chosen.push(out);
                unchanged += 1;
            }
        }
    }

    fn unchosen<'a>(&'a self, chosen: &'a [usize]) -> impl Iterator<Item = usize> + 'a {
        self.free.iter().copied().filter(|i| !chosen.contains(i))
    }

    /// The candidate whose addition gives the lowest score, with that score; the first of equals.
    fn lowest(&self, state: &State, chosen: &[usize]) -> (usize, f64) {
        let mut lowest = (self.free[0], f64::INFINITY);
        for i in self.unchosen(chosen) {
            let score = (self.score)(state, chosen, i, lowest.1);
            if lowest.1.is_infinite() || score < lowest.1 * (1.0 - TIE) {
                lowest = (i, score);
            }
        }
        lowest
    }

    fn widest(&self, state: &State, chosen: &[usize]) -> usize {
        let mut widest = (self.free[0], f64::NEG_INFINITY);
        for i in self.unchosen(chosen) {
            let spread = state.spread(i);
            if spread > widest.1 * (1.0 + TIE) {
                widest = (i, spread);
            }
        }
        widest.0
    }
}
