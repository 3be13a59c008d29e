//! The bend pulley: wrap, resultant, smallest diameter, and its shaft.
//!
//! In: path, tension in the foot, belt, bend pulley. Out: only for a foot with one. The tension is that
//! of the down run at the foot plus the weight of the run between. Its shaft is taken on the foot
//! shaft's bearing centres and hubs, since the casing's width sets both.

use super::assumed::STEEL_MODULUS;
use super::capacity::Capacity;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::formulas::capacity::run_weight_n;
use crate::formulas::shaft::{BEAM, HUB_SLOPE, TwoLoads};
use crate::formulas::tension::{BEND_RESULTANT, CHAIN, pulley_resultant_n};
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::units::Unit;

/// The bend pulley in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// Wrap, take-up at its lowest, middle, highest, degrees.
    pub wrap_deg: [f64; 3],
    /// Least and largest wrap over the travel, degrees.
    pub wrap_range_deg: [f64; 2],
    /// Belt tension at the bend, N.
    pub tension_n: f64,
    /// Resultant of the belt at the largest wrap, N.
    pub resultant_n: f64,
    /// Diameter, mm.
    pub diameter_mm: f64,
    /// Belt's smallest pulley for a small wrap, mm.
    pub least_diameter_mm: f64,
    /// Bending stress of its shaft, MPa.
    pub stress_mpa: f64,
    /// Slope of its shaft at the hub, rad.
    pub hub_slope_rad: f64,
}

impl Bend {
    /// Computes it; `None` without a bend pulley or when the belt passes clear of it everywhere.
    pub fn compute(spec: &Spec, foot: &Foot, capacity: &Capacity, path: &Path, tension: &Tension) -> Option<Self> {
        let body = foot.pulleys.bend.as_ref()?;
        let wrap_deg = [path.lowest.bend_wrap_deg, path.middle.bend_wrap_deg, path.highest.bend_wrap_deg];
        let range = wrap_deg.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], w| [low.min(*w), high.max(*w)]);
        if range[1] <= 0.0 {
            return None;
        }
        let above = ((body.centre.z - (foot.shaft_lowest + foot.shaft_highest) / 2.0) / 1000.0).max(0.0);
        let tension_n = tension.foot_down_n + run_weight_n(capacity.empty_kg_per_m, above);
        let resultant_n = pulley_resultant_n(tension_n, tension_n, range[1].to_radians());
        let span_mm = spec.shaft.bearing_centres.value();
        let beam = TwoLoads { resultant_n, span_mm, arm_mm: ((span_mm - foot.pulleys.hub_spacing) / 2.0).max(0.0) };
        let d = spec.bend_pulley.shaft.value();
        Some(Self {
            wrap_deg,
            wrap_range_deg: range,
            tension_n,
            resultant_n,
            diameter_mm: body.diameter,
            least_diameter_mm: spec.belt.min_bend_pulley.value(),
            stress_mpa: beam.stress_mpa(d),
            hub_slope_rad: beam.hub_slope_rad(d, STEEL_MODULUS.value),
        })
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("bend", out);
        g.put(
            "wrap_least",
            "least wrap over the travel",
            self.wrap_range_deg[0],
            Unit::Degree,
            &["path.bend_wrap_lowest", "path.bend_wrap_highest"],
            BEND_RESULTANT,
        );
        g.put(
            "wrap_largest",
            "largest wrap over the travel",
            self.wrap_range_deg[1],
            Unit::Degree,
            &["path.bend_wrap_lowest", "path.bend_wrap_highest"],
            BEND_RESULTANT,
        );
        g.put(
            "tension",
            "belt tension at the bend pulley",
            self.tension_n,
            Unit::N,
            &["tension.foot_down", "capacity.empty_line_mass", "bend_pulley.height"],
            CHAIN,
        );
        g.put("resultant", "resultant on the bend pulley", self.resultant_n, Unit::N, &["bend.tension", "bend.wrap_largest"], BEND_RESULTANT);
        g.put("diameter", "bend pulley", self.diameter_mm, Unit::Mm, &["bend_pulley.diameter"], Source::spec("bend_pulley.diameter"));
        g.put(
            "least_diameter",
            "belt's smallest pulley for a small wrap",
            self.least_diameter_mm,
            Unit::Mm,
            &["belt.min_bend_pulley"],
            Source::spec("belt.min_bend_pulley"),
        );
        g.put(
            "shaft_stress",
            "bending stress of its shaft",
            self.stress_mpa,
            Unit::Mpa,
            &["bend.resultant", "bend_pulley.shaft", "shaft.bearing_centres"],
            BEAM,
        );
        g.put(
            "hub_slope",
            "slope of its shaft at the hub",
            self.hub_slope_rad,
            Unit::Rad,
            &["bend.resultant", "bend_pulley.shaft", "assumed.steel_modulus"],
            HUB_SLOPE,
        );
    }
}
