//! Drawing scales: ISO 5455 and the usual US inch scales, and the largest that fits.
//!
//! In: the family and how much the model must shrink to fit. Out: a scale of the list, or `None` if
//! even the smallest does not fit. Nothing here looks at a sheet.

use crate::sources::Source;

/// ISO scales.
pub const SOURCE: Source = Source::standard("ISO 5455:1979").from_memory();
/// US scales of engineering and architectural offices.
pub const US: Source = Source::practice("usual US inch scales");

/// A scale `paper : model`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Paper side of the ratio.
    pub paper: f64,
    /// Model side of the ratio.
    pub model: f64,
    /// As written in the title block.
    pub text: &'static str,
}

impl Scale {
    /// Paper length per model length.
    pub fn factor(&self) -> f64 {
        self.paper / self.model
    }
}

/// Which list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// ISO 5455.
    Iso,
    /// US inch practice.
    Us,
}

impl Family {
    /// The scales of the family from the largest to the smallest.
    pub const fn scales(self) -> &'static [Scale] {
        match self {
            Family::Iso => ISO,
            Family::Us => INCH,
        }
    }
    /// The largest scale whose factor is at most `factor` (paper per model); `None` if none is.
    pub fn largest_within(self, factor: f64) -> Option<&'static Scale> {
        self.scales().iter().find(|s| s.factor() <= factor * (1.0 + 1e-12))
    }
}

const fn s(paper: f64, model: f64, text: &'static str) -> Scale {
    Scale { paper, model, text }
}

/// ISO 5455, from 50:1 to 1:10000.
pub const ISO: &[Scale] = &[
    s(50.0, 1.0, "50:1"),
    s(20.0, 1.0, "20:1"),
    s(10.0, 1.0, "10:1"),
    s(5.0, 1.0, "5:1"),
    s(2.0, 1.0, "2:1"),
    s(1.0, 1.0, "1:1"),
    s(1.0, 2.0, "1:2"),
    s(1.0, 5.0, "1:5"),
    s(1.0, 10.0, "1:10"),
    s(1.0, 20.0, "1:20"),
    s(1.0, 50.0, "1:50"),
    s(1.0, 100.0, "1:100"),
    s(1.0, 200.0, "1:200"),
    s(1.0, 500.0, "1:500"),
    s(1.0, 1000.0, "1:1000"),
    s(1.0, 2000.0, "1:2000"),
    s(1.0, 5000.0, "1:5000"),
    s(1.0, 10000.0, "1:10000"),
];

/// Usual US scales, from 4:1 to 1/16" = 1'-0".
pub const INCH: &[Scale] = &[
    s(4.0, 1.0, "4:1"),
    s(2.0, 1.0, "2:1"),
    s(1.0, 1.0, "1:1"),
    s(1.0, 2.0, "1:2"),
    s(1.0, 4.0, "3\" = 1'-0\""),
    s(1.0, 8.0, "1 1/2\" = 1'-0\""),
    s(1.0, 12.0, "1\" = 1'-0\""),
    s(1.0, 16.0, "3/4\" = 1'-0\""),
    s(1.0, 24.0, "1/2\" = 1'-0\""),
    s(1.0, 32.0, "3/8\" = 1'-0\""),
    s(1.0, 48.0, "1/4\" = 1'-0\""),
    s(1.0, 64.0, "3/16\" = 1'-0\""),
    s(1.0, 96.0, "1/8\" = 1'-0\""),
    s(1.0, 192.0, "1/16\" = 1'-0\""),
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 5455: every step is 1, 2 or 5 times a power of ten.
    #[test]
    fn iso_steps() {
        for s in ISO {
            let r = s.paper.max(s.model);
            let lead = r / 10f64.powf(r.log10().floor());
            assert!([1.0, 2.0, 5.0].iter().any(|x| (x - lead).abs() < 1e-9), "{}", s.text);
            assert_eq!(s.text, format!("{}:{}", s.paper, s.model));
        }
        assert!(Family::Iso.scales().windows(2).all(|w| w[0].factor() > w[1].factor()));
        assert!(Family::Us.scales().windows(2).all(|w| w[0].factor() > w[1].factor()));
    }

    #[test]
    fn the_inch_text_says_the_ratio() {
        for s in INCH.iter().filter(|s| s.text.contains('"')) {
            let inches: f64 = s
                .text
                .split('"')
                .next()
                .unwrap()
                .split(' ')
                .map(|t| match t.split_once('/') {
                    Some((a, b)) => a.parse::<f64>().unwrap() / b.parse::<f64>().unwrap(),
                    None => t.parse::<f64>().unwrap(),
                })
                .sum();
            assert!((12.0 / inches - s.model).abs() < 1e-9, "{}", s.text);
        }
    }

    #[test]
    fn the_largest_that_fits() {
        assert_eq!(Family::Iso.largest_within(0.11).unwrap().text, "1:10");
        assert_eq!(Family::Iso.largest_within(0.1).unwrap().text, "1:10");
        assert_eq!(Family::Iso.largest_within(0.099).unwrap().text, "1:20");
        assert_eq!(Family::Us.largest_within(0.05).unwrap().model, 24.0);
        assert!(Family::Iso.largest_within(1e-6).is_none());
        assert!(Family::Iso.largest_within(f64::NAN).is_none());
    }
}
