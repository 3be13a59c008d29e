//! Lug, bracket and their seams hold the take-up rods in every load case.
//!
//! Bending of plates at their root and between gussets, seams as lines (Shigley, from memory), strength of seams after
//! EN 1993-1-8 (from memory); 1.5 in hand under loads that last, 1.1 in rare cases: a blocked foot, a belt tightened too hard. The side plate itself is not judged.

use super::finding::{unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::cases::Worst;
use crate::formulas::strength::IN_HAND;
use crate::model::rotating::Held;
use crate::say;
use crate::say::{amount, mm};
use crate::units::{Length, Unit};

/// Lug and bracket.
pub const RULE: Rule = Rule {
    id: "screw-holders",
    title: "Lugs and brackets of the take-up rods",
    what: "Stress in the lug of a rod, in shelf and gussets of its bracket and in their seams, in the worst load case, against yield strength and seam strength with a reserve.",
    why: "When the foot blocks the drive pulls the shaft up through the rods; a lug that bends or a seam that tears lets one side go.",
    remedy: "A thicker lug or shelf, higher gussets, or a thicker side plate.",
    source: IN_HAND,
    check,
};

/// What is looked at, and the key that makes it stronger.
const fn named(held: Held) -> (&'static str, &'static str) {
    match held {
        Held::Lug => ("the lug of a rod", "take_up.lug"),
        Held::LugSeam => ("the seam of a rod's lug", "take_up.lug"),
        Held::Shelf => ("the shelf of a bracket", "take_up.shelf"),
        Held::Gusset => ("the gussets of a bracket", "take_up.gusset"),
        Held::BracketSeam => ("the seam of a bracket", "take_up.gusset"),
    }
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(screw) = &case.results.screw else { return Vec::new() };
    Held::ALL.iter().zip(&screw.held).map(|(held, worst)| about(case, *held, worst)).collect()
}

fn about(case: &Case<'_>, held: Held, worst: &Worst) -> Finding {
    let (part, key) = named(held);
    let holder = &case.foot.rotating.holder;
    let now = match held {
        Held::Lug | Held::LugSeam => holder.lug,
        Held::Shelf => holder.shelf,
        Held::Gusset | Held::BracketSeam => holder.gusset,
    };
    let finding = RULE
        .finds(
            unless(within(worst.value, worst.limit), Verdict::Fail),
            key,
            say!(
                "{case}: {load} along a rod put {stress} on {part} ({size}), {allowed} are allowed",
                case = worst.case.name,
                load = amount(worst.case.rod_n / 1000.0, Unit::Kn, 1),
                stress = amount(worst.value, Unit::Mpa, 0),
                part = part,
                size = mm(now),
                allowed = amount(worst.limit, Unit::Mpa, 0)
            ),
        )
        .value(worst.value, Unit::Mpa)
        .limit(worst.limit, Unit::Mpa);
    case.mend(finding, |finding| {
        let loads: Vec<_> = case.results.cases.iter().map(|c| (c.rod_n, c.in_hand())).collect();
        let strong = holder.strengthened(&loads);
        let size = match held {
            Held::Lug | Held::LugSeam => strong.lug,
            Held::Shelf => strong.shelf,
            Held::Gusset | Held::BracketSeam => strong.gusset,
        };
        if strong.holds(held, &loads) { finding.change(key, &Length::mm(size)) } else { finding }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, mended, proposed, worst, worst_of};

    #[test]
    fn thin_lugs_and_shelves() {
        assert_eq!(worst(&RULE, &[("take_up.kind", "\"gravity\"")]), None);
        assert_eq!([worst(&RULE, &[]), worst_of(&RULE, LARGE, &[])], [Some(Verdict::Pass); 2]);
        for (key, thin, step) in [("take_up.lug", "\"8 mm\"", 5.0), ("take_up.shelf", "\"5 mm\"", 5.0), ("take_up.gusset", "\"20 mm\"", 10.0)] {
            assert_eq!(worst_of(&RULE, LARGE, &[(key, thin)]), Some(Verdict::Fail), "{key}");
            mended(&RULE, LARGE, &[(key, thin)]);
            let wish = proposed(&RULE, LARGE, &[(key, thin)]);
            assert!(wish.iter().all(|w| w.starts_with(key)), "{wish:?}");
            // One step of stock less does not do, but for the thinnest that is proposed.
            let size: f64 = wish[0].split('"').nth(1).unwrap().trim_end_matches(" mm").parse().unwrap();
            let less = worst_of(&RULE, LARGE, &[(key, &format!("\"{} mm\"", size - step))]);
            assert!(less == Some(Verdict::Fail) || size <= 20.0, "{key} {size}");
        }
    }

    #[test]
    fn the_blocked_foot_decides_and_the_sentence_says_so() {
        for finding in findings_of(&RULE, LARGE, &[]) {
            // What the spanner gives may be more than a blocked foot.
            let said = finding.message.plainly();
            assert!(["foot blocked, up run empty: ", "overtightened by hand: "].iter().any(|case| said.starts_with(case)), "{finding:?}");
        }
        // A light belt that slips before anything is pulled: then what lasts decides.
        let slick = [("head_pulley.friction", "0.05"), ("belt.tracking_tension", "\"30 N/mm\"")];
        let found = findings_of(&RULE, SMALL, &slick);
        assert!(found.iter().all(|f| !f.message.plainly().starts_with("foot blocked")), "{found:#?}");
    }
}
