//! A throat's floor and roof have room between the end plate and the inlet's flange.
//!
//! Geometry of the plates as they are cut. Where the end plate leans out over the throat, beside the belt's inclined run, the
//! roof rises toward it: a steep floor and a strong lean leave no angle between them, however long the throat.

use super::finding::{reaches, unless, within};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::foot_heights::{BEND_ROOM, flange_floor};
use crate::model::frame::Extent;
use crate::model::inlets::{FeedSide, InletBody};
use crate::parts::throats::{SHORTEST, STEEPEST_DEG, Section};
use crate::say;
use crate::say::{amount, mm};
use crate::sources::Source;
use crate::units::{Length, Unit};

/// Room for floor and roof.
pub const RULE: Rule = Rule {
    id: "throat-room",
    title: "Room for the throat",
    what: "Angle of each throat's roof to the square of its end plate against 83°, and length of floor and roof up to the flange against 20 mm.",
    why: "A roof that lies along the end plate, or a floor without length, cannot be cut or welded: the inlet has no throat.",
    remedy: "More reach; a flatter floor; the opening on an upright part of the end plate; or a smaller angle of the belt under the bend pulley.",
    source: Source::practice("a roof at least 7° off its wall, plates at least 20 mm long"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    case.foot.inlets.iter().map(|inlet| of(case, inlet)).collect()
}

fn of(case: &Case<'_>, inlet: &InletBody) -> Finding {
    let section = section(case, inlet);
    let (roof, shorter) = (section.roof_to_wall_deg(), section.shorter());
    let path = format!("inlet.{}.reach", inlet.side.key());
    let steep = !within(roof, STEEPEST_DEG);
    let throat = if inlet.side == FeedSide::Up { "the up-side throat" } else { "the down-side throat" };
    let finding = if steep {
        let message = say!(
            "the roof of {throat} stands {roof} to the square of its end plate, which leans {lean}; above {limit} there is no room for it",
            throat = throat,
            roof = amount(roof, Unit::Degree, 1),
            lean = amount(section.lean.to_degrees(), Unit::Degree, 1),
            limit = amount(STEEPEST_DEG, Unit::Degree, 1)
        );
        RULE.finds(Verdict::Fail, path, message).value(roof, Unit::Degree).limit(STEEPEST_DEG, Unit::Degree)
    } else {
        let message = say!(
            "floor and roof of {throat} are {shorter} long or longer between wall and flange, at least {limit}",
            throat = throat,
            shorter = mm(shorter),
            limit = mm(SHORTEST)
        );
        RULE.finds(unless(reaches(shorter, SHORTEST), Verdict::Fail), path, message).value(shorter, Unit::Mm).limit(SHORTEST, Unit::Mm)
    };
    case.mend(finding, |finding| with_room(case, inlet, finding))
}

fn section(case: &Case<'_>, inlet: &InletBody) -> Section {
    Section::of(case.spec, case.foot, inlet)
}

/// Longest throat that is proposed, mm: what the spec takes.
const LONGEST: f64 = 3000.0;

/// Adds the shortest reach that gives room; where none does, the highest sill under the bend of the end plate.
fn with_room(case: &Case<'_>, inlet: &InletBody, finding: Finding) -> Finding {
    let key = inlet.side.key();
    let reach = (inlet.flange_face - inlet.outside).abs();
    let longer = steps(reach, LONGEST, 10.0).find(|r| section(case, &placed(case, inlet, inlet.opening, *r)).has_room());
    if let Some(longer) = longer {
        return held(case, inlet, finding.change(format!("inlet.{key}.reach"), &Length::mm(longer)), false);
    }
    let casing = &case.foot.casing;
    let Some(bend) = casing.down_bends().first().copied().filter(|_| inlet.side == FeedSide::Down) else { return finding };
    let lowest = casing.bottom_face.max(casing.bottom_shoulder).max(case.foot.shaft_lowest - case.foot.tip_radius);
    let highest = bend - BEND_ROOM - inlet.opening.size();
    let room = |sill: &f64| {
        let opening = Extent::new(*sill, *sill + inlet.opening.size());
        section(case, &placed(case, inlet, opening, reach)).has_room()
    };
    let lower: Vec<f64> = steps(lowest, highest, 5.0).collect();
    match lower.into_iter().rev().find(room) {
        Some(sill) => held(case, inlet, finding.change(format!("inlet.{key}.sill"), &Length::mm(sill)), true),
        None => finding,
    }
}

/// Holds what is left to the program and would move with the change: the height follows a given reach, the reach the sill.
fn held(case: &Case<'_>, inlet: &InletBody, mut finding: Finding, reach: bool) -> Finding {
    let (key, spec) = (inlet.side.key(), if inlet.side == FeedSide::Up { &case.spec.inlet_up } else { &case.spec.inlet_down });
    if reach && !spec.reach.is_given() {
        finding = finding.change(format!("inlet.{key}.reach"), &spec.reach.value);
    }
    if spec.height.is_given() { finding } else { finding.change(format!("inlet.{key}.height"), &spec.height.value) }
}

/// The inlet with another opening and reach.
fn placed(case: &Case<'_>, inlet: &InletBody, opening: Extent, reach: f64) -> InletBody {
    let casing = &case.foot.casing;
    let outside = if inlet.side == FeedSide::Up { inlet.outside } else { casing.down_outer_x(opening.low) };
    InletBody {
        opening,
        outside,
        sill: opening.low,
        flange_face: outside + inlet.side.outward() * reach,
        flange_sill: flange_floor(opening.low, reach, inlet.slope_deg),
        ..inlet.clone()
    }
}

/// Multiples of `step` from above `low` to `high`.
fn steps(low: f64, high: f64, step: f64) -> impl Iterator<Item = f64> {
    let first = (low / step + 1e-6).floor() + 1.0;
    let count = ((high / step).floor() - first + 1.0).max(0.0) as usize;
    (0..count).map(move |i| (first + i as f64) * step)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, mended, proposed, worst};

    /// On an upright plate the floor of a throat of reach L and slope α is (L − 12 of flange) / cos α − 5 of plate × tan α long.
    #[test]
    fn length_on_an_upright_plate() {
        let steep = ("inlet.up.slope", "\"60 deg\"");
        let found = findings_of(&RULE, SMALL, &[steep, ("inlet.up.reach", "\"100 mm\"")]);
        let cos = 60f64.to_radians().cos();
        assert!((found[0].value.unwrap().value - ((100.0 - 12.0) / cos - 5.0 * 60f64.to_radians().tan())).abs() < 1e-6, "{found:#?}");
        assert_eq!(worst(&RULE, &[]), Some(Verdict::Pass));
    }

    /// Sluggish chips need 60°, the plate beside the inclined run leans some 25°: no reach helps, an opening under the bend does.
    #[test]
    fn beside_an_inclined_run() {
        let down = [("inlet.up.fitted", "false"), ("inlet.down.fitted", "true"), ("inlet.down.sill", "\"2 m\""), ("inlet.down.height", "\"200 mm\"")];
        let steep = [&down[..], &[("inlet.down.slope", "\"62 deg\"")]].concat();
        let lines = proposed(&RULE, LARGE, &steep);
        assert!(lines.first().is_some_and(|l| l.starts_with("inlet.down.sill = ")), "{lines:?}");
        mended(&RULE, LARGE, &steep);
        // A flatter one only needs more reach.
        let short = [&down[..], &[("inlet.down.slope", "\"40 deg\""), ("inlet.down.reach", "\"100 mm\"")]].concat();
        let lines = proposed(&RULE, LARGE, &short);
        assert!(lines.first().is_some_and(|l| l.starts_with("inlet.down.reach = ")), "{lines:?}");
        mended(&RULE, LARGE, &short);
    }

    #[test]
    fn multiples() {
        assert_eq!(steps(400.0, 425.0, 10.0).collect::<Vec<_>>(), [410.0, 420.0]);
        assert_eq!(steps(425.0, 400.0, 10.0).count(), 0);
    }
}
