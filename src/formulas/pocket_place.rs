//! Where a shovel pocket of a given size goes on a side plate, if there is a place for it.
//!
//! In: what stands around it, in mm on the side plate (x from the shaft toward the up side, z above the
//! base). Out: its opening, or nothing when that size has no place. Sizes are decided with it and the
//! model is built with it, so that what is settled is what is built. It does not choose the size.

use super::rolled_bottom;
use crate::sources::Source;

/// Place of the pocket.
pub const POCKET_PLACE: Source = Source::practice("between the guides of the sliding plate and the up-side end, above the foot, under the sensor panel");

/// Lip and floor of the pocket.
pub const SHAPE: Source = Source::practice("lip 700 to 900 mm, floor 45° or the product's chute slope");
/// Lowest and highest lip above the pit floor over which one shovels well, mm. Source: [`SHAPE`].
pub const LIP: [f64; 2] = [700.0, 900.0];
/// Flattest floor, degrees. Source: [`SHAPE`].
pub const FLATTEST_DEG: f64 = 45.0;

/// Reach of a pocket that one can shovel into, mm and inches; its sill is as low as that allows.
pub const REACH: [f64; 2] = [300.0, 12.0];
/// Least reach, mm: a shovel's depth.
pub const LEAST_REACH: f64 = 150.0;
/// From the edge of the sliding plate to the opening, mm: guide, lap of the lid, weld.
pub const BESIDE_SLIDE: f64 = 65.0;
/// From the opening to the end plate, mm.
pub const BESIDE_END: f64 = 40.0;
/// From the opening's upper edge to the lower edge of a sensor panel, mm, at least.
const UNDER_PANEL: f64 = 80.0;
/// From the opening's upper edge to where its lid meets the wall, mm.
pub const UNDER_LID: f64 = 12.0;
/// How far a sensor panel stands out from its wall, mm: a lid that rises to a high lip comes nearer to it by its slope over that.
pub const PANEL_OUT: f64 = 30.0;
/// What the heads of a lid that leans so stand higher, by its slope, mm: half of a thick lid with its bolts.
const LEANING: f64 = 15.0;
/// From a foot to the opening, mm: cheek and its weld.
const BESIDE_FOOT: f64 = 25.0;

/// From the opening's upper edge to the lower edge of a sensor panel, mm: the pocket's frame, its lid that stands `lid` over the wall's
/// upper edge with its bolts, and the panel's own frame, which laps `lap` over it.
pub fn under_panel(lid: f64, lap: f64) -> f64 {
    (UNDER_LID + lid + lap).max(UNDER_PANEL)
}

/// What stands around a pocket.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Around {
    /// Half width of the sliding plate.
    pub slide: f64,
    /// Inner face of the up-side end plate.
    pub end: f64,
    /// Upper face of the bottom at its lowest.
    pub bottom: f64,
    /// Radius of a rolled bottom and the angle at which its arc ends, rad.
    pub rolled: Option<(f64, f64)>,
    /// Edge of the foot toward the shaft, and its upper end.
    pub foot: [f64; 2],
    /// Lower edge of the sensor panel above, infinite without one.
    pub panel: f64,
    /// What the opening keeps from it, [`under_panel`].
    pub under_panel: f64,
    /// Lip above the base.
    pub lip: f64,
    /// Slope of the floor, rad.
    pub slope: f64,
    /// Step of the opening's place.
    pub step: f64,
    /// Reach that is aimed at, [`REACH`] in the job's unit.
    pub reach: f64,
}

impl Around {
    /// Height of the bottom's upper face.
    fn floor(&self, x: f64) -> f64 {
        self.bottom + self.rolled.map_or(0.0, |(radius, angle)| rolled_bottom::rise(radius, angle, x))
    }

    /// Lowest sill of an opening from `low` to `high`.
    fn sill(&self, high: f64) -> f64 {
        let z = (self.lip - self.reach * self.slope.tan()).max(self.bottom + 60.0).max(self.floor(high + 20.0) + 30.0);
        let z = if high + BESIDE_FOOT > self.foot[0] { z.max(self.foot[1] + BESIDE_FOOT) } else { z };
        (z / self.step - 1e-6).ceil() * self.step
    }

    /// Opening (x from, to; z from, to) of a pocket with this clear width and height.
    ///
    /// It stands in the middle between guides and end, else as near to the guides as it may; `None` when neither has room
    /// under the panel or leaves a floor that one can shovel over.
    pub fn place(&self, width: f64, height: f64) -> Option<([f64; 2], [f64; 2])> {
        let (from, to) = (self.slide + BESIDE_SLIDE, self.end - BESIDE_END);
        if to - from < width - 1e-6 {
            return None;
        }
        let middle = ((from + to - width) / 2.0 / self.step + 1e-6).floor() * self.step;
        [middle.max(from), from].into_iter().find_map(|low| {
            let high = low + width;
            let sill = self.sill(high);
            let reach = ((self.lip - sill) / self.slope.tan()).max(LEAST_REACH);
            let rise = ((self.lip - sill - height) / reach).max(0.0) * (PANEL_OUT + LEANING);
            let fits = sill + height + rise <= self.panel - self.under_panel + 1e-6 && self.lip - sill >= LEAST_REACH * self.slope.tan() - 1e-6;
            fits.then_some(([low, high], [sill, sill + height]))
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    const AROUND: Around = Around {
        slide: 100.0,
        end: 600.0,
        bottom: 106.0,
        rolled: None,
        foot: [485.0, 216.0],
        panel: 730.0,
        under_panel: 80.0,
        lip: 800.0,
        slope: 0.9,
        reach: 300.0,
        step: 1.0,
    };

    /// 165 to 560 is free along the machine; beside the foot the pocket may sit as low as its reach allows.
    #[test]
    fn stands_in_the_middle_or_beside_the_guides() {
        let ([a, b], [c, d]) = AROUND.place(250.0, 200.0).unwrap();
        assert!((a - 237.0).abs() < 1e-9 && (b - 487.0).abs() < 1e-9, "{a} {b}");
        assert!((c - (800.0 - 300.0 * 0.9_f64.tan()).ceil()).abs() < 1e-9 && (d - c - 200.0).abs() < 1e-9);
        assert_eq!(AROUND.place(396.0, 200.0), None);
        assert!(AROUND.place(395.0, 200.0).is_some());
    }

    /// A foot that reaches up lifts the pocket over it, or moves it beside.
    #[test]
    fn keeps_clear_of_the_foot() {
        let tall = Around { foot: [485.0, 450.0], ..AROUND };
        let (_, z) = tall.place(300.0, 100.0).unwrap();
        assert!((z[0] - 475.0).abs() < 1e-9);
        let (x, z) = tall.place(250.0, 200.0).unwrap();
        assert!((x[0] - 165.0).abs() < 1e-9 && z[0] < 430.0);
    }

    #[test]
    fn nothing_fits_under_a_low_panel() {
        assert_eq!(Around { panel: 600.0, ..AROUND }.place(250.0, 200.0), None);
    }
}
