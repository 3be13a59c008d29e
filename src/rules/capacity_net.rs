//! All links of the chain pass the capacity that is asked for.
//!
//! The least of what buckets, sill, throats and head let through (physics). Each link has a rule of its own that says what mends it; here they
//! are held together, so that a reader sees which one limits.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::net::CHAIN;
use crate::say;
use crate::say::{Statement, amount};
use crate::units::Unit;

/// The weakest link.
pub const RULE: Rule = Rule {
    id: "capacity-net",
    title: "Net capacity",
    what: "The least of what the buckets carry, what stays in them past a low sill, what the throats pass and what the head throws out, against the capacity asked for.",
    why: "Losses do not add up to a capacity: the weakest link sets it, and mending another one buys nothing.",
    remedy: "Mend the link that limits; its own rule says how.",
    source: CHAIN,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (net, capacity) = (&case.results.net, &case.results.capacity);
    let tph = |t| amount(t, Unit::TPerH, 1);
    let mut links = vec![say!("buckets {rated}", rated = tph(capacity.rated_t_per_h))];
    links.extend(net.past_sill_t_per_h.map(|t| say!("past the sill {sill}", sill = tph(t))));
    links.extend(net.throats_t_per_h.map(|t| say!("throats {throats}", throats = tph(t))));
    links.push(say!("head {head}", head = tph(net.past_head_t_per_h)));
    let finding = RULE
        .finds(
            unless(reaches(net.t_per_h, capacity.required_t_per_h), Verdict::Warn),
            "duty.capacity",
            say!(
                "the chain passes {net} of the {asked} asked for; what limits it: {link} ({links})",
                net = tph(net.t_per_h),
                asked = tph(capacity.required_t_per_h),
                link = net.limit.named(),
                links = Statement::all(links)
            ),
        )
        .value(net.t_per_h, Unit::TPerH)
        .limit(capacity.required_t_per_h, Unit::TPerH);
    vec![finding]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, measured, worst};

    const STICKY: [(&str, &str); 3] = [("product.internal_friction", "\"42 deg\""), ("duty.belt_speed", "\"1.8 m/s\""), ("bucket.spacing", "\"220 mm\"")];

    /// The verdict turns where the head's own loss takes the rated capacity under the wanted one.
    #[test]
    fn the_head_limits() {
        let (net, _) = measured(&RULE, &STICKY);
        let asked = |t: f64| [&STICKY[..], &[("duty.capacity", &*format!("\"{t} t/h\"").leak())]].concat();
        assert_eq!([worst(&RULE, &asked(net - 0.01)), worst(&RULE, &asked(net + 0.01))], [Some(Verdict::Pass), Some(Verdict::Warn)]);
        let found = findings_of(&RULE, SMALL, &asked(net + 0.01));
        assert!(found[0].message.plainly().contains("what limits it: the head"), "{found:#?}");
        assert!(found[0].would_pass.is_empty(), "its own rule says how");
    }

    /// A low sill and a flat chute are named as what limits, and their own rules mend them.
    #[test]
    fn other_links() {
        for (key, value, link) in [("inlet.up.sill", "\"450 mm\"", "a low sill"), ("inlet.up.slope", "\"8 deg\"", "the throats")] {
            let found = findings_of(&RULE, SMALL, &[(key, value)]);
            assert!(found[0].verdict == Verdict::Warn && found[0].message.plainly().contains(link) && found[0].would_pass.is_empty(), "{found:#?}");
        }
    }
}
