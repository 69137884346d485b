//! The grain that packers are counted in, so that sums are exact: whole tenths of a millimetre, or whole sixteenths of
//! an inch where the job is in feet and inches.

use crate::length::{MM_PER_INCH, Units, whole};

/// What packers are counted in.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Grain {
    /// How many grains there are in a millimetre.
    per_mm: f64,
    /// The thickest packer taken, grains.
    pub(crate) thickest: u32,
    /// The grain in words, with the range that is taken.
    pub(crate) words: &'static str,
}

impl Grain {
    /// The grain of a job in `units`.
    pub(crate) const fn of(units: Units) -> Self {
        match units {
            Units::Mm | Units::M => {
                Self { per_mm: 10.0, thickest: 1000, words: "tenths of a mm, from 0.1 to 100 mm" }
            }
            Units::FeetInches => Self {
                per_mm: 16.0 / MM_PER_INCH,
                thickest: 64,
                words: "sixteenths of an inch, from 1/16in to 4in, in a job in feet and inches",
            },
        }
    }

    /// `mm` rounded to whole grains, half away from zero. The caller has bounded `mm` to a few metres.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a float cast saturates, and the callers' lengths are a few metres"
    )]
    pub(crate) fn rounded(self, mm: f64) -> i64 {
        whole(mm * self.per_mm) as i64
    }

    /// `mm` as whole grains, if it is some: within a millionth of one, from 1 to the thickest.
    pub(crate) fn exact(self, mm: f64) -> Option<u32> {
        let grains = self.rounded(mm);
        let near = (mm * self.per_mm - grains as f64).abs() < 1e-6;
        u32::try_from(grains).ok().filter(|n| near && *n > 0 && *n <= self.thickest)
    }

    /// The most whole grains in `mm`, which is none or more.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a float cast saturates, and the figure is not negative"
    )]
    pub(crate) fn whole_in(self, mm: f64) -> u32 {
        (mm * self.per_mm + 1e-6).floor() as u32
    }

    /// `grains` in mm.
    pub(crate) fn mm(self, grains: impl Into<i64>) -> f64 {
        grains.into() as f64 / self.per_mm
    }
}
