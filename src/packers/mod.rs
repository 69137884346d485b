//! Packers: gaps made up from what is in the van, as well as can be.
//!
//! First as many places made up as can be, then as near as can be, then as little over the gaps as can be, then the
//! fewest pieces.
//!
//! ```
//! use pegline::length::Units;
//! use pegline::packers::{CLOSE_ENOUGH, Packer, make_up};
//!
//! let van = [1.0, 2.0, 3.0, 5.0].map(|thickness| Packer { thickness, count: None });
//! let made = make_up(&[7.0, 4.0], &van, CLOSE_ENOUGH, Units::Mm)?;
//! let stack: Vec<f64> = made.stacks[0].packers.iter().map(|mm| mm.0).collect();
//! assert_eq!((stack, made.pieces, made.proven), (vec![5.0, 2.0], 4, true));
//! # Ok::<(), pegline::packers::PackersError>(())
//! ```

mod columns;
mod error;
mod grain;
mod layers;
mod make_up;
mod plenty;
mod share;
mod weights;

pub use error::PackersError;
pub(crate) use grain::Grain;
pub use make_up::{CLOSE_ENOUGH, Fetch, MOST_GAP, MakeUp, Packer, Stacked, Total, make_up};
