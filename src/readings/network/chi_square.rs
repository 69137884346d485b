//! Critical values of the chi-square distribution.
//!
//! The lower tail is the regularised incomplete gamma function by its power series,
//! P(a, x) = xᵃe⁻ˣ/Γ(a+1) · Σ xⁿ/((a+1)…(a+n)), with a = f/2; every term is positive, so nothing cancels.
//! ln Γ(a+1) is summed from Γ(1) = 1 or Γ(½) = √π. The critical value is found by halving an interval.

/// Test level of one reading, two-sided (Baarda 1968, α₀).
pub const ALPHA_READING: f64 = 0.001;

/// |w| above this is a suspect: the two-sided point of the normal distribution at [`ALPHA_READING`].
pub const CRITICAL: f64 = 3.2905;

/// Test level of the global test.
pub const ALPHA_GLOBAL: f64 = 0.05;

/// The chance that a chi-square of `f` degrees of freedom stays under `x`.
#[must_use]
pub fn lower_tail(f: usize, x: f64) -> f64 {
    if f == 0 || x <= 0.0 {
        return 0.0;
    }
    let (a, half) = (f as f64 / 2.0, x / 2.0);
    if half > a + 20.0 * a.sqrt() + 200.0 {
        // Twenty standard deviations out and more: nothing is left of the tail.
        return 1.0;
    }
    // ln Γ(a + 1), stepping up from Γ(1) or Γ(1/2).
    let mut log_gamma = if f.is_multiple_of(2) { 0.0 } else { 0.5 * std::f64::consts::PI.ln() };
    let mut step = if f.is_multiple_of(2) { 1.0 } else { 0.5 };
    while step <= a + 1e-9 {
        log_gamma += f64::ln(step);
        step += 1.0;
    }
    let mut term = (a * half.ln() - half - log_gamma).exp();
    let mut sum = term;
    let mut n = 1.0;
    // Terms grow until n passes x/2, then shrink faster than a geometric series.
    while n < half || term > 1e-17 * sum {
        term *= half / (a + n);
        sum += term;
        n += 1.0;
        if term == 0.0 || n > 1e5 {
            break;
        }
    }
    sum.min(1.0)
}

/// The value that a chi-square of `f` degrees of freedom passes with the chance `alpha`; 0 for `f` = 0.
#[must_use]
pub fn critical(f: usize, alpha: f64) -> f64 {
    if f == 0 {
        return 0.0;
    }
    let (mut low, mut high) = (0.0, f as f64 + 10.0);
    while 1.0 - lower_tail(f, high) > alpha && high < 1e4 {
        high *= 2.0;
    }
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if middle <= low || middle >= high {
            break;
        }
        if 1.0 - lower_tail(f, middle) > alpha {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

/// The factor k with which ±k·sd holds for all of `count` figures at once, with the chance 1 − `alpha` (Bonferroni).
#[must_use]
pub fn joint_factor(count: usize, alpha: f64) -> f64 {
    critical(1, alpha / count.max(1) as f64).sqrt()
}
