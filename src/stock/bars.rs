//! A length of timber and what is cut from it, as they are told.

use schemars::JsonSchema;
use serde::Serialize;

use crate::exact::Tenths;

/// A piece as it lies on a bar.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
pub struct BarPiece {
    /// What is written on it.
    pub name: String,
    /// Length to cut, mm.
    pub length: Tenths,
}

/// One length of timber and what is cut from it.
#[derive(Debug, Clone, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Bar {
    /// Its number on the page, from 1.
    pub number: usize,
    /// Its length as bought, mm.
    pub stock: Tenths,
    /// Whether it comes from the van.
    pub in_van: bool,
    /// Its pieces in cutting order.
    pub pieces: Vec<BarPiece>,
    /// What is left in the hand after the last saw cut, mm: the length less the trim, the pieces and a kerf after each.
    pub offcut: Tenths,
}
