//! Standard scales: ISO 5455 (from memory) and the usual US inch scales.
//!
//! A scale is kept as real mm per paper mm: 10.0 is 1:10, 0.5 is 2:1.

use crate::paper::drafting::Standard;
use crate::say::LengthUnit;

/// ISO 5455, largest first; from memory.
const ISO: [f64; 17] = [0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0];

/// Usual US scales as (real inches per paper inch, how it is written), largest first; common practice, no source.
const US: [(f64, &str); 13] = [
    (0.25, "4:1"),
    (0.5, "2:1"),
    (1.0, "1:1"),
    (2.0, "6\" = 1'-0\""),
    (4.0, "3\" = 1'-0\""),
    (8.0, "1 1/2\" = 1'-0\""),
    (12.0, "1\" = 1'-0\""),
    (16.0, "3/4\" = 1'-0\""),
    (24.0, "1/2\" = 1'-0\""),
    (32.0, "3/8\" = 1'-0\""),
    (48.0, "1/4\" = 1'-0\""),
    (96.0, "1/8\" = 1'-0\""),
    (192.0, "1/16\" = 1'-0\""),
];

/// The standard scales of a family of sheets, largest picture first.
///
/// ANSI sheets in millimetres use the ISO scales.
pub fn standard(standard: Standard, unit: LengthUnit) -> Vec<f64> {
    match (standard, unit) {
        (Standard::Ansi, LengthUnit::InchDecimal | LengthUnit::InchFraction) => US.iter().map(|s| s.0).collect(),
        _ => ISO.to_vec(),
    }
}

/// How a scale is written.
pub fn written(real_per_paper: f64, standard: Standard, unit: LengthUnit) -> String {
    if standard == Standard::Ansi
        && unit != LengthUnit::Mm
        && let Some(s) = US.iter().find(|s| (s.0 - real_per_paper).abs() < 1e-9)
    {
        return s.1.into();
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
        assert!(standard(Standard::Iso, LengthUnit::Mm).is_sorted());
    }
}
