//! The working as on a board: how figures are written, and the steps from two legs to a mark of the tape.
//!
//! Each step's arithmetic is right as it stands: what is worked on with is what is shown.

use crate::length::{MM_PER_FOOT, MM_PER_INCH, Units, trimmed};

/// How figures are written: in which unit and with how many decimals at most.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Board {
    mm_per_unit: f64,
    places: u32,
    unit: &'static str,
}

impl Board {
    /// For lengths: mm, m or decimal inches.
    pub(crate) const fn lengths(units: Units) -> Self {
        let (mm_per_unit, places) = match units {
            Units::Mm => (1.0, 3),
            Units::M => (1000.0, 6),
            Units::FeetInches => (MM_PER_INCH, 4),
        };
        Self { mm_per_unit, places, unit: units.exact_unit() }
    }

    /// For gaps: mm in a metric job, whether it is in mm or m.
    pub(crate) const fn gaps(units: Units) -> Self {
        match units {
            Units::Mm | Units::M => Self::lengths(Units::Mm),
            Units::FeetInches => Self::lengths(Units::FeetInches),
        }
    }

    /// For lengths that squares are taken of: whole feet where all of them are.
    pub(crate) fn squares(units: Units, lengths: &[f64]) -> Self {
        let whole = |mm: &f64| (mm / MM_PER_FOOT - (mm / MM_PER_FOOT).round()).abs() < 1e-9;
        if units == Units::FeetInches && lengths.iter().all(whole) {
            Self { mm_per_unit: MM_PER_FOOT, places: 4, unit: "ft" }
        } else {
            Self::lengths(units)
        }
    }

    /// The unit.
    pub(crate) const fn unit(self) -> &'static str {
        self.unit
    }

    /// The figure alone. A minus is written as one.
    pub(crate) fn figure(self, mm: f64) -> String {
        self.number(mm / self.mm_per_unit)
    }

    /// The figure with its unit.
    pub(crate) fn with_unit(self, mm: f64) -> String {
        format!("{} {}", self.figure(mm), self.unit)
    }

    /// A length as it is worked with: `4800 mm`, `4.8 m`, `14ft 6in = 174 in`; one that no tape in feet shows, in inches alone.
    pub(crate) fn worked(self, units: Units, mm: f64) -> String {
        let on_tape = (mm / units.tape_step()).fract().abs();
        match units {
            Units::FeetInches if on_tape.min(1.0 - on_tape) < 1e-6 => {
                format!("{} = {}", units.with_unit(mm), self.with_unit(mm))
            }
            Units::Mm | Units::M | Units::FeetInches => self.with_unit(mm),
        }
    }

    /// A number in the board's unit, or its square, with as many decimals as it has room for.
    pub(crate) fn number(self, value: f64) -> String {
        grouped(&trimmed(value, self.places as usize))
    }

    /// `mm` in the board's unit, as it is shown.
    pub(crate) fn shown(self, mm: f64) -> f64 {
        self.round(mm / self.mm_per_unit)
    }

    /// `mm` as it is shown, in mm again.
    pub(crate) fn shown_mm(self, mm: f64) -> f64 {
        self.shown(mm) * self.mm_per_unit
    }

    /// A number to as many decimals as are shown.
    pub(crate) fn round(self, value: f64) -> f64 {
        let grain = f64::from(10_u32.pow(self.places));
        (value * grain).round() / grain
    }

    /// `a − b = c`, brackets round a negative `b`.
    pub(crate) fn difference(self, a: f64, b: f64) -> String {
        let (a, b) = (self.shown(a), self.shown(b));
        format!("{} − {} = {} {}", self.number(a), self.bracketed(b), self.number(a - b), self.unit)
    }

    /// `a + b = c`, brackets round a negative `b`.
    pub(crate) fn sum(self, a: f64, b: f64) -> String {
        let (a, b) = (self.shown(a), self.shown(b));
        format!("{} + {} = {} {}", self.number(a), self.bracketed(b), self.number(a + b), self.unit)
    }

    fn bracketed(self, value: f64) -> String {
        let figure = self.number(value);
        if figure.starts_with('−') { format!("({figure})") } else { figure }
    }
}

/// The digits before the point in threes from the right, from six digits on, which a length seldom has: `43 692 100`. A minus is written as one.
pub(crate) fn grouped(figure: &str) -> String {
    let figure = figure.replace('-', "−");
    let digits = figure.trim_start_matches('−');
    let (sign, digits) = (&figure[..figure.len() - digits.len()], digits);
    let (whole, decimals) = digits.split_at(digits.find('.').unwrap_or(digits.len()));
    if whole.len() < 6 {
        return figure.clone();
    }
    let mut out = sign.to_owned();
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i) % 3 == 0 {
            out.push(' ');
        }
        out.push(digit);
    }
    out + decimals
}

/// From legs `a` and `b`, mm, with what each of them is, to the diagonal `name` on the tape.
pub(crate) fn pythagoras(units: Units, a: (&str, f64), b: (&str, f64), name: &str) -> Vec<String> {
    let board = Board::squares(units, &[a.1, b.1]);
    let mut steps = squares(board, units, a, b);
    steps.extend(to_tape(board, units, a.1.hypot(b.1), name));
    steps
}

/// The same up to the root, not yet rounded.
pub(crate) fn squares(
    board: Board,
    units: Units,
    (a_is, a): (&str, f64),
    (b_is, b): (&str, f64),
) -> Vec<String> {
    let unit = board.unit();
    let (leg, other) = (board.shown(a), board.shown(b));
    let (one, two) = (board.round(leg * leg), board.round(other * other));
    let sum = board.round(one + two);
    vec![
        format!("a, {a_is} = {}", board.worked(units, a)),
        format!("b, {b_is} = {}", board.worked(units, b)),
        format!("a² = {0} × {0} = {1} {unit}²", board.number(leg), board.number(one)),
        format!("b² = {0} × {0} = {1} {unit}²", board.number(other), board.number(two)),
        format!("a² + b² = {} + {} = {} {unit}²", board.number(one), board.number(two), board.number(sum)),
        format!("c = √{} = {} {unit}", board.number(sum), board.number(sum.sqrt())),
    ]
}

/// The steps from a length as it was worked out to the tape's nearest mark: in feet the inches and the sixteenths each on
/// a line of their own.
pub(crate) fn to_tape(board: Board, units: Units, mm: f64, name: &str) -> Vec<String> {
    let mut steps = vec![];
    if units == Units::FeetInches {
        let mut left = board.shown(mm.abs());
        if board.unit == "in" && left >= 12.0 {
            let feet = (left / 12.0).floor();
            steps.push(format!("whole feet: {} × 12 = {} in", trimmed(feet, 0), trimmed(feet * 12.0, 0)));
            let over = board.round(feet.mul_add(-12.0, left));
            steps.push(format!(
                "over: {} − {} = {} in",
                board.number(left),
                trimmed(feet * 12.0, 0),
                board.number(over)
            ));
            left = over;
        } else if board.unit == "ft" {
            let part = board.round(left.fract());
            if part > 0.0 {
                steps.push(format!("inches: {} × 12 = {} in", board.number(part), board.number(part * 12.0)));
            }
            left = board.round(part * 12.0);
        }
        let part = board.round(left.fract());
        if part > 0.0 {
            let sixteenths = board.round(part * 16.0);
            steps.push(format!(
                "sixteenths: {} × 16 = {}, the nearest whole is {}",
                board.number(part),
                board.number(sixteenths),
                trimmed(sixteenths.round(), 0)
            ));
        }
    }
    steps.push(format!("on the tape, to the nearest {}: {name} = {}", step(units), units.with_unit(mm)));
    steps
}

/// The tape's step in words.
pub(crate) const fn step(units: Units) -> &'static str {
    match units {
        Units::Mm | Units::M => "1 mm",
        Units::FeetInches => "1/16 in",
    }
}
