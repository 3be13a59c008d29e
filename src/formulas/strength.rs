//! Plates and fillet seams that hold a force out from a wall: bending at the root, between supports, and in the seam.
//!
//! In: N, mm, MPa. Out: MPa, N/mm. Elastic, seams as lines; the wall that the seam stands on is taken as stiff.

use crate::sources::Source;

/// Bending of a plate.
pub const BENDING: Source = Source::physics("elastic bending of a rectangular section: M over b·t²/6");
/// Seams as lines.
pub const SEAM: Source = Source::book("Shigley, Mechanical Engineering Design, Table 9-2").remark("bending properties of fillet welds").from_memory();
/// Strength of a fillet seam.
pub const SEAM_STRENGTH: Source = Source::standard("EN 1993-1-8, 4.5.3.3").remark("simplified method for fillet welds").from_memory();
/// What is kept in hand of yield strength and seams.
pub const IN_HAND: Source = Source::practice("1.5 under loads that last, 1.1 in rare cases: foot blocked, belt overtightened");

/// Yield strength over the stress under a load that lasts. Source: [`IN_HAND`].
pub const LASTING: f64 = 1.5;
/// The same in a rare case, which the part has to survive without being bent. Source: [`IN_HAND`].
pub const RARE: f64 = 1.1;

/// Bending stress in MPa at the root of a plate `width_mm` wide that holds a force at `arm_mm` from it. Source: [`BENDING`].
pub fn root_mpa(force_n: f64, arm_mm: f64, width_mm: f64, thickness_mm: f64) -> f64 {
    6.0 * force_n * arm_mm / (width_mm * thickness_mm * thickness_mm)
}

/// Bending stress in MPa in the middle of a plate that lies free on two supports. Source: [`BENDING`].
pub fn middle_mpa(force_n: f64, span_mm: f64, width_mm: f64, thickness_mm: f64) -> f64 {
    root_mpa(force_n, span_mm / 4.0, width_mm, thickness_mm)
}

/// Strength of a fillet seam's throat in MPa: f_u/(√3·β_w·γ_M2). Source: [`SEAM_STRENGTH`].
///
/// ```
/// // S235: f_u 360 MPa, β_w 0.8, γ_M2 1.25
/// assert!((footwell::formulas::strength::seam_strength_mpa(360.0, 0.8, 1.25) - 207.8).abs() < 0.1);
/// ```
pub fn seam_strength_mpa(tensile_mpa: f64, correlation: f64, safety: f64) -> f64 {
    tensile_mpa / (3f64.sqrt() * correlation * safety)
}

/// Seams on a wall as lines: one across, and uprights below it that begin on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seam {
    /// Length of the line across, mm.
    pub across_mm: f64,
    /// Number of uprights; a plate welded on both sides has two.
    pub uprights: f64,
    /// Their length, mm.
    pub high_mm: f64,
}

impl Seam {
    /// Length of all lines, mm.
    pub fn length_mm(&self) -> f64 {
        self.across_mm + self.uprights * self.high_mm
    }
    /// Its centroid below the line across, mm.
    pub fn middle_mm(&self) -> f64 {
        self.uprights * self.high_mm * self.high_mm / 2.0 / self.length_mm()
    }
    /// Unit second moment of area about the centroid, mm³: n·h³/3 − n·h²·ȳ + L·ȳ². Source: [`SEAM`].
    pub fn second_moment_mm3(&self) -> f64 {
        let (n, h, y) = (self.uprights, self.high_mm, self.middle_mm());
        n * h.powi(3) / 3.0 - n * h * h * y + self.length_mm() * y * y
    }
    /// Largest force on a length of seam, N/mm, from an upright force at an arm from the wall.
    pub fn force_n_per_mm(&self, force_n: f64, arm_mm: f64) -> f64 {
        let furthest = self.middle_mm().max(self.high_mm - self.middle_mm());
        (force_n * arm_mm * furthest / self.second_moment_mm3()).hypot(force_n / self.length_mm())
    }
}

/// Largest force on a length of seam, N/mm, where a plate is welded on along its upper and its lower edge: `width_mm` each,
/// `apart_mm` from each other. Source: [`SEAM`].
pub fn two_edges_n_per_mm(force_n: f64, arm_mm: f64, width_mm: f64, apart_mm: f64) -> f64 {
    (force_n * arm_mm / (width_mm * apart_mm)).hypot(force_n / (2.0 * width_mm))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same lines cut into short pieces, each a point: centroid, second moment, largest force.
    #[test]
    fn seams_agree_with_a_sum_over_points() {
        for (across, uprights, high) in [(140.0, 4.0, 50.0), (140.0, 4.0, 120.0), (200.0, 2.0, 80.0)] {
            let seam = Seam { across_mm: across, uprights, high_mm: high };
            let count = 200_000;
            let step = high / f64::from(count);
            let mut points = vec![(0.0, across)];
            points.extend((0..count).map(|i| ((f64::from(i) + 0.5) * step, uprights * step)));
            let length: f64 = points.iter().map(|p| p.1).sum();
            let middle = points.iter().map(|p| p.0 * p.1).sum::<f64>() / length;
            let second: f64 = points.iter().map(|p| (p.0 - middle).powi(2) * p.1).sum();
            assert!((seam.length_mm() - length).abs() < 1e-6 && (seam.middle_mm() - middle).abs() < 1e-6);
            assert!((seam.second_moment_mm3() / second - 1.0).abs() < 1e-8);
            let worst = points.iter().map(|p| (2e6 * (p.0 - middle) / second).hypot(20_000.0 / length)).fold(0.0, f64::max);
            assert!((seam.force_n_per_mm(20_000.0, 100.0) / worst - 1.0).abs() < 1e-4);
        }
    }

    /// Shigley Table 9-2, a line across with two uprights: ȳ = d²/(b + 2d), I_u = 2d³/3 − 2d²ȳ + (b + 2d)ȳ²; two edges: I_u = b·d²/2.
    #[test]
    fn shigley_table() {
        let (b, d) = (90.0f64, 60.0f64);
        let y = d * d / (b + 2.0 * d);
        let seam = Seam { across_mm: b, uprights: 2.0, high_mm: d };
        assert!((seam.middle_mm() - y).abs() < 1e-12);
        assert!((seam.second_moment_mm3() - (2.0 * d.powi(3) / 3.0 - 2.0 * d * d * y + (b + 2.0 * d) * y * y)).abs() < 1e-6);
        let bending: f64 = 5000.0 * 40.0 * (d / 2.0) / (b * d * d / 2.0);
        assert!((two_edges_n_per_mm(5000.0, 40.0, b, d) - bending.hypot(5000.0 / (2.0 * b))).abs() < 1e-9);
    }

    /// Statics: a fibre model of the root section carries the moment.
    #[test]
    fn plates() {
        let (force, arm, width, thick) = (7000.0, 60.0, 90.0, 20.0);
        let edge = root_mpa(force, arm, width, thick);
        let count = 10_000;
        let step = thick / f64::from(count);
        let carried: f64 = (0..count).map(|i| (f64::from(i) + 0.5) * step - thick / 2.0).map(|z| edge * z / (thick / 2.0) * z * width * step).sum();
        assert!((carried / (force * arm) - 1.0).abs() < 1e-6);
        // A load in the middle of a span: half of it at a quarter of twice the arm.
        assert!((middle_mpa(force, 4.0 * arm, width, thick) - edge).abs() < 1e-9);
    }
}
