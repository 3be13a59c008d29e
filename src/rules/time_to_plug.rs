//! A stopped belt must not plug the foot before the feed stops.
//!
//! What still fits under the heap that grows from the sill, beyond what lies in the foot while it runs, over the feed rate gives the
//! seconds; sensor delay and feeder run-on use them up. One and a half times these is common practice, no source; the rest is physics.

use super::finding::{down_to, reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::plugging::{Plugging, PluggingAt};
use crate::analysis::section::FreeSpace;
use crate::formulas::foot_heights::ABOVE_INLET;
use crate::formulas::plugging::{OVER_REACTION, RESERVE, time_to_plug_s};
use crate::model::Foot;
use crate::model::inlets::FeedSide;
use crate::say;
use crate::say::amount;
use crate::spec::reader::Origin;
use crate::units::{Length, Time, Unit};

/// Seconds to plug.
pub const RULE: Rule = Rule {
    id: "time-to-plug",
    title: "Time to plug",
    what: "Seconds from a stopped belt until the heap reaches the sill, what lies in the foot while it runs taken off, against one and a half times sensor delay plus feeder run-on.",
    why: "If the feed runs longer than the foot takes, the foot is plugged every time the belt stops and has to be dug out.",
    remedy: "A faster stop (plug probe, quick gate, shorter run-on), then a larger foot or a higher sill.",
    source: RESERVE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let plugging = &case.results.plugging;
    let Some(time) = plugging.time_s else { return Vec::new() };
    let Some(first) = plugging.inlets.iter().min_by(|a, b| a.time_s.total_cmp(&b.time_s)) else { return Vec::new() };
    let limit = plugging.reaction_s * OVER_REACTION;
    // What burns or breaks must not be ground and packed by a belt that starts in it.
    let delicate = case.combustible() || case.spec.product.fragile.value;
    let short = if delicate && !reaches(time, plugging.reaction_s) { Verdict::Fail } else { Verdict::Warn };
    let finding = RULE
        .finds(
            unless(reaches(time, limit), short),
            "monitoring.delay",
            say!(
                "when the belt stops {left} still fit under the heap at the {side} sill, beyond {lying} that lie there in running: plugged in {time}; sensor delay and feeder run-on take {reaction}, {limit} are wanted",
                left = amount(first.left_l, Unit::L, 0),
                side = first.side.adjective(),
                lying = amount(plugging.lying_l, Unit::L, 0),
                time = amount(time, Unit::S, 2),
                reaction = amount(plugging.reaction_s, Unit::S, 1),
                limit = amount(limit, Unit::S, 2)
            ),
        )
        .value(time, Unit::S)
        .limit(limit, Unit::S);
    vec![case.mend(finding, |finding| mended(case, finding, time))]
}

/// The quickest that a plug probe trips and that a gate closes, s (common practice).
const PROBE: f64 = 0.3;
const GATE: f64 = 0.5;
/// Kept in hand of the volume under a heap, share: a raised foot is built anew and its volume is not the trial's to the last drop.
const IN_HAND: f64 = 0.01;

/// A faster stop where the foot leaves time for one, else a higher sill and what the foot then leaves time for.
fn mended(case: &Case<'_>, finding: Finding, time: f64) -> Finding {
    if let Some(stopped) = faster(case, &finding, time) {
        return stopped;
    }
    let Some((raised, time)) = higher(case, &finding) else { return finding };
    faster(case, &raised, time).unwrap_or(finding)
}

/// With delay and run-on that fit into these seconds, in tenths; nothing where no probe and gate are quick enough.
fn faster(case: &Case<'_>, finding: &Finding, time: f64) -> Option<Finding> {
    let allowed = time / OVER_REACTION;
    let (delay, run_on) = (case.spec.monitoring.delay.value(), case.spec.monitoring.feeder_run_on.value());
    if reaches(allowed, delay + run_on) {
        return Some(stopping(case, finding, [delay, run_on]));
    }
    if allowed < PROBE.min(delay) + GATE.min(run_on) {
        return None;
    }
    // Each gives way by its share of what it can give.
    let (least, span) = ([PROBE.min(delay), GATE.min(run_on)], delay + run_on);
    let probe = down_to(delay * allowed / span, 0.1).max(least[0]).min(down_to(allowed - least[1], 0.01));
    let gate = down_to(allowed - probe, 0.1).clamp(least[1], run_on).min(down_to(allowed - probe, 0.01));
    Some(stopping(case, finding, [probe.min(delay), gate.min(run_on)]))
}

/// With a probe and a gate that take so long, s: what is quicker than now is written, and what a default would give back where the
/// foot takes longer to plug or the other is quicker.
fn stopping(case: &Case<'_>, finding: &Finding, seconds: [f64; 2]) -> Finding {
    let m = &case.spec.monitoring;
    let eased = |origin: &Origin| matches!(origin, Origin::Default { source, .. } if *source == RESERVE);
    [("monitoring.delay", &m.delay), ("monitoring.feeder_run_on", &m.feeder_run_on)]
        .into_iter()
        .zip(seconds)
        .filter(|((_, now), then)| *then < now.value() || eased(&now.origin))
        .fold(finding.clone(), |finding, ((key, _), then)| finding.change(key, &Time::s(then)))
}

/// How far a sill is raised at most, mm; further, another foot is the answer.
const RAISE: u32 = 1000;

/// Raises every sill by the least height that leaves time for the stop as it is, or as far as it may go for the quickest one, in
/// steps of 10 mm, with a casing that reaches over the inlets. Out: the finding with these changes and the seconds then.
fn higher(case: &Case<'_>, finding: &Finding) -> Option<(Finding, f64)> {
    let raised = |tens: u32| {
        let mut foot: Foot = case.foot.clone();
        let mut top = foot.casing.top;
        for inlet in &mut foot.inlets {
            let up = up_to(inlet.sill, 10.0) + 10.0 * f64::from(tens) - inlet.sill;
            inlet.sill += up;
            if inlet.side == FeedSide::Down {
                inlet.face = foot.casing.down_x(inlet.sill);
            }
            top = top.max(inlet.sill + inlet.opening.size() + ABOVE_INLET);
        }
        foot.casing.top = top;
        if let Some(corner) = foot.casing.down_face.last_mut() {
            corner[1] = top;
        }
        foot
    };
    let seconds = |tens: u32| {
        let foot = raised(tens);
        let space = FreeSpace::of(case.spec, &foot);
        let (density, feed) = (case.spec.product.density.value(), case.spec.duty.capacity.value());
        let all = Plugging::compute(case.spec, &foot, &space).inlets;
        let at = |i: &PluggingAt| time_to_plug_s(i.left_l - IN_HAND * i.heaped_volume_l, density, feed);
        all.iter().map(at).fold(f64::INFINITY, f64::min)
    };
    let (delay, run_on) = (case.spec.monitoring.delay.value(), case.spec.monitoring.feeder_run_on.value());
    let least = |wanted: f64| (1..=RAISE / 10).find(|tens| seconds(*tens) >= wanted);
    let tens = least((delay + run_on) * OVER_REACTION).or_else(|| least((PROBE.min(delay) + GATE.min(run_on)) * OVER_REACTION))?;
    let (foot, mut finding) = (raised(tens), finding.clone());
    for inlet in &foot.inlets {
        finding = finding.change(format!("inlet.{}.sill", inlet.side.key()), &Length::mm(inlet.sill));
    }
    if case.spec.casing.height.is_given() && foot.casing.top > case.foot.casing.top {
        finding = finding.change("casing.height", &Length::mm(up_to(foot.casing.top, 10.0)));
    }
    Some((finding, seconds(tens)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, measured, mended, proposed, worst};

    const SLOW: [(&str, &str); 2] = [("monitoring.delay", "\"2 s\""), ("monitoring.feeder_run_on", "\"2 s\"")];

    /// A stop that takes too long: each cure alone clears it, and the quickest comes first.
    #[test]
    fn each_cure_clears_it() {
        assert_eq!(worst(&RULE, &SLOW), Some(Verdict::Fail));
        mended(&RULE, SMALL, &SLOW);
        let wishes = proposed(&RULE, SMALL, &SLOW);
        assert!(wishes.len() == 2 && wishes.iter().all(|w| w.starts_with("monitoring.")), "{wishes:?}");
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&SLOW[..], more].concat());
        // A sill so much higher in a casing that has room for it; a foot that is wider and longer; less feed.
        assert_eq!(with(&[("inlet.up.sill", "\"2400 mm\""), ("casing.height", "\"4 m\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[("casing.side_clearance", "\"350 mm\""), ("casing.up_clearance", "\"500 mm\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[("duty.capacity", "\"20 t/h\"")]), Some(Verdict::Pass));
    }

    /// Where no probe is quick enough the sill goes up as well, no further than needed; beyond a metre another foot is the answer.
    #[test]
    fn a_higher_sill() {
        for more in [&[][..], &[("casing.height", "\"1700 mm\"")]] {
            let much = [&SLOW[..], &[("duty.capacity", "\"200 t/h\""), ("inlet.up.sill", "\"1000 mm\"")], more].concat();
            mended(&RULE, SMALL, &much);
            let wishes = proposed(&RULE, SMALL, &much);
            assert!(wishes[0].starts_with("inlet.up.sill"), "{wishes:?}");
            assert_eq!(wishes.iter().any(|w| w.starts_with("casing.height")), !more.is_empty(), "{wishes:?}");
        }
        assert!(proposed(&RULE, SMALL, &[&SLOW[..], &[("duty.capacity", "\"900 t/h\"")]].concat()).is_empty());
    }

    /// One and a half times the reaction passes, less is a warning, less than the reaction a failure where dust burns.
    #[test]
    fn the_verdict_turns_at_its_limits() {
        let base = [("duty.capacity", "\"20 t/h\""), ("monitoring.delay", "\"0 s\"")];
        let (time, _) = measured(&RULE, &base);
        let with =
            |seconds: f64, more: &[(&str, &str)]| worst(&RULE, &[&base[..], &[("monitoring.feeder_run_on", &format!("\"{seconds} s\""))], more].concat());
        assert_eq!(with(time / 1.5 - 1e-3, &[]), Some(Verdict::Pass));
        assert_eq!(with(time / 1.5 + 1e-3, &[]), Some(Verdict::Warn));
        assert_eq!(with(time - 1e-3, &[]), Some(Verdict::Warn));
        assert_eq!(with(time + 1e-3, &[]), Some(Verdict::Fail));
        let dull = [("product.combustible", "false")];
        assert_eq!(with(time + 1e-3, &dull), Some(Verdict::Warn));
        assert_eq!(with(time + 1e-3, &[dull[0], ("product.fragile", "true")]), Some(Verdict::Fail));
    }
}
