//! The job file's section on taped readings, as written.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;
use crate::rules::{DIAGONALS, PLAN_SIZES, listed};

/// Taped sides and diagonals, and how to judge them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct ReadingsSection {
    /// What the tape read, held-on length and all: line=length.
    ///
    /// A line that is read again (AB=7802,AB=7804) is averaged; readings of it that can't be of one length stand apart.
    /// The option may be repeated.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.read", value_name = "AB=7802,AC=8594", value_delimiter = ',')
    )]
    pub read: Option<Vec<String>>,
    /// The mark of the tape that was held on the first corner: it is taken off every reading [default: 0].
    #[cfg_attr(feature = "cli", arg(long, id = "readings.held_on", value_name = "LENGTH"))]
    pub held_on: Option<LengthEntry>,
    /// The most a corner may be out of square at the end of a side [default: what the tape can tell].
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "readings.limit",
            value_name = "LENGTH",
            conflicts_with = "readings.preset",
            help_heading = "Judging"
        )
    )]
    pub limit: Option<LengthEntry>,
    /// The most that a side may be long or short [default: the limit].
    #[cfg_attr(feature = "cli", arg(long, id = "readings.size_limit", value_name = "LENGTH"))]
    pub size_limit: Option<LengthEntry>,
    /// A published limit instead, by its key.
    #[schemars(description = format!("{}.", presets()))]
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.preset", value_name = "NAME", help_heading = "Judging", help = presets())
    )]
    pub preset: Option<String>,
    /// How the true outline is laid on what was built: held on a side (AB), free, least-worst, or fewest.
    ///
    /// fewest unless given: held on the house and slid along it, free without one, so that the fewest parts move; of
    /// masonry, so that the plate overhangs the least. Held on a side keeps its first corner in place. least-worst makes
    /// the largest distance of a corner from a wall line as small as it can be.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.fit", value_name = "SIDE", help_heading = "Judging")
    )]
    pub fit: Option<String>,
    /// The readings are of the masonry: print the plate's overhang or setback at both ends of each side.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "readings.masonry",
            num_args = 0,
            default_missing_value = "true",
            help_heading = "Judging"
        )
    )]
    pub masonry: Option<bool>,
    /// The most that the plate may overhang the masonry or stand back from it; says --masonry too.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.overhang", value_name = "LENGTH", help_heading = "Judging")
    )]
    pub overhang: Option<LengthEntry>,
    /// How far the plate may stand off the house, where that makes it overhang less; says --masonry too [default: 0].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.stand_off", value_name = "LENGTH", help_heading = "Judging")
    )]
    pub stand_off: Option<LengthEntry>,
    /// How near to the plan the outline is taken to be built, to find misreads only [default: 10mm, or 3/8in in feet and inches].
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.built_within", value_name = "LENGTH", help_heading = "Judging")
    )]
    pub built_within: Option<LengthEntry>,
    /// Correct for a blade this warm: 4C or 39F.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.temperature", value_name = "DEGREES", help_heading = "Corrections")
    )]
    #[schemars(extend("examples" = ["4C", "39F"]))]
    pub temperature: Option<String>,
    /// Correct lines taped up a slope: line=rise, how much higher one end lies.
    #[cfg_attr(
        feature = "cli",
        arg(
            long,
            id = "readings.rise",
            value_name = "AC=120",
            value_delimiter = ',',
            help_heading = "Corrections"
        )
    )]
    pub rise: Option<Vec<String>>,
    /// Correct for a tape hanging free: the blade's grams per metre, the pull in newtons, and the spans if not one; or
    /// 0.0128lb/ft,11lb.
    #[cfg_attr(
        feature = "cli",
        arg(long, id = "readings.sag", value_name = "G/M,N[,SPANS]", help_heading = "Corrections")
    )]
    #[schemars(extend("examples" = ["19,50", "19,50,2"]))]
    pub sag: Option<String>,
    /// What a second tape read. It is read and held by the same hands as the first.
    #[cfg_attr(feature = "cli", command(flatten))]
    pub second_tape: Option<SecondTapeSection>,
}

/// What a second tape read. It is read and held by the same hands as the first.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "cli", derive(clap::Args))]
#[serde(deny_unknown_fields)]
pub struct SecondTapeSection {
    /// What a second tape read: line=length. It counts with its own class and its own held-on length.
    #[cfg_attr(
        feature = "cli",
        arg(
            id = "readings.second_tape.read",
            long = "second-tape",
            value_name = "AB=7801,AC=8590",
            value_delimiter = ',',
            help_heading = "Tape"
        )
    )]
    pub read: Option<Vec<String>>,
    /// The second tape's class [default: the first's].
    #[cfg_attr(
        feature = "cli",
        arg(
            id = "readings.second_tape.class",
            long = "second-class",
            value_name = "CLASS",
            help_heading = "Tape"
        )
    )]
    pub class: Option<String>,
    /// The mark held on with the second tape [default: 0].
    #[cfg_attr(
        feature = "cli",
        arg(
            id = "readings.second_tape.held_on",
            long = "second-held-on",
            value_name = "LENGTH",
            help_heading = "Tape"
        )
    )]
    pub held_on: Option<LengthEntry>,
    /// Correct for a second tape hanging free: its grams per metre, the pull in newtons, and the spans if not one.
    #[cfg_attr(
        feature = "cli",
        arg(
            id = "readings.second_tape.sag",
            long = "second-sag",
            value_name = "G/M,N[,SPANS]",
            help_heading = "Corrections"
        )
    )]
    #[schemars(extend("examples" = ["19,50", "19,50,2"]))]
    pub sag: Option<String>,
}

fn presets() -> String {
    format!(
        "A published limit instead: {}",
        listed(DIAGONALS.iter().chain(PLAN_SIZES).map(|preset| preset.key))
    )
}
