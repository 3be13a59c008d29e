//! A head, a hand and a lamp get in front of every inspection door.
//!
//! A throat rises outward from its inlet, and the spout goes on with it: before an end plate they take away what lies between the sill and
//! their roof. Before a side plate the take-up rod stands, up to its end with the take-up at its highest, and the weight box. Where the
//! pit's cover meets the casing it closes a door that crosses it. Walls of the pit are looked at by the rule on its clearances.

use super::wall_patches::{Patch, free_place, moved_door, patches};
use super::{Case, Finding, Rule, Verdict};
use crate::formulas::look::{self, ROOM};
use crate::model::frame::Extent;
use crate::model::inlets::FeedSide;
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::Value;
use crate::spec::openings::Wall;

/// View through inspection doors.
pub const RULE: Rule = Rule {
    id: "door-view",
    title: "View through inspection doors",
    what: "Whether a head, a hand and a lamp get in front of each inspection door: clear of throats and spouts, take-up rods and weight boxes, and the pit's cover.",
    why: "A door with a throat before it stays shut: nobody sees through it whether buckets fill, belts wander or product builds up.",
    remedy: "Move the door under the inlet, beside the take-up, or into a side plate.",
    source: ROOM,
    check,
};

/// Either side of the rod, mm: nuts and a hand.
const BESIDE_ROD: f64 = 40.0;

/// What stands before the walls.
fn before(case: &Case<'_>) -> Vec<Patch> {
    let (foot, r) = (case.foot, &case.foot.rotating);
    let mut all = Vec::new();
    let mut add = |name: Value, wall: Wall, across: Extent, up: Extent| {
        all.push(Patch { name, path: String::new(), wall, across, up, lap: 0.0, hole: false });
    };
    for i in &foot.inlets {
        let (wall, name) =
            if i.side == FeedSide::Up { (Wall::UpEnd, "the throat of the up-side inlet") } else { (Wall::DownEnd, "the throat of the down-side inlet") };
        let [low, high] = look::behind_throat([i.opening.low, i.opening.high], i.slope_deg.to_radians());
        add(name.into(), wall, i.width.grown(i.flange), Extent::new(low, high));
    }
    for wall in [Wall::Near, Wall::Far] {
        if let Some(b) = &r.weight_box {
            add("the weight box".into(), wall, b.x, Extent::new(b.z.low, b.z.high + r.travel));
        }
        let end = r.bracket_z + r.holder.rod_over() + r.travel;
        add("the take-up rod".into(), wall, Extent::about(0.0, r.rod_diameter + 2.0 * BESIDE_ROD), Extent::new(r.sliding_plate.z.low, end));
    }
    if let Some(pit) = &foot.pit {
        for wall in [Wall::UpEnd, Wall::DownEnd, Wall::Near, Wall::Far] {
            add("the cover of the pit".into(), wall, Extent::new(f64::NEG_INFINITY, f64::INFINITY), Extent::new(pit.depth - look::PIT_COVER, pit.depth));
        }
    }
    all
}

fn check(case: &Case<'_>) -> Vec<Finding> {
    let before = before(case);
    let all = patches(case.foot);
    let doors = case.foot.openings.iter().filter(|o| matches!(o.kind, OpeningKind::Door { .. }));
    doors.filter_map(|o| all.iter().position(|p| p.path == o.id)).map(|n| about(case, &all, n, &before)).collect()
}

/// One door.
fn about(case: &Case<'_>, all: &[Patch], number: usize, before: &[Patch]) -> Finding {
    let Some(door) = all.get(number) else { return RULE.finds(Verdict::Pass, "door", "") };
    let Some(other) = before.iter().find(|b| door.cuts(b)) else {
        return RULE.finds(Verdict::Pass, &door.path, say!("a head gets in front of {door}", door = door.name.clone()));
    };
    let said = say!("{other} stands in front of {door}: no head, hand and lamp get there", other = other.name.clone(), door = door.name.clone());
    case.mend(RULE.finds(Verdict::Warn, &door.path, said), |finding| {
        let rest: Vec<&Patch> = all.iter().enumerate().filter(|(n, _)| *n != number).map(|(_, p)| p).chain(before).collect();
        // On its own wall, or where that has no place on another.
        let walls = [door.wall, Wall::Near, Wall::Far];
        let found = walls.into_iter().find_map(|wall| free_place(case.foot, &Patch { wall, ..door.clone() }, &rest));
        match found {
            Some(free) => moved_door(case, door, &free, finding),
            None => finding,
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{LARGE, SMALL, findings_of, mended, worst, worst_of};

    #[test]
    fn doors_left_to_the_program_can_be_looked_into() {
        for text in [SMALL, LARGE] {
            assert_eq!(worst_of(&RULE, text, &[]), Some(Verdict::Pass), "{text}");
        }
    }

    #[test]
    fn a_door_behind_the_throat_is_found_and_moved() {
        // Just over the inlet, as wide as the throat.
        let inlet = [("inlet.up.sill", "\"1300 mm\""), ("inlet.up.height", "\"300 mm\""), ("casing.height", "\"3 m\"")];
        let door = |sill: &'static str| [&inlet[..], &[("door[1].on", "\"up end\""), ("door[1].sill", sill), ("door[1].height", "\"200 mm\"")]].concat();
        let found = findings_of(&RULE, SMALL, &door("\"1700 mm\""));
        assert!(found[0].message.plainly().starts_with("the throat of the up-side inlet stands in front of door[1]"), "{found:#?}");
        mended(&RULE, SMALL, &door("\"1700 mm\""));
        // Under the sill, and over the spout: 1600 + 400 × tan 45°.
        assert_eq!(worst(&RULE, &door("\"900 mm\"")), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[&door("\"2010 mm\"")[..], &[("inlet.up.slope", "\"45 deg\"")]].concat()), Some(Verdict::Pass));
        assert_eq!(worst(&RULE, &[&door("\"1990 mm\"")[..], &[("inlet.up.slope", "\"45 deg\"")]].concat()), Some(Verdict::Warn));
    }

    #[test]
    fn a_rod_and_a_pit_cover_stand_in_the_way() {
        let side = [("casing.height", "\"4 m\""), ("door[1].on", "\"far side\""), ("door[1].offset", "\"0 mm\""), ("door[1].height", "\"200 mm\"")];
        let says = |sill: &'static str, more: &[(&'static str, &'static str)]| {
            let all = [&side[..], &[("door[1].sill", sill)], more].concat();
            findings_of(&RULE, SMALL, &all).first().map(|f| f.message.plainly()).unwrap()
        };
        assert!(says("\"1500 mm\"", &[]).contains("take-up rod stands in front"));
        assert!(says("\"3300 mm\"", &[]).starts_with("a head gets in front"));
        let pit = [("pit.fitted", "true"), ("pit.depth", "\"3400 mm\"")];
        assert!(says("\"3300 mm\"", &pit).contains("cover of the pit stands in front"));
    }
}
