//! Settles `[head_pulley]`, `[foot_pulley]` and `[bend_pulley]`.
//!
//! In: what was asked, belt, product, levels. Out: the three pulleys. A bend pulley is fitted when it is asked for,
//! or when the head pulley has 2.1 m or more and no foot pulley of like size is asked for; the foot pulley is then three fifths of it.
//! Of the bend pulley's belt angle and its height each sets the other, once the levels are known.

use super::levels::{Levels, neutral_radii};
use super::rounding::{Rounding, Step, mm};
use super::so_far::{Lifted, Turning};
use super::{PRACTICE, needed};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::formulas::{foot_heights, mass};
use crate::spec::belt::Belt;
use crate::spec::product::ProductKind;
use crate::spec::pulleys::{AskedBendPulley, AskedHeadPulley, BendPulley, FootPulley, HeadPulley, Lagging, PulleyStyle};
use crate::spec::reader::{Chosen, Leaf};
use crate::tables::{friction, pulley_faces};
use crate::units::{Angle, Length, MM_PER_INCH, Mass, Ratio};

/// Belt angle at the bend pulley unless asked otherwise, degrees.
const BEND_ANGLE: f64 = 25.0;
/// What a drum weighs.
const DRUM: &str = "steel shell of 8 mm and two discs of 12 mm, a tenth more for hubs";

/// Settles the head pulley.
pub(super) fn head(a: &AskedHeadPulley, out: &mut Diagnostics) -> HeadPulley {
    let lagging = Chosen::or(&a.lagging, Lagging::Rubber, PRACTICE, "rubber lagging is usual");
    let usual = match *lagging {
        Lagging::Bare => friction::BARE,
        Lagging::Rubber => friction::RUBBER,
        Lagging::Ceramic => friction::CERAMIC,
    };
    HeadPulley {
        diameter: needed(&a.diameter, "head_pulley.diameter", "\"630 mm\"", mm(630.0), out),
        friction: Chosen::or(&a.friction, Ratio::of_one(usual.coefficient), usual.source, format!("belt on a pulley with {} surface", lagging.word())),
        lagging,
    }
}

fn anything_about(b: &AskedBendPulley) -> bool {
    !(b.diameter.is_absent() && b.angle.is_absent() && b.height.is_absent() && b.face.is_absent() && b.shaft.is_absent() && b.mass.is_absent())
}

/// Decides whether there is a bend pulley.
pub(super) fn bend_fitted(so_far: &Lifted<'_>) -> Chosen<bool> {
    let (f, b, rounding) = (&so_far.asked.foot_pulley, &so_far.asked.bend_pulley, so_far.rounding);
    let d_head = so_far.head_pulley.diameter.value.value();
    let small_asked = f.diameter.value().is_none_or(|d| d.value() < 0.9 * d_head);
    let big = d_head >= foot_heights::LARGE_HEAD && small_asked;
    let (fit, why) = if anything_about(b) {
        (true, "the spec says something about it".to_string())
    } else if big {
        (true, format!("the head pulley has {}: a foot pulley of that size would make foot and pit very deep", rounding.say(d_head)))
    } else {
        (false, format!("the head pulley of {} does not call for one (from {} on)", rounding.say(d_head), rounding.say(foot_heights::LARGE_HEAD)))
    };
    Chosen::or(&b.fitted, fit, PRACTICE, why)
}

/// Face for a belt, mm, and why.
fn face(belt: &Belt, rounding: Rounding) -> (Length, String) {
    let w = belt.width.value.value();
    let more = pulley_faces::wider_mm(w);
    // 2 in stand for 50 mm.
    let more = rounding.or_inch(more, more / 25.0);
    (mm(rounding.up(w + more, Step::Middle)), format!("belt {} and {} more", rounding.say(w), rounding.say(more)))
}

fn drum_mass(diameter: f64, face: f64) -> Mass {
    let (shell, disc, steel) = (8.0, 12.0, mass::STEEL_KG_PER_M3);
    let m = mass::tube_kg(diameter, diameter - 2.0 * shell, face, steel) + 2.0 * mass::round_kg(diameter - 2.0 * shell, disc, steel);
    Mass::kg((1.1 * m).round().max(2.0))
}

/// Settles the foot pulley, with or without a bend pulley beside it.
pub(super) fn foot(so_far: &Lifted<'_>, belt: &Belt, with_bend: bool) -> FootPulley {
    let (f, rounding) = (&so_far.asked.foot_pulley, so_far.rounding);
    let d_head = so_far.head_pulley.diameter.value.value();
    let least = belt.min_pulley.value.value();
    let (d, reason) = if with_bend {
        (
            rounding.up((0.6 * d_head).max(least), Step::Coarse).min(d_head),
            format!("three fifths of the head pulley, not under the belt's {}", rounding.say(least)),
        )
    } else {
        (d_head, "normally the head pulley's diameter".to_string())
    };
    let diameter = Chosen::or(&f.diameter, mm(d), PRACTICE, reason);
    let lumpy = *so_far.product.kind == ProductKind::Mineral;
    let (wide, why) = face(belt, rounding);
    let face = Chosen::or(&f.face, wide, PRACTICE, why);
    let across = face.value.value();
    FootPulley {
        style: Chosen::or(
            &f.style,
            if lumpy { PulleyStyle::Winged } else { PulleyStyle::Drum },
            PRACTICE,
            if lumpy { "spilt mineral product must fall through" } else { "a closed drum is kind to the belt" },
        ),
        mass: Chosen::or(&f.mass, drum_mass(diameter.value.value(), across), PRACTICE, DRUM),
        hub_spacing: Chosen::or(
            &f.hub_spacing,
            mm(rounding.near(0.7 * across, Step::Middle).max(40.0)),
            PRACTICE,
            format!("end discs at 0.7 of the face of {}", rounding.say(across)),
        ),
        diameter,
        face,
    }
}

/// The bend pulley without its place.
pub(super) struct BendSize {
    pub fitted: Chosen<bool>,
    pub diameter: Chosen<Length>,
    pub face: Chosen<Length>,
    shaft: Chosen<Length>,
    mass: Chosen<Mass>,
}

/// The place of the bend pulley: belt angle and height above the base.
pub(super) struct BendPlace {
    pub angle: Chosen<Angle>,
    pub height: Chosen<Length>,
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
pub(super) fn bend_size(so_far: &Lifted<'_>, belt: &Belt, foot: &FootPulley, fitted: Chosen<bool>) -> BendSize {
    let (b, rounding) = (&so_far.asked.bend_pulley, so_far.rounding);
    let by_belt = belt.min_bend_pulley.value.value();
    let least = (foot.diameter.value.value() / 2.0).max(by_belt);
    let diameter = Chosen::or(
        &b.diameter,
        mm(rounding.up(least, Step::Middle).clamp(80.0, 2000.0)),
        PRACTICE,
        format!("the larger of half the foot pulley and the belt's {} for a small wrap", rounding.say(by_belt)),
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
    let shaft = rounding.or_inch(shaft, ((shaft / MM_PER_INCH * 4.0 - 0.5_f64).ceil() * 4.0 - 1.0) / 16.0);
    BendSize {
        shaft: Chosen::or(&b.shaft, mm(shaft), PRACTICE, format!("small wrap, small load; face {}", rounding.say(foot_face))),
        mass: Chosen::or(&b.mass, drum_mass(diameter.value.value(), face.value.value()), PRACTICE, DRUM),
        fitted,
        diameter,
        face,
    }
}

/// Belt angle that sizes are chosen with before the bend pulley has its place, degrees.
pub(super) fn bend_angle_for_sizes(so_far: &Turning<'_>) -> f64 {
    so_far.asked.bend_pulley.angle.value().map_or(BEND_ANGLE, |a| a.value())
}

/// Decides the place of the bend pulley: of angle and height each sets the other; both given must agree.
pub(super) fn bend_place(so_far: &Turning<'_>, levels: &Levels, out: &mut Diagnostics) -> BendPlace {
    let b = &so_far.asked.bend_pulley;
    let [r_foot, r_head, r_bend] = neutral_radii(so_far);
    let middle = levels.shaft_middle();
    let height_for = |angle: f64| middle + foot_heights::bend_pulley_above_shaft(angle, r_foot, r_head, r_bend);
    let source = foot_heights::BEND_PLACE;
    match (&b.angle, &b.height) {
        (Leaf::Given(angle, _), Leaf::Given(height, _)) => {
            let from_angle = height_for(angle.value());
            if *so_far.bend.fitted && (from_angle - height.value()).abs() > 5.0 {
                out.push(disagree(b, angle.value(), height.value(), from_angle));
            }
            BendPlace { angle: Chosen::or(&b.angle, *angle, source, ""), height: Chosen::or(&b.height, *height, source, "") }
        }
        (_, Leaf::Given(height, _)) => {
            let angle = foot_heights::bend_pulley_angle(height.value() - middle, r_foot, r_head, r_bend).filter(|a| *a > 0.0);
            if angle.is_none() && *so_far.bend.fitted {
                out.push(no_straight_belt(so_far, height.value(), middle, height_for(BEND_ANGLE)));
            }
            let angle = Angle::deg(angle.unwrap_or(BEND_ANGLE).clamp(3.0, 50.0));
            BendPlace {
                angle: Chosen::or(&b.angle, angle, source, "follows from the height of the bend pulley, take-up in the middle"),
                height: Chosen::or(&b.height, *height, source, ""),
            }
        }
        _ => {
            let angle = Chosen::or(&b.angle, Angle::deg(BEND_ANGLE), PRACTICE, "25° to the vertical, well under the customary 35°");
            let deg = angle.value.value();
            let height = (height_for(deg) * 10.0).round() / 10.0;
            if *so_far.bend.fitted && height <= middle {
                out.push(no_room(so_far));
            }
            let why = format!("where the belt runs at {deg}° to the vertical, take-up in the middle");
            BendPlace { height: Chosen::or(&b.height, mm(height.clamp(200.0, 20_000.0)), source, why), angle }
        }
    }
}

fn disagree(b: &AskedBendPulley, angle: f64, height: f64, from_angle: f64) -> Diagnostic {
    Diagnostic::error(
        Code::Contradiction,
        "bend_pulley.angle",
        b.angle.span(),
        format!("a belt angle of {angle:.1}° puts the bend pulley {from_angle:.0} mm above the base, not {height:.0} mm"),
        "give one of the two; the other follows",
    )
    .also(b.height.span(), "the height given")
}

fn no_straight_belt(so_far: &Turning<'_>, height: f64, shaft: f64, usual: f64) -> Diagnostic {
    Diagnostic::error(
        Code::Contradiction,
        "bend_pulley.height",
        so_far.asked.bend_pulley.height.span(),
        format!("a bend pulley {height:.0} mm above the base leaves no straight belt to the foot pulley, whose shaft stands at {shaft:.0} mm"),
        format!("write a height of about {usual:.0} mm, or give the angle instead"),
    )
    .also(so_far.asked.foot_pulley.diameter.span(), "the foot pulley")
}

fn no_room(so_far: &Turning<'_>) -> Diagnostic {
    let (foot, head) = (&so_far.foot_pulley.diameter, &so_far.head_pulley.diameter);
    Diagnostic::error(
        Code::Contradiction,
        "bend_pulley.fitted",
        so_far.bend.fitted.span(),
        format!(
            "a bend pulley needs a foot pulley clearly smaller than the head pulley: {:.0} mm against {:.0} mm leaves no room for it",
            foot.value.value(),
            head.value.value()
        ),
        format!("write foot_pulley.diameter = \"{:.0} mm\" or less, or leave the bend pulley out", 0.7 * head.value.value()),
    )
    .also(foot.span(), "the foot pulley")
    .also(head.span(), "the head pulley")
}
