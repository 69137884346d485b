//! The job file's section on taped readings, as written.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::job::LengthEntry;

/// Taped sides and diagonals, and how to judge them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingsSection {
    /// What the tape read, held-on length and all: "AB=7802". A line that is read again is averaged.
    pub read: Option<Vec<String>>,
    /// The mark of the tape that was held on the first corner, taken off every reading; 0 unless given.
    pub held_on: Option<LengthEntry>,
    /// What a second tape read.
    pub second_tape: Option<SecondTapeSection>,
    /// How much higher one end of a line lies than the other, where the tape ran up a slope: "AC=120".
    pub rise: Option<Vec<String>>,
    /// How warm the blades were, to correct for it: "4C" or "39F".
    #[schemars(extend("examples" = ["4C", "39F"]))]
    pub temperature: Option<String>,
    /// The tape hung free: the blade's grams per metre, the pull in newtons, and in how many spans if not one: "19,50"
    /// or "19,50,2".
    #[schemars(extend("examples" = ["19,50", "19,50,2"]))]
    pub sag: Option<String>,
    /// How the true outline is laid on what was built: a side to hold it on, such as AB; free; or least-worst. Held on
    /// the first house side unless given, free without one.
    pub fit: Option<String>,
    /// The most a corner may be out of square at the end of a side. Instead of `preset`.
    pub limit: Option<LengthEntry>,
    /// A published limit: kent, us-remodelling, din-18202, iso-4463-primary or iso-4463-secondary. Instead of `limit`.
    pub preset: Option<String>,
    /// How near to the plan the outline is taken to be built, one standard deviation: it serves to find misreads only,
    /// never to place a corner. 10 mm unless given.
    pub built_within: Option<LengthEntry>,
    /// Whether the readings are of the masonry, with the plate to be laid true on it.
    pub masonry: Option<bool>,
    /// The most that the plate may overhang the masonry or stand back from it.
    pub overhang: Option<LengthEntry>,
}

/// What a second tape read. It is read and held by the same hands as the first.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SecondTapeSection {
    /// What it read: "AB=7801".
    pub read: Option<Vec<String>>,
    /// The mark that was held on; 0 unless given.
    pub held_on: Option<LengthEntry>,
    /// The accuracy class on its blade; the first tape's unless given.
    pub class: Option<String>,
    /// It hung free: as for the first tape.
    #[schemars(extend("examples" = ["19,50", "19,50,2"]))]
    pub sag: Option<String>,
}
