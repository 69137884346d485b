//! What stands along the sides, as typed: `door=CD:900@1200`, `CD:2400`.

use clap::Args;
use pegline::job::{JobFile, LengthEntry, PlaceEntry, StretchEntry};

#[derive(Debug, Args)]
#[command(next_help_heading = "Along the sides")]
pub(super) struct AlongArgs {
    /// Openings: side, width, distance from the side's first letter, such as CD:900@1200 or
    /// door=DC:900@600. One with the word window in its name is a window.
    #[arg(
        id = "openings",
        long = "opening",
        alias = "openings",
        value_name = "SIDE:WIDTH@AT",
        value_delimiter = ','
    )]
    openings: Option<Vec<StretchEntry>>,
    /// Partitions that meet the walls: side, thickness, distance to the nearer face.
    #[arg(long, value_name = "SIDE:WIDTH@AT", value_delimiter = ',')]
    partitions: Option<Vec<StretchEntry>>,
    /// Joints between wall panels: side, distance from the side's first letter.
    #[arg(long, value_name = "SIDE:AT", value_delimiter = ',')]
    joints: Option<Vec<PlaceEntry>>,
    /// Studs at these centres, measured from the corner.
    #[arg(long, value_name = "LENGTH")]
    studs: Option<LengthEntry>,
}

impl AlongArgs {
    /// What was given of the job besides what is `given` already.
    pub(super) fn with(self, given: JobFile) -> JobFile {
        JobFile {
            openings: self.openings,
            partitions: self.partitions,
            joints: self.joints,
            studs: self.studs,
            ..given
        }
    }
}
