//! Bodies of revolution from a profile: shafts with shoulders, chamfers and holes along their axis.
//!
//! In: corners of the profile as radius and height, mm, from the axis round the material back to the axis, or round a ring;
//! what is solid lies to the left. Out: one closed body with one face for each side of the profile that is not on the axis.

use super::Refusal;
use super::maker::{Maker, Sheet, ahead, back};
use crate::solid::brep::{Brep, Curve, Frame, Surface};

/// Corners closer than this are one, mm; what is nearer to the axis lies on it.
const ONE: f64 = 1e-9;

/// A body of revolution about the frame's axis; seams lie along the frame's x.
///
/// # Errors
/// [`Refusal::Empty`] for fewer than three sides, [`Refusal::NotPositive`] for a radius below the axis,
/// [`Refusal::NoWall`] for a profile that meets the axis in a tip.
pub fn revolved(profile: &[[f64; 2]], frame: &Frame) -> Result<Brep, Refusal> {
    let mut corners: Vec<[f64; 2]> = profile.to_vec();
    corners.dedup_by(|a, b| (a[0] - b[0]).hypot(a[1] - b[1]) < ONE);
    if corners.len() < 3 {
        return Err(Refusal::Empty);
    }
    if corners.iter().any(|c| c[0] < 0.0) {
        return Err(Refusal::NotPositive);
    }
    let base = Sheet::new(frame);
    let mut maker = Maker::default();
    // For each corner off the axis its vertex and circle.
    let rings: Vec<Option<(usize, usize)>> = corners
        .iter()
        .map(|[r, z]| {
            (*r > ONE).then(|| {
                let sheet = base.lifted(*z);
                let vertex = maker.vertex(sheet.origin + sheet.x * *r);
                let circle = Curve::Circle(Frame { origin: sheet.origin, axis: frame.axis, x: frame.x }, *r);
                (vertex, maker.edge(vertex, vertex, circle))
            })
        })
        .collect();
    let next = |i: usize| (i + 1) % corners.len();
    for (i, ([r0, z0], ring)) in corners.iter().zip(&rings).enumerate() {
        let ([r1, z1], over) = (corners.get(next(i)).copied().unwrap_or_default(), rings.get(next(i)).copied().flatten());
        let (level, on) = ((z1 - z0).abs() < ONE, |z: f64| base.lifted(z));
        match (ring, over) {
            (None, None) => {}
            (Some((a, low)), Some((b, high))) if !level => {
                let seam = maker.line(*a, b);
                let frame = Frame { origin: on(*z0).origin, ..*frame };
                let surface = if (r1 - r0).abs() < ONE { Surface::Cylinder(frame, *r0) } else { Surface::Cone(frame, *r0, (r1 - r0) / (z1 - z0)) };
                maker.face(surface, z1 > *z0, vec![vec![ahead(*low), ahead(seam), back(high), back(seam)]]);
            }
            _ if !level => return Err(Refusal::NoWall),
            _ => {
                let up = r1 < *r0;
                let mut loops = vec![ring.map(|(_, e)| vec![ahead(e)]), over.map(|(_, e)| vec![back(e)])];
                if !up {
                    loops.reverse();
                }
                maker.face(on(*z0).plane(), up, loops.into_iter().flatten().collect());
            }
        }
    }
    Ok(maker.body)
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

    /// A shaft with a chamfer, a shoulder and a drilled end: cylinders, frustums, less its hole with the drill's point.
    #[test]
    fn a_shaft_is_its_frustums_less_its_hole() {
        let profile = [[0.0, 0.0], [23.0, 0.0], [25.0, 2.0], [25.0, 40.0], [30.0, 40.0], [30.0, 150.0], [9.0, 150.0], [9.0, 110.0], [1.0, 105.0], [0.0, 105.0]];
        let body = revolved(&profile, &FLAT).unwrap();
        assert_eq!(check(&body), vec![]);
        let hole = PI / 4.0 * 324.0 * 40.0 + frustum(18.0, 2.0, 5.0);
        let want = frustum(46.0, 50.0, 2.0) + PI / 4.0 * (2500.0 * 38.0 + 3600.0 * 110.0) - hole;
        assert!((mass(&body).volume - want).abs() < 1e-7);
    }

    #[test]
    fn a_ring_closes_on_itself_and_a_tip_is_refused() {
        let body = revolved(&[[20.0, 0.0], [40.0, 0.0], [40.0, 30.0], [20.0, 30.0]], &FLAT).unwrap();
        assert_eq!(check(&body), vec![]);
        assert!((mass(&body).volume - PI * 1200.0 * 30.0).abs() < 1e-7);
        assert_eq!(revolved(&[[0.0, 0.0], [20.0, 0.0], [0.0, 30.0]], &FLAT), Err(Refusal::NoWall));
        assert_eq!(revolved(&[[0.0, 0.0], [-20.0, 0.0], [0.0, 30.0]], &FLAT), Err(Refusal::NotPositive));
    }
}
