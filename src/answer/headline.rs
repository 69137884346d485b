//! What the packing comes to, in one sentence: on its own page, and as a remark on an order.

use crate::length::Units;
use crate::packing::{Flag, PackVerdict, Packs, Station};
use crate::words::and_list;

/// Places that a first line names; the rest are counted, and stand in the table.
const MOST_NAMED: usize = 6;

/// What to do, or why it can't be done as listed.
pub(crate) fn packs_headline(answer: &Packs, units: Units) -> String {
    let places = |flag| {
        let flagged = |s: &&Station| s.flags.contains(&flag);
        let flagged = answer.stations.iter().chain(&answer.studs).filter(flagged);
        let mut names: Vec<String> = flagged.map(|s| s.name.clone()).collect();
        if names.len() > MOST_NAMED {
            let more = names.split_off(MOST_NAMED - 1).len();
            names.push(format!("{more} more places"));
        }
        and_list(&names)
    };
    match answer.verdict {
        PackVerdict::Level => "nothing to pack".to_owned(),
        PackVerdict::Pack => {
            format!("pack up to {}; level with {}", units.depth(answer.worst.0), answer.datum.name)
        }
        PackVerdict::ReadAgain => answer.read_again.as_ref().map_or_else(String::new, |again| {
            format!(
                "read {} again before anything is packed: it lies {} {} all the others, which differ by {}",
                again.name,
                units.gap(again.beyond.0.abs()),
                if again.beyond.0 < 0.0 { "below" } else { "above" },
                units.gap(again.others_spread.0)
            )
        }),
        PackVerdict::Short => match &answer.fetch {
            Some(fetch) => format!(
                "short of packers: {} more of {} make all {} places up",
                fetch.more,
                units.gap(fetch.thickness.0),
                fetch.places
            ),
            None => format!("the packers named don't make up the gap at {}", places(Flag::NotMadeUp)),
        },
        PackVerdict::OverLimit => match &answer.bed.check {
            Some(check) if !check.within => format!(
                "out of level: {} between {} and {}, over the limit of {}",
                units.gap(check.difference.0),
                check.between[0],
                check.between[1],
                units.gap(check.limit.0)
            ),
            _ => format!("over the limit at {}", places(Flag::OverLimit)),
        },
        PackVerdict::AboveDatum => format!(
            "{} above the datum {}: bring it down, or choose a higher datum",
            places(Flag::AboveDatum),
            answer.datum.name
        ),
    }
}
