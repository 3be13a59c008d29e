//! The take-up screws: load, stress, thread pressure, buckling, torque.
//!
//! In: belt pull on the foot shaft, masses that slide with it, rod. Out: only for a screw take-up whose
//! thread the tables know. One rod each side; while one is turned alone it carries more than its half.

use super::assumed::{NUT_LENGTH, STEEL_MODULUS, UNEVEN_RODS};
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::formulas::gravity_take_up::belt_pull_up_n;
use crate::formulas::screw::{self, COLUMN, Ends, PRESSURE, Screw as Thread, TORQUE};
use crate::model::Foot;
use crate::sources::Source;
use crate::spec::Spec;
use crate::spec::rotating::{RodAction, TakeUpKind};
use crate::tables::power_threads;
use crate::units::{GRAVITY, Unit};

/// Load of a rod.
pub const ROD_LOAD: Source = Source::physics("half of (belt pull up less what slides, or what slides with a slack belt), times the factor for uneven turning");

/// One take-up screw in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    /// Belt pull up on the foot shaft, N.
    pub belt_pull_n: f64,
    /// Weight of what slides, N.
    pub sliding_weight_n: f64,
    /// Load of one rod, N.
    pub rod_n: f64,
    /// Normal stress in the core, MPa.
    pub stress_mpa: f64,
    /// Equivalent stress with the torque of turning, MPa.
    pub equivalent_mpa: f64,
    /// Yield strength of the rod over the equivalent stress.
    pub yield_safety: f64,
    /// Pressure on the flanks, MPa.
    pub pressure_mpa: f64,
    /// Torque to tighten one rod, N·m.
    pub torque_nm: f64,
    /// Whether the thread holds by itself.
    pub self_locking: bool,
    /// Largest free length, mm.
    pub free_length_mm: f64,
    /// Critical load of a pushed rod, N; `None` for a pulled one.
    pub critical_n: Option<f64>,
    /// Critical load over rod load; `None` for a pulled one.
    pub buckling_safety: Option<f64>,
}

impl Screw {
    /// Computes it; `None` for a gravity take-up or an unknown thread.
    pub fn compute(spec: &Spec, foot: &Foot, path: &Path, tension: &Tension, masses: &Masses) -> Option<Self> {
        if foot.rotating.take_up != TakeUpKind::Screw {
            return None;
        }
        let row = power_threads::find(&spec.take_up.rod.value)?;
        let lean = path.middle.foot_run_deg.to_radians();
        let belt_pull_n = belt_pull_up_n(tension.foot_up_n, tension.foot_down_n, lean);
        let sliding_weight_n = masses.hanging_kg * GRAVITY;
        let rod_n = (belt_pull_n - sliding_weight_n).abs().max(sliding_weight_n) / 2.0 * UNEVEN_RODS.value;
        let thread = Thread {
            pitch_diameter_mm: row.pitch_diameter_mm(),
            lead_mm: row.pitch_mm,
            friction: spec.take_up.friction.value(),
            flank_rad: row.flank_rad(),
            collar_friction: spec.take_up.friction.value(),
            // A thrust washer about the rod's shoulder: mean diameter about 1.3 times the thread.
            collar_diameter_mm: 1.3 * row.diameter_mm,
        };
        let torque_nmm = thread.raise_nmm(rod_n);
        let stress_mpa = screw::core_stress_mpa(rod_n, row.root_mm());
        // The collar's share does not twist the core.
        let twist = Thread { collar_friction: 0.0, ..thread }.raise_nmm(rod_n);
        let equivalent_mpa = screw::equivalent_stress_mpa(stress_mpa, screw::core_torsion_mpa(twist, row.root_mm()));
        let free_length_mm = foot.rotating.rod_length;
        let critical_n = (spec.take_up.action.value == RodAction::Push)
            .then(|| screw::critical_load_n(row.root_mm(), free_length_mm, Ends::PinnedPinned.design(), STEEL_MODULUS.value, spec.take_up.rod_yield.value()));
        Some(Self {
            belt_pull_n,
            sliding_weight_n,
            rod_n,
            stress_mpa,
            equivalent_mpa,
            yield_safety: spec.take_up.rod_yield.value() / equivalent_mpa,
            pressure_mpa: screw::thread_pressure_mpa(rod_n, row.pitch_diameter_mm(), row.flank_height_mm(), row.pitch_mm, NUT_LENGTH.value * row.diameter_mm),
            torque_nm: torque_nmm / 1000.0,
            self_locking: Thread { collar_friction: 0.0, ..thread }.self_locking(),
            free_length_mm,
            critical_n,
            buckling_safety: critical_n.map(|c| c / rod_n),
        })
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("screw", out);
        g.put(
            "belt_pull",
            "belt pull up on the foot shaft",
            self.belt_pull_n,
            Unit::N,
            &["tension.foot_up", "tension.foot_down", "path.foot_run_middle"],
            ROD_LOAD,
        );
        g.put("sliding_weight", "weight of what slides", self.sliding_weight_n, Unit::N, &["masses.hanging"], ROD_LOAD);
        g.put("rod_load", "load of one rod", self.rod_n, Unit::N, &["screw.belt_pull", "screw.sliding_weight", "assumed.uneven_rods"], ROD_LOAD);
        g.put("stress", "normal stress in the core", self.stress_mpa, Unit::Mpa, &["screw.rod_load", "take_up.rod"], TORQUE);
        g.put("equivalent", "equivalent stress while turning", self.equivalent_mpa, Unit::Mpa, &["screw.stress", "screw.torque"], TORQUE);
        g.put("yield_safety", "yield strength over equivalent stress", self.yield_safety, Unit::One, &["take_up.rod_yield", "screw.equivalent"], TORQUE);
        g.put("pressure", "pressure on the flanks", self.pressure_mpa, Unit::Mpa, &["screw.rod_load", "take_up.rod", "assumed.nut_length"], PRESSURE);
        g.put("torque", "torque to tighten one rod", self.torque_nm, Unit::Nm, &["screw.rod_load", "take_up.rod", "take_up.friction"], TORQUE);
        g.put("free_length", "largest free length", self.free_length_mm, Unit::Mm, &["take_up.travel"], COLUMN);
        if let (Some(critical), Some(safety)) = (self.critical_n, self.buckling_safety) {
            g.put("critical", "critical load", critical, Unit::N, &["take_up.rod", "screw.free_length", "take_up.rod_yield"], COLUMN);
            g.put("buckling_safety", "critical load over rod load", safety, Unit::One, &["screw.critical", "screw.rod_load"], COLUMN);
        }
    }
}
