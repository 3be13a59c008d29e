//! End plates: up side upright, down side upright or bent along the belt's inclined run.
//!
//! They stand between the side plates, on the bottom plate, and carry the inlets, doors and clean-outs.

use super::down_profile::{DownProfile, away};
use super::flat::{Contour, FlatPattern, Node, Xy};
use super::placement::Placement;
use super::shop::{Butt, Draft, Shop};
use super::{Hand, doors, piece_of};
use crate::model::frame::Extent;
use crate::model::inlets::FeedSide;
use crate::model::openings::OpeningKind;
use crate::say;
use crate::say::{Statement, Value, opening, size};
use crate::spec::openings::Wall;

/// Item numbers of the up-side and the down-side plate.
pub const ITEMS: [u32; 2] = [103, 104];

/// A rectangle to be cut from an end plate: id of the opening or inlet, feature, across, up.
struct Cut {
    id: String,
    feature: String,
    across: Extent,
    up: Extent,
}

/// An inlet in words, any other opening by its tag.
fn named(id: &str) -> Value {
    match id {
        "inlet.up" => "the up-side inlet".into(),
        "inlet.down" => "the down-side inlet".into(),
        _ => opening(id),
    }
}

/// Openings of one end wall that fit, in the order throat, clean-out, doors; the others become defects.
fn cuts(shop: &mut Shop, wall: Wall, item: u32, lowest: f64) -> Vec<Cut> {
    let foot = shop.foot;
    let c = &foot.casing;
    let side = if wall == Wall::UpEnd { FeedSide::Up } else { FeedSide::Down };
    let mut wanted: Vec<(Cut, f64)> = Vec::new();
    if let Some(i) = foot.inlet(side) {
        let id = format!("inlet.{}", side.key());
        wanted.push((Cut { feature: format!("{id}.width"), id, across: i.width, up: i.opening }, c.plate + 12.0));
    }
    for o in foot.openings.iter().filter(|o| o.wall == wall) {
        let entry = (Cut { id: o.id.clone(), feature: format!("{}.width", o.id), across: o.across, up: o.up }, shop.foot.lap + 3.0);
        if o.kind == OpeningKind::CleanOut { wanted.insert(wanted.len().min(1), entry) } else { wanted.push(entry) }
    }
    let mut out = Vec::new();
    for (cut, lap) in wanted {
        let (across, up) = (cut.across, cut.up);
        let owner = say!("{opening}", opening = named(&cut.id));
        let inside = c.width.grown(-4.0).contains(&across) && up.low >= lowest - 1e-6 && up.high <= c.top - shop.frame_thickness() - 10.0;
        let claim = if inside { shop.zones.claim(wall, owner.clone(), across.grown(lap), up.grown(lap)) } else { Err("the edge of the plate".into()) };
        match claim {
            Ok(()) => out.push(cut),
            Err(what) => shop.defect(
                item,
                cut.id,
                say!(
                    "{opening} at y {left} to {right}, z {low} to {high} meets {what}; it is not cut",
                    opening = owner,
                    left = size(across.low, 0),
                    right = size(across.high, 0),
                    low = size(up.low, 0),
                    high = size(up.high, 0),
                    what = what,
                ),
            ),
        }
    }
    out
}

/// Adds both end plates.
pub fn build(shop: &mut Shop) {
    up_side(shop);
    down_side(shop);
}

fn up_side(shop: &mut Shop) {
    let c = &shop.foot.casing;
    let half = c.width.high;
    let low = c.up_shoulder;
    let list = cuts(shop, Wall::UpEnd, ITEMS[0], low);
    let mut notch = None;
    let mut kept = Vec::new();
    for cut in &list {
        if cut.up.low <= low + 1e-6 { notch = Some((-cut.across.high, -cut.across.low, cut.up.high)) } else { kept.push(cut) }
    }
    let mut flat = FlatPattern::new(notched([-half, half], low, c.top, notch));
    for cut in kept {
        flat.open(
            &cut.feature,
            Contour::rounded(
                [-cut.across.high, cut.up.low],
                [-cut.across.low, cut.up.high],
                if cut.feature.starts_with("inlet") { doors::INNER } else { doors::CORNER },
            ),
        );
    }
    let features: Vec<&str> = list.iter().map(|k| k.feature.as_str()).chain(["casing.width", "casing.height"]).collect();
    shop.plate(Draft {
        item: ITEMS[0],
        id: "end_plate.up",
        code: "ENDU",
        name: Statement::all(vec![say!("end plate"), say!("up side")]),
        thickness: c.plate,
        flat,
        placements: vec![Placement::up_end(c.up_face)],
        hand: Hand::Neutral,
        sources: &features,
        remarks: "seen from outside".into(),
    });
}

/// A rectangle with a notch in its lower edge: (from, to, height); the notch's inner corners are rounded.
fn notched(across: Xy, low: f64, high: f64, notch: Option<(f64, f64, f64)>) -> Contour {
    let Some((a, b, z)) = notch else { return Contour::rectangle([across[0], low], [across[1], high]) };
    let r = doors::INNER;
    // Clockwise round the notch's corners while the plate runs counter-clockwise.
    let turn = -(std::f64::consts::PI / 8.0).tan();
    let n = |x: f64, y: f64, bulge: f64| Node { at: [x, y], bulge };
    Contour::Path(vec![
        n(across[0], low, 0.0),
        n(a, low, 0.0),
        n(a, z - r, turn),
        n(a + r, z, 0.0),
        n(b - r, z, turn),
        n(b, z - r, 0.0),
        n(b, low, 0.0),
        n(across[1], low, 0.0),
        n(across[1], high, 0.0),
        n(across[0], high, 0.0),
    ])
}

/// Placement of the bent plate: x of the pattern runs up the plate, y toward the far side.
pub fn down_placement(profile: &DownProfile) -> Placement {
    let (from, along) = profile.straights.first().map_or(([0.0, 0.0], [0.0, 1.0]), |s| (s.from, s.along));
    let away = [-along[1], along[0]];
    Placement::new([from[0], 0.0, from[1]], [along[0], 0.0, along[1]], [0.0, -1.0, 0.0], [away[0], 0.0, away[1]])
}

fn down_name() -> Statement {
    Statement::all(vec![say!("end plate"), say!("down side")])
}

/// One plate of the down-side end.
struct DownPlate<'a> {
    item: u32,
    id: String,
    name: Statement,
    flat: FlatPattern,
    placement: Placement,
    sources: Vec<&'a str>,
    remarks: &'static str,
}

/// A window along the down-side end: feature, across, from, to, and the stretch that it lies in.
type Window<'a> = (&'a str, Extent, f64, f64, usize);

/// Pattern of a length of the down-side end from `from` on, drawn upright (across, s), and the features in it.
fn down_pattern<'a>(half: f64, windows: &[Window<'a>], from: f64, length: f64, stretch: Option<usize>) -> (FlatPattern, Vec<&'a str>) {
    let mut notch = None;
    let mut cuts = Vec::new();
    let mut features: Vec<&str> = Vec::new();
    for (feature, across, a, b, _) in windows.iter().filter(|w| stretch.is_none_or(|s| s == w.4)) {
        features.push(feature);
        if *a - from <= 1e-6 { notch = Some((across.low, across.high, b - from)) } else { cuts.push((*feature, *across, a - from, b - from)) }
    }
    let mut flat = FlatPattern::new(notched([-half, half], 0.0, length, notch));
    for (feature, across, a, b) in cuts {
        let radius = if feature.starts_with("inlet") { doors::INNER } else { doors::CORNER };
        flat.open(feature, Contour::rounded([across.low, a], [across.high, b], radius));
    }
    features.extend(["casing.width", "casing.height"]);
    (flat, features)
}

fn down_side(shop: &mut Shop) {
    let c = &shop.foot.casing;
    let profile = DownProfile::of(shop);
    let item = ITEMS[1];
    let half = c.width.high;
    let low = profile.straights.first().map_or(c.down_shoulder, |s| s.from[1]);
    let list = cuts(shop, Wall::DownEnd, item, low);
    let mut windows: Vec<Window<'_>> = Vec::new();
    for cut in &list {
        let room = if cut.feature.starts_with("inlet") { c.plate + 20.0 } else { shop.foot.lap + 2.0 };
        let place = profile.at_height(cut.up.low).zip(profile.at_height(cut.up.high)).filter(|(a, b)| a.1 == b.1).and_then(|((a, i), (b, _))| {
            let s = profile.straights.get(i)?;
            let clear = (i == 0 || a >= s.start + room) && (i + 1 == profile.straights.len() || b + room <= s.start + s.length);
            clear.then_some((a, b, i))
        });
        match place {
            Some((a, b, i)) => windows.push((&cut.feature, cut.across, a, b, i)),
            None => shop.defect(
                item,
                cut.id.as_str(),
                say!("{opening} lies in or across a bend of the down-side end plate, or too near to it for its frame; it is not cut", opening = named(&cut.id)),
            ),
        }
    }
    let mut made = Vec::new();
    if profile.separate {
        for (i, s) in profile.straights.iter().enumerate() {
            let (flat, sources) = down_pattern(half, &windows, s.start, s.length, Some(i));
            let n = away(s);
            let placement = Placement::new([s.from[0], 0.0, s.from[1]], [0.0, 1.0, 0.0], [s.along[0], 0.0, s.along[1]], [n[0], 0.0, n[1]]);
            let k = u32::try_from(i).unwrap_or(0) + 1;
            let remarks = "seen from outside; welded to the next at an angle";
            made.push(DownPlate {
                item: item * 10 + k,
                id: format!("end_plate.down.{k}"),
                name: piece_of(&down_name(), say!("plate {number}", number = k)),
                flat,
                placement,
                sources,
                remarks,
            });
        }
    } else {
        let (mut flat, sources) = down_pattern(half, &windows, 0.0, profile.flat_length, None);
        let bent = !profile.bends.is_empty();
        let placement = if bent {
            // Seen from outside with the plate's lower end at the left, far side up.
            flat = flat.mapped(false, |p: Xy| [p[1], -p[0]]);
            flat.bends = profile.bends.clone();
            down_placement(&profile)
        } else {
            Placement::down_end(c.down_x(low)).moved([0.0, 0.0, low])
        };
        let remarks = if bent { "seen from outside, bent" } else { "seen from outside" };
        made.push(DownPlate { item, id: "end_plate.down".into(), name: down_name(), flat, placement, sources, remarks });
    }
    let seams = made.len().saturating_sub(1);
    for p in made {
        shop.plate(Draft {
            item: p.item,
            id: &p.id,
            code: "ENDD",
            name: p.name,
            thickness: c.plate,
            flat: p.flat,
            placements: vec![p.placement],
            hand: Hand::Neutral,
            sources: &p.sources,
            remarks: p.remarks.into(),
        });
    }
    if seams > 0 {
        let size = (seams as f64 * c.width.size(), c.plate);
        shop.butt("end_plate.down", "end plates, down side, to each other", [&["end_plate.down"], &["end_plate.down"]], size, Butt::TIGHT);
    }
}
