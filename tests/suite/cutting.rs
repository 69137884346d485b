//! The cutting engine against proven optima, a MIP solver, brute force and an independent check of every layout.

mod brute;
mod checker;
mod footprints;
mod made;
mod published;
mod random;
mod referee;
