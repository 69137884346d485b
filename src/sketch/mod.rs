//! The labelled plan to scale: as characters for a terminal, and on a sheet of paper as SVG.
//!
//! Both are made from one [`Drawing`], plain structs filled by the caller. [`scene`] chooses the scale, finds places for every
//! text so that none covers another, and gives lines and texts in mm on paper, which [`svg`] prints. [`characters()`] lays the
//! plan out afresh, because a character cell is a coarse unit: what is a matter of millimetres on paper is one of whole columns there.
//!
//! ```
//! use pegline::length::Units;
//! use pegline::plan::parse_expression;
//! use pegline::sketch::{Drawing, characters, scene, svg};
//!
//! let (footprint, units) = parse_expression("7800x6000-3000x2400", Units::Mm)?;
//! let drawing = Drawing::new(&footprint, units);
//! assert!(characters(&drawing, 60, 16).len() <= 16);
//! let scene = scene(&drawing, None)?;
//! assert_eq!(scene.scale.to_string(), "1:50");
//! assert!(svg(&scene).starts_with("<svg"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod bar;
mod characters;
mod compose;
mod dimensions;
mod drawing;
mod elements;
mod figure;
mod hidden;
mod key;
mod lettering;
mod margin;
mod north;
mod outline;
mod place;
mod plates;
mod points;
mod scale;
mod scene;
mod shape;
mod sheet;
mod svg;
mod title;
mod view;

pub use characters::{CharacterDrawing, character_drawing, characters};
pub use compose::{SketchError, scene};
pub use drawing::{
    Anchor, CheckLine, CheckUse, Drawing, JoistLayout, LaidPiece, Opening, PlateLayout, ProfileBoard, Spot,
    StringLine, Title,
};
pub use elements::{Label, Line, Mark, Part, Pen, Wording};
pub use lettering::Lettering;
pub use points::{PointKind, SiteGrid, SitePoint};
pub use scale::{Scale, ScaleError};
pub use scene::Scene;
pub use shape::Frame;
pub use sheet::{Paper, Sheet};
pub use svg::{svg, svg_element, svg_narrow};
