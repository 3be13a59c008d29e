//! The foot bearings: load, life, rating needed.
//!
//! In: the shaft's design load, load cases, speed, ratings from the spec. Out: N, h. Each bearing carries half the
//! load; radial only; ball bearings; no allowance for dirt, which decides in a foot: seals matter more.

use super::cases::{Cases, Worst};
use super::motion::Motion;
use super::shaft::Shaft;
use super::{Group, Quantity};
use crate::formulas::bearing_life::{self, Element, LIFE};
use crate::formulas::bearing_static::{self, STATIC};
use crate::formulas::shaft::BEAM;
use crate::say;
use crate::spec::Spec;
use crate::units::Unit;

/// Bearings in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// Radial load on each bearing, N.
    pub load_n: f64,
    /// Basic dynamic rating, N.
    pub rating_n: f64,
    /// Basic rating life, h.
    pub life_h: f64,
    /// Wanted life, h.
    pub wanted_h: f64,
    /// Rating that the wanted life needs, N.
    pub rating_needed_n: f64,
    /// Load case that presses a bearing most, and the basic static rating, N.
    pub worst: Worst,
    /// Static safety then.
    pub static_safety: f64,
}

impl Bearing {
    /// Computes it.
    pub fn compute(spec: &Spec, motion: &Motion, shaft: &Shaft, cases: &Cases) -> Self {
        let load_n = shaft.beam.bearing_load_n();
        let rating_n = spec.bearings.rating.value();
        let wanted_h = spec.bearings.life.value() / 3600.0;
        let static_rating_n = spec.bearings.static_rating.value();
        let worst = cases.worst(|c| (c.shaft_n / 2.0, static_rating_n));
        Self {
            worst,
            static_safety: bearing_static::safety(static_rating_n, worst.value),
            load_n,
            rating_n,
            life_h: bearing_life::life_h(rating_n / 1000.0, load_n / 1000.0, motion.foot_rpm, Element::Ball),
            wanted_h,
            rating_needed_n: 1000.0 * bearing_life::rating_needed_kn(load_n / 1000.0, motion.foot_rpm, wanted_h, Element::Ball),
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("bearing", out);
        g.put("load", "load on each foot bearing", self.load_n, Unit::N, &["shaft.design_load"], BEAM);
        g.put("life", "basic rating life L10h", self.life_h, Unit::H, &["bearings.rating", "bearing.load", "motion.foot_rpm"], LIFE);
        g.put("rating_needed", "rating that the wanted life needs", self.rating_needed_n, Unit::N, &["bearing.load", "motion.foot_rpm", "bearings.life"], LIFE);
        let case = self.worst.case;
        g.put(
            "worst_load",
            say!("load on each foot bearing in the worst case: {case}", case = case.name),
            self.worst.value,
            Unit::N,
            &[&format!("cases.{}.shaft", case.id)],
            BEAM,
        );
        g.put("static_safety", "static safety in the worst case", self.static_safety, Unit::One, &["bearings.static_rating", "bearing.worst_load"], STATIC);
    }
}
