//! "Did you mean": the one rule by which a mistyped word is taken for a known one.

/// The fewest letters by which a word that breaks off is known.
const BEGINNING: usize = 3;

/// Whether `known` may have been meant by `word`, whatever the case of the letters: a slip of the keys for every three
/// letters typed, one at least (a letter left out, put in, mistaken, or two changed about), or one begins the other.
#[must_use]
pub fn is_near(word: &str, known: &str) -> bool {
    let (word, known) = (word.to_lowercase(), known.to_lowercase());
    let begins = |short: &str, long: &str| short.chars().count() >= BEGINNING && long.starts_with(short);
    let slips = (word.chars().count() / 3).max(1);
    begins(&word, &known) || begins(&known, &word) || strsim::osa_distance(&word, &known) <= slips
}

/// The known word that was meant by one that is none of them: of those that [are near](is_near), that with the fewest
/// slips, and of several the first.
#[must_use]
pub fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    let slips = |known: &str| strsim::osa_distance(&word.to_lowercase(), &known.to_lowercase());
    known.iter().copied().filter(|known| is_near(word, known)).min_by_key(|known| slips(known))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_for_every_three_letters_is_near() {
        for (word, known) in [("pegg", "peg"), ("clas", "class"), ("hosue", "house"), ("pakcres", "packers")]
        {
            assert!(is_near(word, known), "{word} {known}");
        }
        for (word, known) in [("pegg", "pad"), ("packers", "parties"), ("se", "seconds"), ("", "plan")] {
            assert!(!is_near(word, known), "{word} {known}");
        }
    }

    #[test]
    fn the_fewest_slips_are_taken_and_the_first_of_equals() {
        assert_eq!(nearest("reads", &["readings", "read"]), Some("read"));
        assert_eq!(nearest("beg", &["bag", "peg"]), Some("bag"));
        assert_eq!(nearest("limits", &["plan", "house"]), None);
    }
}
