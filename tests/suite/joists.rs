//! Joists between two supports: the sums, against a worked example and an independent program.
#![allow(clippy::float_cmp, reason = "whole millimetres and counts are exact")]

mod by_hand;
mod openings;
mod program;
mod random;
mod refusals;

use pegline::joists::{Joists, JoistsError, Question, joists};
use pegline::length::Units;
use pegline::plan::{Footprint, Spot, parse_expression};

/// A plan with its top side on the house.
fn plan(expression: &str) -> Footprint {
    parse_expression(expression, Units::Mm).unwrap().0.with_house(&[0])
}

/// Joists of 50 at 600 from AB to sides, hung with a gap of 2, bearing 75 on walls of 100, 50 clear of them.
fn question(footprint: &Footprint, to: &str) -> Question {
    Question {
        from: vec![0],
        to: pegline::plan::parse_sides(to, footprint).unwrap(),
        hung: vec![0],
        wall: 100.0,
        bearing: 75.0,
        gap: 2.0,
        ..Question::new(600.0, 50.0, 50.0)
    }
}

fn read(footprint: &Footprint, heights: &[(&str, f64)]) -> Vec<(Spot, f64)> {
    heights.iter().map(|(at, mm)| (Spot::parse(at, footprint, Units::Mm).unwrap(), *mm)).collect()
}

fn set_out(footprint: &Footprint, question: &Question) -> Result<Joists, JoistsError> {
    joists(footprint, question, Units::Mm)
}

fn marks(answer: &Joists) -> Vec<f64> {
    answer.joists.iter().map(|joist| joist.mark.0).collect()
}
