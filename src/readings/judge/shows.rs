//! How large a slip would have shown on any line: what the readings agreed on is worth only that.

use super::evidence::{View, log_normal};
use super::prior::SLIP;
use super::search::{NOTHING, Search, log_sum};

/// The reading's own error is taken against the slip by so many standard deviations, which it passes once in 1,000.
const UNLUCKY: f64 = 3.09;
/// How it was built and taped is taken as roughly as it may be, but for this chance.
const DOUBT: f64 = 0.1;
/// A slip past this, mm, that would not show is as good as any.
const ANY: f64 = 1000.0;
/// Steps of halving, from [`ANY`] to less than a tenth of a millimetre.
const STEPS: usize = 14;

/// What a view makes of one reading: what it weighs without it, and the variance of what is then made of it, mm².
struct Rest {
    weight: f64,
    variance: f64,
}

/// What the views make of one reading, those that count.
struct Rests {
    index: usize,
    each: Vec<Rest>,
    /// The logarithm of what they weigh together.
    weight: f64,
    /// The standard deviation of what is made of the reading, mm, that is not passed but for a chance of [`DOUBT`].
    cautious: f64,
}

/// The reading whose slip would show least, and the slip, mm, from which on it would be doubted (nothing wrong less likely than
/// `clear`); `None` where some reading's slip may be as large as it will.
pub(super) fn shows(search: &Search<'_>, views: &[View<'_>], clear: f64) -> Option<(usize, f64)> {
    let mut weakest = (0, 0.0);
    for index in 0..search.lines.over.len() {
        let rests = Rests::of(views, index);
        let seen = |slip: f64| rests.show(search, slip, clear);
        if seen(weakest.1) {
            continue;
        }
        if !seen(ANY) {
            return None;
        }
        let (mut hidden, mut shown) = (weakest.1, ANY);
        for _ in 0..STEPS {
            let middle = f64::midpoint(hidden, shown);
            if seen(middle) {
                shown = middle;
            } else {
                hidden = middle;
            }
        }
        weakest = (index, shown);
    }
    Some(weakest)
}

impl Rests {
    fn of(views: &[View<'_>], index: usize) -> Self {
        let rest = |view: &View<'_>| {
            let (t, variance) = view.off(index);
            Rest { weight: view.weight - log_normal(t, variance), variance }
        };
        let mut each: Vec<Rest> = views.iter().map(rest).collect();
        let most = each.iter().map(|rest| rest.weight).fold(f64::NEG_INFINITY, f64::max);
        each.retain(|rest| rest.weight > most - NOTHING);
        each.sort_by(|a, b| a.variance.total_cmp(&b.variance));
        let weight = log_sum(each.iter().map(|rest| rest.weight));
        let mut left = DOUBT;
        let cautious = each.iter().rev().find(|rest| {
            left -= (rest.weight - weight).exp();
            left <= 0.0
        });
        let cautious = cautious.map_or(0.0, |rest| rest.variance.sqrt());
        Self { index, each, weight, cautious }
    }

    /// Whether the reading would be doubted with such a slip, its own error against it.
    fn show(&self, search: &Search<'_>, slip: f64, clear: f64) -> bool {
        let off = slip - UNLUCKY * self.cautious;
        if off <= 0.0 {
            return false;
        }
        let right = self.each.iter().map(|rest| rest.weight + log_normal(off, rest.variance));
        let right = log_sum(right) + (1.0 - SLIP).ln();
        let slipped = self.weight + search.of_no_usual_size(self.index, off);
        slipped - right > ((1.0 - clear) / clear).ln()
    }
}
