//! Whole tenths of a millimetre: the unit in which packers are counted, so that sums are exact.

/// `mm` rounded to whole tenths, half away from zero. The caller has bounded `mm` to a few metres.
#[expect(
    clippy::cast_possible_truncation,
    reason = "a float cast saturates, and the callers' lengths are a few metres"
)]
pub(super) fn rounded(mm: f64) -> i64 {
    (mm * 10.0).round() as i64
}

/// `mm` as whole tenths, if it is some: within a millionth of a tenth, from 1 to `most`.
pub(super) fn exact(mm: f64, most: u32) -> Option<u32> {
    let tenths = rounded(mm);
    let near = (mm * 10.0 - tenths as f64).abs() < 1e-6;
    u32::try_from(tenths)
        .ok()
        .filter(|t| near && *t > 0 && *t <= most)
}

/// `tenths` in mm.
pub(super) fn mm(tenths: impl Into<i64>) -> f64 {
    tenths.into() as f64 / 10.0
}
