//! The casing is high enough for the foot pulley at its highest and for the take-up's brackets.
//!
//! Geometry from the model; a bracket above the top flange has to be carried by the trunking.

use super::finding::{up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Casing against pulley and take-up.
pub const RULE: Rule = Rule {
    id: "casing-height",
    title: "Height of the casing",
    what: "Top flange against the foot pulley with the take-up at its highest, and against the brackets of the take-up.",
    why: "A pulley above the flange stands in the trunking; brackets above it have to be fixed to the trunking, which is thinner and comes from another shop.",
    remedy: "Make the casing higher, or shorten the take-up travel.",
    source: Source::physics("positions of pulley and brackets at the highest take-up"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let foot = case.foot;
    let top = foot.casing.top;
    let pulley = foot.shaft_highest + foot.pulleys.foot.radius() + foot.belt.thickness;
    let bracket = foot.rotating.bracket_z + foot.rotating.holder.under_flange();
    let limit = pulley.max(bracket);
    let verdict = if !within(pulley, top) {
        Verdict::Fail
    } else if !within(bracket, top) {
        Verdict::Warn
    } else {
        Verdict::Pass
    };
    let message = match verdict {
        Verdict::Fail => {
            say!("the foot pulley reaches up to {pulley} with the take-up at its highest, the casing only to {top}", pulley = mm(pulley), top = mm(top))
        }
        Verdict::Warn => say!("the take-up brackets need the casing up to {bracket}, it ends at {top}", bracket = mm(bracket), top = mm(top)),
        _ => say!("the casing ends at {top}, pulley and take-up need {needed}", top = mm(top), needed = mm(limit)),
    };
    vec![RULE.finds(verdict, "casing.height", message).value(top, Unit::Mm).limit(limit, Unit::Mm).change("casing.height", &Length::mm(up_to(limit, 10.0)))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, turns, worst};

    #[test]
    fn pulley_and_brackets() {
        assert_eq!(worst(&RULE, &[("casing.height", "\"5 m\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("casing.height", "\"900 mm\"")]), Some(Verdict::Fail));
        for (height, says) in [("\"5 m\"", "the casing ends at"), ("\"1500 mm\"", "need the casing up to"), ("\"900 mm\"", "pulley reaches up")] {
            let found = findings_of(&RULE, SMALL, &[("casing.height", height)]);
            assert!(found[0].message.plainly().contains(says), "{height}: {found:#?}");
        }
        turns(&RULE, "casing.height", &[], -0.1);
    }
}
