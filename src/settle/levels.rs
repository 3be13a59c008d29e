//! Widths across the belt, levels above the base and places along the foot that other groups build on.
//!
//! In: what has been settled. Out: mm in the frame of the model, from the same formulas that build the model.

use super::bucket::{corners, rows_length};
use super::so_far::{Levels, Plates, Running, Turning, Widths};
use crate::formulas::belt_path::{self, Pulleys, neutral_radius};
use crate::formulas::down_face::{self, DownFace, Sweep};
use crate::formulas::foot_heights::{self, Swept};
use crate::formulas::foot_widths;
use crate::formulas::rolled_bottom;
use crate::sizing::bearing_unit::bearing_unit;
use crate::sizing::sliding_plate;
use crate::spec::reader::Chosen;
use crate::units::Length;

/// Widths of what moves between the side plates, mm.
pub(super) fn moving(so_far: &Running<'_>) -> [f64; 4] {
    let bend_face = if *so_far.bend.fitted { so_far.bend.face.value.value() } else { 0.0 };
    [so_far.belt.width.value.value(), so_far.foot_pulley.face.value.value(), rows_length(&so_far.bucket), bend_face]
}

impl Widths {
    /// Of the casing round belt, pulleys and buckets.
    pub(super) fn of(so_far: &Running<'_>, plates: &Plates) -> Self {
        let inside = foot_widths::inner_width(&moving(so_far), plates.side_clearance.value.value());
        Self { inside, outside: inside + 2.0 * plates.plate.value.value() }
    }
}

/// Radii of the belt's neutral line on foot, head and bend pulley, mm.
pub(super) fn neutral_radii(so_far: &Running<'_>) -> [f64; 3] {
    neutral([&so_far.foot_pulley.diameter, &so_far.head_pulley.diameter, &so_far.bend.diameter], &so_far.belt.thickness)
}

/// Radii of the belt's neutral line on pulleys of these diameters, mm.
pub(super) fn neutral(diameters: [&Chosen<Length>; 3], belt_thickness: &Chosen<Length>) -> [f64; 3] {
    diameters.map(|d| neutral_radius(d.value.value(), belt_thickness.value.value()))
}

/// What the buckets sweep round a pulley of this diameter.
pub(super) fn swept(so_far: &Running<'_>, diameter: f64) -> Swept {
    let bucket = &so_far.bucket;
    foot_heights::swept(diameter, so_far.belt.thickness.value.value(), &corners(&bucket.outline.value), bucket.height.value.value())
}

/// Height of the foot shaft above the base, take-up at its lowest, for feet of this height, mm.
pub(super) fn shaft_low(so_far: &Turning<'_>, feet: f64) -> f64 {
    let plates = &so_far.plates;
    feet + shaft_over_feet(so_far, plates.bottom_plate.value.value(), plates.bottom_clearance.value.value())
}

/// The same over the underside of a bottom plate, with this clearance between it and the bucket tips, mm.
pub(super) fn shaft_over_feet(so_far: &Running<'_>, bottom_plate: f64, clearance: f64) -> f64 {
    foot_heights::shaft_height_lowest(0.0, bottom_plate, clearance, swept(so_far, so_far.foot_pulley.diameter.value.value()).tip)
}

impl Levels {
    /// With this travel of the take-up, on feet of this height.
    pub(super) fn of(so_far: &Turning<'_>, travel: f64, feet: f64) -> Self {
        let (plates, rounding) = (&so_far.plates, so_far.rounding);
        let diameter = so_far.foot_pulley.diameter.value.value();
        let shaft_low = shaft_low(so_far, feet);
        let unit = bearing_unit(*so_far.bearings.kind, so_far.shaft.journal.value.value(), rounding.us);
        let tip_radius = swept(so_far, diameter).tip;
        Self {
            bottom: feet + plates.bottom_plate.value.value(),
            shaft_low,
            shaft_high: shaft_low + travel,
            tip_radius,
            radius: diameter / 2.0,
            up_end: tip_radius + plates.up_clearance.value.value(),
            slide: sliding_plate::half_width(so_far.shaft.diameter.value.value(), &unit, rounding.stock()),
        }
    }

    /// Foot shaft, take-up in the middle.
    pub(super) fn shaft_middle(&self) -> f64 {
        (self.shaft_low + self.shaft_high) / 2.0
    }

    /// A rolled bottom as it goes on to the up-side end plate.
    pub(super) fn rolled(&self) -> Rolled {
        let radius = self.shaft_low - self.bottom;
        let (angle, shoulder) = rolled_bottom::end(self.shaft_low, radius, self.up_end, f64::INFINITY);
        Rolled { radius, angle, shoulder }
    }
}

/// A rolled bottom.
pub(super) struct Rolled {
    /// Radius about the lowest shaft, mm.
    pub radius: f64,
    /// Where its arc ends, rad from straight down.
    pub angle: f64,
    /// Its height above the base at the end plate, mm.
    pub shoulder: f64,
}

/// Inner face of the down-side end plate where it follows the belt from a bend pulley at this height.
pub(super) fn down_face(so_far: &Turning<'_>, levels: &Levels, bend_height: f64) -> Option<DownFace> {
    if !*so_far.bend.fitted {
        return None;
    }
    let [r_foot, r_head, r_bend] = neutral_radii(so_far);
    let head = levels.shaft_high + so_far.duty.lift.value.value();
    let pulleys = Pulleys::usual(r_foot, levels.shaft_low, r_head, head, Some((r_bend, bend_height)));
    let angle = belt_path::belt_path(&pulleys).map(|path| path.foot_run_angle_rad()).ok().filter(|a| *a > 1e-6)?;
    Some(down_face::down_face(&Sweep {
        foot: swept(so_far, so_far.foot_pulley.diameter.value.value()),
        bend: swept(so_far, so_far.bend.diameter.value.value()),
        bend_x: foot_heights::bend_pulley_x(r_foot, r_head, r_bend),
        shaft: levels.shaft_low,
        angle,
        gap: so_far.plates.down_gap(so_far.rounding),
    }))
}
