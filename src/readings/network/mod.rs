//! Distances adjusted: least squares, what stays loose, and the distributions that its tests are held to.

pub(super) mod adjust;
pub(super) mod chi_square;
pub(super) mod loose;
mod normal;
pub(super) mod observation;
