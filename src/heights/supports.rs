//! Joists hung from the house at one end and bearing on the new wall at the other.

use schemars::JsonSchema;
use serde::Serialize;

use super::error::HeightsError;
use crate::geometry::{Mm, Ratio};
use crate::length::{positive, usable};

/// One end of the joists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, JsonSchema, Serialize, Default)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "JoistEnd")]
pub enum End {
    /// The hanger on the house.
    House,
    /// The bearing on the new wall.
    #[default]
    Wall,
}

/// The joists' two supports as they stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Joists {
    /// Level of the hanger's seat on the house, mm above the datum.
    pub house: f64,
    /// Level of the bearing on the new wall, mm above the datum; `None` for the top of the height stack.
    pub wall: Option<f64>,
    /// Distance between the supports, mm, measured level.
    pub run: f64,
    /// The n of the wanted fall 1:n; `None` for level joists.
    pub one_in: Option<f64>,
    /// The end that the fall runs down to.
    pub down_to: End,
}

/// What to do at the supports. Lengths in mm.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Supports {
    /// Level of the hanger's seat above the datum.
    pub house: Mm,
    /// Level of the bearing above the datum.
    pub wall: Mm,
    /// Distance between them.
    pub run: Mm,
    /// How far the joist falls from the house to the wall as it stands; negative if it rises.
    pub fall: Mm,
    /// That fall for each metre of run.
    pub fall_per_metre: Mm,
    /// The n of that fall as 1:n, whichever way it runs; none if the joist lies level.
    pub one_in: Option<Ratio>,
    /// The fall that is wanted from the house to the wall.
    pub wanted: Mm,
    /// The end that is too low for it, to be packed up; none if it is right.
    pub pack_under: Option<End>,
    /// What to pack there.
    pub packing: Mm,
}

/// Differences under this, mm, are none.
const NOTHING: f64 = 0.05;

/// Works out the supports; `top` is the level of the top of the height stack.
pub(super) fn supports(joists: &Joists, top: f64) -> Result<Supports, HeightsError> {
    let house = usable("joists' level on the house", joists.house)?;
    let wall = usable("joists' level on the wall", joists.wall.unwrap_or(top))?;
    let run = positive("joists' run", joists.run)?;
    let down = match joists.one_in {
        Some(n) => run / positive("fall, 1 in", n)?,
        None => 0.0,
    };
    let wanted = match joists.down_to {
        End::Wall => down,
        End::House => -down,
    };
    let fall = usable("joists' fall", house - wall)?;
    // What the house end has to come up by; the wall end, if it is negative.
    let missing = usable("packing at the joists", wanted - fall)?;
    let pack_under = if missing > NOTHING {
        Some(End::House)
    } else if missing < -NOTHING {
        Some(End::Wall)
    } else {
        None
    };
    let per_metre = usable("joists' fall for each metre of run", fall / run * 1000.0)?;
    Ok(Supports {
        house: Mm(house),
        wall: Mm(wall),
        run: Mm(run),
        fall: Mm(fall),
        fall_per_metre: Mm(per_metre),
        one_in: (fall.abs() > NOTHING).then(|| Ratio(run / fall.abs())),
        wanted: Mm(wanted),
        pack_under,
        packing: Mm(pack_under.map_or(0.0, |_| missing.abs())),
    })
}
