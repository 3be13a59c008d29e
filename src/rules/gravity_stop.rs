//! The stop of a gravity take-up catches boxes and pulley when the belt parts, and its bracket holds them when the foot blocks.
//!
//! What hangs on a side falls freely by the gap and is stopped by an elastic ring (physics); rod, lug, shelf, gussets and seams then
//! keep 1.1 in hand of yield and seam strength, as under the rare case of a blocked foot. The side plate itself is not judged.

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict, Wanted};
use crate::analysis::gravity::Stopped;
use crate::formulas::gravity_take_up::{CATCH, MOST_PRESSED, PRESSED};
use crate::formulas::screw::core_stress_mpa;
use crate::formulas::strength::RARE;
use crate::model::rotating::{Around, Held, RodHolder, Stop};
use crate::say;
use crate::say::{amount, mm};
use crate::tables::power_threads::{self, Family};
use crate::units::{Length, Unit};

/// Stop against what it catches.
pub const RULE: Rule = Rule {
    id: "gravity-stop",
    title: "Stop of the gravity take-up",
    what: "What a stop catches when the belt parts, and what the belt pulls up when the foot blocks, against its buffer ring, its rod, lug and bracket.",
    why: "When the belt parts, pulley, shaft and boxes fall; what is not caught tears the casing open and hits whoever stands beside it.",
    remedy: "A smaller gap, a wider ring, a thicker rod, lug or shelf, or higher gussets.",
    source: CATCH,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(gravity) = &case.results.gravity else { return Vec::new() };
    let stop = &gravity.stop;
    let mut out = vec![ring(case, stop)];
    out.extend(stop.rod_mpa.map(|mpa| rod(stop, mpa)));
    out.extend(Held::ALL.iter().zip(stop.held_mpa).map(|(held, [mpa, limit])| holder(stop, *held, mpa, limit)));
    if out.iter().all(|f| f.verdict == Verdict::Pass) {
        return out;
    }
    // A part that is stronger makes others longer: what mends one has to leave the others whole.
    let sizes = if case.wanted == Wanted::Changes { cure(case, stop) } else { Vec::new() };
    out.into_iter().map(|finding| sizes.iter().fold(finding, |finding, (key, size)| size.put(finding, key))).collect()
}

/// The ring under the nut.
fn ring(case: &Case<'_>, s: &Stopped) -> Finding {
    let t = &case.spec.take_up;
    let percent = |share: f64| amount(100.0 * share, Unit::Percent, 0);
    RULE.finds(
        unless(within(s.pressed, MOST_PRESSED), Verdict::Fail),
        "take_up.buffer",
        say!(
            "{weight} on a side fall by {gap} and are caught with {caught}: the ring of {ring} is pressed by {pressed} of its thickness, {most} may be",
            weight = amount(s.weight_n / 1000.0, Unit::Kn, 1),
            gap = mm(t.stop_gap.value()),
            caught = amount(s.caught_n / 1000.0, Unit::Kn, 1),
            ring = mm(t.buffer.value()),
            pressed = percent(s.pressed),
            most = percent(MOST_PRESSED),
        ),
    )
    .value(100.0 * s.pressed, Unit::Percent)
    .limit(100.0 * MOST_PRESSED, Unit::Percent)
    .after(PRESSED)
}

/// The rod.
fn rod(s: &Stopped, mpa: f64) -> Finding {
    RULE.finds(
        unless(within(mpa, s.rod_limit_mpa), Verdict::Fail),
        "take_up.rod",
        say!(
            "{load} along the rod of a stop put {stress} on its core, {allowed} are allowed",
            load = amount(s.largest_n() / 1000.0, Unit::Kn, 1),
            stress = amount(mpa, Unit::Mpa, 0),
            allowed = amount(s.rod_limit_mpa, Unit::Mpa, 0),
        ),
    )
    .value(mpa, Unit::Mpa)
    .limit(s.rod_limit_mpa, Unit::Mpa)
}

/// Lug, bracket and their seams.
fn holder(s: &Stopped, held: Held, mpa: f64, limit: f64) -> Finding {
    let (part, key) = match held {
        Held::Lug => ("the lug of the stop's rod", "take_up.lug"),
        Held::LugSeam => ("the seam of the lug of the stop's rod", "take_up.lug"),
        Held::Shelf => ("the shelf under the stop", "take_up.shelf"),
        Held::Gusset => ("the gussets under the stop", "take_up.gusset"),
        Held::BracketSeam => ("the seam of the stop's bracket", "take_up.gusset"),
    };
    RULE.finds(
        unless(within(mpa, limit), Verdict::Fail),
        key,
        say!(
            "{load} of the stop put {stress} on {part}, {allowed} are allowed",
            load = amount(s.largest_n() / 1000.0, Unit::Kn, 1),
            stress = amount(mpa, Unit::Mpa, 0),
            part = part,
            allowed = amount(limit, Unit::Mpa, 0),
        ),
    )
    .value(mpa, Unit::Mpa)
    .limit(limit, Unit::Mpa)
}

/// A size that is changed.
enum Size {
    Mm(f64),
    Thread(&'static str),
}

impl Size {
    fn put(&self, finding: Finding, key: &'static str) -> Finding {
        match self {
            Self::Mm(mm) => finding.change(key, &Length::mm(*mm)),
            Self::Thread(name) => finding.change(key, &(*name).to_string()),
        }
    }
}

/// What the changed sizes may add to what hangs, as a share.
const HEAVIER: f64 = 1.03;

/// The least ring, rod, lug and bracket from these up that bear what has to be borne, as far as the spec does not say them already; nothing
/// where none do.
fn cure(case: &Case<'_>, s: &Stopped) -> Vec<(&'static str, Size)> {
    let (r, t, stock) = (&case.foot.rotating, &case.spec.take_up, case.spec.stock());
    let Some(now) = r.holder.stop else { return Vec::new() };
    let around = Around { sliding: r.sliding_plate.thickness, wall: case.foot.casing.plate, flange: case.foot.casing.flange };
    let weight = s.weight_n * HEAVIER;
    let wider = (1..=30).map(|i| up_to(now.ring, 10.0) + 10.0 * f64::from(i)).take_while(|ring| *ring <= 300.0);
    let Some(ring) = std::iter::once(now.ring).chain(wider).find(|ring| Stop::new(*ring, now.gap, r.rod_diameter, stock).bears(weight)) else {
        return Vec::new();
    };
    let rods = power_threads::find(&t.rod.value).into_iter().chain(Family::of_job(case.us()).all().filter(|row| row.diameter_mm > r.rod_diameter));
    let found = rods.map(|row| {
        let stop = Stop::new(ring, now.gap, row.diameter_mm, stock);
        let load = stop.catch(weight).max(s.blocked_n);
        let strong = core_stress_mpa(load, row.root_mm()) * RARE <= t.rod_yield.value();
        let loads = [(load, RARE)];
        let holder = RodHolder::new(stock, row.diameter_mm, &around, [r.holder.lug, r.holder.shelf, r.holder.gusset]).stopped(Some(stop)).strengthened(&loads);
        (row.name, holder, strong && stop.bears(weight) && Held::ALL.iter().all(|held| holder.holds(*held, &loads)))
    });
    let Some((rod, holder, _)) = found.into_iter().find(|f| f.2) else { return Vec::new() };
    // Each of them is held: what is left to the program follows the others.
    let sizes = [
        ("take_up.stop_gap", now.gap, &t.stop_gap),
        ("take_up.buffer", ring, &t.buffer),
        ("take_up.lug", holder.lug, &t.lug),
        ("take_up.shelf", holder.shelf, &t.shelf),
        ("take_up.gusset", holder.gusset, &t.gusset),
    ];
    let changed = sizes.into_iter().filter(|(_, new, old)| !old.is_given() || (new - old.value()).abs() > 1e-6);
    let mut out: Vec<_> = changed.map(|(key, new, _)| (key, Size::Mm(new))).collect();
    if !t.rod.is_given() || rod != t.rod.value {
        out.push(("take_up.rod", Size::Thread(rod)));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, mended, worst, worst_of};

    const GRAVITY: (&str, &str) = ("take_up.kind", "\"gravity\"");

    #[test]
    fn the_stop_of_the_defaults_holds() {
        assert_eq!(worst(&RULE, &[]), None);
        assert_eq!(worst(&RULE, &[GRAVITY]), Some(Verdict::Pass));
        assert_eq!(worst_of(&RULE, LARGE, &[GRAVITY]), Some(Verdict::Pass));
    }

    #[test]
    fn a_long_fall_and_thin_parts_are_found_and_mended() {
        // A wider gap asks more of everything.
        let fall =
            |gap: &'static str| findings_of(&RULE, LARGE, &[GRAVITY, ("take_up.stop_gap", gap)]).iter().map(|f| f.value.unwrap().value).collect::<Vec<_>>();
        let fixed = |gap| (fall(gap), gap);
        let ((near, _), (far, _)) = (fixed("\"5 mm\""), fixed("\"100 mm\""));
        assert!(near.len() == 7 && far[0] > near[0], "{near:?} {far:?}");
        let heavy = [GRAVITY, ("take_up.weights", "\"2500 kg\""), ("take_up.stop_gap", "\"30 mm\"")];
        for (key, thin) in [("take_up.shelf", "\"5 mm\""), ("take_up.lug", "\"5 mm\""), ("take_up.buffer", "\"52 mm\""), ("take_up.rod", "\"Tr16x4\"")] {
            let thin = [&heavy[..], &[(key, thin)]].concat();
            let found = findings_of(&RULE, SMALL, &thin);
            assert!(found.iter().any(|f| f.verdict == Verdict::Fail && f.path == key), "{key}: {found:#?}");
            mended(&RULE, SMALL, &thin);
        }
    }
}
