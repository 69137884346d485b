//! From a need and its price to a line: waste first, then whole units and packs, then the price, rounded once.

use super::amount::amount;
use super::answer::Line;
use super::error::OrderError;
use super::figures::{MOST_MONEY, MOST_QUANTITY, Size, Unit, tidy};
use super::need::{Much, Need};
use super::prices::Price;
use super::quote::Added;
use crate::exact::{Hundredths, Percent, Tenths, held, up};

/// A unit of length, and tenths of a millimetre in one.
#[derive(Clone, Copy)]
struct Measure<'a> {
    unit: &'a Unit,
    tenths: i64,
}

impl<'a> Measure<'a> {
    fn of(unit: &'a Unit) -> Option<Self> {
        unit.tenths().map(|tenths| Self { unit, tenths })
    }

    /// So many tenths of a millimetre in hundredths of the unit, rounded up.
    fn up(self, tenths: i128) -> i128 {
        up(tenths * 100, i128::from(self.tenths))
    }

    /// A length in hundredths of the unit, to the nearest.
    fn nearest(self, length: Tenths) -> Hundredths {
        let by = i128::from(self.tenths);
        Hundredths(held((i128::from(length.0) * 100 + by / 2).div_euclid(by)))
    }
}

/// What is bought, of what, and what that meets.
struct Bought {
    quantity: i128,
    unit: String,
    needed: i128,
    needed_unit: Unit,
    pack: Option<Hundredths>,
    lap: Hundredths,
    lengths: Option<u64>,
}

impl Bought {
    fn each(count: i128, needed: u64, pack: Option<Hundredths>) -> Self {
        Self::of(count * 100, i128::from(needed) * 100, &Unit::Each).in_packs(pack)
    }

    /// So many hundredths of a unit for so many that are needed.
    fn of(quantity: i128, needed: i128, unit: &Unit) -> Self {
        Self {
            quantity,
            unit: unit.word().to_owned(),
            needed,
            needed_unit: unit.clone(),
            pack: None,
            lap: Hundredths(0),
            lengths: None,
        }
    }

    /// In whole packs of so many, if it is sold so.
    fn in_packs(mut self, pack: Option<Hundredths>) -> Self {
        if let Some(pack) = pack.filter(|pack| pack.0 > 0) {
            self.quantity = up(self.quantity, i128::from(pack.0)) * 100;
            self.unit = match self.needed_unit {
                Unit::Each => format!("pack of {pack}"),
                ref unit => format!("pack of {pack} {}", unit.word()),
            };
            self.pack = Some(pack);
        }
        self
    }
}

/// What a need is bought at.
#[derive(Debug, Clone, Copy)]
pub(super) struct Terms<'a> {
    /// Its price, if it has one.
    pub(super) price: Option<&'a Price>,
    /// What is added for waste.
    pub(super) waste: Percent,
    /// The waste of whole lengths, as lengths.
    pub(super) spare: u64,
    /// What a quote adds to it.
    pub(super) added: Added,
    /// What running lengths are counted in where the price doesn't say.
    pub(super) unit: &'a Unit,
}

/// The line of a need on these terms.
pub(super) fn line(need: &Need, terms: Terms<'_>) -> Result<Line, OrderError> {
    let Terms { price, waste, spare, unit, .. } = terms;
    let price_unit = price.and_then(|price| price.unit.as_ref());
    let pack = price.and_then(|price| price.pack);
    let item = &need.item;
    let wrong = |given: &Unit, wanted: &str| OrderError::Unit {
        item: item.clone(),
        given: given.word().to_owned(),
        wanted: wanted.to_owned(),
    };
    let bought = match &need.much {
        Much::Things(count) => match price_unit {
            None | Some(Unit::Each) => {
                Bought::each(up(waste.added(i128::from(*count)), 10_000), *count, pack)
            }
            Some(other) => return Err(wrong(other, "each")),
        },
        Much::Lengths { count, each } => {
            let whole = i128::from(*count) + i128::from(spare);
            match price_unit {
                None | Some(Unit::Each) => Bought::each(whole, *count, pack),
                Some(unit) => {
                    let measure = Measure::of(unit).ok_or_else(|| wrong(unit, "each, m or ft"))?;
                    let run = |count: i128| measure.up(count * i128::from(each.0));
                    let lengths = u64::try_from(whole).ok();
                    Bought { lengths, ..Bought::of(run(whole), run(i128::from(*count)), unit) }
                }
            }
        }
        Much::Running { length, lap, roll } => {
            let by_roll = matches!(price_unit, Some(Unit::Each)) && pack.is_none();
            let unit = price_unit.filter(|unit| **unit != Unit::Each).unwrap_or(unit);
            let run = Measure::of(unit).ok_or_else(|| wrong(unit, "m or ft"))?;
            let sold = match (pack, roll) {
                (Some(pack), _) => unit.length(pack).map(|roll| (roll, pack)),
                // A price by the metre is for as much as is needed, whatever the rolls.
                (None, Some(roll)) if price.is_none() || by_roll => Some((*roll, run.nearest(*roll))),
                (None, _) if by_roll => return Err(OrderError::NoRoll { item: item.clone() }),
                (None, _) => None,
            };
            running(need, (*length, *lap), waste, run, sold)?
        }
        Much::Own { quantity, unit } => {
            if let Some(other) = price_unit.filter(|other| !other.same(unit)) {
                return Err(wrong(other, unit.word()));
            }
            let quantity = i128::from(quantity.0);
            Bought::of(up(waste.added(quantity), 10_000), quantity, unit).in_packs(pack)
        }
    };
    made(need, terms, bought)
}

/// A running length, by the unit or in rolls: n rolls give n × roll − (n − 1) × lap.
fn running(
    need: &Need,
    (length, lap): (Tenths, Tenths),
    waste: Percent,
    run: Measure<'_>,
    sold: Option<(Tenths, Hundredths)>,
) -> Result<Bought, OrderError> {
    let with_waste = waste.added(i128::from(length.0));
    let needed = run.up(i128::from(length.0));
    let mut bought = Bought {
        // From the figure shown, so that it can be checked by hand; rolls are counted from the length itself.
        quantity: up(waste.added(needed), 10_000),
        unit: run.unit.word().to_owned(),
        needed,
        needed_unit: run.unit.clone(),
        pack: None,
        lap: run.nearest(lap),
        lengths: None,
    };
    if let Some((roll, shown)) = sold {
        if roll <= lap {
            return Err(OrderError::ShortRoll { item: need.item.clone(), roll, lap });
        }
        let beyond_lap = (with_waste - i128::from(lap.0) * 10_000).max(1);
        bought.quantity = up(beyond_lap, i128::from(roll.0 - lap.0) * 10_000) * 100;
        bought.unit = format!("roll of {shown} {}", run.unit.word());
        bought.pack = Some(shown);
    }
    Ok(bought)
}

fn made(need: &Need, terms: Terms<'_>, bought: Bought) -> Result<Line, OrderError> {
    let Terms { price, waste, spare, added, .. } = terms;
    let rate = price.map(|price| price.rate);
    if bought.quantity.max(bought.needed) > i128::from(MOST_QUANTITY.0) {
        return Err(OrderError::Quantity { item: need.item.clone() });
    }
    let quantity = Hundredths(held(bought.quantity));
    let amount = rate.map(|rate| amount(quantity, rate));
    if amount.is_some_and(|amount| amount > MOST_MONEY) {
        return Err(OrderError::Money { what: need.item.clone() });
    }
    let size = match (&need.size, price) {
        (Size::Any, Some(price)) => price.size.clone(),
        (size, _) => size.clone(),
    };
    Ok(Line {
        item: tidy(&need.item),
        size,
        quantity,
        unit: bought.unit,
        rate,
        amount,
        markup_percent: added.markup,
        markup: amount.zip(added.markup).map(|(amount, percent)| percent.of(amount)),
        tax_percent: added.tax,
        needed: Hundredths(held(bought.needed)),
        needed_unit: bought.needed_unit,
        waste_percent: waste,
        pack: bought.pack,
        lap: bought.lap,
        lengths: bought.lengths,
        spare: (spare > 0).then_some(spare),
        from: need.from.clone(),
        plots: vec![],
    })
}
