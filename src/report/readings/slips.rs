//! The first few of a list, what a figure is within, and odds.

use crate::length::Units;

/// The first few of a list, and how many more there are.
pub(super) fn few(items: &[String], most: usize) -> Vec<String> {
    if items.len() <= most + 1 {
        return items.to_vec();
    }
    let mut few = items[..most].to_vec();
    few.push(format!("{} more", items.len() - most));
    few
}

/// The whole step of the tape that `mm` is within: `4 mm`.
pub(super) fn within(mm: f64, units: Units) -> String {
    let step = units.tape_step();
    // What is printed to the step is not to be called a step more for the last bit of its sum.
    units.short(((mm.abs() / step - 1e-6).ceil().max(1.0)) * step)
}

/// How likely something is, in odds: `3 to 1`, `3 to 2`, `even`, `1 to 5`.
pub(super) fn odds(likely: f64) -> String {
    let ratio = |of: f64| of / (1.0 - of).max(1e-9);
    let (more, less) = (ratio(likely), ratio(1.0 - likely));
    let whole =
        |ratio: f64| if ratio > MOST_ODDS { format!("over {MOST_ODDS}") } else { format!("{ratio:.0}") };
    match more {
        _ if more >= 1.75 => format!("{} to 1", whole(more)),
        _ if less >= 1.75 => format!("1 to {}", whole(less)),
        _ if more >= 1.25 => "3 to 2".to_owned(),
        _ if less >= 1.25 => "2 to 3".to_owned(),
        _ => "even".to_owned(),
    }
}

/// Odds past this are as good as any.
const MOST_ODDS: f64 = 99.0;

#[cfg(test)]
mod tests {
    use super::odds;

    #[test]
    fn odds_are_said_in_small_whole_numbers() {
        let said = [0.0, 0.05, 0.25, 0.4, 0.5, 0.6, 0.75, 0.86, 0.999].map(odds);
        assert_eq!(
            said,
            [
                "1 to over 99",
                "1 to 19",
                "1 to 3",
                "2 to 3",
                "even",
                "3 to 2",
                "3 to 1",
                "6 to 1",
                "over 99 to 1"
            ]
        );
    }
}
