//! All runs of a house at once, over every way round its corners.

mod answer;
mod attain;
mod by_hand;
mod cheaper;
mod column;
mod cover;
mod dive;
mod fewest;
mod laps;
mod master;
mod node;
mod one_way;
mod point;
mod price;
mod ruled;
mod site;
mod turn;
mod walk;

pub use answer::{cheapest, plan_house};
