//! The cutting engine: which bars to take and where to cut them, with a bound that proves it.
//!
//! [`plan_runs`] chooses splice positions and stock together; [`cut_pieces`] cuts pieces that stay whole. Everything is a whole number: lengths in tenths of
//! a millimetre, money in pence.
//!
//! # Bound
//!
//! Draw runs and bars as nodes and each piece as an edge between its run and its bar. A connected part with
//! R runs and B bars has at least R + B − 1 pieces, so at least B − 1 splices and, each bar losing a kerf per piece
//! but one, at least R − 1 kerfs. The cheapest B bars that cover that much timber bound the part's cost; the least
//! total over all partitions of the runs bounds every layout.
//!
//! ```
//! use pegline::cutting::{Effort, PieceList, Rules, Stock, Wanted, cut_pieces};
//! use pegline::exact::{Pence, Tenths};
//!
//! let metres = |mm, price| Stock { length: Tenths::from_mm(mm), price: Pence(price), count: None };
//! let cutting = cut_pieces(&PieceList {
//!     pieces: vec![Wanted { length: Tenths::from_mm(2350), count: 2 }, Wanted { length: Tenths::from_mm(900), count: 1 }],
//!     stock: vec![metres(3600, 1080), metres(4800, 1560)],
//!     rules: Rules { kerf: Tenths::from_mm(3), ..Rules::default() },
//!     effort: Effort::default(),
//! })?;
//! // 2350 + 900 out of one length of 3600, 2350 out of another: 21.60. Nothing is cheaper.
//! assert_eq!((cutting.cost, cutting.proven), (Pence(2160), true));
//! # Ok::<(), pegline::cutting::Error>(())
//! ```

mod cut_list;
mod effort;
mod error;
mod kinds;
mod layout;
mod model;
mod pieces;
mod rest;
mod runs;
mod shuffle;
mod simplex;
mod spare;
mod watch;

pub use cut_list::{CutList, MAX_LENGTHS, MAX_PIECES, PieceList, Wanted, cut_pieces};
pub use error::Error;
pub use layout::{Bar, Bound, Choice, Cut, Gap, HousePlan, Layout, Piece, RunCut, Taken};
pub use model::{
    Effort, Favour, GUARD, House, MAX_BARS, MAX_LENGTH, MAX_RUNS, MAX_STOCK, Problem, Rules, Run, Shape,
    Stock,
};
pub use rest::LEAST_REST;
pub use runs::{cheapest, plan_house, plan_runs};
pub use watch::{Standing, watch};
