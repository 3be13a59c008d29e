//! Uplift of an empty pit by groundwater, with the bookkeeping stated.
//!
//! In: inner sizes of the pit in mm, unit weights in kN/m³. Out: kN and the factor of safety. The pit is
//! a box with a base that may stand out all round; soil counts only vertically above that toe. Wall
//! friction, tension piles and the machine's own weight are left out, which is on the safe side.

use crate::sources::Source;

/// Balance of weights and water pressure.
pub const UPLIFT: Source = Source::physics("Archimedes: uplift is the weight of the displaced water");
/// Required factor by Eurocode: 1.0/0.9.
pub const EN_1997: Source = Source::standard("EN 1997-1 clause 2.4.7.4").remark("UPL: γ_G,stb 0.9, γ_G,dst 1.0").from_memory();
/// Required factor for tanks in the US.
pub const ACI_350: Source = Source::standard("ACI 350.4R").remark("1.25 at design water, 1.10 at extreme water").from_memory();

/// Accidental situations.
pub const ACCIDENTAL: Source = Source::standard("EN 1997-1 clause 2.4.7.1(3)").remark("partial factors of 1.0 in accidental situations").from_memory();

/// Required factor of safety on permanent weights, EN 1997-1: 1.0/0.9.
pub const REQUIRED_EN_1997: f64 = 1.0 / 0.9;
/// Required factor at design water, ACI 350.4R.
pub const REQUIRED_ACI_350: f64 = 1.25;

/// What is set against what; mixing them up gives wrong factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bookkeeping {
    /// Concrete alone against the water that the concrete box displaces.
    ConcreteOnly,
    /// Concrete and buoyant soil over the toe against the water that the concrete box displaces.
    BuoyantSoil,
    /// Concrete and full soil weight over the toe against the water that box and soil displace.
    TotalWeights,
}

/// A box pit in the ground, its top at ground level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pit {
    /// Inner length, mm.
    pub inner_length_mm: f64,
    /// Inner width, mm.
    pub inner_width_mm: f64,
    /// Inner depth below ground, mm.
    pub depth_mm: f64,
    /// Wall thickness, mm.
    pub wall_mm: f64,
    /// Base thickness, mm.
    pub base_mm: f64,
    /// How far the base stands out beyond the walls all round, mm.
    pub toe_mm: f64,
    /// Groundwater below ground level, mm.
    pub water_below_ground_mm: f64,
    /// Unit weight of concrete, kN/m³.
    pub concrete_kn_per_m3: f64,
    /// Unit weight of soil above the water, kN/m³.
    pub dry_soil_kn_per_m3: f64,
    /// Unit weight of saturated soil, kN/m³.
    pub wet_soil_kn_per_m3: f64,
    /// Unit weight of water, kN/m³.
    pub water_kn_per_m3: f64,
}

/// The balance, kN.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Weight that holds down, by the bookkeeping.
    pub weight_kn: f64,
    /// Uplift, by the bookkeeping.
    pub uplift_kn: f64,
}

impl Balance {
    /// Factor of safety; infinite without uplift.
    pub fn factor(&self) -> f64 {
        factor(self.weight_kn, self.uplift_kn)
    }
}

/// Factor of safety: weights over uplift, both in one unit. Infinite without uplift.
pub fn factor(weights: f64, uplift: f64) -> f64 {
    if uplift > 0.0 { weights / uplift } else { f64::INFINITY }
}

const M: f64 = 1e-3;

impl Pit {
    fn outer_m2(&self, extra_mm: f64) -> f64 {
        (self.inner_length_mm + 2.0 * (self.wall_mm + extra_mm)) * M * (self.inner_width_mm + 2.0 * (self.wall_mm + extra_mm)) * M
    }
    /// Concrete of the walls, m³.
    pub fn walls_m3(&self) -> f64 {
        (self.outer_m2(0.0) - self.inner_length_mm * self.inner_width_mm * M * M) * self.depth_mm * M
    }
    /// Concrete of the base, m³.
    pub fn base_m3(&self) -> f64 {
        self.outer_m2(self.toe_mm) * self.base_mm * M
    }
    /// Height of water over the top of the base (negative below it) and depth of water in the base, m.
    fn water_m(&self) -> (f64, f64) {
        let over_base = (self.depth_mm - self.water_below_ground_mm) * M;
        (over_base.clamp(0.0, self.depth_mm * M), (over_base + self.base_mm * M).clamp(0.0, self.base_mm * M))
    }
    /// The balance by a bookkeeping. Source: [`UPLIFT`].
    pub fn balance(&self, bookkeeping: Bookkeeping) -> Balance {
        let (over_base, in_base) = self.water_m();
        let toe_m2 = self.outer_m2(self.toe_mm) - self.outer_m2(0.0);
        let concrete = self.concrete_kn_per_m3 * (self.walls_m3() + self.base_m3());
        let dry = toe_m2 * (self.depth_mm * M - over_base) * self.dry_soil_kn_per_m3;
        let box_uplift = self.water_kn_per_m3 * (self.outer_m2(0.0) * over_base + self.outer_m2(self.toe_mm) * in_base);
        let soil_water = self.water_kn_per_m3 * toe_m2 * over_base;
        let wet = toe_m2 * over_base * self.wet_soil_kn_per_m3;
        match bookkeeping {
            Bookkeeping::ConcreteOnly => Balance { weight_kn: concrete, uplift_kn: box_uplift },
            Bookkeeping::BuoyantSoil => Balance { weight_kn: concrete + dry + wet - soil_water, uplift_kn: box_uplift },
            Bookkeeping::TotalWeights => Balance { weight_kn: concrete + dry + wet, uplift_kn: box_uplift + soil_water },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pit() -> Pit {
        Pit {
            inner_length_mm: 2500.0,
            inner_width_mm: 2000.0,
            depth_mm: 2000.0,
            wall_mm: 250.0,
            base_mm: 300.0,
            toe_mm: 300.0,
            water_below_ground_mm: 500.0,
            concrete_kn_per_m3: 24.0,
            dry_soil_kn_per_m3: 18.0,
            wet_soil_kn_per_m3: 20.0,
            water_kn_per_m3: 9.81,
        }
    }

    /// Computed example to four figures.
    #[test]
    fn own_example() {
        let p = pit();
        assert!((p.walls_m3() - 5.0).abs() < 1e-9 && (p.base_m3() - 3.348).abs() < 1e-9);
        let bare = p.balance(Bookkeeping::ConcreteOnly);
        assert!((bare.weight_kn - 200.352).abs() < 1e-3 && (bare.uplift_kn - 143.206).abs() < 1e-3);
        assert!((bare.factor() - 1.3990).abs() < 1e-4);
        let soil = p.balance(Bookkeeping::BuoyantSoil);
        assert!((soil.weight_kn - 200.352 - 88.883).abs() < 1e-3);
        assert!((soil.factor() - 2.0197).abs() < 1e-4);
    }

    /// Identity: what is left over does not depend on the bookkeeping, the factor does.
    #[test]
    fn bookkeepings_agree_on_the_difference() {
        let (a, b) = (pit().balance(Bookkeeping::BuoyantSoil), pit().balance(Bookkeeping::TotalWeights));
        assert!((a.weight_kn - a.uplift_kn - b.weight_kn + b.uplift_kn).abs() < 1e-9);
        assert!(a.factor() > b.factor());
    }

    /// Published example (one tank, kip): 1.52, 3.0, 1.86 by three bookkeepings.
    #[test]
    fn published_bookkeepings() {
        assert!((factor(51.0 + 42.2, 61.2) - 1.52).abs() < 0.01);
        assert!((factor(29.8 + 18.3, 16.0) - 3.0).abs() < 0.01);
        assert!((factor(51.0 + 18.3, 37.2) - 1.86).abs() < 0.01);
    }

    #[test]
    fn water_levels() {
        let dry = Pit { water_below_ground_mm: 5000.0, ..pit() };
        assert!(dry.balance(Bookkeeping::TotalWeights).factor().is_infinite());
        let in_base = Pit { water_below_ground_mm: 2100.0, ..pit() }.balance(Bookkeeping::ConcreteOnly);
        assert!((in_base.uplift_kn - 9.81 * 3.6 * 3.1 * 0.2).abs() < 1e-9);
        // water above ground counts to the top of the pit only
        let flooded = Pit { water_below_ground_mm: -400.0, ..pit() }.balance(Bookkeeping::ConcreteOnly);
        assert!((flooded.uplift_kn - 9.81 * (7.5 * 2.0 + 3.348)).abs() < 1e-9);
    }

    /// EN 1997-1: stabilising weights times 0.9 against 1.0 is a factor of 1.11.
    #[test]
    fn required() {
        assert!((REQUIRED_EN_1997 - 1.11).abs() < 2e-3);
        const { assert!(REQUIRED_ACI_350 > REQUIRED_EN_1997) };
    }
}
