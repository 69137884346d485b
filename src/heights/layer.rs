//! The layers that add up to a height.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::HeightsError;
use crate::words::quoted;

/// What a layer does in the height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Role {
    /// Between the datum and the plate's underside: packers, damp-proof course.
    Packing,
    /// The wall plate, under the panel.
    Plate,
    /// A rail of the panel: the first named is the bottom one, the rest lie at the top.
    Rail,
    /// On top of the panel, under the wall head's level.
    Binder,
    /// Floor finish, laid from the datum (or the slab) up: takes away from the room.
    Floor,
    /// Ceiling lining, hung from the wall head's level down: takes away from the room.
    Lining,
    /// How far the slab that the floor is laid on lies under the datum: adds to the room.
    Slab,
}

/// The names a layer may have, for the message that refuses another.
const KNOWN: &str = "packing, dpc, plate, rail, binder, floor, lining or slab";

impl Role {
    /// The role that goes with a layer's name, and the name to show: `plate` is a plate, `floor:screed` a floor
    /// layer called screed.
    pub fn of(name: &str) -> Result<(Self, &str), HeightsError> {
        let whole = name.trim();
        let (role, own) = whole.split_once(':').unwrap_or((whole, whole));
        let found = match role.trim().to_ascii_lowercase().as_str() {
            "packing" | "pack" | "packer" | "packers" | "dpc" => Self::Packing,
            "plate" | "wall plate" | "sole plate" => Self::Plate,
            "rail" => Self::Rail,
            "binder" | "head binder" => Self::Binder,
            "floor" => Self::Floor,
            "lining" => Self::Lining,
            "slab" => Self::Slab,
            _ => {
                return Err(HeightsError::NoRole { given: quoted(name), known: KNOWN });
            }
        };
        let own = own.trim();
        Ok((found, if own.is_empty() { role.trim() } else { own }))
    }
}

/// One layer.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// What it is called.
    pub name: String,
    /// What it does in the height.
    pub role: Role,
    /// Its thickness, mm.
    pub thickness: f64,
}

impl Layer {
    /// The layer called `name` (see [`Role::of`]), `thickness` mm thick.
    pub fn new(name: &str, thickness: f64) -> Result<Self, HeightsError> {
        let (role, own) = Role::of(name)?;
        Ok(Self { name: own.to_owned(), role, thickness })
    }
}
