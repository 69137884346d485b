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

/// The reading whose slip would show least, and the slip, mm, from which on it would be doubted (nothing wrong less likely than
/// `clear`); `None` where some reading's slip may be as large as it will.
pub(super) fn shows(search: &Search<'_>, views: &[View<'_>], clear: f64) -> Option<(usize, f64)> {
    let mut weakest = (0, 0.0);
    for index in 0..search.lines.over.len() {
        let rests = rests(views, index);
        let seen = |slip: f64| is_seen(search, &rests, index, slip, clear);
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

fn rests(views: &[View<'_>], index: usize) -> Vec<Rest> {
    let mut rests: Vec<Rest> = views
        .iter()
        .map(|view| {
            let (t, variance) = view.off(index);
            Rest { weight: view.weight - log_normal(t, variance), variance }
        })
        .collect();
    rests.sort_by(|a, b| a.variance.total_cmp(&b.variance));
    let most = rests.iter().map(|rest| rest.weight).fold(f64::NEG_INFINITY, f64::max);
    rests.retain(|rest| rest.weight > most - NOTHING);
    for rest in &mut rests {
        rest.weight -= most;
    }
    rests
}

/// The variance of what is made of the reading, mm², that is not passed but for a chance of [`DOUBT`].
fn cautious(rests: &[Rest], all: f64) -> f64 {
    let mut left = DOUBT * all;
    for rest in rests.iter().rev() {
        left -= rest.weight.exp();
        if left <= 0.0 {
            return rest.variance;
        }
    }
    0.0
}

/// Whether the reading would be doubted with such a slip, its own error against it.
fn is_seen(search: &Search<'_>, rests: &[Rest], index: usize, slip: f64, clear: f64) -> bool {
    let all: f64 = rests.iter().map(|rest| rest.weight.exp()).sum();
    let off = slip - UNLUCKY * cautious(rests, all).sqrt();
    if off <= 0.0 {
        return false;
    }
    let right =
        log_sum(rests.iter().map(|rest| rest.weight + log_normal(off, rest.variance))) + (1.0 - SLIP).ln();
    let slipped = all.ln() + search.of_no_usual_size(index, off);
    slipped - right > ((1.0 - clear) / clear).ln()
}
