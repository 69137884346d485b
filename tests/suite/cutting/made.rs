//! Harder lists made in the published ways: uniform lengths, and triplets whose optimum is known by construction.

use pegline::cutting::{Effort, PieceList, Rules, Stock, Wanted, cut_pieces};
use pegline::exact::{Pence, Tenths};

use super::checker;

/// A small linear congruential generator, so that the lists are the same for ever.
/// Source of the multiplier: Knuth, The Art of Computer Programming 2 (MMIX), from memory.
pub(super) struct Draw(pub(super) u64);

impl Draw {
    pub(super) fn from(&mut self, least: i64, most: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        least + i64::try_from((self.0 >> 33) % u64::try_from(most - least + 1).unwrap()).unwrap()
    }
}

fn list(stock: &[(i64, i64)], lengths: &[i64], kerf: i64) -> PieceList {
    PieceList {
        pieces: lengths.iter().map(|&length| Wanted { length: Tenths(length), count: 1 }).collect(),
        stock: stock
            .iter()
            .map(|&(length, price)| Stock { length: Tenths(length), price: Pence(price), count: None })
            .collect(),
        rules: Rules { kerf: Tenths(kerf), ..Rules::default() },
        effort: Effort::default(),
    }
}

/// Made as the published uniform class is: 120 pieces of 20 to 100 from bars of 150.
#[test]
fn uniform_lists_are_proven() {
    for seed in 0..20 {
        let mut draw = Draw(seed);
        let lengths: Vec<i64> = (0..120).map(|_| draw.from(20, 100)).collect();
        let list = list(&[(150, 1)], &lengths, 0);
        let answer = cut_pieces(&list).unwrap();
        checker::check_pieces(&list, &answer);
        assert!(answer.proven, "list {seed}: {} against {}", answer.cost, answer.bound);
    }
}

/// Made as the published triplet class is: 20 bars of 1000, each cut into three without waste, so 20 is the optimum and the
/// bound; then with a few pieces one shorter, so that the bars are not quite full.
#[test]
fn triplets_meet_the_optimum_that_they_are_made_with() {
    for seed in 0..20 {
        let mut draw = Draw(seed);
        let mut lengths = Vec::new();
        for _ in 0..20 {
            let first = draw.from(380, 490);
            let second = draw.from(250, (1000 - first) / 2);
            lengths.extend([first, second, 1000 - first - second]);
        }
        for shorter in [0, 3] {
            lengths[..shorter].iter_mut().for_each(|length| *length -= 1);
            let list = list(&[(1000, 1)], &lengths, 0);
            let answer = cut_pieces(&list).unwrap();
            checker::check_pieces(&list, &answer);
            assert_eq!((answer.cost, answer.bound), (Pence(20), Pence(20)), "list {seed}, {shorter} shorter");
        }
    }
}

/// Invented: a joiner's list from six lengths, the longer the dearer by the metre.
#[test]
fn lists_from_six_priced_lengths_are_proven() {
    let stock: Vec<(i64, i64)> = [60000, 54000, 48000, 42000, 36000, 30000]
        .into_iter()
        .map(|length: i64| (length, length / 100 * (70 + length / 1000) / 50))
        .collect();
    for seed in 0..10 {
        let mut draw = Draw(seed);
        let mut lengths = Vec::new();
        for _ in 0..10 {
            let length = draw.from(30, 400) * 100;
            let count = draw.from(1, 7);
            lengths.extend((0..count).map(|_| length));
        }
        let list = list(&stock, &lengths, 30);
        let answer = cut_pieces(&list).unwrap();
        checker::check_pieces(&list, &answer);
        assert!(answer.proven, "list {seed}: {} against {}", answer.cost, answer.bound);
    }
}
