//! Settles `[inlet.up]` and `[inlet.down]`.
//!
//! In: what was asked, product, duty, bucket, levels of the shaft. Out: the inlets with throats wide and high enough by
//! rule. The up-side sill stands on the shaft centreline with the take-up at its highest, where the buckets can hold what they get.

use super::bucket::total_length;
use super::casing::Levels;
use super::habit::{Habit, Step, mm};
use super::{PRACTICE, decide};
use crate::formulas::down_face::DownFace;
use crate::formulas::flow;
use crate::formulas::foot_heights::{ABOVE_BUCKET_PATH, BEND_ROOM};
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::bucket::Bucket;
use crate::spec::casing::Bottom;
use crate::spec::duty::Duty;
use crate::spec::inlets::{AskedInlet, FedBy, Inlet};
use crate::spec::product::{Product, ProductKind};
use crate::spec::reader::{Chosen, Leaf};
use crate::units::{Angle, Length, plain_number};

const SILL: Source = Source::practice("buckets hold material only from the shaft's height upward");
/// Slowest stream that a throat is sized for, m/s: material that has just begun to slide.
const SLOWEST: f64 = 1.0;

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

/// Reach that a throat needs on the inclined part of the down-side plate, and the lean of that part in degrees.
///
/// The plate leans out over the throat by h tan β: what is left of the reach L must not let the roof, which rises L tan α with the
/// floor, come nearer to the plate than 8°: L tan α ≤ (L − h tan β) tan(82° − β).
fn reach_on_incline(face: &DownFace, inlet: &Inlet) -> (f64, f64) {
    let lean = ((face.lower_x - face.upper_x) / (face.upper_z - face.lower_z)).atan();
    let steepest = (82.0_f64.to_radians() - lean).tan();
    let slope = inlet.slope.value.value().to_radians().tan();
    let over = inlet.height.value.value() * lean.tan();
    let need = if steepest > slope + 0.05 { steepest * over / (steepest - slope) + 20.0 } else { 0.0 };
    (need, lean.to_degrees())
}

/// What both inlets of a foot share.
struct Foot<'a> {
    product: &'a Product,
    duty: &'a Duty,
    buckets_long: f64,
    habit: Habit,
}

/// Settles both inlets; `bends` are those of the down-side end plate.
#[allow(clippy::too_many_arguments)]
pub(super) fn inlets(
    asked: &AskedSpec,
    sides: &Sides,
    product: &Product,
    duty: &Duty,
    bucket: &Bucket,
    levels: &Levels,
    bends: Option<DownFace>,
    habit: Habit,
) -> (Inlet, Inlet) {
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
    let least = levels.shaft_low - levels.tip_radius + ABOVE_BUCKET_PATH;
    // A rolled bottom goes on to the end plate at 60°; the inlet is cut above it, as the model builds it.
    let rolled = asked.casing.bottom.value() == Some(Bottom::Curved);
    let radius = levels.shaft_low - levels.bottom;
    let shoulder = if rolled { levels.shaft_low - 2.0 * radius + 3.0_f64.sqrt() * levels.up_end + 25.0 } else { 0.0 };
    let down_sill = habit.up(third.max(least).max(shoulder), Step::Fine);
    let mut down = foot.inlet(
        &asked.inlet_down,
        sides.down.clone(),
        down_sill,
        PRACTICE,
        format!("top of the lowest third of the foot pulley, take-up at its lowest, and {} over the bucket path's bottom", habit.say(ABOVE_BUCKET_PATH)),
    );
    if let Some(face) = bends
        && down.sill.value.value() + down.height.value.value() + BEND_ROOM > face.lower_z
        && down.sill.value.value() < face.lower_z + BEND_ROOM
    {
        let above = habit.up(face.lower_z + BEND_ROOM, Step::Fine);
        let why = format!("above the bend of the end plate at {}, which no opening may cross", habit.say(face.lower_z));
        decide(&mut down.sill, mm(above), PRACTICE, why);
    }
    if let Some(face) = bends
        && down.sill.value.value() > face.lower_z
    {
        let (need, lean) = reach_on_incline(&face, &down);
        if need > down.reach.value.value() {
            let why = format!("roof and floor end beside each other on a plate that leans {lean:.0}° outward");
            decide(&mut down.reach, mm(habit.up(need, Step::Coarse).min(3000.0)), PRACTICE, why);
        }
    }
    (up, down)
}

/// A length that may be left out.
type Maybe = Chosen<Option<Length>>;

impl Foot<'_> {
    /// The rectangle that a transition leads from, and its length; nothing when the spout has the throat's own size.
    fn transition(&self, a: &AskedInlet, width: f64, height: f64) -> (Maybe, Maybe, Maybe) {
        let habit = self.habit;
        let given = |leaf: &Leaf<Option<Length>>| leaf.value().flatten().map(|l| l.value());
        let (w, h) = (given(&a.from_width), given(&a.from_height));
        if w.is_none() && h.is_none() {
            let none = |leaf: &Leaf<Option<Length>>| Chosen::or(leaf, None, PRACTICE, "the spout has the size of the throat's flange");
            return (none(&a.from_width), none(&a.from_height), none(&a.from_length));
        }
        let (w, h) = (w.unwrap_or(width), h.unwrap_or(height));
        let flare = ((w - width) / 2.0).abs().max((h - height).abs());
        let length = habit.up((2.0 * flare).max(habit.or_inch(300.0, 12.0)), Step::Coarse).min(3000.0);
        (
            Chosen::or(&a.from_width, Some(mm(w)), PRACTICE, "the throat's width"),
            Chosen::or(&a.from_height, Some(mm(h)), PRACTICE, "the throat's height"),
            Chosen::or(
                &a.from_length,
                Some(mm(length)),
                PRACTICE,
                format!("walls that turn by not more than 1 in 2 over a difference of {}", habit.say(flare)),
            ),
        )
    }

    fn inlet(&self, a: &AskedInlet, fitted: Chosen<bool>, sill: f64, sill_source: Source, sill_why: String) -> Inlet {
        let habit = self.habit;
        let narrow = *self.product.fragile || *self.product.kind == ProductKind::Meal;
        let across = self.buckets_long;
        let (w, why) = if narrow {
            (flow::NARROW_THROAT * across, format!("0.8 of the {} of buckets, so that the stream goes straight into them", habit.say(across)))
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
        let (from_width, from_height, from_length) = self.transition(a, width.value.value(), height.value.value());
        Inlet {
            fitted,
            from_width,
            from_height,
            from_length,
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
