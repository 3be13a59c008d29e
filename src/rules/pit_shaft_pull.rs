//! The foot shaft can be pulled out to one side without breaking the wall.
//!
//! Shaft length and 200 mm clear beside the casing; between elevators in a row the shaft length and the next one's shaft end.
//! Common practice, no source.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::removal::PAST;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::spec::inlets::Side;
use crate::tables::access::SERVICE_SHAFT_EXTRA_MM;
use crate::units::{Length, Unit};

/// Room to pull the shaft.
pub const RULE: Rule = Rule {
    id: "pit-shaft-pull",
    title: "Room to pull the shaft",
    what: "Clear length beside the casing on the side where the shaft is pulled, and between elevators in a row.",
    why: "A shaft that does not come out whole is cut out, and the new one does not go in.",
    remedy: "Give one side the shaft length and 200 mm more, or pull the shaft through a recess or sleeve in the wall.",
    source: Source::practice("shaft length and 200 mm clear on one side"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let casing = case.foot.casing.width.grown(case.foot.casing.plate);
    let length = case.foot.rotating.shaft_ends.size();
    let row = f64::from(pit.elevators.saturating_sub(1)) * pit.pitch;
    let (path, side, clear, space) = match case.spec.pit.shaft_pull.value {
        Side::Near => ("pit.near_space", "near side", pit.y.high - casing.high, pit.spaces[2]),
        Side::Far => ("pit.far_space", "far side", casing.low - row - pit.y.low, pit.spaces[3]),
    };
    let limit = length + SERVICE_SHAFT_EXTRA_MM.value;
    let mut all = vec![
        RULE.finds(
            unless(reaches(clear, limit), Verdict::Warn),
            path,
            say!(
                "the shaft of {length} is pulled out to the {side}, where {clear} are clear beside the casing; {needed} are needed",
                length = mm(length),
                side = side,
                clear = mm(clear),
                needed = mm(limit)
            ),
        )
        .value(clear, Unit::Mm)
        .limit(limit, Unit::Mm)
        .change(path, &Length::mm(up_to(space + limit - clear, 10.0))),
    ];
    if pit.elevators > 1 {
        let between = pit.pitch - casing.size();
        // On its way out it passes the shaft end of the next elevator.
        let limit = length + (case.foot.rotating.shaft_ends.high - casing.high).max(0.0) + PAST;
        all.push(
            RULE.finds(
                unless(reaches(between, limit), Verdict::Warn),
                "pit.pitch",
                say!(
                    "between two elevators {clear} are clear; a shaft of {length} on its way out and the shaft end of the next one need {needed}",
                    clear = mm(between),
                    length = mm(length),
                    needed = mm(limit)
                ),
            )
            .value(between, Unit::Mm)
            .limit(limit, Unit::Mm)
            .change("pit.pitch", &Length::mm(up_to(casing.size() + limit, 10.0))),
        );
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, machine, measured, mended, worst};

    #[test]
    fn shaft_comes_out() {
        let base = [("pit.fitted", "true"), ("pit.shaft_pull", "\"far\""), ("shovel_pocket.fitted", "false")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&base[..], more].concat());
        assert_eq!(worst(&RULE, &[("pit.fitted", "false")]), None);
        assert_eq!(with(&[("pit.far_space", "\"4 m\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[("pit.far_space", "\"600 mm\"")]), Some(Verdict::Warn));
        let (clear, limit) = measured(&RULE, &[&base[..], &[("pit.far_space", "\"1000 mm\"")]].concat());
        let exact = format!("\"{} mm\"", 1000.0 + limit - clear);
        let short = format!("\"{} mm\"", 999.0 + limit - clear);
        assert_eq!(with(&[("pit.far_space", &exact)]), Some(Verdict::Pass));
        assert_eq!(with(&[("pit.far_space", &short)]), Some(Verdict::Warn));
        mended(&RULE, SMALL, &[&base[..], &[("pit.far_space", "\"600 mm\"")]].concat());
        mended(&RULE, SMALL, &[("pit.fitted", "true"), ("shovel_pocket.fitted", "false"), ("pit.shaft_pull", "\"near\""), ("pit.near_space", "\"600 mm\"")]);
        // The shaft of 570 + 2 × 50 and 200 mm; beside the casing as much as the space given; a second elevator moves the far wall, not the clear space.
        let two = [("pit.elevators", "2"), ("pit.pitch", "\"1400 mm\""), ("pit.far_space", "\"1000 mm\"")];
        let (_, foot, _) = machine(SMALL, &[&base[..], &two[2..]].concat());
        assert_eq!(limit, foot.rotating.shaft_ends.size() + 200.0);
        let seen = findings_of(&RULE, SMALL, &[&base[..], &two].concat());
        assert!((seen[0].value.unwrap().value - clear).abs() < 1e-6, "{} {clear}", seen[0].value.unwrap().value);
        // Casing 480 with its plates: 490.
        assert!((seen[1].value.unwrap().value - (1400.0 - 490.0)).abs() < 1e-6);
        mended(&RULE, SMALL, &[&base[..], &[("pit.far_space", "\"4 m\""), ("pit.elevators", "2"), ("pit.pitch", "\"1000 mm\"")]].concat());
        assert_eq!(with(&[("pit.far_space", "\"4 m\""), ("pit.elevators", "2"), ("pit.pitch", "\"1000 mm\"")]), Some(Verdict::Warn));
    }
}
