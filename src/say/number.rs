//! How numbers are written: millimetres, decimal inches, feet and inches, levels, scales.
//!
//! A value is never rounded further than the sheet's unit allows for: millimetres print one decimal
//! more than asked for where rounding would hide 0.05 mm or more.

use super::figures::{DecimalSign, Figures, LengthUnit};
use crate::units::MM_PER_INCH;

/// How finely a length is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Written {
    /// Decimals other than the sheet's, where a decimal number is written.
    pub decimals: Option<usize>,
    /// How often the sheet's smallest fraction of an inch is halved, where fractions are written.
    pub finer: u32,
    /// Whether zeros at the end of the decimals are left out.
    pub trimmed: bool,
}

/// Finest fraction that a small size is written in, as denominator: drills and plates come in sixty-fourths.
const FINEST: u32 = 64;
/// Sizes below this are written exactly where sixty-fourths do, mm: a foot.
const SMALL_MM: f64 = 304.8;

impl Written {
    /// As the sheet writes it, or with wanted decimals.
    pub const fn asked(decimals: Option<usize>) -> Self {
        Self { decimals, finer: 0, trimmed: false }
    }

    /// The fraction that a length is written in: the sheet's or finer, or sixty-fourths for a small size that is one
    /// exactly (a hole of 13/32").
    fn fraction(self, mm: f64, style: &Figures) -> u32 {
        let asked = style.fraction << self.finer.min(4);
        let parts = mm.abs() / MM_PER_INCH * f64::from(FINEST);
        if mm.abs() < SMALL_MM && (parts - parts.round()).abs() < 1e-3 { FINEST.max(asked) } else { asked }
    }
}

/// A length in mm, written in the sheet's unit.
pub fn length(mm: f64, style: &Figures) -> String {
    length_as(mm, style, Written::default())
}

/// A length in mm, written this finely.
pub fn length_as(mm: f64, style: &Figures, written: Written) -> String {
    let places = digits(mm, style, written);
    let trim = |text: String| match text.split_once(['.', ',']) {
        Some((whole, rest)) if written.trimmed && rest.chars().all(|c| c == '0') => whole.to_string(),
        Some(_) if written.trimmed => text.trim_end_matches('0').to_string(),
        _ => text,
    };
    match style.unit {
        LengthUnit::Mm => trim(decimal(mm, places, style)),
        LengthUnit::InchDecimal => format!("{}\"", trim(decimal(mm / MM_PER_INCH, places, style))),
        LengthUnit::InchFraction => feet_and_inches(mm, written.fraction(mm, style)),
    }
}

/// Decimals with which a length is written; 0 for fractions.
pub fn digits(mm: f64, style: &Figures, written: Written) -> usize {
    match style.unit {
        LengthUnit::Mm => {
            let wanted = written.decimals.unwrap_or(style.decimals_mm);
            let step = 10_f64.powi(wanted as i32);
            let hidden = (mm - (mm * step).round() / step).abs();
            if written.decimals.is_none() && wanted == 0 && hidden >= 0.05 { 1 } else { wanted }
        }
        LengthUnit::InchDecimal => written.decimals.unwrap_or(style.decimals_inch),
        LengthUnit::InchFraction => 0,
    }
}

/// The length that a reader takes from what [`length_as`] writes, mm.
pub fn as_read(mm: f64, style: &Figures, written: Written) -> f64 {
    let (unit, parts) = match style.unit {
        LengthUnit::Mm => (1.0, 10_f64.powi(digits(mm, style, written) as i32)),
        LengthUnit::InchDecimal => (MM_PER_INCH, 10_f64.powi(digits(mm, style, written) as i32)),
        LengthUnit::InchFraction => (MM_PER_INCH, f64::from(written.fraction(mm, style))),
    };
    // A tie goes away from zero as it does in print.
    let tie = if style.unit == LengthUnit::InchFraction { 0.0 } else { 1e-9_f64.copysign(mm) };
    ((mm / unit + tie) * parts).round() / parts * unit
}

/// A plain decimal number with the sheet's decimal sign.
pub fn decimal(value: f64, decimals: usize, style: &Figures) -> String {
    // A tie goes away from zero, whichever side of it the last bit fell on.
    let text = format!("{:.decimals$}", value + 1e-9_f64.copysign(value));
    let text = match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_string(),
        Some(rest) => format!("−{rest}"),
        None => text,
    };
    match style.decimal {
        DecimalSign::Point => text,
        DecimalSign::Comma => text.replace('.', ","),
    }
}

/// A decimal number with at most this many decimals: zeros at the end are left out.
pub fn trimmed(value: f64, decimals: usize, style: &Figures) -> String {
    let text = decimal(value, decimals, style);
    if text.contains(['.', ',']) { text.trim_end_matches('0').trim_end_matches(['.', ',']).to_string() } else { text }
}

/// A figure converted from another unit: three digits that count, as far as two decimals reach.
pub fn three_figures(value: f64, style: &Figures) -> String {
    let decimals = match value.abs() {
        v if v >= 100.0 || v == 0.0 => 0,
        v if v >= 10.0 => 1,
        _ => 2,
    };
    decimal(value, decimals, style)
}

/// An angle in degrees.
pub fn angle(degrees: f64, decimals: Option<usize>, style: &Figures) -> String {
    let shown = decimals.unwrap_or(if (degrees - degrees.round()).abs() < 0.05 { 0 } else { 1 });
    format!("{}°", decimal(degrees, shown, style))
}

/// Feet, inches and a fraction of an inch: `7'-6 1/2"`, below one foot `6 1/2"`.
pub fn feet_and_inches(mm: f64, denominator: u32) -> String {
    let den = i64::from(denominator.max(1));
    let parts = (mm.abs() / MM_PER_INCH * den as f64).round() as i64;
    let sign = if mm < 0.0 && parts != 0 { "−" } else { "" };
    let (inches, rest) = (parts / den, parts % den);
    let (feet, inches) = (inches / 12, inches % 12);
    let mut text = String::from(sign);
    if feet > 0 {
        text += &format!("{feet}'-");
    }
    if rest == 0 {
        text += &format!("{inches}\"");
    } else {
        let by = gcd(rest, den);
        if inches > 0 || feet > 0 {
            text += &format!("{inches} ");
        }
        text += &format!("{}/{}\"", rest / by, den / by);
    }
    text
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// A level, given in mm above ±0: metres with sign and three decimals, or feet and inches with sign.
pub fn level(mm: f64, style: &Figures) -> String {
    match style.unit {
        LengthUnit::Mm => {
            let text = decimal(mm.abs() / 1000.0, 3, style);
            let zero = (mm.abs() / 1000.0) < 0.000_5;
            format!(
                "{}{text}",
                if zero {
                    "±"
                } else if mm < 0.0 {
                    "−"
                } else {
                    "+"
                }
            )
        }
        _ => {
            let text = feet_and_inches(mm.abs(), style.fraction);
            let text = if text.contains('\'') { text } else { format!("0'-{text}") };
            format!(
                "{}{text}",
                if text == "0'-0\"" {
                    "±"
                } else if mm < 0.0 {
                    "−"
                } else {
                    "+"
                }
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn millimetres() {
        let s = Figures::default();
        assert_eq!(length(1250.0, &s), "1250");
        assert_eq!(length(12.5, &s), "12.5");
        assert_eq!(length(12.02, &s), "12");
        assert_eq!(decimal(14.625, 2, &s), "14.63");
        assert_eq!(decimal(-14.625, 2, &s), "−14.63");
        assert_eq!(length(12.5, &Figures { decimal: DecimalSign::Comma, ..s }), "12,5");
    }

    /// 7'-6 1/2" = 2298.7 mm exactly, by the definition of the inch.
    #[test]
    fn feet() {
        assert_eq!(feet_and_inches(2298.7, 16), "7'-6 1/2\"");
        assert_eq!(feet_and_inches(165.1, 16), "6 1/2\"");
        assert_eq!(feet_and_inches(304.8, 16), "1'-0\"");
        assert_eq!(feet_and_inches(304.8 + 12.7, 16), "1'-0 1/2\"");
        assert_eq!(feet_and_inches(4.7625, 16), "3/16\"");
        assert_eq!(feet_and_inches(25.39, 16), "1\"");
    }

    /// Drills of ASME B94.11M: 13/32, 21/32 and 27/64 in are written as such; other lengths keep the sheet's sixteenths.
    #[test]
    fn small_sizes_are_exact() {
        let us = Figures { unit: LengthUnit::InchFraction, ..Figures::us() };
        for (inches, written) in [
            (13.0 / 32.0, "13/32\""),
            (21.0 / 32.0, "21/32\""),
            (27.0 / 64.0, "27/64\""),
            (0.75, "3/4\""),
            (0.257, "1/4\""),
            (2.01, "2\""),
            (36.0 + 1.0 / 32.0, "3'-0 1/16\""),
        ] {
            let mm = inches * MM_PER_INCH;
            assert_eq!(length(mm, &us), written, "{inches}");
            assert!((as_read(mm, &us, Written::default()) - mm).abs() <= MM_PER_INCH / 32.0 + 1e-9);
        }
        assert!((as_read(13.0 / 32.0 * MM_PER_INCH, &us, Written::default()) - 13.0 / 32.0 * MM_PER_INCH).abs() < 1e-9);
    }

    #[test]
    fn levels() {
        let s = Figures::default();
        assert_eq!(level(-1850.0, &s), "−1.850");
        assert_eq!(level(0.0, &s), "±0.000");
        assert_eq!(level(75.2, &s), "+0.075");
        assert_eq!(level(-1828.8, &Figures::us()), "−6'-0\"");
        assert_eq!(level(76.2, &Figures::us()), "+0'-3\"");
    }
}
