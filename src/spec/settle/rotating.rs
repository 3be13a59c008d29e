//! Settles `[shaft]` and `[bearings]`.
//!
//! In: what was asked, pulley, belt pulls, widths. Out: the smallest stock shaft that holds bending stress and slope at the
//! hub, the bearing that fits it and lives long enough, and the tapped end. The chosen sizes are checked again by rules on the finished model.

use super::casing::Widths;
use super::habit::{Habit, Step, mm};
use super::pulls::Pulls;
use super::{PRACTICE, later, decide};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::sources::Source;
use crate::spec::AskedSpec;
use crate::spec::belt::Belt;
use crate::spec::duty::Duty;
use crate::spec::pulleys::FootPulley;
use crate::spec::reader::{Chosen, Leaf, did_you_mean};
use crate::spec::rotating::{BearingKind, Bearings, Shaft, TappedEnd};
use crate::tables::{bearings, threads};
use crate::units::{Force, GRAVITY, MM_PER_INCH, Time};
use std::f64::consts::PI;

const B105: Source = Source::standard("ANSI/CEMA B105.1: slope at the hub 0.0023; stress limit 41 MPa from memory of an older edition");
const CENTRE_HOLES: Source = Source::standard("DIN 332-2 form D").from_memory();
/// Stock diameters in mm; common practice.
const STOCK: [f64; 11] = [40.0, 50.0, 60.0, 65.0, 70.0, 75.0, 80.0, 90.0, 100.0, 110.0, 120.0];
/// Stock diameters in sixteenths of an inch; common practice.
const STOCK_INCH: [f64; 8] = [23.0, 31.0, 35.0, 39.0, 47.0, 56.0, 64.0, 72.0];
/// Shaft steels that the program knows: spec name.
const STEELS: [&str; 8] = ["C45", "C35", "42CrMo4", "S355J2", "1018", "1045", "4140", "A36"];
/// Greatest bending stress, MPa, and slope at the hub.
const STRESS: f64 = 41.0;
const SLOPE: f64 = 0.0023;
/// Modulus of elasticity of steel, MPa (standard value).
const E: f64 = 210_000.0;
/// Wanted life of a foot bearing, h.
const LIFE_H: f64 = 40_000.0;

/// Load, geometry and what they demand.
struct Demand {
    resultant: f64,
    arm: f64,
    centres: f64,
    rpm: f64,
}

impl Demand {
    fn stress(&self, d: f64) -> f64 {
        32.0 * self.resultant / 2.0 * self.arm / (PI * d.powi(3))
    }
    fn slope(&self, d: f64) -> f64 {
        let inertia = PI * d.powi(4) / 64.0;
        self.resultant * self.arm * (self.centres - 2.0 * self.arm).max(0.0) / (4.0 * E * inertia)
    }
    fn life_h(&self, c_kn: f64) -> f64 {
        (c_kn * 1000.0 / (self.resultant / 2.0)).powi(3) * 1e6 / (60.0 * self.rpm)
    }
}

/// Settles shaft and bearings.
#[allow(clippy::too_many_arguments)]
pub(super) fn shaft_and_bearings(asked: &AskedSpec, foot: &FootPulley, belt: &Belt, duty: &Duty, pulls: &Pulls, widths: &Widths, habit: Habit, out: &mut Diagnostics) -> (Shaft, Bearings) {
    let (s, b) = (&asked.shaft, &asked.bearings);
    let kind = Chosen::or(&b.kind, BearingKind::FourBoltFlange, PRACTICE, "a standard flange unit on a sliding plate: a stock item");
    // Bearing centre beyond the casing: sliding plate and half a flange unit, or a bracket for the others.
    let beyond = match *kind {
        BearingKind::TwoBoltFlange | BearingKind::FourBoltFlange => 40.0,
        BearingKind::PillowBlock | BearingKind::TakeUpFrame => 80.0,
    };
    let centres = Chosen::or(
        &s.bearing_centres,
        mm(habit.up(widths.outside + 2.0 * beyond, Step::Middle)),
        PRACTICE,
        format!("{} over the side plates and {} to the bearing centre on each side", habit.say(widths.outside), habit.say(beyond)),
    );
    let weight = foot.mass.value.value() * GRAVITY;
    let rim = (foot.diameter.value.value() + belt.thickness.value.value()) / 1000.0;
    let demand = Demand {
        resultant: 2.0 * pulls.foot + weight,
        arm: ((centres.value.value() - foot.hub_spacing.value.value()) / 2.0).max(0.0),
        centres: centres.value.value(),
        rpm: 60.0 * duty.belt_speed.value.value() / (PI * rim),
    };
    let stock: Vec<f64> = if habit.inch { STOCK_INCH.iter().map(|s| s / 16.0 * MM_PER_INCH).collect() } else { STOCK.to_vec() };
    let holds = |d: f64| demand.stress(d) <= STRESS && demand.slope(d) <= SLOPE && bearing_for(d, habit).is_none_or(|c| demand.life_h(c) >= LIFE_H);
    let chosen = stock.iter().copied().find(|d| holds(*d)).or(stock.last().copied()).unwrap_or(60.0);
    let chosen = s.journal.value().filter(|j| s.diameter.is_absent() && j.value() > chosen).map_or(chosen, |j| j.value());
    let diameter = Chosen::or(
        &s.diameter,
        mm(chosen),
        B105,
        format!(
            "smallest stock size for {:.1} kN: {:.0} MPa (limit {STRESS:.0}), slope {:.4} (limit {SLOPE})",
            demand.resultant / 1000.0,
            demand.stress(chosen),
            demand.slope(chosen)
        ),
    );
    let d = diameter.value.value();
    let fitting = largest_bore(d, habit);
    let journal = Chosen::or(
        &s.journal,
        mm(fitting.map_or(d, |(bore, _)| bore)),
        bearings::SOURCE,
        match fitting {
            Some((bore, number)) if (bore - d).abs() < 0.01 => format!("straight shaft through insert bearing {number}"),
            Some((_, number)) => format!("largest insert bearing bore not over the shaft: {number}"),
            None => "no insert bearing in the table is smaller; the shaft is taken straight".to_string(),
        },
    );
    let j = journal.value.value();
    let (thread, usable, drill, why) = tapped(j, habit);
    let steel = Chosen::or(&s.steel, if habit.us { "1045" } else { "C45" }.to_string(), PRACTICE, "usual shaft steel");
    word("shaft.steel", "shaft steel", &s.steel, &STEELS, out);
    let thread = Chosen::or(&s.thread, thread.to_string(), CENTRE_HOLES, why);
    unknown_thread("shaft.thread", &s.thread, out);
    let half_ring = 0.35 * j + 8.0;
    let shaft = Shaft {
        projection: Chosen::or(
            &s.projection,
            mm(habit.down(half_ring + j / 2.0, Step::Fine).clamp(10.0, 500.0)),
            PRACTICE,
            format!("half the inner ring, and half a shaft diameter beyond it (OSHA 1910.219(c)(4) allows no more unguarded): journal {}", habit.say(j)),
        ),
        tapped_end: Chosen::or(&s.tapped_end, TappedEnd::Near, PRACTICE, "the near end, where it is seen; the foot shaft shows a slow belt first"),
        thread_depth: Chosen::or(&s.thread_depth, mm(usable), CENTRE_HOLES, format!("usable thread for {} in a shaft end of {}", *thread, habit.say(j))),
        drill_depth: Chosen::or(&s.drill_depth, mm(drill), CENTRE_HOLES, format!("drilled depth for {}", *thread)),
        diameter,
        journal,
        steel,
        bearing_centres: centres,
        thread,
    };
    let mut rating = later(&b.rating, Force::n(30_000.0));
    let c = bearing_for(j, habit).or_else(|| bearings::ALL.iter().rev().find(|row| row.bore_mm <= j + 0.01).map(|row| row.dynamic_kn)).or(bearings::ALL.first().map(|row| row.dynamic_kn)).unwrap_or(14.0);
    decide(&mut rating, Force::n(c * 1000.0), bearings::SOURCE, format!("insert bearing for a journal of {}", habit.say(j)));
    let bearings = Bearings {
        kind,
        rating,
        life: Chosen::or(&b.life, Time::s(LIFE_H * 3600.0), PRACTICE, "40,000 h"),
        outside: Chosen::or(&b.outside, true, Source::law("OSHA 29 CFR 1910.272(q)(4)").from_memory(), "outside the casing no monitoring of the bearings is asked for"),
    };
    (shaft, bearings)
}

/// Rating in kN of the insert bearing with exactly this bore.
fn bearing_for(bore: f64, habit: Habit) -> Option<f64> {
    let row = bearings::by_bore_mm(bore).or_else(|| if habit.inch { bearings::by_inch_bore_mm(bore) } else { None });
    row.map(|r| r.dynamic_kn)
}

/// The largest bore not over a diameter, and the bearing's number.
fn largest_bore(d: f64, habit: Habit) -> Option<(f64, u16)> {
    let mut best: Option<(f64, u16)> = None;
    for row in bearings::ALL {
        let bores: Vec<f64> = if habit.inch { row.inch_bores_mm().collect() } else { vec![row.bore_mm] };
        for bore in bores {
            if bore <= d + 0.01 && best.is_none_or(|(b, _)| bore > b) {
                best = Some((bore, row.number));
            }
        }
    }
    best
}

/// Thread, usable depth and drilled depth for a shaft end.
fn tapped(d: f64, habit: Habit) -> (&'static str, f64, f64, String) {
    if habit.inch {
        let wanted = d / 3.2;
        let row = threads::ALL.iter().rfind(|t| t.series == threads::Series::Unc && t.diameter_mm <= wanted).or(threads::ALL.iter().find(|t| t.series == threads::Series::Unc));
        let (name, size) = row.map_or(("5/8-11", 15.875), |t| (t.name, t.diameter_mm));
        let usable = habit.near(2.0 * size, Step::Fine);
        return (name, usable, habit.up(usable + 0.75 * size, Step::Fine), format!("an inch thread of about a third of the shaft end, {}", habit.say(d)));
    }
    let (name, usable, drill) = match d {
        d if d <= 24.0 => ("M8", 19.0, 28.0),
        d if d <= 30.0 => ("M10", 22.0, 34.0),
        d if d <= 38.0 => ("M12", 28.0, 42.0),
        d if d <= 50.0 => ("M16", 36.0, 50.0),
        d if d <= 85.0 => ("M20", 42.0, 59.0),
        d if d <= 130.0 => ("M24", 50.0, 68.0),
        d if d <= 225.0 => ("M30", 60.0, 83.0),
        _ => ("M36", 74.0, 99.0),
    };
    (name, usable, drill, format!("centre hole for a shaft end of {}", habit.say(d)))
}

/// Reports a thread that the tables do not know.
fn unknown_thread(path: &str, leaf: &Leaf<String>, out: &mut Diagnostics) {
    if let Leaf::Given(name, span) = leaf
        && threads::find(name).is_none()
    {
        let names: Vec<&str> = threads::ALL.iter().map(|t| t.name).collect();
        let hint = did_you_mean(name, names.iter().copied()).map_or_else(|| format!("the threads are {}", names.join(", ")), |near| format!("did you mean {near}? The threads are {}", names.join(", ")));
        out.push(Diagnostic::error(Code::UnknownWord, path, Some(span.clone()), format!("\"{name}\" is not a thread in the tables"), hint));
    }
}

/// Reports a word that is not in a list.
pub(super) fn word(path: &str, what: &str, leaf: &Leaf<String>, known: &[&str], out: &mut Diagnostics) {
    if let Leaf::Given(name, span) = leaf
        && !known.iter().any(|k| k.eq_ignore_ascii_case(name))
    {
        let hint = did_you_mean(name, known.iter().copied()).map_or_else(|| format!("write one of {}", known.join(", ")), |near| format!("did you mean {near}? Known are {}", known.join(", ")));
        out.push(Diagnostic::error(Code::UnknownWord, path, Some(span.clone()), format!("\"{name}\" is not a {what} that the program knows"), hint));
    }
}
