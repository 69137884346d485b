//! The best cut of any list of pieces, none of them spliced.
//!
//! ```
//! use pegline::cuts::{Question, cuts};
//! use pegline::cutting::Wanted;
//! use pegline::exact::Tenths;
//! use pegline::stock::{ForSale, Timber};
//!
//! let answer = cuts(&Question {
//!     pieces: vec![Wanted { length: Tenths::from_mm(900), count: 3 }],
//!     timber: Timber { for_sale: vec![ForSale { length: Tenths::from_mm(3000), price: None, count: None }], ..Timber::default() },
//!     seconds: 1.0,
//! })?;
//! // Three pieces and two saw cuts of 3 mm come out of one length.
//! assert_eq!((answer.bars.len(), answer.proven), (1, true));
//! # Ok::<(), pegline::cutting::Error>(())
//! ```

use schemars::JsonSchema;
use serde::Serialize;

use crate::cutting::{self, PieceList, Wanted, cut_pieces};
use crate::exact::Tenths;
use crate::geometry::Ratio;
use crate::stock::{
    Alike, Bar, Buy, Cost, InVanTaken, Rest, Timber, cut_order, effort, rests, waste_percent,
};

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The pieces; the same length may come more than once.
    pub pieces: Vec<Wanted>,
    /// What to cut them from.
    pub timber: Timber,
    /// How long to look, seconds.
    pub seconds: f64,
}

/// The best cut of a list of pieces.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Cuts {
    /// The lengths taken, longest first, and what is cut from each.
    pub bars: Vec<Bar>,
    /// The order to cut in: the longest first, like cuts together.
    pub cut_order: Vec<Alike>,
    /// The rests of 600 mm and more, the longest first.
    pub rests: Vec<Rest>,
    /// What to buy.
    pub buy: Vec<Buy>,
    /// What to take from the van.
    pub from_van: Vec<InVanTaken>,
    /// Total length of the bars, mm.
    pub bought: Tenths,
    /// Total length of the pieces, mm.
    pub used: Tenths,
    /// The difference in hundredths of what is bought.
    pub waste_percent: Ratio,
    /// What the bars cost: money, or metres without prices.
    pub cost: Cost,
    /// Whether the cost is in money.
    pub priced: bool,
    /// No cutting costs less.
    pub bound: Cost,
    /// Whether the cost is the bound.
    pub proven: bool,
    /// How much less the best cutting may cost; absent when proven.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<Cost>,
}

/// Cuts the pieces from the cheapest bars, with a bound on every other way.
pub fn cuts(question: &Question) -> Result<Cuts, cutting::Error> {
    let timber = &question.timber;
    let list = cut_pieces(&PieceList {
        pieces: question.pieces.clone(),
        stock: timber.stock(),
        rules: timber.rules(Tenths(0)),
        effort: effort(question.seconds)?,
    })?;
    let bars = timber.bars(&list.bars, |_| String::new());
    Ok(Cuts {
        cut_order: cut_order(&bars),
        rests: rests(&bars),
        bars,
        buy: timber.buy(&list.taken),
        from_van: timber.from_van(&list.taken),
        bought: list.bought,
        used: list.used,
        waste_percent: Ratio(waste_percent(list.bought, list.used)),
        cost: timber.cost(list.cost),
        priced: timber.priced(),
        bound: timber.cost(list.bound),
        proven: list.proven,
        gap: list.gap.map(|gap| timber.cost(gap)),
    })
}
