//! What stands along the sides, as typed: `door=CD:900@1200`, `CD:2400`.

use std::str::FromStr;

use clap::Args;
use pegline::job::{LengthEntry, PlaceEntry, StretchEntry};

use super::args::LengthWord;
use super::given::Given;

/// `NAME=SIDE:WIDTH@AT` or `NAME=SIDE@AT:WIDTH`, the name if wanted.
#[derive(Debug, Clone)]
pub(super) struct StretchWord(pub(super) StretchEntry);

impl FromStr for StretchWord {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (name, rest) = match text.split_once('=') {
            Some((name, rest)) => (Some(name.trim().to_owned()), rest),
            None => (None, text),
        };
        let parts = |width: char, at: char| {
            let (side, rest) = rest.split_once(width)?;
            let (first, second) = rest.split_once(at)?;
            Some((side, first, second))
        };
        let width_first = parts(':', '@').filter(|(side, _, _)| !side.contains('@'));
        let at_first = || parts('@', ':').map(|(side, at, width)| (side, width, at));
        let Some((side, width, at)) = width_first.or_else(at_first) else {
            return Err(
                "write the side, the width and how far from the side's first letter: CD:900@1200".to_owned()
            );
        };
        Ok(Self(StretchEntry {
            side: Some(side.trim().to_owned()),
            at: Some(LengthEntry::Text(at.to_owned())),
            width: Some(LengthEntry::Text(width.to_owned())),
            name,
            ..StretchEntry::default()
        }))
    }
}

/// `SIDE:AT`.
#[derive(Debug, Clone)]
struct PlaceWord(PlaceEntry);

impl FromStr for PlaceWord {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let Some((side, at)) = text.split_once(':') else {
            return Err("write the side and how far from its first letter: CD:1200".to_owned());
        };
        Ok(Self(PlaceEntry {
            side: Some(side.trim().to_owned()),
            at: Some(LengthEntry::Text(at.to_owned())),
        }))
    }
}

#[derive(Debug, Args)]
pub(super) struct AlongArgs {
    /// Openings: side, width, distance from the side's first letter, such as CD:900@1200 or
    /// door=DC:900@600.
    #[arg(long, value_name = "SIDE:WIDTH@AT", value_delimiter = ',', help_heading = "Along the sides")]
    openings: Option<Vec<StretchWord>>,
    /// Partitions that meet the walls: side, thickness, distance to the nearer face.
    #[arg(long, value_name = "SIDE:WIDTH@AT", value_delimiter = ',', help_heading = "Along the sides")]
    partitions: Option<Vec<StretchWord>>,
    /// Joints between wall panels: side, distance from the side's first letter.
    #[arg(long, value_name = "SIDE:AT", value_delimiter = ',', help_heading = "Along the sides")]
    joints: Option<Vec<PlaceWord>>,
    /// Studs at these centres, measured from the corner.
    #[arg(long, value_name = "LENGTH", help_heading = "Along the sides")]
    studs: Option<LengthWord>,
}

impl AlongArgs {
    /// Lays what was given over the job.
    pub(super) fn lay(self, given: &mut Given) {
        given.note([
            ("openings", "--openings", self.openings.is_some()),
            ("partitions", "--partitions", self.partitions.is_some()),
            ("joints", "--joints", self.joints.is_some()),
            ("studs", "--studs", self.studs.is_some()),
        ]);
        let entries = |words: Option<Vec<StretchWord>>| {
            words.map(|words| words.into_iter().map(|word| word.0).collect())
        };
        given.over.openings = entries(self.openings);
        given.over.partitions = entries(self.partitions);
        given.over.joints = self.joints.map(|words| words.into_iter().map(|word| word.0).collect());
        given.over.studs = self.studs.map(Into::into);
    }
}
