//! The weights fit into their boxes.
//!
//! Half of the weights are laid in plates of whole sizes over a box's plan; where the box is too small for those, by their packed
//! volume (common practice).

use super::finding::{unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::gravity_take_up::PACKED;
use crate::say;
use crate::say::{amount, mm};
use crate::units::{Length, Unit};

/// Box against weights.
pub const RULE: Rule = Rule {
    id: "gravity-box",
    title: "Weight box",
    what: "Height that the weights take in the weight boxes against the clear height of a box.",
    why: "Weights that stand out of the box slide off when the frame moves; somebody may stand below.",
    remedy: "A higher, longer or wider box.",
    source: PACKED,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(gravity) = &case.results.gravity else { return Vec::new() };
    let filled = gravity.filling_height_mm.max(gravity.needed_height_mm);
    let height = gravity.box_height_mm;
    let bottom = case.foot.rotating.weight_box.map_or(0.0, |b| b.plate);
    let finding = RULE
        .finds(
            unless(within(filled, height), Verdict::Fail),
            "take_up.box_height",
            say!(
                "{mass} of weights fill both boxes {filled} high; with its bottom a box has to be {least} high, it is {height}",
                mass = amount(gravity.given_kg.max(gravity.needed_kg), Unit::Kg, 0),
                filled = mm(filled),
                least = mm(filled + bottom),
                height = mm(height + bottom),
            ),
        )
        .value(height + bottom, Unit::Mm)
        .limit(filled + bottom, Unit::Mm);
    vec![if filled <= 2000.0 { finding.change("take_up.box_height", &Length::mm(up_to(filled + bottom, 10.0))) } else { finding }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{measured, turns, worst};

    #[test]
    fn weights_in_the_box() {
        let gravity = [
            ("take_up.kind", "\"gravity\""),
            ("take_up.weights", "\"800 kg\""),
            ("take_up.box_length", "\"512 mm\""),
            ("take_up.box_width", "\"412 mm\""),
            // The drawn box grows with its height; a given mass keeps the need still.
            ("take_up.frame_mass", "\"60 kg\""),
        ];
        let with = |height: &str| worst(&RULE, &[&gravity[..], &[("take_up.box_height", height)]].concat());
        assert_eq!(worst(&RULE, &[]), None);
        // 400 kg of steel in each are 0.051 m³: at least 255 mm high on 0.2 m², some more for gaps and hand holes, and a bottom of 6 mm.
        let (_, least) = measured(&RULE, &[&gravity[..], &[("take_up.box_height", "\"1000 mm\"")]].concat());
        assert!((261.0..360.0).contains(&least), "{least}");
        assert_eq!(with(&format!("\"{least} mm\"")), Some(Verdict::Pass));
        assert_eq!(with(&format!("\"{} mm\"", least - 1.0)), Some(Verdict::Fail));
        turns(&RULE, "take_up.box_height", &gravity, -0.1);
    }
}
