//! What a mill and a drill take out of a finished body: keyways with round ends, holes across.
//!
//! In: a body about its own z, and where the tool goes; mm. Out: the same body with one more loop in the faces that the
//! tool enters, and the walls that it leaves.

use super::Refusal;
use super::maker::{Maker, ahead, back};
use crate::solid::brep::{Brep, Curve, Face, Frame, Saddle, Surface, Use};
use glam::DVec3;

/// How near two things are one, mm.
const ONE: f64 = 1e-6;

/// A keyway that a mill of its width cuts into a round bar about z, open toward y.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slot {
    /// Where it begins along z, its round end included, mm.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Width, mm.
    pub width: f64,
    /// Height of its floor over the axis, mm.
    pub floor: f64,
}

/// A body with a keyway milled into it (DIN 6885-1 form A).
///
/// # Errors
/// [`Refusal::NotPositive`] for a keyway without a floor or shorter than the mill is thick, [`Refusal::Crossing`] where no
/// round face holds all of it.
pub fn slotted(body: Brep, slot: &Slot) -> Result<Brep, Refusal> {
    let half = slot.width / 2.0;
    let (z0, z1) = (slot.from + half, slot.to - half);
    if half.is_nan() || half <= 0.0 || z1 - z0 < ONE || slot.floor <= 0.0 {
        return Err(Refusal::NotPositive);
    }
    let (entered, bar) = round_about(&body, slot).ok_or(Refusal::Crossing)?;
    if bar <= half || slot.floor >= (bar * bar - half * half).sqrt() {
        return Err(Refusal::NotPositive);
    }
    let mut maker = Maker { body };
    let brim = (bar * bar - half * half).sqrt();
    let corners = [(half, z0), (half, z1), (-half, z1), (-half, z0)];
    let at = |maker: &mut Maker, y: f64| corners.map(|(x, z)| maker.vertex(DVec3::new(x, y, z)));
    let (high, low) = (at(&mut maker, brim), at(&mut maker, slot.floor));
    let up = [0, 1, 2, 3].map(|i| maker.line(low[i], high[i]));
    let ends = [(0, 3, z0, DVec3::X), (2, 1, z1, DVec3::NEG_X)];
    // Each end runs counter-clockwise about the mill.
    let arcs = ends.map(|(i, k, z, x)| {
        let frame = |y: f64| Frame { origin: DVec3::new(0.0, y, z), axis: DVec3::Y, x };
        let saddle = Saddle { frame: frame(0.0), mill: half, bar };
        (maker.edge(low[i], low[k], Curve::Circle(frame(slot.floor), half)), maker.edge(high[i], high[k], Curve::Saddle(saddle)))
    });
    let sides = [(0, 1), (2, 3)].map(|(i, k)| (maker.line(low[i], low[k]), maker.line(high[i], high[k])));
    let [(floor0, top0), (floor1, top1)] = arcs;
    let [(right, over_right), (left, over_left)] = sides;
    let plane = |y: f64, x: f64, axis: DVec3, along: DVec3| Surface::Plane(Frame { origin: DVec3::new(x, y, z0), axis, x: along });
    maker.face(plane(slot.floor, 0.0, DVec3::Y, DVec3::X), true, vec![vec![ahead(floor0), back(left), ahead(floor1), back(right)]]);
    maker.face(plane(slot.floor, half, DVec3::NEG_X, DVec3::Z), true, vec![vec![ahead(right), ahead(up[1]), back(over_right), back(up[0])]]);
    maker.face(plane(slot.floor, -half, DVec3::X, DVec3::NEG_Z), true, vec![vec![ahead(left), ahead(up[3]), back(over_left), back(up[2])]]);
    for (floor, top, [from, to], (_, _, z, x)) in [(floor0, top0, [0, 3], ends[0]), (floor1, top1, [2, 1], ends[1])] {
        let mill = Surface::Cylinder(Frame { origin: DVec3::new(0.0, 0.0, z), axis: DVec3::Y, x }, half);
        maker.face(mill, false, vec![vec![back(floor), ahead(up[from]), ahead(top), back(up[to])]]);
    }
    if let Some(face) = maker.body.faces.get_mut(entered) {
        face.loops.push(vec![ahead(over_right), back(top1), ahead(over_left), back(top0)]);
    }
    Ok(maker.body)
}

/// The outer round face about z that holds all of a keyway, and its radius.
fn round_about(body: &Brep, slot: &Slot) -> Option<(usize, f64)> {
    body.faces.iter().enumerate().find_map(|(i, face)| {
        let Surface::Cylinder(frame, r) = face.surface else { return None };
        let central = frame.axis.truncate().length() < ONE && frame.origin.truncate().length() < ONE && face.outward;
        let (low, high) = heights(body, face, DVec3::Z);
        (central && low < slot.from && slot.to < high).then_some((i, r))
    })
}

/// A body with a round hole along y through the two faces that lie at these heights, at a place in (x, z), mm.
///
/// # Errors
/// [`Refusal::NotPositive`] for a hole without a radius, [`Refusal::Crossing`] where no face at those heights holds it.
pub fn bored(body: Brep, [x, z]: [f64; 2], radius: f64, [low, high]: [f64; 2]) -> Result<Brep, Refusal> {
    if radius.is_nan() || radius <= 0.0 || high <= low {
        return Err(Refusal::NotPositive);
    }
    let entered = |y: f64, up: f64| {
        body.faces.iter().position(|face| {
            let Surface::Plane(frame) = face.surface else { return false };
            let out = frame.axis.y * if face.outward { 1.0 } else { -1.0 };
            out * up > 1.0 - ONE && (frame.origin.y - y).abs() < ONE && within(&body, face, [x, z], radius)
        })
    };
    let (Some(bottom), Some(top)) = (entered(low, -1.0), entered(high, 1.0)) else { return Err(Refusal::Crossing) };
    let mut maker = Maker { body };
    let rings = [low, high].map(|y| {
        let frame = Frame { origin: DVec3::new(x, y, z), axis: DVec3::Y, x: DVec3::X };
        let vertex = maker.vertex(frame.origin + DVec3::X * radius);
        (vertex, maker.edge(vertex, vertex, Curve::Circle(frame, radius)))
    });
    let [(a, under), (b, over)] = rings;
    let seam = maker.line(b, a);
    let wall = Surface::Cylinder(Frame { origin: DVec3::new(x, low, z), axis: DVec3::Y, x: DVec3::X }, radius);
    maker.face(wall, false, vec![vec![ahead(over), ahead(seam), back(under), back(seam)]]);
    for (face, rim) in [(bottom, ahead(under)), (top, back(over))] {
        if let Some(face) = maker.body.faces.get_mut(face) {
            face.loops.push(vec![rim]);
        }
    }
    Ok(maker.body)
}

/// Whether a plane face with straight edges holds a circle, by the box of its outer bound: bases are rectangles.
fn within(body: &Brep, face: &Face, [x, z]: [f64; 2], radius: f64) -> bool {
    let (left, right) = heights(body, face, DVec3::X);
    let (near, far) = heights(body, face, DVec3::Z);
    left < x - radius && x + radius < right && near < z - radius && z + radius < far
}

/// How far the corners of a face reach along a direction.
fn heights(body: &Brep, face: &Face, along: DVec3) -> (f64, f64) {
    let ends = face.loops.iter().flatten().filter_map(|u: &Use| body.edges.get(u.edge)).flat_map(|e| [e.from, e.to]);
    let at = ends.filter_map(|v| body.vertices.get(v)).map(|v| v.dot(along));
    at.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| (low.min(z), high.max(z)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::brep::FLAT;
    use crate::solid::build::revolved;
    use crate::solid::check::check;
    use crate::solid::mass::mass;
    use std::f64::consts::PI;

    fn bar(r: f64, length: f64) -> Brep {
        revolved(&[[0.0, 0.0], [r, 0.0], [r, length], [0.0, length]], &FLAT).unwrap()
    }

    /// Volume of a keyway by Simpson's rule over its plan: height of the bar over the floor at every width.
    fn by_plan(r: f64, slot: &Slot) -> f64 {
        let (half, n) = (slot.width / 2.0, 20_000);
        let straight = slot.to - slot.from - slot.width;
        // Over x = half sin u, so that the round ends are smooth in u.
        let at = |u: f64| {
            let x = half * u.sin();
            ((r * r - x * x).sqrt() - slot.floor) * (straight + 2.0 * half * u.cos()) * half * u.cos()
        };
        let h = PI / f64::from(n);
        (0..=n)
            .map(|i| {
                at(-PI / 2.0 + f64::from(i) * h)
                    * if i == 0 || i == n {
                        1.0
                    } else if i % 2 == 1 {
                        4.0
                    } else {
                        2.0
                    }
            })
            .sum::<f64>()
            * h
            / 3.0
    }

    #[test]
    fn a_keyway_with_round_ends_takes_what_its_plan_says() {
        let slot = Slot { from: 60.0, to: 130.0, width: 18.0, floor: 23.0 };
        let body = slotted(bar(30.0, 200.0), &slot).unwrap();
        assert_eq!(check(&body), vec![]);
        let want = PI * 900.0 * 200.0 - by_plan(30.0, &slot);
        let m = mass(&body);
        assert!((m.volume - want).abs() < 1e-6, "{} {want}", m.volume);
        // Symmetrical about x and about the keyway's middle.
        assert!(m.centroid.x.abs() < 1e-9 && m.centroid.y < 0.0);
        let two = slotted(slotted(bar(30.0, 200.0), &Slot { from: 10.0, to: 80.0, ..slot }).unwrap(), &Slot { from: 120.0, to: 190.0, ..slot }).unwrap();
        assert_eq!(check(&two), vec![]);
        assert!((mass(&two).centroid.z - 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_hole_across_takes_its_cylinder() {
        let corners = [(-50.0, -20.0), (50.0, -20.0), (50.0, 10.0), (-50.0, 10.0)].map(|p| (kurbo::Point::from(p), 0.0));
        let block = crate::solid::build::extrude(&[crate::geometry::Edge::chain(&corners, true)], 40.0, &FLAT).unwrap();
        let body = bored(block.clone(), [30.0, 20.0], 8.0, [-20.0, 10.0]).unwrap();
        assert_eq!(check(&body), vec![]);
        assert!((mass(&body).volume - (100.0 * 30.0 * 40.0 - PI * 64.0 * 30.0)).abs() < 1e-7);
        assert_eq!(bored(block.clone(), [45.0, 20.0], 8.0, [-20.0, 10.0]), Err(Refusal::Crossing));
        assert_eq!(bored(block, [30.0, 20.0], 8.0, [-20.0, 5.0]), Err(Refusal::Crossing));
    }

    #[test]
    fn a_keyway_past_its_seat_is_refused() {
        let slot = Slot { from: 60.0, to: 130.0, width: 18.0, floor: 23.0 };
        assert_eq!(slotted(bar(30.0, 120.0), &slot), Err(Refusal::Crossing));
        assert_eq!(slotted(bar(30.0, 200.0), &Slot { to: 70.0, ..slot }), Err(Refusal::NotPositive));
        assert_eq!(slotted(bar(30.0, 200.0), &Slot { floor: 29.5, ..slot }), Err(Refusal::NotPositive));
    }
}
