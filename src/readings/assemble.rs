//! The answer put together from what was found.

use super::answer::{
    AgainstPlan, Explains, Explanation, GlobalTest, Misread, ReadingLine, Readings, SuspectReading,
    TapeAnswer, Verdict,
};
use super::case::Case;
use super::figure::Figure;
use super::judge::odds::{Weighed, Why};
use super::limit::Limit;
use super::misreads::cause::off_words;
use super::misreads::finding::{Finding, Suspect};
use super::misreads::search::Found;
use super::network::adjust::{Adjustment, distances};
use super::network::chi_square::{ALPHA_GLOBAL, critical};
use super::network::loose::loose_corners;
use super::tape_next;
use crate::geometry::{Mm, Ratio};
use crate::network::{self, DETECTABLE};
use crate::plan::corner_name;
use crate::words::and_list;

pub(super) fn assemble(case: &Case<'_>, found: &Found) -> Readings {
    let figure = found.figure.as_ref().map(|adjusted| Figure::new(case.input, adjusted)).unwrap_or_default();
    let sure = found.is_sure();
    // While a reading is likely to be wrong nothing is moved: it is taped again first.
    let moves = sure && found.findings.is_empty();
    // Enough distances, and yet no figure: they contradict each other.
    let no_figure = found.figure.is_none() && case.rank() >= network::needed(case.plan().len());
    let misread =
        !found.findings.is_empty() || found.constant.is_some() || !found.folded.is_empty() || no_figure;
    let verdict = if misread {
        Verdict::Misread
    } else if found.figure.is_none() || !found.weak.is_empty() {
        Verdict::NotFixed
    } else {
        figure.verdict()
    };
    let rest = if verdict != Verdict::Misread {
        None
    } else if found.figure.is_none() || !found.weak.is_empty() {
        Some(Verdict::NotFixed)
    } else {
        sure.then(|| figure.verdict())
    };
    let too_close = if sure { figure.too_close() } else { Vec::new() };
    let letters = |corners: &[usize]| corners.iter().map(|i| corner_name(*i).to_string()).collect::<Vec<_>>();
    let names = |indices: &[usize]| indices.iter().map(|i| case.taped[*i].name.clone()).collect::<Vec<_>>();
    let adjusted = found.figure.as_ref();
    let loose = if adjusted.is_some() {
        found.weak.clone()
    } else {
        loose_corners(case.plan(), &distances(&case.pick(&found.kept)))
    };
    let next = tape_next::tape_next(case, found, &too_close);
    let past_tape = case.past_tape(&next);
    Readings {
        verdict,
        rest,
        tape_next: next,
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
        global_test: adjusted.filter(|a| a.degrees_of_freedom > 0).map(|a| {
            let limit = critical(a.degrees_of_freedom, ALPHA_GLOBAL);
            GlobalTest {
                statistic: Ratio(a.squares),
                critical: Ratio(limit),
                alpha: Ratio(ALPHA_GLOBAL),
                passed: a.squares <= limit,
            }
        }),
        worst_corner_sd: adjusted.map(|a| Mm(network::worst_corner_sd(&a.covariance))),
        shows: found.odds.shows.map(|(_, slip)| Mm(slip)),
        weakest: found.odds.shows.map(|(index, _)| case.taped[index].name.clone()),
        rougher: Mm(found.odds.rougher),
        explanations: found.odds.likely().iter().map(|w| explanation(case, w)).collect(),
        to_size: figure.to_size.filter(|_| sure),
        in_place: figure.in_place.filter(|_| sure),
        after: figure.after.filter(|_| moves),
        house: if moves { figure.house } else { Vec::new() },
        misreads: found.findings.iter().map(|f| misread_answer(case, f)).collect(),
        other_pairs: Vec::new(),
        unchecked: names(&found.unchecked),
        no_longer_checked: names(&no_longer_checked(found)),
        against_plan: AgainstPlan {
            built_within: Mm(case.input.built_within),
            suspects: Vec::new(),
            rivals: Vec::new(),
            tape_again: Vec::new(),
        },
        past_tape,
        through_house: names(&case.through_house()),
        loose: letters(&loose),
        folded: letters(&found.folded),
        fit: figure.fit.filter(|_| moves),
        side_moves: if moves { figure.side_moves } else { Vec::new() },
        moves: if moves { figure.moves } else { Vec::new() },
        overhangs: if moves { figure.overhangs } else { Vec::new() },
        masonry: figure.masonry.filter(|_| sure),
    }
}

fn explanation(case: &Case<'_>, weighed: &Weighed) -> Explanation {
    let units = case.input.units;
    let names = |indices: &[usize]| indices.iter().map(|i| case.taped[*i].name.clone()).collect::<Vec<_>>();
    let mut told = Explanation {
        what: Explains::Nothing,
        lines: Vec::new(),
        tape: None,
        size: None,
        odds: Ratio(weighed.odds),
        held_on: None,
        says: "nothing is wrong".to_owned(),
        add: None,
    };
    match &weighed.why {
        Why::Nothing => {}
        Why::Wrong(wrong) => {
            told.what = Explains::Wrong;
            told.lines = names(wrong);
            told.size = weighed.off.first().filter(|_| wrong.len() == 1).map(|(slip, _)| Mm(*slip));
            told.says = told.size.map_or_else(
                || format!("{} are wrong", and_list(&told.lines)),
                |slip| format!("{} is {}", told.lines[0], off_words(slip.0, units)),
            );
        }
        Why::Exchanged(both) => {
            told.what = Explains::Exchanged;
            told.lines = names(both);
            told.says = format!("{} are written against each other's name", and_list(&told.lines));
        }
        Why::Constant { tape, length } => {
            told.what = Explains::Every;
            told.tape = tape.map(|tape| tape + 1);
            told.size = Some(Mm(*length));
            let of = ["", " of the first tape", " of the second tape"][told.tape.unwrap_or(0).min(2)];
            told.says = format!("every reading{of} is {}", off_words(*length, units));
            let held = |tape: usize| case.input.tapes[tape].held_on + length;
            told.held_on = Some(Mm(held(tape.unwrap_or(0))));
            let option = |tape: usize| {
                let option = if tape == 0 { "--held-on" } else { "--second-held-on" };
                (held(tape) > 0.0).then(|| format!("{option} {}", units.typed(held(tape))))
            };
            let all = 0..case.input.tapes.len();
            let add: Vec<String> =
                all.filter(|i| tape.is_none_or(|tape| tape == *i)).filter_map(option).collect();
            told.add = (!add.is_empty()).then(|| add.join(" "));
        }
    }
    told
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

fn misread_answer(case: &Case<'_>, finding: &Finding) -> Misread {
    let name = finding.chosen.map(|i| case.taped[finding.suspects[i].index].name.clone());
    let mut tied: Vec<SuspectReading> = finding.suspects.iter().map(|s| suspect_answer(case, s)).collect();
    // The one named first, then by the alphabet.
    tied.sort_by_key(|t| (name.as_ref() != Some(&t.name), t.name.clone()));
    Misread { name, w: Ratio(finding.w), tied, settled_by: finding.settled_by, rivals: Vec::new() }
}

fn suspect_answer(case: &Case<'_>, suspect: &Suspect) -> SuspectReading {
    SuspectReading {
        name: case.taped[suspect.index].name.clone(),
        slip: Mm(suspect.slip),
        slip_sd: Mm(suspect.slip_sd),
        likely: suspect.cause.map(|c| c.words(case.input.units)),
        passes: true,
    }
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
