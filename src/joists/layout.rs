//! Where along the supports the joists stand: at centres from the first, with those that walls and openings ask for.

use std::collections::VecDeque;

use super::bays::Bay;
use super::error::JoistsError;
use super::input::{Question, RoofOpening};
use crate::geometry::Mm;
use crate::length::at_most;
use crate::rules::CLEAR_OF_WALL;

/// The most joists taken.
const MOST_JOISTS: usize = 1000;
/// Less than this, mm, is rounding.
pub(super) const HAIR: f64 = 1e-6;

/// A joist in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stands {
    /// Its nearer edge along the supports.
    pub(super) near: f64,
    pub(super) bay: usize,
    /// Beside an opening.
    pub(super) trimming: bool,
    /// The index of the opening that it is cut for.
    pub(super) cut_for: Option<usize>,
    /// It stands beside another as its second.
    pub(super) second: bool,
}

/// Every joist, in order along the supports.
pub(super) fn layout(question: &Question, bays: &[Bay]) -> Result<Vec<Stands>, JoistsError> {
    let mut layout = Layout { question, bays, stands: vec![] };
    layout.trimming()?;
    let (first, last) = layout.ends()?;
    layout.at_centres(first, last)?;
    layout.cut();
    layout.doubled()?;
    layout.stands.sort_by(|a, b| a.near.total_cmp(&b.near));
    Ok(layout.stands)
}

/// The farthest that two joists beside each other stand apart, centre to centre, mm.
pub(super) fn widest(stands: &[Stands]) -> Mm {
    let apart = stands.iter().zip(stands.iter().skip(1)).map(|(a, b)| b.near - a.near);
    Mm(apart.fold(0.0, f64::max))
}

struct Layout<'a> {
    question: &'a Question,
    bays: &'a [Bay],
    stands: Vec<Stands>,
}

impl Layout<'_> {
    fn put(&mut self, near: f64, bay: usize) {
        self.stands.push(Stands { near, bay, trimming: false, cut_for: None, second: false });
    }

    /// How far a bay's joists keep from one of its ends.
    fn kept(&self, bay: &Bay, end: usize) -> f64 {
        if bay.walled[end] { self.question.clear } else { 0.0 }
    }

    /// The bay that a joist at `near` stands wholly in, clear of its walls and of the joists that are there.
    fn free(&self, near: f64) -> Option<usize> {
        let thickness = self.question.thickness;
        let clear = self.stands.iter().all(|other| (other.near - near).abs() >= thickness - HAIR);
        let inside = |bay: &Bay| {
            near >= bay.room[0] + self.kept(bay, 0) - HAIR
                && near + thickness <= bay.room[1] - self.kept(bay, 1) + HAIR
        };
        self.bays.iter().position(inside).filter(|_| clear)
    }

    /// One joist, or two, on either side of every opening.
    fn trimming(&mut self) -> Result<(), JoistsError> {
        let Question { thickness, double_trimming, .. } = *self.question;
        for opening in &self.question.openings {
            let refused = |problem| JoistsError::Opening { name: opening.name.clone(), problem };
            let bay = self.bay_of(opening).ok_or_else(|| {
                refused("an opening has to lie between two walls, and between the two supports")
            })?;
            let ends = [opening.along - thickness, opening.along + opening.width];
            let pairs = [ends[0] - thickness, ends[1] + thickness];
            for near in ends.into_iter().chain(pairs.into_iter().filter(|_| double_trimming)) {
                if self.stands.iter().any(|other| (other.near - near).abs() < HAIR) {
                    continue;
                }
                let there = self.free(near).filter(|there| *there == bay).ok_or_else(|| {
                    refused(
                        "the joists on its sides have no room: keep openings so far from the walls and from each other",
                    )
                })?;
                let trimming = true;
                self.stands.push(Stands { near, bay: there, trimming, cut_for: None, second: false });
            }
        }
        Ok(())
    }

    fn bay_of(&self, opening: &RoofOpening) -> Option<usize> {
        self.bays.iter().position(|bay| {
            bay.room[0] <= opening.along
                && opening.along + opening.width <= bay.room[1]
                && bay.from.v <= opening.out
                && opening.out + opening.length <= bay.to.v
        })
    }

    /// The joists that keep clear of the walls beside them; where no wall is, at the very end. Gives where the first and
    /// the last of all stand.
    fn ends(&mut self) -> Result<(f64, f64), JoistsError> {
        let Question { thickness, clear, centres, .. } = *self.question;
        let bays = self.bays;
        let first = (0..bays.len()).min_by(|a, b| bays[*a].room[0].total_cmp(&bays[*b].room[0])).unwrap_or(0);
        let origin = bays[first].room[0] + self.kept(&bays[first], 0);
        let mut last = origin;
        for (index, bay) in bays.iter().enumerate() {
            let (low, high) = (bay.room[0] + self.kept(bay, 0), bay.room[1] - self.kept(bay, 1) - thickness);
            if high < low - HAIR {
                let left = bay.room[1] - bay.room[0];
                return Err(JoistsError::NoRoom {
                    what: "a joist, clear of the walls,",
                    between: "two walls beside it".to_owned(),
                    left,
                });
            }
            for (end, near) in [(0, low), (1, high)] {
                let goes_on = !bay.walled[end]
                    && bays.iter().any(|other| other != bay && (other.u[1 - end] - bay.u[end]).abs() < 1.0);
                if goes_on {
                    continue;
                }
                // A joist at centres that the one at the wall would run into takes its place, if it is near enough to the
                // wall.
                let at_centres = origin + ((near - origin) / centres).round() * centres;
                let away = if end == 0 { at_centres - near } else { near - at_centres };
                let stays = away > 0.0 && away < thickness && clear + away <= CLEAR_OF_WALL.most + HAIR;
                let near = if stays && bay.walled[end] { at_centres } else { near };
                last = last.max(near);
                if self.free(near) == Some(index) {
                    self.put(near, index);
                }
            }
        }
        Ok((origin, last))
    }

    /// The joists at centres from `first` to `last`. One that can't stand there stands as near as it can, unless those
    /// on either side of it are near enough to each other without it.
    fn at_centres(&mut self, first: f64, last: f64) -> Result<(), JoistsError> {
        let Question { thickness, centres, .. } = *self.question;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "both figures are positive and bounded, and a float cast saturates"
        )]
        let steps = ((last - first) / centres + HAIR).floor() as usize;
        at_most("joists", steps + self.stands.len(), MOST_JOISTS)?;
        let mut blocked = VecDeque::new();
        for step in 0..=steps {
            let near = first + step as f64 * centres;
            match self.free(near) {
                Some(bay) => self.put(near, bay),
                None => blocked.push_back(near),
            }
        }
        while let Some(near) = blocked.pop_front() {
            if self.stands.iter().any(|other| (other.near - near).abs() < HAIR) {
                continue;
            }
            // Those still to be placed count where they would stand at centres.
            let others: Vec<f64> =
                self.stands.iter().map(|other| other.near).chain(blocked.iter().copied()).collect();
            let before =
                others.iter().copied().filter(|other| *other < near).fold(f64::NEG_INFINITY, f64::max);
            let after = others.iter().copied().filter(|other| *other > near).fold(f64::INFINITY, f64::min);
            if !after.is_finite() || after - before <= centres + HAIR {
                continue;
            }
            // How much too wide a joist there leaves the gaps on either side of it.
            let over = |gap: f64| if gap.is_finite() { (gap - centres - HAIR).max(0.0) } else { 0.0 };
            let wide = |place: f64| {
                if before < place && place < after {
                    over(place - before) + over(after - place)
                } else {
                    over(after - before)
                }
            };
            let beside =
                self.stands.iter().flat_map(|other| [other.near - thickness, other.near + thickness]);
            let at_ends = self.bays.iter().flat_map(|bay| {
                [bay.room[0] + self.kept(bay, 0), bay.room[1] - self.kept(bay, 1) - thickness]
            });
            let places = beside.chain(at_ends).filter_map(|place| Some((place, self.free(place)?)));
            let best = places.min_by(|a, b| {
                let far = |place: f64| (place - near).abs();
                let by_gaps = wide(a.0).total_cmp(&wide(b.0));
                by_gaps.then(far(a.0).total_cmp(&far(b.0))).then(a.0.total_cmp(&b.0))
            });
            if let Some((place, bay)) = best {
                self.put(place, bay);
            }
        }
        Ok(())
    }

    /// Marks the joists that an opening cuts.
    fn cut(&mut self) {
        for (index, opening) in self.question.openings.iter().enumerate() {
            let bay = self.bay_of(opening);
            let ends = (opening.along, opening.along + opening.width);
            for stands in self.stands.iter_mut().filter(|s| !s.trimming && Some(s.bay) == bay) {
                if stands.near < ends.1 - HAIR && stands.near + self.question.thickness > ends.0 + HAIR {
                    stands.cut_for = Some(index);
                }
            }
        }
    }

    /// Puts a second joist beside each one that is to be doubled.
    fn doubled(&mut self) -> Result<(), JoistsError> {
        let thickness = self.question.thickness;
        at_most("doubled joists", self.question.doubled.len(), MOST_JOISTS)?;
        for at in &self.question.doubled {
            let whole = self.stands.iter().filter(|s| s.cut_for.is_none() && !s.second);
            let nearest = whole.min_by(|a, b| (a.near - at).abs().total_cmp(&(b.near - at).abs())).copied();
            let beside = nearest.and_then(|joist| {
                let places = [joist.near + thickness, joist.near - thickness];
                places.into_iter().find(|near| self.free(*near) == Some(joist.bay)).map(|near| Stands {
                    near,
                    trimming: false,
                    second: true,
                    ..joist
                })
            });
            self.stands.push(beside.ok_or(JoistsError::Doubled { at: *at })?);
        }
        Ok(())
    }
}
