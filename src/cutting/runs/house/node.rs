//! Part of all the lists there may be: corners settled, runs kept together or apart.

use super::column::{Choice, Column, Goal};
use super::site::Site;

/// More choices of one class than this are too many.
const MOST_CHOICES: usize = 400;

/// What may be chosen from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Node {
    /// The ways round the corners that are settled.
    pub(super) ways: Vec<Option<bool>>,
    /// The runs still to be laid.
    pub(super) wanted: Vec<bool>,
    /// What is to be least; its limits are for the runs that are wanted.
    pub(super) goal: Goal,
    /// No run has more splices than it needs by itself.
    pub(super) own: bool,
    /// Fewest and most bars of each kind.
    pub(super) fewest: Vec<usize>,
    pub(super) most: Vec<Option<usize>>,
    /// Runs of one group, and runs of two different ones.
    pub(super) together: Vec<(usize, usize)>,
    pub(super) apart: Vec<(usize, usize)>,
}

impl Node {
    /// All lists; `own` where no run can have more splices than it needs by itself.
    pub(super) fn all(site: &Site, goal: Goal, own: bool) -> Self {
        Self {
            ways: vec![None; site.corners],
            wanted: vec![true; site.runs()],
            goal,
            own,
            fewest: vec![0; site.instance.kinds.len()],
            most: site.instance.kinds.iter().map(|kind| kind.count).collect(),
            together: vec![],
            apart: vec![],
        }
    }

    pub(super) fn lets(&self, site: &Site, column: &Column) -> bool {
        let has = |run: usize| column.shapes.iter().any(|&shape| site.run_of[shape] == run);
        column.splices <= self.goal.group
            && self.goal.allows(column.price, column.splices)
            && column
                .shapes
                .iter()
                .all(|&shape| self.wanted[site.run_of[shape]] && site.goes_with(shape, &self.ways))
            && self.together.iter().all(|&(a, b)| has(a) == has(b))
            && !self.apart.iter().any(|&(a, b)| has(a) && has(b))
            && (!self.own
                || column.splices
                    == column
                        .shapes
                        .iter()
                        .map(|&shape| site.instance.spans[shape].least_splices)
                        .sum::<usize>())
    }

    /// Whether there are bars enough for the column.
    pub(super) fn has_bars(&self, column: &Column) -> bool {
        column.counts.iter().zip(&self.most).all(|(&count, most)| most.is_none_or(|most| count <= most))
    }

    /// The runs in classes, and of each class the choices of which a group has one at most.
    pub(super) fn classes(&self, site: &Site) -> Vec<Vec<Choice>> {
        let runs = site.runs();
        let blocks = joined(runs, &self.together);
        let mut classes = vec![];
        for class in joined(runs, &[self.together.as_slice(), self.apart.as_slice()].concat()) {
            let blocks: Vec<&Vec<usize>> = blocks.iter().filter(|block| class.contains(&block[0])).collect();
            let mut chosen: Vec<Vec<usize>> = vec![vec![]];
            for block in blocks {
                let clashes = |shapes: &Vec<usize>| {
                    shapes.iter().any(|&shape| {
                        let run = site.run_of[shape];
                        let meets =
                            |a, b| (a == run && block.contains(&b)) || (b == run && block.contains(&a));
                        self.apart.iter().any(|&(a, b)| meets(a, b))
                    })
                };
                let more: Vec<Vec<usize>> = chosen
                    .iter()
                    .filter(|shapes| !clashes(shapes))
                    .flat_map(|shapes| {
                        block.iter().fold(vec![shapes.clone()], |parts, &run| {
                            let open = site.shapes[run].clone().filter(|&shape| {
                                site.instance.spans[shape].length > 0 && site.goes_with(shape, &self.ways)
                            });
                            let open: Vec<usize> = open.collect();
                            parts
                                .iter()
                                .flat_map(|part| {
                                    open.iter().map(|&shape| [part.as_slice(), &[shape]].concat())
                                })
                                .collect()
                        })
                    })
                    .collect();
                chosen.extend(more);
            }
            let wanted = |shapes: &Vec<usize>| shapes.iter().all(|&shape| self.wanted[site.run_of[shape]]);
            let chosen = chosen.into_iter().filter(|shapes| !shapes.is_empty() && wanted(shapes));
            classes.push(chosen.map(|shapes| Choice::new(site, shapes)).collect());
        }
        classes
    }

    /// Whether no class has more choices than can be looked through.
    pub(super) fn is_manageable(&self, site: &Site) -> bool {
        let all = [self.together.as_slice(), self.apart.as_slice()].concat();
        // A class of so many runs has up to five choices for each: its shapes, or none.
        joined(site.runs(), &all).iter().all(|class| class.len() <= 6)
            && self.classes(site).iter().all(|choices| choices.len() <= MOST_CHOICES)
    }
}

/// The runs in parts that hang together by these pairs.
fn joined(runs: usize, pairs: &[(usize, usize)]) -> Vec<Vec<usize>> {
    let mut part: Vec<usize> = (0..runs).collect();
    for &(a, b) in pairs {
        let (from, to) = (part[b].max(part[a]), part[a].min(part[b]));
        for part in &mut part {
            if *part == from {
                *part = to;
            }
        }
    }
    let mut parts: Vec<Vec<usize>> = vec![];
    for first in 0..runs {
        let members: Vec<usize> = (0..runs).filter(|&run| part[run] == first).collect();
        if !members.is_empty() {
            parts.push(members);
        }
    }
    parts
}
