//! The sheet of paper and the parts of it.

use super::shape::Extent;

/// Blank edge on the filing side, mm (ISO 5457, from memory).
const FILING_EDGE: f64 = 20.0;
/// Blank edge on the other sides, mm.
const EDGE: f64 = 10.0;

/// An A4 sheet (ISO 216: 210 by 297 mm).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sheet {
    /// Upright.
    Portrait,
    /// Lying.
    Landscape,
}

impl Sheet {
    /// Which way it is held.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Portrait => "portrait",
            Self::Landscape => "landscape",
        }
    }

    /// Width and height, mm.
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::Portrait => (210.0, 297.0),
            Self::Landscape => (297.0, 210.0),
        }
    }

    /// What lies inside the border.
    pub(super) const fn inside(self) -> Extent {
        let (width, height) = self.size();
        Extent { left: FILING_EDGE, top: EDGE, right: width - EDGE, bottom: height - EDGE }
    }
}
