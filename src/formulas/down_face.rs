//! Inner face of the down-side end plate where the belt comes in from a bend pulley.
//!
//! In: radii swept round both pulleys and the belt's angle. Out: the four numbers of a plate that is
//! upright beside the foot pulley, parallel to the inclined run, upright again beside the run above the
//! bend pulley. Used when places on the plate are decided and when the model is built. All mm, rad.

use super::foot_heights::Swept;
use super::foot_widths::Gap;
use crate::sources::Source;

/// Shape of the plate.
pub const DOWN_FACE: Source =
    Source::physics("planes that keep the clearance to the bucket tips on the foot pulley, along the inclined run and on the bend pulley");

/// What sweeps past the plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sweep {
    /// By the buckets round the foot pulley.
    pub foot: Swept,
    /// By the buckets round the bend pulley.
    pub bend: Swept,
    /// Bend pulley's axis from the foot shaft, negative on the down side.
    pub bend_x: f64,
    /// Height of the foot shaft above the base, take-up at its lowest.
    pub shaft: f64,
    /// Angle of the run to the vertical there, rad.
    pub angle: f64,
    /// Clearance to the tips; with a step both corners stand on whole steps too, lower rather than higher, where there is more room.
    pub gap: Gap,
}

/// The plate: upright at `lower_x` up to `lower_z`, inclined to `upper_z` at `upper_x`, upright from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DownFace {
    /// Lower upright part, x.
    pub lower_x: f64,
    /// Lower corner, z.
    pub lower_z: f64,
    /// Upper upright part, x.
    pub upper_x: f64,
    /// Upper corner, z.
    pub upper_z: f64,
}

/// The face for a sweep.
///
/// A bucket going onto a pulley swings out beyond the straight run by its tip radius less its flat reach.
///
/// ```
/// use footwell::formulas::down_face::{Sweep, down_face};
/// use footwell::formulas::foot_heights::Swept;
/// use footwell::formulas::foot_widths::Gap;
/// let gap = Gap { clearance: 0.0, plate: 5.0, step: None };
/// let (foot, bend) = (Swept { tip: 500.0, flat: 500.0 }, Swept { tip: 400.0, flat: 400.0 });
/// let s = Sweep { foot, bend, bend_x: -900.0, shaft: 600.0, angle: 30f64.to_radians(), gap };
/// // A tangent plane at 30° leaves the upright one at the height r tan 15° below the shaft: 600 − 133.97.
/// assert!((down_face(&s).lower_z - 466.025).abs() < 0.001);
/// ```
pub fn down_face(s: &Sweep) -> DownFace {
    let lower_x = -s.gap.face(s.foot.tip);
    let square = s.foot.flat + (s.foot.tip - s.foot.flat).max(s.bend.tip - s.bend.flat) + s.gap.clearance;
    let upper_x = -s.gap.face(s.bend.tip - s.bend_x);
    let (sin, cos) = s.angle.sin_cos();
    let on_run = |x: f64| {
        let z = s.shaft + (-square - x * cos) / sin;
        s.gap.step.map_or(z, |step| (z / step + 1e-6).floor() * step)
    };
    DownFace { lower_x, lower_z: on_run(lower_x), upper_x, upper_z: on_run(upper_x) }
}
