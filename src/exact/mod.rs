//! Exact figures: lengths to cut, money, quantities and percentages as whole numbers of their smallest part.
//!
//! ```
//! use pegline::exact::{Hundredths, Pence, Percent, Tenths, parse_money};
//!
//! assert_eq!(parse_money("10.80"), Ok(Pence(1080)));
//! assert_eq!(Percent(2000).of(Pence(1234)), Pence(247)); // 2.468
//! assert_eq!(Tenths::nearest(1523.46).to_string(), "1523.5");
//! assert_eq!(Hundredths::whole(6).to_string(), "6");
//! ```

mod fixed;
mod money;
mod whole;

pub use fixed::{Hundredths, Pence, Percent, Rate, Tenths};
pub use money::{MAX_PRICE, MoneyError, parse_hundredths, parse_money, parse_rate};
pub(crate) use whole::{gcd, held, int, up};
