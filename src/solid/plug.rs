//! Bodies with their small holes filled: what is drawn where holes are too small for the scale.
//!
//! In: a body. Out: the same without round holes from one plane face through to another.

use crate::solid::brep::{Brep, Curve, Face, Surface, Use};
use std::collections::BTreeSet;

/// A body without its round holes up to a radius, mm.
pub fn plugged(body: &Brep, radius: f64) -> Brep {
    let whole = |edge: usize| body.edges.get(edge).is_some_and(|e| e.from == e.to && matches!(e.curve, Curve::Circle(..)));
    // Circles that lie as holes in plane faces.
    let rims: BTreeSet<usize> = body
        .faces
        .iter()
        .filter(|f| matches!(f.surface, Surface::Plane(_)))
        .flat_map(|f| f.loops.iter().skip(1))
        .filter_map(|l| match l[..] {
            [Use { edge, .. }] if whole(edge) => Some(edge),
            _ => None,
        })
        .collect();
    let bored = |f: &Face| {
        let small = matches!(f.surface, Surface::Cylinder(_, r) if r <= radius) && !f.outward;
        let circles: BTreeSet<usize> = f.loops.iter().flatten().map(|u| u.edge).filter(|e| whole(*e)).collect();
        small && circles.len() == 2 && circles.is_subset(&rims) && f.loops.iter().flatten().map(|u| u.edge).collect::<BTreeSet<_>>().len() <= 3
    };
    let walls: Vec<bool> = body.faces.iter().map(bored).collect();
    let gone: BTreeSet<usize> = body.faces.iter().zip(&walls).filter(|(_, wall)| **wall).flat_map(|(f, _)| f.loops.iter().flatten()).map(|u| u.edge).collect();
    if gone.is_empty() {
        return body.clone();
    }
    let mut kept = 0;
    let number: Vec<usize> = (0..body.edges.len())
        .map(|edge| {
            let own = kept;
            kept += usize::from(!gone.contains(&edge));
            own
        })
        .collect();
    let loops = |face: &Face| {
        let left = face.loops.iter().filter(|l| !l.iter().any(|u| gone.contains(&u.edge)));
        left.map(|l| l.iter().map(|u| Use { edge: number.get(u.edge).copied().unwrap_or_default(), ..*u }).collect()).collect()
    };
    let faces = body.faces.iter().zip(&walls).filter(|(_, wall)| !**wall).map(|(face, _)| Face { loops: loops(face), ..face.clone() }).collect();
    let edges = body.edges.iter().enumerate().filter(|(i, _)| !gone.contains(i)).map(|(_, e)| *e).collect();
    Brep { vertices: body.vertices.clone(), edges, faces }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Edge;
    use crate::solid::brep::FLAT;
    use crate::solid::build::extrude;
    use crate::solid::check::check;
    use crate::solid::mass::mass;
    use kurbo::Point;

    #[test]
    fn small_holes_go_and_large_ones_stay() {
        let corners = [(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)].map(|p| (Point::from(p), 0.0));
        let hole = |x: f64, r: f64| vec![Edge::circle(Point::new(x, 0.0), r).reversed()];
        let plate = |holes: Vec<Vec<Edge>>| {
            let region: Vec<Vec<Edge>> = std::iter::once(Edge::chain(&corners, true)).chain(holes).collect();
            extrude(&region, 8.0, &FLAT).unwrap()
        };
        let body = plugged(&plate(vec![hole(-20.0, 5.0), hole(20.0, 15.0)]), 12.0);
        assert_eq!(check(&body), vec![]);
        assert!((mass(&body).volume - mass(&plate(vec![hole(20.0, 15.0)])).volume).abs() < 1e-6);
        // A tube is no hole in a plate that may be filled: it would be a rod.
        let tube = extrude(&[vec![Edge::circle(Point::ZERO, 10.0)], hole(0.0, 5.0)], 30.0, &FLAT).unwrap();
        assert_eq!(plugged(&tube, 2.0), tube);
    }
}
