//! Settles `[take_up]`: travel, rod, weights.
//!
//! In: what was asked, belt, pulleys, pulls. Out: the take-up. Travel takes out the stretch of the whole belt and one closing step;
//! the rod is chosen by its core stress, the weights by the pull that the foot needs.

use super::PRACTICE;
use super::casing::Widths;
use super::habit::{Habit, Step, mm};
use super::pulls::Pulls;
use super::rotating::word;
use crate::diagnostics::Diagnostics;
use crate::formulas::belt_path::{Pulleys, belt_path};
use crate::formulas::gravity_take_up::{self, PACKED_KG_PER_M3, filling_height_mm, mass_needed_kg};
use crate::formulas::screw::{BUCKLING_SAFETY, Ends, UNEVEN_RODS, core_stress_mpa, critical_load_n};
use crate::formulas::stretch::{self, extra_length_mm, travel_for_mm};
use crate::formulas::{foot_heights, mass};
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::belt::Belt;
use crate::spec::bucket::Bucket;
use crate::spec::duty::Duty;
use crate::spec::pulleys::{BendPulley, FootPulley, HeadPulley};
use crate::spec::reader::Chosen;
use crate::spec::rotating::{RodAction, Shaft, TakeUp, TakeUpKind};
use crate::spec::slide;
use crate::tables::plates::Stock;
use crate::tables::power_threads::{self, Family, PowerThread};
use crate::tables::steels::MODULUS_MPA;
use crate::units::{GRAVITY, Mass, Ratio, Stress, plain_number};

/// Smallest rod that is chosen: thinner ones are bent with a spanner (common practice).
const LEAST_ROD: f64 = 24.0;
/// Multiple of its even share of the belt's pull, or of what slides, that a rod carries without buckling, while
/// one rod is turned ahead of the other.
const ROD_RESERVE: f64 = BUCKLING_SAFETY * UNEVEN_RODS;
/// Pulley and shaft with bearings and sliding plates, which are settled later, over pulley and shaft.
const WITH_PLATES: f64 = 1.25;
/// Core stress up to which a rod is chosen, MPa; low, because the rod is turned under load.
const ROD_STRESS: f64 = 40.0;
/// Yield strength of cold-drawn C1018, 54 ksi, MPa.
const US_ROD_YIELD: f64 = 372.0;
const US_ROD: Source = Source::book("Shigley, Mechanical Engineering Design, Table A-20, SAE 1018 cold drawn").from_memory();

/// Settles the take-up.
#[allow(clippy::too_many_arguments)]
pub(super) fn take_up(
    asked: &AskedSpec,
    duty: &Duty,
    bucket: &Bucket,
    belt: &Belt,
    head: &HeadPulley,
    foot: &FootPulley,
    bend: &BendPulley,
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
    let neutral = |d: f64| (d + t) / 2.0;
    let (r_foot, r_head, r_bend) = (neutral(foot.diameter.value.value()), neutral(head.diameter.value.value()), neutral(bend.diameter.value.value()));
    let round = Pulleys::usual(r_foot, 0.0, r_head, duty.lift.value.value(), None);
    let length = belt_path(&round).map_or(2.0 * duty.lift.value.value(), |p| p.length_mm);
    let extra = extra_length_mm(length, belt.stretch.value.value()) + splice.value.value();
    let need = if *bend.fitted {
        let above = foot_heights::bend_pulley_above_shaft(bend.angle.value.value(), r_foot, r_head, r_bend) - extra / 4.0;
        travel_for_mm(&Pulleys::usual(r_foot, 0.0, r_head, duty.lift.value.value(), Some((r_bend, above))), extra)
    } else {
        travel_for_mm(&round, extra)
    };
    let need = need.unwrap_or(extra / 2.0);
    let custom = habit.or_inch(300.0, 12.0);
    let travel = habit.up(need.max(custom).max(stretch::LEAST_TRAVEL), Step::Coarse).min(3000.0);
    let (source, why) = if need > custom {
        (
            stretch::TRAVEL,
            format!(
                "{} m of belt stretch {} %, and {} of splice: {} of travel needed",
                plain_number(length / 1000.0, 1),
                plain_number(belt.stretch.value.value() * 100.0, 2),
                habit.say(splice.value.value()),
                habit.say(need)
            ),
        )
    } else {
        (
            stretch::LEAST,
            format!("{} is customary, not under {}; stretch and splice need {}", habit.say(custom), habit.say(stretch::LEAST_TRAVEL), habit.say(need)),
        )
    };
    let travel = Chosen::or(&a.travel, mm(travel), source, why);
    let shaft_mass =
        mass::round_kg(shaft.diameter.value.value(), shaft.bearing_centres.value.value() + 2.0 * shaft.projection.value.value(), mass::STEEL_KG_PER_M3);
    let dead = foot.mass.value.value() + shaft_mass + 20.0;
    // The weight of the pulley helps the rods, but not while the belt is being pulled off a heap.
    let load = pulls.on_foot() / 2.0;
    let family = Family::of_job(habit.us);
    let rod_yield = Chosen::or(
        &a.rod_yield,
        if habit.us { Stress::mpa(US_ROD_YIELD) } else { Stress::mpa(355.0) },
        if habit.us { US_ROD } else { Source::standard("EN 10025-2, S355J2 up to 16 mm; common for rods").from_memory() },
        if habit.us { "rod of cold-drawn C1018 or better, 54 ksi" } else { "rod of S355J2 or better" },
    );
    let free = travel.value.value() + slide::rod_beyond(Stock::of(habit.us));
    let straight = |r: &PowerThread| {
        critical_load_n(r.root_mm(), free, Ends::PinnedPinned.design(), MODULUS_MPA, rod_yield.value.value())
            >= ROD_RESERVE * load.max(WITH_PLATES * dead * GRAVITY / 2.0)
    };
    let holds = |r: &&PowerThread| r.diameter_mm >= LEAST_ROD && core_stress_mpa(load, r.root_mm()) <= ROD_STRESS && straight(r);
    let rod = family.all().find(holds).or(family.all().next_back()).map_or("Tr30x6", |r| r.name);
    if let Some(name) = a.rod.value()
        && power_threads::find(&name).is_none()
    {
        let names: Vec<&str> = power_threads::ALL.iter().map(|r| r.name).collect();
        word("take_up.rod", "take-up rod thread", &a.rod, &names, out);
    }
    let screw = *kind == TakeUpKind::Screw;
    let unused = "not used by a screw take-up";
    let frame = (30.0 + 0.08 * widths.outside).round();
    let frame_mass =
        Chosen::or(&a.frame_mass, Mass::kg(if screw { 0.0 } else { frame }), PRACTICE, if screw { unused } else { "two side bars and a cross bar" });
    let wanted = mass_needed_kg(pulls.on_foot(), dead + frame_mass.value.value()).max(0.0);
    let weights = if screw { 0.0 } else { (wanted / 10.0).ceil() * 10.0 };
    let weights = Chosen::or(
        &a.weights,
        Mass::kg(weights),
        gravity_take_up::MASS,
        if screw {
            unused.to_string()
        } else {
            format!(
                "{:.1} kN of belt pull on the foot pulley; pulley, shaft, bearings and frame already pull with {:.0} kg",
                pulls.on_foot() / 1000.0,
                dead + frame_mass.value.value()
            )
        },
    );
    let box_length = habit.up((widths.outside * 0.8).max(300.0), Step::Coarse).min(3000.0);
    let box_width = habit.or_inch(300.0, 12.0);
    let box_height = habit.up((filling_height_mm(weights.value.value(), PACKED_KG_PER_M3, box_length, box_width) * 1.2).max(200.0), Step::Coarse).min(2000.0);
    let boxed = if screw { unused.to_string() } else { format!("holds {:.0} kg of cast weights with a fifth to spare", weights.value.value()) };
    TakeUp {
        rod: Chosen::or(
            &a.rod,
            rod.to_string(),
            family.source(),
            format!("core stress not over {ROD_STRESS:.0} MPa at {:.1} kN a side, straight at its longest", load / 1000.0),
        ),
        action: Chosen::or(&a.action, RodAction::Push, PRACTICE, "the bracket stands above the sliding plate and holds it down"),
        rod_yield,
        friction: Chosen::or(
            &a.friction,
            Ratio::of_one(0.15),
            Source::book("Shigley, Mechanical Engineering Design, power screws: 0.15 oiled, dirty").from_memory(),
            "greased and dusty thread",
        ),
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
