//! Heights in the foot that follow from pulleys, belt and bucket: foot shaft, bend pulley, sliding plate, feet.
//!
//! In: sizes in mm, angles in degrees. Out: heights in mm, frame of the model. Used when defaults are
//! decided and when the model is built, so that both agree. Not promised: room for anything else.

use super::fillet_weld;
use crate::sources::Source;

/// Height of the shaft from the space that the buckets sweep.
pub const SHAFT_HEIGHT: Source = Source::physics("tip radius of a bucket whose back is tangent at mid-height, plus clearance, plate and feet");

/// Place of the bend pulley.
pub const BEND_PLACE: Source = Source::physics("common outer tangent of foot and bend pulley, radii to the belt's neutral line");

/// Size of the sliding plate.
pub const SLIDING_PLATE: Source = Source::physics("it covers the slot with its lap in every position of the take-up, and carries the bearing");

/// Head pulleys that ask for a bend pulley.
pub const LARGE: Source = Source::practice("smaller foot pulley with bend pulley from about 2.1 m of head pulley");
/// Head pulley from which a small foot pulley with a bend pulley is the rule, mm (7 ft). Source: [`LARGE`].
pub const LARGE_HEAD: f64 = 2100.0;

/// Plate that stays above an inlet, mm (common practice).
pub const ABOVE_INLET: f64 = 100.0;
/// Least height of a down-side sill over the lowest point of the bucket path, mm (common practice).
pub const ABOVE_BUCKET_PATH: f64 = 100.0;
/// Height of the sliding plate's lower edge over the floor that is aimed at, mm (common practice).
pub const SLIDE_ABOVE_FLOOR: f64 = 10.0;
/// From an opening to a bend of its plate, mm: the bend itself, the frame or throat and its weld (common practice).
pub const BEND_ROOM: f64 = 45.0;

/// Lap of frames and leaves over their openings, mm, in metric stock (common practice).
pub const LAP: f64 = 30.0;
/// From the edge of a plate, or the floor, to the frame of an opening, mm (common practice).
pub const OVER_EDGE: f64 = 5.0;
/// Least plate left beside an opening over the whole inside width, to each side, mm (common practice).
const BESIDE_FULL_WIDTH: f64 = 8.0;
/// What a frame stands out over the leg of its seam, mm (common practice).
const OVER_LEG: f64 = 1.5;

/// Plate left beside an opening over the whole inside width, to each side, mm, in steps of `step`: so little that the frame, which
/// laps `lap` over it, stands out past the side plates, `plate` thick, by what its seam along their outer faces needs.
///
/// ```
/// // Plate 6: throat 4, leg 5.7, 1.5 more: 30 - 6 - 7.2 = 16.8.
/// assert_eq!(footwell::formulas::foot_heights::beside_full_width(30.0, 6.0, 1.0), 16.0);
/// ```
pub fn beside_full_width(lap: f64, plate: f64, step: f64) -> f64 {
    let out = fillet_weld::leg_mm(fillet_weld::throat_mm(plate)) + OVER_LEG;
    (((lap - plate - out) / step + 1e-6).floor() * step).max(BESIDE_FULL_WIDTH)
}

/// Play of the shaft in its slot to each side, mm.
const SLOT_PLAY: f64 = 5.0;
/// Lap of the sliding plate over slot and bearing, mm.
pub const PLATE_LAP: f64 = 25.0;
/// Customary length of a foot pad along the machine, mm.
pub const PAD_LENGTH: f64 = 120.0;
/// Height over which a foot's leg is welded to the side plate, mm.
const LEG_WELD: f64 = 110.0;

/// Lowest edge of a clean-out `height` high whose frame laps `lap` over it, mm: as low as the frame may stand on its wall.
///
/// The wall has its lower `edge` and the clean-out begins at `floor` at the least. The frame stays above the ground; over a rolled
/// bottom it needs the wall behind it, and it may not lie across a bend of the plate. Between the opening and the plate's edge either
/// nothing or a web of 1.5 plate thicknesses is left.
pub fn clean_out_sill([edge, floor]: [f64; 2], bends: &[f64], plate: f64, height: f64, lap: f64) -> f64 {
    let mut low = floor.max(lap + OVER_EDGE);
    let web = 1.5 * plate + 1.0;
    if low > edge + 1e-6 && low < edge + web {
        low = edge + web;
    }
    bends.iter().fold(low, |low, z| if low < z + BEND_ROOM && low + height + BEND_ROOM > *z { z + BEND_ROOM } else { low })
}

/// Width of the slot for a shaft, mm.
pub fn slot_width(shaft_mm: f64) -> f64 {
    shaft_mm + 2.0 * SLOT_PLAY
}

/// Half the height of the sliding plate, mm: it reaches over the whole slot from either end of the travel.
///
/// ```
/// assert_eq!(footwell::formulas::foot_heights::sliding_plate_half_height(300.0, 70.0, 140.0), 360.0);
/// ```
pub fn sliding_plate_half_height(travel_mm: f64, slot_width_mm: f64, bearing_up_mm: f64) -> f64 {
    (travel_mm + slot_width_mm / 2.0 + PLATE_LAP).max(bearing_up_mm / 2.0 + PLATE_LAP)
}

/// Half the width of the sliding plate, mm: the lap over the slot, or the bearing and `beside` it.
pub fn sliding_plate_half_width(slot_width_mm: f64, bearing_across_mm: f64, beside_mm: f64) -> f64 {
    (slot_width_mm / 2.0 + PLATE_LAP).max(bearing_across_mm / 2.0 + beside_mm)
}

/// Middle of a foot pad `length` long from the foot shaft, mm: its end flush with the casing's `outer` face, or a little inward so that
/// who sets the anchors measures whole steps.
///
/// ```
/// assert_eq!(footwell::formulas::foot_heights::pad_middle(664.4, 120.0, 5.0), 600.0);
/// ```
pub fn pad_middle(outer_mm: f64, length_mm: f64, step_mm: f64) -> f64 {
    ((outer_mm - length_mm / 2.0) / step_mm + 1e-6).floor() * step_mm
}

/// Upper end of a foot's leg above the base, mm, over the bottom's height in the middle of the pad.
pub fn leg_top(bottom_there_mm: f64) -> f64 {
    bottom_there_mm + LEG_WELD
}

/// What a bucket that rounds a pulley sweeps past, radii about the pulley's axis in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swept {
    /// The bucket's outermost point, see [`tip_radius`].
    pub tip: f64,
    /// What reaches furthest out from the belt: pulley, belt and that.
    pub flat: f64,
}

/// What a bucket sweeps round a pulley; its section as [u, w] mm as [`tip_radius`] has it.
///
/// ```
/// let section = [[0.0, 180.0], [0.0, 0.0], [165.0, 120.0]];
/// let swept = footwell::formulas::foot_heights::swept(630.0, 9.0, &section, 180.0);
/// assert!((swept.tip - 489.92).abs() < 0.01 && swept.flat == 489.0);
/// ```
pub fn swept(pulley_diameter_mm: f64, belt_thickness_mm: f64, section: &[[f64; 2]], bucket_height_mm: f64) -> Swept {
    let out = section.iter().map(|[u, _]| *u).fold(0.0, f64::max);
    Swept { tip: tip_radius(pulley_diameter_mm, belt_thickness_mm, section, bucket_height_mm), flat: pulley_diameter_mm / 2.0 + belt_thickness_mm + out }
}

/// Floor of a throat at its outer flange above the base, mm: the sill and what the floor rises over the throat's reach.
///
/// ```
/// assert!((footwell::formulas::foot_heights::flange_floor(900.0, 400.0, 45.0) - 1300.0).abs() < 1e-9);
/// ```
pub fn flange_floor(sill_mm: f64, reach_mm: f64, slope_deg: f64) -> f64 {
    sill_mm + reach_mm * slope_deg.to_radians().tan()
}

/// Radius of the circle that the outermost point of a bucket describes about the pulley axis, mm.
///
/// A bucket of height b sits with the middle of its back on a belt of thickness t on a pulley of diameter D: a corner of its
/// section that lies u out from the belt and w along it from the bucket's lower end swings at √((D/2 + t + u)² + (w − b/2)²),
/// and no point between two corners further out than both. The section is given as [u, w], mm.
///
/// ```
/// // The corner of a box: 165 out, 90 along.
/// let r = footwell::formulas::foot_heights::tip_radius(630.0, 9.0, &[[0.0, 0.0], [165.0, 180.0]], 180.0);
/// assert!((r - 497.21).abs() < 0.01);
/// ```
pub fn tip_radius(pulley_diameter_mm: f64, belt_thickness_mm: f64, section: &[[f64; 2]], bucket_height_mm: f64) -> f64 {
    let face = pulley_diameter_mm / 2.0 + belt_thickness_mm;
    section.iter().map(|[u, w]| (face + u).hypot(w - bucket_height_mm / 2.0)).fold(face, f64::max)
}

/// Height of the foot shaft above the underside of the base, take-up at its lowest, mm: feet, bottom plate, clearance and the
/// radius that the buckets sweep ([`tip_radius`]).
pub fn shaft_height_lowest(feet_mm: f64, bottom_plate_mm: f64, bottom_clearance_mm: f64, tip_radius_mm: f64) -> f64 {
    feet_mm + bottom_plate_mm + bottom_clearance_mm + tip_radius_mm
}

/// Horizontal place of the bend pulley's axis, mm from the foot shaft (negative: down side).
///
/// The up run is vertical at x = `foot`, the down run at x = `foot` − 2 `head`; the bend pulley touches the
/// down run from inside the loop. Radii in mm to the belt's neutral line.
pub fn bend_pulley_x(foot: f64, head: f64, bend: f64) -> f64 {
    foot - 2.0 * head + bend
}

/// Height of the bend pulley's axis above the foot shaft, mm, for the belt's angle to the vertical between them.
///
/// The straight run with outward normal n = (−cos β, −sin β) touches both circles from inside the loop, so
/// n·F + R = n·B + r, from which H = (r − R − x cos β) / sin β. Radii in mm to the neutral line, angle in
/// degrees in (0, 90). A negative result means that no such place lies above the foot shaft.
pub fn bend_pulley_above_shaft(angle_deg: f64, foot: f64, head: f64, bend: f64) -> f64 {
    let (sin, cos) = angle_deg.to_radians().sin_cos();
    (bend - foot - bend_pulley_x(foot, head, bend) * cos) / sin
}

/// Belt angle to the vertical in degrees for a bend pulley `above` mm over the foot shaft; the inverse of
/// [`bend_pulley_above_shaft`]. `None` when the circles leave no common outer tangent.
///
/// ```
/// use footwell::formulas::foot_heights::*;
/// let h = bend_pulley_above_shaft(25.0, 656.0, 1156.0, 356.0);
/// assert!((bend_pulley_angle(h, 656.0, 1156.0, 356.0).unwrap() - 25.0).abs() < 1e-9);
/// ```
pub fn bend_pulley_angle(above: f64, foot: f64, head: f64, bend: f64) -> Option<f64> {
    let x = -bend_pulley_x(foot, head, bend);
    let distance = x.hypot(above);
    if distance <= (foot - bend).abs() {
        return None;
    }
    Some((((foot - bend) / distance).acos() - above.atan2(x)).to_degrees())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// 3-4-5 triangle: 300 out to the tip line, 400 along.
    #[test]
    fn heights_add_up() {
        let tip = tip_radius(400.0, 10.0, &[[0.0, 800.0], [0.0, 0.0], [90.0, 0.0], [20.0, 800.0]], 800.0);
        assert!((shaft_height_lowest(100.0, 6.0, 40.0, tip) - (146.0 + 500.0)).abs() < 1e-9);
    }

    /// Signed distances of both axes from the tangent line must be the radii.
    #[test]
    fn the_run_touches_both_pulleys() {
        for angle in [8.0_f64, 20.0, 35.0] {
            let (foot, head, bend) = (640.0, 1140.0, 330.0);
            let x = bend_pulley_x(foot, head, bend);
            let above = bend_pulley_above_shaft(angle, foot, head, bend);
            let (sin, cos) = angle.to_radians().sin_cos();
            let reach_foot = foot;
            let reach_bend = -(x * cos + above * sin) + bend;
            assert!((reach_foot - reach_bend).abs() < 1e-9, "{angle}");
            assert!((bend_pulley_angle(above, foot, head, bend).unwrap() - angle).abs() < 1e-9);
        }
    }

    #[test]
    fn sliding_plates() {
        // Shaft 60: 30 + 5 + 25; a unit 143 wide: 71.5 and 12.5, on a bracket 71.5 and 35.
        assert_eq!(slot_width(60.0), 70.0);
        assert_eq!(sliding_plate_half_width(70.0, 80.0, 12.5), 60.0);
        assert_eq!(sliding_plate_half_width(70.0, 143.0, 12.5), 84.0);
        assert_eq!(sliding_plate_half_width(70.0, 143.0, 35.0), 106.5);
    }

    #[test]
    fn no_tangent_no_angle() {
        // Axes above each other; one circle lies inside the other up to a distance of 200.
        assert_eq!(bend_pulley_angle(0.0, 500.0, 400.0, 300.0), None);
        assert_eq!(bend_pulley_angle(200.0, 500.0, 400.0, 300.0), None);
        assert!(bend_pulley_angle(250.0, 500.0, 400.0, 300.0).is_some());
    }
}
