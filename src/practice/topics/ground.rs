//! The masonry's levels at the corners, as heights or as staff readings.

use crate::practice::random::Random;
use crate::practice::scale::{Scale, Sizes};
use crate::practice::shape::Shape;

/// Readings at the corners, in order.
pub(super) struct Levels {
    /// Staff readings, bigger is lower; otherwise heights, up is +.
    pub(super) staff: bool,
    pub(super) readings: Vec<i64>,
}

impl Levels {
    pub(super) fn heights(random: &mut Random, scale: Scale, corners: usize) -> Self {
        let sizes = scale.of(Sizes(-25, 15, 1), Sizes(-20, 12, 1));
        Self { staff: false, readings: (0..corners).map(|_| sizes.draw(random)).collect() }
    }

    pub(super) fn staff(random: &mut Random, scale: Scale, corners: usize) -> Self {
        let base = scale.of(Sizes(900, 1600, 1), Sizes(3 * 192, 5 * 192, 1)).draw(random);
        let sizes = scale.of(Sizes(0, 40, 1), Sizes(0, 32, 1));
        Self { staff: true, readings: (0..corners).map(|_| base + sizes.draw(random)).collect() }
    }

    /// How far the place read `reading` is below the one read `datum`.
    pub(super) const fn below(&self, datum: i64, reading: i64) -> i64 {
        if self.staff { reading - datum } else { datum - reading }
    }

    /// The corner with the highest point; nothing if two are equally high, which would leave the datum's name open.
    pub(super) fn highest(&self) -> Option<usize> {
        let high = |i: &usize| {
            if self.staff { -self.readings[*i] } else { self.readings[*i] }
        };
        let top = (0..self.readings.len()).max_by_key(high)?;
        let alone = (0..self.readings.len()).filter(|i| high(i) == high(&top)).count() == 1;
        alone.then_some(top)
    }

    pub(super) fn lowest(&self) -> i64 {
        let readings = self.readings.iter().copied();
        if self.staff { readings.max() } else { readings.min() }.unwrap_or(0)
    }

    /// A reading as it is written.
    pub(super) fn text(&self, scale: Scale, reading: i64) -> String {
        if self.staff { scale.text(reading) } else { scale.signed(reading) }
    }

    /// All of them, in a sentence.
    pub(super) fn sentence(&self, shape: &Shape) -> String {
        let list: Vec<String> = self
            .readings
            .iter()
            .enumerate()
            .map(|(i, reading)| format!("{} {}", shape.corner(i), self.text(shape.scale, *reading)))
            .collect();
        let kind = if self.staff {
            "Staff readings on the masonry (bigger is lower)"
        } else {
            "Heights of the masonry (up is +)"
        };
        format!("{kind}: {}.", list.join(", "))
    }

    /// The step that finds the datum.
    pub(super) fn datum_step(&self, shape: &Shape, top: usize) -> String {
        format!(
            "the highest point has the {}: {}, {}",
            if self.staff { "smallest staff reading" } else { "largest height" },
            shape.corner(top),
            self.text(shape.scale, self.readings[top])
        )
    }
}
