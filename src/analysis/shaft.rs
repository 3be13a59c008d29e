//! The foot shaft: resultant, bending stress, slope at the hub, and the stock sizes that would do.
//!
//! In: tensions at the foot, wrap, masses, bearing centres, hubs, steel. Out: N, MPa, rad, mm. The belt
//! pulls up and the pulley's weight relieves it; the design load takes the larger of the belt alone, the
//! two together and the pulley hanging with a slack belt. No keyway is assumed away: see `assumed`.

use super::assumed::{KEYWAY, RARE_RESERVE, SHAFT_SAFETY, STEEL_MODULUS};
use super::cases::{Cases, Worst};
use super::masses::Masses;
use super::path::Path;
use super::tension::Tension;
use super::{Group, Quantity};
use crate::formulas::shaft::{BEAM, FATIGUE, HUB_SLOPE, LARGEST_HUB_SLOPE_RAD, TwoLoads, diameter_for_yield_mm, fatigue_diameter_mm, fatigue_strength_mpa};
use crate::formulas::tension::{BEND_RESULTANT, pulley_resultant_n};
use crate::model::Foot;
use crate::say;
use crate::sources::Source;
use crate::spec::Spec;
use crate::spec::sheet::LengthUnit;
use crate::tables::{steels, stock_shafts};
use crate::units::{GRAVITY, Unit};

/// Design load.
pub const DESIGN_LOAD: Source = Source::physics("larger of belt alone, belt less pulley weight, pulley weight with a slack belt");
/// Allowed stress.
pub const ALLOWED: Source =
    Source::standard("ANSI/CEMA B105.1").remark("fatigue strength over the safety factor; for steels it does not list, half the tensile strength from memory");

/// The shaft in numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shaft {
    /// Resultant of the two belt runs on the foot pulley, N.
    pub belt_resultant_n: f64,
    /// Its direction from the vertical toward the down side, degrees.
    pub belt_lean_deg: f64,
    /// Weight of pulley and shaft, N.
    pub weight_n: f64,
    /// Belt and weight together (vector sum), N.
    pub running_resultant_n: f64,
    /// Design load on the two hubs together, N.
    pub design_n: f64,
    /// Beam with the design load.
    pub beam: TwoLoads,
    /// Largest bending moment, N·m.
    pub moment_nm: f64,
    /// Bending stress in the hubs, MPa.
    pub stress_mpa: f64,
    /// Allowed bending stress for this steel and diameter, MPa.
    pub allowed_mpa: f64,
    /// Load case that takes most of what the shaft may be bent with, MPa: the allowed stress where it turns for years, the yield
    /// strength with a reserve in rare cases.
    pub worst: Worst,
    /// Yield strength of the steel, MPa.
    pub yield_mpa: f64,
    /// Slope at the hub, rad.
    pub hub_slope_rad: f64,
    /// Slope at the bearing, rad.
    pub bearing_slope_rad: f64,
    /// Deflection at mid-span, mm.
    pub deflection_mm: f64,
    /// Diameter that the stress needs in every load case, mm.
    pub diameter_for_stress_mm: f64,
    /// Diameter that the slope needs, mm.
    pub diameter_for_slope_mm: f64,
    /// Stock diameter that holds both, mm; `None` when the largest stock size does not.
    pub stock_mm: Option<f64>,
}

impl Shaft {
    /// Computes it, take-up in the middle.
    pub fn compute(spec: &Spec, foot: &Foot, path: &Path, (tension, cases): (&Tension, &Cases), masses: &Masses) -> Self {
        let (up, down) = (tension.foot_up_n, tension.foot_down_n);
        let wrap = path.middle.foot_wrap_deg.to_radians();
        let belt_resultant_n = pulley_resultant_n(up, down, wrap);
        // The up run pulls straight up, the down run up and away by its lean.
        let lean = path.middle.foot_run_deg.to_radians();
        let (vertical, sideways) = (up + down * lean.cos(), down * lean.sin());
        let weight_n = (masses.foot_pulley_kg + masses.shaft_kg) * GRAVITY;
        let running_resultant_n = (vertical - weight_n).hypot(sideways);
        let design_n = belt_resultant_n.max(running_resultant_n).max(weight_n);
        let span_mm = spec.shaft.bearing_centres.value();
        let beam = TwoLoads { resultant_n: design_n, span_mm, arm_mm: ((span_mm - foot.pulleys.hub_spacing) / 2.0).max(0.0) };
        let d = foot.rotating.shaft_diameter;
        let e = STEEL_MODULUS.value;
        let base = fatigue_base_mpa(&spec.shaft.steel.value);
        let allowed = |d: f64| fatigue_strength_mpa(base, d, KEYWAY.value) / SHAFT_SAFETY.value;
        // The size factor falls slowly with the diameter, so a few rounds settle it.
        let mut wanted = d;
        for _ in 0..8 {
            wanted = fatigue_diameter_mm(beam.moment_nmm(), 0.0, fatigue_strength_mpa(base, wanted, KEYWAY.value), base, SHAFT_SAFETY.value).max(1.0);
        }
        let yield_mpa = steel(&spec.shaft.steel.value).map_or(LOWEST_YIELD, |s| s.yield_mpa);
        let bent = |load: f64| TwoLoads { resultant_n: load, ..beam };
        let worst = cases.worst(|c| (bent(c.shaft_n).stress_mpa(d), if c.rare { yield_mpa / RARE_RESERVE.value } else { allowed(d) }));
        let hardest = cases.most_rare(|c| c.shaft_n);
        let wanted = wanted.max(diameter_for_yield_mm(bent(hardest).moment_nmm(), yield_mpa, RARE_RESERVE.value));
        let diameter_for_slope_mm = beam.diameter_for_hub_slope_mm(LARGEST_HUB_SLOPE_RAD, e);
        let least = wanted.max(diameter_for_slope_mm);
        let metric = spec.sheet.unit.value == LengthUnit::Mm;
        Self {
            belt_resultant_n,
            belt_lean_deg: sideways.atan2(vertical).to_degrees(),
            weight_n,
            running_resultant_n,
            design_n,
            moment_nm: beam.moment_nmm() / 1000.0,
            stress_mpa: beam.stress_mpa(d),
            allowed_mpa: allowed(d),
            worst,
            yield_mpa,
            hub_slope_rad: beam.hub_slope_rad(d, e),
            bearing_slope_rad: beam.bearing_slope_rad(d, e),
            deflection_mm: beam.deflection_mm(d, e),
            diameter_for_stress_mm: wanted,
            diameter_for_slope_mm,
            stock_mm: if metric { stock_shafts::metric_at_least_mm(least) } else { stock_shafts::inch_at_least_mm(least) },
            beam,
        }
    }

    /// Lists the numbers.
    pub fn record(&self, out: &mut Vec<Quantity>) {
        let mut g = Group::new("shaft", out);
        const BEAM_FROM: &[&str] = &["shaft.design_load", "shaft.bearing_centres", "foot_pulley.hub_spacing", "shaft.diameter"];
        g.put(
            "belt_resultant",
            "resultant of the belt on the foot pulley",
            self.belt_resultant_n,
            Unit::N,
            &["tension.foot_up", "tension.foot_down", "path.foot_wrap_middle"],
            BEND_RESULTANT,
        );
        g.put("belt_lean", "its direction from the vertical toward the down side", self.belt_lean_deg, Unit::Degree, &["path.foot_run_middle"], BEND_RESULTANT);
        g.put("weight", "weight of pulley and shaft", self.weight_n, Unit::N, &["masses.foot_pulley", "masses.shaft"], DESIGN_LOAD);
        g.put("running_resultant", "belt and weight together", self.running_resultant_n, Unit::N, &["shaft.belt_resultant", "shaft.weight"], DESIGN_LOAD);
        g.put(
            "design_load",
            "design load of the shaft",
            self.design_n,
            Unit::N,
            &["shaft.belt_resultant", "shaft.running_resultant", "shaft.weight"],
            DESIGN_LOAD,
        );
        g.put("arm", "bearing centre to hub", self.beam.arm_mm, Unit::Mm, &["shaft.bearing_centres", "foot_pulley.hub_spacing"], BEAM);
        g.put("moment", "largest bending moment", self.moment_nm, Unit::Nm, BEAM_FROM, BEAM);
        g.put("stress", "bending stress in the hubs", self.stress_mpa, Unit::Mpa, BEAM_FROM, BEAM);
        g.put(
            "allowed",
            "allowed bending stress",
            self.allowed_mpa,
            Unit::Mpa,
            &["shaft.steel", "shaft.diameter", "assumed.keyway", "assumed.shaft_safety"],
            ALLOWED,
        );
        let w = &self.worst;
        const WORST: &[&str] = &["shaft.steel", "shaft.diameter", "cases.full.shaft", "cases.blocked_empty.shaft", "assumed.rare_reserve"];
        g.put("worst_stress", say!("bending stress in the worst case: {case}", case = w.case.name), w.value, Unit::Mpa, WORST, BEAM);
        g.put("worst_allowed", say!("allowed then: {case}", case = w.case.name), w.limit, Unit::Mpa, WORST, ALLOWED);
        g.put("hub_slope", "slope at the hub", self.hub_slope_rad, Unit::Rad, BEAM_FROM, HUB_SLOPE);
        g.put("bearing_slope", "slope at the bearing", self.bearing_slope_rad, Unit::Rad, BEAM_FROM, BEAM);
        g.put("deflection", "deflection at mid-span", self.deflection_mm, Unit::Mm, BEAM_FROM, BEAM);
        g.put(
            "diameter_for_stress",
            "diameter that the stress needs",
            self.diameter_for_stress_mm,
            Unit::Mm,
            &["shaft.moment", "cases.blocked_empty.shaft", "shaft.steel", "assumed.keyway", "assumed.shaft_safety", "assumed.rare_reserve"],
            FATIGUE,
        );
        g.put(
            "diameter_for_slope",
            "diameter that the slope at the hub needs",
            self.diameter_for_slope_mm,
            Unit::Mm,
            &["shaft.design_load", "shaft.bearing_centres", "assumed.steel_modulus"],
            HUB_SLOPE,
        );
        if let Some(d) = self.stock_mm {
            g.put("stock", "stock diameter that holds both", d, Unit::Mm, &["shaft.diameter_for_stress", "shaft.diameter_for_slope"], stock_shafts::SOURCE);
        }
    }
}

/// Yield strength for an unknown name, MPa: the lowest of the shaft steels.
const LOWEST_YIELD: f64 = 220.0;

/// The steel of this name, also without its C.
fn steel(name: &str) -> Option<&'static steels::Steel> {
    steels::find(name).or_else(|| steels::find(&format!("C{}", name.trim())))
}

/// Base fatigue strength S_f* of the named steel, MPa: the standard's where it has it, else half the tensile strength; C1018's, the lowest, for an unknown name.
fn fatigue_base_mpa(name: &str) -> f64 {
    let lowest = steels::find("C1018").and_then(|s| s.fatigue_mpa).unwrap_or(200.0);
    steel(name).map_or(lowest, |s| s.fatigue_mpa.unwrap_or(s.tensile_mpa / 2.0))
}
