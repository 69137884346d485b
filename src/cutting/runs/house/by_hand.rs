//! Lists as they are made without a search, one run after the other: what no answer may be worse than.

use super::dive::List;
use super::laps::{clear_of, splices};
use super::site::Site;
use crate::cutting::runs::instance::{Instance, Span};
use crate::cutting::runs::intervals::Intervals;
use crate::cutting::runs::outcome::{BarPlan, Stretch};

/// What is done with the rest of a bar.
#[derive(Debug, Clone, Copy)]
enum Rest {
    /// Nothing: each run from bars of its own.
    Left,
    /// It serves for a later run that it holds whole.
    Kept,
    /// It goes on into the next run.
    GoesOn,
}

/// The lists of these shapes: each run alone, rests kept, and walking round with the rest, from every length in turn and from
/// the cheapest that holds each piece.
pub(super) fn by_hand(site: &Site, shapes: &[usize]) -> Vec<List> {
    let lengths = (0..site.instance.bought).map(Some).chain([None]);
    let walks = lengths.map(|length| (Rest::GoesOn, length));
    [(Rest::Left, None), (Rest::Kept, None)]
        .into_iter()
        .chain(walks)
        .filter_map(|(rest, length)| Hand::new(site, rest, length).lay(shapes))
        .collect()
}

/// A list under way.
struct Hand<'a> {
    site: &'a Site,
    rest: Rest,
    /// The length that new bars have, where they hold what they have to.
    length: Option<usize>,
    bars: Vec<BarPlan>,
    /// What is left of each bar, the kerf before it taken off.
    left: Vec<i64>,
}

impl<'a> Hand<'a> {
    fn new(site: &'a Site, rest: Rest, length: Option<usize>) -> Self {
        Self { site, rest, length, bars: vec![], left: vec![] }
    }

    fn lay(mut self, shapes: &[usize]) -> Option<List> {
        let site = self.site;
        let spans = &site.instance.spans;
        let mut order: Vec<usize> = (0..shapes.len()).filter(|&run| spans[shapes[run]].length > 0).collect();
        if matches!(self.rest, Rest::Kept) {
            order.sort_by_key(|&run| -spans[shapes[run]].length);
        }
        for run in order {
            let shape = shapes[run];
            let others: Vec<i64> = site
                .partners(run)
                .flat_map(|other| splices(&self.bars, other).map(move |at| at + site.origin[shapes[other]]))
                .collect();
            let clear = clear_of(site, shape, &others);
            self.add(run, clear.as_ref().unwrap_or(&spans[shape]))?;
        }
        Some(List::new(site, shapes.to_vec(), self.bars))
    }

    /// Lays one run.
    fn add(&mut self, run: usize, span: &Span) -> Option<()> {
        let holds = |bar: &usize| self.left[*bar] >= span.length;
        let rest = match self.rest {
            Rest::Left => None,
            Rest::Kept => (0..self.bars.len()).filter(holds).min_by_key(|&bar| self.left[bar]),
            Rest::GoesOn => self.bars.len().checked_sub(1),
        };
        let instance = &self.site.instance;
        let longest = (0..instance.kinds.len())
            .filter(|&kind| self.is_there(kind))
            .map(|kind| instance.kinds[kind].length)
            .max()?;
        let going_on = rest.and_then(|bar| Some((bar, ends(instance, span, self.left[bar], longest)?)));
        let (mut bar, ends) = match going_on {
            Some((bar, ends)) => (Some(bar), ends),
            None => (None, ends(instance, span, longest, longest)?),
        };
        let mut from = 0;
        for to in ends {
            let last = to == span.length;
            let piece = to - from + if last { 0 } else { instance.overlap };
            let place = match bar.take() {
                Some(bar) => bar,
                None => self.fetch(piece)?,
            };
            self.bars[place].pieces.push(Stretch { run, from, to });
            self.left[place] -= piece + instance.kerf;
            from = to;
        }
        Some(())
    }

    /// A new bar that holds the piece.
    fn fetch(&mut self, piece: i64) -> Option<usize> {
        let kinds = &self.site.instance.kinds;
        let holds = |kind: &usize| kinds[*kind].length >= piece && self.is_there(*kind);
        let cheapest =
            || (0..kinds.len()).filter(holds).min_by_key(|&kind| (kinds[kind].price, kinds[kind].length));
        let kind = self.length.filter(holds).or_else(cheapest)?;
        self.bars.push(BarPlan { kind, pieces: vec![] });
        self.left.push(kinds[kind].length);
        Some(self.bars.len() - 1)
    }

    /// Whether there is one more of the kind.
    fn is_there(&self, kind: usize) -> bool {
        let taken = self.bars.iter().filter(|plan| plan.kind == kind).count();
        self.site.instance.kinds[kind].count.is_none_or(|count| taken < count)
    }
}

/// Where the pieces of a run end, the fewest that there can be: the first from a bar that gives `first`, the others `longest`.
fn ends(instance: &Instance, span: &Span, first: i64, longest: i64) -> Option<Vec<i64>> {
    let least = instance.least_piece;
    let mut reached = vec![Intervals::single(0)];
    let mut bar = first;
    while span.length - reached.last()?.last()? > bar {
        let next = reached.last()?.ahead(least, bar - instance.overlap).intersection(&span.allowed[0]);
        reached.push(next);
        bar = longest;
    }
    let mut ends = vec![span.length];
    let mut at = reached.pop()?.last()?;
    while let Some(before) = reached.pop() {
        ends.push(at);
        at = before.last_up_to(at - least)?;
    }
    ends.reverse();
    Some(ends)
}
