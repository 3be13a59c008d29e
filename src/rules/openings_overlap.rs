//! Openings lie on their plate and keep clear of each other, of the inlets and of the sliding plates.
//!
//! Geometry on the inner faces. Doors, panels and pocket lap 30 mm over their opening; two openings that
//! cut each other fail, frames that meet are warned about.

use super::finding::{down_to, up_to};
use super::wall_patches::{LUGS, Patch, free_place, lugs, moved_door, on_plate, patches, steps};
use super::{Case, Change, Finding, Rule, Verdict};
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::say;
use crate::sources::Source;
use crate::units::Length;

/// Openings against each other.
pub const RULE: Rule = Rule {
    id: "openings-overlap",
    title: "Openings clear of each other",
    what: "Whether doors, panels, clean-outs, pocket, inlets and the sweep of the sliding plates keep clear of each other and lie on their plate.",
    why: "An opening that meets another one or the sliding plate cannot be built, or not be opened.",
    remedy: "Move or shrink one of the two.",
    source: Source::physics("rectangles in the plane of the wall, frames lapping 30 mm"),
    check,
};

fn check(case: &Case<'_>) -> Vec<Finding> {
    let foot = case.foot;
    let mut patches = lugs(case);
    patches.extend(self::patches(foot));
    let before = patches.clone();
    let mut moves: Vec<(usize, Vec<Change>)> = Vec::new();
    let mut all = Vec::new();
    for i in 0..patches.len() {
        let (others, later) = patches.split_at(i);
        let Some(patch) = later.first().filter(|p| p.path != LUGS) else { continue };
        let off_plate = patch.hole && !on_plate(foot, patch);
        let cut = others.iter().find(|o| patch.cuts(o));
        let met = others.iter().find(|o| patch.meets(o));
        let (verdict, message) = match (off_plate, cut, met) {
            (true, _, _) => (Verdict::Fail, say!("{opening} reaches over the edge of its plate", opening = patch.name.clone())),
            (_, Some(other), _) => (Verdict::Fail, say!("{opening} cuts into {other}", opening = patch.name.clone(), other = other.name.clone())),
            (_, None, Some(other)) => {
                (Verdict::Warn, say!("the frame of {opening} meets that of {other}", opening = patch.name.clone(), other = other.name.clone()))
            }
            (false, None, None) => (Verdict::Pass, say!("{opening} is clear of its neighbours", opening = patch.name.clone())),
        };
        let finding = RULE.finds(verdict, &patch.path, message);
        if verdict == Verdict::Pass {
            all.push(finding);
            continue;
        }
        let (mut finding, moved) = mended(case, patch, &patches, i, finding);
        let own = finding.would_pass.clone();
        if let Some(moved) = moved {
            // Its new place may be one that another leaves free.
            for (_, more) in moves.iter().filter(|(j, _)| before.get(*j).is_some_and(|old| old.meets(&moved))) {
                let new: Vec<Change> = more.iter().filter(|c| !own.contains(c)).cloned().collect();
                finding.would_pass.extend(new);
            }
            // The next ones see it where it is put.
            if let Some(patch) = patches.get_mut(i) {
                *patch = moved;
            }
            moves.push((i, own));
        }
        all.push(finding);
    }
    all
}

/// Adds the changes that would clear the patch at an index; with it the patch in its new place, if it moves. Doors and inlets
/// are moved even where nobody wants changes: verdicts on the next ones depend on it.
fn mended(case: &Case<'_>, patch: &Patch, patches: &[Patch], index: usize, finding: Finding) -> (Finding, Option<Patch>) {
    let foot = case.foot;
    let rest: Vec<&Patch> = patches.iter().enumerate().filter(|(j, _)| *j != index).map(|(_, p)| p).collect();
    if patch.path.starts_with("door[")
        && let Some(free) = free_place(foot, patch, &rest)
    {
        return (moved_door(case, patch, &free, finding), Some(free));
    }
    if let Some(key) = patch.path.strip_prefix("inlet.").and_then(|p| p.strip_suffix(".sill")) {
        let (finding, placed) = inlet_on_its_plate(foot, key, patch, &rest, finding);
        return (finding, Some(placed));
    }
    (case.mend(finding, |finding| smaller(case, patch, patches, finding)), None)
}

/// Makes panels or clean-outs as small as they must be: one key sizes all panels, and one both clean-outs.
fn smaller(case: &Case<'_>, patch: &Patch, patches: &[Patch], finding: Finding) -> Finding {
    let foot = case.foot;
    let (key, sizes) = match patch.path.as_str() {
        "sensor_panels.size" => ("sensor_panels.size", steps(60.0, patch.across.size())),
        path if path.starts_with("clean_out.") => ("clean_out.height", steps(40.0, patch.up.size())),
        _ => return finding,
    };
    // The largest size that suits each of the family.
    let kin = |p: &Patch| p.path.split('.').next() == patch.path.split('.').next();
    let (family, strangers): (Vec<&Patch>, Vec<&Patch>) = patches.iter().partition(|p| kin(p));
    let fits = |size: f64| {
        family.iter().all(|p| {
            let up = if key == "clean_out.height" { Extent::new(p.up.low, p.up.low + size) } else { Extent::about(p.up.middle(), size) };
            let across = if key == "clean_out.height" { p.across } else { Extent::about(p.across.middle(), size) };
            let sized = Patch { across, up, ..(*p).clone() };
            // Doors can move away from it; what else is there cannot.
            on_plate(foot, &sized) && !strangers.iter().any(|o| !o.path.starts_with("door[") && o.meets(&sized))
        })
    };
    if let Some(size) = sizes.into_iter().rev().find(|s| fits(*s)) {
        let mut finding = finding.change(key, &Length::mm(size));
        if key == "sensor_panels.size" && foot.pocket.is_some() {
            // The pocket, left to the program, would grow into the room that smaller panels leave, and meet a door there.
            let pocket = &case.spec.shovel_pocket;
            for (key, length) in [("width", &pocket.width), ("height", &pocket.height), ("lip", &pocket.lip)] {
                if !length.is_given() {
                    finding = finding.change(format!("shovel_pocket.{key}"), &length.value);
                }
            }
            if !pocket.slope.is_given() {
                finding = finding.change("shovel_pocket.slope", &pocket.slope.value);
            }
        }
        return finding;
    }
    finding
}

/// Puts an inlet onto its plate: no wider than the plate, its sill above the plate's lower edge and the clean-out there,
/// the casing as high as the inlet needs it.
fn inlet_on_its_plate(foot: &Foot, key: &str, patch: &Patch, rest: &[&Patch], mut finding: Finding) -> (Finding, Patch) {
    let casing = &foot.casing;
    let clean_out = rest.iter().find(|o| o.wall == patch.wall && o.path.starts_with("clean_out.")).map_or(0.0, |o| o.up.high + o.lap + patch.lap);
    let lowest = up_to(casing.bottom_face.max(casing.bottom_shoulder).max(clean_out), 5.0);
    let (mut across, mut up) = (patch.across, patch.up);
    if across.size() > casing.width.size() {
        across = Extent::about(casing.width.middle(), down_to(casing.width.size(), 5.0));
        finding = finding.change(format!("inlet.{key}.width"), &Length::mm(across.size()));
    }
    if up.low < lowest {
        up = Extent::new(lowest, lowest + up.size());
        finding = finding.change(&patch.path, &Length::mm(lowest));
    }
    if up.high > casing.top {
        finding = finding.change("casing.height", &Length::mm(up_to(up.high, 10.0)));
    }
    (finding, Patch { across, up, ..patch.clone() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::trial::{SMALL, machine, mended, proposed, worst};
    use crate::spec::openings::Wall;

    const LAP: f64 = 30.0;

    #[test]
    fn doors_and_inlet() {
        let door = ("door[1].on", "\"up end\"");
        let size = [("door[1].height", "\"200 mm\""), ("door[1].width", "\"200 mm\"")];
        let inlet = [("inlet.up.sill", "\"1300 mm\""), ("inlet.up.height", "\"300 mm\"")];
        let high = ("casing.height", "\"2600 mm\"");
        let with = |sill: &str| worst(&RULE, &[&inlet[..], &size[..], &[door, high, ("door[1].sill", sill)]].concat());
        assert_eq!(with("\"1640 mm\""), Some(Verdict::Pass));
        assert_eq!(with("\"1639 mm\""), Some(Verdict::Warn));
        assert_eq!(with("\"1590 mm\""), Some(Verdict::Fail));
        assert_eq!(with("\"2450 mm\""), Some(Verdict::Fail));
    }

    /// An inlet lower, higher or wider than its end plate: each has its own way back, and takes it.
    #[test]
    fn inlets_on_their_plate() {
        let narrow = ("inlet.up.width", "\"100 mm\"");
        for (changes, wish) in [
            (vec![("inlet.up.sill", "\"20 mm\""), narrow], "inlet.up.sill"),
            (vec![("inlet.up.sill", "\"2000 mm\""), ("casing.height", "\"1900 mm\""), narrow], "casing.height"),
        ] {
            let wishes = proposed(&RULE, SMALL, &changes);
            assert!(wishes.iter().any(|w| w.starts_with(wish)), "{wishes:?}");
            mended(&RULE, SMALL, &changes);
        }
    }

    /// Where such an inlet comes to lie: on the plate's edge, or 10 mm over a clean-out of its own end, in steps of 5 mm.
    #[test]
    fn inlets_put_in_their_place() {
        let (_, foot, _) = machine(SMALL, &[]);
        let c = &foot.casing;
        let low = c.bottom_face - 100.0;
        let inlet = Patch { path: "inlet.up.sill".into(), lap: 10.0, ..patch(Wall::UpEnd, [-50.0, 50.0], [low, low + 200.0]) };
        let clean_out = |wall: Wall| Patch { path: "clean_out.up".into(), lap: 0.0, ..patch(wall, [-50.0, 50.0], [c.bottom_face, c.bottom_face + 150.0]) };
        let placed = |inlet: &Patch, rest: &[Patch]| {
            let rest: Vec<&Patch> = rest.iter().collect();
            let (finding, placed) = inlet_on_its_plate(&foot, "up", inlet, &rest, RULE.finds(Verdict::Fail, "inlet.up.sill", ""));
            (placed, finding.would_pass.iter().map(|c| c.line()).collect::<Vec<_>>())
        };
        let door = Patch { path: "door[1]".into(), ..clean_out(Wall::UpEnd) };
        for (rest, above) in [(vec![], 0.0), (vec![clean_out(Wall::DownEnd), door], 0.0), (vec![clean_out(Wall::UpEnd)], 160.0)] {
            let (now, wishes) = placed(&inlet, &rest);
            let sill = up_to(c.bottom_face + above, 5.0);
            assert_eq!((now.up, now.across), (Extent::new(sill, sill + 200.0), inlet.across));
            assert_eq!(wishes, [format!("inlet.up.sill = \"{sill} mm\"")]);
        }
        let width = c.width.size();
        let (now, wishes) = placed(&Patch { across: Extent::about(c.width.middle(), width + 1.0), up: Extent::new(900.0, 1000.0), ..inlet.clone() }, &[]);
        assert_eq!((now.across, now.up.low, wishes.len()), (Extent::about(c.width.middle(), down_to(width, 5.0)), 900.0, 1));
        // As wide and as high as the plate is allowed.
        let full = Patch { across: Extent::about(c.width.middle(), width), up: Extent::new(c.top - 100.0, c.top), ..inlet.clone() };
        assert!(placed(&full, &[]).1.is_empty());
    }

    fn patch(wall: Wall, across: [f64; 2], up: [f64; 2]) -> Patch {
        let (across, up) = (Extent::new(across[0], across[1]), Extent::new(up[0], up[1]));
        Patch { name: "p".into(), path: "door[1]".into(), wall, across, up, lap: LAP, hole: true }
    }

    /// Two rectangles 100 wide and high, the second moved: they cut below 100, their frames meet below 100 + 30 + 30.
    #[test]
    fn cutting_and_meeting() {
        let home = patch(Wall::Near, [0.0, 100.0], [0.0, 100.0]);
        for (away, cuts, meets) in [(99.0, true, true), (101.0, false, true), (159.0, false, true), (161.0, false, false)] {
            for sign in [1.0, -1.0] {
                let beside = patch(Wall::Near, [sign * away, sign * away + 100.0], [50.0, 150.0]);
                let above = patch(Wall::Near, [50.0, 150.0], [sign * away, sign * away + 100.0]);
                for other in [beside, above] {
                    assert_eq!((home.cuts(&other), home.meets(&other), other.meets(&home)), (cuts, meets, meets), "{other:?}");
                    let elsewhere = Patch { wall: Wall::Far, ..other };
                    assert!(!home.cuts(&elsewhere) && !home.meets(&elsewhere));
                }
            }
        }
        let bare = Patch { lap: 0.0, ..patch(Wall::Near, [131.0, 231.0], [0.0, 100.0]) };
        assert!(!home.meets(&bare) && home.meets(&Patch { across: Extent::new(129.0, 229.0), ..bare }));
    }

    /// Beside another door the nearest free place is taken: on the side where the door is.
    #[test]
    fn the_nearest_place() {
        let (_, foot, _) = machine(SMALL, &[("casing.height", "\"4 m\"")]);
        let middle = foot.casing.width.middle();
        let home = patch(Wall::UpEnd, [middle - 40.0, middle + 40.0], [3000.0, 3100.0]);
        for away in [30.0, -30.0] {
            let door = Patch { up: Extent::new(3000.0 + away, 3100.0 + away), ..home.clone() };
            let found = free_place(&foot, &door, &[&home]).unwrap();
            assert_eq!((found.up.low, found.across), (3000.0 + away.signum() * 160.0, door.across));
            // The same sideways, away from the middle of a side plate.
            let home = patch(Wall::Near, [150.0, 250.0], [3000.0, 3400.0]);
            let door = Patch { across: Extent::new(150.0 + away, 250.0 + away), up: Extent::new(3150.0, 3250.0), ..home.clone() };
            let found = free_place(&foot, &door, &[&home]).unwrap();
            assert_eq!((found.across.low, found.up), (150.0 + away.signum() * 160.0, door.up));
        }
    }

    /// Panels that shrink leave the pocket, where there is one, as it is.
    #[test]
    fn smaller_panels() {
        let large = ("sensor_panels.size", "\"600 mm\"");
        for fitted in ["true", "false"] {
            let wishes = proposed(&RULE, SMALL, &[large, ("shovel_pocket.fitted", fitted)]);
            assert!(wishes.iter().any(|w| w.starts_with("sensor_panels.size")), "{wishes:?}");
            assert_eq!(wishes.iter().any(|w| w.starts_with("shovel_pocket.")), fitted == "true", "{wishes:?}");
        }
    }

    #[test]
    fn multiples_of_ten() {
        assert_eq!(steps(-25.0, 31.0), [-20.0, -10.0, 0.0, 10.0, 20.0, 30.0]);
        assert_eq!(steps(40.0, 40.0), [40.0]);
        assert!(steps(41.0, 49.0).is_empty());
    }

    /// A plate's edges: an opening may reach them, not pass them.
    #[test]
    fn on_flat_plates() {
        let (_, foot, _) = machine(SMALL, &[]);
        let c = &foot.casing;
        let (half, down) = (c.width.high, -c.down_x(1000.0));
        for (wall, across) in [(Wall::UpEnd, [-half, half]), (Wall::DownEnd, [-half, half]), (Wall::Near, [-down, c.up_face]), (Wall::Far, [-down, c.up_face])]
        {
            let on = |a: [f64; 2], up: [f64; 2]| on_plate(&foot, &patch(wall, a, up));
            assert!(on(across, [c.bottom_face, c.top]), "{wall:?}");
            assert!(!on(across, [c.bottom_face - 0.1, 900.0]) && !on(across, [900.0, c.top + 0.1]), "{wall:?}");
            assert!(!on([across[0] - 0.1, across[1]], [900.0, 1000.0]) && !on([across[0], across[1] + 0.1], [900.0, 1000.0]), "{wall:?}");
        }
    }

    /// Above a curved bottom: the corner of a side opening stays within the arc about the lowest shaft; end plates begin at the shoulder.
    #[test]
    fn on_plates_over_a_curved_bottom() {
        let (_, foot, _) = machine(SMALL, &[("casing.bottom", "\"curved\"")]);
        let c = &foot.casing;
        let r = c.bottom_radius.unwrap();
        // 0.6 and 0.8 of the radius: a 3-4-5 corner on the arc
        let (x, z) = (0.6 * r, foot.shaft_lowest - 0.8 * r);
        for side in [1.0, -1.0] {
            let with = |x: f64, z: f64| on_plate(&foot, &patch(Wall::Near, [side * x, 0.0], [z, z + 100.0]));
            assert!(with(x, z) && !with(x + 0.2, z) && !with(x, z - 0.2), "{side}");
        }
        assert!(on_plate(&foot, &patch(Wall::UpEnd, [-50.0, 50.0], [c.bottom_shoulder, c.bottom_shoulder + 100.0])));
        assert!(!on_plate(&foot, &patch(Wall::UpEnd, [-50.0, 50.0], [c.bottom_shoulder - 0.1, c.bottom_shoulder + 100.0])));
    }

    /// A door of 200 × 200 covered by a strip: the nearest place is as far below it as the two frames need; a lower strip turns it upward.
    #[test]
    fn the_nearest_free_place() {
        let (_, foot, _) = machine(SMALL, &[]);
        let door = patch(Wall::UpEnd, [-100.0, 100.0], [1200.0, 1400.0]);
        let strip = |low: f64, high: f64| patch(Wall::UpEnd, [-240.0, 240.0], [low, high]);
        let place = |rest: &[Patch]| free_place(&foot, &door, &rest.iter().collect::<Vec<_>>()).map(|p| (p.across.low, p.across.high, p.up.low, p.up.high));
        assert_eq!(place(&[]), Some((-100.0, 100.0, 1200.0, 1400.0)));
        // strip from 1290: door at most up to 1290 − 60, so from 1030 up; strip to 1310: from 1310 + 60 up
        assert_eq!(place(&[strip(1290.0, 1500.0)]), Some((-100.0, 100.0, 1030.0, 1230.0)));
        assert_eq!(place(&[strip(1100.0, 1310.0)]), Some((-100.0, 100.0, 1370.0, 1570.0)));
        // beside a patch on the right, so far to the left that the frames clear: 100 + x + 60 = 50
        assert_eq!(place(&[patch(Wall::UpEnd, [50.0, 240.0], [600.0, 1950.0])]), Some((-210.0, -10.0, 1200.0, 1400.0)));
        // between two strips 300 apart only a door of at most 300 − 120 fits: 0.8 of 200 = 160
        let (top, bottom) = (foot.casing.top, foot.casing.bottom_face);
        assert_eq!(place(&[strip(bottom, 1150.0), strip(1450.0, top)]).map(|p| (p.1 - p.0, p.3 - p.2)), Some((160.0, 160.0)));
        assert_eq!(place(&[strip(bottom, top)]), None);
    }

    /// The sliding plates sweep their own height and the travel; inlets lie in their end plates, panels and pocket in the sides.
    #[test]
    fn everything_on_the_walls() {
        let (_, foot, _) = machine(SMALL, &[("inlet.up.fitted", "true"), ("inlet.down.fitted", "true"), ("shovel_pocket.side", "\"far\"")]);
        let all = patches(&foot);
        let of = |name: &str| all.iter().find(|p| say!("{one}", one = p.name.clone()).plainly() == name).unwrap_or_else(|| panic!("{name} in {all:#?}"));
        let plate = &foot.rotating.sliding_plate;
        for (name, wall) in [("the near sliding plate", Wall::Near), ("the far sliding plate", Wall::Far)] {
            assert_eq!((of(name).wall, of(name).up.low, of(name).up.high), (wall, plate.z.low, plate.z.high + foot.rotating.travel));
        }
        assert_eq!((of("the up-side inlet").wall, of("the down-side inlet").wall, of("the shovel pocket").wall), (Wall::UpEnd, Wall::DownEnd, Wall::Far));
        assert_eq!(of("door[1]").up.low, foot.openings.iter().find(|o| o.id == "door[1]").unwrap().up.low);
    }

    #[test]
    fn what_would_clear_it() {
        // Panels as wide as the foot pulley allows beside the sliding plate.
        let mut wide = proposed(&RULE, SMALL, &[("sensor_panels.size", "\"600 mm\"")]);
        wide.retain(|l| !l.starts_with("shovel_pocket."));
        assert!(!wide.is_empty() && wide.iter().all(|l| l == &wide[0]) && wide[0].starts_with("sensor_panels.size = "), "{wide:?}");
        let (_, foot, _) = machine(SMALL, &[]);
        let room = 2.0 * (foot.pulleys.foot.radius() - foot.rotating.sliding_plate.x.high - foot.lap);
        let size: f64 = wide[0].trim_start_matches("sensor_panels.size = \"").trim_end_matches(" mm\"").parse().unwrap();
        assert!(size <= room && (size / 10.0).fract() == 0.0, "{size} of {room}");
        // A clean-out that cuts the up-side inlet may be as high as the inlet's lap of 10 leaves, in steps of 10.
        let sill = foot.inlet(crate::model::inlets::FeedSide::Up).map(|i| i.sill).unwrap();
        let high = proposed(&RULE, SMALL, &[("clean_out.height", "\"1000 mm\"")]);
        let floor = foot.casing.bottom_shoulder;
        let most = ((sill - 10.0 - floor) / 10.0).floor() * 10.0;
        assert_eq!(high.first().map(String::as_str), Some(format!("clean_out.height = \"{most} mm\"").as_str()), "{high:?}");
        // A door is moved, not made smaller, where there is room.
        let moved = proposed(&RULE, SMALL, &[("door[1].on", "\"up end\""), ("door[1].sill", "\"1200 mm\""), ("casing.height", "\"2600 mm\"")]);
        assert_eq!(moved, [format!("door[1].sill = \"{} mm\"", ((sill + 290.0) / 10.0).ceil() * 10.0)]);
    }
}
