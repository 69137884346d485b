//! The height stack as data: every layer with the levels it lies between.

use schemars::JsonSchema;
use serde::Serialize;

use super::layer::{Layer, Role};
use crate::geometry::Mm;

/// What a part of the stack is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Part {
    /// The panel.
    Panel,
    /// The studs between the panel's rails.
    Stud,
    /// The clear room between floor finish and ceiling.
    Room,
    /// A layer that was named; it serializes as its role alone.
    #[serde(untagged)]
    Layer(Role),
}

/// One part of the stack. Levels in mm above the datum.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Span {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub part: Part,
    /// The level of its underside.
    pub from: Mm,
    /// The level of its top.
    pub to: Mm,
}

impl Span {
    /// Its thickness, mm.
    #[must_use]
    pub fn thickness(&self) -> f64 {
        self.to.0 - self.from.0
    }
}

/// The stack: three columns that stand side by side, each from its bottom up without a gap.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct HeightStack {
    /// From the datum to the wall head: packing, plate, panel, binder.
    pub wall: Vec<Span>,
    /// Inside the panel: bottom rail, stud, top rails. Empty if no rails were named.
    pub panel: Vec<Span>,
    /// From the slab to the wall head: floor, room, lining.
    pub room: Vec<Span>,
}

impl HeightStack {
    /// Whether plate or binder is named; if not, what is called the panel is the room for all three.
    #[must_use]
    pub fn names_the_kit(&self) -> bool {
        let kit = [Part::Layer(Role::Plate), Part::Layer(Role::Binder)];
        self.wall.iter().any(|span| kit.contains(&span.part))
    }
}

/// Lays spans on each other.
struct Pile {
    at: f64,
    spans: Vec<Span>,
}

impl Pile {
    const fn from(at: f64) -> Self {
        Self { at, spans: Vec::new() }
    }

    fn lay(&mut self, name: &str, part: Part, to: f64) {
        self.spans.push(Span { name: name.to_owned(), part, from: Mm(self.at), to: Mm(to) });
        self.at = to;
    }

    fn lay_all<'a>(&mut self, layers: impl Iterator<Item = &'a Layer>) {
        for layer in layers {
            self.lay(&layer.name, Part::Layer(layer.role), self.at + layer.thickness);
        }
    }
}

/// Sum of the thicknesses of the layers with `role`, mm.
pub(super) fn sum(layers: &[Layer], role: Role) -> f64 {
    of(layers, role).map(|l| l.thickness).sum()
}

fn of(layers: &[Layer], role: Role) -> impl DoubleEndedIterator<Item = &Layer> {
    layers.iter().filter(move |l| l.role == role)
}

/// Piles `layers` up with a panel of `panel` mm.
pub(super) fn pile(layers: &[Layer], panel: f64) -> HeightStack {
    let mut wall = Pile::from(0.0);
    wall.lay_all(of(layers, Role::Packing));
    wall.lay_all(of(layers, Role::Plate));
    let underside = wall.at;
    wall.lay("panel", Part::Panel, underside + panel);
    wall.lay_all(of(layers, Role::Binder));

    let mut inside = Pile::from(underside);
    let rails = sum(layers, Role::Rail);
    if rails > 0.0 {
        inside.lay_all(of(layers, Role::Rail).take(1));
        let stud = inside.at + panel - rails;
        inside.lay("stud", Part::Stud, stud);
        inside.lay_all(of(layers, Role::Rail).skip(1));
    }

    let mut room = Pile::from(-sum(layers, Role::Slab));
    room.lay_all(of(layers, Role::Floor));
    let ceiling = wall.at - sum(layers, Role::Lining);
    room.lay("room", Part::Room, ceiling);
    // Linings are named from the wall head down.
    room.lay_all(of(layers, Role::Lining).rev());
    HeightStack { wall: wall.spans, panel: inside.spans, room: room.spans }
}
