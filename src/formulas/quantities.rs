//! Quantities of a box pit: concrete, formwork, excavation with batter, backfill, loose volume.
//!
//! In: mm. Out: m³, m². Concrete is net, no deduction for reinforcement or cast-in steel; formwork by
//! contact area; excavation as bank volume of a truncated pyramid round the foundation and its working
//! space. Sumps and wall openings are to be added or taken off by the caller.

use crate::sources::Source;

/// Volumes.
pub const VOLUMES: Source = Source::physics("boxes and truncated pyramid (prismatoid): h/6·(ab + AB + (a+A)(b+B))");
/// How quantities are measured.
pub const CONVENTION: Source =
    Source::standard("NRM2, CESMM4, DIN 18331").remark("net concrete, small voids not deducted, formwork by contact area").from_memory();
/// Working space beside a foundation.
pub const WORKING_SPACE: Source = Source::standard("NRM2, DIN 4124").remark("working space").from_memory();

/// Working space beside the walls, mm. Source: [`WORKING_SPACE`].
pub const WORKING_SPACE_MM: f64 = 600.0;

/// A box pit with base slab and lean concrete.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxPit {
    /// Inner length, mm.
    pub inner_length_mm: f64,
    /// Inner width, mm.
    pub inner_width_mm: f64,
    /// Inner depth, mm.
    pub depth_mm: f64,
    /// Wall thickness, mm.
    pub wall_mm: f64,
    /// Base thickness, mm.
    pub base_mm: f64,
    /// How far the base stands out beyond the walls, mm.
    pub toe_mm: f64,
    /// Lean concrete under the base, mm.
    pub lean_mm: f64,
}

impl BoxPit {
    fn plan(&self, beyond_walls_mm: f64) -> (f64, f64) {
        let grow = 2.0 * (self.wall_mm + beyond_walls_mm);
        (self.inner_length_mm + grow, self.inner_width_mm + grow)
    }
    /// Concrete of walls and base, m³. Source: [`VOLUMES`].
    pub fn concrete_m3(&self) -> f64 {
        let (l, w) = self.plan(0.0);
        let (bl, bw) = self.plan(self.toe_mm);
        ((l * w - self.inner_length_mm * self.inner_width_mm) * self.depth_mm + bl * bw * self.base_mm) * 1e-9
    }
    /// Lean concrete, m³: the base's plan with 100 mm more all round.
    pub fn lean_concrete_m3(&self) -> f64 {
        let (l, w) = self.plan(self.toe_mm + 100.0);
        l * w * self.lean_mm * 1e-9
    }
    /// Formwork, m²: both faces of the walls and the edge of the base.
    pub fn formwork_m2(&self) -> f64 {
        let (l, w) = self.plan(0.0);
        let (bl, bw) = self.plan(self.toe_mm);
        (2.0 * (self.inner_length_mm + self.inner_width_mm) * self.depth_mm + 2.0 * (l + w) * self.depth_mm + 2.0 * (bl + bw) * self.base_mm) * 1e-6
    }
    /// Depth of the excavation, mm.
    pub fn excavation_depth_mm(&self) -> f64 {
        self.depth_mm + self.base_mm + self.lean_mm
    }
    /// Excavation as bank volume, m³: bottom = base plan + working space all round; sides battered by
    /// `batter` (horizontal per vertical, 0 for vertical sides).
    pub fn excavation_m3(&self, working_space_mm: f64, batter: f64) -> f64 {
        let (l, w) = self.plan(self.toe_mm + working_space_mm);
        let depth = self.excavation_depth_mm();
        truncated_pyramid_m3(l, w, l + 2.0 * batter * depth, w + 2.0 * batter * depth, depth)
    }
    /// Backfill as bank volume, m³: excavation less everything that is built in it.
    pub fn backfill_m3(&self, working_space_mm: f64, batter: f64) -> f64 {
        let (l, w) = self.plan(0.0);
        let (bl, bw) = self.plan(self.toe_mm);
        let built = (l * w * self.depth_mm + bl * bw * self.base_mm) * 1e-9 + self.lean_concrete_m3();
        self.excavation_m3(working_space_mm, batter) - built
    }
}

/// Volume in m³ between two rectangles a×b below and A×B above, h apart (mm). Source: [`VOLUMES`].
///
/// ```
/// let v = footwell::formulas::quantities::truncated_pyramid_m3(2000.0, 1000.0, 4000.0, 3000.0, 1500.0);
/// assert!((v - 9.5).abs() < 1e-9);
/// ```
pub fn truncated_pyramid_m3(a_mm: f64, b_mm: f64, top_a_mm: f64, top_b_mm: f64, height_mm: f64) -> f64 {
    height_mm / 6.0 * (a_mm * b_mm + top_a_mm * top_b_mm + (a_mm + top_a_mm) * (b_mm + top_b_mm)) * 1e-9
}

/// Loose volume of a bank volume: bank × swell factor.
pub fn loose_m3(bank_m3: f64, swell: f64) -> f64 {
    bank_m3 * swell
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pit() -> BoxPit {
        BoxPit { inner_length_mm: 2500.0, inner_width_mm: 2000.0, depth_mm: 2000.0, wall_mm: 250.0, base_mm: 300.0, toe_mm: 300.0, lean_mm: 50.0 }
    }

    /// Computed example of the uplift check: walls 5.000, base 3.348 m³.
    #[test]
    fn concrete_and_formwork() {
        assert!((pit().concrete_m3() - 8.348).abs() < 1e-9);
        assert!((pit().formwork_m2() - (2.0 * 4.5 * 2.0 + 2.0 * 5.5 * 2.0 + 2.0 * 6.7 * 0.3)).abs() < 1e-9);
        assert!((pit().lean_concrete_m3() - 3.8 * 3.3 * 0.05).abs() < 1e-9);
    }

    /// Prismatoid against slices, and a box as the limit.
    #[test]
    fn excavation() {
        let p = pit();
        let depth = 2.35;
        assert!((p.excavation_depth_mm() - 2350.0).abs() < 1e-9);
        assert!((p.excavation_m3(600.0, 0.0) - 4.8 * 4.3 * depth).abs() < 1e-9);
        let slices: f64 =
            (0..10_000).map(|i| (f64::from(i) + 0.5) * depth / 10_000.0).map(|z| (4.8 + 2.0 * 0.75 * z) * (4.3 + 2.0 * 0.75 * z) * depth / 10_000.0).sum();
        assert!((p.excavation_m3(600.0, 0.75) - slices).abs() < 1e-6);
        let built = 3.0 * 2.5 * 2.0 + 3.348 + p.lean_concrete_m3();
        assert!((p.backfill_m3(600.0, 0.75) - slices + built).abs() < 1e-6);
        assert!((loose_m3(10.0, 1.25) - 12.5).abs() < 1e-12);
    }
}
