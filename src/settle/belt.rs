//! Settles `[belt]`.
//!
//! In: what was asked, the bucket, the belt pulls. Out: width, carcass, strength and the smallest pulleys.
//! The grades are ordinary ones of the trade; a maker's data sheet in the spec overrides every one of them.

use super::PRACTICE;
use super::bucket::total_length;
use super::habit::{Habit, Step, mm};
use super::pulls::Pulls;
use crate::sources::Source;
use crate::spec::belt::{AskedBelt, Belt, Carcass};
use crate::spec::bucket::Bucket;
use crate::spec::reader::Chosen;
use crate::units::{AreaMass, LineForce, Ratio};

const OSHA_BELT: Source = Source::law("OSHA 29 CFR 1910.272(q)(2)").from_memory();
/// Breaking strengths of fabric belts, N/mm.
const FABRIC: [f64; 9] = [315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0];
/// Breaking strengths of steel cord belts, N/mm.
const CORD: [f64; 8] = [630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3150.0];

/// Part of the pull kept in hand when a grade is chosen: the model's wraps and heights are not known yet.
const IN_HAND: f64 = 1.1;

/// Settles the belt.
pub(super) fn belt(a: &AskedBelt, bucket: &Bucket, pulls: &Pulls, habit: Habit) -> Belt {
    let across = total_length(bucket);
    let margin = habit.or_inch(50.0, 2.0);
    let width = Chosen::or(
        &a.width,
        mm(habit.up(across + margin, Step::Middle)),
        PRACTICE,
        format!("{} of buckets and gaps with {} for both edges", habit.say(across), habit.say(margin)),
    );
    let per_mm = pulls.chain.head_tight_n / width.value.value();
    let too_much = per_mm * 10.0 > 2000.0;
    let carcass = Chosen::or(
        &a.carcass,
        if too_much { Carcass::SteelCord } else { Carcass::Fabric },
        PRACTICE,
        format!(
            "largest pull about {per_mm:.0} N/mm{}",
            if too_much { ", more than fabric carries with a tenfold reserve" } else { ": fabric carries it with a tenfold reserve" }
        ),
    );
    let fabric = *carcass == Carcass::Fabric;
    let p = bucket.projection.value.value();
    let by_projection = match p {
        p if p <= 130.0 => 3,
        p if p <= 170.0 => 4,
        p if p <= 215.0 => 5,
        _ => 6,
    };
    let plies = Chosen::or(
        &a.plies,
        if fabric { by_projection } else { 1 },
        PRACTICE,
        if fabric { format!("enough to hold the bolts of buckets that project {}", habit.say(p)) } else { "one layer of cords".into() },
    );
    let n = f64::from(*plies).max(1.0);
    let thickness = Chosen::or(
        &a.thickness,
        mm(if fabric { 2.0 * n + 1.0 } else { 15.0 }),
        PRACTICE,
        if fabric { "2 mm a ply and 1 mm more for covers".to_string() } else { "cords with covers".into() },
    );
    let t = thickness.value.value();
    let density = if fabric { 1.15 } else { 1.5 };
    let grades: &[f64] = if fabric { &FABRIC } else { &CORD };
    let reserve = if fabric { 10.0 } else { 8.0 };
    let least = if fabric { 100.0 * n } else { 0.0 };
    let grade = grades.iter().copied().find(|g| *g >= per_mm * IN_HAND * reserve && *g >= least).or(grades.last().copied()).unwrap_or(2000.0);
    let (full, small) = if fabric { (100.0 * n, 63.0 * n) } else { (800.0, 500.0) };
    let full = full.min(2500.0);
    Belt {
        mass: Chosen::or(&a.mass, AreaMass::kg_per_m2((t * density * 10.0).round() / 10.0), PRACTICE, format!("{density} kg/m² per mm of thickness")),
        stretch: Chosen::or(
            &a.stretch,
            Ratio::of_one(if fabric { 0.015 } else { 0.0025 }),
            PRACTICE,
            if fabric { "lasting and elastic stretch of a fabric belt" } else { "stretch of a steel cord belt" },
        ),
        min_pulley: Chosen::or(
            &a.min_pulley,
            mm(habit.up(full, Step::Middle)),
            PRACTICE,
            if fabric { format!("100 mm a ply, {n} plies") } else { "steel cords at full wrap".to_string() },
        ),
        min_bend_pulley: Chosen::or(
            &a.min_bend_pulley,
            mm(habit.up(small, Step::Middle)),
            PRACTICE,
            if fabric { format!("63 mm a ply, {n} plies, where the wrap is small") } else { "steel cords where the wrap is small".to_string() },
        ),
        tracking_tension: Chosen::or(
            &a.tracking_tension,
            LineForce::n_per_mm(if fabric { 1.5 * n } else { 6.0 }),
            PRACTICE,
            if fabric { format!("1.5 N per mm of width and ply, {n} plies") } else { "a steel cord belt like four fabric plies".to_string() },
        ),
        strength: Chosen::or(
            &a.strength,
            LineForce::n_per_mm(grade / reserve),
            PRACTICE,
            format!("breaking strength {grade:.0} N/mm with a reserve of {reserve:.0}; largest pull about {per_mm:.0} N/mm"),
        ),
        conductive: Chosen::or(&a.conductive, true, OSHA_BELT, "belts of elevators must conduct static charge (at most 300 MΩ)"),
        width,
        thickness,
        carcass,
        plies,
    }
}
