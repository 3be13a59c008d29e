//! Inlet throats: sloping floor, roof, two cheeks, and the flange that the spout is bolted to.
//!
//! Worked out in (u, z): u is the distance from the outer face of the end plate, outward. Floor and
//! roof lie between the cheeks; all four end on the back of the flange, whose opening is the clear one.

use super::bolts::{self, Held, PITCH};
use super::down_profile::{DownProfile, away};
use super::flat::{Contour, FlatPattern, Xy};
use super::goods;
use super::placement::Placement;
use super::shop::{Draft, Shop, gasket};
use super::{Hand, Lay};
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::model::inlets::{FeedSide, InletBody};
use crate::say;
use crate::say::Statement;
use crate::sizing::flange_room;
use crate::spec::Spec;
use crate::tables::threads::Thread;

/// Adds the throats of both sides.
pub fn build(shop: &mut Shop) {
    let foot = shop.foot;
    for inlet in &foot.inlets {
        let feature = format!("inlet.{}.width", inlet.side.key());
        if shop.is_cut(&feature) {
            throat(shop, inlet);
        }
    }
}

/// The words for an inlet's side.
pub fn of_side(side: FeedSide, up: &'static str, down: &'static str) -> Statement {
    Statement::from(if side == FeedSide::Up { up } else { down })
}

/// Distance of a flange's bolt line from its clear opening, mm: as far out as the bolts' edge distance allows, because heads and washers
/// stand beside a roof that rises and a floor that falls from the flange; at least midway between the wall's outer face and the edge.
pub fn bolt_line(shop: &Shop, width: f64) -> f64 {
    let t = shop.foot.casing.plate;
    let edge = flange_bolt(shop, width).map_or(width, |b| shop.stock().fine_mm(flange_room::EDGE * b.diameter_mm));
    (width - edge).max(t + (width - t) / 2.0)
}

/// Bolt of a flange.
fn flange_bolt(shop: &Shop, width: f64) -> Option<&'static Thread> {
    flange_room::bolt(width - shop.foot.casing.plate, shop.us())
}

/// Least width of a flange from which a wall rises by so much, mm, where this one is narrower; heads and washers stand beside the wall.
pub fn too_narrow(shop: &Shop, width: f64, slope_rad: f64) -> Option<f64> {
    let bolt = flange_bolt(shop, width)?;
    let least = flange_room::least_line(slope_rad, shop.foot.casing.plate, bolt);
    (bolt_line(shop, width) < least - 1e-6).then(|| (least + shop.stock().fine_mm(flange_room::EDGE * bolt.diameter_mm)).ceil())
}

/// Least width of a flange at whose bolts a spanner turns beside a wall that rises so steeply, mm, where this one is narrower.
pub fn too_narrow_for_spanners(shop: &Shop, width: f64, slope_rad: f64) -> Option<f64> {
    let bolt = flange_bolt(shop, width)?;
    let least = flange_room::spanner_line(slope_rad, shop.foot.casing.plate, bolt);
    (bolt_line(shop, width) < least - 1e-6).then(|| (least + shop.stock().fine_mm(flange_room::EDGE * bolt.diameter_mm)).ceil())
}

/// Thickness of a tapped flange, mm.
pub fn ring_thickness(shop: &Shop, width: f64) -> f64 {
    flange_room::tapped_thickness(width, shop.foot.casing.plate, shop.us())
}

/// What the holes of a flange are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ring {
    /// Tapped.
    Tapped,
    /// Clear of their bolts.
    Clear,
}

/// A flange round a clear opening, upright, seen from outside: its pattern, bolt and number of holes.
pub fn flange(shop: &Shop, width: f64, (y, z): (Extent, Extent), made: Ring, [opening, purpose]: [&str; 2]) -> Option<(FlatPattern, &'static Thread, usize)> {
    let bolt = flange_bolt(shop, width)?;
    let line = bolt_line(shop, width);
    let holes = bolts::ring(y.grown(line), z.grown(line), PITCH, shop.stock());
    let mut ring = FlatPattern::new(Contour::rectangle([y.low - width, z.low - width], [y.high + width, z.high + width]));
    ring.open(opening, Contour::rounded([y.low, z.low], [y.high, z.high], super::doors::INNER));
    match made {
        Ring::Tapped => ring.tapped(bolt, purpose, holes.iter().copied()),
        Ring::Clear => ring.clear(bolt, purpose, holes.iter().copied()),
    }
    Some((ring, bolt, holes.len()))
}

/// Steepest that a roof may stand to the square of the wall: nearer to the wall there is no room for its weld; common practice.
pub const STEEPEST_DEG: f64 = 83.0;
/// Shortest floor or roof that is made, mm; common practice.
pub const SHORTEST: f64 = 20.0;

/// Floor and roof of a throat in section, as cut: (u, z) on the wall's outer face, angles in rad, lengths in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Section {
    floor_root: Xy,
    roof_root: Xy,
    /// Lean of the wall outward.
    pub lean: f64,
    floor_angle: f64,
    roof_angle: f64,
    roof_cut: f64,
    floor_length: f64,
    roof_length: f64,
}

impl Section {
    /// The throat of an inlet of this foot.
    pub fn of(spec: &Spec, foot: &Foot, inlet: &InletBody) -> Self {
        Self::cut(&Shop::new(spec, foot), inlet)
    }

    fn cut(shop: &Shop, inlet: &InletBody) -> Self {
        let t = shop.foot.casing.plate;
        let (a, d, lean) = roots(shop, inlet);
        let reach = (inlet.flange_face - inlet.outside).abs();
        let theta = ((inlet.flange_sill - a[1]) / (reach - a[0])).atan();
        let end = reach - ring_thickness(shop, inlet.flange);
        // The floor goes on to the flange's face. The roof ends at the upper edge of its opening, so that it meets the flange's back.
        let roof_theta = ((inlet.flange_sill + inlet.opening.size() - d[1]) / (end - d[0])).atan();
        let roof_cut = t * (roof_theta + lean).max(0.0).tan();
        Self {
            floor_root: a,
            roof_root: d,
            lean,
            floor_angle: theta,
            roof_angle: roof_theta,
            roof_cut,
            floor_length: (end - a[0]) / theta.cos() - t * theta.max(0.0).tan(),
            roof_length: (end - d[0]) / roof_theta.cos() - roof_cut,
        }
    }

    /// Height of the roof's inner face `out` of the wall at the sill, mm.
    pub fn roof_at(&self, out: f64) -> f64 {
        self.roof_root[1] + (out - self.roof_root[0]) * self.roof_angle.tan()
    }

    /// Length of the shorter of floor and roof, mm; negative where the wall leans out beyond the flange.
    pub fn shorter(&self) -> f64 {
        self.floor_length.min(self.roof_length)
    }

    /// Angle of the roof to the square of the wall, degrees.
    pub fn roof_to_wall_deg(&self) -> f64 {
        (self.roof_angle + self.lean).to_degrees()
    }

    /// Whether floor and roof can be made.
    pub fn has_room(&self) -> bool {
        self.roof_to_wall_deg() <= STEEPEST_DEG && self.shorter() >= SHORTEST
    }
}

/// Where floor and roof of the model meet the wall's outer face, (u, z), and the wall's lean outward (rad).
fn roots(shop: &Shop, inlet: &InletBody) -> ([f64; 2], [f64; 2], f64) {
    if inlet.side == FeedSide::Up {
        return ([0.0, inlet.opening.low], [0.0, inlet.opening.high], 0.0);
    }
    let profile = DownProfile::of(shop);
    let fall = inlet.slope_deg.to_radians().tan();
    let root = |z: f64| -> ([f64; 2], f64) {
        let Some(straight) = profile.at_height(z).and_then(|(_, i)| profile.straights.get(i)) else { return ([0.0, z], 0.0) };
        let ([along_x, along_z], n) = (straight.along, away(straight));
        // The wall's outer face as (u, z), and the height z + u · fall of floor or roof over it.
        let face = [inlet.outside - straight.from[0] - n[0] * profile.thickness, straight.from[1] + n[1] * profile.thickness];
        let step = (z + face[0] * fall - face[1]) / (along_z + along_x * fall);
        ([face[0] - step * along_x, face[1] + step * along_z], (-along_x).asin())
    };
    let (a, lean) = root(inlet.opening.low);
    let (d, _) = root(inlet.opening.high);
    (a, d, lean)
}

fn throat(shop: &mut Shop, inlet: &InletBody) {
    let c = &shop.foot.casing;
    let t = c.plate;
    let tf = ring_thickness(shop, inlet.flange);
    let up = inlet.side == FeedSide::Up;
    let out = inlet.side.outward();
    let base: u32 = if up { 200 } else { 220 };
    let key = inlet.side.key();
    let section = Section::cut(shop, inlet);
    if !section.has_room() {
        let throat = of_side(inlet.side, "the up-side throat", "the down-side throat");
        shop.defect(base + 1, format!("inlet.{key}.reach"), say!("{throat} has no room for floor and roof between wall and flange", throat = throat));
        return;
    }
    let Section { floor_root: a, roof_root: d, lean, floor_angle: theta, roof_angle: roof_theta, roof_cut, floor_length, roof_length } = section;
    let end = (inlet.flange_face - inlet.outside).abs() - tf;
    let width = inlet.width.size();
    let at = |u: f64, z: f64| [inlet.outside + out * u, 0.0, z];
    // Floor and roof: pattern x across the machine, y up the slope, marked on the upper face.
    let strip = |angle: f64, from: [f64; 2]| {
        let right = [0.0, if up { 1.0 } else { -1.0 }, 0.0];
        Placement::new(at(from[0], from[1]), right, [out * angle.cos(), 0.0, angle.sin()], [-out * angle.sin(), 0.0, angle.cos()])
    };
    let floor = FlatPattern::new(Contour::rectangle([-width / 2.0, 0.0], [width / 2.0, floor_length]));
    let floor_back = [a[0] + t * theta.sin(), a[1] - t * theta.cos()];
    let slope_feature = format!("inlet.{key}.slope");
    let width_feature = format!("inlet.{key}.width");
    let sill_feature = format!("inlet.{key}.flange_sill");
    let sources: [&str; 3] = [&width_feature, &slope_feature, &sill_feature];
    let assembly = format!("throat.{key}");
    let sided = |what: &'static str| Statement::all(vec![what.into(), of_side(inlet.side, "up side", "down side")]);
    let plate = |n: u32, id: &str, code: &'static str, what: &'static str, flat: FlatPattern, placements: Vec<Placement>| {
        (format!("{assembly}.{id}"), code, base + n, sided(what), flat, placements)
    };
    let mut plates = vec![plate(1, "floor", "THFL", "throat floor", floor, vec![strip(theta, floor_back)])];
    let roof = FlatPattern::new(Contour::rectangle([-width / 2.0, 0.0], [width / 2.0, roof_length]));
    let roof_from = [d[0] + roof_cut * roof_theta.cos(), d[1] + roof_cut * roof_theta.sin()];
    plates.push(plate(2, "roof", "THRF", "throat roof", roof, vec![strip(roof_theta, roof_from)]));
    // Cheeks reach from the floor's lower to the roof's upper face, and stand on the wall.
    let lines = [(a, theta, -t / theta.cos()), (d, roof_theta, t / roof_theta.cos())];
    let mut corners = Vec::new();
    for (i, (root, angle, shift)) in lines.into_iter().enumerate() {
        let dz = shift / (1.0 - lean.tan() * angle.tan());
        let wall = [root[0] + dz * lean.tan(), root[1] + dz];
        let flange = [end, root[1] + (end - root[0]) * angle.tan() + shift];
        corners.extend(if i == 0 { [wall, flange] } else { [flange, wall] });
    }
    let cheek = FlatPattern::new(Contour::polygon(corners.iter().map(|p| [inlet.outside + out * p[0], p[1]])));
    let half = width / 2.0;
    plates.push(plate(3, "cheek", "THCH", "throat cheek", cheek, vec![Placement::near(half), Placement::near(-half - t)]));
    for (id, code, item, name, flat, placements) in plates {
        let remarks = Statement::default();
        shop.plate(Draft { item, id: &id, code, name, thickness: t, flat, placements, hand: Hand::Neutral, sources: &sources, remarks });
    }
    if !bolt_ring(shop, inlet, base + 4, &sources) {
        return;
    }
    let inside = of_side(inlet.side, "up-side throat: floor, roof and cheeks", "down-side throat: floor, roof and cheeks");
    let [floor, roof, cheek, flange] = ["floor", "roof", "cheek", "flange"].map(|piece| format!("{assembly}.{piece}"));
    shop.fillet(&assembly, inside, [&[&floor, &roof], &[&cheek]], Lay::Every, t, true);
    let ends = of_side(inlet.side, "up-side throat to end plate and flange", "down-side throat to end plate and flange");
    shop.fillet(&assembly, ends, [&[&floor, &roof, &cheek], &["end_plate", &flange]], Lay::Every, t, true);
}

/// The ring that the spout or the transition is bolted to; `false` when there is no bolt for it.
fn bolt_ring(shop: &mut Shop, inlet: &InletBody, item: u32, sources: &[&str]) -> bool {
    let (tf, key) = (ring_thickness(shop, inlet.flange), inlet.side.key());
    // Flange: one ring, its holes midway between cheek and outer edge.
    let f = inlet.flange;
    let (y, z) = (inlet.width, Extent::new(inlet.flange_sill, inlet.flange_sill + inlet.opening.size()));
    let purpose = format!("{key}-side inlet flange");
    let Some((ring, bolt, holes)) = flange(shop, f, (y, z), Ring::Tapped, [&format!("inlet.{key}.width"), &purpose]) else { return false };
    let placement = if inlet.side == FeedSide::Up { Placement::up_end(inlet.flange_face - tf) } else { Placement::down_end(inlet.flange_face + tf) };
    let spout = inlet.transition.is_none();
    shop.plate(Draft {
        item,
        id: &format!("throat.{key}.flange"),
        code: "THFR",
        name: Statement::all(vec![say!("throat flange"), of_side(inlet.side, "up side", "down side")]),
        thickness: tf,
        flat: ring.clone(),
        placements: vec![placement],
        hand: Hand::Neutral,
        sources,
        remarks: Statement::from(if spout { "bolt ring for the spout's flange, tapped" } else { "bolt ring for the transition, tapped" }),
    });
    let flange = || of_side(inlet.side, "up-side inlet flange", "down-side inlet flange");
    let joined = if spout { say!("{flange} to the spout", flange = flange()) } else { say!("{flange} to the transition", flange = flange()) };
    shop.joint(joined, &purpose, bolt, holes, shop.frame_thickness() + gasket(shop.spec) + tf, Held::Tapped);
    let frame = goods::strip_round(shop, (y, z), bolt_line(shop, f));
    let at: Vec<Xy> = ring.holes.iter().map(|h| h.at).collect();
    let bed = goods::Bed { frame, corner: 0.0, holes: &at, bolt, place: placement.outward(tf) };
    let name = Statement::all(vec![flange(), say!("gasket")]);
    goods::sheet_gasket(shop, item + 7, &format!("throat.{key}.strip"), name, &bed, &format!("inlet.{key}.width"));
    true
}
