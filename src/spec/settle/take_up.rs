//! Settles `[take_up]`: travel, rod, weights.
//!
//! In: what was asked, belt, pulleys, pulls. Out: the take-up. Travel takes out the stretch of the whole belt and one closing step;
//! the rod is chosen by its core stress, the weights by the pull that the foot needs.

use super::casing::Widths;
use super::habit::{Habit, Step, mm};
use super::pulls::Pulls;
use super::rotating::word;
use super::PRACTICE;
use crate::diagnostics::Diagnostics;
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::belt::Belt;
use crate::spec::bucket::Bucket;
use crate::spec::duty::Duty;
use crate::spec::pulleys::{FootPulley, HeadPulley};
use crate::spec::reader::Chosen;
use crate::spec::rotating::{RodAction, Shaft, TakeUp, TakeUpKind};
use crate::units::{GRAVITY, Mass, Ratio, Stress, plain_number};
use std::f64::consts::PI;

const GUIDE: Source = Source::standard("UFGS-15559A (US government guide specification): take-up travel 225 mm or more");
const STRETCH: Source = Source::physics("two runs: travel = (stretch x belt length + splice) / 2");
const RODS: Source = Source::standard("ISO 2904 / DIN 103 core diameters").from_memory();
/// Rods: name, core area in mm².
const ROD_SIZES: [(&str, f64); 9] = [
    ("Tr24x5", 268.8),
    ("Tr28x5", 397.6),
    ("Tr30x6", 415.5),
    ("Tr32x6", 490.9),
    ("Tr36x6", 660.5),
    ("Tr40x7", 804.2),
    ("Tr44x7", 1017.9),
    ("Tr48x8", 1194.6),
    ("Tr52x8", 1452.2),
];
/// Rods that may be named in a spec.
const ROD_NAMES: [&str; 12] = ["Tr16x4", "Tr20x4", "Tr24x5", "Tr28x5", "Tr30x6", "Tr32x6", "Tr36x6", "Tr40x7", "Tr44x7", "Tr48x8", "Tr52x8", "Tr60x9"];
/// Core stress up to which a rod is chosen, MPa; low, because the rod is turned under load.
const ROD_STRESS: f64 = 40.0;
/// Density of cast weights packed in a box, kg/mm³; common practice.
const PACKED_WEIGHTS: f64 = 5.0e-6;

/// Settles the take-up.
#[allow(clippy::too_many_arguments)]
pub(super) fn take_up(
    asked: &AskedSpec,
    duty: &Duty,
    bucket: &Bucket,
    belt: &Belt,
    head: &HeadPulley,
    foot: &FootPulley,
    shaft: &Shaft,
    pulls: &Pulls,
    widths: &Widths,
    habit: Habit,
    out: &mut Diagnostics,
) -> TakeUp {
    let a = &asked.take_up;
    let kind = Chosen::or(&a.kind, TakeUpKind::Screw, PRACTICE, "a screw take-up unless asked otherwise");
    let splice = Chosen::or(&a.splice, bucket.spacing.value, PRACTICE, "the belt is closed in steps of one bucket spacing");
    let t = belt.thickness.value.value();
    let length = 2.0 * duty.lift.value.value() + PI / 2.0 * (head.diameter.value.value() + foot.diameter.value.value() + 2.0 * t);
    let need = (belt.stretch.value.value() * length + splice.value.value()) / 2.0;
    let custom = habit.or_inch(300.0, 12.0);
    let travel = habit.up(need.max(custom).max(225.0), Step::Coarse).min(3000.0);
    let (source, why) = if need > custom {
        (
            STRETCH,
            format!(
                "{} m of belt stretch {} %, and {} of splice: {} of travel needed",
                plain_number(length / 1000.0, 1),
                plain_number(belt.stretch.value.value() * 100.0, 2),
                habit.say(splice.value.value()),
                habit.say(need)
            ),
        )
    } else {
        (GUIDE, format!("{} is customary, not under {}; stretch and splice need {}", habit.say(custom), habit.say(225.0), habit.say(need)))
    };
    let travel = Chosen::or(&a.travel, mm(travel), source, why);
    let shaft_mass = 7.85e-6 * PI / 4.0 * shaft.diameter.value.value().powi(2) * (shaft.bearing_centres.value.value() + 2.0 * shaft.projection.value.value());
    let dead = foot.mass.value.value() + shaft_mass + 20.0;
    let load = (2.0 * pulls.foot - dead * GRAVITY).max(0.0).max(pulls.foot) / 2.0;
    let rod = ROD_SIZES.iter().find(|(_, area)| load / area <= ROD_STRESS).or(ROD_SIZES.last()).map_or("Tr30x6", |r| r.0);
    word("take_up.rod", "take-up rod thread", &a.rod, &ROD_NAMES, out);
    let screw = *kind == TakeUpKind::Screw;
    let unused = "not used by a screw take-up";
    let frame = (30.0 + 0.08 * widths.outside).round();
    let frame_mass = Chosen::or(&a.frame_mass, Mass::kg(if screw { 0.0 } else { frame }), PRACTICE, if screw { unused } else { "two side bars and a cross bar" });
    let wanted = (2.0 * pulls.foot / GRAVITY - dead - frame_mass.value.value()).max(0.0);
    let weights = if screw { 0.0 } else { (wanted / 10.0).ceil() * 10.0 };
    let weights = Chosen::or(
        &a.weights,
        Mass::kg(weights),
        Source::physics("(2 x pull in the foot) / g less what hangs on the shaft already"),
        if screw { unused.to_string() } else { format!("{:.1} kN of pull in each run at the foot; {:.0} kg of pulley, shaft and bearings and the frame already pull", pulls.foot / 1000.0, dead) },
    );
    let box_length = habit.up((widths.outside * 0.8).max(300.0), Step::Coarse).min(3000.0);
    let box_width = habit.or_inch(300.0, 12.0);
    let box_height = habit.up((weights.value.value() / PACKED_WEIGHTS / (box_length * box_width) * 1.2).max(200.0), Step::Coarse).min(2000.0);
    let boxed = if screw { unused.to_string() } else { format!("holds {:.0} kg of cast weights with a fifth to spare", weights.value.value()) };
    TakeUp {
        rod: Chosen::or(&a.rod, rod.to_string(), RODS, format!("core stress not over {ROD_STRESS:.0} MPa at {:.1} kN a side", load / 1000.0)),
        action: Chosen::or(&a.action, RodAction::Pull, PRACTICE, "a pulled rod cannot buckle"),
        rod_yield: Chosen::or(&a.rod_yield, Stress::mpa(355.0), Source::standard("EN 10025-2, S355J2 up to 16 mm; common for rods").from_memory(), "rod of S355J2 or better"),
        friction: Chosen::or(&a.friction, Ratio::of_one(0.15), Source::book("Shigley, Mechanical Engineering Design, power screws: 0.15 oiled, dirty").from_memory(), "greased and dusty thread"),
        box_length: Chosen::or(&a.box_length, mm(box_length), PRACTICE, boxed.clone()),
        box_width: Chosen::or(&a.box_width, mm(box_width), PRACTICE, boxed.clone()),
        box_height: Chosen::or(&a.box_height, mm(box_height), PRACTICE, boxed),
        kind,
        travel,
        splice,
        frame_mass,
        weights,
    }
}
