//! A job file to start from.

use std::str::FromStr;

use crate::plan::corner_name;
use crate::words::quoted;

/// The shapes that a starter can be had for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Four corners.
    Rectangle,
    /// Six corners: a rectangle with one corner cut out.
    L,
    /// Eight corners: a bar with a leg.
    T,
    /// Eight corners: a bar with two legs.
    U,
}

/// A shape that there is no starter for.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("there is no starter for `{0}`: write rectangle, L, T or U")]
pub struct UnknownShape(pub String);

impl FromStr for Shape {
    type Err = UnknownShape;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        match text.trim().to_ascii_lowercase().as_str() {
            "rectangle" => Ok(Self::Rectangle),
            "l" => Ok(Self::L),
            "t" => Ok(Self::T),
            "u" => Ok(Self::U),
            _ => Err(UnknownShape(quoted(text))),
        }
    }
}

/// A job file for `shape` with what most jobs need, filled in by an invented example.
#[must_use]
pub fn starter(shape: Shape) -> String {
    let (plan, corners) = match shape {
        Shape::Rectangle => ("6000x4000", 4),
        Shape::L => ("7800x6000-3000x2400", 6),
        Shape::T => ("9000x3000+3600x2400", 8),
        Shape::U => ("9000x3000+2400x2100@0+2400x2100@6600", 8),
    };
    let read = [1412, 1409, 1405, 1411, 1415, 1410, 1408, 1413];
    let staff = read.iter().take(corners).enumerate();
    let staff: Vec<String> = staff.map(|(i, mm)| format!("\"{}={mm}\"", corner_name(i))).collect();
    include_str!("starter.json").replace("PLAN", plan).replace("\"STAFF\"", &staff.join(",\n        "))
}
