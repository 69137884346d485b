//! The cutting engine against proven optima, a MIP solver, brute force and an independent check of every layout.

mod brute;
mod checker;
mod footprints;
mod limits;
mod made;
mod many;
mod mip;
mod published;
mod random;
mod referee;
