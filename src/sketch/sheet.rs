//! The sheet of paper and the parts of it.

use super::shape::Extent;

/// Blank edge on the filing side, mm (ISO 5457, from memory).
const FILING_EDGE: f64 = 20.0;
/// Blank edge on the other sides, mm.
const EDGE: f64 = 10.0;

/// The paper that a drawing is printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// 210 by 297 mm (ISO 216).
    #[default]
    A4,
    /// 8-1/2 by 11 in.
    Letter,
}

impl Paper {
    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }

    /// Width and height upright, mm.
    const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// A sheet of paper, one way up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sheet {
    /// The paper.
    pub paper: Paper,
    /// Whether it lies, its long edge across.
    pub lying: bool,
}

impl Sheet {
    /// Which way it is held.
    #[must_use]
    pub const fn orientation(self) -> &'static str {
        if self.lying { "landscape" } else { "portrait" }
    }

    /// Width and height, mm.
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        let (width, height) = self.paper.size();
        if self.lying { (height, width) } else { (width, height) }
    }

    /// What lies inside the border.
    pub(super) const fn inside(self) -> Extent {
        let (width, height) = self.size();
        Extent { left: FILING_EDGE, top: EDGE, right: width - EDGE, bottom: height - EDGE }
    }
}
