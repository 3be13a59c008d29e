//! Belt stretch and the take-up travel that it needs.
//!
//! In: belt, take-up, path. Out: mm. The belt is new with the take-up at its highest; travel is found on
//! the real path, so an inclined run needs more than half the stretch.

use super::path::Path;
use super::{Group, Quantity};
use crate::formulas::stretch::{self, SHORTENED, STRETCH, TRAVEL};
use crate::model::Foot;
use crate::spec::Spec;
use crate::units::Unit;

/// Stretch and travel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// Length of the new belt, take-up at its highest, mm.
    pub new_length_mm: f64,
    /// Extra length from stretch, mm.
    pub extra_mm: f64,
    /// Extra length from stretch and one new splice, mm.
    pub extra_with_splice_mm: f64,
    /// Travel that the stretch needs, mm.
    pub travel_for_stretch_mm: f64,
    /// Travel that one closing step needs, mm.
    pub travel_for_splice_mm: f64,
    /// How often the belt is shortened while it stretches; `None` where the travel is too short for one closing step.
    pub shortenings: Option<u32>,
    /// Travel that stretch and splice need, mm.
    pub travel_needed_mm: f64,
    /// Travel given, mm.
    pub travel_mm: f64,
    /// Given less needed, mm.
    pub reserve_mm: f64,
    /// Stretch that the travel takes out without a splice, share of the length.
    pub stretch_taken_share: f64,
}

impl Stretch {
    /// Computes it.
    pub fn compute(spec: &Spec, foot: &Foot, path: &Path) -> Self {
        let new_length_mm = path.highest.length_mm;
        let extra_mm = stretch::extra_length_mm(new_length_mm, spec.belt.stretch.value());
        let extra_with_splice_mm = extra_mm + spec.take_up.splice.value();
        let high = foot.belt.circles().with_foot_at(foot.shaft_highest);
        // A path exists at the highest position, and lowering the foot pulley cannot destroy it; the plain rate stands in if it did.
        let travel = |extra: f64| stretch::travel_for_mm(&high, extra).unwrap_or(extra / path.highest.length_per_lowering);
        let (travel_for_stretch_mm, travel_needed_mm) = (travel(extra_mm), travel(extra_with_splice_mm));
        let travel_mm = foot.shaft_highest - foot.shaft_lowest;
        Self {
            new_length_mm,
            extra_mm,
            extra_with_splice_mm,
            travel_for_stretch_mm,
            travel_for_splice_mm: travel(spec.take_up.splice.value()),
            shortenings: stretch::shortenings(extra_mm, path.taken_up_mm, spec.take_up.splice.value()),
            travel_needed_mm,
            travel_mm,
            reserve_mm: travel_mm - travel_needed_mm,
            stretch_taken_share: path.taken_up_mm / new_length_mm,
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("stretch", out);
        g.put("extra", "belt length from stretch", self.extra_mm, Unit::Mm, &["path.length_highest", "belt.stretch"], STRETCH);
        g.put(
            "extra_with_splice",
            "belt length from stretch and one splice",
            self.extra_with_splice_mm,
            Unit::Mm,
            &["stretch.extra", "take_up.splice"],
            STRETCH,
        );
        g.put(
            "travel_for_stretch",
            "take-up travel that the stretch needs",
            self.travel_for_stretch_mm,
            Unit::Mm,
            &["stretch.extra", "path.length_rate_highest"],
            TRAVEL,
        );
        g.put(
            "travel_needed",
            "take-up travel that stretch and splice need",
            self.travel_needed_mm,
            Unit::Mm,
            &["stretch.extra_with_splice", "path.length_rate_highest"],
            TRAVEL,
        );
        g.put("reserve", "travel given less travel needed", self.reserve_mm, Unit::Mm, &["take_up.travel", "stretch.travel_needed"], TRAVEL);
        g.put(
            "travel_for_splice",
            "take-up travel that one closing step needs",
            self.travel_for_splice_mm,
            Unit::Mm,
            &["take_up.splice", "path.length_rate_highest"],
            TRAVEL,
        );
        if let Some(times) = self.shortenings {
            let from = ["stretch.extra", "path.taken_up", "take_up.splice"];
            g.put("shortenings", "how often the belt is shortened while it stretches", f64::from(times), Unit::One, &from, SHORTENED);
        }
        g.put(
            "taken_share",
            "stretch that the travel takes out without a splice",
            self.stretch_taken_share,
            Unit::One,
            &["path.taken_up", "path.length_highest"],
            TRAVEL,
        );
    }
}
