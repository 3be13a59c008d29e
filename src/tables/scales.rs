//! Drawing scales: ISO 5455 and the usual US inch scales.
//!
//! In: the family of sheets. Out: its scales, largest picture first.

use super::sheets::Standard;
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
    /// Real length per length on paper: 10 is 1:10, 0.5 is 2:1.
    pub fn real_per_paper(&self) -> f64 {
        self.model / self.paper
    }
}

/// The scales of a family of sheets, from the largest to the smallest.
pub const fn of(standard: Standard) -> &'static [Scale] {
    match standard {
        Standard::Iso => ISO,
        Standard::Ansi => INCH,
    }
}

const fn s(paper: f64, model: f64, text: &'static str) -> Scale {
    Scale { paper, model, text }
}

/// ISO 5455, from 50:1 to 1:10000.
const ISO: &[Scale] = &[
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

/// Usual US scales, from 4:1 to 1/16" = 1'-0"; below full size as architects' scales are marked.
const INCH: &[Scale] = &[
    s(4.0, 1.0, "4:1"),
    s(2.0, 1.0, "2:1"),
    s(1.0, 1.0, "1:1"),
    s(1.0, 2.0, "6\" = 1'-0\""),
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
        for standard in [Standard::Iso, Standard::Ansi] {
            assert!(of(standard).windows(2).all(|w| w[0].real_per_paper() < w[1].real_per_paper()));
        }
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
}
