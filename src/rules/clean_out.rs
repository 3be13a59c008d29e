//! Clean-out doors low at both ends, so that the foot can be emptied from either side of what lies under the bucket tips.
//!
//! Common practice, no source. One end only is noted, none at all is for `boot-access` too. A rolled bottom has its clean-outs above its
//! trough: what lies there is noted, and meal, which cakes and spoils, is warned of.

use super::finding::within;
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::residue::{HAND_BREADTH_MM, RAKED};
use crate::say;
use crate::say::{Statement, amount, mm};
use crate::sources::Source;
use crate::spec::casing::Bottom;
use crate::spec::product::ProductKind;
use crate::units::Unit;

/// Clean-out at both ends.
pub const RULE: Rule = Rule {
    id: "clean-out",
    title: "Clean-out doors",
    what: "Whether there is a clean-out door at the bottom of both end plates, and what lies under the bucket tips below its lower edge, by product.",
    why: "Behind the pulley the residue cannot be reached from the other end; old product spoils the new batch and plugs the foot.",
    remedy: "Fit a slide or door over the full width at the bottom of both ends; a flat bottom where product spoils.",
    source: Source::practice("clean-out over the full width at both ends"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let (up, down) = (case.spec.clean_out.up.value, case.spec.clean_out.down.value);
    let (verdict, path, message) = match (up, down) {
        (true, true) => (Verdict::Pass, "clean_out.up", say!("the foot can be cleaned out at both ends")),
        (true, false) => (Verdict::Note, "clean_out.down", say!("the foot can be cleaned out at the up side only")),
        (false, true) => (Verdict::Note, "clean_out.up", say!("the foot can be cleaned out at the down side only")),
        (false, false) => (Verdict::Warn, "clean_out.up", say!("the foot has no clean-out door")),
    };
    let mut finding = RULE.finds(verdict, path, message);
    for (key, fitted) in [("clean_out.up", up), ("clean_out.down", down)] {
        if !fitted {
            finding = finding.change(key, &true);
        }
    }
    // Only clean-outs tell how much lies below them; a rolled bottom would keep some.
    if !up && !down && case.spec.casing.bottom.value != Bottom::Flat {
        finding = finding.change("casing.bottom", &Bottom::Flat);
    }
    let lying = case.results.residue.edge_mm.map(|edge| under_the_tips(case, edge));
    std::iter::once(finding).chain(lying).collect()
}

/// What lies under the tips, and whether the clean-outs, whose edge lies so far above the bottom, let it out.
fn under_the_tips(case: &Case<'_>, edge: f64) -> Finding {
    let residue = &case.results.residue;
    let litres = |l: f64| amount(l, Unit::L, 0);
    let lying = say!(
        "{low} lie under the bucket tips with the take-up at its lowest, {high} at its highest with a new belt, when the tips stand {tips} above the bottom",
        low = litres(residue.lowest.litres),
        high = litres(residue.highest.litres),
        tips = mm(residue.highest.tips_mm)
    );
    let reached = within(edge, HAND_BREADTH_MM);
    let spoils = case.spec.product.kind.value == ProductKind::Meal;
    let (verdict, out) = match (reached, spoils) {
        (true, _) => {
            (Verdict::Pass, say!("the clean-outs begin {edge} above the bottom, a rake reaches over {limit}", edge = mm(edge), limit = mm(HAND_BREADTH_MM)))
        }
        (false, spoils) => (
            if spoils { Verdict::Warn } else { Verdict::Note },
            say!(
                "{trough} of it lie in the trough below the clean-outs, {edge} deep where a rake reaches over {limit}, and are drawn off from above",
                trough = litres(residue.below_edge_l),
                edge = mm(edge),
                limit = mm(HAND_BREADTH_MM)
            ),
        ),
    };
    RULE.finds(verdict, "casing.bottom", Statement::all(vec![lying, out]))
        .value(edge, Unit::Mm)
        .limit(HAND_BREADTH_MM, Unit::Mm)
        .after(RAKED)
        .change("casing.bottom", &Bottom::Flat)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, mended, worst};

    #[test]
    fn ends() {
        for (up, down, verdict) in
            [("true", "true", Verdict::Pass), ("true", "false", Verdict::Note), ("false", "true", Verdict::Note), ("false", "false", Verdict::Warn)]
        {
            assert_eq!(worst(&RULE, &[("clean_out.up", up), ("clean_out.down", down)]), Some(verdict));
        }
    }

    /// A rolled bottom's clean-outs stand above its trough: noted for grain, warned of for meal, mended by a flat one.
    #[test]
    fn the_trough_below_the_clean_outs() {
        let rolled = ("casing.bottom", "\"curved\"");
        let meal = ("product.preset", "\"feed-meal\"");
        assert_eq!([worst(&RULE, &[rolled]), worst(&RULE, &[meal]), worst(&RULE, &[rolled, meal])], [Verdict::Note, Verdict::Pass, Verdict::Warn].map(Some));
        mended(&RULE, SMALL, &[rolled, meal]);
        let said = findings_of(&RULE, SMALL, &[rolled])[1].message.plainly();
        assert!(said.contains("with a new belt") && said.contains("in the trough below the clean-outs"), "{said}");
    }
}
