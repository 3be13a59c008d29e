//! A stopped belt must not plug the foot before the feed stops.
//!
//! Free volume below the sill over the feed rate gives the seconds; sensor delay and feeder run-on use
//! them up. 10 s at least is common practice, no source; the rest is physics.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::plugging::PluggingAt;
use crate::analysis::section::FreeSpace;
use crate::formulas::foot_heights::ABOVE_INLET;
use crate::say;
use crate::say::amount;
use crate::sources::Source;
use crate::units::{Length, Time, Unit};

/// Seconds to plug.
pub const RULE: Rule = Rule {
    id: "time-to-plug",
    title: "Time to plug",
    what: "Seconds from a stopped belt to a foot filled up to the sill, against 10 s and against sensor delay plus feeder run-on.",
    why: "If the feed runs longer than the foot takes, the foot is plugged every time the belt stops and has to be dug out.",
    remedy: "Shorten sensor delay and feeder run-on, raise the sill, or make the foot larger.",
    source: Source::physics("free volume × bulk density / feed rate; 10 s common practice"),
    check,
};

const LEAST: f64 = 10.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let plugging = &case.results.plugging;
    let Some(time) = plugging.time_s else { return Vec::new() };
    let limit = plugging.reaction_s.max(LEAST);
    let finding = RULE
        .finds(
            unless(reaches(time, limit), Verdict::Warn),
            "monitoring.delay",
            say!(
                "a stopped belt plugs the foot in {time}; sensor delay and feeder run-on take {reaction}, and {least} should be left in any case",
                time = amount(time, Unit::S, 1),
                reaction = amount(plugging.reaction_s, Unit::S, 1),
                least = amount(LEAST, Unit::S, 0)
            ),
        )
        .value(time, Unit::S)
        .limit(limit, Unit::S);
    vec![case.mend(finding, |finding| mended(case, finding, time))]
}

/// A foot that is too small in itself takes more below a higher sill; whatever is left over, the reaction must fit in.
fn mended(case: &Case<'_>, finding: Finding, time: f64) -> Finding {
    let Some((finding, time)) = higher(case, finding.clone(), time) else { return finding };
    if reaches(time, case.results.plugging.reaction_s) {
        return finding;
    }
    let (delay, run_on) = (case.spec.monitoring.delay.value(), case.spec.monitoring.feeder_run_on.value());
    let shorter = if delay > time / 2.0 { (time / 2.0).floor() } else { delay };
    let stopped = if run_on > time - shorter { (time - shorter).floor() } else { run_on };
    let changes = [("monitoring.delay", delay, shorter), ("monitoring.feeder_run_on", run_on, stopped)];
    changes.into_iter().filter(|(_, now, then)| then < now).fold(finding, |finding, (key, _, then)| finding.change(key, &Time::s(then)))
}

/// How far a sill is raised at most, mm; further, another foot is the answer.
const RAISE: u32 = 1000;

/// Raises each sill below which the foot plugs in less than 10 s to the least height that gives them, in steps of 10 mm,
/// with a casing that reaches over the inlet. Out: the finding with these changes and the seconds then; `None` when
/// [`RAISE`] does not do.
fn higher(case: &Case<'_>, mut finding: Finding, time: f64) -> Option<(Finding, f64)> {
    if reaches(time, LEAST) {
        return Some((finding, time));
    }
    let mut top = case.foot.casing.top;
    let space = FreeSpace::of(case.spec, case.foot);
    for inlet in &case.foot.inlets {
        let seconds = |sill: f64| PluggingAt::compute(case.spec, &space, inlet, sill).time_s;
        if reaches(seconds(inlet.sill), LEAST) {
            continue;
        }
        let sill = |tens: u32| up_to(inlet.sill, 10.0) + 10.0 * f64::from(tens);
        // More fits below a higher sill: halving finds the least.
        let (mut low, mut high) = (0, RAISE / 10);
        while low < high {
            let middle = low.midpoint(high);
            if seconds(sill(middle)) >= LEAST * IN_HAND { high = middle } else { low = middle + 1 }
        }
        if seconds(sill(low)) < LEAST * IN_HAND {
            return None;
        }
        finding = finding.change(format!("inlet.{}.sill", inlet.side.key()), &Length::mm(sill(low)));
        top = top.max(sill(low) + inlet.opening.size() + ABOVE_INLET);
    }
    if case.spec.casing.height.is_given() && top > case.foot.casing.top {
        finding = finding.change("casing.height", &Length::mm(up_to(top, 10.0)));
    }
    Some((finding, LEAST))
}

/// Kept in hand of the seconds: the raised foot is built anew and its volume is not the trial's to the last drop.
const IN_HAND: f64 = 1.005;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, machine, measured, mended, proposed, worst};

    /// A foot that plugs too soon: the sill proposed gives the seconds, 20 mm less does not; both sills where both are low.
    #[test]
    fn a_higher_sill() {
        let (up, down) = (("inlet.up.sill", "\"900 mm\""), ("inlet.down.sill", "\"800 mm\""));
        for more in [&[][..], &[up, down], &[("casing.height", "\"1700 mm\"")], &[up, down, ("monitoring.feeder_run_on", "\"60 s\"")]] {
            let base = [&[("duty.capacity", "\"95 t/h\"")], more].concat();
            mended(&RULE, SMALL, &base);
            let wishes = proposed(&RULE, SMALL, &base);
            let sills: Vec<(&str, f64)> = wishes
                .iter()
                .filter_map(|w| w.split_once(".sill = "))
                .map(|(path, value)| (path, value.trim_matches('"').trim_end_matches(" mm").parse().unwrap()))
                .collect();
            assert_eq!(sills.len(), if more.contains(&down) { 2 } else { 1 }, "{wishes:?}");
            for less in 0..sills.len() {
                let tried: Vec<(String, String)> = sills
                    .iter()
                    .enumerate()
                    .map(|(i, (path, sill))| (format!("{path}.sill"), format!("\"{} mm\"", sill - if i == less { 20.0 } else { 0.0 })))
                    .collect();
                let tried: Vec<(&str, &str)> = tried.iter().map(|(p, v)| (p.as_str(), v.as_str())).collect();
                let rest = [("casing.height", "\"4 m\""), ("monitoring.delay", "\"1 s\""), ("monitoring.feeder_run_on", "\"1 s\"")];
                assert_eq!(worst(&RULE, &[&base[..], &rest, &tried].concat()), Some(Verdict::Warn), "{tried:?}");
            }
        }
        // A casing that is given grows with the inlet, one that is left to the program does so by itself.
        let low = [("duty.capacity", "\"95 t/h\""), ("casing.height", "\"1500 mm\"")];
        let (_, foot, _) = machine(SMALL, &low);
        let wishes = proposed(&RULE, SMALL, &low);
        let number = |key: &str| -> Option<f64> {
            let line = wishes.iter().find(|w| w.starts_with(key))?;
            line.rsplit_once(" = ").unwrap().1.trim_matches('"').trim_end_matches(" mm").parse().ok()
        };
        assert_eq!(number("casing.height").unwrap(), up_to(number("inlet.up.sill").unwrap() + foot.inlets[0].opening.size() + ABOVE_INLET, 10.0));
        assert!(!proposed(&RULE, SMALL, &low[..1]).iter().any(|w| w.starts_with("casing")));
        assert!(!proposed(&RULE, SMALL, &[low[0], ("casing.height", "\"5000 mm\"")]).iter().any(|w| w.starts_with("casing")));
        // What is left of the ten seconds is shared out: half to the sensor at most.
        let slow = proposed(&RULE, SMALL, &[low[0], ("monitoring.delay", "\"20 s\""), ("monitoring.feeder_run_on", "\"60 s\"")]);
        assert!(slow.ends_with(&["monitoring.delay = \"5 s\"".to_string(), "monitoring.feeder_run_on = \"5 s\"".to_string()]), "{slow:?}");
        // Far too small: no sill within a metre does.
        assert!(proposed(&RULE, SMALL, &[("duty.capacity", "\"3000 t/h\"")]).is_empty());
    }

    #[test]
    fn reaction_against_volume() {
        let slow = ("duty.capacity", "\"20 t/h\"");
        assert_eq!(worst(&RULE, &[slow]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[slow, ("monitoring.feeder_run_on", "\"600 s\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("duty.capacity", "\"3000 t/h\"")]), Some(Verdict::Warn));
        let (time, limit) = measured(&RULE, &[slow]);
        assert_eq!(limit, LEAST);
        let delay = ("monitoring.delay", "\"0 s\"");
        let at = format!("\"{} s\"", time - 1e-4);
        let over = format!("\"{} s\"", time + 0.1);
        assert_eq!(worst(&RULE, &[slow, delay, ("monitoring.feeder_run_on", &at)]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[slow, delay, ("monitoring.feeder_run_on", &over)]), Some(Verdict::Warn));
    }
}
