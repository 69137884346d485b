//! Whether what is asked of the plates can be: every length a length, every side one that the outline has.

use super::anchors::{AnchorRule, Studs};
use super::dpc::DpcRule;
use super::error::{CLOSEST, PlatesError};
use super::options::{Options, Stretch};
use crate::length::{AmountError, not_negative, positive, usable};

impl Options {
    /// Whether plates can be laid by these on an outline of `sides` sides.
    pub fn check(&self, sides: usize) -> Result<(), PlatesError> {
        positive("the plate's width", self.width)?;
        positive("the step of a mark", self.step)?;
        for stretch in self.openings.iter().chain(&self.met) {
            stretch.check(sides)?;
        }
        for (side, at) in &self.joints {
            Stretch { side: *side, from: *at, to: *at }.check(sides)?;
        }
        for partition in &self.partitions {
            positive(format!("partition {}", partition.name), partition.length)?;
        }
        self.check_splices()?;
        if let Some(rule) = &self.anchors {
            rule.check()?;
        }
        if let Some(studs) = &self.studs {
            studs.check()?;
        }
        self.dpc.check()?;
        let spacings =
            [("temporary fixings", self.fix_every), ("straps", self.straps.map(|rule| rule.every))];
        spacings.into_iter().try_for_each(|(what, every)| every.map_or(Ok(()), |every| apart(what, every)))
    }

    fn check_splices(&self) -> Result<(), PlatesError> {
        let rules = &self.splices;
        for (what, length) in [
            ("the least piece", Some(rules.least_piece)),
            ("the least distance from a corner", rules.corner_distance),
            ("the least distance from a post", Some(rules.post_clear)),
            ("the least distance from a panel joint", Some(rules.panel_clear)),
            ("the binder's lap", Some(rules.lap)),
        ] {
            length.map(|length| not_negative(what, length)).transpose()?;
        }
        rules.panels.map_or(Ok(()), |every| apart("panel joints", every))
    }
}

impl Stretch {
    fn check(&self, sides: usize) -> Result<(), PlatesError> {
        if self.side >= sides {
            return Err(PlatesError::NoSide { side: self.side, sides });
        }
        usable("where it starts", self.from)?;
        usable("where it ends", self.to)?;
        Ok(not_negative("its width", self.to - self.from).map(drop)?)
    }
}

impl AnchorRule {
    /// Whether anchors can be placed by it.
    pub fn check(&self) -> Result<(), PlatesError> {
        apart("anchors", self.spacing)?;
        positive("the most from an end to an anchor", self.end)?;
        not_negative("the least from an end to an anchor", self.edge)?;
        if self.edge > self.end {
            return Err(PlatesError::Edge { edge: self.edge, end: self.end });
        }
        not_negative("the least between two anchors", self.apart)?;
        if self.apart > self.spacing / 3.0 {
            return Err(PlatesError::Apart { apart: self.apart, spacing: self.spacing });
        }
        Ok(())
    }
}

impl Studs {
    /// Whether there is a place between them for an anchor.
    pub fn check(&self) -> Result<(), PlatesError> {
        positive("the studs' centres", self.centres)?;
        not_negative("how far an anchor keeps from a stud", self.clear)?;
        if self.clear * 2.0 >= self.centres {
            return Err(PlatesError::NoClearPlace { clear: self.clear, centres: self.centres });
        }
        Ok(())
    }
}

impl DpcRule {
    /// Whether the strips can lap.
    pub fn check(&self) -> Result<(), PlatesError> {
        not_negative("the damp-proof course's lap", self.lap)?;
        let Some(roll) = self.roll else { return Ok(()) };
        positive("the roll of damp-proof course", roll)?;
        if roll < 2.0 * self.lap.max(CLOSEST) { Err(PlatesError::ShortRoll { roll }) } else { Ok(()) }
    }
}

fn apart(what: &str, every: f64) -> Result<(), PlatesError> {
    if positive(what, every)? < CLOSEST { Err(PlatesError::TooClose { every }) } else { Ok(()) }
}

impl From<AmountError> for PlatesError {
    fn from(error: AmountError) -> Self {
        Self::Amount(error)
    }
}
