//! The foot shaft: simply supported, two equal loads at the hubs.
//!
//! In: N, mm, MPa. Out: bending moment, stress, deflection, slopes, diameters. Solid round shaft of one
//! diameter, no shear deflection (matters for span/diameter below 10), no torque: the foot shaft drives nothing.

use crate::sources::Source;
use std::f64::consts::PI;

/// Beam formulas.
pub const BEAM: Source = Source::physics("simply supported beam with two equal loads");
/// Slope at the hub and its limit.
pub const HUB_SLOPE: Source = Source::standard("ANSI/CEMA B105.1").remark("tan α = R·A(B−2A)/(4EI), limited for welded pulleys");
/// Shaft size against fatigue.
pub const FATIGUE: Source = Source::standard("ANSI/CEMA B105.1").remark("formula of shaft size, after ASME B106.1M");

/// Largest slope at the hub of a welded pulley, rad (about 8 minutes of arc). Source: [`HUB_SLOPE`].
pub const LARGEST_HUB_SLOPE_RAD: f64 = 0.0023;

/// Second moment of area of a round shaft, mm⁴: π·d⁴/64 = 0.049087·d⁴.
pub fn second_moment_mm4(diameter_mm: f64) -> f64 {
    PI * diameter_mm.powi(4) / 64.0
}

/// Section modulus of a round shaft, mm³: π·d³/32.
pub fn section_modulus_mm3(diameter_mm: f64) -> f64 {
    PI * diameter_mm.powi(3) / 32.0
}

/// A shaft on two bearings under a resultant shared by two hubs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoLoads {
    /// Resultant R on the pulley, N; each hub carries R/2.
    pub resultant_n: f64,
    /// Bearing centres B, mm.
    pub span_mm: f64,
    /// Moment arm A from bearing to hub, mm; less than B/2.
    pub arm_mm: f64,
}

impl TwoLoads {
    /// Largest bending moment, N·mm: M = R/2·A, constant between the hubs. Source: [`BEAM`].
    pub fn moment_nmm(&self) -> f64 {
        self.resultant_n / 2.0 * self.arm_mm
    }
    /// Bending stress, MPa.
    pub fn stress_mpa(&self, diameter_mm: f64) -> f64 {
        self.moment_nmm() / section_modulus_mm3(diameter_mm)
    }
    fn stiffness(&self, diameter_mm: f64, modulus_mpa: f64) -> f64 {
        modulus_mpa * second_moment_mm4(diameter_mm)
    }
    /// Deflection at mid-span, mm: P·a(3L² − 4a²)/(24EI), P = R/2.
    pub fn deflection_mm(&self, diameter_mm: f64, modulus_mpa: f64) -> f64 {
        let (p, a, l) = (self.resultant_n / 2.0, self.arm_mm, self.span_mm);
        p * a * (3.0 * l * l - 4.0 * a * a) / (24.0 * self.stiffness(diameter_mm, modulus_mpa))
    }
    /// Deflection at the hub, mm: P·a²(3L − 4a)/(6EI).
    pub fn hub_deflection_mm(&self, diameter_mm: f64, modulus_mpa: f64) -> f64 {
        let (p, a, l) = (self.resultant_n / 2.0, self.arm_mm, self.span_mm);
        p * a * a * (3.0 * l - 4.0 * a) / (6.0 * self.stiffness(diameter_mm, modulus_mpa))
    }
    /// Slope at the hub, rad: R·A(B − 2A)/(4EI). Source: [`HUB_SLOPE`].
    ///
    /// ```
    /// use footwell::formulas::shaft::TwoLoads;
    /// let s = TwoLoads { resultant_n: 20_000.0, span_mm: 800.0, arm_mm: 150.0 };
    /// assert!((s.hub_slope_rad(70.0, 207_000.0) - 1.5371e-3).abs() < 1e-7);
    /// assert!((s.stress_mpa(70.0) - 44.545).abs() < 1e-3);
    /// ```
    pub fn hub_slope_rad(&self, diameter_mm: f64, modulus_mpa: f64) -> f64 {
        self.resultant_n * self.arm_mm * (self.span_mm - 2.0 * self.arm_mm) / (4.0 * self.stiffness(diameter_mm, modulus_mpa))
    }
    /// Slope at the bearing, rad: P·a(L − a)/(2EI).
    pub fn bearing_slope_rad(&self, diameter_mm: f64, modulus_mpa: f64) -> f64 {
        self.resultant_n / 2.0 * self.arm_mm * (self.span_mm - self.arm_mm) / (2.0 * self.stiffness(diameter_mm, modulus_mpa))
    }
    /// Least diameter for a slope at the hub, mm: (64·I/π)^{1/4}. Zero when the hubs meet at mid-span.
    pub fn diameter_for_hub_slope_mm(&self, largest_rad: f64, modulus_mpa: f64) -> f64 {
        self.hub_slope_rad(1.0, modulus_mpa).max(0.0).powf(0.25) / largest_rad.powf(0.25)
    }
    /// Load on each bearing, N.
    pub fn bearing_load_n(&self) -> f64 {
        self.resultant_n / 2.0
    }
}

/// Fatigue strength in place, MPa: S_f = k_a·k_b·k_c·k_f·S_f*, with k_a 0.8 (machined), k_b = D^−0.19 (D in
/// inches), k_c 0.897 (90→99 % survival) and k_f for a keyway (1 without). Source: [`FATIGUE`].
pub fn fatigue_strength_mpa(base_mpa: f64, diameter_mm: f64, keyway_factor: f64) -> f64 {
    0.8 * (diameter_mm / crate::units::MM_PER_INCH).powf(-0.19) * 0.897 * keyway_factor * base_mpa
}

/// Shaft diameter against fatigue and yield, mm:
/// D = {(32·FS/π)·√[(M/S_f)² + ¾(T/S_y)²]}^{1/3}, FS usually 1.5. M, T in N·mm, strengths in MPa. Source: [`FATIGUE`].
pub fn fatigue_diameter_mm(moment_nmm: f64, torque_nmm: f64, fatigue_mpa: f64, yield_mpa: f64, safety: f64) -> f64 {
    (32.0 * safety / PI * (moment_nmm / fatigue_mpa).hypot(0.75_f64.sqrt() * torque_nmm / yield_mpa)).cbrt()
}

/// Shaft diameter in mm at which a moment (N·mm) bends it with its yield strength over a reserve: (32·n·M/(π·S_y))^{1/3}. Source: [`BEAM`].
pub fn diameter_for_yield_mm(moment_nmm: f64, yield_mpa: f64, reserve: f64) -> f64 {
    (32.0 * reserve * moment_nmm / (PI * yield_mpa)).cbrt()
}

/// Diameter after scaling for a slope: d·(n·slope/allowed)^{1/4}. Source: Shigley, Mechanical Engineering Design, Ex. 7-4.
pub fn diameter_scaled_for_slope_mm(diameter_mm: f64, slope_rad: f64, allowed_rad: f64) -> f64 {
    diameter_mm * (slope_rad / allowed_rad).powf(0.25)
}

#[cfg(test)]
mod tests {
    use super::*;

    const E: f64 = 207_000.0;
    fn metric() -> TwoLoads {
        TwoLoads { resultant_n: 20_000.0, span_mm: 800.0, arm_mm: 150.0 }
    }

    /// Computed example: R 20 kN, L 800, a 150, d 70, E 207 GPa.
    #[test]
    fn metric_example() {
        let s = metric();
        assert!((second_moment_mm4(70.0) - 1_178_588.0).abs() < 1.0);
        assert!((section_modulus_mm3(70.0) - 33_673.9).abs() < 0.1);
        assert!((s.moment_nmm() - 1.5e6).abs() < 1e-6);
        assert!((s.stress_mpa(70.0) - 44.545).abs() < 1e-3);
        assert!((s.deflection_mm(70.0, E) - 0.468_81).abs() < 1e-5);
        assert!((s.hub_deflection_mm(70.0, E) - 0.276_68).abs() < 1e-5);
        assert!((s.bearing_slope_rad(70.0, E) - 1.9982e-3).abs() < 1e-7);
        assert!((s.hub_slope_rad(70.0, E) - 1.5371e-3).abs() < 1e-7);
        assert_eq!(s.bearing_load_n(), 10_000.0);
    }

    /// Computed inch example: R 3000 lbf, B 40, A 6, d 2 7/16 in, E 29e6 psi: slope 0.0025074 (fails 0.0023), 6330 psi.
    #[test]
    fn inch_example() {
        let s = TwoLoads { resultant_n: 3000.0, span_mm: 40.0, arm_mm: 6.0 };
        assert!((second_moment_mm4(2.4375) - 1.732_79).abs() < 1e-5);
        assert!((s.hub_slope_rad(2.4375, 29e6) - 0.002_507_4).abs() < 1e-7);
        assert!(s.hub_slope_rad(2.4375, 29e6) > LARGEST_HUB_SLOPE_RAD);
        assert!((s.stress_mpa(2.4375) - 6330.0).abs() < 1.0);
    }

    /// Identity: with R = 2P both slope forms agree, P·a(L − 2a)/(2EI).
    #[test]
    fn both_slope_forms_agree() {
        let (p, a, l) = (10_000.0, 150.0, 800.0);
        assert!((p * a * (l - 2.0 * a) / (2.0 * E * second_moment_mm4(70.0)) - metric().hub_slope_rad(70.0, E)).abs() < 1e-15);
    }

    /// At its yield diameter the stress, summed over fibres of the section, is the yield strength over the reserve.
    #[test]
    fn yield_diameter() {
        let (moment, strength, reserve) = (2.7e6, 305.0, 1.1);
        let d = diameter_for_yield_mm(moment, strength, reserve);
        let (edge, count) = (strength / reserve, 20_000);
        let step = d / f64::from(count);
        let carried: f64 =
            (0..count).map(|i| (f64::from(i) + 0.5) * step - d / 2.0).map(|z| edge * z / (d / 2.0) * z * 2.0 * (d * d / 4.0 - z * z).sqrt() * step).sum();
        assert!((carried / moment - 1.0).abs() < 1e-5, "{carried}");
    }

    #[test]
    fn diameters_meet_their_limits() {
        let s = metric();
        let d = s.diameter_for_hub_slope_mm(0.0023, E);
        assert!((s.hub_slope_rad(d, E) - 0.0023).abs() < 1e-12 && d < 70.0);
        assert_eq!(TwoLoads { arm_mm: 400.0, ..s }.diameter_for_hub_slope_mm(0.0023, E), 0.0);
    }

    /// Shigley Ex. 7-4: (0.001095/0.0005)^¼ = 1.216.
    #[test]
    fn scaling() {
        assert!((diameter_scaled_for_slope_mm(1.0, 0.001_095, 0.0005) - 1.2165).abs() < 1e-4);
    }

    /// ANSI/CEMA B105.1 with C1045 (S_f* 41 000 psi = 282.7 MPa): the formula turned round gives the stress back.
    #[test]
    fn fatigue() {
        let sf = fatigue_strength_mpa(282.7, 70.0, 1.0);
        assert!((sf - 0.8 * 0.897 * 282.7 * (70.0f64 / 25.4).powf(-0.19)).abs() < 1e-9);
        assert!((fatigue_strength_mpa(282.7, 25.4, 0.63) - 0.8 * 0.897 * 0.63 * 282.7).abs() < 1e-9);
        let d = fatigue_diameter_mm(1.5e6, 0.0, sf, 310.0, 1.5);
        assert!((1.5e6 / section_modulus_mm3(d) * 1.5 - sf).abs() < 1e-9);
        let twisted = fatigue_diameter_mm(0.0, 1.0e6, sf, 310.0, 1.0);
        // pure torque: τ = 16T/πd³ equals S_y/√3
        assert!((16.0 * 1.0e6 / (PI * twisted.powi(3)) - 310.0 / 3f64.sqrt()).abs() < 1e-6);
    }
}
