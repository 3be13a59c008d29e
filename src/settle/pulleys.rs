//! Settles `[head_pulley]`, `[foot_pulley]` and `[bend_pulley]`.
//!
//! In: what was asked, belt, product, levels. Out: the three pulleys. A bend pulley is fitted when it is asked for,
//! or when the head pulley has 2.1 m or more and no foot pulley of like size is asked for; the foot pulley is then three fifths of it.
//! Of the bend pulley's belt angle and its height each sets the other, once the levels are known.

use super::levels::neutral_radii;
use super::rounding::{Rounding, Step, mm};
use super::so_far::{BendPlace, BendSize, Levels, Lifted, Pulls, Turning};
use super::{PRACTICE, needed};
use crate::diagnostics::Diagnostics;
use crate::formulas::foot_heights;
use crate::formulas::shaft::{LARGEST_HUB_SLOPE_RAD, TwoLoads};
use crate::formulas::tension::{LIMITED, LIMITED_PULL, pulley_resultant_n};
use crate::say;
use crate::say::{Amount, Statement};
use crate::sizing::pulley;
use crate::spec::belt::{Belt, Carcass};
use crate::spec::product::ProductKind;
use crate::spec::pulleys::{AskedBendPulley, AskedHeadPulley, BendPulley, FootPulley, HeadPulley, Lagging, PulleyStyle};
use crate::spec::reader::{Chosen, Leaf};
use crate::tables::plates::Stock;
use crate::tables::{friction, pulley_faces, steels, stock_shafts};
use crate::units::{Angle, Length, MM_PER_INCH, Mass, Ratio, Unit};

/// Pull at the bend pulley over that at the foot: the run between them hangs on it, and something is in hand.
const RUN_ABOVE: f64 = 1.2;
/// What bearings stand further apart than a pulley is wide, mm.
const BEYOND_FACE: f64 = 300.0;
/// Foot pulley beside a bend pulley, share of the head pulley (common practice).
pub(super) const BESIDE_BEND: f64 = 0.6;
/// Belt angle at the bend pulley unless asked otherwise, degrees.
pub(super) const BEND_ANGLE: f64 = 25.0;

/// Settles the head pulley. `needs` are what grip and what tracking need in the foot, N, as far as they are known: with the usual lagging and
/// drive first, then with the lagging that follows from them.
pub(super) fn head(a: &AskedHeadPulley, needs: &[[f64; 2]], out: &mut Diagnostics) -> HeadPulley {
    let short = |trial: usize| needs.get(trial).filter(|[grip, tracking]| grip > tracking);
    let lagging = match short(0) {
        Some([grip, tracking]) => Chosen::or(
            &a.lagging,
            Lagging::Ceramic,
            PRACTICE,
            say!(
                "ceramic lagging: on rubber the belt would need about {grip} in the foot for grip in starting with full buckets, against {tracking} for tracking",
                grip = say::amount(grip / 1000.0, Unit::Kn, 1),
                tracking = say::amount(tracking / 1000.0, Unit::Kn, 1)
            ),
        ),
        _ => Chosen::or(&a.lagging, Lagging::Rubber, PRACTICE, "rubber lagging is usual"),
    };
    let usual = match *lagging {
        Lagging::Bare => friction::BARE,
        Lagging::Rubber => friction::RUBBER,
        Lagging::Ceramic => friction::CERAMIC,
    };
    let limited = short(1).map(|[grip, tracking]| {
        say!(
            "a converter or coupling that lets through {limit} of the duty's pull: without it the belt would need about {grip} in the foot for starting with full buckets, against {tracking} for tracking",
            limit = say::n(LIMITED_PULL, 1),
            grip = say::amount(grip / 1000.0, Unit::Kn, 1),
            tracking = say::amount(tracking / 1000.0, Unit::Kn, 1)
        )
    });
    let pull_limit = limited.as_ref().map(|_| Ratio::of_one(LIMITED_PULL));
    HeadPulley {
        pull_limit: Chosen::or(
            &a.pull_limit,
            pull_limit,
            LIMITED,
            limited.unwrap_or_else(|| "nothing but the motor limits the drive: the belt grips without".into()),
        ),
        diameter: needed(&a.diameter, "head_pulley.diameter", "\"630 mm\"", mm(630.0), out),
        friction: Chosen::or(
            &a.friction,
            Ratio::of_one(usual.coefficient),
            usual.source,
            say!("belt on a pulley with {surface} surface", surface = lagging.word()),
        ),
        lagging,
    }
}

fn anything_about(b: &AskedBendPulley) -> bool {
    !(b.diameter.is_absent() && b.angle.is_absent() && b.height.is_absent() && b.face.is_absent() && b.shaft.is_absent() && b.mass.is_absent())
}

/// Decides whether there is a bend pulley.
pub(super) fn bend_fitted(so_far: &Lifted<'_>) -> Chosen<bool> {
    let (f, b) = (&so_far.asked.foot_pulley, &so_far.asked.bend_pulley);
    let d_head = so_far.head_pulley.diameter.value.value();
    let small_asked = f.diameter.value().is_none_or(|d| d.value() < 0.9 * d_head);
    let big = d_head >= foot_heights::LARGE_HEAD && small_asked;
    let (fit, why) = if anything_about(b) {
        (true, "the spec says something about it".into())
    } else if big {
        (true, say!("the head pulley has {head}: a foot pulley of that size would make foot and pit very deep", head = say::mm(d_head)))
    } else {
        (false, say!("the head pulley of {head} does not call for one (from {least} on)", head = say::mm(d_head), least = say::mm(foot_heights::LARGE_HEAD)))
    };
    Chosen::or(&b.fitted, fit, PRACTICE, why)
}

/// Face for a belt, mm, and why.
fn face(belt: &Belt, rounding: Rounding) -> (Length, Statement) {
    let w = belt.width.value.value();
    let more = pulley_faces::wider_mm(w);
    // 2 in stand for 50 mm.
    let more = rounding.or_inch(more, more / 25.0);
    (mm(rounding.up(w + more, Step::Middle)), say!("belt {width} and {more} more", width = say::mm(w), more = say::mm(more)))
}

/// Mass of the foot pulley as far as it is known before its parts are made, kg.
pub(super) fn foot_kg(foot: &FootPulley, rounding: Rounding) -> f64 {
    foot.mass.value.map_or_else(|| pulley::drum_kg(Stock::of(rounding.us), foot.diameter.value.value(), foot.face.value.value()), |m| m.value())
}

/// A mass that its maker gives, or none.
fn by_maker(asked: &Leaf<Option<Mass>>) -> Chosen<Option<Mass>> {
    Chosen::or(asked, None, PRACTICE, "the drawn pulley is weighed")
}

/// Settles the foot pulley, with or without a bend pulley beside it.
pub(super) fn foot(so_far: &Lifted<'_>, belt: &Belt, with_bend: bool) -> FootPulley {
    let (f, rounding) = (&so_far.asked.foot_pulley, so_far.rounding);
    let d_head = so_far.head_pulley.diameter.value.value();
    let least = belt.min_pulley.value.value();
    let (d, reason) = if with_bend {
        (
            rounding.up((BESIDE_BEND * d_head).max(least), Step::Coarse).min(d_head),
            say!("three fifths of the head pulley, not under the belt's {least}", least = say::mm(least)),
        )
    } else {
        (d_head, "normally the head pulley's diameter".into())
    };
    let diameter = Chosen::or(&f.diameter, mm(d), PRACTICE, reason);
    let lumpy = *so_far.product.kind == ProductKind::Mineral;
    let cords = *belt.carcass == Carcass::SteelCord;
    let (wide, why) = face(belt, rounding);
    let face = Chosen::or(&f.face, wide, PRACTICE, why);
    let across = face.value.value();
    FootPulley {
        style: Chosen::or(
            &f.style,
            if lumpy && !cords { PulleyStyle::Winged } else { PulleyStyle::Drum },
            PRACTICE,
            match (lumpy, cords) {
                (true, false) => "spilt mineral product must fall through",
                (true, true) => "a closed drum: wings break steel cords",
                (false, _) => "a closed drum is kind to the belt",
            },
        ),
        mass: by_maker(&f.mass),
        hub_spacing: Chosen::or(
            &f.hub_spacing,
            mm(rounding.near(0.7 * across, Step::Middle).max(40.0)),
            PRACTICE,
            say!("end discs at {share} of the face of {face}", share = say::n(0.7, 1), face = say::mm(across)),
        ),
        diameter,
        face,
    }
}

impl BendSize {
    /// The whole bend pulley.
    pub(super) fn placed(self, place: BendPlace) -> BendPulley {
        BendPulley {
            fitted: self.fitted,
            diameter: self.diameter,
            angle: place.angle,
            height: place.height,
            face: self.face,
            shaft: self.shaft,
            mass: self.mass,
        }
    }
}

/// Decides everything about the bend pulley but its place.
pub(super) fn bend_size(so_far: &Lifted<'_>, (belt, pulls): (&Belt, &Pulls), foot: &FootPulley, fitted: Chosen<bool>) -> BendSize {
    let (b, rounding) = (&so_far.asked.bend_pulley, so_far.rounding);
    let by_belt = belt.min_bend_pulley.value.value();
    let least = (foot.diameter.value.value() / 2.0).max(by_belt);
    let diameter = Chosen::or(
        &b.diameter,
        mm(rounding.up(least, Step::Middle).clamp(80.0, 2000.0)),
        PRACTICE,
        say!("the larger of half the foot pulley and the belt's {least} for a small wrap", least = say::mm(by_belt)),
    );
    let (wide, why) = face(belt, rounding);
    let face = Chosen::or(&b.face, wide, PRACTICE, why);
    // A bend pulley carries little; three quarters of the usual relation of shaft to face holds the slope.
    let foot_face = foot.face.value.value();
    let shaft = match foot_face {
        w if w <= 400.0 => 50.0,
        w if w <= 700.0 => 60.0,
        w if w <= 1000.0 => 70.0,
        _ => 80.0,
    };
    let customary = rounding.or_inch(shaft, ((shaft / MM_PER_INCH * 4.0 - 0.5_f64).ceil() * 4.0 - 1.0) / 16.0);
    let shaft = bend_shaft(so_far, pulls, foot).filter(|d| *d > customary).unwrap_or(customary);
    BendSize {
        shaft: Chosen::or(&b.shaft, mm(shaft), PRACTICE, say!("small wrap, small load; face {face}; the slope at its hubs", face = say::mm(foot_face))),
        mass: by_maker(&b.mass),
        fitted,
        diameter,
        face,
    }
}

/// The stock shaft of a bend pulley that keeps the slope at its hubs under what the belt pulls there, mm, its bearings a little outside a
/// casing that is as wide as the pulley asks for.
fn bend_shaft(so_far: &Lifted<'_>, pulls: &Pulls, foot: &FootPulley) -> Option<f64> {
    let angle = so_far.asked.bend_pulley.angle.value().map_or(BEND_ANGLE, |a| a.value()).to_radians();
    let run = pulls.chain.foot_down_n * RUN_ABOVE;
    // Hubs and bearings stand as far apart as those of the foot pulley.
    let (span_mm, spacing) = (foot.face.value.value() + BEYOND_FACE, foot.hub_spacing.value.value());
    let load = TwoLoads { resultant_n: pulley_resultant_n(run, run, angle), span_mm, arm_mm: (span_mm - spacing) / 2.0 };
    let least = load.diameter_for_hub_slope_mm(LARGEST_HUB_SLOPE_RAD, steels::MODULUS_MPA);
    if so_far.rounding.inch { stock_shafts::inch_at_least_mm(least) } else { stock_shafts::metric_at_least_mm(least) }
}

/// An angle as it is said.
const fn degrees(deg: f64) -> Amount {
    say::amount(deg, Unit::Degree, 1)
}

/// Belt angle that sizes are chosen with before the bend pulley has its place, degrees.
pub(super) fn bend_angle_for_sizes(so_far: &Turning<'_>) -> f64 {
    so_far.asked.bend_pulley.angle.value().map_or(BEND_ANGLE, |a| a.value())
}

/// Decides the place of the bend pulley: of angle and height each sets the other.
pub(super) fn bend_place(so_far: &Turning<'_>, levels: &Levels) -> BendPlace {
    let b = &so_far.asked.bend_pulley;
    let geometry = BendGeometry::of(neutral_radii(so_far), levels);
    match (&b.angle, &b.height) {
        (_, Leaf::Given(height, _)) => {
            let angle = Angle::deg(geometry.angle(height.value()).unwrap_or(BEND_ANGLE).clamp(3.0, 50.0));
            BendPlace {
                angle: Chosen::or(&b.angle, angle, foot_heights::BEND_PLACE, "follows from the height of the bend pulley, take-up in the middle"),
                height: Chosen::or(&b.height, *height, foot_heights::BEND_PLACE, ""),
            }
        }
        _ => {
            let why = say!("{angle} to the vertical, well under the customary {most}", angle = degrees(BEND_ANGLE), most = degrees(35.0));
            let angle = Chosen::or(&b.angle, Angle::deg(BEND_ANGLE), PRACTICE, why);
            let height = mm(geometry.height(angle.value.value()).clamp(200.0, 20_000.0));
            let why = say!("where the belt runs at {angle} to the vertical, take-up in the middle", angle = degrees(angle.value.value()));
            BendPlace { height: Chosen::or(&b.height, height, foot_heights::BEND_PLACE, why), angle }
        }
    }
}

/// How belt angle and height of the bend pulley belong together.
pub(super) struct BendGeometry {
    /// To the belt's neutral line on foot, head and bend pulley, mm.
    radii: [f64; 3],
    /// Foot shaft above the base, take-up in the middle, mm.
    pub shaft: f64,
}

impl BendGeometry {
    pub(super) fn of(radii: [f64; 3], levels: &Levels) -> Self {
        Self { radii, shaft: levels.shaft_middle() }
    }

    /// Height above the base for a belt angle, mm to a tenth.
    pub(super) fn height(&self, angle_deg: f64) -> f64 {
        let [foot, head, bend] = self.radii;
        ((self.shaft + foot_heights::bend_pulley_above_shaft(angle_deg, foot, head, bend)) * 10.0).round() / 10.0
    }

    /// Belt angle in degrees for a height, where the belt can run straight.
    pub(super) fn angle(&self, height_mm: f64) -> Option<f64> {
        let [foot, head, bend] = self.radii;
        foot_heights::bend_pulley_angle(height_mm - self.shaft, foot, head, bend).filter(|a| *a > 0.0)
    }
}
