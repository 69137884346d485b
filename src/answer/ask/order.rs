//! The order of one job or of several: asked of what the parts need, priced together.

use super::gathering::gathered;
use crate::answer::commands::{Asked, Part};
use crate::answer::error::AnswerError;
use crate::job::Job;
use crate::length::Units;
use crate::order::{self, NotOrdered, Order};

/// Said of a job without a part that needs anything: it has no options to name.
const NOTHING: &str = "there is nothing to order: give `plates`, `cuts`, `packs`, `joists`, `lines` or `order.extras` in the job file (`pegline job new` writes one)";

impl Asked for Order {
    /// Every part that something is given for is answered, unless it is among the `known`.
    fn asked(job: &Job, known: &[Part]) -> Result<Self, AnswerError> {
        made_out(&gathered(job, known)?, job.units)
    }
}

/// One order for several jobs, each with the name of its plot; and the job that it is told as. Packs and rolls are shared by
/// the plots; the timber is cut plot by plot. Prices, tax and waste are the first job's.
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
    for (place, (plot, job)) in plots.iter().enumerate() {
        let mut question = gathered(job, &[]).map_err(|error| error.of_plot(plot))?;
        for need in &mut question.needs {
            need.plot = Some(plot.clone());
        }
        remarks.extend(question.remarks.drain(..).map(|remark| (plot, remark)));
        if place == 0 {
            whole = question;
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

/// The order of what was gathered.
fn made_out(question: &order::Question, units: Units) -> Result<Order, AnswerError> {
    if question.needs.is_empty() && question.from_van.is_empty() {
        return Err(AnswerError::Missing { typed: NOTHING, in_file: NOTHING });
    }
    order::order(question).map_err(AnswerError::refused(units))
}
