//! The explanations weighed against each other: nothing wrong; one reading, or several; two lines written against each
//! other's name; one length on all the readings, or on all of one tape.

use super::evidence::{Seen, View};
use super::lines::Taping;
use super::prior::{self, AS_SAID, CONSTANT, ENDS, EXCHANGED, SLIP};
use super::search::{NOTHING, Search, agree, log_sum};
use super::shows::shows;
use crate::geometry::Point;
use crate::readings::case::Case;

/// An explanation is named at this.
pub(in crate::readings) const SURE: f64 = 0.95;
/// Nothing is said to be wrong, and corners may be moved, where that is as likely as this.
pub(in crate::readings) const CLEAR: f64 = 0.85;
/// The readings left must agree but for this chance, or too many are wrong to name any.
const EXPLAINED: f64 = 0.001;
/// Where a line of the figure is off by this, mm, from what is linear about the plan, all is taken again about the figure.
const BENT: f64 = 0.25;
/// Fewer readings than this bear out no length on all of them.
const ENOUGH: usize = 3;

/// What explains the readings.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::readings) enum Why {
    /// Nothing is wrong with them.
    Nothing,
    /// These, by observation, in order.
    Wrong(Vec<usize>),
    /// These two written against each other's name.
    Exchanged([usize; 2]),
    /// So much on every reading, mm: of all tapes, or of one by its index.
    Constant { tape: Option<usize>, length: f64 },
}

/// An explanation and how likely it is.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::readings) struct Weighed {
    pub(in crate::readings) why: Why,
    /// 0 to 1; all together make 1.
    pub(in crate::readings) odds: f64,
    /// How far off each wrong reading is by the others, mm, with its standard deviation.
    pub(in crate::readings) off: Vec<(f64, f64)>,
}

/// The explanations, the likeliest first.
#[derive(Debug, Clone, PartialEq, Default)]
pub(in crate::readings) struct Odds {
    pub(in crate::readings) all: Vec<Weighed>,
    /// Whether the best of them leaves readings that agree: else so many are wrong that none is named.
    pub(in crate::readings) explained: bool,
    /// How much rougher the tape's ends were held than was said, by the best explanation, mm.
    pub(in crate::readings) rougher: f64,
    /// The reading whose slip would show least, and from how much on it would show, mm; where nothing is wrong.
    pub(in crate::readings) shows: Option<(usize, f64)>,
}

impl Odds {
    /// The best explanation, where it can be named.
    pub(in crate::readings) fn named(&self) -> Option<&Weighed> {
        self.all.first().filter(|best| best.odds >= SURE && self.explained)
    }

    /// How likely it is that nothing is wrong.
    pub(in crate::readings) fn nothing(&self) -> f64 {
        self.all.iter().find(|w| w.why == Why::Nothing).map_or(0.0, |w| w.odds)
    }

    /// The explanations that make up all but a twentieth.
    pub(in crate::readings) fn likely(&self) -> &[Weighed] {
        let mut sum = 0.0;
        let mut count = 0;
        for weighed in &self.all {
            count += 1;
            sum += weighed.odds;
            if sum >= SURE {
                break;
            }
        }
        &self.all[..count]
    }
}

/// Weighs what may explain the readings of a job.
pub(in crate::readings) fn weigh(case: &Case<'_>) -> Odds {
    let (odds, figure) = weigh_near(case, case.plan(), &[]);
    if !is_bent(case, &figure) {
        return odds;
    }
    let known = odds.all.first().map_or(&[][..], |best| best.why.wrong());
    weigh_near(case, &figure, known).0
}

/// Whether the figure's lines are longer or shorter than the plan's by more than what is linear in the corners' shifts.
fn is_bent(case: &Case<'_>, figure: &[Point]) -> bool {
    let plan = case.plan();
    case.observations.iter().any(|o| {
        let ([p, q], [f, g]) = ([plan[o.from], plan[o.to]], [figure[o.from], figure[o.to]]);
        let along = (q.x - p.x) * (g.x - f.x) + (q.y - p.y) * (g.y - f.y);
        (f.distance(g) - along / p.distance(q)).abs() > BENT
    })
}

/// Weighs them about a figure near to what was built, with what was `known` to be wrong by a look from farther off; and what
/// was built by the best of them.
fn weigh_near(case: &Case<'_>, near: &[Point], known: &[usize]) -> (Odds, Vec<Point>) {
    let lines = Taping::new(case.plan(), near, &case.observations);
    let search = Search::new(case, &lines);
    let seen = search.see(&search.lines.over);
    let views = search.views(&seen);
    let right = (1.0 - SLIP).ln();
    let nothing = log_sum(views.iter().map(|view| view.weight)) + right;
    let mut all: Vec<(Why, f64)> = vec![(Why::Nothing, nothing)];
    all.extend(exchanged(case, &views[..search.whole()], nothing));
    let whole = views;
    let (wrong, views) = search.wrong(&whole, nothing, known);
    all.extend(wrong.into_iter().map(|c| (Why::Wrong(c.wrong), c.weight)));
    all.extend(constants(case, &search, nothing));
    let total = log_sum(all.iter().map(|(_, weight)| *weight));
    let mut weighed: Vec<Weighed> = all
        .into_iter()
        .filter(|(_, weight)| weight.is_finite())
        .map(|(why, weight)| Weighed { odds: (weight - total).exp(), off: Vec::new(), why })
        .collect();
    weighed.sort_by(|a, b| b.odds.total_cmp(&a.odds));
    weighed.retain(|w| w.odds > 1e-4 || w.why == Why::Nothing);
    for w in &mut weighed {
        w.off = off(&search, &views, w.why.wrong());
    }
    let mut odds = Odds { all: weighed, explained: true, rougher: 0.0, shows: None };
    let Some(best) = odds.all.first() else { return (odds, near.to_vec()) };
    let out = best.why.wrong().to_vec();
    if let Why::Constant { tape, length } = best.why {
        let seen = search.see(&less(case, &search, tape, length));
        return (Odds { rougher: rougher(&search, &search.views(&seen), &out), ..odds }, near.to_vec());
    }
    odds.rougher = rougher(&search, &views, &out);
    if odds.nothing() >= CLEAR {
        odds.shows = shows(&search, &whole, CLEAR);
    }
    let mut figure = case.plan().to_vec();
    if let Some(view) = likeliest(&search, &views, &out)
        && let Some(without) = view.without(&out)
    {
        odds.explained = out.is_empty() || agree(view, &out, EXPLAINED);
        let shifts = view.shifts(&out, &without);
        for (p, shift) in figure.iter_mut().zip(shifts.chunks_exact(2)) {
            *p = Point::new(p.x + shift[0], p.y + shift[1]);
        }
    }
    (odds, figure)
}

impl Why {
    /// The readings that are wrong by it, in order.
    pub(in crate::readings) fn wrong(&self) -> &[usize] {
        match self {
            Self::Nothing | Self::Constant { .. } => &[],
            Self::Wrong(wrong) => wrong,
            Self::Exchanged(both) => both,
        }
    }
}

/// The view that weighs most with these out.
fn likeliest<'a, 'v>(search: &Search<'_>, views: &'a [View<'v>], out: &[usize]) -> Option<&'a View<'v>> {
    let weighed = views.iter().map(|view| (search.weight(view, out), view));
    weighed.reduce(|a, b| if b.0 > a.0 { b } else { a }).map(|(_, view)| view)
}

/// How far off each of these is by the others, mm, with its standard deviation.
fn off(search: &Search<'_>, views: &[View<'_>], wrong: &[usize]) -> Vec<(f64, f64)> {
    if wrong.is_empty() {
        return Vec::new();
    }
    let without = likeliest(search, views, wrong).and_then(|view| view.without(wrong));
    without.map_or_else(Vec::new, |without| without.off.iter().map(|(t, v)| (*t, v.sqrt())).collect())
}

/// How much rougher the ends were held than was said, these readings out: the likeliest, where it is likelier than not that
/// they were rougher at all.
fn rougher(search: &Search<'_>, views: &[View<'_>], out: &[usize]) -> f64 {
    let mut weights = [f64::NEG_INFINITY; ENDS.len()];
    for (rough, weight) in weights.iter_mut().enumerate() {
        let so = views.iter().filter(|view| view.ground.model.rough == rough);
        *weight = log_sum(so.map(|view| search.weight(view, out)));
    }
    let as_said = weights[AS_SAID] - log_sum(weights.into_iter());
    weights[AS_SAID] = f64::NEG_INFINITY;
    let likeliest = weights.iter().zip(ENDS).reduce(|a, b| if b.0 > a.0 { b } else { a });
    likeliest.filter(|_| as_said < 0.5_f64.ln()).map_or(0.0, |(_, (ends, _))| ends)
}

/// Two readings written against each other's name, every pair that would show.
fn exchanged(case: &Case<'_>, views: &[View<'_>], nothing: f64) -> Vec<(Why, f64)> {
    let values: Vec<f64> = case.observations.iter().map(|o| o.value).collect();
    let mut all = Vec::new();
    let mut pairs = 0;
    for i in 0..values.len() {
        for j in i + 1..values.len() {
            let by = values[j] - values[i];
            if by.abs() >= prior::SMALLEST {
                pairs += 1;
                let weights = views.iter().map(|view| view.exchanged(i, j, by, nothing - NOTHING));
                // Most pairs are far from it.
                if weights.clone().fold(f64::NEG_INFINITY, f64::max) > nothing - NOTHING {
                    all.push((Why::Exchanged([i, j]), log_sum(weights)));
                }
            }
        }
    }
    let chance = (EXCHANGED / f64::from(pairs)).ln();
    for (_, weight) in &mut all {
        *weight += chance;
    }
    all
}

/// One known length on every reading, of all tapes or of one, with no reading wrong besides or one.
fn constants(case: &Case<'_>, search: &Search<'_>, nothing: f64) -> Vec<(Why, f64)> {
    let mut all = Vec::new();
    let tapes = case.input.tapes.len();
    for tape in std::iter::once(None).chain((0..tapes).filter(|_| tapes > 1).map(Some)) {
        let mut of_tape =
            (0..case.taped.len()).filter(|i| tape.is_none_or(|tape| case.taped[*i].tape == tape));
        let Some(first) = of_tape.next().filter(|_| of_tape.count() + 1 >= ENOUGH) else { continue };
        let lengths = prior::on_every_reading(case.clues[first]);
        let share = (CONSTANT / lengths.len() as f64).ln();
        for length in lengths {
            let seen: Vec<Seen> = search.see(&less(case, search, tape, length));
            let views = search.views(&seen);
            let alone = log_sum(views.iter().map(|view| view.weight)) + (1.0 - SLIP).ln() + share;
            // Worth a closer look where it is not far behind.
            if alone > nothing - 20.0 {
                let singles = search.singles(&views).into_iter().map(|c| c.weight + share);
                let weight = log_sum(singles.chain([alone]));
                all.push((Why::Constant { tape, length }, weight));
            }
        }
    }
    all
}

/// The readings' excess over the plan once a length is taken off those of a tape, or of all.
fn less(case: &Case<'_>, search: &Search<'_>, tape: Option<usize>, length: f64) -> Vec<f64> {
    let of = |i: usize| tape.is_none_or(|tape| case.taped[i].tape == tape);
    search.lines.over.iter().enumerate().map(|(i, over)| if of(i) { over - length } else { *over }).collect()
}
