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
    cut(question.pieces.clone(), &question.timber, question.seconds, |_| String::new())
}

/// Cuts pieces that have names, such as the plates of several plots, from the same bars: what is left of one serves for
/// another. `named` are the names and lengths.
///
/// ```
/// use pegline::cuts::cut_together;
/// use pegline::exact::Tenths;
/// use pegline::stock::{ForSale, Timber};
///
/// let for_sale = vec![ForSale { length: Tenths::from_mm(3000), price: None, count: None }];
/// let plots = ["Plot 1 AB", "Plot 2 AB"].map(|name| (name.to_owned(), Tenths::from_mm(1400)));
/// let answer = cut_together(&plots, &Timber { for_sale, ..Timber::default() }, 1.0)?;
/// assert_eq!(answer.bars.len(), 1);
/// assert_eq!(answer.bars[0].pieces[1].name, "Plot 2 AB");
/// # Ok::<(), pegline::cutting::Error>(())
/// ```
pub fn cut_together(
    named: &[(String, Tenths)],
    timber: &Timber,
    seconds: f64,
) -> Result<Cuts, cutting::Error> {
    let mut lengths: Vec<Tenths> = named.iter().map(|(_, length)| *length).collect();
    lengths.sort_unstable();
    lengths.dedup();
    let of = |length: Tenths| named.iter().filter(move |piece| piece.1 == length);
    let pieces = lengths.iter().map(|&length| Wanted { length, count: of(length).count() });
    cut(pieces.collect(), timber, seconds, |cut| {
        of(cut.length).nth(cut.piece).map(|(name, _)| name.clone()).unwrap_or_default()
    })
}

fn cut(
    pieces: Vec<Wanted>,
    timber: &Timber,
    seconds: f64,
    name: impl Fn(&cutting::Cut) -> String,
) -> Result<Cuts, cutting::Error> {
    let list = cut_pieces(&PieceList {
        pieces,
        stock: timber.stock(),
        rules: timber.rules(Tenths(0)),
        effort: effort(seconds)?,
    })?;
    let bars = timber.bars(&list.bars, name);
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
