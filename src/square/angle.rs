//! The angle at a corner from three tapes, by the cosine law.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::{Mm, Ratio, angle_between};
use crate::length::{InUnits, Units, decimal};
use crate::tape::{Tape, TapeError};

/// Three tapes that make no angle.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", self.message(Units::Mm))]
pub enum AngleError {
    /// A tape of zero or less, or not finite.
    NotPositive,
    /// A tape that can be none.
    Tape(TapeError),
    /// No triangle has these three sides.
    NoTriangle {
        /// Along the first side, mm.
        a: f64,
        /// Along the second side, mm.
        b: f64,
        /// Between the ends, mm.
        c: f64,
    },
}

impl InUnits for AngleError {
    fn message(&self, units: Units) -> String {
        match self {
            Self::NotPositive => {
                "each of the three tapes must be more than zero: two along the sides from the corner, then between \
                 their ends"
                    .to_owned()
            }
            Self::Tape(error) => error.to_string(),
            Self::NoTriangle { a, b, c } => {
                let [a, b, c] = [a, b, c].map(|mm| units.with_unit(*mm));
                format!(
                    "tapes of {a}, {b} and {c} make no triangle: the longest must be shorter than the other two \
                     together; read them again"
                )
            }
        }
    }
}

/// Which way a corner is out of square.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Opening {
    /// Square to within what the three tapes can tell.
    Square,
    /// Over 90°: the diagonal is long.
    Open,
    /// Under 90°: the diagonal is short.
    Closed,
}

/// A corner as found.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct AngleFound {
    /// Along the first side from the corner, mm.
    pub a: Mm,
    /// Along the second side from the corner, mm.
    pub b: Mm,
    /// Between the two ends, mm.
    pub c: Mm,
    /// What the diagonal would be if the corner were square, mm.
    pub square_diagonal: Mm,
    /// The angle, degrees.
    pub angle_deg: Ratio,
    /// How far the end of the longer side is off the square, mm: positive when the corner is open.
    pub out_of_square: Mm,
    /// The distance from the corner at which that is, mm: the longer side.
    pub at: Mm,
    /// Open, closed, or square within two of its standard deviations.
    pub opening: Opening,
    /// Standard deviation of `out_of_square` from the three readings, mm.
    pub sd: Mm,
}

/// The corner that tapes `a` and `b` along its sides and `c` between their ends show, mm.
///
/// `longer_side` is the corner's longer side on the plan, mm, at whose end the error is told; without it, the longer tape.
/// Its standard deviation is that of the three readings through the cosine law's differential:
/// d(cos θ) = ((a − b cos θ)·da + (b − a cos θ)·db − c·dc)/(ab).
pub fn angle_found(
    a: f64,
    b: f64,
    c: f64,
    longer_side: Option<f64>,
    tape: &Tape,
) -> Result<AngleFound, AngleError> {
    if ![a, b, c].iter().all(|tape| tape.is_finite() && *tape > 0.0) {
        return Err(AngleError::NotPositive);
    }
    tape.check().map_err(AngleError::Tape)?;
    let angle = angle_between(a, b, c).ok_or(AngleError::NoTriangle { a, b, c })?;
    let at = longer_side.unwrap_or(a.max(b));
    // cos θ itself, since the sine of the turn from square is −cos θ: exact at 90° where atan's rounding is not.
    let cosine = (a * a + b * b - c * c) / (2.0 * a * b);
    let out = -at * cosine;
    let moved = [(a, a - b * cosine), (b, b - a * cosine), (c, c)];
    let variance: f64 =
        moved.iter().map(|(tape_of, by)| (by / (a * b) * tape.standard_deviation(*tape_of)).powi(2)).sum();
    let sd = at * variance.sqrt();
    let opening = if out.abs() <= 2.0 * sd {
        Opening::Square
    } else if out > 0.0 {
        Opening::Open
    } else {
        Opening::Closed
    };
    Ok(AngleFound {
        a: Mm(a),
        b: Mm(b),
        c: Mm(c),
        square_diagonal: Mm(a.hypot(b)),
        angle_deg: Ratio(angle.to_degrees()),
        out_of_square: Mm(out),
        at: Mm(at),
        opening,
        sd: Mm(sd),
    })
}

impl AngleFound {
    /// The verdict in plain words, and what to do; `end` is the corner at the end of the longer side, where it has a name.
    #[must_use]
    pub fn words(&self, end: Option<&str>, units: Units) -> String {
        let off = units.small(self.out_of_square.0.abs());
        let at = units.with_unit(self.at.0);
        let degrees = decimal(self.angle_deg.0, 3);
        let end = end.map_or_else(|| format!("the end at {at}"), str::to_owned);
        match self.opening {
            Opening::Square => format!(
                "square ({degrees}°), as far as these tapes can tell: {off} off at {at}, and they are good to {}",
                units.small(2.0 * self.sd.0)
            ),
            Opening::Open => format!("open ({degrees}°): bring {end} in {off}"),
            Opening::Closed => format!("closed ({degrees}°): take {end} out {off}"),
        }
    }
}
