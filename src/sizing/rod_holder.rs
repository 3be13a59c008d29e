//! What holds a take-up rod: the lug on the sliding plate, the bracket with its shelf and gussets on the side plate, their seams.
//! The rod of a gravity take-up passes the shelf freely up to its stop; lug and bracket are the same.
//!
//! In: rod, plates, the job's stock; force along the rod in N. Out: mm, MPa. The wall that carries the bracket is not judged: the
//! frame above and the guides beside it stiffen it.

use super::bearing_unit::BearingUnit;
use super::frame;
use super::take_up_stop::Stop;
use crate::formulas::fillet_weld::throat_mm;
use crate::formulas::strength::{self, Seam};
use crate::spec::rotating::{TakeUp, TakeUpKind};
use crate::tables::plates::Stock;
use crate::tables::{power_threads, threads};

/// Yield strength of the plates, MPa: S235, which A36 exceeds.
pub const YIELD: f64 = 235.0;
/// Tensile strength of the plates, MPa, and the factor of EN 1993-1-8 Table 4.1 that goes with it.
const TENSILE: f64 = 360.0;
const CORRELATION: f64 = 0.8;
const SEAM_SAFETY: f64 = 1.25;

/// Customary thickness of the lug and of the shelf, mm, in metric stock.
const LUG: f64 = 20.0;
const SHELF: f64 = 15.0;
/// Customary height of a gusset, mm.
const GUSSET: f64 = 50.0;
/// Thicknesses that are tried, mm.
const LUGS: [f64; 9] = [LUG, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 70.0, 80.0];
const SHELVES: [f64; 8] = [SHELF, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0];
/// Highest gusset that is tried, mm.
const HIGHEST: f64 = 300.0;
/// Height of the lug that the rod passes, mm.
const LUG_HEIGHT: f64 = 40.0;
/// Over the nut on the shelf, mm: the rod's end and the rim of a spanner.
const OVER_NUT: f64 = 10.0;
/// Gusset from the ends of the shelf, mm.
const GUSSET_IN: f64 = 8.0;
/// How far the lug's upper face lies below the sliding plate's upper edge, mm: room for the leg of its seam.
pub const LUG_BELOW: f64 = 25.0;
/// End of a rod beyond its nut, mm.
const ROD_END: f64 = 5.0;
/// Air between a weight box and what it passes, mm.
const BEHIND_BOX: f64 = 10.0;

/// A thing that a rod's force can break.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Held {
    /// Lug at its root.
    Lug,
    /// Seam of the lug.
    LugSeam,
    /// Shelf between its gussets.
    Shelf,
    /// Gussets at the wall.
    Gusset,
    /// Seam of the bracket.
    BracketSeam,
}

impl Held {
    /// All, from the sliding plate up.
    pub const ALL: [Self; 5] = [Self::Lug, Self::LugSeam, Self::Shelf, Self::Gusset, Self::BracketSeam];

    /// Strength, MPa: yield of a plate, throat of a seam.
    pub fn strength_mpa(self) -> f64 {
        match self {
            Self::Lug | Self::Shelf | Self::Gusset => YIELD,
            Self::LugSeam | Self::BracketSeam => strength::seam_strength_mpa(TENSILE, CORRELATION, SEAM_SAFETY),
        }
    }
}

/// Sizes of what holds a rod, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RodHolder {
    stock: Stock,
    /// Its diameter.
    pub rod: f64,
    sliding: f64,
    wall: f64,
    /// Rod's axis from the outer face of the side plate: far enough out that the rod passes in front of the top flange.
    pub out: f64,
    /// Thickness of the lug.
    pub lug: f64,
    /// Thickness of the shelf.
    pub shelf: f64,
    /// Height of the gussets under it.
    pub gusset: f64,
    /// The stop of a gravity take-up on the shelf.
    pub stop: Option<Stop>,
}

/// Plates round a rod, mm: sliding plate, side plate, width of the top flange.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// Thickness of the sliding plate.
    pub sliding: f64,
    /// Thickness of the side plate.
    pub wall: f64,
    /// Width of the top flange.
    pub flange: f64,
}

/// A force along a rod, N, and what is wanted in hand under it.
pub type Load = (f64, f64);

impl RodHolder {
    /// For a rod, with thicknesses of lug and shelf and the height of the gussets.
    pub fn new(stock: Stock, rod: f64, around: &Around, [lug, shelf, gusset]: [f64; 3]) -> Self {
        let out = stock.up_mm((around.sliding + rod / 2.0 + 6.0).max(around.flange + rod / 2.0 + 8.0).max(around.flange + 0.75 * rod + 2.0));
        Self { stock, rod, sliding: around.sliding, wall: around.wall, out, lug, shelf, gusset, stop: None }
    }

    /// Of a take-up on a wall so thick with a top flange so wide, mm.
    pub fn of(t: &TakeUp, unit: &BearingUnit, wall: f64, flange: f64, stock: Stock) -> Self {
        let rod = power_threads::find(&t.rod.value).map_or(30.0, |t| t.diameter_mm);
        let around = Around { sliding: sliding_thickness(wall, unit, stock), wall, flange };
        let stop = (t.kind.value == TakeUpKind::Gravity).then(|| Stop::new(t.buffer.value(), t.stop_gap.value(), rod, stock));
        Self::new(stock, rod, &around, [&t.lug, &t.shelf, &t.gusset].map(|l| l.value())).stopped(stop)
    }

    /// The same with this stop.
    pub fn stopped(self, stop: Option<Stop>) -> Self {
        Self { stop, ..self }
    }

    /// The same with other thicknesses of lug and shelf and another height of the gussets.
    pub fn with(self, [lug, shelf, gusset]: [f64; 3]) -> Self {
        Self { lug, shelf, gusset, ..self }
    }
    /// The hole for the rod in the lug.
    pub fn lug_hole(&self) -> f64 {
        self.rod + self.stock.fine_mm(1.0)
    }
    /// Half the width of the lug: webs of 1.5 × the thickness round the hole.
    pub fn lug_half(&self) -> f64 {
        self.stock.up_mm(self.lug_hole() / 2.0 + 1.5 * self.lug)
    }
    /// The lug out from the sliding plate's face.
    pub fn lug_reach(&self) -> f64 {
        self.stock.up_mm(self.out - self.sliding + self.lug_half())
    }
    /// The hole for the rod in the shelf.
    pub fn shelf_hole(&self) -> f64 {
        self.rod + self.stock.fine_mm(2.0)
    }
    /// Half the length of the shelf along the wall.
    pub fn shelf_half(&self) -> f64 {
        let ring = self.stop.map_or(0.0, |s| s.ring / 2.0);
        self.stock.width_mm(70.0).max(self.stock.up_mm((self.rod + 30.0).max(ring)))
    }
    /// The shelf out from the side plate.
    pub fn shelf_depth(&self) -> f64 {
        let ring = self.stop.map_or(0.0, |s| s.ring / 2.0);
        self.stock.up_mm(self.out + (self.rod / 2.0 + 25.0).max(ring))
    }
    /// The back of a weight box from the side plate's outer face: it passes in front of lug and bracket.
    pub fn box_back(&self) -> f64 {
        self.stock.up_mm((self.sliding + self.lug_reach()).max(self.shelf_depth()) + BEHIND_BOX)
    }
    /// Thickness of the sliding plate.
    pub fn sliding(&self) -> f64 {
        self.sliding
    }
    /// Thickness of a gusset.
    pub fn gusset_thickness(&self) -> f64 {
        self.stock.plate_mm(10.0)
    }
    /// Inner and outer face of the gusset on the up side, from the rod.
    pub fn gusset_x(&self) -> [f64; 2] {
        let outer = self.shelf_half() - GUSSET_IN;
        [outer - self.gusset_thickness(), outer]
    }
    /// Thinner part at the lug's seam.
    pub fn lug_thin(&self) -> f64 {
        self.sliding.min(self.lug)
    }
    /// Rod left between the sliding plate and the shelf with the take-up at its highest: two nuts and a spanner, and the gussets over it.
    pub fn rod_beyond(&self) -> f64 {
        let nuts = if self.stop.is_some() { 2.0 * self.rod + OVER_NUT } else { 0.0 };
        self.stock.up_mm(60f64.max(self.gusset + 10.0).max(nuts))
    }

    /// What a screw is longer than from the sliding plate's edge to the shelf, mm: through the lug, through the shelf, for nuts.
    fn rod_more(&self) -> f64 {
        self.stock.width_mm(LUG_HEIGHT).max(self.rod + 10.0) + self.shelf + 3.0 * self.rod
    }
    /// How far the rod's end stands over the underside of the shelf with the take-up at its lowest, mm.
    pub fn rod_over(&self) -> f64 {
        self.stop.map_or(self.rod_more() / 2.0, |stop| self.shelf + stop.under_nut() + 2.0 * self.rod + ROD_END)
    }
    /// How far the rod's lower end lies under the sliding plate's upper edge, mm.
    pub fn rod_under(&self) -> f64 {
        if self.stop.is_some() { LUG_BELOW + self.lug + self.rod + ROD_END } else { self.rod_more() / 2.0 }
    }

    /// From the underside of the shelf to the top flange, mm: the shelf, the nut on it and room for a spanner under the flange's bar.
    pub fn under_flange(&self) -> f64 {
        // The nuts over a stop stand in front of the flange.
        let on_shelf = self.stop.map_or(self.rod, |s| s.thick + s.disc);
        self.stock.up_mm(self.shelf + on_shelf + OVER_NUT + frame::thickness(self.wall, self.stock))
    }

    /// Stress under a force along the rod, MPa.
    pub fn mpa(&self, held: Held, force: f64) -> f64 {
        let seam = Seam { across_mm: 2.0 * self.shelf_half(), uprights: 4.0, high_mm: self.gusset };
        match held {
            Held::Lug => strength::root_mpa(force, self.out - self.sliding, 2.0 * self.lug_half(), self.lug),
            Held::LugSeam => strength::two_edges_n_per_mm(force, self.out - self.sliding, 2.0 * self.lug_half(), self.lug) / throat_mm(self.lug_thin()),
            Held::Shelf => {
                let [inner, outer] = self.gusset_x();
                strength::middle_mpa(force, inner + outer, self.shelf_depth() - self.shelf_hole(), self.shelf)
            }
            Held::Gusset => seam.force_n_per_mm(force, self.out) * 2.0 / self.gusset_thickness(),
            Held::BracketSeam => seam.force_n_per_mm(force, self.out) / throat_mm(self.wall),
        }
    }
    /// Whether it holds these loads with what is wanted in hand.
    pub fn holds(&self, held: Held, loads: &[Load]) -> bool {
        loads.iter().all(|(force, hand)| self.mpa(held, *force) * hand <= held.strength_mpa())
    }
    /// The least sizes from these up that hold the loads; what no tried size holds stays as it is.
    pub fn strengthened(&self, loads: &[Load]) -> Self {
        let holds = |h: &Self, all: &[Held]| all.iter().all(|held| h.holds(*held, loads));
        let lug = LUGS.iter().map(|t| self.stock.plate_mm(*t)).filter(|t| *t > self.lug).map(|lug| Self { lug, ..*self });
        let with_lug = std::iter::once(*self).chain(lug).find(|h| holds(h, &[Held::Lug, Held::LugSeam])).unwrap_or(*self);
        let shelf = SHELVES.iter().map(|t| self.stock.plate_mm(*t)).filter(|t| *t > self.shelf).map(|shelf| Self { shelf, ..with_lug });
        let with_shelf = std::iter::once(with_lug).chain(shelf).find(|h| holds(h, &[Held::Shelf])).unwrap_or(with_lug);
        let gusset =
            (1..).map(|i| self.stock.width_mm(self.gusset + 10.0 * f64::from(i))).take_while(|g| *g <= HIGHEST).map(|gusset| Self { gusset, ..with_shelf });
        std::iter::once(with_shelf).chain(gusset).find(|h| holds(h, &[Held::Gusset, Held::BracketSeam])).unwrap_or(with_shelf)
    }
    /// The customary sizes.
    pub fn customary(stock: Stock) -> [f64; 3] {
        [stock.plate_mm(LUG), stock.plate_mm(SHELF), stock.width_mm(GUSSET)]
    }
}

/// Thickness of the sliding plate: twice the wall, and thick enough for the bearing bolts that are tapped into it (0.9 of their diameter,
/// stock thickness; common practice, no source).
pub fn sliding_thickness(wall: f64, unit: &BearingUnit, stock: Stock) -> f64 {
    let bolt = threads::find(&unit.bolt).map_or(0.0, |t| t.diameter_mm);
    stock.at_least_mm((2.0 * wall).max(0.9 * bolt))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn holder() -> RodHolder {
        RodHolder::new(Stock::Metric, 36.0, &Around { sliding: 12.0, wall: 6.0, flange: 60.0 }, RodHolder::customary(Stock::Metric))
    }

    /// By hand: lug root 45 kN × 77 mm on 98 mm; more of everything lowers every stress.
    #[test]
    fn stresses_by_hand_and_their_directions() {
        let h = holder();
        assert_eq!((h.out, h.lug_half(), h.shelf_half(), h.shelf_depth()), (89.0, 49.0, 70.0, 132.0));
        assert!((h.mpa(Held::Lug, 45_000.0) - 6.0 * 45_000.0 * 77.0 / (98.0 * 400.0)).abs() < 1e-9);
        assert!((h.mpa(Held::Shelf, 45_000.0) - 6.0 * 45_000.0 * 114.0 / 4.0 / (94.0 * 225.0)).abs() < 1e-9);
        for held in Held::ALL {
            assert!((h.mpa(held, 20_000.0) - 2.0 * h.mpa(held, 10_000.0)).abs() < 1e-9);
            let more = RodHolder { lug: 30.0, shelf: 25.0, gusset: 90.0, ..h };
            assert!(more.mpa(held, 1e4) < h.mpa(held, 1e4), "{held:?}");
        }
    }

    #[test]
    fn strengthened_is_the_least_that_holds() {
        let (h, loads) = (holder(), [(40_000.0, 1.1), (9000.0, 1.5)]);
        let s = h.strengthened(&loads);
        assert!(Held::ALL.iter().all(|held| s.holds(*held, &loads)));
        assert!(!RodHolder { lug: s.lug - 5.0, ..s }.holds(Held::Lug, &loads) && !RodHolder { shelf: s.shelf - 5.0, ..s }.holds(Held::Shelf, &loads));
        assert!(!RodHolder { gusset: s.gusset - 10.0, ..s }.holds(Held::BracketSeam, &loads));
        assert_eq!(h.strengthened(&[(1000.0, 1.5)]), h);
        // Room for the gussets over the sliding plate, and for a spanner.
        assert_eq!((h.rod_beyond(), RodHolder { gusset: 90.0, ..h }.rod_beyond()), (60.0, 100.0));
    }
}
