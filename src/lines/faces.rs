//! The wall's build-up across the outline: where each face stands.

use schemars::JsonSchema;
use serde::Serialize;

use crate::geometry::Mm;
use crate::plan::SAME_PLACE;

/// The layer whose outer face the outline is, unless another is named.
const PLATE: &str = "plate";

/// What the footing's two edges are called.
const FOOTING: &str = "footing";

/// Layers of air: the face towards one belongs to the solid layer on its other side.
const AIR: [&str; 3] = ["cavity", "gap", "air"];

/// The most layers taken.
const MOST_LAYERS: usize = 12;

/// One layer of a wall.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// Its name: skin, cavity, plate.
    pub name: String,
    /// Its thickness, mm.
    pub width: f64,
}

/// A wall's build-up and the footing under it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Wall {
    /// The layers, outside first.
    pub layers: Vec<Layer>,
    /// Which face the plan's outline is: a layer's name for its outer face, or with `inner` after it. Unless given, the
    /// outer face of the layer called `plate`, or of the whole wall where none is called so.
    pub outline: Option<String>,
    /// The footing's width, mm.
    pub footing: Option<f64>,
    /// How far the footing projects outside the wall's outermost face, mm. Unless given, the footing is centred under
    /// the whole build-up.
    pub projection: Option<f64>,
}

/// A wall that can't be worked out.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum WallError {
    /// Too many layers.
    #[error("{0} layers are given: {MOST_LAYERS} is the most taken")]
    TooMany(usize),
    /// A layer without a name, or with one that can't be used.
    #[error("a layer can't be called `{0}`: write a name of its own such as skin, cavity or plate")]
    BadName(String),
    /// Two layers of one name.
    #[error("two layers are called `{0}`: give each a name of its own, such as `{0} 2`")]
    SameName(String),
    /// An outline face that isn't there.
    #[error("there is no face `{name}`: write one of {}", faces.join(", "))]
    NoFace {
        /// As written.
        name: String,
        /// The faces there are.
        faces: Vec<String>,
    },
    /// A footing under nothing.
    #[error(
        "where the footing lies is not known: give the wall's layers (--layers, or `lines.layers` in the job file) to centre it under the wall, or how far it stands outside the outline (--footing-projection, or `lines.footing_projection`)"
    )]
    FootingUnderNothing,
}

/// One face to set a nail for.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Face {
    /// Its name: `skin outer`, `plate inner`, `footing outer`.
    pub face: String,
    /// How far it stands from the outline, mm: outward positive, inward negative.
    pub offset: Mm,
    /// How far it stands from the outermost face, mm: the board is marked with one pull from there.
    pub from_outermost: Mm,
}

/// The faces of a wall, outermost first.
#[derive(Debug, Clone, PartialEq, JsonSchema, Serialize)]
pub struct Faces {
    /// Which face the plan's outline is.
    pub outline: String,
    /// The width of the whole build-up without the footing, mm.
    pub width: Mm,
    /// The faces.
    pub faces: Vec<Face>,
    /// Whether the footing leaves part of the wall without anything under it.
    pub overhangs_footing: bool,
}

impl Faces {
    /// How far the outermost face stands outside the outline, mm; 0 where none does.
    #[must_use]
    pub fn outermost(&self) -> f64 {
        self.faces.iter().map(|face| face.offset.0).fold(0.0, f64::max)
    }

    /// How far the innermost face stands inside the outline, mm; 0 where none does.
    #[must_use]
    pub fn innermost(&self) -> f64 {
        self.faces.iter().map(|face| -face.offset.0).fold(0.0, f64::max)
    }
}

impl Wall {
    /// Where each face stands from the outline.
    pub fn faces(&self) -> Result<Faces, WallError> {
        self.check_names()?;
        let width: f64 = self.layers.iter().map(|layer| layer.width).sum();
        // Depth of each face inside the wall's outermost one.
        let mut depth = 0.0;
        let mut named = vec![];
        for (i, layer) in self.layers.iter().enumerate() {
            let outer = self.layers[..i].last().filter(|_| is_air(&layer.name));
            named.push((
                match outer {
                    Some(solid) => format!("{} inner", solid.name),
                    None => format!("{} outer", layer.name),
                },
                depth,
            ));
            depth += layer.width;
        }
        if let Some(last) = self.layers.last() {
            named.push((format!("{} inner", last.name), depth));
        } else {
            named.push(("outline".to_owned(), 0.0));
        }
        let outline = self.outline_face(&named)?;
        let (outline, outline_depth) = named[outline].clone();
        let footing = self.footing.map(|footing| self.footing_edges(footing, width));
        let mut overhangs_footing = false;
        if let Some((outer, inner)) = footing.transpose()? {
            overhangs_footing = outer > SAME_PLACE || inner < width - SAME_PLACE;
            named.push((format!("{FOOTING} outer"), outer));
            named.push((format!("{FOOTING} inner"), inner));
        }
        named.sort_by(|a, b| a.1.total_cmp(&b.1));
        let outermost = named.first().map_or(0.0, |face| face.1);
        let faces = named
            .into_iter()
            .map(|(face, depth)| Face {
                face,
                offset: Mm(outline_depth - depth),
                from_outermost: Mm(depth - outermost),
            })
            .collect();
        Ok(Faces { outline, width: Mm(width), faces, overhangs_footing })
    }

    fn check_names(&self) -> Result<(), WallError> {
        if self.layers.len() > MOST_LAYERS {
            return Err(WallError::TooMany(self.layers.len()));
        }
        for (i, layer) in self.layers.iter().enumerate() {
            let name = layer.name.as_str();
            let plain = name.chars().all(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_'));
            let ends_like_a_face = name.ends_with("inner") || name.ends_with("outer");
            let reserved = name.eq_ignore_ascii_case(FOOTING) || name.eq_ignore_ascii_case("outline");
            if name.trim().is_empty() || name.chars().count() > 20 || !plain || ends_like_a_face || reserved {
                return Err(WallError::BadName(name.chars().take(40).collect()));
            }
            if self.layers[..i].iter().any(|other| other.name.eq_ignore_ascii_case(name)) {
                return Err(WallError::SameName(name.to_owned()));
            }
        }
        Ok(())
    }

    /// The index among the layers' faces of the one that the outline is.
    fn outline_face(&self, named: &[(String, f64)]) -> Result<usize, WallError> {
        let layer = |name: &str| self.layers.iter().position(|layer| layer.name.eq_ignore_ascii_case(name));
        let Some(written) = &self.outline else {
            return Ok(layer(PLATE).unwrap_or(0));
        };
        let lower = written.trim().to_lowercase();
        let (name, inward) = match (lower.strip_suffix("inner"), lower.strip_suffix("outer")) {
            (Some(name), _) => (name, 1),
            (None, Some(name)) => (name, 0),
            (None, None) => (lower.as_str(), 0),
        };
        let name = name.trim_end_matches([' ', '-', '_', ':']);
        layer(name)
            .map(|i| i + inward)
            .or_else(|| named.iter().position(|(face, _)| *face == lower))
            .ok_or_else(|| WallError::NoFace {
                name: written.clone(),
                faces: named.iter().map(|(face, _)| face.clone()).collect(),
            })
    }

    /// The depths of the footing's outer and inner edges inside the wall's outermost face.
    fn footing_edges(&self, footing: f64, width: f64) -> Result<(f64, f64), WallError> {
        let outer = match self.projection {
            Some(projection) => -projection,
            None if self.layers.is_empty() => return Err(WallError::FootingUnderNothing),
            None => (width - footing) / 2.0,
        };
        Ok((outer, outer + footing))
    }
}

fn is_air(name: &str) -> bool {
    AIR.iter().any(|air| name.eq_ignore_ascii_case(air))
}
