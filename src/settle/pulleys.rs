//! Settles `[head_pulley]`, `[foot_pulley]` and `[bend_pulley]`.
//!
//! In: what was asked, belt, product, levels. Out: the three pulleys. A bend pulley is fitted when it is asked for,
//! or when the head pulley has 2.1 m or more and no foot pulley of like size is asked for; the foot pulley is then three fifths of it.
//! Of the bend pulley's belt angle and its height each sets the other.

use super::casing::Levels;
use super::habit::{Habit, Step, mm};
use super::{PRACTICE, decide, later, needed};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::formulas::{foot_heights, mass};
use crate::spec::AskedSpec;
use crate::spec::belt::Belt;
use crate::spec::product::{Product, ProductKind};
use crate::spec::pulleys::{AskedBendPulley, AskedHeadPulley, BendPulley, FootPulley, HeadPulley, Lagging, PulleyStyle};
use crate::spec::reader::{Chosen, Leaf};
use crate::tables::{friction, pulley_faces};
use crate::units::{Angle, MM_PER_INCH, Mass, Ratio};

/// Belt angle at the bend pulley unless asked otherwise, degrees.
const BEND_ANGLE: f64 = 25.0;

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

/// Decides foot pulley diameter and whether there is a bend pulley.
pub(super) fn foot_and_bend(asked: &AskedSpec, head: &HeadPulley, belt: &Belt, product: &Product, habit: Habit) -> (FootPulley, BendPulley) {
    let (f, b) = (&asked.foot_pulley, &asked.bend_pulley);
    let d_head = head.diameter.value.value();
    let small_asked = f.diameter.value().is_none_or(|d| d.value() < 0.9 * d_head);
    let big = d_head >= foot_heights::LARGE_HEAD && small_asked;
    let (fit, why) = if anything_about(b) {
        (true, "the spec says something about it".to_string())
    } else if big {
        (true, format!("the head pulley has {}: a foot pulley of that size would make foot and pit very deep", habit.say(d_head)))
    } else {
        (false, format!("the head pulley of {} does not call for one (from {} on)", habit.say(d_head), habit.say(foot_heights::LARGE_HEAD)))
    };
    let fitted = Chosen::or(&b.fitted, fit, PRACTICE, why);
    let (d, reason) = if *fitted {
        (
            habit.up((0.6 * d_head).max(belt.min_pulley.value.value()), Step::Coarse).min(d_head),
            format!("three fifths of the head pulley, not under the belt's {}", habit.say(belt.min_pulley.value.value())),
        )
    } else {
        (d_head, "normally the head pulley's diameter".to_string())
    };
    let diameter = Chosen::or(&f.diameter, mm(d), PRACTICE, reason);
    let d = diameter.value.value();
    let lumpy = *product.kind == ProductKind::Mineral;
    let style = Chosen::or(
        &f.style,
        if lumpy { PulleyStyle::Winged } else { PulleyStyle::Drum },
        PRACTICE,
        if lumpy { "spilt mineral product must fall through" } else { "a closed drum is kind to the belt" },
    );
    let least = (d / 2.0).max(belt.min_bend_pulley.value.value());
    let bend_diameter = Chosen::or(
        &b.diameter,
        mm(habit.up(least, Step::Middle).clamp(80.0, 2000.0)),
        PRACTICE,
        format!("the larger of half the foot pulley and the belt's {} for a small wrap", habit.say(belt.min_bend_pulley.value.value())),
    );
    let foot =
        FootPulley { face: later(&f.face, mm(400.0)), mass: later(&f.mass, Mass::kg(100.0)), hub_spacing: later(&f.hub_spacing, mm(300.0)), diameter, style };
    let bend = BendPulley {
        angle: later(&b.angle, Angle::deg(BEND_ANGLE)),
        height: later(&b.height, mm(3000.0)),
        face: later(&b.face, mm(400.0)),
        shaft: later(&b.shaft, mm(60.0)),
        mass: later(&b.mass, Mass::kg(60.0)),
        fitted,
        diameter: bend_diameter,
    };
    (foot, bend)
}

/// Faces, hubs and masses, once the belt width is known.
pub(super) fn widths(asked: &AskedSpec, belt: &Belt, foot: &mut FootPulley, bend: &mut BendPulley, habit: Habit) {
    let w = belt.width.value.value();
    let more = pulley_faces::wider_mm(w);
    // 2 in stand for 50 mm.
    let more = habit.or_inch(more, more / 25.0);
    let face = habit.up(w + more, Step::Middle);
    let why = format!("belt {} and {} more", habit.say(w), habit.say(more));
    decide(&mut foot.face, mm(face), PRACTICE, why.clone());
    decide(&mut bend.face, mm(face), PRACTICE, why);
    let face = foot.face.value.value();
    let hubs = habit.near(0.7 * face, Step::Middle).max(40.0);
    decide(&mut foot.hub_spacing, mm(hubs), PRACTICE, format!("end discs at 0.7 of the face of {}", habit.say(face)));
    let m = drum_mass(foot.diameter.value.value(), face, 8.0, 12.0);
    decide(&mut foot.mass, Mass::kg(m), PRACTICE, "steel shell of 8 mm and two discs of 12 mm, a tenth more for hubs");
    let m = drum_mass(bend.diameter.value.value(), bend.face.value.value(), 8.0, 12.0);
    decide(&mut bend.mass, Mass::kg(m), PRACTICE, "steel shell of 8 mm and two discs of 12 mm, a tenth more for hubs");
    // A bend pulley carries little; three quarters of the usual relation of shaft to face holds the slope.
    let shaft = if face <= 400.0 {
        50.0
    } else if face <= 700.0 {
        60.0
    } else if face <= 1000.0 {
        70.0
    } else {
        80.0
    };
    let shaft = habit.or_inch(shaft, ((shaft / MM_PER_INCH * 4.0 - 0.5_f64).ceil() * 4.0 - 1.0) / 16.0);
    if asked.bend_pulley.shaft == Leaf::Absent {
        decide(&mut bend.shaft, mm(shaft), PRACTICE, format!("small wrap, small load; face {}", habit.say(face)));
    }
}

fn drum_mass(diameter: f64, face: f64, shell: f64, disc: f64) -> f64 {
    let steel = mass::STEEL_KG_PER_M3;
    let m = mass::tube_kg(diameter, diameter - 2.0 * shell, face, steel) + 2.0 * mass::round_kg(diameter - 2.0 * shell, disc, steel);
    (1.1 * m).round().max(2.0)
}

/// Place of the bend pulley: of angle and height each sets the other; both given must agree.
pub(super) fn bend_place(asked: &AskedSpec, head: &HeadPulley, foot: &FootPulley, belt: &Belt, levels: &Levels, bend: &mut BendPulley, out: &mut Diagnostics) {
    let half = belt.thickness.value.value() / 2.0;
    let radius = |d: f64| d / 2.0 + half;
    let (r_foot, r_head, r_bend) = (radius(foot.diameter.value.value()), radius(head.diameter.value.value()), radius(bend.diameter.value.value()));
    let middle = (levels.shaft_low + levels.shaft_high) / 2.0;
    let height_for = |angle: f64| middle + foot_heights::bend_pulley_above_shaft(angle, r_foot, r_head, r_bend);
    let source = foot_heights::BEND_PLACE;
    if bend.angle.is_given() && bend.height.is_given() {
        let from_angle = height_for(bend.angle.value.value());
        let given = bend.height.value.value();
        if *bend.fitted && (from_angle - given).abs() > 5.0 {
            let one = Diagnostic::error(
                Code::Contradiction,
                "bend_pulley.angle",
                bend.angle.span(),
                format!("a belt angle of {:.1}° puts the bend pulley {from_angle:.0} mm above the base, not {given:.0} mm", bend.angle.value.value()),
                "give one of the two; the other follows",
            );
            out.push(one.also(bend.height.span(), "the height given"));
        }
        return;
    }
    if bend.height.is_given() {
        let above = bend.height.value.value() - middle;
        let angle = foot_heights::bend_pulley_angle(above, r_foot, r_head, r_bend).filter(|a| *a > 0.0);
        if angle.is_none() && *bend.fitted {
            let one = Diagnostic::error(
                Code::Contradiction,
                "bend_pulley.height",
                bend.height.span(),
                format!(
                    "a bend pulley {:.0} mm above the base leaves no straight belt to the foot pulley, whose shaft stands at {middle:.0} mm",
                    bend.height.value.value()
                ),
                format!("write a height of about {:.0} mm, or give the angle instead", height_for(BEND_ANGLE)),
            );
            out.push(one.also(asked.foot_pulley.diameter.span(), "the foot pulley"));
        }
        decide(
            &mut bend.angle,
            Angle::deg(angle.unwrap_or(BEND_ANGLE).clamp(3.0, 50.0)),
            source,
            "follows from the height of the bend pulley, take-up in the middle",
        );
        return;
    }
    let angle = bend.angle.value.value();
    decide(&mut bend.angle, Angle::deg(angle), PRACTICE, "25° to the vertical, well under the customary 35°");
    let height = (height_for(angle) * 10.0).round() / 10.0;
    if *bend.fitted && height <= middle {
        let one = Diagnostic::error(
            Code::Contradiction,
            "bend_pulley.fitted",
            bend.fitted.span(),
            format!(
                "a bend pulley needs a foot pulley clearly smaller than the head pulley: {:.0} mm against {:.0} mm leaves no room for it",
                foot.diameter.value.value(),
                head.diameter.value.value()
            ),
            format!("write foot_pulley.diameter = \"{:.0} mm\" or less, or leave the bend pulley out", 0.7 * head.diameter.value.value()),
        );
        out.push(one.also(foot.diameter.span(), "the foot pulley").also(head.diameter.span(), "the head pulley"));
    }
    decide(&mut bend.height, mm(height.clamp(200.0, 20_000.0)), source, format!("where the belt runs at {angle}° to the vertical, take-up in the middle"));
}
