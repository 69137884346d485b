//! The scale bar: true on paper whatever a printer does to the sheet.

use super::elements::{Label, Line, Part, Pen, Wording};
use super::lettering::Lettering;
use super::scale::Scale;
use super::scene::Figure;
use crate::geometry::Point;
use crate::length::Units;

/// The most that the bar is long on paper, mm.
const LONGEST: f64 = 45.0;
/// The least that a step of it is, mm.
const LEAST_STEP: f64 = 6.0;
/// Height of its strokes, mm.
const STROKE: f64 = 2.0;
const FOOT: f64 = 304.8;

/// So many round steps.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bar {
    /// A step on paper, mm.
    step: f64,
    steps: u32,
    /// What all of them are on the ground.
    text: String,
}

impl Bar {
    pub(super) fn new(scale: Scale, units: Units) -> Self {
        let step = round_step(units, LEAST_STEP / scale.on_paper(1.0));
        let on_paper = scale.on_paper(step);
        let steps = [5, 4, 2].into_iter().find(|n| f64::from(*n) * on_paper <= LONGEST).unwrap_or(1);
        let all = step * f64::from(steps);
        let text = match units {
            Units::Mm | Units::M if all < 1000.0 => Units::Mm.with_unit(all),
            Units::Mm | Units::M => format!("{} m", all / 1000.0),
            Units::FeetInches => units.with_unit(all),
        };
        Self { step: on_paper, steps, text }
    }

    /// Draws it from `at` to the right, its line at the foot.
    pub(super) fn draw(&self, figure: &mut Figure, at: Point) {
        let end = at.x + self.step * f64::from(self.steps);
        let across = vec![Point::new(at.x, at.y), Point::new(end, at.y)];
        figure.lines.push(Line::new(Part::Bar, Pen::Medium, across).named(self.text.clone()));
        for i in 0..=self.steps {
            let x = at.x + self.step * f64::from(i);
            let stroke = vec![Point::new(x, at.y), Point::new(x, at.y - STROKE)];
            figure.lines.push(Line::new(Part::Bar, Pen::Medium, stroke).named(self.text.clone()));
        }
        let over = at.y - STROKE - 0.8;
        for (text, x) in [("0", at.x), (&self.text, end)] {
            let mut label = Label::from_left(Wording::Key, text, Lettering::Small, Point::new(x - 0.9, over));
            "bar".clone_into(&mut label.name);
            figure.labels.push(label);
        }
    }
}

/// The least round length of `least` mm or more on the ground.
fn round_step(units: Units, least: f64) -> f64 {
    let (unit, first): (f64, &[f64]) = match units {
        Units::Mm | Units::M => (1.0, &[]),
        // Below a foot: an inch, three, six.
        Units::FeetInches => (FOOT, &[FOOT / 12.0, FOOT / 4.0, FOOT / 2.0]),
    };
    let tens = (0..10).flat_map(|power| [1.0, 2.0, 5.0].map(|n| n * 10_f64.powi(power) * unit));
    first.iter().copied().chain(tens).find(|step| *step >= least).unwrap_or(least)
}
