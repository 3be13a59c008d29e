//! Ladder or stair and the floor at its foot lie in the pit and clear of foot and sump.
//!
//! Geometry of the model; the landing is as deep as a climber needs (ladder) or as long as the stair is wide.

use super::finding::up_to;
use super::{Case, Finding, Rule, Verdict};
use crate::model::pit::PitBody;
use crate::model::pit_fittings::Area;
use crate::say;
use crate::say::mm;
use crate::sources::Source;
use crate::spec::pit::{Access, AccessSide};
use crate::units::Length;

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
    let name = if pit.access == Access::Ladder { "ladder" } else { "stair" };
    let floor = pit.floor();
    let mut wrong = Vec::new();
    let over = way.beyond(&floor);
    if over > 0.05 {
        wrong.push(say!("the {way} is {over} longer than the pit", way = name, over = mm(over)));
    }
    let over = landing.beyond(&floor);
    if over > 0.05 {
        wrong.push(say!("its landing reaches {over} into the wall", over = mm(over)));
    }
    if pit.footprints.iter().any(|f| f.overlaps(&way)) {
        wrong.push(say!("the {way} stands on the foot", way = name));
    }
    if pit.footprints.iter().any(|f| f.overlaps(&landing)) {
        wrong.push(say!("the foot stands on the landing"));
    }
    if let Some(s) = &pit.sump {
        let sump = Area { x: s.x, y: s.y };
        if sump.overlaps(&way) || sump.overlaps(&landing) {
            wrong.push(say!("the sump lies under the {way} or its landing", way = name));
        }
    }
    let path = match pit.access_side {
        AccessSide::Up => "pit.up_space",
        AccessSide::Down => "pit.down_space",
        AccessSide::Near => "pit.near_space",
        AccessSide::Far => "pit.far_space",
    };
    vec![match wrong.into_iter().reduce(|said, more| say!("{said}; {more}", said = said, more = more)) {
        None => {
            let (length, width) = (mm(landing.x.size()), mm(landing.y.size()));
            RULE.finds(Verdict::Pass, path, say!("the {way} and its landing of {length} by {width} lie clear", way = name, length = length, width = width))
        }
        Some(message) => {
            let finding = RULE.finds(Verdict::Warn, path, message);
            case.mend(finding, |finding| wider(pit, way, landing).into_iter().fold(finding, |f, (key, space)| f.change(key, &Length::mm(space))))
        }
    }]
}

/// The spaces that take way and landing: across the wall that they stand at, and along it up to the sump's corner.
fn wider(pit: &PitBody, way: Area, landing: Area) -> Vec<(&'static str, f64)> {
    let [up, down, near, far] = pit.spaces;
    let joined = Area { x: way.x.joined(&landing.x), y: way.y.joined(&landing.y) };
    let along_x = matches!(pit.access_side, AccessSide::Near | AccessSide::Far);
    let (across, along, size) = if along_x { (joined.y.size(), joined.x, pit.x) } else { (joined.x.size(), joined.y, pit.y) };
    // Ladders and stairs of the far and the down side run toward the corner of the sump.
    let corner = match (&pit.sump, pit.access_side) {
        (Some(s), AccessSide::Far) => s.x.high - pit.x.low,
        (Some(s), AccessSide::Down) => s.y.high - pit.y.low,
        _ => 0.0,
    };
    // What stands off the other corner stays there: the wall at the end of the run moves.
    let long = if pit.access_side == AccessSide::Near { along.high - size.low } else { size.high - along.low };
    let short = long + corner - size.size();
    let (side, space) = match pit.access_side {
        AccessSide::Up => ("pit.up_space", up),
        AccessSide::Down => ("pit.down_space", down),
        AccessSide::Near => ("pit.near_space", near),
        AccessSide::Far => ("pit.far_space", far),
    };
    let (end, end_space) = match pit.access_side {
        AccessSide::Near => ("pit.up_space", up),
        AccessSide::Far => ("pit.down_space", down),
        AccessSide::Up | AccessSide::Down => ("pit.far_space", far),
    };
    let mut all = Vec::new();
    if across > space {
        all.push((side, up_to(across, 10.0)));
    }
    if short > 0.0 {
        all.push((end, up_to(end_space + short, 10.0)));
    }
    // Beyond what the keys take no change mends it.
    if all.iter().any(|(_, space)| *space > 10_000.0) { Vec::new() } else { all }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, findings_of, mended, proposed, worst};

    #[test]
    fn fits_or_not() {
        let base = [("pit.fitted", "true"), ("pit.depth", "\"2 m\""), ("pit.access_side", "\"near\"")];
        let with = |more: &[(&str, &str)]| worst(&RULE, &[&base[..], more].concat());
        let (ladder, stair) = (("pit.access", "\"ladder\""), ("pit.access", "\"stair\""));
        assert_eq!(with(&[ladder, ("pit.near_space", "\"1000 mm\"")]), Some(Verdict::Pass));
        assert_eq!(with(&[stair, ("pit.near_space", "\"600 mm\""), ("pit.down_space", "\"600 mm\"")]), Some(Verdict::Warn));
        let long = findings_of(&RULE, SMALL, &[&base[..], &[stair, ("pit.depth", "\"9 m\""), ("pit.up_space", "\"1 m\"")]].concat());
        assert!(long.iter().any(|f| f.message.plainly().contains("longer than the pit")), "{long:#?}");
    }

    /// A stair along each wall of a pit that is too small for it: the spaces proposed take it, 20 mm less of any do not.
    #[test]
    fn the_least_spaces() {
        for side in ["up", "down", "near", "far"] {
            for sump in ["\"400 mm\"", "\"0 mm\""] {
                let wall = format!("\"{side}\"");
                let base = [
                    ("pit.fitted", "true"),
                    ("pit.depth", "\"3 m\""),
                    ("pit.access", "\"stair\""),
                    ("pit.access_side", wall.as_str()),
                    ("pit.sump", sump),
                    ("pit.up_space", "\"400 mm\""),
                    ("pit.down_space", "\"400 mm\""),
                    ("pit.near_space", "\"400 mm\""),
                    ("pit.far_space", "\"400 mm\""),
                ];
                mended(&RULE, SMALL, &base);
                let wishes = proposed(&RULE, SMALL, &base);
                assert_eq!(wishes.len(), 2, "{side} {wishes:?}");
                let wishes: Vec<(&str, f64)> = wishes
                    .iter()
                    .map(|line| line.split_once(" = ").unwrap())
                    .map(|(path, value)| (path, value.trim_matches('"').trim_end_matches(" mm").parse().unwrap()))
                    .collect();
                for less in 0..wishes.len() {
                    let tried: Vec<(&str, String)> = wishes
                        .iter()
                        .enumerate()
                        .map(|(i, (path, space))| (*path, format!("\"{} mm\"", if i == less { space - 20.0 } else { *space })))
                        .collect();
                    let tried: Vec<(&str, &str)> = tried.iter().map(|(path, value)| (*path, value.as_str())).collect();
                    assert_eq!(worst(&RULE, &[&base[..], &tried].concat()), Some(Verdict::Warn), "{side} {sump} {tried:?}");
                }
            }
        }
    }

    #[test]
    fn sump_and_ladder_do_not_meet() {
        // The sump lies in the far corner of the down side, where a ladder at the far wall stands only in a short pit.
        let found = findings_of(
            &RULE,
            SMALL,
            &[
                ("pit.fitted", "true"),
                ("pit.depth", "\"2 m\""),
                ("pit.access", "\"ladder\""),
                ("pit.access_side", "\"far\""),
                ("pit.sump", "\"2000 mm\""),
                ("pit.sump_depth", "\"400 mm\""),
                ("pit.up_space", "\"500 mm\""),
                ("pit.down_space", "\"500 mm\""),
                ("inlet.up.reach", "\"100 mm\""),
            ],
        );
        assert!(found.iter().any(|f| f.message.plainly().contains("sump")), "{found:#?}");
    }
}
