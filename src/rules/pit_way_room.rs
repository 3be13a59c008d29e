//! Ladder or stair and the floor at its foot lie in the pit and clear of foot and sump.
//!
//! Geometry of the model; the landing is as deep as a climber needs (ladder) or as long as the stair is wide.

use super::finding::mm;
use super::{Case, Finding, Rule, Verdict};
use crate::model::pit_fittings::Area;
use crate::sources::Source;
use crate::spec::pit::{Access, AccessSide};

/// Room for the way down.
pub const RULE: Rule = Rule {
    id: "pit-way-room",
    title: "Room for the way down",
    what: "Whether ladder or stair and its landing fit between the walls and clear of the foot and the sump.",
    why: "A way down that ends on the machine, in the sump or beyond the wall is found out when the concrete stands.",
    remedy: "Move the way down to a longer wall, widen that side, or take a ladder for a stair.",
    source: Source::physics("areas in plan of way down, landing, foot, sump, inner faces"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let Some(pit) = &case.foot.pit else { return Vec::new() };
    let (way, landing) = (Area { x: pit.way.x, y: pit.way.y }, pit.fittings.landing);
    let words = if pit.access == Access::Ladder { "ladder" } else { "stair" };
    let floor = pit.floor();
    let mut wrong = Vec::new();
    let over = way.beyond(&floor);
    if over > 0.05 {
        wrong.push(format!("the {words} is {} longer than the pit", mm(over)));
    }
    let over = landing.beyond(&floor);
    if over > 0.05 {
        wrong.push(format!("its landing reaches {} into the wall", mm(over)));
    }
    if pit.footprints.iter().any(|f| f.overlaps(&way)) {
        wrong.push(format!("the {words} stands on the foot"));
    }
    if pit.footprints.iter().any(|f| f.overlaps(&landing)) {
        wrong.push("the foot stands on the landing".to_string());
    }
    if let Some(s) = &pit.sump {
        let sump = Area { x: s.x, y: s.y };
        if sump.overlaps(&way) || sump.overlaps(&landing) {
            wrong.push(format!("the sump lies under the {words} or its landing"));
        }
    }
    let path = match pit.access_side {
        AccessSide::Up => "pit.up_space",
        AccessSide::Down => "pit.down_space",
        AccessSide::Near => "pit.near_space",
        AccessSide::Far => "pit.far_space",
    };
    vec![if wrong.is_empty() {
        RULE.finds(Verdict::Pass, path, format!("the {words} and its landing of {} by {} lie clear", mm(landing.x.size()), mm(landing.y.size())))
    } else {
        RULE.finds(Verdict::Warn, path, wrong.join("; "))
    }]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{findings_of, SMALL, worst};

    #[test]
    fn fits_or_not() {
        let base = [("pit.fitted", "true"), ("pit.depth", "\"2 m\""), ("pit.access_side", "\"near\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&base[..], more].concat());
        let (ladder, stair) = (("pit.access", "\"ladder\""), ("pit.access", "\"stair\""));
        assert_eq!(with(&[ladder, ("pit.near_space", "\"1000 mm\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[stair, ("pit.near_space", "\"600 mm\""), ("pit.down_space", "\"600 mm\"")]), Some(Verdict::Warn));
        let long = findings_of(&RULE, SMALL, &[&base[..], &[stair, ("pit.depth", "\"9 m\"")]].concat());
        assert!(long.iter().any(|f| f.message.contains("longer than the pit")), "{long:#?}");
    }

    #[test]
    fn sump_and_ladder_do_not_meet() {
        // The sump lies in the far corner of the down side, where a ladder at the far wall stands only in a short pit.
        let found = findings_of(&RULE, SMALL, &[("pit.fitted", "true"), ("pit.depth", "\"2 m\""), ("pit.access", "\"ladder\""), ("pit.access_side", "\"far\""), ("pit.sump", "\"2000 mm\""), ("pit.sump_depth", "\"400 mm\""), ("pit.up_space", "\"500 mm\""), ("pit.down_space", "\"500 mm\""), ("inlet.up.reach", "\"100 mm\"")]);
        assert!(found.iter().any(|f| f.message.contains("sump")), "{found:#?}");
    }
}
