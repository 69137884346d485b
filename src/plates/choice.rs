//! The choice between few splices and little money, looked for when it is first asked for: who only cuts doesn't wait for it.

use std::cmp::Reverse;
use std::sync::OnceLock;

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use crate::cutting::{self, Favour, House, HousePlan, cheapest};
use crate::exact::int;
use crate::stock::{Cost, Timber};

/// The choice between few splices and little money.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Choice {
    /// The two ends of the choice between few splices and little money.
    pub ends: Ends,
    /// The steps of that choice, as far as was looked: with each, more splices and less money than before.
    pub choices: Vec<SplicesForMoney>,
    /// How many splices the step has where the saving falls off most; none where there are fewer than three steps.
    pub knee: Option<usize>,
}

/// One end of the choice between few splices and little money.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct ChoiceEnd {
    /// Number of splices.
    pub splices: usize,
    /// What the bars cost.
    pub cost: Cost,
    /// Whether both are proven best for this end.
    pub proven: bool,
}

/// A step of the choice between few splices and little money.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema, Serialize)]
pub struct SplicesForMoney {
    /// Number of splices.
    pub splices: usize,
    /// The least cost found with so many.
    pub cost: Cost,
    /// Whether none with so many costs less.
    pub proven: bool,
}

/// Both ends of that choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
pub struct Ends {
    /// The fewest splices, and the least cost with them.
    pub fewest_splices: ChoiceEnd,
    /// The least cost, and the fewest splices with it.
    pub cheapest: ChoiceEnd,
}

/// What more splices than a list has, or fewer, would cost: the [`Choice`], once it is asked for.
#[derive(Debug, Clone)]
pub struct MoreSplices {
    timber: Timber,
    plan: HousePlan,
    /// What the list was laid for.
    favour: Favour,
    /// The same runs, to be laid with the cost first.
    house: House,
    found: OnceLock<Choice>,
}

impl MoreSplices {
    pub(super) const fn new(timber: Timber, plan: HousePlan, favour: Favour, house: House) -> Self {
        Self { timber, plan, favour, house, found: OnceLock::new() }
    }

    /// The choice, as far as it is seen with a part of the work that the list was given.
    pub fn choice(&self) -> &Choice {
        self.found.get_or_init(|| self.look())
    }

    fn look(&self) -> Choice {
        let plan = &self.plan;
        // A list that costs as little as the timber can is the cheapest itself.
        let is_cheapest = self.favour == Favour::Cost || plan.layout.cost == plan.least;
        let cheapest = if is_cheapest { None } else { cheapest(&self.house, &plan.choices).ok() };
        let cheapest = cheapest.as_ref().filter(|other| other.layout.cost < plan.layout.cost).unwrap_or(plan);
        let step = |choice: &cutting::Choice| SplicesForMoney {
            splices: choice.splices,
            cost: self.timber.cost(choice.cost),
            proven: choice.cost == choice.bound,
        };
        // A splice more that saves nothing is no step.
        let mut choices: Vec<SplicesForMoney> = vec![];
        for choice in plan.choices.iter().chain(&cheapest.choices).map(step) {
            if choices.iter().all(|known| known.splices < choice.splices && known.cost > choice.cost) {
                choices.push(choice);
            }
        }
        let end = |plan: &HousePlan| ChoiceEnd {
            splices: plan.layout.splices,
            cost: self.timber.cost(plan.layout.cost),
            proven: plan.layout.proven,
        };
        let first = choices.first().filter(|_| self.favour != Favour::Splices);
        let fewest_splices = first.map_or_else(
            || end(plan),
            |first| ChoiceEnd { splices: first.splices, cost: first.cost, proven: first.proven },
        );
        let cheapest = end(cheapest);
        if choices.last().is_none_or(|last| last.cost > cheapest.cost) {
            let ChoiceEnd { splices, cost, proven } = cheapest;
            choices.push(SplicesForMoney { splices, cost, proven });
        }
        Choice { ends: Ends { fewest_splices, cheapest }, knee: knee(&choices), choices }
    }
}

impl PartialEq for MoreSplices {
    fn eq(&self, other: &Self) -> bool {
        self.choice() == other.choice()
    }
}

/// As the choice.
impl Serialize for MoreSplices {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.choice().serialize(serializer)
    }
}

/// The step that lies furthest below a straight line from the first to the last: where the saving falls off most.
fn knee(choices: &[SplicesForMoney]) -> Option<usize> {
    let (first, last) = (choices.first()?, choices.last()?);
    let over = |step: &SplicesForMoney| int(step.splices - first.splices);
    // Twice the triangle that the step makes with both ends: whole numbers, and the widest is the furthest below.
    let below = |step: &SplicesForMoney| {
        let fall = |to: &SplicesForMoney| first.cost.amount() - to.cost.amount();
        fall(step) * over(last) - fall(last) * over(step)
    };
    let inner = choices.get(1..choices.len() - 1)?.iter().filter(|step| below(step) > 0);
    inner.max_by_key(|step| (below(step), Reverse(step.splices))).map(|step| step.splices)
}
