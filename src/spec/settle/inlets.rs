//! Settles `[inlet.up]`, `[inlet.down]` and `[shovel_pocket]`.
//!
//! In: what was asked, product, duty, bucket, levels of the shaft. Out: the inlets with throats wide and high enough by
//! rule, and the pocket. The up-side sill stands on the shaft centreline with the take-up at its highest, where the buckets can hold what they get.

use super::PRACTICE;
use super::bucket::total_length;
use super::casing::Levels;
use super::habit::{Habit, Step, mm};
use crate::formulas::flow;
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::bucket::Bucket;
use crate::spec::casing::Bottom;
use crate::spec::duty::Duty;
use crate::spec::inlets::{AskedInlet, FedBy, Inlet, ShovelPocket, Side};
use crate::spec::product::{Product, ProductKind};
use crate::spec::reader::Chosen;
use crate::units::{Angle, plain_number};

const SILL: Source = Source::practice("buckets hold material only from the shaft's height upward");
/// Slowest stream that a throat is sized for, m/s: material that has just begun to slide.
const SLOWEST: f64 = 1.0;

/// Reach of a shovel pocket that one can shovel into, mm; the model uses the same.
const POCKET_REACH: f64 = 300.0;
/// Between two openings of a plate, or an opening and an edge: two frames and their bolts, mm.
const OPENING_GAP: f64 = 70.0;
/// Half the width that shaft slot, sliding plate and rod take up on a side plate, mm.
const SLOT_ZONE: f64 = 160.0;

/// Which inlets there are.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sides {
    /// Up side.
    pub up: Chosen<bool>,
    /// Down side.
    pub down: Chosen<bool>,
}

/// Decides which inlets there are: those that the spec speaks of, else the up side alone.
pub(super) fn fitted(asked: &AskedSpec) -> Sides {
    let (up, down) = (asked.inlet_up.span.is_some(), asked.inlet_down.span.is_some());
    let only_down = down && !up;
    Sides {
        up: Chosen::or(
            &asked.inlet_up.fitted,
            !only_down || asked.inlet_down.fitted.value() == Some(false),
            PRACTICE,
            if only_down { "the spec speaks of the down-side inlet only" } else { "the up side fills the buckets with the least churning" },
        ),
        down: Chosen::or(&asked.inlet_down.fitted, down, PRACTICE, if down { "the spec speaks of it" } else { "not asked for" }),
    }
}

/// What both inlets of a foot share.
struct Foot<'a> {
    product: &'a Product,
    duty: &'a Duty,
    buckets_long: f64,
    habit: Habit,
}

/// Settles both inlets.
pub(super) fn inlets(asked: &AskedSpec, sides: &Sides, product: &Product, duty: &Duty, bucket: &Bucket, levels: &Levels, habit: Habit) -> (Inlet, Inlet) {
    let foot = Foot { product, duty, buckets_long: total_length(bucket), habit };
    let up_sill = habit.up(levels.shaft_high, Step::Fine);
    let up = foot.inlet(
        &asked.inlet_up,
        sides.up.clone(),
        up_sill,
        SILL,
        format!("on the shaft centreline with the take-up at its highest, {} above the base", habit.say(levels.shaft_high)),
    );
    let third = levels.shaft_low - levels.radius / 3.0;
    let least = levels.shaft_low - levels.tip_radius + 100.0;
    // A rolled bottom goes on to the end plate at 60°; the inlet is cut above it, as the model builds it.
    let rolled = asked.casing.bottom.value() == Some(Bottom::Curved);
    let radius = levels.shaft_low - levels.bottom;
    let shoulder = if rolled { levels.shaft_low - 2.0 * radius + 3.0_f64.sqrt() * levels.up_end + 25.0 } else { 0.0 };
    let down_sill = habit.up(third.max(least).max(shoulder), Step::Fine);
    let down = foot.inlet(
        &asked.inlet_down,
        sides.down.clone(),
        down_sill,
        PRACTICE,
        format!("top of the lowest third of the foot pulley, take-up at its lowest, and {} over the bucket path's bottom", habit.say(100.0)),
    );
    (up, down)
}

impl Foot<'_> {
    fn inlet(&self, a: &AskedInlet, fitted: Chosen<bool>, sill: f64, sill_source: Source, sill_why: String) -> Inlet {
        let habit = self.habit;
        let narrow = *self.product.fragile || *self.product.kind == ProductKind::Meal;
        let across = self.buckets_long;
        let (w, why) = if narrow {
            (0.8 * across, format!("0.8 of the {} of buckets, so that the stream goes straight into them", habit.say(across)))
        } else {
            (across - habit.or_inch(50.0, 2.0), format!("{} of buckets less {}", habit.say(across), habit.say(habit.or_inch(50.0, 2.0))))
        };
        let width = Chosen::or(&a.width, mm(habit.down(w, Step::Middle).max(80.0)), PRACTICE, why);
        let least_slope = self.product.chute_slope.value.value();
        let slope = Chosen::or(
            &a.slope,
            Angle::deg((least_slope / 5.0).ceil() * 5.0),
            PRACTICE,
            format!("not under the {least_slope}° at which {} slides", *self.product.name),
        );
        let reach = Chosen::or(&a.reach, mm(habit.or_inch(400.0, 16.0)), PRACTICE, "room for a flange, its bolts and a hand");
        let drop = Chosen::or(&a.drop, mm(habit.or_inch(500.0, 20.0)), PRACTICE, "short fall from the spout or conveyor");
        let angle = slope.value.value().to_radians();
        let mu = self.product.wall_friction.value.value();
        let half_slide = reach.value.value() / 2.0 / angle.cos().max(0.05);
        let v = flow::chute_speed_m_per_s(0.0, half_slide, angle, mu).max(SLOWEST);
        let area = flow::throat_area_mm2(self.duty.capacity.value.value(), self.product.density.value.value(), v, flow::LARGEST_FILLING);
        // The stream's depth is measured square to the floor, the opening up the end plate.
        let by_flow = area / width.value.value() / angle.cos().max(0.05);
        let by_lump = 5.0 * self.product.lump.value.value();
        let least = habit.or_inch(200.0, 8.0);
        let height = by_flow.max(by_lump).max(least);
        let height = Chosen::or(
            &a.height,
            mm(habit.up(height, Step::Coarse).clamp(50.0, 3000.0)),
            flow::THROAT,
            format!(
                "{} for {} t/h at {v:.1} m/s (slid down half the throat) and half full; {} for lumps; not under {}",
                habit.say(by_flow),
                plain_number(self.duty.capacity.value.value(), 1),
                habit.say(by_lump),
                habit.say(least)
            ),
        );
        Inlet {
            fitted,
            sill: Chosen::or(&a.sill, mm(sill), sill_source, sill_why),
            flange: Chosen::or(&a.flange, mm(habit.or_inch(50.0, 2.0)), PRACTICE, "like the casing's flanges"),
            fed_by: Chosen::or(&a.fed_by, FedBy::Spout, PRACTICE, "a spout unless asked otherwise"),
            width,
            height,
            slope,
            reach,
            drop,
        }
    }
}

/// Settles the shovel pocket.
///
/// It lies between the shaft slot with its sliding plate and the up-side end, under the sensor panel.
pub(super) fn pocket(asked: &AskedSpec, product: &Product, levels: &Levels, habit: Habit) -> ShovelPocket {
    let a = &asked.shovel_pocket;
    let panel = asked.sensor_panels.size.value().map_or(habit.or_inch(150.0, 6.0), |s| s.value());
    let ceiling = (levels.shaft_low + levels.shaft_high) / 2.0 - panel / 2.0 - OPENING_GAP;
    let height = habit.or_inch(250.0, 10.0);
    let (low, usual, high) = (habit.or_inch(700.0, 28.0), habit.or_inch(800.0, 32.0), habit.or_inch(900.0, 36.0));
    // A small foot has its panel low: a steeper floor brings the opening under it.
    let for_panel = ((low - (ceiling - height)) / POCKET_REACH).atan().to_degrees();
    let slope = product.chute_slope.value.value().max((for_panel / 5.0).ceil() * 5.0).clamp(45.0, 70.0);
    let slope = Chosen::or(
        &a.slope,
        Angle::deg(slope),
        PRACTICE,
        "the product's chute slope, at least 45°; steeper where the opening must lie under a low sensor panel",
    );
    let rise = POCKET_REACH * slope.value.value().to_radians().tan();
    // The opening's lower edge lies one rise under the lip, but not under the bottom's edge.
    let lip = usual.min(ceiling - height + rise).min(ceiling).max(levels.bottom + 60.0 + rise.min(high - low));
    let lip = Chosen::or(
        &a.lip,
        mm(habit.near(lip.clamp(low, high), Step::Middle)),
        PRACTICE,
        "a height to shovel over, 700 to 900 mm, with the opening under the sensor panel",
    );
    let sill = (lip.value.value() - rise).max(levels.bottom + 60.0);
    let room = levels.up_end - OPENING_GAP - SLOT_ZONE;
    ShovelPocket {
        fitted: Chosen::or(&a.fitted, true, PRACTICE, "a plugged elevator must be emptied and the spill brought back"),
        side: Chosen::or(&a.side, Side::Near, PRACTICE, "the near side has the working space"),
        width: Chosen::or(
            &a.width,
            mm(habit.down(habit.or_inch(400.0, 16.0).min(room), Step::Middle).max(150.0)),
            PRACTICE,
            format!("wider than a shovel where there is room: {} between shaft slot and up-side end", habit.say(room)),
        ),
        height: Chosen::or(
            &a.height,
            mm(habit.down(height.min(ceiling - sill), Step::Middle).max(100.0)),
            PRACTICE,
            "a shovel's load passes under its upper edge; it ends under the sensor panel",
        ),
        slope,
        lip,
    }
}
