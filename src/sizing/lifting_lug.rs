//! A lifting lug: a plate square to an end plate, its upper edge welded under the top flange, its eye beyond the flange's edge.
//!
//! In: plates round it, the job's stock, shackle, thickness and height; the pull on it in N. Out: mm, MPa. The end plate behind it is
//! not judged: the lug stands close beside the side plate, which holds it against what pulls square to it; the flange's bar
//! holds the lug sideways. Slings lean along the machine, in the plane of the lug, more than across it.

use super::frame;
use crate::formulas::fillet_weld::{leg_mm, throat_mm};
use crate::formulas::lifting::{Corner, DESIGN_FACTOR, Eye, LEAST_ANGLE_DEG, Pull, TEARING_FACTOR};
use crate::formulas::strength;
use crate::spec::lifting::Lifting;
use crate::tables::plates::Stock;
use crate::tables::shackles::{self, Shackle};

/// Yield and tensile strength of the plates, MPa: S235, which A36 exceeds; the correlation factor of its seams (EN 1993-1-8 Table 4.1).
const YIELD: f64 = 235.0;
const TENSILE: f64 = 360.0;
const CORRELATION: f64 = 0.8;
/// Shear at which a plate tears, and bearing and weak-axis bending at which it yields, as multiples of tensile and yield strength
/// (ASME BTH-1, from memory).
const SHEAR: f64 = 0.7;
const YIELDING: f64 = 1.25;

/// Thicknesses that are tried, mm, in metric stock.
const THICKNESSES: [f64; 10] = [10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0];
/// Heights that are tried, mm: from the least to the highest in steps.
const HEIGHTS: [f64; 3] = [80.0, 400.0, 10.0];
/// Air between a shackle and the flange's edge, at the flattest sling, mm.
const PAST: f64 = 8.0;
/// Least thickness of a lug as a share of its shackle's jaw (common practice, no source).
const FILLED: f64 = 0.55;
/// Least play of a lug in the jaw of its shackle, mm.
const PLAY: f64 = 1.0;
/// Corner cut off where the seam of flange and wall runs through, mm.
const CORNER: f64 = 15.0;
/// Blunt end at the bottom, mm.
const BLUNT: f64 = 12.0;
/// From the joint of end plate and side plate to the toe of the lug's seam, mm: a fillet is not laid to the edge of its plate (common
/// practice, no source).
const EDGE: f64 = 5.0;
/// Between the seam of a lug and the nut of a flange bolt, mm.
const BESIDE_NUT: f64 = 4.0;

/// What the pull can break.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Breaks {
    /// The eye is crushed by the pin.
    Bearing,
    /// The pin tears out.
    TearOut,
    /// The plate tears beside the hole.
    Beside,
    /// The end splits beyond the hole.
    Beyond,
    /// The plate bends across, at the wall or beyond the flange.
    Bending,
    /// Its seam on the wall.
    WallSeam,
    /// Its seam under the flange.
    FlangeSeam,
}

impl Breaks {
    /// All, from the eye to the seams.
    pub const ALL: [Self; 7] = [Self::Bearing, Self::TearOut, Self::Beside, Self::Beyond, Self::Bending, Self::WallSeam, Self::FlangeSeam];

    /// In plain words.
    pub const fn named(self) -> &'static str {
        match self {
            Self::Bearing => "pin in the hole",
            Self::TearOut => "tear-out of the pin",
            Self::Beside => "plate beside the hole",
            Self::Beyond => "plate beyond the hole",
            Self::Bending => "bending across the plate",
            Self::WallSeam => "seam on the end plate",
            Self::FlangeSeam => "seam under the top flange",
        }
    }

    /// What is allowed, MPa.
    pub fn allowed_mpa(self) -> f64 {
        match self {
            Self::Bearing | Self::Bending => YIELDING * YIELD / DESIGN_FACTOR,
            Self::TearOut => SHEAR * TENSILE / TEARING_FACTOR,
            Self::Beside | Self::Beyond => TENSILE / TEARING_FACTOR,
            Self::WallSeam | Self::FlangeSeam => strength::seam_strength_mpa(TENSILE, CORRELATION, TEARING_FACTOR),
        }
    }
}

/// Sizes of a lug, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lug {
    stock: Stock,
    /// Shackle that goes into it.
    pub shackle: Shackle,
    /// Thickness.
    pub thickness: f64,
    /// Height on the end plate, from the underside of the flange down.
    pub height: f64,
    wall: f64,
    flange: f64,
}

impl Lug {
    /// On a wall so thick under a flange so wide, mm.
    pub const fn new(stock: Stock, shackle: Shackle, [thickness, height]: [f64; 2], wall: f64, flange: f64) -> Self {
        Self { stock, shackle, thickness, height, wall, flange }
    }
    /// As the spec says; none where it wants none, or where its shackle is beyond the table.
    pub fn of(spec: &Lifting, wall: f64, flange: f64, stock: Stock) -> Option<Self> {
        let shackle = shackles::of_limit(spec.shackle.value())?;
        spec.lugs.value.then(|| Self::new(stock, shackle, [spec.thickness.value(), spec.height.value()], wall, flange))
    }
    /// The same with another shackle, thickness and height.
    #[must_use]
    pub const fn with(self, shackle: Shackle, [thickness, height]: [f64; 2]) -> Self {
        Self { shackle, thickness, height, ..self }
    }
    /// Hole for the pin.
    pub fn hole(&self) -> f64 {
        self.stock.fine_mm(self.shackle.pin_mm + if self.shackle.pin_mm > 30.0 { 3.0 } else { 2.0 })
    }
    /// Radius of the end round the hole.
    pub fn end(&self) -> f64 {
        self.stock.up_mm(self.hole() / 2.0 + 1.1 * self.shackle.pin_mm)
    }
    /// Thickness of the flange's bar over it.
    pub fn bar(&self) -> f64 {
        frame::thickness(self.wall, self.stock)
    }
    /// The eye: out from the end plate's face, and up from the underside of the flange. So far out that the shackle passes the flange's
    /// edge in the flattest sling, were it square to the wall.
    pub fn eye(&self) -> [f64; 2] {
        let down = self.end();
        let (sin, cos) = LEAST_ANGLE_DEG.to_radians().sin_cos();
        let beyond = (self.shackle.eye_mm / 2.0 + PAST + (self.bar() + down) * cos) / sin;
        [self.stock.up_mm(self.flange + beyond), -down]
    }
    /// Corner cut off at wall and flange.
    pub fn corner(&self) -> f64 {
        self.stock.fine_mm(CORNER)
    }
    /// Blunt end at the bottom.
    pub fn blunt(&self) -> f64 {
        self.stock.fine_mm(BLUNT)
    }
    /// Where the lower edge meets the round end: out and up as the eye is given, and the turn of the end from there to its top, rad.
    pub fn tangent(&self) -> ([f64; 2], f64) {
        let ([y, z], r) = (self.eye(), self.end());
        let [dy, dz] = [self.blunt() - y, -self.height - z];
        let at = dz.atan2(dy) + (r / dy.hypot(dz)).clamp(-1.0, 1.0).acos();
        let top = std::f64::consts::FRAC_PI_2;
        ([y + r * at.cos(), z + r * at.sin()], (top - at).rem_euclid(std::f64::consts::TAU))
    }
    /// Its height where it leaves the flange.
    fn at_flange(&self) -> f64 {
        let ([y, z], _) = self.tangent();
        let share = (self.flange - self.blunt()) / (y - self.blunt());
        self.height + (z + self.height) * -share.clamp(0.0, 1.0)
    }
    /// From the outer face of the side plate to its own: the seams on both its sides lie on the end plate, which begins beside the side plate.
    pub fn inset(&self) -> f64 {
        self.stock.up_mm(self.wall + self.seam_leg() + EDGE)
    }
    fn seam_leg(&self) -> f64 {
        leg_mm(throat_mm(self.wall.min(self.thickness)))
    }
    /// What its faces keep from the middle of a flange bolt with washers so wide, mm.
    pub fn from_bolt(&self, washer: f64) -> f64 {
        washer / 2.0 + leg_mm(throat_mm(self.bar().min(self.thickness))) + BESIDE_NUT
    }
    /// From the top of the flange down to what may stand under it.
    pub fn room(&self) -> f64 {
        self.bar() + self.height + self.seam_leg() + BESIDE_NUT
    }
    /// Along the wall with its seams, either side of its middle.
    pub fn half_zone(&self) -> f64 {
        self.thickness / 2.0 + self.seam_leg() + BESIDE_NUT
    }
    fn seams(&self) -> Corner {
        Corner { high: self.height, wide: self.flange, cut: self.corner(), apart: self.thickness }
    }

    /// Stress under a pull, MPa.
    pub fn mpa(&self, breaks: Breaks, pull: &Pull) -> f64 {
        let eye = Eye { hole: self.hole(), pin: self.shackle.pin_mm, radius: self.end(), thickness: self.thickness };
        let at = self.eye();
        match breaks {
            Breaks::Bearing => eye.bearing_mpa(pull.whole()),
            Breaks::TearOut => eye.tear_out_mpa(pull.whole()),
            Breaks::Beside => eye.beside_mpa(pull.whole(), TENSILE / YIELD),
            Breaks::Beyond => eye.beyond_mpa(pull.whole()),
            Breaks::Bending => {
                let root = strength::root_mpa(pull.along, at[0], self.height, self.thickness);
                root.max(strength::root_mpa(pull.along, at[0] - self.flange, self.at_flange(), self.thickness))
            }
            Breaks::WallSeam => self.seams().wall_n_per_mm(pull, at) / throat_mm(self.wall.min(self.thickness)),
            Breaks::FlangeSeam => self.seams().bar_n_per_mm(pull, at) / throat_mm(self.bar().min(self.thickness)),
        }
    }
    /// Whether nothing breaks, and its shackle takes it and bears the pull.
    pub fn holds(&self, pull: &Pull) -> bool {
        Breaks::ALL.iter().all(|b| self.mpa(*b, pull) <= b.allowed_mpa()) && self.in_jaw() && self.shackle_bears(pull)
    }
    /// Whether it goes into its shackle.
    pub fn in_jaw(&self) -> bool {
        self.thickness + PLAY <= self.shackle.jaw_mm
    }
    /// Whether its shackle bears the pull.
    pub fn shackle_bears(&self, pull: &Pull) -> bool {
        pull.whole() <= self.shackle.limit_kg * crate::units::GRAVITY
    }
    /// Whether it fills its shackle's jaw so far that the pin is not bent.
    fn fills_jaw(&self) -> bool {
        self.thickness >= FILLED * self.shackle.jaw_mm
    }
    /// The lightest that holds a pull, of those with the smallest shackle that allows one; `None` where none of the tried ones does.
    pub fn for_pull(&self, pull: &Pull) -> Option<Self> {
        let sizes = || THICKNESSES.iter().map(|t| self.stock.plate_mm(*t));
        let [least, most, step] = HEIGHTS;
        let heights = || (0..).map(move |i| least + step * f64::from(i)).take_while(move |h| *h <= most).map(|h| self.stock.width_mm(h));
        shackles::all().find_map(|shackle| {
            let with =
                |thickness: f64| heights().map(move |height| Self { shackle, thickness, height, ..*self }).find(|lug| lug.fills_jaw() && lug.holds(pull));
            sizes().filter_map(with).min_by(|a, b| (a.thickness * a.height).total_cmp(&(b.thickness * b.height)))
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn lug() -> Lug {
        Lug::new(Stock::Metric, shackles::of_limit(2000.0).unwrap(), [20.0, 150.0], 5.0, 50.0)
    }

    /// By hand: hole 18, end 9 + 17.6; the shackle's eye 33: (16.5 + 8 + (8 + 27)/2)/sin 60° = 48.5 beyond the flange.
    #[test]
    fn sizes_by_hand() {
        let lug = lug();
        assert_eq!((lug.hole(), lug.end(), lug.eye()), (18.0, 27.0, [99.0, -27.0]));
        // The lower edge is a tangent: square to the radius where it ends.
        let ([y, z], turn) = lug.tangent();
        let (radius, edge) = ([y - 99.0, z + 27.0], [y - 12.0, z + 150.0]);
        assert!((radius[0] * edge[0] + radius[1] * edge[1]).abs() < 1e-9 && y > 99.0 && z < -27.0);
        assert!(turn > 1.57 && turn < 3.15, "{turn}");
    }

    /// More of anything lowers the stress that it is for; twice the pull doubles every stress.
    #[test]
    fn directions() {
        let (lug, pull) = (lug(), Pull { up: 10_000.0, along: 5000.0, toward: 2000.0 });
        let twice = Pull { up: 20_000.0, along: 10_000.0, toward: 4000.0 };
        for b in Breaks::ALL {
            assert!((lug.mpa(b, &twice) / lug.mpa(b, &pull) - 2.0).abs() < 1e-9, "{b:?}");
            let stronger = Lug { thickness: 25.0, height: 200.0, ..lug };
            assert!(stronger.mpa(b, &pull) <= lug.mpa(b, &pull), "{b:?}");
        }
    }

    #[test]
    fn the_lightest_that_holds() {
        let pull = Pull { up: 18_000.0, along: 4500.0, toward: 9500.0 };
        let found = lug().for_pull(&pull).unwrap();
        assert!(found.holds(&pull) && found.fills_jaw());
        let less = [Lug { height: found.height - 10.0, ..found }, Lug { thickness: found.thickness - 5.0, ..found }];
        assert!(less.iter().all(|l| !l.holds(&pull) || !l.fills_jaw()), "{found:?}");
        assert!(lug().for_pull(&Pull { up: 4e5, along: 2e5, toward: 0.0 }).is_none());
    }
}
