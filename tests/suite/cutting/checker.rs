//! Is a layout one that a joiner could cut and fix? Worked out from the layout alone, with nothing of the search.

use std::collections::BTreeMap;

use pegline::cutting::{CutList, Layout, PieceList, Problem};

/// Panics with the reason if anything about the layout is wrong.
pub(super) fn check(problem: &Problem, layout: &Layout) {
    let rules = problem.rules;
    let mut on_bars: BTreeMap<usize, Vec<(usize, usize, i64)>> = BTreeMap::new();
    let mut splices = 0;
    assert_eq!(layout.runs.len(), problem.runs.len());
    for (r, (run, cut)) in problem.runs.iter().zip(&layout.runs).enumerate() {
        assert_eq!((&run.name, run.length), (&cut.name, cut.length));
        assert_eq!(cut.pieces.first().unwrap().from.0, 0);
        assert_eq!(cut.pieces.last().unwrap().to, run.length);
        let starts: Vec<i64> = cut.pieces.iter().map(|piece| piece.from.0).collect();
        for pair in cut.pieces.windows(2) {
            let at = pair[1].from.0;
            assert_eq!(pair[0].to.0, at + rules.overlap.0, "pieces of {} do not meet", run.name);
            splices += 1;
            if let Some(zones) = &run.splices {
                assert!(
                    zones.iter().any(|(from, to)| from.0 <= at && at <= to.0),
                    "splice of {} at {at} is not allowed",
                    run.name
                );
            }
        }
        // Face lengths between splices and ends, against the least piece.
        let faces: Vec<i64> = starts.iter().copied().chain([run.length.0]).collect();
        if cut.pieces.len() > 1 {
            for face in faces.windows(2) {
                assert!(face[1] - face[0] >= rules.least_piece.0, "a piece of {} is too short", run.name);
            }
        }
        for (p, piece) in cut.pieces.iter().enumerate() {
            assert_eq!(piece.length.0, piece.to.0 - piece.from.0);
            assert!(piece.length.0 > 0);
            on_bars.entry(piece.bar).or_default().push((r, p, piece.length.0));
        }
    }
    assert_eq!(layout.splices, splices);
    assert_eq!(on_bars.len(), layout.bars.len(), "a bar is taken and not used");
    let (mut bought, mut used, mut cost) = (0, 0, 0);
    let mut counts = vec![0_usize; problem.stock.len()];
    for (b, bar) in layout.bars.iter().enumerate() {
        let stock = problem.stock[bar.stock];
        assert_eq!(bar.length, stock.length);
        counts[bar.stock] += 1;
        let mut listed: Vec<(usize, usize, i64)> =
            bar.pieces.iter().map(|cut| (cut.run, cut.piece, cut.length.0)).collect();
        listed.sort_unstable();
        let pieces = &on_bars[&b];
        assert_eq!(&listed, pieces, "bar and runs disagree");
        let length: i64 = pieces.iter().map(|piece| piece.2).sum();
        let cuts = i64::try_from(pieces.len()).unwrap() - 1;
        let left = stock.length.0 - rules.trim.0 - length - cuts * rules.kerf.0;
        assert!(left >= 0, "bar {b} is overfull by {}", -left);
        assert_eq!(bar.offcut.0, in_the_hand(left, rules.kerf.0));
        bought += stock.length.0;
        used += length;
        cost += stock.price.0;
    }
    assert_eq!((layout.bought.0, layout.used.0, layout.cost.0), (bought, used, cost));
    assert_eq!(layout.waste.0, bought - used);
    for (place, stock) in problem.stock.iter().enumerate() {
        assert!(stock.count.is_none_or(|most| counts[place] <= most), "more than the van holds");
        let line = layout.taken.iter().find(|line| line.stock == place);
        assert_eq!(line.map_or(0, |line| line.count), counts[place]);
    }
    assert_eq!(layout.proven, layout.gap.is_none());
}

/// What one more cut leaves of what is over; less than the saw takes is nothing.
fn in_the_hand(over: i64, kerf: i64) -> i64 {
    if over > kerf { over - kerf } else { 0 }
}

/// The same for fixed pieces: each wanted piece is cut once, and no bar is overfull.
pub(super) fn check_pieces(list: &PieceList, answer: &CutList) {
    let mut wanted: Vec<(usize, usize, i64)> = Vec::new();
    for (place, piece) in list.pieces.iter().enumerate() {
        wanted.extend((0..piece.count).map(|count| (place, count, piece.length.0)));
    }
    let mut cut = Vec::new();
    let mut counts = vec![0_usize; list.stock.len()];
    let mut cost = 0;
    for bar in &answer.bars {
        let stock = list.stock[bar.stock];
        let length: i64 = bar.pieces.iter().map(|piece| piece.length.0).sum();
        let cuts = i64::try_from(bar.pieces.len()).unwrap() - 1;
        let left = stock.length.0 - list.rules.trim.0 - length - cuts * list.rules.kerf.0;
        assert!(left >= 0, "a bar is overfull by {}", -left);
        assert_eq!((bar.offcut.0, bar.length), (in_the_hand(left, list.rules.kerf.0), stock.length));
        cut.extend(bar.pieces.iter().map(|piece| (piece.run, piece.piece, piece.length.0)));
        counts[bar.stock] += 1;
        cost += stock.price.0;
    }
    cut.sort_unstable();
    assert!(cut == wanted, "a piece is missing or cut twice");
    assert_eq!(answer.cost.0, cost);
    for (place, stock) in list.stock.iter().enumerate() {
        assert!(stock.count.is_none_or(|most| counts[place] <= most), "more than the van holds");
        let line = answer.taken.iter().find(|line| line.stock == place);
        assert_eq!(line.map_or(0, |line| line.count), counts[place]);
    }
    assert_eq!(answer.waste.0, answer.bought.0 - answer.used.0);
    assert!(answer.bound <= answer.cost);
    assert_eq!((answer.proven, answer.gap.is_none()), (answer.bound == answer.cost, answer.proven));
}
