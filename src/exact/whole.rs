//! Sums of whole numbers.

/// A count as a length or money factor. Counts here are in the hundreds.
pub(crate) fn int(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// The greatest common divisor; of 0 and a number, that number.
pub(crate) fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// `a / b` rounded up, for `a` of zero or more and `b` of more than zero.
pub(crate) fn up(a: i128, b: i128) -> i128 {
    (a + b - 1).div_euclid(b)
}

/// The value, or the largest there is: what is too large is refused by its limit.
pub(crate) fn held(value: i128) -> i64 {
    i64::try_from(value).unwrap_or(i64::MAX)
}
