//! The weight boxes of a gravity take-up: one on each sliding plate, above its bearing, how they are held, and the weights in them.
//!
//! In: bearing, sliding plate, the job's stock. Out: mm. Two upright bars are bolted to the plate; a web on each holds a box so far
//! off that it passes in front of the guides, of the rod of the stop and of its bracket (common practice, no source).

use super::bearing_unit::BearingUnit;
use crate::formulas::mass::STEEL_KG_PER_M3;
use crate::tables::plates::Stock;

/// Between the bearing and the underside of a box, mm: room for a spanner at the bearing's bolts.
const OVER_BEARING: f64 = 40.0;
/// Thickness of a bar, mm, in metric stock.
const BAR: f64 = 20.0;
/// Width of a bar, mm, in metric stock.
const BAR_WIDTH: f64 = 50.0;
/// Thickness of a box's plates, mm, in metric stock, at least.
const PLATE: f64 = 6.0;

/// Underside of a box above the middle of the foot shaft, mm: over its bearing, and over the shaft where the tables know no bearing.
pub fn above_shaft(unit: &BearingUnit, shaft_mm: f64, stock: Stock) -> f64 {
    stock.up_mm(unit.up.max(shaft_mm) / 2.0 + OVER_BEARING)
}

/// Width and thickness of a bar, mm.
pub fn bar(stock: Stock) -> [f64; 2] {
    [stock.width_mm(BAR_WIDTH), stock.plate_mm(BAR)]
}

/// Thickness of a web between bar and box, mm.
pub fn web(stock: Stock) -> f64 {
    stock.plate_mm(10.0)
}

/// Air between a bar and the end of the stop's rod over it, mm.
pub const UNDER_ROD: f64 = 5.0;
/// From the ends of a bar to its bolts, mm.
pub const BOLT_IN: f64 = 22.0;
/// Length of a bar that two bolts of M16 have room on, mm: 2.3 of their diameters apart.
pub const LEAST_BAR: f64 = 2.0 * BOLT_IN + 2.3 * 16.0;

/// Heaviest weight that one person lifts into a box, kg (common practice, no source).
pub const LIFTED_BY_HAND: f64 = 20.0;
/// Air between weights and the walls of their box, mm.
const ROUND: f64 = 5.0;
/// Thicknesses of plate that weights are cut from, mm, in metric stock.
const CUT_FROM: [f64; 6] = [40.0, 30.0, 25.0, 20.0, 15.0, 12.0];
/// Steps of a weight's width, mm, and how many are tried.
const NARROWER: f64 = 5.0;
const TRIED: u32 = 12;
/// Hand holes across both ends: length and width, mm.
pub const HAND_HOLE: [f64; 2] = [100.0, 30.0];
/// Between a hand hole and an edge, over the thickness of the plate, and what is left of the step, mm.
const HAND_WEB: [f64; 2] = [1.5, 1.0];

/// Loose weights of one box: plates alike, laid in stacks side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weights {
    /// Along the machine and out from the casing, mm.
    pub size: [f64; 2],
    /// Thickness, mm.
    pub thickness: f64,
    /// Pieces.
    pub pieces: u32,
    /// Stacks out from the casing.
    pub stacks: u32,
    /// Mass of one, kg.
    pub kg: f64,
}

impl Weights {
    /// Plates that weigh at least `mass` kg together, as little over it as whole sizes allow, for a box with these clear sizes; none where
    /// nothing is to be laid in, or the box is too small for a hand.
    pub fn of(mass: f64, [length, width, _]: [f64; 3], stock: Stock) -> Option<Self> {
        let down = |mm: f64| (mm / stock.step_mm() / 5.0 + 1e-6).floor() * 5.0 * stock.step_mm();
        let long = down(length - 2.0 * ROUND);
        if mass <= 0.0 {
            return None;
        }
        let all = CUT_FROM.into_iter().flat_map(|thick| (1..=8u32).map(move |stacks| (stock.plate_mm(thick), stacks)));
        let tried = all.flat_map(|(thickness, stacks)| {
            let widest = down(width / f64::from(stacks) - 2.0 * ROUND);
            (0..TRIED).map(move |step| (thickness, stacks, widest - f64::from(step) * NARROWER))
        });
        let weights = tried.filter(|t| holds_hands(long, t.2, t.0)).filter_map(|(thickness, stacks, wide)| {
            let kg = (long * wide - HAND_HOLES * hand_hole_mm2()) * thickness * STEEL_KG_PER_M3 * 1e-9;
            let pieces = (mass / kg - SHORT).ceil();
            (kg <= LIFTED_BY_HAND && pieces <= MOST_PIECES).then_some(Self { size: [long, wide], thickness, pieces: pieces as u32, stacks, kg })
        });
        weights.min_by(|a, b| a.badness(mass).total_cmp(&b.badness(mass)))
    }

    /// What is too heavy, and how much handling it is.
    fn badness(&self, mass: f64) -> f64 {
        self.total_kg() / mass + 0.002 * f64::from(self.pieces) + 0.01 * f64::from(self.stacks)
    }
    /// All in one box, kg.
    pub fn total_kg(&self) -> f64 {
        f64::from(self.pieces) * self.kg
    }
    /// How high they lie, mm.
    pub fn height(&self) -> f64 {
        f64::from(self.pieces.div_ceil(self.stacks)) * self.thickness
    }
}

/// From an end of a weight so thick to the middle of its hand hole, mm.
pub fn hand_hole_in(thickness: f64) -> f64 {
    (HAND_WEB[0] * thickness + HAND_WEB[1] + HAND_HOLE[1] / 2.0).ceil()
}

/// Whether a plate so long, wide and thick has room for both hand holes.
fn holds_hands(long: f64, wide: f64, thickness: f64) -> bool {
    let web = HAND_WEB[0] * thickness + HAND_WEB[1];
    let [across, along] = HAND_HOLE;
    wide >= across + 2.0 * web && long >= 2.0 * hand_hole_in(thickness) + along + web
}

/// What all may be lighter than wanted, as a share of one: rounded masses.
const SHORT: f64 = 0.01;
/// Two hand holes.
const HAND_HOLES: f64 = 2.0;
/// More pieces than this in a box are not drawn.
const MOST_PIECES: f64 = 400.0;

/// Area of a hand hole, a slot with round ends, mm².
fn hand_hole_mm2() -> f64 {
    let [long, wide] = HAND_HOLE;
    (long - wide) * wide + std::f64::consts::FRAC_PI_4 * wide * wide
}

/// Thickness of a box's plates, mm.
pub fn plate(casing_plate_mm: f64, stock: Stock) -> f64 {
    casing_plate_mm.max(stock.plate_mm(PLATE))
}

/// Clear sizes of an open box by its outside sizes: length, width, height, mm.
pub fn inside([length, width, height]: [f64; 3], plate_mm: f64) -> [f64; 3] {
    [length - 2.0 * plate_mm, width - 2.0 * plate_mm, height - plate_mm]
}

/// Area of plate in one box, mm².
pub fn area([length, width, height]: [f64; 3]) -> f64 {
    length * width + 2.0 * (length + width) * height
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What lies in a box is as heavy as wanted and hardly more, none heavier than a person lifts.
    #[test]
    fn weights_are_as_heavy_as_wanted() {
        for stock in [Stock::Metric, Stock::Us] {
            for mass in [40.0, 95.0, 300.0, 1200.0] {
                for clear in [[208.0, 268.0, 384.0], [508.0, 488.0, 900.0], [300.0, 160.0, 500.0]] {
                    let w = Weights::of(mass, clear, stock).unwrap_or_else(|| panic!("{mass} {clear:?}"));
                    assert!(w.kg <= LIFTED_BY_HAND && w.total_kg() >= mass - 0.01 * w.kg && w.total_kg() < mass + w.kg, "{w:?}");
                    assert!(w.total_kg() < 1.1 * mass || mass < 100.0 || clear[1] < 200.0, "{mass} {clear:?} {w:?}");
                    assert!(f64::from(w.stacks) * (w.size[1] + 2.0 * ROUND) <= clear[1] + 1e-6 && w.size[0] < clear[0]);
                }
            }
        }
        assert_eq!(Weights::of(0.0, [508.0, 488.0, 900.0], Stock::Metric), None);
        assert_eq!(Weights::of(50.0, [90.0, 88.0, 900.0], Stock::Metric), None);
        // A hand hole across both ends.
        assert!(holds_hands(200.0, 200.0, 30.0) && !holds_hands(200.0, 180.0, 30.0) && !holds_hands(150.0, 200.0, 30.0));
    }
}
