//! A transition outside an inlet's flange: from above, and as seen from the side that it stands on.
//!
//! Its walls are planes between two openings in parallel upright planes, so edges and hips say all. What lies
//! behind the outer flange is cut off at its outline; what is seen through its opening ends at the opening.

use super::window::Window;
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::model::inlets::{InletBody, Transition};
use crate::paper::style::Pen;
use crate::paper::view::Draft;

/// Where its walls begin and end along the machine, between the flanges (flange thickness as drawn: the casing's plate).
pub fn walls(inlet: &InletBody, tr: &Transition, plate: f64) -> (f64, f64) {
    let out = inlet.side.outward();
    (inlet.flange_face + out * plate, tr.face - out * plate)
}

/// From above; what lies under the casing's top flange is hidden.
pub fn from_above(d: &mut Draft, foot: &Foot, inlet: &InletBody, tr: &Transition, flange_edge: f64) {
    let plate = foot.casing.plate;
    let out = inlet.side.outward();
    let (from, to) = walls(inlet, tr, plate);
    let (a, b) = (inlet.width.size() / 2.0, tr.width.size() / 2.0);
    // Thickness of a cheek across the machine.
    let thick = plate * ((b - a) / (to - from)).hypot(1.0);
    let covered = ((flange_edge - from) / (to - from)).clamp(0.0, 1.0);
    for side in [1.0, -1.0] {
        for more in [0.0, thick] {
            let at = |share: f64| (from + share * (to - from), side * (a + share * (b - a) + more));
            if covered > 0.0 {
                d.line(Pen::Hidden, at(0.0), at(covered));
            }
            if covered < 1.0 {
                d.line(Pen::Edge, at(covered), at(1.0));
            }
        }
        // The clear way through the flanges.
        d.line(Pen::Hidden, (inlet.flange_face, side * a), (from, side * a));
        d.line(Pen::Hidden, (to, side * b), (tr.face, side * b));
    }
    for (x, half) in [((inlet.flange_face, from), a), ((to, tr.face), b)] {
        let pen = if (x.1 - flange_edge) * out > 0.0 { Pen::Edge } else { Pen::Hidden };
        d.rectangle(pen, (x.0, -half - inlet.flange), (x.1, half + inlet.flange));
    }
}

/// From the side that it stands on: the outer flange in front, through its opening the hips and the throat's opening,
/// around it what reaches beyond.
pub fn from_outside(d: &mut Draft, foot: &Foot, inlet: &InletBody, tr: &Transition) {
    let (a, b) = (inlet.width.size() / 2.0, tr.width.size() / 2.0);
    let throat = Extent::new(inlet.flange_sill, inlet.flange_sill + inlet.opening.size());
    let box_of = |half: f64, z: Extent, by: f64| Window { u: Extent::new(-half - by, half + by), z: z.grown(by) };
    let (front, opening) = (box_of(b, tr.opening, inlet.flange), box_of(b, tr.opening, 0.0));
    let (ring, inner) = (box_of(a, throat, inlet.flange), box_of(a, throat, 0.0));
    for w in [&front, &opening] {
        d.rectangle(Pen::Edge, (w.u.low, w.z.low), (w.u.high, w.z.high));
    }
    let t = foot.casing.plate;
    let (hull, end) = (box_of(a, throat, t), box_of(b, tr.opening, t));
    // The walls stand before the upper edge of the throat's flange where the floor has risen past it.
    let share = |from: f64, to: f64| ((ring.z.high - from) / (to - from).max(1e-6)).clamp(0.0, 1.0);
    let half_at = |share: f64| a + t + (b - a) * share;
    let (floor, roof) = (share(hull.z.low, end.z.low), share(hull.z.high, end.z.high));
    let covered = if floor < 1.0 { half_at(floor).max(half_at(roof)) } else { 0.0 };
    for (i, (p, q)) in ring.sides().into_iter().enumerate() {
        let pieces = if i == 2 && covered > 0.0 { vec![(p, [covered.min(p[0]), p[1]]), ([-covered.min(p[0]), q[1]], q)] } else { vec![(p, q)] };
        pieces.into_iter().flat_map(|(p, q)| front.outside(p, q)).for_each(|(p, q)| d.line(Pen::Edge, p, q));
    }
    // Outer edges of the walls where they stand out beyond the outer flange, and their seams on the inner one; of walls
    // that spread outward only the floor is seen.
    let spread = b > a - 1e-6;
    let hips = hull.corners().into_iter().zip(end.corners()).take(if spread { 2 } else { 4 });
    let seams = hull.sides().into_iter().enumerate().filter(|(i, _)| *i == 0 || !spread && *i != 2).map(|(_, s)| s);
    for (p, q) in hips.chain(seams) {
        front.outside(p, q).into_iter().for_each(|(p, q)| d.line(Pen::FineEdge, p, q));
    }
    for (p, q) in inner.corners().into_iter().zip(opening.corners()).chain(inner.sides()) {
        opening.within(p, q).into_iter().for_each(|(p, q)| d.line(Pen::FineEdge, p, q));
    }
}

/// From the other side of the machine: what reaches out beyond the casing, `half` its half width.
pub fn beyond_casing(d: &mut Draft, inlet: &InletBody, tr: &Transition, half: f64) {
    let reach = tr.width.size() / 2.0 + inlet.flange;
    let z = tr.opening.grown(inlet.flange);
    for side in [1.0, -1.0].into_iter().filter(|_| reach > half + 1.0) {
        d.polyline(Pen::Edge, [(side * half, z.low), (side * reach, z.low), (side * reach, z.high), (side * half, z.high)]);
    }
}
