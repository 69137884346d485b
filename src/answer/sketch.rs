//! The drawing of a job: what is drawn, in characters, and laid out on paper for those who print that.

use schemars::JsonSchema;
use serde::ser::Error;
use serde::{Serialize, Serializer};

use crate::sketch::{CheckLine, Drawing, Scale, Scene, SitePoint, SketchError, scene};

/// A job's plan, drawn.
#[derive(Debug, Clone, PartialEq, JsonSchema)]
pub struct Sketch {
    /// What is drawn.
    #[schemars(flatten, with = "Scene")]
    pub drawing: Drawing,
    /// The scale asked for, at which it fits its paper.
    #[schemars(skip)]
    pub scale: Option<Scale>,
    /// The lines to tape.
    #[schemars(skip)]
    pub checks: Vec<CheckLine>,
    /// What of it is pegged out.
    pub points: Vec<SitePoint>,
}

impl Sketch {
    /// Lays it out on its paper, which is most of the work of a drawing: for those who print one. Fails where too much is
    /// to be shown for any usual scale.
    pub fn scene(&self) -> Result<Scene, SketchError> {
        scene(&self.drawing, self.scale)
    }
}

/// As its scene and its points.
impl Serialize for Sketch {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        #[derive(Serialize)]
        struct Facts<'a> {
            #[serde(flatten)]
            scene: Scene,
            points: &'a [SitePoint],
        }
        let scene = self.scene().map_err(S::Error::custom)?;
        Facts { scene, points: &self.points }.serialize(serializer)
    }
}
