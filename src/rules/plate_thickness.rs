//! Plates of the foot are thick enough to wear and to weld.
//!
//! A US government guide specification asks for 4.8 mm (3/16 in) or more in the foot (read). Thinner
//! is only noted: light feet are built of 3 mm.

use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::tables::plates::{LEAST_FOOT, LEAST_FOOT_MM};
use crate::units::{Length, Unit};

/// Plate thickness.
pub const RULE: Rule = Rule {
    id: "plate-thickness",
    title: "Plate thickness",
    what: "Thickness of side and end plates against 4.8 mm (3/16 in), and of the bottom plate against that and against the side plates.",
    why: "The foot is scoured by the product and hit by what falls in; thin plates drum, wear through and distort when welded.",
    remedy: "Use 5 mm plate or thicker, the bottom no thinner than the sides.",
    source: LEAST_FOOT,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let casing = &case.foot.casing;
    let rows = [
        ("casing.plate", "side and end plates", casing.plate, LEAST_FOOT_MM),
        ("casing.bottom_plate", "bottom plate", casing.bottom_plate, LEAST_FOOT_MM.max(casing.plate)),
    ];
    rows.into_iter()
        .map(|(path, plate, thickness, limit)| {
            let message = say!("{plate} {thickness} thick, usual {limit} or more", plate = plate, thickness = mm(thickness), limit = mm(limit));
            RULE.finds(unless(reaches(thickness, limit), Verdict::Warn), path, message)
                .value(thickness, Unit::Mm)
                .limit(limit, Unit::Mm)
                .change(path, &Length::mm(limit.max(5.0)))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn guide_thickness() {
        assert_eq!(worst(&RULE, &[("casing.plate", "\"4.8 mm\""), ("casing.bottom_plate", "\"4.8 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("casing.plate", "\"4.7 mm\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("casing.plate", "\"3/16 in\""), ("casing.bottom_plate", "\"3/16 in\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("casing.plate", "\"8 mm\""), ("casing.bottom_plate", "\"6 mm\"")]), Some(Verdict::Warn));
    }
}
