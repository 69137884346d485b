//! Heights by hand: the tape less the level, then layer by layer.

use crate::board::Board;
use crate::heights::{End, HeightVerdict, Heights, Layer, Role, Supports, WallHead};
use crate::length::Units;
use crate::page::Steps;

/// The wall head, the panel and the ceiling as found; what a wanted ceiling needs; the joists' supports.
pub(crate) fn steps(answer: &Heights, head: &WallHead, units: Units) -> Vec<Steps> {
    let board = Board::lengths(units);
    let mut all = vec![];
    if let Some(depth) = head.level_depth.filter(|_| !head.drops.is_empty()) {
        all.push(wall_head(answer, depth, board));
    }
    if answer.verdict != HeightVerdict::AsNeeded {
        let mut ceiling = Chain::from("wall head", answer.wall_head.0, board);
        ceiling.layers(&head.layers, Role::Slab, true);
        ceiling.layers(&head.layers, Role::Floor, false);
        ceiling.layers(&head.layers, Role::Lining, false);
        ceiling.comes_to("the ceiling", units);
        all.push(panel("Panel, down from the wall head", answer.wall_head.0, head, units));
        all.push(ceiling.titled("Ceiling, from the wall head through the room"));
    }
    if let Some(needed) = &answer.needed {
        let wanted = needed.ceiling_height.0;
        let mut up = Chain::from("ceiling wanted", wanted, board);
        up.layers(&head.layers, Role::Floor, true);
        up.layers(&head.layers, Role::Lining, true);
        up.layers(&head.layers, Role::Slab, false);
        up.comes_to("the wall head needed", units);
        if needed.misses.is_some() {
            up.lines.push(format!(
                "wall head found less needed: {}",
                board.difference(answer.wall_head.0, needed.wall_head.0)
            ));
        }
        all.push(up.titled("The wall head that the ceiling wanted needs"));
        all.push(panel("The panel that it needs", needed.wall_head.0, head, units));
    }
    let one_in = head.joists.as_ref().and_then(|joists| joists.one_in);
    all.extend(answer.supports.iter().map(|s| joists(s, one_in, units)));
    all
}

fn wall_head(answer: &Heights, depth: f64, board: Board) -> Steps {
    let mut lines = vec![];
    for (i, drop) in answer.drops.iter().enumerate() {
        let at = drop.place.as_ref().map_or_else(String::new, |place| format!(" at {place}"));
        lines.push(format!("drop {}{at}: {}", i + 1, board.difference(drop.drop.0, depth)));
        if let Some(pack) = drop.pack {
            lines.push(format!("less the pack there: {}", board.difference(drop.drop.0 - depth, pack.0)));
        }
    }
    if let (Some(spread), [_, _, ..]) = (answer.spread, answer.drops.as_slice()) {
        let of = if answer.drops.iter().any(|drop| drop.read_again) { " of those that agree" } else { "" };
        lines.push(format!("the highest{of} is kept: {}", board.with_unit(answer.wall_head.0)));
        let heads = || answer.wall_heads.iter().map(|head| head.0);
        let (highest, lowest) = (heads().fold(0.0, f64::max), heads().fold(f64::INFINITY, f64::min));
        let spread = if spread.0 > 0.0 { board.difference(highest, lowest) } else { board.with_unit(0.0) };
        lines.push(format!("highest less lowest, the spread: {spread}"));
    }
    Steps { title: "Wall head: the tape less the level's own depth".to_owned(), steps: lines }
}

fn panel(title: &str, wall_head: f64, head: &WallHead, units: Units) -> Steps {
    let mut down = Chain::from("wall head", wall_head, Board::lengths(units));
    down.layers(&head.layers, Role::Packing, false);
    down.comes_to("the kit, plate to binder", units);
    down.layers(&head.layers, Role::Plate, false);
    down.layers(&head.layers, Role::Binder, false);
    down.comes_to("the panel", units);
    if head.layers.iter().any(|layer| layer.role == Role::Rail) {
        down.layers(&head.layers, Role::Rail, false);
        down.comes_to("the stud", units);
    }
    down.titled(title)
}

fn joists(supports: &Supports, one_in: Option<f64>, units: Units) -> Steps {
    let board = Board::lengths(units);
    let (fall, wanted) = (supports.fall.0, supports.wanted.0);
    let mut lines = vec![format!(
        "hanger less bearing, the fall as it stands: {}",
        board.difference(supports.house.0, supports.wall.0)
    )];
    if let Some(n) = one_in {
        lines.push(format!(
            "the fall wanted, 1:{n}: {} ÷ {n} = {}",
            board.figure(supports.run.0),
            board.with_unit(wanted.abs())
        ));
        if wanted < 0.0 {
            lines.push(format!("it runs down to the house: {}", board.with_unit(wanted)));
        }
    }
    lines.push(format!("wanted less found: {}", board.difference(wanted, fall)));
    let packing = units.gap(supports.packing.0);
    lines.push(match supports.pack_under {
        Some(End::House) => format!("more than nothing: the hanger comes up by {packing}"),
        Some(End::Wall) => format!("less than nothing: the bearing comes up by {packing}"),
        None => "nothing: it is right".to_owned(),
    });
    Steps { title: "Joists on two supports".to_owned(), steps: lines }
}

/// A height that layers are added to and taken from, one a line.
struct Chain {
    at: f64,
    board: Board,
    lines: Vec<String>,
}

impl Chain {
    fn from(name: &str, mm: f64, board: Board) -> Self {
        Self { at: mm, board, lines: vec![format!("{name}: {}", board.with_unit(mm))] }
    }

    /// Adds or takes every layer with `role`.
    fn layers(&mut self, layers: &[Layer], role: Role, add: bool) {
        for layer in layers.iter().filter(|layer| layer.role == role) {
            let (word, line, at) = if add {
                ("and", self.board.sum(self.at, layer.thickness), self.at + layer.thickness)
            } else {
                ("less", self.board.difference(self.at, layer.thickness), self.at - layer.thickness)
            };
            self.lines.push(format!("{word} {}: {line}", layer.name));
            self.at = at;
        }
    }

    /// Says what the height so far is, rounded as it is shown.
    fn comes_to(&mut self, name: &str, units: Units) {
        self.lines.push(format!("{name}: {}", units.fine(self.at)));
    }

    fn titled(self, title: &str) -> Steps {
        Steps { title: title.to_owned(), steps: self.lines }
    }
}
