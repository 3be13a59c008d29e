//! The bend pulley clears the up run and the foot pulley at every take-up position.
//!
//! It lies inside the belt loop: its rim must stay off the up run's pulley face and off the foot
//! pulley with its belt. 50 mm is common practice, no source.

use super::bend_angle::raised;
use super::finding::{reaches, unless};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Free space round the bend pulley.
pub const RULE: Rule = Rule {
    id: "bend-clearance",
    title: "Clearance of the bend pulley",
    what: "Distance of the bend pulley from the up run and, with the take-up at its highest, from the foot pulley.",
    why: "The pulley and its bearings stand inside the belt loop; a rim that meets the up run or the foot pulley wrecks the belt.",
    remedy: "Take a smaller bend pulley or set it higher.",
    source: Source::practice("50 mm between the bend pulley and anything that moves"),
    check,
};

const LEAST: f64 = 50.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(bend) = &case.foot.pulleys.bend else { return Vec::new() };
    let foot = &case.foot.pulleys.foot;
    let thickness = case.foot.belt.thickness;
    let up_run = foot.radius() - (bend.centre.x + bend.radius());
    let level = bend.centre.z - case.foot.shaft_highest;
    let reach = foot.radius() + thickness + bend.radius();
    let apart = bend.centre.x.hypot(level) - reach;
    // The rim's +x side moves by the whole diameter: the belt's outer side fixes the other one.
    let slimmer = bend.diameter - (LEAST - up_run);
    let needed = ((reach + LEAST).powi(2) - bend.centre.x.powi(2)).max(0.0).sqrt();
    vec![
        RULE.finds(
            unless(reaches(up_run, LEAST), Verdict::Fail),
            "bend_pulley.diameter",
            say!("the bend pulley's rim is {gap} off the up run, at least {least}", gap = mm(up_run), least = mm(LEAST)),
        )
        .value(up_run, Unit::Mm)
        .limit(LEAST, Unit::Mm)
        .change("bend_pulley.diameter", &Length::mm(slimmer.floor())),
        raised(
            RULE.finds(
                unless(reaches(apart, LEAST), Verdict::Fail),
                "bend_pulley.height",
                say!(
                    "the bend pulley is {gap} off the foot pulley's belt with the take-up at its highest, at least {least}",
                    gap = mm(apart),
                    least = mm(LEAST)
                ),
            )
            .value(apart, Unit::Mm)
            .limit(LEAST, Unit::Mm),
            case,
            bend,
            case.foot.shaft_highest + needed,
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, findings_of, machine, mended, worst_of};
    use std::f64::consts::TAU;

    /// Too near the foot pulley: the proposal, as an angle or as a height, leaves 50 mm and little more; too near the up run: a slimmer pulley.
    #[test]
    fn moved_away_just_enough() {
        let thick = [("bend_pulley.diameter", "\"1300 mm\""), ("foot_pulley.diameter", "\"1320 mm\"")];
        let near = [&thick[..], &[("bend_pulley.angle", "\"50 deg\""), ("duty.belt_speed", "\"4 m/s\"")]].concat();
        let (_, foot, _) = machine(LARGE, &near);
        let height = format!("\"{:.3} mm\"", foot.pulleys.bend.unwrap().centre.z);
        for (place, most) in [(near.clone(), 80.0), ([&thick[..], &[("bend_pulley.height", &height)]].concat(), 60.0)] {
            let after = mended(&RULE, LARGE, &place);
            let gap = after.iter().find(|f| f.path == "bend_pulley.height").unwrap().value.unwrap().value;
            assert!((50.0..most).contains(&gap), "{gap}");
        }
        // The rim stands head less bend pulley diameter off the up run.
        let wide = [("head_pulley.diameter", "\"1900 mm\""), ("bend_pulley.diameter", "\"1880 mm\"")];
        let found = findings_of(&RULE, LARGE, &wide);
        assert!((found[0].value.unwrap().value - 20.0).abs() < 1e-9 && found[0].verdict == Verdict::Fail);
        assert_eq!(found[0].would_pass[0].line(), "bend_pulley.diameter = \"1850 mm\"");
    }

    /// The gaps again by walking round the bend pulley's rim: to the line of the up run, to the belt's outer face on the foot pulley.
    #[test]
    fn gaps_by_walking_the_rim() {
        let (_, foot, _) = machine(LARGE, &[]);
        let bend = foot.pulleys.bend.unwrap();
        let (mut up_run, mut apart) = (f64::INFINITY, f64::INFINITY);
        for i in 0..36_000 {
            let a = TAU * f64::from(i) / 36_000.0;
            let (x, z) = (bend.centre.x + bend.radius() * a.cos(), bend.centre.z + bend.radius() * a.sin());
            up_run = up_run.min(foot.pulleys.foot.radius() - x);
            apart = apart.min(x.hypot(z - foot.shaft_highest) - foot.pulleys.foot.radius() - foot.belt.thickness);
        }
        let found: Vec<f64> = findings_of(&RULE, LARGE, &[]).iter().map(|f| f.value.unwrap().value).collect();
        assert!(found.len() == 2 && (found[0] - up_run).abs() < 1e-3 && (found[1] - apart).abs() < 1e-3, "{found:?} against {up_run} {apart}");
    }

    #[test]
    fn off_run_and_pulley() {
        assert_eq!(worst_of(&RULE, LARGE, &[]), Some(Verdict::Pass));
        assert_eq!(worst_of(&RULE, LARGE, &[("bend_pulley.fitted", "false")]), None);
    }

    #[test]
    fn fifty_millimetres_to_the_foot_pulley() {
        // The nearer the bend pulley, the steeper the belt; the verdict turns where the gap passes 50 mm.
        let mut seen = [false, false];
        for tenths in (200..=500).step_by(10) {
            let angle = format!("\"{} deg\"", f64::from(tenths) / 10.0);
            let all = [("bend_pulley.angle", angle.as_str()), ("bend_pulley.diameter", "\"1300 mm\""), ("foot_pulley.diameter", "\"1320 mm\"")];
            let found = findings_of(&RULE, LARGE, &all);
            for finding in &found {
                let gap = finding.value.unwrap().value;
                assert_eq!(finding.verdict, if gap >= 50.0 { Verdict::Pass } else { Verdict::Fail }, "{angle} {finding:?}");
                seen[usize::from(gap >= 50.0)] = true;
            }
        }
        assert_eq!(seen, [true, true]);
    }
}
