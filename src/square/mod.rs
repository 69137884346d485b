//! Is it square: rectangles and right triangles, check diagonals, the proof set, 3-4-5.
//!
//! ```
//! use pegline::square::{ON_SITE, primitive_triples};
//!
//! // The right triangles in whole numbers with a diagonal under 26, by Euclid's rule.
//! let found: Vec<String> = primitive_triples(26).iter().map(|triple| triple.name()).collect();
//! assert_eq!(found, ["3-4-5", "5-12-13", "8-15-17", "7-24-25"]);
//! assert!(ON_SITE.iter().any(|triple| triple.name() == "3-4-5"));
//! ```

mod angle;
mod answer;
mod corners;
mod diagonals;
mod proof;
mod rectangles;
mod taping;
mod triples;

pub use angle::{AngleError, AngleFound, Opening, angle_found};
pub use answer::{
    CalledLimit, Diagonal, Diagonals, InPulls, ProofSet, RectanglePart, SpareSet, StraightCheck, Triangle,
    Vertex,
};
pub use corners::{CornerFound, Corners, CornersQuestion, corners, longer_side};
pub use diagonals::{Options, diagonals};
pub use proof::{Called, Choice, Proof, choose_proof};
pub use rectangles::{Rectangle, rectangles};
pub use taping::taping_order;
pub use triples::{
    CornerCheck, CornerTriangle, Leg, Multiple, ON_SITE, THREE_FOUR_FIVE, Triple, corner_checks, multiples,
    neat_steps, primitive_triples,
};
