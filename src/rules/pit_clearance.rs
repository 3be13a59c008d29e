//! People fit round the foot: the clear space on each side of the pit, and which side is short.
//!
//! 600 mm all round must be (ISO 14122-2, 2001 digest read; in a US job common practice); more where people work: 800 mm in front of
//! doors, clean-outs and take-up, the door leaf and 300 mm where a leaf swings, 1000 mm on the shovel
//! side. The working spaces are common practice, no source.

use super::finding::{reaches, unless, up_to};
use super::{Case, Finding, Rule, Verdict};
use crate::model::Foot;
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;
use crate::tables::access;
use crate::units::{Length, Unit};

/// Space on each side.
pub const RULE: Rule = Rule {
    id: "pit-clearance",
    title: "Clear space in the pit",
    what: "Clear space from the outermost fixed part of the foot to the pit wall, on the up, down, near and far side.",
    why: "Who cannot get round the foot cannot clean it, open its doors, set its take-up, or get out.",
    remedy: "Move the wall of the short side out.",
    source: Source::practice("600 mm all round, 800 mm in front of doors and take-up, 1000 mm on the shovel side"),
    check,
};

/// Room to stand beside an open door leaf, mm; common practice.
const BESIDE_LEAF: f64 = 300.0;

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let least = access::SERVICE_ALL_ROUND_MM;
    [
        ("pit.up_space", "up side", Wall::UpEnd),
        ("pit.down_space", "down side", Wall::DownEnd),
        ("pit.near_space", "near side", Wall::Near),
        ("pit.far_space", "far side", Wall::Far),
    ]
    .into_iter()
    .zip(pit.spaces)
    .map(|((path, side, wall), space)| {
        let (wanted, why) = working_space(case.foot, wall);
        let (verdict, limit) =
            if !reaches(space, least.value) { (Verdict::Fail, least.value) } else { (unless(reaches(space, wanted), Verdict::Warn), wanted) };
        // The standard is not one of a US job, and knows the way round only.
        let source = if case.us() || limit > least.value { RULE.source } else { least.source };
        let message = if verdict == Verdict::Pass {
            say!("the {side} has {space} clear and needs {wanted} ({why}): enough", side = side, space = mm(space), wanted = mm(wanted), why = why)
        } else if limit < wanted {
            say!(
                "the {side} has {space} clear: a person needs {limit} to pass, and here {wanted} are wanted ({why})",
                side = side,
                space = mm(space),
                limit = mm(limit),
                wanted = mm(wanted),
                why = why
            )
        } else {
            say!("the {side} has {space} clear and needs {wanted} ({why}): short", side = side, space = mm(space), wanted = mm(wanted), why = why)
        };
        RULE.finds(verdict, path, message).value(space, Unit::Mm).limit(limit, Unit::Mm).after(source).change(path, &Length::mm(up_to(wanted, 10.0)))
    })
    .collect()
}

/// What people need on a side, mm, and why.
fn working_space(foot: &Foot, wall: Wall) -> (f64, &'static str) {
    let mut best = (access::SERVICE_ALL_ROUND_MM.value, "a person passes");
    let mut need = |value: f64, why: &'static str| {
        if value > best.0 {
            best = (value, why);
        }
    };
    for opening in foot.openings.iter().filter(|o| o.wall == wall) {
        match opening.kind {
            OpeningKind::Door { .. } => {
                need(access::SERVICE_AT_DOORS_MM.value, "inspection door");
                need(opening.across.size() + BESIDE_LEAF, "leaf of the inspection door");
            }
            OpeningKind::CleanOut => need(access::SERVICE_AT_DOORS_MM.value, "clean-out door"),
            // What the pulley needs that comes out there is asked by its own rule.
            OpeningKind::SensorPanel | OpeningKind::Removal => {}
        }
    }
    if matches!(wall, Wall::Near | Wall::Far) {
        need(access::SERVICE_AT_DOORS_MM.value, "take-up");
    }
    let shovel = foot.pocket.as_ref().is_some_and(|p| matches!((p.side, wall), (Side::Near, Wall::Near) | (Side::Far, Wall::Far)));
    if shovel {
        need(access::SERVICE_SHOVEL_SIDE_MM.value, "people shovel here");
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn each_side() {
        let pit = ("pit.fitted", "true");
        assert_eq!(worst(&RULE, &[("pit.fitted", "false")]), None);
        let base = [pit, ("clean_out.down", "false"), ("pit.up_space", "\"800 mm\""), ("pit.near_space", "\"2 m\""), ("pit.far_space", "\"2 m\"")];
        let with = |more: (&str, &str)| worst(&RULE, &[&base[..], &[more]].concat());
        assert_eq!(with(("pit.down_space", "\"600 mm\"")), Some(Verdict::Pass));
        assert_eq!(with(("pit.down_space", "\"599 mm\"")), Some(Verdict::Fail));
        let down = ("pit.down_space", "\"2 m\"");
        assert_eq!(worst(&RULE, &[&base[..], &[down, ("pit.up_space", "\"799 mm\"")]].concat()), Some(Verdict::Warn));
        let pocket = [down, ("shovel_pocket.fitted", "true"), ("shovel_pocket.side", "\"near\"")];
        assert_eq!(worst(&RULE, &[&base[..], &pocket, &[("pit.near_space", "\"1000 mm\"")]].concat()), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[&base[..], &pocket, &[("pit.near_space", "\"999 mm\"")]].concat()), Some(Verdict::Warn));
    }
}
