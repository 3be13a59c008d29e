//! The weights fit into their box.
//!
//! Volume of packed cast weights over the box's plan (physics; packing is an assumed value of the results).

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::assumed::PACKED_WEIGHTS;
use crate::say;
use crate::say::{amount, mm};
use crate::units::{Length, Unit};

/// Box against weights.
pub const RULE: Rule = Rule {
    id: "gravity-box",
    title: "Weight box",
    what: "Height that the weights take in the weight box against the height of the box.",
    why: "Weights that stand out of the box slide off when the frame moves; somebody may stand below.",
    remedy: "A higher, longer or wider box.",
    source: PACKED_WEIGHTS.source,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(gravity) = &case.results.gravity else { return Vec::new() };
    let filled = gravity.filling_height_mm.max(gravity.needed_height_mm);
    let height = gravity.box_height_mm;
    let finding = RULE
        .finds(
            unless(within(filled, height), Verdict::Fail),
            "take_up.box_height",
            say!(
                "{mass} of weights fill the box {filled} high, it is {height} high",
                mass = amount(gravity.given_kg.max(gravity.needed_kg), Unit::Kg, 0),
                filled = mm(filled),
                height = mm(height),
            ),
        )
        .value(height, Unit::Mm)
        .limit(filled, Unit::Mm);
    vec![if filled <= 2000.0 { finding.change("take_up.box_height", &Length::mm(up_to(filled, 10.0))) } else { finding }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn weights_in_the_box() {
        let gravity =
            [("take_up.kind", "\"gravity\""), ("take_up.weights", "\"800 kg\""), ("take_up.box_length", "\"500 mm\""), ("take_up.box_width", "\"400 mm\"")];
        let with = |height: &str| worst(&RULE, &[&gravity[..], &[("take_up.box_height", height)]].concat());
        assert_eq!(worst(&RULE, &[]), None);
        // 800 kg at 5000 kg/m³ are 0.16 m³: 800 mm high on 0.2 m².
        assert_eq!(with("\"800 mm\""), Some(Verdict::Pass));
        assert_eq!(with("\"799 mm\""), Some(Verdict::Fail));
        turns(&RULE, "take_up.box_height", &gravity, -0.1);
    }
}
