//! Side plates, near and far: one outline, each with its own openings.
//!
//! They stand on the bottom plate, run out to the outer faces of the end plates and up to the top of
//! the casing. Holes for the guides of the sliding plates come from the same rows as the guides' own.

use super::down_profile::DownProfile;
use super::flat::{Contour, FlatPattern, Node, Xy};
use super::placement::Placement;
use super::shop::{Draft, Shop};
use super::{Hand, Lay, bolts, doors, lifting, pocket, take_up};
use crate::model::frame::Extent;
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::{Statement, opening, size};
use crate::spec::inlets::Side;
use crate::spec::openings::Wall;

/// Item numbers of the near and the far plate.
pub const ITEMS: [u32; 2] = [101, 102];

/// Outline of a side plate in (x, z), counter-clockwise.
pub fn outline(shop: &Shop) -> Vec<Node> {
    let c = &shop.foot.casing;
    let corner = |x: f64, z: f64| Node { at: [x, z], bulge: 0.0 };
    let mut nodes = vec![corner(c.up_face + c.plate, c.up_shoulder), corner(c.up_face + c.plate, c.top)];
    nodes.extend(DownProfile::of(shop).outer_face_down());
    if let (Some(r), Some([up, down])) = (c.bottom_radius, c.bottom_arc) {
        nodes.push(corner(c.down_x(c.down_shoulder), c.down_shoulder));
        let centre = c.bottom_face + r;
        nodes.push(Node { at: [-r * down.sin(), centre - r * down.cos()], bulge: ((up + down) / 4.0).tan() });
        nodes.push(corner(r * up.sin(), centre - r * up.cos()));
        nodes.push(corner(c.up_face, c.up_shoulder));
    }
    nodes.dedup_by(|a, b| {
        let same = (a.at[0] - b.at[0]).hypot(a.at[1] - b.at[1]) < 1e-6;
        if same {
            b.bulge = a.bulge;
        }
        same
    });
    nodes
}

/// Fixed fittings that come before any opening.
fn claim_fittings(shop: &mut Shop) {
    let foot = shop.foot;
    for wall in [Wall::Near, Wall::Far] {
        let guides = take_up::guide_zone(shop);
        shop.zones.take(wall, "the sliding plate and its guides", guides.0, guides.1);
        if let Some(b) = &foot.rotating.weight_box {
            shop.zones.take(wall, "the weight box", b.x, Extent::new(b.z.low, b.z.high + foot.rotating.travel));
        }
        let (bx, bz) = take_up::bracket_zone(shop);
        shop.zones.take(wall, "the take-up bracket", bx, bz);
        if let Some(bend) = &foot.pulleys.bend {
            let half = take_up::bend_support_half(shop) + 10.0;
            shop.zones.take(wall, "the bend pulley's bearing", Extent::about(bend.centre.x, 2.0 * half), Extent::about(bend.centre.z, 2.0 * half));
        }
        for pad in &foot.base.pads {
            shop.zones.take(wall, "a foot", pad.x, Extent::new(0.0, pad.leg_top + 5.0));
        }
    }
}

/// Adds both side plates.
pub fn build(shop: &mut Shop) {
    claim_fittings(shop);
    lifting::claim(shop);
    let foot = shop.foot;
    let c = &foot.casing;
    let nodes = outline(shop);
    for (wall, item, hand, id, code, place) in
        [(Wall::Near, ITEMS[0], Hand::Near, "side_plate.near", "SIDN", "near"), (Wall::Far, ITEMS[1], Hand::Far, "side_plate.far", "SIDF", "far")]
    {
        let name = Statement::all(vec![say!("side plate"), place.into()]);
        let mut flat = FlatPattern::new(Contour::Path(nodes.clone()));
        let slot = &foot.rotating;
        flat.open("take_up.slot", Contour::upright_slot(0.0, slot.slot.low, slot.slot.high, slot.slot_width));
        if let Some(m10) = take_up::guide_bolt(shop) {
            flat.clear(m10, "guide of the sliding plate", take_up::guide_holes(shop));
        }
        if let Some(bend) = &foot.pulleys.bend {
            let (hole, bolt, holes) = take_up::bend_support(shop);
            flat.round(hole, "bend_pulley.shaft", [[bend.centre.x, bend.centre.z]]);
            if let Some(bolt) = bolt {
                flat.clear(bolt, "bend pulley bearing", holes.iter().map(|h| [bend.centre.x + h[0], bend.centre.z + h[1]]));
            }
        }
        let mut sources: Vec<String> = ["casing.length", "casing.height", "take_up.slot"].map(String::from).to_vec();
        cut_pocket(shop, &mut flat, wall, item, &mut sources);
        cut_openings(shop, &mut flat, wall, item, &mut sources);
        let (flat, placement) =
            if wall == Wall::Near { (flat, Placement::near(c.width.high)) } else { (flat.mapped(true, |p: Xy| [-p[0], p[1]]), Placement::far(c.width.low)) };
        let refs: Vec<&str> = sources.iter().map(String::as_str).collect();
        shop.plate(Draft {
            item,
            id,
            code,
            name: name.clone(),
            thickness: c.plate,
            flat,
            placements: vec![placement],
            hand,
            sources: &refs,
            remarks: "seen from outside".into(),
        });
        shop.fillet(id, say!("{plate} to end plates", plate = name), [&[id], &["end_plate"]], Lay::Every, c.plate, true);
    }
    let rows = take_up::guide_holes(shop).len();
    if let Some(bolt) = take_up::guide_bolt(shop) {
        let clamped = c.plate + take_up::spacer(shop) + take_up::retainer(shop);
        shop.joint("guides of the sliding plates", "guide of the sliding plate", bolt, 2 * rows, clamped, bolts::Held::WeldNut);
    }
}

/// Cuts the shovel pocket into the plate of its side, where its zone is free.
fn cut_pocket(shop: &mut Shop, plate: &mut FlatPattern, wall: Wall, item: u32, sources: &mut Vec<String>) {
    let foot = shop.foot;
    let c = &foot.casing;
    if let Some(p) = &foot.pocket
        && (p.side == Side::Near) == (wall == Wall::Near)
    {
        let owner = "the shovel pocket and its lid";
        let top = pocket::top_at_wall(shop, p);
        let zone_top = top + pocket::over_wall(shop, p, top);
        // The hopper itself, and above it the wider lid.
        let lid = p.z.high - 10.0;
        let hopper = shop.zones.claim(wall, owner, p.x.grown(c.plate + 8.0), Extent::new(p.z.low - 15.0, lid));
        match hopper.and_then(|()| shop.zones.claim(wall, owner, p.x.grown(foot.lap + 2.0), Extent::new(lid, zone_top))) {
            Ok(()) => {
                plate.open("shovel_pocket.width", Contour::rounded([p.x.low, p.z.low], [p.x.high, p.z.high], doors::CORNER));
                sources.push("shovel_pocket.width".into());
            }
            Err(what) => shop.defect(
                item,
                "shovel_pocket.width",
                say!(
                    "the shovel pocket at x {left} to {right}, z {low} to {high} meets {what}; it is not cut",
                    left = size(p.x.low, 0),
                    right = size(p.x.high, 0),
                    low = size(p.z.low, 0),
                    high = size(p.z.high, 0),
                    what = what,
                ),
            ),
        }
    }
}

/// Cuts doors and panels into a plate, where their zones are free.
fn cut_openings(shop: &mut Shop, plate: &mut FlatPattern, wall: Wall, item: u32, sources: &mut Vec<String>) {
    let foot = shop.foot;
    // Small panels first: they have one right place; doors can move.
    let mut openings: Vec<_> = foot.openings.iter().filter(|o| o.wall == wall).collect();
    openings.sort_by_key(|o| o.kind != OpeningKind::SensorPanel);
    for o in openings {
        match shop.zones.claim(wall, say!("{opening}", opening = opening(o.id.as_str())), o.across.grown(foot.lap + 5.0), o.up.grown(foot.lap + 5.0)) {
            Ok(()) => {
                plate.open(&format!("{}.width", o.id), Contour::rounded([o.across.low, o.up.low], [o.across.high, o.up.high], doors::CORNER));
                sources.push(format!("{}.width", o.id));
            }
            Err(what) => shop.defect(
                item,
                if o.kind == OpeningKind::SensorPanel { "sensor_panels.size" } else { o.id.as_str() },
                say!(
                    "{opening} at x {left} to {right}, z {low} to {high} meets {what}; it is not cut",
                    opening = opening(o.id.as_str()),
                    left = size(o.across.low, 0),
                    right = size(o.across.high, 0),
                    low = size(o.up.low, 0),
                    high = size(o.up.high, 0),
                    what = what,
                ),
            ),
        }
    }
}
