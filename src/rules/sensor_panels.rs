//! Panels in both side plates for belt-alignment sensors.
//!
//! Wandering of belt or pulley must be detectable. Common practice; where dust can explode the sensor
//! is asked for by OSHA 29 CFR 1910.272(q)(6).

use super::finding::unless;
use super::{Case, Finding, Rule};
use crate::say;
use crate::sources::Source;

/// Panels on both sides.
pub const RULE: Rule = Rule {
    id: "sensor-panels",
    title: "Panels for belt-alignment sensors",
    what: "Whether both side plates have removable panels near the foot pulley.",
    why: "A belt that wanders rubs on the side plate, heats it and tears; without panels the sensors cannot be fitted later.",
    remedy: "Fit small bolted, gasketed panels in both side plates, level with the foot shaft.",
    source: Source::practice("panels of about 150 by 150 in both side plates"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let panels = &case.spec.sensor_panels;
    [("sensor_panels.near", "near", panels.near.value), ("sensor_panels.far", "far", panels.far.value)]
        .into_iter()
        .map(|(path, side, fitted)| {
            let message = if fitted {
                say!("the {side} side plate has panels for alignment sensors", side = side)
            } else {
                say!("the {side} side plate has no panels: belt alignment cannot be watched there", side = side)
            };
            RULE.finds(unless(fitted, case.warn_or_fail_for_dust()), path, message).change(path, &true)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Verdict;
    use crate::rules::trial::worst;

    #[test]
    fn both_sides() {
        assert_eq!(worst(&RULE, &[("sensor_panels.near", "true"), ("sensor_panels.far", "true")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[("sensor_panels.far", "false"), ("product.combustible", "false")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[("sensor_panels.near", "false"), ("product.combustible", "true")]), Some(Verdict::Fail));
    }
}
