//! Settles `[casing]`, and works out the widths and levels that other groups build on.
//!
//! In: what was asked, pulleys, belt, bucket, take-up, openings. Out: the casing; [`Widths`] across the
//! belt and [`Levels`] above the base in mm, frame of the model. Room for people and plates is by custom;
//! clearances may be anything the spec says, even nothing, so that a survey can be entered.

use super::bucket::total_length;
use super::habit::{Habit, Step, mm};
use super::{PRACTICE, decide, later};
use crate::formulas::belt_path::{self, Pulleys};
use crate::formulas::down_face::{DownFace, Sweep, down_face};
use crate::formulas::foot_heights;
use crate::spec::bearing_unit::bearing_unit;
use crate::spec::belt::Belt;
use crate::spec::bucket::Bucket;
use crate::spec::casing::{AskedCasing, Bottom, Casing, Trunk};
use crate::spec::duty::Duty;
use crate::spec::inlets::Inlet;
use crate::spec::openings::{Door, Wall};
use crate::spec::pulleys::{BendPulley, FootPulley, HeadPulley};
use crate::spec::reader::Chosen;
use crate::spec::rotating::{Bearings, Shaft, TakeUp};
use crate::spec::slide;
use crate::tables::plates;

/// Settles everything but the height.
pub(super) fn plates(a: &AskedCasing, head: &HeadPulley, habit: Habit) -> Casing {
    let big = head.diameter.value.value() >= 600.0;
    Casing {
        plate: Chosen::or(&a.plate, mm(habit.or_inch(5.0, 0.25)), plates::LEAST_FOOT, "a stock thickness not under 4.8 mm"),
        bottom_plate: Chosen::or(&a.bottom_plate, mm(habit.or_inch(6.0, 0.3125)), PRACTICE, "a wear bottom, one step thicker than the sides"),
        bottom: Chosen::or(&a.bottom, Bottom::Flat, PRACTICE, "flat unless asked otherwise: simple to build and to clean out"),
        bottom_clearance: Chosen::or(&a.bottom_clearance, mm(habit.or_inch(40.0, 1.5)), PRACTICE, "bucket tips to the bottom, take-up at its lowest"),
        up_clearance: Chosen::or(&a.up_clearance, mm(habit.or_inch(60.0, 2.5)), PRACTICE, "bucket tips to the end plate"),
        down_clearance: Chosen::or(&a.down_clearance, mm(habit.or_inch(60.0, 2.5)), PRACTICE, "bucket tips to the end plate"),
        side_clearance: Chosen::or(&a.side_clearance, mm(habit.or_inch(50.0, 2.0)), PRACTICE, "the widest of belt, pulley and bucket to the side plate"),
        feet: Chosen::or(&a.feet, mm(habit.or_inch(100.0, 4.0)), PRACTICE, "room to grout, bolt and sweep under the bottom"),
        height: later(&a.height, mm(2000.0)),
        trunk: Chosen::or(
            &a.trunk,
            if big { Trunk::TwoLegs } else { Trunk::Single },
            PRACTICE,
            format!(
                "head pulley {}: {}",
                habit.say(head.diameter.value.value()),
                if big { "one leg for each run saves plate" } else { "one casing round both runs is smaller" }
            ),
        ),
        flange: Chosen::or(&a.flange, mm(habit.or_inch(50.0, 2.0)), PRACTICE, "angle flanges for bolts up to M12"),
        material: Chosen::or(&a.material, if habit.us { "ASTM A36" } else { "S235JR" }.to_string(), PRACTICE, "ordinary structural steel"),
        finish: Chosen::or(&a.finish, "blasted Sa 2½, primer 60 µm, top coat 60 µm".to_string(), PRACTICE, "for a dry indoor place; the surroundings decide"),
    }
}

/// Sizes across the belt, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Widths {
    /// The widest of belt, pulley and bucket rows.
    pub widest: f64,
    /// Between the side plates.
    pub inside: f64,
    /// Over the side plates.
    pub outside: f64,
}

impl Widths {
    /// From the settled parts.
    pub(super) fn of(casing: &Casing, belt: &Belt, bucket: &Bucket, foot: &FootPulley, bend: &BendPulley) -> Self {
        let bend_face = if *bend.fitted { bend.face.value.value() } else { 0.0 };
        let widest = belt.width.value.value().max(foot.face.value.value()).max(total_length(bucket)).max(bend_face);
        let inside = widest + 2.0 * casing.side_clearance.value.value();
        Self { widest, inside, outside: inside + 2.0 * casing.plate.value.value() }
    }
}

/// Levels above the underside of the base and places along the foot, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Levels {
    /// Inner face of the bottom.
    pub bottom: f64,
    /// Foot shaft, take-up at its lowest.
    pub shaft_low: f64,
    /// Foot shaft, take-up at its highest.
    pub shaft_high: f64,
    /// Radius of the bucket tips round the foot shaft.
    pub tip_radius: f64,
    /// Foot pulley radius.
    pub radius: f64,
    /// Inner face of the end plate on the up side.
    pub up_end: f64,
    /// Half width of the sliding plate.
    pub slide: f64,
}

/// Raises the feet where the sliding plate, which covers the slot in every position, would reach below the base.
pub(super) fn feet(foot: &FootPulley, belt: &Belt, bucket: &Bucket, take_up: &TakeUp, shaft: &Shaft, casing: &mut Casing, habit: Habit) {
    let half = slide::half_height(take_up.travel.value.value(), shaft.diameter.value.value(), 0.0, habit.stock());
    let need = half + foot_heights::SLIDE_ABOVE_FLOOR - shaft_low(casing, foot, belt, bucket, 0.0);
    if need > casing.feet.value.value() {
        let why =
            format!("so that the sliding plate, {} under the shaft to cover the slot with the take-up at its highest, ends above the floor", habit.say(half));
        decide(&mut casing.feet, mm(habit.up(need, Step::Fine).min(1000.0)), foot_heights::SLIDING_PLATE, why);
    }
}

/// Height of the foot shaft above the base, take-up at its lowest, for feet of this height.
fn shaft_low(casing: &Casing, foot: &FootPulley, belt: &Belt, bucket: &Bucket, feet: f64) -> f64 {
    foot_heights::shaft_height_lowest(
        feet,
        casing.bottom_plate.value.value(),
        casing.bottom_clearance.value.value(),
        foot.diameter.value.value(),
        belt.thickness.value.value(),
        bucket.projection.value.value(),
        bucket.height.value.value(),
    )
}

/// Bends of the down-side end plate, where a bend pulley makes it follow the belt.
#[allow(clippy::too_many_arguments)]
pub(super) fn down_bends(
    casing: &Casing,
    head: &HeadPulley,
    foot: &FootPulley,
    bend: &BendPulley,
    belt: &Belt,
    bucket: &Bucket,
    duty: &Duty,
    levels: &Levels,
) -> Option<DownFace> {
    if !*bend.fitted {
        return None;
    }
    let (t, p, b) = (belt.thickness.value.value(), bucket.projection.value.value(), bucket.height.value.value());
    let (d_foot, d_bend) = (foot.diameter.value.value(), bend.diameter.value.value());
    let neutral = |d: f64| (d + t) / 2.0;
    let (r_foot, r_head, r_bend) = (neutral(d_foot), neutral(head.diameter.value.value()), neutral(d_bend));
    let pulleys = Pulleys::usual(r_foot, levels.shaft_low, r_head, levels.shaft_high + duty.lift.value.value(), Some((r_bend, bend.height.value.value())));
    let angle = belt_path::belt_path(&pulleys).map(|path| path.foot_run_angle_rad()).ok().filter(|a| *a > 1e-6)?;
    Some(down_face(&Sweep {
        foot_tip: foot_heights::tip_radius(d_foot, t, p, b),
        foot_flat: d_foot / 2.0 + t + p,
        bend_tip: foot_heights::tip_radius(d_bend, t, p, b),
        bend_flat: d_bend / 2.0 + t + p,
        bend_x: foot_heights::bend_pulley_x(r_foot, r_head, r_bend),
        shaft: levels.shaft_low,
        angle,
        gap: casing.down_clearance.value.value(),
    }))
}

impl Levels {
    /// From the settled parts.
    #[allow(clippy::too_many_arguments)]
    pub(super) fn of(
        casing: &Casing,
        foot: &FootPulley,
        belt: &Belt,
        bucket: &Bucket,
        take_up: &TakeUp,
        shaft: &Shaft,
        bearings: &Bearings,
        habit: Habit,
    ) -> Self {
        let (d, t, p, b) = (foot.diameter.value.value(), belt.thickness.value.value(), bucket.projection.value.value(), bucket.height.value.value());
        let shaft_low = shaft_low(casing, foot, belt, bucket, casing.feet.value.value());
        let unit = bearing_unit(*bearings.kind, shaft.journal.value.value(), habit.us);
        let tip_radius = foot_heights::tip_radius(d, t, p, b);
        Self {
            bottom: casing.feet.value.value() + casing.bottom_plate.value.value(),
            shaft_low,
            shaft_high: shaft_low + take_up.travel.value.value(),
            tip_radius,
            radius: d / 2.0,
            up_end: tip_radius + casing.up_clearance.value.value(),
            slide: slide::half_width(shaft.diameter.value.value(), &unit, habit.stock()),
        }
    }
}

/// Height of the foot: above everything that is in it.
pub(super) fn height(levels: &Levels, up: &Inlet, down: &Inlet, bend: &BendPulley, doors: &[Door], casing: &mut Casing, habit: Habit) {
    let mut tops = vec![(levels.shaft_high + levels.radius + 150.0, "the foot pulley at its highest")];
    tops.push((levels.shaft_high + (levels.shaft_high - levels.shaft_low) + 200.0, "the take-up bracket"));
    for (inlet, name) in [(up, "the up-side inlet"), (down, "the down-side inlet")] {
        if *inlet.fitted {
            tops.push((inlet.sill.value.value() + inlet.height.value.value() + foot_heights::ABOVE_INLET, name));
        }
    }
    if *bend.fitted {
        tops.push((bend.height.value.value() + bend.diameter.value.value() / 2.0 + 250.0, "the bend pulley"));
    }
    for door in doors {
        let name = match *door.on {
            Wall::UpEnd | Wall::DownEnd => "an inspection door in an end plate",
            Wall::Near | Wall::Far => "an inspection door in a side plate",
        };
        tops.push((door.sill.value.value() + door.height.value.value() + 100.0, name));
    }
    let (top, what) = tops.into_iter().fold((0.0, ""), |best, next| if next.0 > best.0 { next } else { best });
    decide(&mut casing.height, mm(habit.up(top, Step::Coarse).clamp(300.0, 20_000.0)), PRACTICE, format!("clears {what}, which needs {}", habit.say(top)));
}
