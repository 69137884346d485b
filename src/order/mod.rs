//! Quantities and prices: what a job's parts need, priced with the user's own prices, as lines for a quote.
//!
//! A need gets its waste first, exact; then it is rounded up to whole things, to whole packs where it is sold so, or to a
//! hundredth of the metre or foot. The waste of timber is taken on all of an item, as spare lengths. That quantity × rate is rounded half up to a penny, once; the tax on the sum of the
//! lines likewise. A markup is added by line, contingency to them all, and tax may differ by line. A line without a price stays on the list and out of the totals.
//!
//! Worked example: 22 anchors with 10 % more are 24.2, so 25; in boxes of 10 that is 3 boxes; at 14.50 they are 43.50,
//! and 20 % tax makes 52.20:
//!
//! ```
//! use pegline::exact::{Hundredths, Pence, Percent, Rate};
//! use pegline::order::{Added, Much, Need, Price, Question, Size, Unit, order};
//!
//! let answer = order(&Question {
//!     needs: vec![Need {
//!         item: "anchor".to_owned(),
//!         size: Size::Any,
//!         much: Much::Things(22),
//!         from: "plates".to_owned(),
//!         own: None,
//!         plot: None,
//!     }],
//!     prices: vec![Price {
//!         item: "anchor".to_owned(),
//!         size: Size::Any,
//!         unit: Some(Unit::Each),
//!         pack: Some(Hundredths::whole(10)),
//!         rate: Rate::from(Pence(1450)),
//!         waste: Some(Percent(1000)),
//!         added: Added::default(),
//!         available: None,
//!     }],
//!     tax: Some(Percent(2000)),
//!     ..Question::default()
//! })?;
//! assert_eq!(answer.lines[0].quantity, Hundredths::whole(3));
//! assert_eq!((answer.net, answer.total), (Pence(4350), Pence(5220)));
//! # Ok::<(), pegline::order::OrderError>(())
//! ```

mod amount;
mod answer;
mod error;
mod figures;
mod items;
mod line;
mod need;
mod prices;
mod quote;
mod spare;

pub use amount::amount;
pub use answer::{
    CutBar, CutPiece, CutTogether, FromVan, Line, NotOrdered, Order, Overruled, PlotNeed, TaxAt, UnusedPrice,
};
pub use error::OrderError;
pub use figures::{MOST_MONEY, MOST_QUANTITY, Size, Unit, tidy};
pub use items::{
    ANCHOR, BEARER, BEARER_BOLT, DPC, HANGER, HEAD_BINDER, ITEMS, Item, JOIST, Kind, LINE, MASONRY_NAIL,
    PACKER, PEG, PROFILE_BOARD, STRAP, TEMPORARY_SCREW, TIMBER, WALL_PLATE,
};
pub use need::{Much, Need};
pub use prices::Price;
pub use quote::Added;

use crate::exact::{Pence, Percent, held};
use line::{Terms, line};
use need::gathered;
use prices::{Found, PriceList, key};
use quote::{Sums, sums};
use spare::spares;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// What is needed, in the order that it is to be listed.
    pub needs: Vec<Need>,
    /// What is taken from the van and is not bought.
    pub from_van: Vec<FromVan>,
    /// The user's prices.
    pub prices: Vec<Price>,
    /// What they are in.
    pub money: Option<String>,
    /// Waste by item, which stands before the price list's.
    pub waste: Vec<(String, Percent)>,
    /// The rate of tax, where a price has none of its own.
    pub tax: Option<Percent>,
    /// The markup, where a price has none of its own.
    pub markup: Option<Percent>,
    /// What is added to all lines for what can't be foreseen.
    pub contingency: Option<Percent>,
    /// What running lengths are counted in where the price doesn't say.
    pub length_unit: Unit,
    /// What nothing is ordered for.
    pub not_ordered: Vec<NotOrdered>,
    /// What to know about the quantities.
    pub remarks: Vec<String>,
    /// The plots, where it is for several.
    pub plots: Vec<String>,
    /// How the timber that is cut for all plots together is cut.
    pub cut_together: Vec<CutTogether>,
    /// Whether every line must have a price for it to be good.
    pub to_be_complete: bool,
}

impl Default for Question {
    /// Nothing needed, no prices, no tax, lengths in metres.
    fn default() -> Self {
        Self {
            needs: vec![],
            from_van: vec![],
            prices: vec![],
            money: None,
            waste: vec![],
            tax: None,
            markup: None,
            contingency: None,
            length_unit: Unit::Metre,
            not_ordered: vec![],
            remarks: vec![],
            plots: vec![],
            cut_together: vec![],
            to_be_complete: false,
        }
    }
}

/// Makes out the order.
pub fn order(question: &Question) -> Result<Order, OrderError> {
    let mut list = PriceList::new(&question.prices);
    let mut remarks = question.remarks.clone();
    let mut overruled = vec![];
    let needs = gathered(&question.needs);
    let mut terms = vec![];
    for need in needs.iter().map(|gathered| &gathered.whole) {
        let chosen_by = matches!(need.much, Much::Lengths { .. });
        // The list's price is for others of an item that has a price of its own; timber is chosen by its price.
        let found =
            if need.own.is_some() && !chosen_by { Found::Nothing } else { list.find(&need.item, &need.size) };
        let listed = match found {
            Found::Nothing => None,
            Found::One(price) => Some(price),
            Found::Several(prices) => {
                remarks.push(format!(
                    "the price list has {} sizes of {}: keep the one that is to be used",
                    prices.len(),
                    need.item
                ));
                None
            }
        };
        if let (Some(own), Some(listed)) = (&need.own, listed)
            && (own.rate != listed.rate || listed.pack.is_some())
        {
            overruled.push(Overruled {
                item: need.item.clone(),
                size: need.size.clone(),
                rate: own.rate,
                listed: listed.rate,
            });
        }
        let asked =
            question.waste.iter().find(|(item, _)| key(item) == key(&need.item)).map(|(_, percent)| *percent);
        terms.push(Terms {
            price: need.own.as_ref().or(listed),
            waste: asked.or(listed.and_then(|price| price.waste)).unwrap_or_default(),
            added: [need.own.as_ref(), listed]
                .into_iter()
                .flatten()
                .fold(Added::default(), |added, price| added.or(price.added))
                .or(Added { markup: question.markup, tax: question.tax }),
            spare: 0,
            unit: &question.length_unit,
        });
    }
    let spare = spares(needs.iter().zip(&terms).map(|(need, terms)| (&need.whole, terms.waste)));
    let mut lines = vec![];
    for ((need, terms), spare) in needs.iter().zip(terms).zip(spare) {
        let mut made = line(&need.whole, Terms { spare, ..terms })?;
        for plot in need.by_plot() {
            let needed = line(&plot, terms)?.needed;
            made.plots.push(PlotNeed { plot: plot.plot.unwrap_or_default(), needed });
        }
        lines.push(made);
    }
    totalled(question, lines, &list, overruled, remarks)
}

/// The order of these lines.
fn totalled(
    question: &Question,
    lines: Vec<Line>,
    list: &PriceList<'_>,
    overruled: Vec<Overruled>,
    remarks: Vec<String>,
) -> Result<Order, OrderError> {
    let Sums { markup, contingency, net, taxes } = sums(&lines, question.contingency, question.tax);
    let taxed = taxes.iter().map(|at| i128::from(at.tax.0)).sum();
    let tax = (!taxes.is_empty() || question.tax.is_some()).then_some(Pence(held(taxed)));
    let total = Pence(net.0.saturating_add(tax.unwrap_or_default().0));
    if total > MOST_MONEY {
        return Err(OrderError::Money { what: "the order".to_owned() });
    }
    let unpriced = lines.iter().filter(|line| line.amount.is_none()).count();
    Ok(Order {
        unpriced,
        complete: unpriced == 0,
        to_be_complete: question.to_be_complete,
        plots: question.plots.clone(),
        cut_together: question.cut_together.clone(),
        unused_prices: list.unused(&lines),
        money: question.money.clone(),
        markup,
        contingency_percent: question.contingency,
        contingency,
        net,
        tax_percent: question.tax,
        taxes,
        tax,
        total,
        from_van: question.from_van.clone(),
        overruled,
        not_ordered: question.not_ordered.clone(),
        remarks,
        lines,
    })
}
