//! The belt comes to the foot pulley at no more than about 35° to the vertical, at every take-up position.
//!
//! The angle grows as the foot pulley rises. The limit is common practice, no source.

use super::finding::{down_to, unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::foot_heights::{bend_pulley_above_shaft, bend_pulley_angle};
use crate::model::pulleys::PulleyBody;
use crate::say;
use crate::say::amount;
use crate::sources::Source;
use crate::units::{Angle, Length, Unit};

/// Angle of the lower down run.
pub const RULE: Rule = Rule {
    id: "bend-angle",
    title: "Belt angle at the bend pulley",
    what: "Largest angle to the vertical of the belt between bend and foot pulley over the take-up travel.",
    why: "At a large angle the empty buckets scrape over heaped material, the wrap and the load on the bend pulley grow, and the foot gets long.",
    remedy: "Set the bend pulley higher (a smaller bend_pulley.angle).",
    source: Source::practice("belt angle at most about 35° to the vertical"),
    check,
};

const MOST: f64 = 35.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(bend) = &case.foot.pulleys.bend else { return Vec::new() };
    let belt = &case.foot.belt;
    let angles = [&belt.lowest, &belt.middle, &belt.highest].map(|p| p.foot_run_angle_rad().to_degrees());
    let largest = angles.iter().copied().fold(f64::MIN, f64::max);
    let growth = largest - angles[1];
    let finding = RULE
        .finds(
            unless(within(largest, MOST), Verdict::Warn),
            if case.spec.bend_pulley.height.is_given() { "bend_pulley.height" } else { "bend_pulley.angle" },
            say!(
                "the belt comes to the foot pulley at {low} to the vertical with the take-up low, {high} with it high, at most {most}",
                low = amount(angles[0], Unit::Degree, 1),
                high = amount(angles[2], Unit::Degree, 1),
                most = amount(MOST, Unit::Degree, 0),
            ),
        )
        .value(largest, Unit::Degree)
        .limit(MOST, Unit::Degree);
    let wish = down_to(MOST - growth - 0.5, 0.5);
    vec![if case.spec.bend_pulley.height.is_given() {
        finding.change("bend_pulley.height", &Length::mm(height_for(case, bend, wish).ceil()))
    } else {
        finding.change("bend_pulley.angle", &Angle::deg(wish))
    }]
}

/// Height of the bend pulley above the base for a belt angle (degrees), take-up in the middle, mm. Half the belt's
/// thickness, which belongs to each radius, cancels out.
pub(super) fn height_for(case: &Case<'_>, bend: &PulleyBody, angle_deg: f64) -> f64 {
    let pulleys = &case.foot.pulleys;
    let middle = (case.foot.shaft_lowest + case.foot.shaft_highest) / 2.0;
    middle + bend_pulley_above_shaft(angle_deg, pulleys.foot.radius(), pulleys.head.radius(), bend.radius())
}

/// Proposes a height of the bend pulley (mm above the base) by the key that the spec uses for its place.
pub(super) fn raised(finding: Finding, case: &Case<'_>, bend: &PulleyBody, height_mm: f64) -> Finding {
    if case.spec.bend_pulley.height.is_given() {
        return finding.change("bend_pulley.height", &Length::mm(up_to(height_mm, 5.0)));
    }
    let pulleys = &case.foot.pulleys;
    let above = height_mm - (case.foot.shaft_lowest + case.foot.shaft_highest) / 2.0;
    match bend_pulley_angle(above, pulleys.foot.radius(), pulleys.head.radius(), bend.radius()) {
        Some(angle) if angle >= 3.0 => finding.change("bend_pulley.angle", &Angle::deg(down_to(angle, 0.1))),
        _ => finding,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Wanted;
    use crate::rules::trial::{LARGE, findings_of, job, machine, mended, worst_of};

    /// The model puts the bend pulley where the angle says, belt and all; a place for under 3° is not proposed.
    #[test]
    fn height_and_angle_are_one() {
        for degrees in [12.35, 25.05, 34.95] {
            let angle = format!("\"{degrees} deg\"");
            let job = job(LARGE, &[("bend_pulley.angle", &angle)]);
            let foot = job.foot();
            let case = Case { spec: job.spec(), foot, results: job.results(), parts: job.parts(), wanted: Wanted::Changes };
            let bend = foot.pulleys.bend.as_ref().unwrap();
            let height = height_for(&case, bend, degrees);
            assert!((height - bend.centre.z).abs() < 1e-6, "{height} {}", bend.centre.z);
            let proposal = |height: f64| raised(RULE.finds(Verdict::Warn, "bend_pulley.angle", ""), &case, bend, height).would_pass;
            assert_eq!(proposal(height)[0].value, format!("\"{} deg\"", down_to(degrees, 0.1)));
            assert!(!proposal(height_for(&case, bend, 3.01)).is_empty() && proposal(height_for(&case, bend, 2.9)).is_empty());
        }
    }

    /// By height instead of by angle: the height proposed brings the largest angle just under 35°.
    #[test]
    fn a_height_that_suits() {
        let (_, foot, _) = machine(LARGE, &[("bend_pulley.angle", "\"38 deg\"")]);
        let height = format!("\"{} mm\"", foot.pulleys.bend.unwrap().centre.z);
        let found = mended(&RULE, LARGE, &[("bend_pulley.height", &height)]);
        let angle = found[0].value.unwrap().value;
        assert!(found[0].path == "bend_pulley.height" && angle > 30.0, "{angle}");
    }

    /// The angle judged is the largest over the travel; the proposal leaves half a degree and what the take-up adds.
    #[test]
    fn the_largest_angle_counts() {
        for angle in ["20 deg", "40 deg"] {
            let change = [("bend_pulley.angle", format!("\"{angle}\""))];
            let change = [(change[0].0, change[0].1.as_str())];
            let (_, _, results) = machine(LARGE, &change);
            let angles = [results.path.lowest.foot_run_deg, results.path.middle.foot_run_deg, results.path.highest.foot_run_deg];
            let found = findings_of(&RULE, LARGE, &change);
            assert!((found[0].value.unwrap().value - angles.into_iter().fold(0.0, f64::max)).abs() < 1e-9);
            for change in &found[0].would_pass {
                let wish: f64 = change.value.trim_matches('"').trim_end_matches(" deg").parse().unwrap();
                let most = 35.0 - (angles[2] - angles[1]) - 0.5;
                assert!(wish <= most && wish > most - 0.5, "{wish} of {most}");
            }
        }
    }

    #[test]
    fn angle_over_the_travel() {
        assert_eq!(worst_of(&RULE, LARGE, &[("bend_pulley.angle", "\"25 deg\"")]), Some(Verdict::Pass));
        assert_eq!(worst_of(&RULE, LARGE, &[("bend_pulley.angle", "\"40 deg\"")]), Some(Verdict::Warn));
        // 35° in the middle is more with the take-up high.
        assert_eq!(worst_of(&RULE, LARGE, &[("bend_pulley.angle", "\"35 deg\"")]), Some(Verdict::Warn));
    }
}
