//! The way down: a ladder within its height limit and with room in front and behind, or a stair wide enough.
//!
//! ISO 14122-4 (from memory): 3000 mm, 650 mm in front, 200 mm behind; OSHA 29 CFR 1910.23 and .28(b)(9)
//! for US jobs: 24 ft, 30 in and 7 in. Stairs: ISO 14122-3, OSHA 1910.25.

use super::finding::{reaches, unless, up_to, within};
use super::{Case, Finding, Rule, Verdict};
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::spec::pit::{Access, AccessSide};
use crate::units::{Length, Unit};

/// Ladder or stair.
pub const RULE: Rule = Rule {
    id: "pit-access",
    title: "Way down",
    what: "Height of the ladder against the height that needs fall protection, the room for it between foot and wall, or the width of the stair.",
    why: "People climb down with tools and out in a hurry; a squeezed or unprotected ladder is where they fall.",
    remedy: "Use a stair in a deep pit, or a ladder with fall protection; give its side the room.",
    source: Source::standard("ISO 14122-4").from_memory(),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let limits = case.access();
    if pit.access == Access::Stair {
        let limit = limits.stair_width_mm;
        let width = pit.way.clear_width;
        return vec![
            RULE.finds(
                unless(reaches(width, limit.value), Verdict::Fail),
                "pit.access",
                say!("the stair is {width} wide, at least {least}", width = mm(width), least = mm(limit.value)),
            )
            .value(width, Unit::Mm)
            .limit(limit.value, Unit::Mm)
            .after(limit.source),
        ];
    }
    let height = limits.ladder_fall_protection_mm;
    let (path, side, space) = match pit.access_side {
        AccessSide::Up => ("pit.up_space", "up side", pit.spaces[0]),
        AccessSide::Down => ("pit.down_space", "down side", pit.spaces[1]),
        AccessSide::Near => ("pit.near_space", "near side", pit.spaces[2]),
        AccessSide::Far => ("pit.far_space", "far side", pit.spaces[3]),
    };
    let room = limits.ladder_front_mm.value + limits.ladder_behind_mm.value;
    vec![
        RULE.finds(
            unless(within(pit.depth, height.value), Verdict::Warn),
            "pit.access",
            say!(
                "the ladder is {height} high; above {limit} it needs fall protection, or a stair takes its place",
                height = mm(pit.depth),
                limit = mm(height.value)
            ),
        )
        .value(pit.depth, Unit::Mm)
        .limit(height.value, Unit::Mm)
        .after(height.source)
        .change("pit.access", &Access::Stair),
        RULE.finds(
            unless(reaches(space, room), Verdict::Warn),
            path,
            say!(
                "the ladder on the {side} has {space} between foot and wall; {room} are needed, {front} in front and {behind} behind the rungs",
                side = side,
                space = mm(space),
                room = mm(room),
                front = mm(limits.ladder_front_mm.value),
                behind = mm(limits.ladder_behind_mm.value)
            ),
        )
        .value(space, Unit::Mm)
        .limit(room, Unit::Mm)
        .after(limits.ladder_front_mm.source)
        .change(path, &Length::mm(up_to(room, 10.0))),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::worst;

    #[test]
    fn ladder_and_stair() {
        let base = [("pit.fitted", "true"), ("project.jurisdiction", "\"iso\""), ("pit.access_side", "\"far\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&base[..], more].concat());
        let ladder = ("pit.access", "\"ladder\"");
        let room = ("pit.far_space", "\"850 mm\"");
        assert_eq!(with(&[ladder, room, ("pit.depth", "\"3000 mm\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[ladder, room, ("pit.depth", "\"3001 mm\"")]), Some(Verdict::Warn));
        assert_eq!(with(&[ladder, ("pit.far_space", "\"849 mm\""), ("pit.depth", "\"2 m\"")]), Some(Verdict::Warn));
        assert_eq!(with(&[("pit.access", "\"stair\""), ("pit.depth", "\"5 m\"")]), Some(Verdict::Pass));
    }
}
