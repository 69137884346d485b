//! Sides by name: `AB,CD`.

use super::error::PlanError;
use super::footprint::Footprint;
use crate::words::quoted;

/// Reads side names separated by commas or spaces, in either direction and either case, as side indices.
///
/// Fails on the first name that the outline doesn't have.
pub fn parse_sides(text: &str, footprint: &Footprint) -> Result<Vec<usize>, PlanError> {
    text.split([',', ' ', ';'])
        .filter(|name| !name.is_empty())
        .map(|name| footprint.parse_side(name))
        .collect()
}

impl Footprint {
    /// The index of the side called `name`: its two letters in either order and either case.
    pub fn parse_side(&self, name: &str) -> Result<usize, PlanError> {
        self.parse_line(name)
            .filter(|(i, j)| self.is_side(*i, *j))
            .map(|(i, j)| if i + 1 == j { i } else { j })
            .ok_or_else(|| PlanError::NoSuchSide {
                name: quoted(name),
                sides: (0..self.len()).map(|i| self.side_name(i)).collect(),
            })
    }

    /// The two different corners called by `name`, two letters, lower index first.
    #[must_use]
    pub fn parse_line(&self, name: &str) -> Option<(usize, usize)> {
        let mut letters = name.trim().chars();
        let (first, second) = (letters.next()?, letters.next()?);
        if letters.next().is_some() {
            return None;
        }
        let (i, j) = (self.corner_index(first)?, self.corner_index(second)?);
        (i != j).then_some((i.min(j), i.max(j)))
    }

    /// Marks the sides named in `text` as existing walls. At least one side must be left to build.
    pub fn with_house_named(self, text: &str) -> Result<Self, PlanError> {
        let sides = parse_sides(text, &self)?;
        let marked = self.with_house(&sides);
        if marked.sides().iter().all(|side| side.house) {
            return Err(PlanError::AllHouse);
        }
        Ok(marked)
    }
}
