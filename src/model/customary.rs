//! Customary sizes that no key gives: whole millimetres, or whole inches where the sheets are in inches.

use crate::spec::Spec;
use crate::spec::sheet::LengthUnit;
use crate::units::MM_PER_INCH;

/// Step of free outlines, mm: 5 mm or 1/4 in (common practice, no source).
pub(super) fn outline_step(spec: &Spec) -> f64 {
    custom(spec, 5.0, 0.25)
}

/// One of two customary sizes, mm: the metric one or the one in inches, after the sheet's unit.
pub(super) fn custom(spec: &Spec, mm: f64, inches: f64) -> f64 {
    if *spec.sheet.unit == LengthUnit::Mm { mm } else { inches * MM_PER_INCH }
}
