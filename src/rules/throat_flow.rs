//! The throat lets the capacity through.
//!
//! Area square to the floor, half full where the stream is slowest, and not more than runs out of a flooded orifice. Continuity and
//! Beverloo; half full is common practice. On a floor too flat to slide nothing is sure to pass.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::analysis::throat::Throat;
use crate::formulas::flow;
use crate::formulas::foot_heights::ABOVE_INLET;
use crate::model::frame::Extent;
use crate::model::inlets::InletBody;
use crate::say;
use crate::say::amount;
use crate::units::{Angle, Length, Unit};

/// Throat against capacity.
pub const RULE: Rule = Rule {
    id: "throat-flow",
    title: "Flow through the throat",
    what: "What each throat passes, half full where the stream is slowest and not more than it would flooded, against the capacity asked for.",
    why: "A throat that is too small limits the elevator whatever its buckets can carry, and plugs.",
    remedy: "Make the throat higher or wider, or its floor steeper.",
    source: flow::THROAT,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let asked = case.results.capacity.required_t_per_h;
    case.foot
        .inlets
        .iter()
        .zip(&case.results.throats)
        .map(|(inlet, throat)| {
            let key = inlet.side.key();
            let passes = throat.capacity_t_per_h;
            let flow = |t_per_h: f64| amount(t_per_h, Unit::TPerH, 1);
            let choked = throat.flooded_t_per_h.is_some_and(|flooded| flooded < throat.stream_t_per_h);
            let message = if throat.slowest_m_per_s > 0.0 && choked {
                say!(
                    "the {side} throat of {area} passes {passes}, as much as runs out of it flooded, asked for are {asked}",
                    side = inlet.side.adjective(),
                    area = amount(throat.area_mm2 / 100.0, Unit::Cm2, 0),
                    passes = flow(passes),
                    asked = flow(asked)
                )
            } else if throat.slowest_m_per_s > 0.0 {
                say!(
                    "the {side} throat of {area} passes {passes} at {speed}, asked for are {asked}",
                    side = inlet.side.adjective(),
                    area = amount(throat.area_mm2 / 100.0, Unit::Cm2, 0),
                    passes = flow(passes),
                    speed = amount(throat.slowest_m_per_s, Unit::MPerS, 1),
                    asked = flow(asked)
                )
            } else {
                say!(
                    "on the {side} floor the stream comes to rest: nothing is sure to pass, asked for are {asked}",
                    side = inlet.side.adjective(),
                    asked = flow(asked)
                )
            };
            let finding = RULE
                .finds(unless(reaches(passes, asked), Verdict::Fail), format!("inlet.{key}.height"), message)
                .value(passes, Unit::TPerH)
                .limit(asked, Unit::TPerH);
            case.mend(finding, |finding| mended(case, inlet, finding, asked))
        })
        .collect()
}

/// Proposes the least height (and slope, where the stream rests) at which the throat passes the capacity.
fn mended(case: &Case<'_>, inlet: &InletBody, mut finding: Finding, asked: f64) -> Finding {
    let key = inlet.side.key();
    let slope = if case.results.throats.iter().any(|t| t.side == inlet.side && t.slowest_m_per_s <= 0.0) {
        let needed = case.spec.product.chute_slope.value().max(flow::sliding_slope_rad(case.spec.product.wall_friction.value()).to_degrees() + 5.0);
        needed.max(inlet.slope_deg).ceil().min(80.0)
    } else {
        inlet.slope_deg
    };
    let mut trial = InletBody { slope_deg: slope, ..inlet.clone() };
    let mut passes = |height: f64| {
        trial.opening = Extent::new(inlet.sill, inlet.sill + height);
        Throat::compute(case.spec, case.foot, &trial).capacity_t_per_h
    };
    let present = inlet.opening.size();
    let Some(height) = (0..300).map(|i| up_to(present, 10.0) + 10.0 * f64::from(i)).take_while(|h| *h <= 3000.0).find(|h| reaches(passes(*h), asked * 1.001))
    else {
        return finding;
    };
    if slope > inlet.slope_deg {
        finding = finding.change(format!("inlet.{key}.slope"), &Angle::deg(slope));
    }
    if height > present {
        finding = finding.change(format!("inlet.{key}.height"), &Length::mm(height));
    }
    // A given casing height does not grow with the opening.
    let top = inlet.sill + height + ABOVE_INLET;
    if case.spec.casing.height.is_given() && top > case.foot.casing.top { finding.change("casing.height", &Length::mm(up_to(top, 10.0))) } else { finding }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, measured, mended, proposed, worst};

    #[test]
    fn capacity_through_the_throat() {
        let size = [("inlet.up.width", "\"230 mm\""), ("inlet.up.height", "\"150 mm\"")];
        let with = |asked: &str| worst(&RULE, &[&size[..], &[("duty.capacity", asked)]].concat());
        assert_eq!(with("\"10 t/h\""), Some(Verdict::Pass));
        assert_eq!(with("\"900 t/h\""), Some(Verdict::Fail));
        let wish = |changes: &[(&str, &str)]| -> f64 {
            mended(&RULE, SMALL, changes);
            let lines = proposed(&RULE, SMALL, changes);
            lines.iter().find(|l| l.starts_with("inlet.up.height")).unwrap().split('"').nth(1).unwrap().trim_end_matches(" mm").parse().unwrap()
        };
        // The least height in steps of 10 mm: one step less does not pass.
        let wanted = [&size[..], &[("duty.capacity", "\"140 t/h\"")]].concat();
        let height = wish(&wanted);
        let less = format!("\"{} mm\"", height - 10.0);
        assert_eq!(worst(&RULE, &[("inlet.up.width", "\"230 mm\""), ("inlet.up.height", &less), ("duty.capacity", "\"140 t/h\"")]), Some(Verdict::Fail));
        // A casing of a given height grows with the opening, 100 mm over it, where it is too low.
        let casing = |more: &[(&str, &str)]| -> Vec<String> {
            let lines = proposed(&RULE, SMALL, &[&wanted[..], &[("inlet.up.sill", "\"1080 mm\"")], more].concat());
            lines.into_iter().filter(|l| l.starts_with("casing.height")).collect()
        };
        let top = 1080.0 + height + 100.0;
        assert!(casing(&[]).is_empty() && casing(&[("casing.height", "\"3000 mm\"")]).is_empty());
        assert!(casing(&[("casing.height", &format!("\"{top} mm\""))]).is_empty());
        assert_eq!(casing(&[("casing.height", &format!("\"{} mm\"", top - 1.0))]), [format!("casing.height = \"{top} mm\"")]);
        // A floor on which the stream rests gets the product's slope as well.
        let flat = [&size[..], &[("inlet.up.slope", "\"10 deg\""), ("duty.capacity", "\"140 t/h\"")]].concat();
        wish(&flat);
        assert!(proposed(&RULE, SMALL, &flat).contains(&"inlet.up.slope = \"45 deg\"".to_string()), "{:?}", proposed(&RULE, SMALL, &flat));
        let (passes, _) = measured(&RULE, &size);
        assert_eq!(with(&format!("\"{} t/h\"", passes - 0.01)), Some(Verdict::Pass));
        assert_eq!(with(&format!("\"{} t/h\"", passes + 0.01)), Some(Verdict::Fail));
    }
}
