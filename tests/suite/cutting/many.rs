//! More runs than one table holds, and work cut short: still layouts that can be cut, with a bound.

use std::thread;
use std::time::Duration;

use pegline::cutting::{Effort, Favour, GUARD, Problem, Rules, Run, Stock, plan_runs};
use pegline::exact::{Pence, Tenths};
use pegline::stock::effort;

use super::checker;
use super::made::Draw;
use super::random::zones;

const OBJECTIVES: [Favour; 3] = [Favour::Splices, Favour::Cost, Favour::ASplice(Pence(400))];

/// Invented runs of 2 to 12 m with panel joints and now and then a door; six lengths, the longer the dearer, and two
/// bars in the van.
pub(super) fn house(runs: usize, seed: u64, favour: Favour) -> Problem {
    let mut draw = Draw(seed);
    let runs = (0..runs).map(|place| {
        let length = draw.from(200, 1200) * 10;
        let door = (draw.from(0, 2) == 0).then(|| draw.from(600, 6000));
        Run {
            name: format!("R{place}"),
            length: Tenths::from_mm(length),
            splices: Some(zones(length, 600, door)),
        }
    });
    let prices = [(3000, 675), (3600, 810), (4200, 974), (4800, 1152), (5400, 1377), (6000, 1620)];
    let mut stock: Vec<Stock> = prices
        .iter()
        .map(|&(length, price)| Stock { length: Tenths::from_mm(length), price: Pence(price), count: None })
        .collect();
    stock.push(Stock { length: Tenths::from_mm(3600), price: Pence(0), count: Some(2) });
    Problem {
        runs: runs.collect(),
        stock,
        rules: Rules { kerf: Tenths::from_mm(3), least_piece: Tenths::from_mm(600), ..Rules::default() },
        favour,
        effort: Effort::default(),
    }
}

#[test]
fn twenty_four_and_forty_runs_are_laid_with_an_honest_gap() {
    for runs in [24, 40] {
        for favour in OBJECTIVES {
            let problem = Problem { effort: steps(1_000_000), ..house(runs, 7, favour) };
            let layout = plan_runs(&problem).unwrap();
            checker::check(&problem, &layout);
            // The van's bars cost nothing, so they are never left behind.
            let van = layout.taken.iter().find(|line| line.counted);
            assert_eq!(van.map(|line| line.count), Some(2), "{runs} runs, {favour:?}");
        }
    }
}

/// So many steps, and a clock that is no matter.
fn steps(steps: u64) -> Effort {
    Effort { steps, time: Duration::MAX }
}

/// Eight searches at once on however few cores: each gets a fraction of a core, and none gives another list.
#[test]
fn a_busy_machine_gives_the_same_list_as_an_idle_one() {
    for runs in [13, 24] {
        let problem = Problem {
            effort: Effort { steps: 200_000, ..Effort::default() },
            ..house(runs, 7, Favour::Cost)
        };
        let alone = plan_runs(&problem).unwrap();
        assert!(!alone.proven, "{runs} runs: the steps must run out for this to say anything");
        let together: Vec<_> = thread::scope(|scope| {
            let at_work: Vec<_> = (0..8).map(|_| scope.spawn(|| plan_runs(&problem))).collect();
            at_work.into_iter().map(|run| run.join().unwrap()).collect()
        });
        for layout in together {
            assert_eq!(layout.unwrap(), alone, "{runs} runs: the same input, another list");
        }
    }
}

/// However much is asked, the steps taken stay near those allowed: what the first tables take is all that is over.
#[test]
fn the_steps_allowed_are_kept_to() {
    // 3^9 / 2 ways to part a block's nine runs, and as many shares of the van's bars, each a fraction of a step.
    const TABLES: u64 = 500_000;
    for runs in [24, 60] {
        for allowed in [0, 100_000, 600_000] {
            let problem = Problem { effort: steps(allowed), ..house(runs, 11, Favour::Cost) };
            let layout = plan_runs(&problem).unwrap();
            assert!(layout.steps <= allowed + TABLES, "{runs} runs: {} of {allowed} steps", layout.steps);
        }
    }
}

/// The clock stands far behind the steps: a step takes a fraction of a microsecond.
#[test]
fn the_clock_is_the_last_stop() {
    for seconds in [0.0, 0.05, 5.0, 3600.0] {
        let effort = effort(seconds).unwrap();
        let meant = effort.steps as f64 * 0.1e-6;
        assert!(effort.time.as_secs_f64() >= meant * GUARD * 0.999, "{seconds} s: {effort:?}");
    }
}

/// Seventeen lengths in the van, one of each: 3^17 ways to share them out, too many to list.
#[test]
fn a_van_full_of_different_lengths_is_no_hang() {
    let mut problem = house(2, 3, Favour::Cost);
    for place in 0..17 {
        problem.stock.push(Stock {
            length: Tenths::from_mm(1500 + 137 * place),
            price: Pence(0),
            count: Some(1),
        });
    }
    problem.effort = steps(100_000);
    checker::check(&problem, &plan_runs(&problem).unwrap());
}

#[test]
fn a_plate_and_its_binder_of_seven_runs_each_are_proven_in_one_table() {
    let problem = house(14, 3, Favour::Splices);
    let layout = plan_runs(&problem).unwrap();
    checker::check(&problem, &layout);
    assert!(layout.proven);
}

#[test]
fn without_steps_or_time_there_is_still_a_layout() {
    for effort in
        [Effort { steps: 0, ..Effort::default() }, Effort { time: Duration::ZERO, ..Effort::default() }]
    {
        for runs in [5, 11, 30] {
            for favour in OBJECTIVES {
                let problem = Problem { effort, ..house(runs, 5, favour) };
                checker::check(&problem, &plan_runs(&problem).unwrap());
            }
        }
    }
}

#[test]
fn a_price_for_a_splice_gives_a_list_between_the_two_ends() {
    let [fewest, cheapest, between] = [Favour::Splices, Favour::Cost, Favour::ASplice(Pence(400))]
        .map(|favour| plan_runs(&house(8, 2, favour)).unwrap());
    assert!(fewest.splices <= between.splices && between.splices <= cheapest.splices);
    assert!(cheapest.cost <= between.cost && between.cost <= fewest.cost);
    assert!(fewest.splices < cheapest.splices);
}
