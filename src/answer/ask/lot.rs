//! The timber of a part of a job as it is ordered: what is cut from what, for one plot or for several together.

use crate::cuts::{Question, cuts};
use crate::cutting::{self, Wanted};
use crate::exact::{Pence, Tenths};
use crate::order::{
    Added, CutBar, CutPiece, CutTogether, FromVan, HEAD_BINDER, JOIST, Much, Need, Price, Size, TIMBER,
    WALL_PLATE,
};
use crate::plates::{Layer, Plates};
use crate::stock::{Bar, Buy, Cost, InVan, Timber};

/// The items that are cut, in the order that they are listed.
const ITEMS: [&str; 4] = [WALL_PLATE, HEAD_BINDER, TIMBER, JOIST];

/// Whether an item is cut from lengths that are for sale.
pub(super) fn is_cut(item: &str) -> bool {
    ITEMS.contains(&item)
}

/// A piece of a lot.
#[derive(Debug, Clone)]
struct Piece {
    item: &'static str,
    plot: String,
    name: String,
    length: Tenths,
    /// Its bar's place among the lot's.
    bar: usize,
}

/// The timber of a part, cut.
#[derive(Debug, Clone)]
pub(super) struct Lot {
    /// The part that it is for.
    pub(super) from: &'static str,
    /// Whether no cut of it costs less.
    pub(super) proven: bool,
    /// The plot that it is for, where the order is for several and it is not cut for all.
    plot: Option<String>,
    timber: Timber,
    seconds: f64,
    bars: Vec<Bar>,
    buy: Vec<Buy>,
    cost: Cost,
    pieces: Vec<Piece>,
}

/// A cut as an answer has it.
pub(super) struct Cut<'a> {
    pub(super) timber: &'a Timber,
    pub(super) seconds: f64,
    pub(super) bars: &'a [Bar],
    pub(super) buy: &'a [Buy],
    pub(super) cost: Cost,
    pub(super) proven: bool,
}

impl Lot {
    /// The timber of `from`, all of it the same item.
    pub(super) fn of(from: &'static str, item: &'static str, cut: &Cut<'_>) -> Self {
        let pieces = cut.bars.iter().enumerate().flat_map(|(bar, timber)| {
            timber.pieces.iter().map(move |piece| Piece {
                item,
                plot: String::new(),
                name: piece.name.clone(),
                length: piece.length,
                bar,
            })
        });
        Self::new(from, cut, pieces.collect())
    }

    /// The plates' timber.
    pub(super) fn of_plates(plates: &Plates, cut: &Cut<'_>) -> Self {
        let pieces = plates.runs.iter().flat_map(|run| {
            let item = match run.layer {
                Layer::Plate => WALL_PLATE,
                Layer::Binder => HEAD_BINDER,
            };
            run.pieces.iter().map(move |piece| Piece {
                item,
                plot: String::new(),
                name: piece.name.clone(),
                length: piece.length,
                bar: piece.bar,
            })
        });
        Self::new("plates", cut, pieces.collect())
    }

    fn new(from: &'static str, cut: &Cut<'_>, pieces: Vec<Piece>) -> Self {
        Self {
            from,
            proven: cut.proven,
            plot: None,
            timber: cut.timber.clone(),
            seconds: cut.seconds,
            bars: cut.bars.to_vec(),
            buy: cut.buy.to_vec(),
            cost: cut.cost,
            pieces,
        }
    }

    /// The lot as this plot's.
    pub(super) fn of_plot(mut self, plot: &str) -> Self {
        self.plot = Some(plot.to_owned());
        for piece in &mut self.pieces {
            plot.clone_into(&mut piece.plot);
        }
        self
    }

    /// What a bar is bought as: the first in the list of what any piece is cut from it for.
    fn item(&self, bar: usize) -> Option<&'static str> {
        ITEMS.into_iter().find(|item| self.pieces.iter().any(|piece| piece.bar == bar && piece.item == *item))
    }

    /// How many bars both a plate and a binder are cut from.
    pub(super) fn shared(&self) -> usize {
        let on = |bar: usize, item| self.pieces.iter().any(|piece| piece.bar == bar && piece.item == item);
        (0..self.bars.len()).filter(|bar| on(*bar, WALL_PLATE) && on(*bar, HEAD_BINDER)).count()
    }

    /// Each item's lengths and how many of each, from the van or not, the shortest first.
    fn lengths(&self, in_van: bool) -> Vec<(&'static str, Tenths, u64)> {
        let mut all = vec![];
        for item in ITEMS {
            let bars = self.bars.iter().enumerate();
            let of_item = bars.filter(|(i, bar)| bar.in_van == in_van && self.item(*i) == Some(item));
            let mut lengths: Vec<Tenths> = of_item.map(|(_, bar)| bar.stock).collect();
            lengths.sort_unstable();
            let alike = lengths.chunk_by(|a, b| a == b);
            all.extend(alike.filter_map(|alike| {
                Some((item, *alike.first()?, u64::try_from(alike.len()).unwrap_or(u64::MAX)))
            }));
        }
        all
    }

    /// What is bought, at the price that it was chosen by where the list has none.
    pub(super) fn needs(&self, prices: &[Price]) -> Vec<Need> {
        let need = |(item, length, count): (&'static str, Tenths, u64)| {
            let size = Size::Length(length.to_mm());
            // The price list is the price of all that it names.
            let listed = prices.iter().any(|price| price.names(item, &size));
            let chosen_by = self.buy.iter().find(|line| line.length == length).and_then(|line| line.rate);
            let own = chosen_by.filter(|_| !listed).map(|rate| Price {
                item: item.to_owned(),
                size: size.clone(),
                unit: None,
                pack: None,
                rate: rate.into(),
                waste: None,
                added: Added::default(),
                available: None,
            });
            let much = Much::Lengths { count, each: length };
            Need {
                item: item.to_owned(),
                size,
                much,
                from: self.from.to_owned(),
                own,
                plot: self.plot.clone(),
            }
        };
        self.lengths(false).into_iter().map(need).collect()
    }

    /// What is taken from the van.
    pub(super) fn in_van(&self) -> Vec<FromVan> {
        let taken = |(item, length, quantity): (&'static str, Tenths, u64)| FromVan {
            item: item.to_owned(),
            size: Size::Length(length.to_mm()),
            quantity,
            from: self.from,
        };
        self.lengths(true).into_iter().map(taken).collect()
    }

    /// Whether the other is cut from the same, so that they can be cut together.
    fn like(&self, other: &Self) -> bool {
        let for_sale = |lot: &Self| (lot.timber.for_sale.clone(), lot.timber.kerf, lot.timber.trim);
        for_sale(self) == for_sale(other)
    }

    /// The lots of one part, those that are cut from the same as one.
    pub(super) fn together(lots: Vec<Self>) -> Result<Vec<(Self, Option<CutTogether>)>, cutting::Error> {
        let mut groups: Vec<Vec<Self>> = vec![];
        for lot in lots {
            match groups.iter_mut().find(|group| group[0].like(&lot)) {
                Some(group) => group.push(lot),
                None => groups.push(vec![lot]),
            }
        }
        let mut all = vec![];
        for group in groups {
            match Self::joined(&group)? {
                Some((lot, cut)) => all.push((lot, Some(cut))),
                None => all.extend(group.into_iter().map(|lot| (lot, None))),
            }
        }
        Ok(all)
    }

    /// These as one; nothing if that costs no less.
    fn joined(group: &[Self]) -> Result<Option<(Self, CutTogether)>, cutting::Error> {
        let [first, _, ..] = group else { return Ok(None) };
        let mut left: Vec<Piece> = group.iter().flat_map(|lot| lot.pieces.clone()).collect();
        let mut timber = first.timber.clone();
        timber.in_van = in_vans(group);
        let wanted = left.iter().map(|piece| Wanted { length: piece.length, count: 1 });
        let question = Question { pieces: wanted.collect(), timber, seconds: first.seconds };
        let cuts = cuts(&question)?;
        let apart: i64 = group.iter().map(|lot| lot.cost.amount()).sum();
        let saved = apart - cuts.cost.amount();
        if saved <= 0 {
            return Ok(None);
        }
        // Pieces of one length are as good as each other: whose each is, is settled here, an item's after another's.
        left.sort_by_key(|piece| ITEMS.iter().position(|item| *item == piece.item));
        let mut pieces = vec![];
        for (bar, timber) in cuts.bars.iter().enumerate() {
            for cut in &timber.pieces {
                if let Some(place) = left.iter().position(|piece| piece.length == cut.length) {
                    pieces.push(Piece { bar, ..left.remove(place) });
                }
            }
        }
        let cut = Cut {
            timber: &question.timber,
            seconds: question.seconds,
            bars: &cuts.bars,
            buy: &cuts.buy,
            cost: cuts.cost,
            proven: cuts.proven,
        };
        let lot = Self::new(first.from, &cut, pieces);
        let cut = CutTogether {
            from: lot.from,
            saved: matches!(lot.cost, Cost::Money(_)).then_some(Pence(saved)),
            saved_length: match lot.cost {
                Cost::Money(_) => None,
                Cost::Length(_) => Some(Tenths(saved).to_mm()),
            },
            bars: (0..lot.bars.len()).map(|bar| lot.cut_bar(bar)).collect(),
        };
        Ok(Some((lot, cut)))
    }

    fn cut_bar(&self, place: usize) -> CutBar {
        let bar = &self.bars[place];
        let pieces = self.pieces.iter().filter(|piece| piece.bar == place);
        CutBar {
            number: bar.number,
            item: self.item(place).unwrap_or_default(),
            length: bar.stock.to_mm(),
            in_van: bar.in_van,
            pieces: pieces
                .map(|piece| CutPiece {
                    plot: piece.plot.clone(),
                    name: piece.name.clone(),
                    length: piece.length.to_mm(),
                })
                .collect(),
            offcut: bar.offcut.to_mm(),
        }
    }
}

/// What is in the vans of all these.
fn in_vans(group: &[Lot]) -> Vec<InVan> {
    let mut all: Vec<InVan> = vec![];
    for van in group.iter().flat_map(|lot| &lot.timber.in_van) {
        match all.iter_mut().find(|other| other.length == van.length) {
            Some(other) => other.count += van.count,
            None => all.push(*van),
        }
    }
    all
}
