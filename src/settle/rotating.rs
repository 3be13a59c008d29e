//! Settles `[shaft]` and `[bearings]`.
//!
//! In: what was asked, pulley, belt pulls, widths. Out: the smallest stock shaft that holds bending stress and slope at the
//! hub, the bearing that fits it and lives long enough, and the tapped end. The chosen sizes are checked again by rules on the finished model.

use super::pulls::overtightened_n;
use super::rounding::{Rounding, Step, mm};
use super::so_far::{Running, Widths};
use super::{PRACTICE, pulleys};
use crate::diagnostics::{Code, Diagnostic, Diagnostics};
use crate::formulas::bearing_life::{Element, life_h};
use crate::formulas::bearing_static::{QUIET, safety};
use crate::formulas::belt_path::neutral_radius;
use crate::formulas::fillet_weld;
use crate::formulas::shaft::{HUB_SLOPE, LARGEST_HUB_SLOPE_RAD, TwoLoads};
use crate::formulas::speed::rpm;
use crate::formulas::strength::RARE;
use crate::say;
use crate::say::Statement;
use crate::sizing::bearing_unit::bearing_unit;
use crate::sizing::rod_holder::sliding_thickness;
use crate::spec::reader::{Chosen, Leaf, did_you_mean};
use crate::spec::rotating::{AskedBearings, AskedShaft, BearingKind, Bearings, Shaft, TappedEnd};
use crate::tables::{bearings, centre_holes, grain_handling, steels, stock_shafts, threads};
use crate::units::{Force, GRAVITY, Length, MM_PER_INCH, Time, Unit};

/// Least foot shaft that is chosen, mm: thinner ones are bent when the pulley is handled, which small pulleys are lighter for (common practice).
const fn least_mm(face_mm: f64) -> f64 {
    if face_mm <= 200.0 {
        25.0
    } else if face_mm <= 280.0 {
        30.0
    } else {
        40.0
    }
}
/// Wanted life of a foot bearing, h (common practice).
const LIFE_H: f64 = 40_000.0;
/// Wear that a shaft is chosen with below the allowed stress, share (common practice).
const STRESS_SHARE: f64 = 0.8;

/// The lift is that of a new belt and the grip that of half a turn, which the finished model may exceed a little.
pub(super) const BLOCKED_IN_HAND: f64 = 1.03;
/// Air between a pillow block and the seam of its bracket, mm.
const BESIDE_SEAM: f64 = 2.0;
/// Yield strength of a steel that is not in the table, MPa: the lowest that is.
const YIELD: f64 = 220.0;

/// Settles shaft and bearings.
pub(super) fn shaft_and_bearings(so_far: &Running<'_>, widths: &Widths, out: &mut Diagnostics) -> (Shaft, Bearings) {
    let (s, b, rounding) = (&so_far.asked.shaft, &so_far.asked.bearings, so_far.rounding);
    let kind = Chosen::or(&b.kind, BearingKind::FourBoltFlange, PRACTICE, "a standard flange unit on a sliding plate: a stock item");
    let steel = Chosen::or(
        &s.steel,
        if rounding.us { "C1045" } else { "C45" }.to_string(),
        if rounding.us { steels::SOURCE } else { steels::EN_SHAFT },
        "usual shaft steel",
    );
    let names: Vec<&str> = steels::ALL.iter().filter(|row| row.shaft).map(|row| row.name).collect();
    word("shaft.steel", "shaft steel", &s.steel, &names, out);
    let mut centres = bearing_centres(s, usual_beyond(*kind), widths, rounding);
    let mut diameter_there = diameter(so_far, centres.value.value(), &steel.value);
    let mut journal_there = journal(s, diameter_there.value.value(), rounding);
    // A block that is too long for the usual distance stands further out, which may ask for a thicker shaft and a longer block.
    for _ in 0..3 {
        let needed = pillow_block_beyond(*kind, journal_there.value.value(), (widths.outside - widths.inside) / 2.0, rounding);
        if centres.value.value() >= widths.outside + 2.0 * needed - 1e-6 {
            break;
        }
        centres = bearing_centres(s, needed, widths, rounding);
        diameter_there = diameter(so_far, centres.value.value(), &steel.value);
        journal_there = journal(s, diameter_there.value.value(), rounding);
    }
    let (diameter, journal) = (diameter_there, journal_there);
    let j = journal.value.value();
    let end = tapped(j, rounding);
    let centre = if rounding.us { centre_holes::INCH } else { centre_holes::SOURCE };
    let thread = Chosen::or(&s.thread, end.thread.to_string(), centre, end.why);
    unknown_thread("shaft.thread", &s.thread, out);
    let half_ring = 0.35 * j + 8.0;
    let shaft = Shaft {
        projection: Chosen::or(
            &s.projection,
            mm(rounding.down(half_ring + j / 2.0, Step::Fine).clamp(10.0, 500.0)),
            PRACTICE,
            say!(
                "half the inner ring, and half a shaft diameter beyond it ({law} allows no more unguarded): journal {journal}",
                law = say::name("OSHA 1910.219(c)(4)"),
                journal = say::mm(j)
            ),
        ),
        tapped_end: Chosen::or(&s.tapped_end, TappedEnd::Near, PRACTICE, "the near end, where it is seen; the foot shaft shows a slow belt first"),
        thread_depth: Chosen::or(
            &s.thread_depth,
            mm(end.usable),
            centre,
            say!("usable thread for {thread} in a shaft end of {end}", thread = say::name(&*thread), end = say::mm(j)),
        ),
        drill_depth: Chosen::or(&s.drill_depth, mm(end.drill), centre, say!("drilled depth for {thread}", thread = say::name(&*thread))),
        diameter,
        journal,
        steel,
        bearing_centres: centres,
        thread,
    };
    (shaft, bearings_for(b, kind, j, so_far.product.is_grain(), rounding))
}

/// Bearing centre beyond the casing, mm: sliding plate and half a flange unit, or a bracket for the others.
fn usual_beyond(kind: BearingKind) -> f64 {
    match kind {
        BearingKind::TwoBoltFlange | BearingKind::FourBoltFlange => 40.0,
        BearingKind::PillowBlock | BearingKind::TakeUpFrame => 80.0,
    }
}

/// Bearing centre beyond the casing that a pillow block needs, mm: sliding plate, the seam of its bracket, half the block; 0 for others.
fn pillow_block_beyond(kind: BearingKind, journal: f64, wall: f64, rounding: Rounding) -> f64 {
    if kind != BearingKind::PillowBlock {
        return 0.0;
    }
    let unit = bearing_unit(kind, journal, rounding.us);
    let sliding = sliding_thickness(wall, &unit, rounding.stock());
    sliding + fillet_weld::leg_mm(fillet_weld::throat_mm(sliding)) + BESIDE_SEAM + unit.depth / 2.0
}

fn bearing_centres(s: &AskedShaft, beyond: f64, widths: &Widths, rounding: Rounding) -> Chosen<Length> {
    Chosen::or(
        &s.bearing_centres,
        mm(rounding.up(widths.outside + 2.0 * beyond, Step::Middle)),
        PRACTICE,
        say!("{outside} over the side plates and {beyond} to the bearing centre on each side", outside = say::mm(widths.outside), beyond = say::mm(beyond)),
    )
}

/// The smallest stock shaft that holds between bearings `span` mm apart, or a journal asked for that is larger.
fn diameter(so_far: &Running<'_>, span: f64, steel: &str) -> Chosen<Length> {
    let (s, foot, rounding) = (&so_far.asked.shaft, &so_far.foot_pulley, so_far.rounding);
    let strength = steels::find(steel);
    let (modulus, allowed) = strength.map_or((steels::MODULUS_MPA, 55.0), |row| (row.modulus_mpa, row.allowable_bending_mpa));
    let yields = strength.map_or(YIELD, |row| row.yield_mpa);
    let allowed = allowed * STRESS_SHARE;
    // Belt pull up and weight down are added: a plugged or starting foot can bring either alone.
    let load = TwoLoads {
        resultant_n: so_far.pulls.on_foot() + pulleys::foot_kg(foot, rounding) * GRAVITY,
        span_mm: span,
        arm_mm: ((span - foot.hub_spacing.value.value()) / 2.0).max(0.0),
    };
    let blocked = TwoLoads { resultant_n: so_far.pulls.on_blocked_foot() * BLOCKED_IN_HAND, ..load };
    let tightened = TwoLoads { resultant_n: overtightened_n(load.resultant_n), ..load };
    let turns = rpm(so_far.duty.belt_speed.value.value(), neutral_radius(foot.diameter.value.value(), so_far.belt.thickness.value.value()));
    let stock: Vec<f64> =
        if rounding.inch { stock_shafts::INCH_16.iter().map(|s| f64::from(*s) / 16.0 * MM_PER_INCH).collect() } else { stock_shafts::METRIC_MM.to_vec() };
    let least = least_mm(foot.face.value.value());
    let lasts = |number: u16| {
        life_h(rating_kn(number), load.bearing_load_n() / 1000.0, turns, Element::Ball) >= LIFE_H
            && safety(static_kn(number) * 1000.0, blocked.bearing_load_n().max(tightened.bearing_load_n())) >= QUIET
    };
    let holds = |d: f64| {
        d >= least - 0.1
            && load.stress_mpa(d) <= allowed
            && blocked.stress_mpa(d).max(tightened.stress_mpa(d)) * RARE <= yields
            && load.hub_slope_rad(d, modulus) <= LARGEST_HUB_SLOPE_RAD
            && largest_bore(d, rounding).is_some_and(|(_, number)| lasts(number))
    };
    let chosen = stock.iter().copied().find(|d| holds(*d)).or(stock.last().copied()).unwrap_or(60.0);
    let chosen = s.journal.value().filter(|j| s.diameter.is_absent() && j.value() > chosen).map_or(chosen, |j| j.value());
    Chosen::or(
        &s.diameter,
        mm(chosen),
        HUB_SLOPE,
        say!(
            "smallest stock size for {load} of belt pull and weight: {stress} of {allowed}, slope at the hub {slope} of {steepest}, and a bearing that lasts",
            load = say::amount(load.resultant_n / 1000.0, Unit::Kn, 1),
            stress = say::amount(load.stress_mpa(chosen), Unit::Mpa, 0),
            allowed = say::amount(allowed, Unit::Mpa, 0),
            slope = say::n(load.hub_slope_rad(chosen, modulus), 4),
            steepest = say::n(LARGEST_HUB_SLOPE_RAD, 4)
        ),
    )
}

/// The journal of a shaft `d` mm thick: as large as a bearing takes it.
fn journal(s: &AskedShaft, d: f64, rounding: Rounding) -> Chosen<Length> {
    let fitting = largest_bore(d, rounding);
    Chosen::or(
        &s.journal,
        mm(fitting.map_or(d, |(bore, _)| bore)),
        bearings::SOURCE,
        match fitting {
            Some((bore, number)) if (bore - d).abs() < 0.01 => say!("straight shaft through insert bearing {number}", number = number),
            Some((_, number)) => say!("largest insert bearing bore not over the shaft: {number}", number = number),
            None => "no insert bearing in the table is smaller; the shaft is taken straight".into(),
        },
    )
}

/// The bearings for a journal of `j` mm.
fn bearings_for(b: &AskedBearings, kind: Chosen<BearingKind>, j: f64, grain: bool, rounding: Rounding) -> Bearings {
    let (_, number) = largest_bore(j, rounding).or(bearings::ALL.first().map(|row| (row.bore_mm, row.number))).unwrap_or((25.0, 205));
    let rating = Force::n(rating_kn(number) * 1000.0);
    Bearings {
        kind,
        rating: Chosen::or(
            &b.rating,
            rating,
            bearings::SOURCE,
            say!("insert bearing {number} for a journal of {journal}", number = number, journal = say::mm(j)),
        ),
        static_rating: Chosen::or(
            &b.static_rating,
            Force::n(static_kn(number) * 1000.0),
            bearings::SOURCE,
            say!("insert bearing {number} for a journal of {journal}", number = number, journal = say::mm(j)),
        ),
        life: Chosen::or(&b.life, Time::s(LIFE_H * 3600.0), PRACTICE, say!("{life} are customary", life = say::amount(LIFE_H, Unit::H, 0))),
        outside: Chosen::or(
            &b.outside,
            true,
            grain_handling::source(grain_handling::BEARINGS, rounding.us, grain),
            "outside the casing no monitoring of the bearings is asked for",
        ),
    }
}

/// Static rating in kN of an insert bearing; 0 when the table does not have it.
fn static_kn(number: u16) -> f64 {
    bearings::by_number(number).map_or(0.0, |row| row.static_kn)
}

/// Rating in kN of an insert bearing; 0 when the table does not have it.
fn rating_kn(number: u16) -> f64 {
    bearings::by_number(number).map_or(0.0, |row| row.dynamic_kn)
}

/// The largest bore not over a diameter, and the bearing's number.
fn largest_bore(d: f64, rounding: Rounding) -> Option<(f64, u16)> {
    let mut best: Option<(f64, u16)> = None;
    for row in bearings::ALL {
        let bores: Vec<f64> = if rounding.inch { row.inch_bores_mm().collect() } else { vec![row.bore_mm] };
        for bore in bores {
            if bore <= d + 0.01 && best.is_none_or(|(b, _)| bore > b) {
                best = Some((bore, row.number));
            }
        }
    }
    best
}

/// A drilled and tapped shaft end, mm.
struct Tapped {
    thread: &'static str,
    /// Usable depth of the thread.
    usable: f64,
    /// Depth of the drilled hole.
    drill: f64,
    why: Statement,
}

/// The tapped end of a shaft `d` mm thick there.
fn tapped(d: f64, rounding: Rounding) -> Tapped {
    if rounding.us {
        let wanted = d / 3.2;
        let row = threads::ALL
            .iter()
            .rfind(|t| t.series == threads::Series::Unc && t.diameter_mm <= wanted)
            .or(threads::ALL.iter().find(|t| t.series == threads::Series::Unc));
        let (thread, size) = row.map_or(("5/8-11", 15.875), |t| (t.name, t.diameter_mm));
        let usable = rounding.near(2.0 * size, Step::Fine);
        let why = say!("an inch thread of about a third of the shaft end, {end}", end = say::mm(d));
        return Tapped { thread, usable, drill: rounding.up(usable + 0.75 * size, Step::Fine), why };
    }
    let (thread, usable, drill) = centre_holes::for_shaft_mm(d).map_or(("M20", 42.0, 59.0), |h| (h.thread, h.thread_depth_mm, h.drill_depth_mm));
    Tapped { thread, usable, drill, why: say!("centre hole for a shaft end of {end}", end = say::mm(d)) }
}

/// Reports a thread that the tables do not know.
fn unknown_thread(path: &str, leaf: &Leaf<String>, out: &mut Diagnostics) {
    if let Leaf::Given(name, span) = leaf
        && threads::find(name).is_none()
    {
        let names: Vec<&str> = threads::ALL.iter().map(|t| t.name).collect();
        let hint = did_you_mean(name, names.iter().copied())
            .map_or_else(|| format!("the threads are {}", names.join(", ")), |near| format!("did you mean {near}? The threads are {}", names.join(", ")));
        out.push(Diagnostic::error(Code::UnknownWord, path, Some(span.clone()), format!("\"{name}\" is not a thread in the tables"), hint));
    }
}

/// Reports a word that is not in a list.
pub(super) fn word(path: &str, what: &str, leaf: &Leaf<String>, known: &[&str], out: &mut Diagnostics) {
    if let Leaf::Given(name, span) = leaf
        && !known.iter().any(|k| k.eq_ignore_ascii_case(name))
    {
        let hint = did_you_mean(name, known.iter().copied())
            .map_or_else(|| format!("write one of {}", known.join(", ")), |near| format!("did you mean {near}? Known are {}", known.join(", ")));
        out.push(Diagnostic::error(Code::UnknownWord, path, Some(span.clone()), format!("\"{name}\" is not a {what} that the program knows"), hint));
    }
}
