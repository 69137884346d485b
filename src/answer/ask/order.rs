//! The order of one job or of several: asked of what the parts need, priced together.

use super::gathering::gathered;
use super::lot::{Lot, is_cut};
use crate::answer::commands::{Asked, Part};
use crate::answer::error::AnswerError;
use crate::cutting;
use crate::job::Job;
use crate::length::Units;
use crate::order::{self, CutTogether, Much, Need, NotOrdered, Order, Price};

/// Said of a job without a part that needs anything: it has no options to name.
const NOTHING: &str = "there is nothing to order: give `plates`, `cuts`, `packs`, `joists`, `lines` or `order.extras` in the job file (`pegline job new` writes one)";

impl Asked for Order {
    /// Every part that something is given for is answered, unless it is among the `known`.
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        made_out(&gathered(job, known)?.question, job.units)
    }
}

/// One order for several jobs, each with the name of its plot; and the job that it is told as. Packs and rolls are shared by
/// the plots; the timber is cut plot by plot, or together where the first job asks for that. Prices, tax and waste are the
/// first job's.
pub fn order_of_plots(plots: &[(String, Job)]) -> Result<(Job, Order), AnswerError> {
    let Some((_, first)) = plots.first() else {
        return Err(AnswerError::Missing { typed: NOTHING, in_file: NOTHING });
    };
    let names: Vec<String> = plots.iter().map(|(plot, _)| plot.clone()).collect();
    let mut head = Job {
        name: Some(names.join(", ")),
        expression: None,
        footprint: None,
        doubts: vec![],
        ..first.clone()
    };
    let mut whole = order::Question::default();
    let mut remarks: Vec<(&String, String)> = vec![];
    let mut lots = vec![];
    let mut at_the_merchant = first.order.prices.clone();
    for (place, (plot, job)) in plots.iter().enumerate() {
        let mut job = job.clone();
        if job.order.prices == first.order.prices {
            job.order.prices.clone_from(&at_the_merchant);
        }
        let gathering = gathered(&job, &[]).map_err(|error| error.of_plot(plot))?;
        lots.extend(gathering.lots.into_iter().map(|lot| lot.of_plot(plot)));
        let mut question = gathering.question;
        bought(&mut at_the_merchant, &question.needs);
        for need in &mut question.needs {
            need.plot = Some(plot.clone());
        }
        remarks.extend(question.remarks.drain(..).map(|remark| (plot, remark)));
        if place == 0 {
            whole = question;
            whole.prices.clone_from(&first.order.prices);
        } else {
            whole.needs.append(&mut question.needs);
            whole.from_van.append(&mut question.from_van);
            let new = question.not_ordered.into_iter().filter(|part| !whole.not_ordered.contains(part));
            let new: Vec<NotOrdered> = new.collect();
            whole.not_ordered.extend(new);
        }
        head.doubts.extend(job.doubts.iter().cloned());
    }
    // What is said of every plot is said once.
    for (plot, remark) in &remarks {
        let of_all = remarks.iter().filter(|(_, other)| other == remark).count() >= plots.len();
        let words = if of_all { remark.clone() } else { format!("{plot}: {remark}") };
        if !whole.remarks.contains(&words) {
            whole.remarks.push(words);
        }
    }
    if first.order.cut_together {
        cut_together(&mut whole, &lots).map_err(AnswerError::refused(head.units))?;
    }
    // The lengths of an item stand together, whichever plot needs them first.
    let items: Vec<String> = whole.needs.iter().map(|need| need.item.clone()).collect();
    whole.needs.sort_by_key(|need| items.iter().position(|item| *item == need.item));
    if let Some((plot, _)) = plots.iter().find(|(_, job)| job.order.prices != first.order.prices) {
        whole.remarks.push(format!("{plot} has another price list: the first plot's is taken for all"));
    }
    whole.plots = names;
    let order = made_out(&whole, head.units)?;
    Ok((head, order))
}

/// Takes what is bought out of what the merchant has.
fn bought(prices: &mut [Price], needs: &[Need]) {
    for need in needs {
        let Much::Lengths { count, .. } = need.much else { continue };
        let listed = prices.iter_mut().find(|price| price.item == need.item && price.size.same(&need.size));
        if let Some(left) = listed.and_then(|price| price.available.as_mut()) {
            *left = left.saturating_sub(usize::try_from(count).unwrap_or(usize::MAX));
        }
    }
}

/// Cuts what the plots need of each part together, wherever that costs less.
fn cut_together(whole: &mut order::Question, lots: &[Lot]) -> Result<(), cutting::Error> {
    for part in ["plates", "cuts", "joists"] {
        let of_part: Vec<Lot> = lots.iter().filter(|lot| lot.from == part).cloned().collect();
        if of_part.len() < 2 {
            continue;
        }
        let cut = Lot::together(of_part)?;
        if cut.iter().all(|(_, together)| together.is_none()) {
            whole.cut_together.push(CutTogether::in_vain(part));
            continue;
        }
        let by_plot = |item: &str, from: &str| from == part && is_cut(item);
        let place = whole.needs.iter().position(|need| by_plot(&need.item, &need.from)).unwrap_or(0);
        whole.needs.retain(|need| !by_plot(&need.item, &need.from));
        whole.from_van.retain(|taken| !by_plot(&taken.item, taken.from));
        let needs: Vec<Need> = cut.iter().flat_map(|(lot, _)| lot.needs(&whole.prices)).collect();
        whole.needs.splice(place..place, needs);
        for (lot, together) in cut {
            whole.from_van.extend(lot.in_van());
            if together.is_some() && !lot.proven {
                whole.remarks.push(format!("{part} cut together: a better list than this may exist"));
            }
            whole.cut_together.extend(together);
        }
    }
    Ok(())
}

/// The order of what was gathered.
fn made_out(question: &order::Question, units: Units) -> Result<Order, AnswerError> {
    if question.needs.is_empty() && question.from_van.is_empty() {
        return Err(AnswerError::Missing { typed: NOTHING, in_file: NOTHING });
    }
    order::order(question).map_err(AnswerError::refused(units))
}
