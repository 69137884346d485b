//! Building the tree that the tables say there is: the same choices again, now with positions.

use super::tables::{Hang, Spent, Trees, others};
use crate::cutting::runs::outcome::{BarPlan, Stretch};
use crate::cutting::runs::score::NEVER;

impl Trees<'_> {
    /// Puts the least content on the bar `plans[bar]` and builds all that hangs on it.
    pub(super) fn build_content(
        &mut self,
        hang: Hang,
        bar: usize,
        plans: &mut Vec<BarPlan>,
    ) -> Result<(), Spent> {
        if hang.runs == 0 {
            return Ok(());
        }
        let wanted = self.content(hang)?;
        for (place, part) in self.content_ways(hang) {
            let left = others(hang, place, part);
            let rest = self.rest(place, part)?;
            if rest < NEVER && rest + self.instance.kerf + self.content(left)? == wanted {
                self.build_rest(place, part, bar, plans)?;
                return self.build_content(left, bar, plans);
            }
        }
        Ok(())
    }

    fn build_rest(
        &mut self,
        place: usize,
        hang: Hang,
        bar: usize,
        plans: &mut Vec<BarPlan>,
    ) -> Result<(), Spent> {
        let run = self.group[place];
        let length = self.length(place);
        if hang == Hang::NOTHING {
            plans[bar].pieces.push(Stretch { run, from: 0, to: length });
            return Ok(());
        }
        let wanted = self.rest(place, hang)?;
        for (first, second) in self.two_sides(hang) {
            let Some((from, to)) = self.middle(place, first, second)? else {
                continue;
            };
            if self.asked(from, to, second != Hang::NOTHING) == wanted {
                plans[bar].pieces.push(Stretch { run, from, to });
                if first != Hang::NOTHING {
                    self.build_prefix(place, false, first, from, plans)?;
                }
                if second != Hang::NOTHING {
                    self.build_prefix(place, true, second, length - to, plans)?;
                }
                return Ok(());
            }
        }
        Ok(())
    }

    /// Builds the first part of a run so that it ends exactly at `end`.
    fn build_prefix(
        &mut self,
        place: usize,
        backward: bool,
        hang: Hang,
        end: i64,
        plans: &mut Vec<BarPlan>,
    ) -> Result<(), Spent> {
        let (run, length) = (self.group[place], self.length(place));
        for way in self.prefix_ways(hang) {
            let spots = self.reach(place, backward, hang, way)?;
            if spots.last_up_to(end) != Some(end) {
                continue;
            }
            let (kind, on_bar) = way;
            let rest =
                Hang { runs: hang.runs & !on_bar.runs, bars: hang.bars - self.scales[kind] - on_bar.bars };
            let start = if rest == Hang::NOTHING {
                0
            } else {
                let before = self.prefix(place, backward, rest)?;
                before.last_up_to(end - self.instance.least_piece).unwrap_or(0)
            };
            let (from, to) = if backward { (length - end, length - start) } else { (start, end) };
            plans.push(BarPlan { kind, pieces: vec![Stretch { run, from, to }] });
            let bar = plans.len() - 1;
            self.build_content(on_bar, bar, plans)?;
            if rest != Hang::NOTHING {
                self.build_prefix(place, backward, rest, start, plans)?;
            }
            return Ok(());
        }
        Ok(())
    }
}
