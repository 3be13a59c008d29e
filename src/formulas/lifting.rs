//! Lifting by lugs: what hangs on one of them, and what its eye, its root and its seams bear.
//!
//! In: kg, N, mm, rad. Out: N, MPa, N/mm. A lug stands square to a wall, its upper edge under a bar that the wall carries; the
//! pull is upward, along the wall and toward it. Elastic, seams as lines; static, with hoisting in the factor.

use crate::sources::Source;
use crate::units::GRAVITY;

/// Pull of a leg.
pub const SLING: Source = Source::physics("two diagonal legs carry all, each by its lever; upright part over the sine of the angle from the horizontal");
/// Eye of a plate on a pin, bending of a plate about its weak axis.
pub const EYE: Source = Source::standard("ASME BTH-1, 3-2.3, 3-3.3").remark("pin-connected plates, solid rectangles in weak-axis bending").from_memory();
/// What is kept in hand.
pub const DESIGN: Source = Source::standard("EN 13155, 5.1.1")
    .remark("twice the load without lasting deformation, three times without rupture; made for loose gear, taken for lugs on the load")
    .from_memory();
/// Seams as lines on a wall and under a bar.
pub const SEAMS: Source = Source::physics("seams as elastic lines in the plane of the lug: force over length, moment over their second moments");

/// Strength over stress where something yields. Source: [`DESIGN`].
pub const DESIGN_FACTOR: f64 = 2.0;
/// The same where something tears. Source: [`DESIGN`].
pub const TEARING_FACTOR: f64 = 3.0;
/// Least angle of a sling from the horizontal, degrees (common practice: flatter ones pull more sideways than up).
pub const LEAST_ANGLE_DEG: f64 = 60.0;

/// Upright part of a leg's pull, N: its share of the mass. Source: [`SLING`].
pub fn upright_n(mass_kg: f64, share: f64) -> f64 {
    mass_kg * share * GRAVITY
}

/// Level part of a leg's pull, N, from its upright part and the angle from the horizontal. Source: [`SLING`].
pub fn level_n(upright_n: f64, angle_rad: f64) -> f64 {
    upright_n / angle_rad.tan()
}

/// A round eye on a pin, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Eye {
    /// Diameter of the hole.
    pub hole: f64,
    /// Diameter of the pin.
    pub pin: f64,
    /// Radius of the plate's end round the hole.
    pub radius: f64,
    /// Thickness of the plate.
    pub thickness: f64,
}

/// Turn of the planes of shear from the pull, degrees, over pin and hole. Source: [`EYE`].
const SHEAR_PLANES_DEG: f64 = 55.0;

impl Eye {
    /// From the hole to the edge.
    pub fn edge(&self) -> f64 {
        self.radius - self.hole / 2.0
    }
    /// Pressure of the pin, MPa.
    pub fn bearing_mpa(&self, force_n: f64) -> f64 {
        force_n / (self.pin * self.thickness)
    }
    /// Shear in the two planes along which the pin tears out, MPa.
    pub fn tear_out_mpa(&self, force_n: f64) -> f64 {
        let turn = (SHEAR_PLANES_DEG * self.pin / self.hole).to_radians();
        force_n / (2.0 * (self.edge() + self.pin / 2.0 * (1.0 - turn.cos())) * self.thickness)
    }
    /// Tension beside the hole, MPa, on the width that counts for a plate of this tensile over yield strength.
    pub fn beside_mpa(&self, force_n: f64, tensile_over_yield: f64) -> f64 {
        let beside = self.edge();
        let counts = (4.0 * self.thickness).min(beside * 0.6 * tensile_over_yield * (self.hole / beside).sqrt()).min(beside);
        force_n / (2.0 * counts * self.thickness)
    }
    /// Tension in the plane of the pull beyond the hole, MPa, which splits the end.
    pub fn beyond_mpa(&self, force_n: f64) -> f64 {
        let beside = self.edge();
        force_n / ((1.13 * (self.radius - self.hole / 2.0) + 0.92 * beside / (1.0 + beside / self.hole)) * self.thickness)
    }
}

/// The seams of a lug in its own plane, mm: up the wall, and out from the wall along the underside of the bar; a fillet on both
/// sides of the plate. The lines of both meet at (0, 0), where
/// the corner is cut off. The wall gives way to a couple across the thickness, the bar does not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corner {
    /// From the bar down to its lower end.
    pub high: f64,
    /// From the wall out to the edge of the bar.
    pub wide: f64,
    /// Both begin so far from the corner.
    pub cut: f64,
    /// Between the fillets on both sides of the plate.
    pub apart: f64,
}

/// The pull on a lug, N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pull {
    /// Upward.
    pub up: f64,
    /// Along the wall, across the lug.
    pub along: f64,
    /// Toward the wall.
    pub toward: f64,
}

impl Pull {
    /// None.
    pub const NONE: Self = Self { up: 0.0, along: 0.0, toward: 0.0 };
    /// So many times as much.
    #[must_use]
    pub fn times(self, by: f64) -> Self {
        Self { up: self.up * by, along: self.along * by, toward: self.toward * by }
    }
    /// All of it, N.
    pub fn whole(&self) -> f64 {
        self.up.hypot(self.along).hypot(self.toward)
    }
}

impl Corner {
    /// Lengths on the wall and under the bar, mm.
    fn lengths(&self) -> [f64; 2] {
        [self.high - self.cut, (self.wide - self.cut).max(0.0)]
    }

    /// Middle of both lines (out, up), and how a pull of 1 N across the lug at `eye` turns them: force across on a length of both fillets
    /// for each mm out, and for each mm up.
    fn turned(&self, eye: [f64; 2]) -> ([f64; 2], [f64; 2]) {
        let [h, w] = self.lengths();
        let length = h + w;
        let first = |to: f64| (to * to - self.cut * self.cut) / 2.0;
        let second = |to: f64| (to.powi(3) - self.cut.powi(3)) / 3.0;
        let middle = [if w > 0.0 { first(self.wide) / length } else { 0.0 }, -first(self.high) / length];
        // Second moments about the middle; the fillets under the bar hold by their distance as well.
        let out = if w > 0.0 { second(self.wide) } else { 0.0 } - length * middle[0] * middle[0] + w * self.apart * self.apart / 4.0;
        let up = second(self.high) - length * middle[1] * middle[1];
        let mixed = -length * middle[0] * middle[1];
        let [ey, ez] = [eye[0] - middle[0], eye[1] - middle[1]];
        let det = out * up - mixed * mixed;
        let by = if w > 0.0 { [(ey * up - ez * mixed) / det, (ez * out - ey * mixed) / det] } else { [0.0, ez / up] };
        (middle, by)
    }

    /// Force across the lug on a length of both fillets, N/mm, at a place (out, up), from 1 N at `eye`.
    fn across(&self, eye: [f64; 2], at: [f64; 2]) -> f64 {
        let (middle, by) = self.turned(eye);
        1.0 / self.lengths().iter().sum::<f64>() + by[0] * (at[0] - middle[0]) + by[1] * (at[1] - middle[1])
    }

    /// Largest force on a length of one fillet on the wall, N/mm, from a pull at `eye` (out from the wall, up from the bar's underside).
    /// What pulls in the plane of the lug is borne by the wall alone. Source: [`SEAMS`].
    pub fn wall_n_per_mm(&self, pull: &Pull, eye: [f64; 2]) -> f64 {
        let h = self.lengths()[0];
        let moment = pull.up * eye[0] + pull.toward * (eye[1] + f64::midpoint(self.cut, self.high));
        let square = (6.0 * moment / (2.0 * h * h)).abs() + pull.toward / (2.0 * h);
        let upright = pull.up / (2.0 * h);
        [[0.0, -self.cut], [0.0, -self.high]].map(|at| square.hypot(upright).hypot(pull.along * self.across(eye, at) / 2.0)).into_iter().fold(0.0, f64::max)
    }

    /// Largest force on a length of one fillet under the bar, N/mm, which bears of what pulls across the lug its part. Source: [`SEAMS`].
    pub fn bar_n_per_mm(&self, pull: &Pull, eye: [f64; 2]) -> f64 {
        let couple = self.turned(eye).1[0] * self.apart / 2.0;
        [[self.cut, 0.0], [self.wide, 0.0]].map(|at| pull.along * self.across(eye, at).hypot(couple) / 2.0).into_iter().fold(0.0, f64::max)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 2000 kg on two legs at 60°: 9807 N up, 5662 N level, 11,324 N along each leg.
    #[test]
    fn a_leg_by_hand() {
        let up = upright_n(2000.0, 0.5);
        let level = level_n(up, 60f64.to_radians());
        assert!((up - 9806.65).abs() < 0.01 && (level - 5661.9).abs() < 0.1 && (up.hypot(level) - 11_323.7).abs() < 0.1);
    }

    /// By hand, 10 kN on a pin of 16 in a hole of 18, end radius 27, plate 15: edge 18; planes at 55 × 16/18 = 48.89°, cosine 0.6575, so
    /// 2 × (18 + 8 × 0.3425) × 15 = 622.2 mm²; beside it 18 × 0.6 × 360/235 = 16.54 each; beyond it (20.34 + 8.28) × 15 = 429.3 mm².
    #[test]
    fn an_eye_by_hand() {
        let eye = Eye { hole: 18.0, pin: 16.0, radius: 27.0, thickness: 15.0 };
        assert!((eye.bearing_mpa(10_000.0) - 41.67).abs() < 0.01);
        assert!((eye.tear_out_mpa(10_000.0) - 10_000.0 / 622.2).abs() < 0.01);
        assert!((eye.beside_mpa(10_000.0, 360.0 / 235.0) - 10_000.0 / (2.0 * 16.545 * 15.0)).abs() < 0.01);
        assert!((eye.beyond_mpa(10_000.0) - 10_000.0 / 429.3).abs() < 0.01);
    }

    /// Statics: what short pieces of the seams carry is the pull and its moments, with and without the bar.
    #[test]
    fn seams_hold_the_balance() {
        for (high, wide, cut, apart) in [(150.0, 40.0, 0.0, 0.0), (200.0, 0.0, 0.0, 20.0), (90.0, 60.0, 15.0, 25.0)] {
            let corner = Corner { high, wide, cut, apart };
            let eye = [100.0, -27.0];
            let count = 20_000;
            let mid = |i: u32, to: f64| cut + (f64::from(i) + 0.5) / f64::from(count) * (to - cut);
            let line = |of: fn(f64) -> [f64; 2], to: f64| (0..count).map(move |i| (of(mid(i, to)), (to - cut) / f64::from(count)));
            let pieces: Vec<([f64; 2], f64)> = line(|s| [0.0, -s], high).chain(line(|s| [s, 0.0], wide)).collect();
            let sum = |arm: fn([f64; 2]) -> f64| pieces.iter().map(|(at, ds)| corner.across(eye, *at) * arm(*at) * ds).sum::<f64>();
            let couple = corner.turned(eye).1[0] * apart * apart / 4.0 * (wide - cut);
            assert!((sum(|_| 1.0) - 1.0).abs() < 1e-6);
            assert!((sum(|p| p[1]) - eye[1]).abs() < 1e-3);
            // A wall alone bears no moment about its own line: nothing in its plane does.
            assert!((sum(|p| p[0]) + couple - if wide > 0.0 { eye[0] } else { 0.0 }).abs() < 1e-3);
        }
    }

    /// By hand, 15 kN up at 100 mm on 165 − 15 = 150 mm of wall: 6 × 1.5e6/(2 × 150²) = 200 N/mm, with 15,000/300 = 50 beside it.
    #[test]
    fn a_wall_seam_by_hand() {
        let corner = Corner { high: 165.0, wide: 50.0, cut: 15.0, apart: 20.0 };
        let up = Pull { up: 15_000.0, along: 0.0, toward: 0.0 };
        assert!((corner.wall_n_per_mm(&up, [100.0, -27.0]) - 200f64.hypot(50.0)).abs() < 1e-9);
        assert!(corner.bar_n_per_mm(&up, [100.0, -27.0]).abs() < 1e-12);
        let swayed = Pull { along: 8000.0, ..up };
        assert!(corner.wall_n_per_mm(&swayed, [100.0, -27.0]) > 200f64.hypot(50.0) && corner.bar_n_per_mm(&swayed, [100.0, -27.0]) > 8000.0 / (2.0 * 185.0));
    }
}
