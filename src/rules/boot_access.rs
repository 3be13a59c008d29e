//! The foot can be inspected and cleaned out: at least one inspection door and one clean-out door.
//!
//! OSHA 29 CFR 1910.272(q)(3), read in state copies: access to the boot section for clean-out and for
//! inspection of boot, pulley and belt.

use super::finding::unless;
use super::{Case, Finding, Rule};
use crate::model::openings::OpeningKind;
use crate::say;
use crate::tables::grain_handling;

/// Access to the foot.
pub const RULE: Rule = Rule {
    id: "boot-access",
    title: "Access to the foot",
    what: "Whether there is an inspection door to see boot, pulley and belt, and a clean-out door.",
    why: "What cannot be seen is not looked after; what cannot be cleaned out rots, heats and plugs.",
    remedy: "Fit at least one inspection door and one clean-out door.",
    source: grain_handling::ACCESS,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let doors = case.foot.openings.iter().filter(|o| matches!(o.kind, OpeningKind::Door { .. })).count();
    let clean_outs = case.foot.openings.iter().filter(|o| o.kind == OpeningKind::CleanOut).count();
    let good = doors > 0 && clean_outs > 0;
    let message = say!("inspection doors: {doors}, clean-out doors: {clean_outs}", doors = doors, clean_outs = clean_outs);
    let finding =
        RULE.finds(unless(good, case.warn_or_fail_for_dust()), if doors == 0 { "door" } else { "clean_out.up" }, message).after(case.grain_law(RULE.source));
    vec![if clean_outs == 0 { finding.change("clean_out.up", &true) } else { finding }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Verdict;
    use crate::rules::trial::{SMALL, findings_of, worst};

    #[test]
    fn door_and_clean_out() {
        // A clean-out alone is not enough either, and then the finding is about the doors.
        let found = findings_of(&RULE, SMALL, &[("clean_out.up", "true")]);
        assert_eq!(found[0].path, "clean_out.up");
        let none = [("clean_out.up", "false"), ("clean_out.down", "false")];
        assert_eq!(worst(&RULE, &[("clean_out.up", "true"), ("clean_out.down", "false")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[none[0], none[1], ("product.combustible", "false")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[none[0], none[1], ("product.combustible", "true")]), Some(Verdict::Fail));
    }
}
