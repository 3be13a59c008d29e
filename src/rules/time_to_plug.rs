//! A stopped belt must not plug the foot before the feed stops.
//!
//! Free volume below the sill over the feed rate gives the seconds; sensor delay and feeder run-on use
//! them up. 10 s at least is common practice, no source; the rest is physics.

use super::finding::{n, reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::sources::Source;
use crate::units::Time;

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
            format!("a stopped belt plugs the foot in {} s; sensor delay and feeder run-on take {} s, and {} s should be left in any case", n(time, 1), n(plugging.reaction_s, 1), n(LEAST, 0)),
        )
        .value(time, "s")
        .limit(limit, "s");
    // Only the reaction can be shortened by a value; a foot that is too small in itself needs another sill or size.
    vec![if reaches(time, LEAST) {
        let delay = case.spec.monitoring.delay.value().min(time / 2.0).floor();
        let run_on = case.spec.monitoring.feeder_run_on.value().min(time - delay).floor();
        finding.change("monitoring.delay", &Time::s(delay)).change("monitoring.feeder_run_on", &Time::s(run_on))
    } else {
        finding
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, worst};

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
