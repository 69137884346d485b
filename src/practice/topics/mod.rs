//! A file a topic: how its questions are drawn. Each gives nothing when what it drew makes no fair question (an answer
//! near a rounding edge, two right answers, a size that doesn't fit); then the next numbers of the stream are taken.

mod angle;
mod corners;
mod diagonals;
mod ground;
mod heights;
mod joists;
mod lines;
mod misread;
mod packs;
mod plates;
mod posed;
mod readings;
mod straight;

use super::question::Question;
use super::random::Random;
use super::scale::Scale;
use super::topic::{Level, Topic};

/// The next question of a topic, not numbered yet.
pub(super) fn question(topic: Topic, random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    match topic {
        Topic::Diagonals => diagonals::question(random, level, scale),
        Topic::Corners => corners::question(random, level, scale),
        Topic::Plates => plates::question(random, level, scale),
        Topic::Packs => packs::question(random, level, scale),
        Topic::Heights => heights::question(random, level, scale),
        Topic::Misread => misread::question(random, level, scale),
        Topic::Lines => lines::question(random, level, scale),
        Topic::Straight => straight::question(random, level, scale),
        Topic::Readings => readings::question(random, level, scale),
        Topic::Joists => joists::question(random, level, scale),
        // A sheet of mixed questions asks for one topic at a time.
        Topic::Mixed => None,
    }
}
