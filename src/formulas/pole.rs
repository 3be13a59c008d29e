//! The pole of a pulley: where the resultant of weight and centrifugal force cuts the vertical.
//!
//! In: speed in rad/s, rev/min or m/s with the radius where it holds, mm. Out: pole distance in mm and
//! the kind of discharge at the head. The classification is a rule of textbooks; which radius counts
//! as the inner one differs between them, so both radii are arguments.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Pole distance h = g/ω².
pub const POLE: Source = Source::physics("resultant of weight and centrifugal force: h = g/ω²; Spivakovsky and Dyachkov, Conveying Machines");
/// Kinds of discharge by pole distance.
pub const DISCHARGE: Source = Source::book("Spivakovsky, Dyachkov, Conveying Machines").from_memory();
/// Critical speed: centrifugal force equals weight at the top.
pub const CRITICAL_SPEED: Source = Source::physics("ω²·R = g");

/// How buckets empty over the head pulley.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Discharge {
    /// The pole lies within the inner bucket radius: product is thrown.
    Centrifugal,
    /// The pole lies between inner and outer bucket radius.
    Mixed,
    /// The pole lies outside the bucket's path: product falls out.
    Gravity,
}

impl Discharge {
    /// The word on sheets.
    pub const fn word(self) -> &'static str {
        match self {
            Discharge::Centrifugal => "centrifugal",
            Discharge::Mixed => "mixed",
            Discharge::Gravity => "gravity",
        }
    }
}

/// Pole distance above the pulley centre, mm: h = g/ω², ω in rad/s. Infinite at standstill. Source: [`POLE`].
pub fn pole_distance_mm(omega_rad_per_s: f64) -> f64 {
    1000.0 * GRAVITY / (omega_rad_per_s * omega_rad_per_s)
}

/// Angular speed in rad/s of a speed (m/s) that holds at a radius (mm).
pub fn omega_rad_per_s(speed_m_per_s: f64, radius_mm: f64) -> f64 {
    1000.0 * speed_m_per_s / radius_mm
}

/// Kind of discharge from the pole distance and the bucket's inner and outer radius, all mm.
/// Source: [`DISCHARGE`]: h ≤ inner: centrifugal; inner < h ≤ outer: mixed; h > outer: gravity.
pub fn discharge(pole_distance_mm: f64, inner_radius_mm: f64, outer_radius_mm: f64) -> Discharge {
    if pole_distance_mm <= inner_radius_mm {
        Discharge::Centrifugal
    } else if pole_distance_mm <= outer_radius_mm {
        Discharge::Mixed
    } else {
        Discharge::Gravity
    }
}

/// Speed in m/s at a radius (mm) at which the pole lies on that radius: v = √(g·R). Source: [`CRITICAL_SPEED`].
pub fn critical_speed_m_per_s(radius_mm: f64) -> f64 {
    (GRAVITY * radius_mm / 1000.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Angular speed of a speed in rev/min.
    fn turning(rpm: f64) -> f64 {
        rpm * std::f64::consts::PI / 30.0
    }

    /// Computed table with the exact constant: h = 894.26/n² m.
    #[test]
    fn pole_table() {
        for (n, h) in [(50.0, 357.7), (60.0, 248.4), (75.0, 159.0), (80.0, 139.7), (100.0, 89.43)] {
            assert!((pole_distance_mm(turning(n)) / h - 1.0).abs() < 1e-3, "{n}");
            assert!((pole_distance_mm(turning(n)) / (895_000.0 / (n * n)) - 1.0).abs() < 1e-3, "printed constant 895");
        }
    }

    /// Computed: critical speeds with g = 9.81 for D = 0.40 … 1.25 m.
    #[test]
    fn critical_table() {
        let g = (9.81 / GRAVITY).sqrt();
        for (d, v, n) in
            [(0.40, 1.4007, 66.88), (0.50, 1.5660, 59.82), (0.63, 1.7579, 53.29), (0.80, 1.9809, 47.29), (1.00, 2.2147, 42.30), (1.25, 2.4761, 37.83)]
        {
            assert!((critical_speed_m_per_s(d * 500.0) * g - v).abs() < 1e-4, "{d}");
            assert!((omega_rad_per_s(critical_speed_m_per_s(d * 500.0), d * 500.0) / turning(1.0) * g - n).abs() < 0.01, "{d}");
        }
    }

    /// Identities: h·ω² = g; h at the critical speed = R; h falls with n².
    #[test]
    fn identities() {
        let w = omega_rad_per_s(2.5, 315.0);
        assert!((pole_distance_mm(w) * w * w / 1000.0 - GRAVITY).abs() < 1e-12);
        assert!((pole_distance_mm(omega_rad_per_s(critical_speed_m_per_s(400.0), 400.0)) - 400.0).abs() < 1e-9);
        assert!((pole_distance_mm(turning(30.0)) / pole_distance_mm(turning(60.0)) - 4.0).abs() < 1e-12);
        assert!(pole_distance_mm(0.0).is_infinite());
    }

    /// Computed examples (g = 9.81): 2.5 m/s and 1.2 m/s at 0.315 m.
    #[test]
    fn kinds_of_discharge() {
        let g = 9.81 / GRAVITY;
        let fast = pole_distance_mm(omega_rad_per_s(2.5, 315.0));
        assert!((fast * g - 155.74).abs() < 0.05);
        assert_eq!(discharge(fast, 315.0, 470.0), Discharge::Centrifugal);
        let slow = pole_distance_mm(omega_rad_per_s(1.2, 315.0));
        assert!((slow * g - 675.97).abs() < 0.05);
        assert_eq!(discharge(slow, 315.0, 470.0), Discharge::Gravity);
        assert_eq!(discharge(315.0, 315.0, 470.0), Discharge::Centrifugal);
        assert_eq!(discharge(400.0, 315.0, 470.0), Discharge::Mixed);
        assert_eq!(discharge(470.0, 315.0, 470.0), Discharge::Mixed);
        assert_eq!([Discharge::Centrifugal, Discharge::Mixed, Discharge::Gravity].map(Discharge::word), ["centrifugal", "mixed", "gravity"]);
    }
}
