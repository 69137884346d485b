//! What can be asked of a job.

/// What is asked of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Every check size.
    Diagonals,
    /// The triangles at the corners, and a corner as found.
    Corners,
    /// The plates' cut list.
    Plates,
    /// The cut of a list of pieces.
    Cuts,
    /// Packing the plate level.
    Packs,
    /// The wall head, panel and ceiling heights.
    Heights,
    /// Lines, profiles and nails.
    Lines,
    /// Offset-block readings.
    Straight,
    /// Whether the taped readings are square, who misread, what to move.
    Readings,
    /// The plan drawn.
    Sketch,
    /// The whole job.
    Sheet,
    /// Quantities and prices.
    Order,
}

impl Question {
    /// Every question, in the order of the day.
    pub const ALL: [Self; 12] = [
        Self::Diagonals,
        Self::Corners,
        Self::Lines,
        Self::Plates,
        Self::Cuts,
        Self::Readings,
        Self::Straight,
        Self::Packs,
        Self::Heights,
        Self::Order,
        Self::Sketch,
        Self::Sheet,
    ];

    /// The command's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Diagonals => "diagonals",
            Self::Corners => "corners",
            Self::Plates => "plates",
            Self::Cuts => "cuts",
            Self::Packs => "packs",
            Self::Heights => "heights",
            Self::Lines => "lines",
            Self::Straight => "straight",
            Self::Readings => "readings",
            Self::Sketch => "sketch",
            Self::Sheet => "sheet",
            Self::Order => "order",
        }
    }
}
