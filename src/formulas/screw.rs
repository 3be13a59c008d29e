//! The take-up screw: torque, self-locking, efficiency, stresses, buckling.
//!
//! In: N, mm, MPa, friction coefficients, flank angle in rad. Out: N·mm, MPa, N. Works in any one
//! consistent set of units. Power screws in steady turning; dirt and dried-out threads need a higher
//! friction than clean ones.

use crate::sources::Source;
use std::f64::consts::PI;

/// Torque, efficiency, self-locking.
pub const TORQUE: Source = Source::book("Shigley, Mechanical Engineering Design, ch. 8, Ex. 8-1");
/// Column buckling.
pub const COLUMN: Source = Source::book("Shigley, Mechanical Engineering Design").remark("columns after Euler and Johnson");
/// Thread pressure.
pub const PRESSURE: Source = Source::physics("pressure on the bearing flanks, F/(π·d2·H1·z)");

/// Two rods.
pub const BY_HAND: Source = Source::practice("the two rods are turned in small steps by hand");
/// Torque that a person turns with a spanner of half a metre, N·m (common practice).
pub const BY_HAND_NM: f64 = 200.0;
/// What one person turns, and what lets go before.
pub const OVERTIGHTENED: Source =
    Source::practice("a person turns a rod until the spanner lets go: what it then gives on a freshly greased thread, both rods, the sum on the belt");
/// Thread friction of a rod that has just been greased.
pub const GREASE: Source =
    Source::book("Shigley, Mechanical Engineering Design, Table 8-5").remark("steel on steel or bronze, machine oil against dry").from_memory();
/// Friction of a freshly greased thread over that of the same thread in service. Source: [`GREASE`].
pub const GREASED: f64 = 2.0 / 3.0;
/// Step of the torque at which a spanner lets go, N·m (common practice: what its scale is read to).
pub const LET_GO_STEP_NM: f64 = 5.0;
/// Least torque at which a spanner lets go, N·m: less is not felt on a rod (common practice).
pub const LEAST_LET_GO_NM: f64 = 10.0;
/// Mean diameter of the thrust collar of a take-up rod over the thread's (common practice): a washer about the rod's shoulder.
const COLLAR: f64 = 1.3;
/// Load of a rod over its half while it is turned alone. Source: [`BY_HAND`].
pub const UNEVEN_RODS: f64 = 1.5;
/// Yield strength over the equivalent stress of a rod while it is turned (common practice).
pub const TURNED_SAFETY: f64 = 2.0;
/// Wanted safety of a pushed rod against buckling (common practice).
pub const BUCKLING_SAFETY: f64 = 3.0;

/// A screw with its friction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    /// Pitch diameter d2, mm.
    pub pitch_diameter_mm: f64,
    /// Lead (pitch times starts), mm.
    pub lead_mm: f64,
    /// Friction coefficient in the thread.
    pub friction: f64,
    /// Half flank angle, rad: 0 for square, 15° trapezoidal, 14.5° Acme.
    pub flank_rad: f64,
    /// Friction coefficient of the collar; 0 for none.
    pub collar_friction: f64,
    /// Mean diameter of the collar, mm.
    pub collar_diameter_mm: f64,
}

impl Screw {
    /// A take-up rod with this thread in mm and rad, its collar as rough as its thread.
    pub fn rod(diameter_mm: f64, pitch_diameter_mm: f64, lead_mm: f64, flank_rad: f64, friction: f64) -> Self {
        Self { pitch_diameter_mm, lead_mm, friction, flank_rad, collar_friction: friction, collar_diameter_mm: COLLAR * diameter_mm }
    }
    /// Friction in the thread as the flank angle raises it: f·sec α.
    fn thread_friction(&self) -> f64 {
        self.friction / self.flank_rad.cos()
    }
    fn collar_torque(&self, force_n: f64) -> f64 {
        force_n * self.collar_friction * self.collar_diameter_mm / 2.0
    }
    /// Torque to move against the load, N·mm: F·d/2·(l + πfd)/(πd − fl) + F·fc·dc/2. Source: [`TORQUE`].
    ///
    /// ```
    /// use footwell::formulas::screw::Screw;
    /// // Tr30×6, 10 kN, f 0.15, no collar: 30.853 N·m
    /// let s = Screw { pitch_diameter_mm: 27.0, lead_mm: 6.0, friction: 0.15, flank_rad: 15f64.to_radians(), collar_friction: 0.0, collar_diameter_mm: 0.0 };
    /// assert!((s.raise_nmm(10_000.0) - 30_853.0).abs() < 1.0);
    /// ```
    pub fn raise_nmm(&self, force_n: f64) -> f64 {
        let (d, l, f) = (self.pitch_diameter_mm, self.lead_mm, self.thread_friction());
        force_n * d / 2.0 * (l + PI * f * d) / (PI * d - f * l) + self.collar_torque(force_n)
    }
    /// The same rod, freshly greased. Source: [`GREASE`].
    pub fn greased(self) -> Self {
        Self { friction: self.friction * GREASED, collar_friction: self.collar_friction * GREASED, ..self }
    }
    /// Force along the rod in N that a torque in N·mm moves it against: the inverse of [`raise_nmm`](Self::raise_nmm).
    ///
    /// ```
    /// use footwell::formulas::screw::Screw;
    /// // Shigley, Ex. 8-1: 26.18 N·m raise 6.4 kN
    /// let s = Screw { pitch_diameter_mm: 30.0, lead_mm: 8.0, friction: 0.08, flank_rad: 0.0, collar_friction: 0.08, collar_diameter_mm: 40.0 };
    /// assert!((s.force_n(26_180.0) - 6400.0).abs() < 2.0);
    /// ```
    pub fn force_n(&self, torque_nmm: f64) -> f64 {
        torque_nmm / self.raise_nmm(1.0)
    }
    /// Equivalent stress in MPa in the core of a root diameter in mm while it is turned against a force in N; the collar's share does not
    /// twist the core.
    pub fn turned_mpa(&self, force_n: f64, root_mm: f64) -> f64 {
        let twist = Self { collar_friction: 0.0, ..*self }.raise_nmm(force_n);
        equivalent_stress_mpa(core_stress_mpa(force_n, root_mm), core_torsion_mpa(twist, root_mm))
    }
    /// Whether the thread alone holds the load: π·f·d > l.
    pub fn self_locking(&self) -> bool {
        PI * self.thread_friction() * self.pitch_diameter_mm > self.lead_mm
    }
}

/// Normal stress in the core, MPa: 4F/(π·d3²). Source: [`TORQUE`].
pub fn core_stress_mpa(force_n: f64, root_mm: f64) -> f64 {
    4.0 * force_n / (PI * root_mm * root_mm)
}

/// Torsion stress in the core, MPa: 16T/(π·d3³).
pub fn core_torsion_mpa(torque_nmm: f64, root_mm: f64) -> f64 {
    16.0 * torque_nmm / (PI * root_mm.powi(3))
}

/// Equivalent stress of normal and torsion stress, MPa: √(σ² + 3τ²) (distortion energy).
pub fn equivalent_stress_mpa(normal_mpa: f64, torsion_mpa: f64) -> f64 {
    normal_mpa.hypot(3f64.sqrt() * torsion_mpa)
}

/// Pressure on the flanks, MPa: F/(π·d2·H1·z), H1 = half the pitch for trapezoidal threads, z = nut
/// length over pitch. Source: [`PRESSURE`].
pub fn thread_pressure_mpa(force_n: f64, pitch_diameter_mm: f64, flank_height_mm: f64, pitch_mm: f64, nut_length_mm: f64) -> f64 {
    force_n / (PI * pitch_diameter_mm * flank_height_mm * nut_length_mm / pitch_mm)
}

/// How the ends of a pushed screw are held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ends {
    /// One fixed, one free.
    FixedFree,
    /// Both pinned.
    PinnedPinned,
    /// One fixed, one pinned.
    FixedPinned,
    /// Both fixed.
    FixedFixed,
}

impl Ends {
    /// End condition constant for design: fixed ends are never quite fixed (Shigley, from memory).
    pub const fn design(self) -> f64 {
        match self {
            Ends::FixedFree => 0.25,
            Ends::PinnedPinned => 1.0,
            Ends::FixedPinned | Ends::FixedFixed => 1.2,
        }
    }
}

/// Critical load of a round column, N, by Johnson below and Euler above (l/k)₁ = √(2π²CE/S_y),
/// k = d3/4. Source: [`COLUMN`].
///
/// ```
/// use footwell::formulas::screw::critical_load_n;
/// assert!((critical_load_n(23.0, 500.0, 1.0, 207_000.0, 235.0) - 76_410.0).abs() < 10.0);
/// ```
pub fn critical_load_n(root_mm: f64, length_mm: f64, end_constant: f64, modulus_mpa: f64, yield_mpa: f64) -> f64 {
    let area = PI * root_mm * root_mm / 4.0;
    let slenderness = length_mm / (root_mm / 4.0);
    let change = (2.0 * PI * PI * end_constant * modulus_mpa / yield_mpa).sqrt();
    if slenderness > change {
        area * end_constant * PI * PI * modulus_mpa / (slenderness * slenderness)
    } else {
        area * (yield_mpa - (yield_mpa * slenderness / (2.0 * PI)).powi(2) / (end_constant * modulus_mpa))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Shigley Ex. 8-1: d 32, p 4, two starts, f = fc = 0.08, dc 40, F 6.4 kN.
    #[test]
    fn shigley_8_1() {
        let s = Screw { pitch_diameter_mm: 30.0, lead_mm: 8.0, friction: 0.08, flank_rad: 0.0, collar_friction: 0.08, collar_diameter_mm: 40.0 };
        let up = s.raise_nmm(6400.0);
        assert!((up / 1000.0 - 26.18).abs() < 0.005, "{up}");
        assert!(!s.self_locking());
        assert!((core_torsion_mpa(up, 28.0) - 6.07).abs() < 0.01);
        // The thread's share alone, 15.94 N·m, twists the core: 3.70 MPa beside 10.39 MPa of pressure.
        assert!((s.turned_mpa(6400.0, 28.0) - 10.39f64.hypot(3f64.sqrt() * 3.70)).abs() < 0.02);
        assert!((core_stress_mpa(6400.0, 28.0) - 10.39).abs() < 0.01);
    }

    /// Mott, Machine Elements Ex. 17-1 (lbf, in): printed 1809, recomputed 1814.4 lb·in.
    #[test]
    fn mott_17_1() {
        let s = Screw { pitch_diameter_mm: 1.3429, lead_mm: 0.25, friction: 0.15, flank_rad: 0.968f64.acos(), collar_friction: 0.0, collar_diameter_mm: 0.0 };
        assert!((s.raise_nmm(12_500.0) - 1814.4).abs() < 1.0);
        assert!((s.raise_nmm(12_500.0) / 1809.0 - 1.0).abs() < 4e-3);
        assert!(s.self_locking());
    }

    /// Computed: Tr30×6, 10 kN, f 0.15: 30.853 N·m.
    #[test]
    fn tr_30() {
        let s = Screw { pitch_diameter_mm: 27.0, lead_mm: 6.0, friction: 0.15, flank_rad: 15f64.to_radians(), collar_friction: 0.0, collar_diameter_mm: 0.0 };
        assert!((s.raise_nmm(10_000.0) - 30_853.0).abs() < 1.0);
        // π·f·d = 3.142 mm per turn: holds a lead of 3.1 mm, not one of 3.2 mm
        let square = Screw { pitch_diameter_mm: 10.0, friction: 0.1, flank_rad: 0.0, ..s };
        assert!(Screw { lead_mm: 3.1, ..square }.self_locking() && !Screw { lead_mm: 3.2, ..square }.self_locking());
        // Greased, by hand: f 0.1/cos 15° = 0.103528; 10 kN · 13.5 · (6 + π·0.103528·27)/(π·27 − 0.103528·6) = 23.699 N·m.
        assert!((s.greased().raise_nmm(10_000.0) - 23_699.0).abs() < 2.0 && (s.greased().force_n(23_699.0) - 10_000.0).abs() < 1.0);
        // a steeper flank rubs more
        assert!(Screw { flank_rad: 30f64.to_radians(), ..s }.raise_nmm(1.0) > s.raise_nmm(1.0));
    }

    /// Computed critical loads of Tr30×6 (root 23 mm, E 207 GPa), kN.
    #[test]
    fn columns() {
        for (yield_mpa, c, loads) in [
            (235.0, 0.25, [67.07, 28.06, 8.66]),
            (235.0, 1.0, [89.99, 76.41, 34.65]),
            (235.0, 2.0, [93.82, 87.02, 63.24]),
            (355.0, 1.0, [130.05, 99.05, 34.65]),
        ] {
            for (l, want) in [300.0, 500.0, 900.0].into_iter().zip(loads) {
                let got = critical_load_n(23.0, l, c, 207_000.0, yield_mpa) / 1000.0;
                assert!((got - want).abs() < 0.006, "{yield_mpa} {c} {l}: {got}");
            }
        }
        // continuity: at the change both give half the yield strength
        let change = (2.0 * PI * PI * 207_000.0 / 235.0_f64).sqrt() * 23.0 / 4.0;
        for l in [change - 1e-6, change + 1e-6] {
            assert!((critical_load_n(23.0, l, 1.0, 207_000.0, 235.0) / (PI * 23.0 * 23.0 / 4.0) - 117.5).abs() < 1e-3);
        }
    }

    #[test]
    fn ends_and_pressure() {
        use Ends::*;
        assert_eq!([FixedFree, PinnedPinned, FixedPinned, FixedFixed].map(Ends::design), [0.25, 1.0, 1.2, 1.2]);
        // Shigley Ex. 8-1 form with one thread: F/(π·30·2·1) = 33.95 MPa
        assert!((thread_pressure_mpa(6400.0, 30.0, 2.0, 4.0, 4.0) - 33.95).abs() < 0.01);
        assert!((equivalent_stress_mpa(3.0, 4.0 / 3f64.sqrt()) - 5.0).abs() < 1e-12);
    }
}
