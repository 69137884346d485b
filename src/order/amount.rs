//! A quantity at a rate.

use crate::exact::{Hundredths, Pence, Rate, held};

/// A quantity at a rate, rounded half up to a penny.
///
/// ```
/// use pegline::exact::{Hundredths, Pence, Rate};
/// use pegline::order::amount;
///
/// assert_eq!(amount(Hundredths(1250), Rate::from(Pence(85))), Pence(1063)); // 12.5 m at 0.85 = 10.625
/// assert_eq!(amount(Hundredths::whole(90), Rate(499)), Pence(449)); // 90 at 0.0499 = 4.491
/// ```
#[must_use]
pub fn amount(quantity: Hundredths, rate: Rate) -> Pence {
    let exact = i128::from(quantity.0) * i128::from(rate.0);
    Pence(held((exact + 5_000).div_euclid(10_000)))
}
