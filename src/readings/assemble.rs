//! The answer put together from what was found.

use super::answer::{GlobalTest, ReadingLine, Readings, TapeAnswer, Verdict};
use super::case::Case;
use super::explained::{AgainstPlan, Explanation, Misread};
use super::figure::Figure;
use super::limit::Limit;
use super::misreads::search::Found;
use super::network::adjust::{Adjustment, distances};
use super::network::chi_square::{ALPHA_GLOBAL, critical};
use super::network::loose::loose_corners;
use super::tape_next;
use crate::geometry::{Mm, Ratio};
use crate::network::{self, DETECTABLE};
use crate::plan::corner_name;

pub(super) fn assemble(case: &Case<'_>, found: &Found) -> Readings {
    let adjusted = found.figure.as_ref();
    let mut figure = adjusted.map(|adjusted| Figure::new(case.input, adjusted)).unwrap_or_default();
    let sure = found.is_sure();
    let (verdict, rest) = verdicts(case, found, &figure);
    let too_close = if sure { figure.too_close() } else { Vec::new() };
    if !sure {
        figure.forget_verdicts();
    }
    // While a reading is likely to be wrong nothing is moved: it is taped again first.
    if !sure || !found.findings.is_empty() {
        figure.forget_moves();
    }
    let letters = |corners: &[usize]| corners.iter().map(|i| corner_name(*i).to_string()).collect::<Vec<_>>();
    let names = |indices: &[usize]| indices.iter().map(|i| case.taped[*i].name.clone()).collect::<Vec<_>>();
    let loose = if adjusted.is_some() {
        found.weak.clone()
    } else {
        loose_corners(case.plan(), &distances(&case.pick(&found.kept)))
    };
    let next = tape_next::tape_next(case, found, &too_close);
    let past_tape = case.past_tape();
    let next_names: Vec<String> = next.iter().map(|next| next.name.clone()).collect();
    Readings {
        verdict,
        rest,
        limit: case.input.limit.map(Limit::answer),
        tapes: case.input.tapes.iter().map(TapeAnswer::new).collect(),
        too_close: letters(&too_close),
        corners: figure.corners,
        angles: figure.angles,
        sides: figure.sides,
        readings: lines(case, found),
        rank: case.rank(),
        needed: network::needed(case.plan().len()),
        degrees_of_freedom: adjusted.map_or(0, |a| a.degrees_of_freedom),
        sigma0: adjusted.and_then(Adjustment::sigma0).map(Ratio),
        global_test: adjusted.and_then(global_test),
        worst_corner_sd: adjusted.map(|a| Mm(network::worst_corner_sd(&a.covariance))),
        shows: found.odds.shows.map(|(_, slip)| Mm(slip)),
        weakest: found.odds.shows.map(|(index, _)| case.taped[index].name.clone()),
        rougher: Mm(found.odds.rougher),
        explanations: found.odds.likely().iter().map(|w| Explanation::new(case, w)).collect(),
        to_size: figure.to_size,
        in_place: figure.in_place,
        after: figure.after,
        house: figure.house,
        misreads: found.findings.iter().map(|f| Misread::new(case, f)).collect(),
        other_pairs: Vec::new(),
        unchecked: names(&found.unchecked),
        no_longer_checked: names(&no_longer_checked(found)),
        against_plan: AgainstPlan::of(case.input),
        in_pulls: past_tape.iter().cloned().chain(case.next_in_pulls(&next_names)).collect(),
        past_tape,
        tape_next: next,
        through_house: names(&case.through_house()),
        loose: letters(&loose),
        folded: letters(&found.folded),
        fit: figure.fit,
        side_moves: figure.side_moves,
        moves: figure.moves,
        overhangs: figure.overhangs,
        masonry: figure.masonry,
    }
}

/// The verdict; and, with a misread, the one on the rest, where it can be said.
fn verdicts(case: &Case<'_>, found: &Found, figure: &Figure) -> (Verdict, Option<Verdict>) {
    // Enough distances, and yet no figure: they contradict each other.
    let no_figure = found.figure.is_none() && case.rank() >= network::needed(case.plan().len());
    let misread =
        !found.findings.is_empty() || found.constant.is_some() || !found.folded.is_empty() || no_figure;
    let fixed = found.figure.is_some() && found.weak.is_empty();
    let of_the_figure = if fixed { figure.verdict() } else { Verdict::NotFixed };
    if misread {
        (Verdict::Misread, (found.is_sure() || !fixed).then_some(of_the_figure))
    } else {
        (of_the_figure, None)
    }
}

/// The global test of the readings kept; nothing with none to spare.
fn global_test(adjusted: &Adjustment) -> Option<GlobalTest> {
    let limit = critical(adjusted.degrees_of_freedom, ALPHA_GLOBAL);
    (adjusted.degrees_of_freedom > 0).then_some(GlobalTest {
        statistic: Ratio(adjusted.squares),
        critical: Ratio(limit),
        alpha: Ratio(ALPHA_GLOBAL),
        passed: adjusted.squares <= limit,
    })
}

/// Observations kept that nothing checks any more, now that others are left out.
fn no_longer_checked(found: &Found) -> Vec<usize> {
    let redundancy = found.figure.iter().flat_map(|a| &a.redundancy);
    found
        .kept
        .iter()
        .zip(redundancy)
        .filter(|(index, r)| **r == 0.0 && !found.unchecked.contains(index))
        .map(|(index, _)| *index)
        .collect()
}

/// Every reading with what the adjustment says of it.
fn lines(case: &Case<'_>, found: &Found) -> Vec<ReadingLine> {
    case.taped
        .iter()
        .enumerate()
        .map(|(index, taped)| {
            let o = case.observations[index];
            let position = found.kept.iter().position(|i| *i == index);
            let adjusted = found.figure.as_ref();
            let suspect = found.findings.iter().flat_map(|f| &f.suspects).find(|s| s.index == index);
            // A reading left out is judged by the adjustment in which it was found.
            let redundancy = match (adjusted, position) {
                (Some(a), Some(p)) => Some(a.redundancy[p]),
                (_, None) => suspect.map(|s| s.redundancy),
                (None, Some(_)) => None,
            };
            let w = suspect.and_then(|s| s.w).or_else(|| adjusted.zip(position).and_then(|(a, p)| a.w[p]));
            ReadingLine {
                name: taped.name.clone(),
                tape: taped.tape + 1,
                read: Mm(taped.read),
                count: taped.count,
                spread: taped.spread.map(Mm),
                corrections: taped.corrections,
                used: Mm(o.value),
                sd: Mm(o.sd),
                residual: adjusted.map(|a| Mm(a.points[o.from].distance(a.points[o.to]) - o.value)),
                redundancy: redundancy.map(Ratio),
                w: w.map(Ratio),
                suspect: suspect.is_some(),
                left_out: position.is_none(),
                slip: suspect.map(|s| Mm(s.slip)),
                likely: suspect.and_then(|s| s.cause).map(|c| c.words(case.input.units)),
                hides: redundancy.filter(|r| *r > 0.0).map(|r| Mm(DETECTABLE * o.sd / r.sqrt())),
            }
        })
        .collect()
}
