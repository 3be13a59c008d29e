//! Settles `[belt]`.
//!
//! In: what was asked, the bucket, the belt pulls. Out: width, carcass, strength and the smallest pulleys.
//! The grades are ordinary ones of the trade; a maker's data sheet in the spec overrides every one of them.

use super::PRACTICE;
use super::bucket::rows_length;
use super::pulls::overtightened_n;
use super::rounding::{Rounding, Step, mm};
use super::so_far::{Lifted, Pulls};
use crate::formulas::tension::BRIEF_BELT_PULL;
use crate::say;
use crate::say::Amount;
use crate::sizing::pulley;
use crate::spec::belt::{AskedBelt, Belt, Carcass};
use crate::spec::reader::Chosen;
use crate::tables::{grain_handling, pulley_faces};
use crate::units::{AreaMass, GRAVITY, Length, LineForce, Ratio, Unit};

/// Breaking strengths of fabric belts, N/mm.
const FABRIC: [f64; 9] = [315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0];
/// Breaking strengths of steel cord belts, N/mm.
const CORD: [f64; 8] = [630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3150.0];

/// Part of the pull kept in hand when a grade is chosen: the model's wraps and heights are not known yet.
const IN_HAND: f64 = 1.1;

/// Settles the belt for these pulls.
pub(super) fn belt(so_far: &Lifted<'_>, pulls: &Pulls) -> Belt {
    let (a, rounding) = (&so_far.asked.belt, so_far.rounding);
    let across = rows_length(&so_far.bucket);
    let margin = rounding.or_inch(50.0, 2.0);
    let width = Chosen::or(
        &a.width,
        mm(rounding.up(across + margin, Step::Middle)),
        PRACTICE,
        say!("{across} of buckets and gaps with {margin} for both edges", across = say::mm(across), margin = say::mm(margin)),
    );
    let per_mm = pulls.chain.head_full_n / width.value.value();
    let tightened = (pulls.chain.head_full_n + overtightened(so_far, pulls, width.value.value())) / width.value.value() / BRIEF_BELT_PULL;
    let too_much = per_mm * 10.0 > 2000.0;
    let carcass = Chosen::or(
        &a.carcass,
        if too_much { Carcass::SteelCord } else { Carcass::Fabric },
        PRACTICE,
        if too_much {
            say!("largest pull about {pull}, more than fabric carries with a tenfold reserve", pull = pull(per_mm))
        } else {
            say!("largest pull about {pull}: fabric carries it with a tenfold reserve", pull = pull(per_mm))
        },
    );
    let fabric = *carcass == Carcass::Fabric;
    let plies = plies(a, fabric, so_far.bucket.projection.value.value());
    let build = Build { a, rounding, fabric, n: f64::from(*plies).max(1.0) };
    let thickness = Chosen::or(
        &a.thickness,
        mm(if fabric { 2.0 * build.n + 1.0 } else { 15.0 }),
        PRACTICE,
        if fabric { say!("{ply} a ply and {covers} more for covers", ply = say::mm(2.0), covers = say::mm(1.0)) } else { "cords with covers".into() },
    );
    let density = if fabric { 1.15 } else { 1.5 };
    let mass = AreaMass::kg_per_m2((thickness.value.value() * density * 10.0).round() / 10.0);
    Belt {
        mass: Chosen::or(&a.mass, mass, PRACTICE, say!("{density} of thickness", density = say::amount(density, Unit::KgPerM2Mm, 2))),
        stretch: Chosen::or(
            &a.stretch,
            Ratio::of_one(if fabric { 0.015 } else { 0.0025 }),
            PRACTICE,
            if fabric { "lasting and elastic stretch of a fabric belt" } else { "stretch of a steel cord belt" },
        ),
        min_pulley: build.min_pulley(),
        min_bend_pulley: build.min_bend_pulley(),
        tracking_tension: build.tracking_tension(),
        strength: build.strength(per_mm, tightened),
        conductive: Chosen::or(
            &a.conductive,
            true,
            grain_handling::source(grain_handling::BELT, rounding.us, so_far.product.is_grain()),
            "belts of elevators must conduct static charge (at most 300 MΩ)",
        ),
        width,
        thickness,
        carcass,
        plies,
    }
}

/// What hand tightening adds to every pull in the belt at the most, N: half of what both rods and the weight of the foot pulley put on it.
fn overtightened(so_far: &Lifted<'_>, pulls: &Pulls, width: f64) -> f64 {
    let diameter = so_far.asked.foot_pulley.diameter.value().unwrap_or(so_far.head_pulley.diameter.value).value();
    let weight = pulley::drum_kg(so_far.rounding.stock(), diameter, width + pulley_faces::wider_mm(width)) * GRAVITY;
    overtightened_n(pulls.on_foot() + weight) / 2.0
}

/// A force per width as it is said.
const fn pull(per_mm: f64) -> Amount {
    say::amount(per_mm, Unit::NPerMm, 0)
}

fn plies(a: &AskedBelt, fabric: bool, projection: f64) -> Chosen<u32> {
    let by_projection = match projection {
        p if p <= 80.0 => 2,
        p if p <= 130.0 => 3,
        p if p <= 170.0 => 4,
        p if p <= 215.0 => 5,
        _ => 6,
    };
    Chosen::or(
        &a.plies,
        if fabric { by_projection } else { 1 },
        PRACTICE,
        if fabric {
            say!("enough to hold the bolts of buckets that project {projection}", projection = say::mm(projection))
        } else {
            "one layer of cords".into()
        },
    )
}

/// What the belt is made of.
struct Build<'a> {
    a: &'a AskedBelt,
    rounding: Rounding,
    fabric: bool,
    /// Plies.
    n: f64,
}

impl Build<'_> {
    fn min_pulley(&self) -> Chosen<Length> {
        let n = self.n;
        let least = if self.fabric { 100.0 * n } else { 800.0 };
        Chosen::or(
            &self.a.min_pulley,
            mm(self.rounding.up(least.min(2500.0), Step::Middle)),
            PRACTICE,
            if self.fabric { say!("{ply} a ply, {n} plies", ply = say::mm(100.0), n = say::n(n, 0)) } else { "steel cords at full wrap".into() },
        )
    }

    fn min_bend_pulley(&self) -> Chosen<Length> {
        let n = self.n;
        Chosen::or(
            &self.a.min_bend_pulley,
            mm(self.rounding.up(if self.fabric { 63.0 * n } else { 500.0 }, Step::Middle)),
            PRACTICE,
            if self.fabric {
                say!("{ply} a ply, {n} plies, where the wrap is small", ply = say::mm(63.0), n = say::n(n, 0))
            } else {
                "steel cords where the wrap is small".into()
            },
        )
    }

    fn tracking_tension(&self) -> Chosen<LineForce> {
        let n = self.n;
        Chosen::or(
            &self.a.tracking_tension,
            LineForce::n_per_mm(if self.fabric { 1.5 * n } else { 6.0 }),
            PRACTICE,
            if self.fabric {
                say!("{force} a ply, {n} plies", force = say::amount(1.5, Unit::NPerMm, 1), n = say::n(n, 0))
            } else {
                "a steel cord belt like four fabric plies".into()
            },
        )
    }

    /// For the largest pull, and for what a belt tightened too hard asks of it besides, N per mm of width.
    fn strength(&self, per_mm: f64, tightened: f64) -> Chosen<LineForce> {
        let grades: &[f64] = if self.fabric { &FABRIC } else { &CORD };
        let reserve = if self.fabric { 10.0 } else { 8.0 };
        let least = if self.fabric { 100.0 * self.n } else { 0.0 };
        let grade =
            grades.iter().copied().find(|g| *g >= (per_mm * IN_HAND).max(tightened) * reserve && *g >= least).or(grades.last().copied()).unwrap_or(2000.0);
        Chosen::or(
            &self.a.strength,
            LineForce::n_per_mm(grade / reserve),
            PRACTICE,
            say!(
                "breaking strength {grade} with a reserve of {reserve}; largest pull about {pull}",
                grade = pull(grade),
                reserve = say::n(reserve, 0),
                pull = pull(per_mm)
            ),
        )
    }
}
