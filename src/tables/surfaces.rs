//! Surface texture and run-out of turned parts by what a surface is for.
//!
//! In: a use. Out: arithmetical mean height Ra in µm as ISO 21920-1 names it, in US jobs roughness average in µin; run-out
//! in mm.

use super::fits;
use crate::sources::Source;

/// Ra by use.
pub const SOURCE: Source = Source::practice("ground seats Ra 0.8, bores and keyway flanks Ra 1.6 and 3.2, turned all over Ra 6.3");
/// Run-out.
pub const RUN_OUT: Source = Source::practice(
    "hub seats run true to the bearing seats within IT7 of their diameter, shaft ends within 1 in 500 of a usual diameter, rolled rims within 1 in 400",
);

/// What a surface is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Use {
    /// Ground: seats of bearings and hubs.
    Seat,
    /// Bore of a hub.
    Bore,
    /// Sides of a keyway.
    Flank,
    /// All other turned surfaces.
    Turned,
}

impl Use {
    /// Ra, µm and µin: the steps of the two series that stand for each other.
    pub const fn ra(self) -> (f64, u32) {
        match self {
            Self::Seat => (0.8, 32),
            Self::Bore => (1.6, 63),
            Self::Flank => (3.2, 125),
            Self::Turned => (6.3, 250),
        }
    }
}

/// Run-out of a hub seat to the bearing seats, mm; `None` beyond the table of grades.
pub fn hub_run_out_mm(diameter_mm: f64) -> Option<f64> {
    fits::grade_mm(7, diameter_mm)
}

/// Run-out of a shaft's end face, mm.
pub const END_RUN_OUT_MM: f64 = 0.1;

/// Run-out of a rim that is rolled and welded and not turned, mm: whole and half millimetres.
pub fn rim_run_out_mm(diameter_mm: f64) -> f64 {
    (diameter_mm / 400.0 * 2.0).ceil() / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 µin is 0.0254 µm; the series are steps of 2 that stand for each other to within a few percent.
    #[test]
    fn both_series_say_the_same() {
        for of in [Use::Seat, Use::Bore, Use::Flank, Use::Turned] {
            let (micrometre, microinch) = of.ra();
            assert!((f64::from(microinch) * 0.0254 / micrometre - 1.0).abs() < 0.03, "{of:?}");
        }
        assert!((rim_run_out_mm(500.0) - 1.5).abs() < 1e-9 && hub_run_out_mm(60.0).is_some_and(|t| (t - 0.03).abs() < 1e-9));
    }
}
