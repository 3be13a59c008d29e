//! Turned bodies: cylinders and cones along an axis, bored or not, with the ring faces of their shoulders.

use super::Refusal;
use super::keyed::{Section, keyed};
use crate::geometry::Edge;
use crate::solid::brep::{Brep, Frame};
use crate::solid::plane::Loop;
use kurbo::Point;

/// A length of a turned body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// From, along the axis, mm.
    pub from: f64,
    /// To, mm.
    pub to: f64,
    /// Outside diameter at both ends, mm; two for a cone, such as a chamfer.
    pub diameters: [f64; 2],
    /// Diameter of the bore at both ends, mm; 0 where there is none.
    pub bores: [f64; 2],
}

impl Segment {
    /// A cylinder, bored when the bore is not 0.
    pub const fn cylinder(from: f64, to: f64, diameter: f64, bore: f64) -> Self {
        Self { from, to, diameters: [diameter; 2], bores: [bore; 2] }
    }

    /// Its cross-section at one end.
    fn ring(diameter: f64, bore: f64) -> Vec<Loop> {
        let outside = vec![Edge::circle(Point::ZERO, diameter / 2.0)];
        let inside = (bore > 0.0).then(|| vec![Edge::circle(Point::ZERO, bore / 2.0).reversed()]);
        [outside].into_iter().chain(inside).collect()
    }

    /// As a length of a body with any cross-sections; nothing here looks at its sizes.
    pub fn section(&self) -> Section {
        let ([d0, d1], [b0, b1]) = (self.diameters, self.bores);
        let end = (d0 != d1 || b0 != b1).then(|| Self::ring(d1, b1));
        Section { from: self.from, to: self.to, region: Self::ring(d0, b0), end }
    }
}

/// A turned body about the frame's axis; seams lie along the frame's x.
///
/// # Errors
/// [`Refusal::NoWall`] where a bore is as wide as the outside, a diameter is not positive or a bore ends in a point;
/// [`Refusal::BackToBack`] where one length ends on the circle on which the bore of the next begins; what [`keyed`] refuses.
pub fn turned(segments: &[Segment], frame: &Frame) -> Result<Brep, Refusal> {
    let thin = |s: &Segment| {
        let ends = s.diameters.iter().zip(&s.bores).all(|(d, b)| d > b && *b >= 0.0);
        !ends || (s.bores[0] > 0.0) != (s.bores[1] > 0.0)
    };
    if segments.iter().any(thin) {
        return Err(Refusal::NoWall);
    }
    keyed(&segments.iter().map(Segment::section).collect::<Vec<_>>(), frame)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::brep::FLAT;
    use crate::solid::check::check;
    use crate::solid::mass::mass;
    use std::f64::consts::PI;

    fn frustum(d: f64, e: f64, h: f64) -> f64 {
        PI * h / 12.0 * (d * d + d * e + e * e)
    }

    #[test]
    fn a_stepped_shaft_with_chamfers_is_cylinders_and_frustums() {
        let body = turned(
            &[
                Segment { from: 0.0, to: 2.0, diameters: [46.0, 50.0], bores: [0.0; 2] },
                Segment::cylinder(2.0, 40.0, 50.0, 0.0),
                Segment::cylinder(40.0, 150.0, 60.0, 0.0),
                Segment::cylinder(150.0, 190.0, 50.0, 0.0),
                Segment { from: 190.0, to: 192.0, diameters: [50.0, 46.0], bores: [0.0; 2] },
            ],
            &FLAT,
        )
        .unwrap();
        assert_eq!(check(&body), vec![]);
        // Five walls, two ends, two shoulders.
        assert_eq!(body.faces.len(), 9);
        let want = 2.0 * frustum(46.0, 50.0, 2.0) + PI / 4.0 * (2500.0 * 78.0 + 3600.0 * 110.0);
        assert!((mass(&body).volume - want).abs() < 1e-7);
    }

    #[test]
    fn a_bored_hub_with_a_counterbore_and_a_blind_end() {
        let body = turned(
            &[
                Segment { from: -1.0, to: 0.0, diameters: [80.0, 80.0], bores: [42.0, 40.0] },
                Segment::cylinder(0.0, 30.0, 80.0, 40.0),
                Segment::cylinder(30.0, 50.0, 80.0, 55.0),
                Segment::cylinder(50.0, 60.0, 80.0, 0.0),
            ],
            &FLAT,
        )
        .unwrap();
        assert_eq!(check(&body), vec![]);
        let want = PI / 4.0 * (6400.0 * 61.0 - 1600.0 * 30.0 - 3025.0 * 20.0) - frustum(42.0, 40.0, 1.0);
        assert!((mass(&body).volume - want).abs() < 1e-7);
    }

    #[test]
    fn a_bore_as_wide_as_the_body_is_refused() {
        assert_eq!(turned(&[Segment::cylinder(0.0, 10.0, 40.0, 40.0)], &FLAT), Err(Refusal::NoWall));
        let point = Segment { from: 0.0, to: 5.0, diameters: [40.0; 2], bores: [10.0, 0.0] };
        assert_eq!(turned(&[point], &FLAT), Err(Refusal::NoWall));
    }
}
