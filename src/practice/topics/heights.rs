//! From the existing wall head to the panel, the stud and the ceiling; at level 3 also back from a wanted ceiling.

use super::posed::posed;
use crate::practice::board::{so, sum};
use crate::practice::follow::{Follow, How};
use crate::practice::question::{Blank, Question};
use crate::practice::random::Random;
use crate::practice::scale::{Scale, Sizes};
use crate::practice::slip::Slip;
use crate::practice::topic::Level;

pub(super) fn question(random: &mut Random, level: Level, scale: Scale) -> Option<Question> {
    match level {
        Level::One => Some(wall_head(random, scale)),
        Level::Two => panel(random, scale),
        Level::Three if random.coin() => stud_and_ceiling(random, scale),
        Level::Three => Some(from_ceiling(random, scale)),
    }
}

/// Drops from the level's top, and the level's own depth.
struct Drops {
    scale: Scale,
    readings: Vec<i64>,
    depth: i64,
}

impl Drops {
    fn draw(random: &mut Random, scale: Scale, count: usize) -> Self {
        let first = scale.of(Sizes(2250, 2650, 1), Sizes(90 * 16, 104 * 16, 1)).draw(random);
        let spread = scale.of(6, 6);
        let mut readings = vec![first];
        readings.extend((1..count).map(|_| first + random.within(-spread, spread, 1)));
        // Levels come in several depths (invented choice of them).
        let depth = scale.of(Sizes(40, 62, 1), Sizes(26, 40, 1)).draw(random);
        Self { scale, readings, depth }
    }

    fn highest(&self) -> i64 {
        self.readings.iter().copied().max().unwrap_or(0)
    }

    fn head(&self) -> i64 {
        self.highest() - self.depth
    }

    fn sentence(&self) -> String {
        let list: Vec<String> = self.readings.iter().map(|drop| self.scale.text(*drop)).collect();
        let (drops, depth) = (list.join(", "), self.scale.text(self.depth));
        if self.readings.len() == 1 {
            format!("Drop {drops}, level {depth} deep.")
        } else {
            format!("Drops {drops}, level {depth} deep.")
        }
    }

    fn steps(&self) -> Vec<String> {
        let mut steps = vec![];
        if self.readings.len() > 1 {
            steps.push(format!("the highest drop = {}", self.scale.text(self.highest())));
        }
        let head = sum(self.scale, self.highest(), '−', self.depth);
        steps.push(format!("wall head = drop − level's own depth = {head}"));
        steps
    }

    /// Slips before the wall head; the rest of the chain takes `taken` off it.
    fn slips(&self, blank: &mut Blank, taken: i64) {
        let (highest, depth) = (self.highest(), self.depth);
        blank
            .slip(Slip::NoDepth, highest - taken)
            .slip(Slip::DepthAdded, highest + depth - taken)
            .slip(Slip::DepthTwice, highest - 2 * depth - taken);
        let others = self.readings.iter().filter(|drop| **drop != highest);
        blank.slips(others.map(|drop| (Slip::NotHighest, drop - depth - taken)));
        let count = i64::try_from(self.readings.len()).unwrap_or(1).max(1);
        let mean = self.readings.iter().sum::<i64>() / count;
        blank.slip(Slip::MeanDrop, mean - depth - taken);
    }
}

/// Layers of the wall and the room.
struct Layers {
    plate: i64,
    binder: i64,
    rail: i64,
    floor: i64,
    lining: i64,
}

impl Layers {
    fn draw(random: &mut Random, scale: Scale) -> Option<Self> {
        // Sawn or planed from 50 mm; a board of 2 in nominal is always dressed to 1-1/2 in. Linings: a board alone or on
        // battens of 12.5 mm or 3/4 in (common practice, no source).
        let timber = scale.of([38, 45, 47], [24, 24, 24]);
        Some(Self {
            plate: random.one_of(&timber)?,
            binder: random.one_of(&timber)?,
            rail: random.one_of(&timber)?,
            floor: scale.of(Sizes(65, 150, 1), Sizes(3 * 16, 6 * 16, 1)).draw(random),
            lining: random.one_of(&scale.of([13, 15, 25, 28], [8, 10, 20, 22]))?,
        })
    }
}

fn wall_head(random: &mut Random, scale: Scale) -> Question {
    let drops = Drops::draw(random, scale, 1);
    let mut blank = Blank::length("wall head", drops.head());
    drops.slips(&mut blank, 0);
    let mut working = drops.steps();
    working.push(so(scale, "wall head", drops.head()));
    posed(
        vec![],
        drops.sentence(),
        "How high is the wall head above the datum?".to_owned(),
        vec![blank],
        working,
        vec![drops.readings[0], drops.depth],
    )
}

/// The panel under a wall head, and its steps.
fn panel_under(scale: Scale, head: i64, layers: &Layers) -> (i64, Vec<String>) {
    let kit = head - layers.plate;
    let panel = kit - layers.binder;
    let steps = vec![
        format!("take off the plate: {}", sum(scale, head, '−', layers.plate)),
        format!("take off the binder: {}", sum(scale, kit, '−', layers.binder)),
        so(scale, "panel", panel),
    ];
    (panel, steps)
}

fn panel_slips(blank: &mut Blank, panel: i64, layers: &Layers) {
    blank
        .slip(Slip::NoPlateOrBinder, panel + layers.plate + layers.binder)
        .slip(Slip::NoBinder, panel + layers.binder)
        .slip(Slip::NoPlate, panel + layers.plate);
}

/// Three drops, of which one is the highest.
fn three_drops(random: &mut Random, scale: Scale) -> Option<Drops> {
    let drops = Drops::draw(random, scale, 3);
    let highest = drops.readings.iter().filter(|drop| **drop == drops.highest());
    (highest.count() == 1).then_some(drops)
}

fn panel(random: &mut Random, scale: Scale) -> Option<Question> {
    let drops = three_drops(random, scale)?;
    let layers = Layers::draw(random, scale)?;
    let (panel, steps) = panel_under(scale, drops.head(), &layers);
    let mut blank = Blank::length("panel", panel);
    drops.slips(&mut blank, layers.plate + layers.binder);
    panel_slips(&mut blank, panel, &layers);
    let given = format!(
        "{} Plate {}, binder {}.",
        drops.sentence(),
        scale.text(layers.plate),
        scale.text(layers.binder)
    );
    let mut working = drops.steps();
    working.extend(steps);
    let asked = "How high must the panel be?".to_owned();
    let gist = [drops.readings.as_slice(), &[panel]].concat();
    Some(posed(vec![], given, asked, vec![blank], working, gist))
}

fn stud_and_ceiling(random: &mut Random, scale: Scale) -> Option<Question> {
    let drops = three_drops(random, scale)?;
    let layers = Layers::draw(random, scale)?;
    let head = drops.head();
    let (panel, steps) = panel_under(scale, head, &layers);
    let stud = panel - 2 * layers.rail;
    let (under_lining, ceiling) = (head - layers.lining, head - layers.lining - layers.floor);
    let mut studs = Blank::length("stud", stud);
    drops.slips(&mut studs, head - stud);
    studs.slip(Slip::OneRail, stud + layers.rail).slip(Slip::NoRails, panel);
    panel_slips(&mut studs, stud, &layers);
    let mut room = Blank::length("ceiling", ceiling);
    drops.slips(&mut room, head - ceiling);
    room.slip(Slip::NoFloor, under_lining)
        .slip(Slip::NoLining, head - layers.floor)
        .slip(Slip::LayersWrongWay, head + layers.floor + layers.lining);
    let given = format!(
        "{} Plate {}, binder {}, two rails of {} in the panel. Floor finish {}, ceiling lining {}.",
        drops.sentence(),
        scale.text(layers.plate),
        scale.text(layers.binder),
        scale.text(layers.rail),
        scale.text(layers.floor),
        scale.text(layers.lining)
    );
    let mut working = drops.steps();
    working.extend(steps);
    working.extend([
        format!("take off one rail: {}", sum(scale, panel, '−', layers.rail)),
        format!("and the other: {}", sum(scale, panel - layers.rail, '−', layers.rail)),
        so(scale, "stud", stud),
        format!("wall head less the lining: {}", sum(scale, head, '−', layers.lining)),
        format!("less the floor finish: {}", sum(scale, under_lining, '−', layers.floor)),
        so(scale, "ceiling", ceiling),
    ]);
    let asked =
        "How long are the studs between the rails, and how high is the ceiling above the floor finish?";
    let gist = [drops.readings.as_slice(), &[stud, ceiling]].concat();
    Some(posed(vec![], given, asked.to_owned(), vec![studs, room], working, gist))
}

fn from_ceiling(random: &mut Random, scale: Scale) -> Question {
    let layers =
        Layers::draw(random, scale).unwrap_or(Layers { plate: 0, binder: 0, rail: 0, floor: 0, lining: 0 });
    let ceiling = scale.of(Sizes(2300, 2600, 5), Sizes(90 * 16, 102 * 16, 4)).draw(random);
    let (over_floor, head) = (ceiling + layers.floor, ceiling + layers.floor + layers.lining);
    let (panel, steps) = panel_under(scale, head, &layers);
    let mut heads = Blank::length("wall head", head);
    heads
        .slip(Slip::NoFloor, ceiling + layers.lining)
        .slip(Slip::NoLining, over_floor)
        .slip(Slip::LayersWrongWay, ceiling - layers.floor - layers.lining);
    let mut panels = Blank::length("panel", panel);
    panels.follows = Some(Follow { from: 0, how: How::Less(layers.plate + layers.binder) });
    panel_slips(&mut panels, panel, &layers);
    panels
        .slip(Slip::NoFloor, panel - layers.floor)
        .slip(Slip::NoLining, panel - layers.lining)
        .slip(Slip::LayersWrongWay, panel - 2 * (layers.floor + layers.lining));
    let given = format!(
        "A ceiling of {} above the floor finish is wanted. Floor finish {}, ceiling lining {}. Plate {}, binder {}.",
        scale.text(ceiling),
        scale.text(layers.floor),
        scale.text(layers.lining),
        scale.text(layers.plate),
        scale.text(layers.binder)
    );
    let mut working = vec![
        format!("ceiling and floor finish: {}", sum(scale, ceiling, '+', layers.floor)),
        format!("and the lining: {}", sum(scale, over_floor, '+', layers.lining)),
        so(scale, "wall head", head),
    ];
    working.extend(steps);
    let asked = "How high must the wall head be above the datum, and how high the panel?".to_owned();
    posed(vec![], given, asked, vec![heads, panels], working, vec![ceiling, head, panel])
}
