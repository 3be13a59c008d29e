//! Pulley faces are wider than the belt, so that it can wander a little without running off.
//!
//! Belt + 50 mm up to 600 mm of belt, + 100 mm above. Common practice, no source.

use super::finding::{reaches, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::tables::pulley_faces;
use crate::units::{Length, Unit};

/// Face against belt.
pub const RULE: Rule = Rule {
    id: "belt-pulley-face",
    title: "Pulley face",
    what: "Face width of foot and bend pulley against the belt width.",
    why: "A belt that hangs over the pulley's edge frays, and a narrow face leaves it no room to wander.",
    remedy: "Make the face 50 mm wider than the belt, 100 mm above 600 mm of belt.",
    source: pulley_faces::SOURCE,
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let belt = case.foot.belt.width;
    let limit = belt + pulley_faces::wider_mm(belt);
    let pulleys = &case.foot.pulleys;
    let bend = pulleys.bend.map(|b| ("bend_pulley.face", true, b.face));
    [Some(("foot_pulley.face", false, pulleys.foot.face)), bend]
        .into_iter()
        .flatten()
        .map(|(path, of_bend, face)| {
            let verdict = if reaches(face, limit) {
                Verdict::Pass
            } else if reaches(face, belt) {
                Verdict::Warn
            } else {
                Verdict::Fail
            };
            let message = if of_bend {
                say!(
                    "the bend pulley's face is {face}, the belt {belt} wide; {least} or more is asked for",
                    face = mm(face),
                    belt = mm(belt),
                    least = mm(limit)
                )
            } else {
                say!(
                    "the foot pulley's face is {face}, the belt {belt} wide; {least} or more is asked for",
                    face = mm(face),
                    belt = mm(belt),
                    least = mm(limit)
                )
            };
            RULE.finds(verdict, path, message).value(face, Unit::Mm).limit(limit, Unit::Mm).change(path, &Length::mm(up_to(limit, 5.0)))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{turns, worst};

    #[test]
    fn face_against_belt() {
        let belt = ("belt.width", "\"400 mm\"");
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.face", "\"450 mm\"")]), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.face", "\"400 mm\"")]), Some(Verdict::Warn));
        assert_eq!(worst(&RULE, &[belt, ("foot_pulley.face", "\"399 mm\"")]), Some(Verdict::Fail));
        turns(&RULE, "foot_pulley.face", &[], -0.1);
    }
}
