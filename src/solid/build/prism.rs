//! A plane region drawn out to a prism: plates, bars of any section, keys, nuts.

use super::Refusal;
use super::maker::{Maker, Sheet, ahead, back};
use crate::geometry::Edge;
use crate::solid::brep::{Brep, Frame, Use};
use crate::solid::plane::Loop;

/// A prism over a region of the frame's (x, y), from the frame's origin along its axis by `thickness` mm.
///
/// Each straight edge makes a plane face, each arc a part of a cylinder, a full circle a cylinder with a seam.
/// The last two faces are the marked one (at `thickness`) and the back one (at 0).
///
/// # Errors
/// [`Refusal::Empty`] without an outline, [`Refusal::NotPositive`] without a thickness.
pub fn extrude(region: &[Loop], thickness: f64, frame: &Frame) -> Result<Brep, Refusal> {
    if region.first().is_none_or(Vec::is_empty) {
        return Err(Refusal::Empty);
    }
    if thickness.is_nan() || thickness <= 0.0 {
        return Err(Refusal::NotPositive);
    }
    let n: usize = region.iter().map(Vec::len).sum();
    let mut maker = Maker::default();
    maker.body.vertices.reserve_exact(2 * n);
    maker.body.edges.reserve_exact(3 * n);
    maker.body.faces.reserve_exact(n + 2);
    let low = Sheet::new(frame);
    let high = low.lifted(thickness);
    let mut top = Vec::with_capacity(region.len());
    let mut bottom = Vec::with_capacity(region.len());
    for edges in region {
        let (over, under) = ring(&mut maker, edges, &low, &high);
        top.push(over);
        bottom.push(under);
    }
    maker.face(high.plane(), true, top);
    maker.face(low.plane(), false, bottom);
    Ok(maker.body)
}

/// The walls over one loop; the loops that they leave on the high and on the low face.
fn ring(maker: &mut Maker, edges: &[Edge], low: &Sheet, high: &Sheet) -> (Vec<Use>, Vec<Use>) {
    let n = edges.len();
    // Of edge i: vertices v + 2i (low) and v + 2i + 1 (high); edges e + 3i (upright), e + 3i + 1 (low), e + 3i + 2 (high).
    let (v, e) = (maker.body.vertices.len(), maker.body.edges.len());
    for edge in edges {
        maker.vertex(low.point(edge.start()));
        maker.vertex(high.point(edge.start()));
    }
    for (i, edge) in edges.iter().enumerate() {
        let (from, to) = (v + 2 * i, v + 2 * ((i + 1) % n));
        maker.line(from, from + 1);
        maker.edge(from, to, low.curve(edge));
        maker.edge(from + 1, to + 1, high.curve(edge));
        let (surface, outward) = low.swept(edge);
        let next = e + 3 * ((i + 1) % n);
        let upright = e + 3 * i;
        maker.face(surface, outward, vec![vec![ahead(upright + 1), ahead(next), back(upright + 2), back(upright)]]);
    }
    ((0..n).map(|i| ahead(e + 3 * i + 2)).collect(), (0..n).rev().map(|i| back(e + 3 * i + 1)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::brep::FLAT;
    use crate::solid::check::check;
    use crate::solid::mass::mass;
    use kurbo::Point;
    use std::f64::consts::PI;

    /// Rectangle with two rounded corners and a hole, by hand.
    #[test]
    fn a_plate_weighs_what_its_area_says() {
        let quarter = (PI / 8.0).tan();
        let c = |x: f64, y: f64, b: f64| (Point::new(x, y), b);
        let outline =
            Edge::chain(&[c(10.0, 0.0, 0.0), c(90.0, 0.0, quarter), c(100.0, 10.0, 0.0), c(100.0, 50.0, 0.0), c(0.0, 50.0, 0.0), c(0.0, 10.0, quarter)], true);
        let region = [outline, vec![Edge::circle(Point::new(40.0, 20.0), 8.0).reversed()]];
        let body = extrude(&region, 6.0, &FLAT).unwrap();
        assert_eq!(check(&body), vec![]);
        let m = mass(&body);
        let area = 5000.0 - 2.0 * (1.0 - PI / 4.0) * 100.0 - PI * 64.0;
        assert!((m.volume - 6.0 * area).abs() < 1e-9);
        let around = 80.0 + 10.0 * PI + 40.0 + 100.0 + 40.0 + 16.0 * PI;
        assert!((m.surface - 2.0 * area - 6.0 * around).abs() < 1e-9);
        assert!((m.centroid.x * area - (area * 50.0 + PI * 64.0 * 10.0)).abs() < 1e-6);
        assert!((m.centroid.z - 3.0).abs() < 1e-12);
    }

    #[test]
    fn nothing_is_made_of_nothing() {
        assert_eq!(extrude(&[], 6.0, &FLAT), Err(Refusal::Empty));
        assert_eq!(extrude(&[vec![Edge::circle(Point::ZERO, 5.0)]], 0.0, &FLAT), Err(Refusal::NotPositive));
    }
}
