//! The scales that a set of sheets may use, and how they are written.
//!
//! A scale is kept as real mm per paper mm: 10.0 is 1:10, 0.5 is 2:1.

use crate::paper::drafting::Standard;
use crate::say::LengthUnit;
use crate::tables::scales::{self, Scale};

/// ANSI sheets in millimetres use the ISO scales.
fn list(standard: Standard, unit: LengthUnit) -> &'static [Scale] {
    scales::of(if unit == LengthUnit::Mm { Standard::Iso } else { standard })
}

/// The standard scales of a family of sheets, largest picture first.
pub fn standard(standard: Standard, unit: LengthUnit) -> Vec<f64> {
    list(standard, unit).iter().map(Scale::real_per_paper).collect()
}

/// How a scale is written.
pub fn written(real_per_paper: f64, standard: Standard, unit: LengthUnit) -> String {
    if let Some(s) = list(standard, unit).iter().find(|s| (s.real_per_paper() - real_per_paper).abs() < 1e-9) {
        return s.text.into();
    }
    if real_per_paper < 1.0 {
        format!("{}:1", crate::units::plain_number(1.0 / real_per_paper, 2))
    } else {
        format!("1:{}", crate::units::plain_number(real_per_paper, 2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_are_written_as_usual() {
        assert_eq!(written(10.0, Standard::Iso, LengthUnit::Mm), "1:10");
        assert_eq!(written(0.5, Standard::Iso, LengthUnit::Mm), "2:1");
        assert_eq!(written(16.0, Standard::Ansi, LengthUnit::InchFraction), "3/4\" = 1'-0\"");
        assert_eq!(written(64.0, Standard::Ansi, LengthUnit::InchFraction), "3/16\" = 1'-0\"");
        assert_eq!(written(20.0, Standard::Ansi, LengthUnit::Mm), "1:20");
        assert_eq!(written(7.5, Standard::Iso, LengthUnit::Mm), "1:7.5");
        assert!(standard(Standard::Iso, LengthUnit::Mm).is_sorted());
    }
}
