//! Plates: runs, splices, anchors and the two commands, against geometry and rules from outside.

mod anchors;
mod answers;
mod bound;
mod command;
mod cuts_command;
mod runs;
mod shapes;
mod ways;
mod zones;
