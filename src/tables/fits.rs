//! Limits of size of what is turned: the ISO classes that this machine uses, and what US shops use in their place.
//!
//! In: a fit and a diameter or width in mm. Out: deviations from the basic size, mm. One shaft carries one fit: the bearings
//! are pushed over its ends and the hubs over the bearings' places, from one ground bar; [`of_shaft`] and [`of_bore`] say
//! which. No fit outside the tables is guessed.

use crate::sources::Source;
use crate::units::MM_PER_INCH;
use serde::Serialize;

/// Standard tolerance grades and the deviation P of keyways.
pub const SOURCE: Source = Source::standard("ISO 286-1, ISO 286-2").from_memory();
/// Bores of hubs in US jobs: the hole of class LC2.
pub const INCH_BORES: Source = Source::standard("ANSI B4.1").remark("class LC2").from_memory();
/// Turned, ground and polished inch bars.
pub const INCH_BARS: Source = Source::standard("ASTM A108").remark("turned, ground and polished bars; check against the bar that is bought").from_memory();
/// That shafts are h6 in insert bearings and in hubs with keys, and hubs H7.
pub const CHOICE: Source = Source::practice("one ground bar h6 for set-screw insert bearings and for hubs H7 with parallel keys");

/// A fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Fit {
    /// ISO h6: a ground shaft.
    ShaftH6,
    /// ISO H7: a bore.
    BoreH7,
    /// ISO P9: keyways that hold their key.
    KeywayP9,
    /// Turned, ground and polished inch bar.
    InchBar,
    /// Inch bore of class LC2.
    InchBore,
}

/// Deviations from the basic size, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Of the largest size.
    pub upper: f64,
    /// Of the least size.
    pub lower: f64,
}

/// The fit of a shaft, in bearings, in hubs and between them.
pub const fn of_shaft(us: bool) -> Fit {
    if us { Fit::InchBar } else { Fit::ShaftH6 }
}

/// The fit of a hub's bore.
pub const fn of_bore(us: bool) -> Fit {
    if us { Fit::InchBore } else { Fit::BoreH7 }
}

impl Fit {
    /// The class as written behind a size; nothing where the limits themselves are written.
    pub const fn class(self) -> Option<&'static str> {
        match self {
            Self::ShaftH6 => Some("h6"),
            Self::BoreH7 => Some("H7"),
            Self::KeywayP9 => Some("P9"),
            Self::InchBar | Self::InchBore => None,
        }
    }

    /// Deviations at a size, mm; `None` outside the tables.
    pub fn limits(self, size_mm: f64) -> Option<Limits> {
        let inch = |rows: &[(f64, f64)]| row(rows, size_mm / MM_PER_INCH).map(|mil| mil / 1000.0 * MM_PER_INCH);
        Some(match self {
            Self::ShaftH6 => Limits { upper: 0.0, lower: -grade_mm(6, size_mm)? },
            Self::BoreH7 => Limits { upper: grade_mm(7, size_mm)?, lower: 0.0 },
            Self::KeywayP9 => {
                let upper = -row(P, size_mm)? / 1000.0;
                Limits { upper, lower: upper - grade_mm(9, size_mm)? }
            }
            Self::InchBar => Limits { upper: 0.0, lower: -inch(BARS)? },
            Self::InchBore => Limits { upper: inch(BORES)?, lower: 0.0 },
        })
    }
}

/// Standard tolerance of grade 6, 7 or 9 at a size, mm; `None` outside the table.
pub fn grade_mm(grade: u8, size_mm: f64) -> Option<f64> {
    let rows = match grade {
        6 => IT6,
        7 => IT7,
        9 => IT9,
        _ => return None,
    };
    row(rows, size_mm).map(|micron| micron / 1000.0)
}

/// The value of the first row that reaches up to a size.
fn row(rows: &[(f64, f64)], size: f64) -> Option<f64> {
    rows.iter().find(|(up_to, _)| size > 0.0 && size <= up_to + 1e-6).map(|(_, value)| *value)
}

/// Grade 6: sizes up to, mm; µm.
const IT6: &[(f64, f64)] =
    &[(3.0, 6.0), (6.0, 8.0), (10.0, 9.0), (18.0, 11.0), (30.0, 13.0), (50.0, 16.0), (80.0, 19.0), (120.0, 22.0), (180.0, 25.0), (250.0, 29.0), (315.0, 32.0)];
/// Grade 7.
const IT7: &[(f64, f64)] = &[
    (3.0, 10.0),
    (6.0, 12.0),
    (10.0, 15.0),
    (18.0, 18.0),
    (30.0, 21.0),
    (50.0, 25.0),
    (80.0, 30.0),
    (120.0, 35.0),
    (180.0, 40.0),
    (250.0, 46.0),
    (315.0, 52.0),
];
/// Grade 9.
const IT9: &[(f64, f64)] = &[
    (3.0, 25.0),
    (6.0, 30.0),
    (10.0, 36.0),
    (18.0, 43.0),
    (30.0, 52.0),
    (50.0, 62.0),
    (80.0, 74.0),
    (120.0, 87.0),
    (180.0, 100.0),
    (250.0, 115.0),
    (315.0, 130.0),
];
/// How far below the basic size P begins, µm.
const P: &[(f64, f64)] = &[(3.0, 6.0), (6.0, 12.0), (10.0, 15.0), (18.0, 18.0), (30.0, 22.0), (50.0, 26.0), (80.0, 32.0), (120.0, 37.0)];
/// Hole of class LC2: sizes up to, in; thousandths of an inch over the basic size.
const BORES: &[(f64, f64)] = &[(0.4, 0.6), (0.71, 0.7), (1.19, 0.8), (1.97, 1.0), (3.15, 1.2), (4.73, 1.4), (7.09, 1.6), (9.85, 1.8)];
/// Ground bars: sizes up to, in; thousandths of an inch below the basic size.
const BARS: &[(f64, f64)] = &[(1.5, 1.0), (2.4999, 1.5), (2.9999, 2.0), (4.0, 3.0), (6.0, 4.0)];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// ISO 286-2 as printed in machine-elements textbooks (from memory): ⌀60 h6 0/−19, ⌀60 H7 +30/0, 18 P9 −18/−61,
    /// 20 P9 −22/−74, ⌀100 h6 0/−22.
    #[test]
    fn iso_limits() {
        for (fit, size, upper, lower) in [
            (Fit::ShaftH6, 60.0, 0.0, -0.019),
            (Fit::BoreH7, 60.0, 0.030, 0.0),
            (Fit::KeywayP9, 18.0, -0.018, -0.061),
            (Fit::KeywayP9, 20.0, -0.022, -0.074),
            (Fit::ShaftH6, 100.0, 0.0, -0.022),
            (Fit::ShaftH6, 50.0, 0.0, -0.016),
        ] {
            let got = fit.limits(size).unwrap();
            assert!((got.upper - upper).abs() < 1e-9 && (got.lower - lower).abs() < 1e-9, "{size} {got:?}");
        }
        assert!(Fit::ShaftH6.limits(400.0).is_none() && Fit::ShaftH6.limits(f64::NAN).is_none() && grade_mm(5, 60.0).is_none());
    }

    /// A grade is 1.6 times the one before it from IT6 on (ISO 286-1: 10 i, 16 i, 40 i), to the rounding of the table (beyond 6 mm).
    #[test]
    fn grades_keep_their_ratio() {
        for (((_, six), (_, seven)), (_, nine)) in IT6.iter().zip(IT7).zip(IT9).skip(2) {
            assert!((seven / six - 1.6).abs() < 0.12 && (nine / six - 4.0).abs() < 0.25, "{six} {seven} {nine}");
        }
    }

    /// LC2 has the hole H7 and inch steps of the ISO ones: no more than a tenth of a thousandth apart where the steps agree.
    #[test]
    fn inch_limits() {
        let d = 2.4375 * MM_PER_INCH;
        let bore = Fit::InchBore.limits(d).unwrap();
        assert!((bore.upper / MM_PER_INCH - 0.0012).abs() < 1e-9 && (bore.upper - Fit::BoreH7.limits(d).unwrap().upper).abs() < 0.0026);
        assert!((Fit::InchBar.limits(d).unwrap().lower / MM_PER_INCH + 0.0015).abs() < 1e-9);
        assert!(Fit::InchBar.limits(200.0).is_none());
        assert_eq!((of_shaft(false), of_bore(true)), (Fit::ShaftH6, Fit::InchBore));
    }
}
