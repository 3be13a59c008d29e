//! Bodies made of one cross-section after another along an axis: shafts with keyways and flats, bolts, blind holes.
//!
//! In: cross-sections in order, each from where to where. Out: one closed body; between two sections lie the plane
//! faces of what one has and the other has not. Neighbours may share edges (a shaft and its keyway share the rest of
//! the circle), lie inside one another, or stand clear; they may not cross. Where two sections share a cylinder or a
//! plane it stays two faces with an edge between: an edge whose faces lie on one surface is none to be drawn.

use super::Refusal;
use super::joining::{Rim, join, plain};
use super::maker::{Maker, Sheet, against, ahead, back};
use crate::geometry::Edge;
use crate::solid::brep::{Brep, Frame, Surface};
use crate::solid::plane::Loop;

/// A length of a body with one cross-section.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// From, along the axis, mm.
    pub from: f64,
    /// To, mm.
    pub to: f64,
    /// Cross-section in the frame's (x, y), mm: outline counter-clockwise, holes clockwise.
    pub region: Vec<Loop>,
    /// Where it tapers: the cross-section at its end, of full circles about the same centres in the same order.
    pub end: Option<Vec<Loop>>,
}

impl Section {
    /// A length that does not taper.
    pub const fn straight(from: f64, to: f64, region: Vec<Loop>) -> Self {
        Self { from, to, region, end: None }
    }
    fn high(&self) -> &[Loop] {
        self.end.as_ref().unwrap_or(&self.region)
    }
}

/// A body of sections that follow one another along the frame's axis.
///
/// # Errors
/// [`Refusal::Empty`] without a section or outline, [`Refusal::NotPositive`] for one without length, [`Refusal::Disordered`]
/// where one does not begin where the one before ends, [`Refusal::Taper`] for a taper of other than circles, and
/// [`Refusal::BackToBack`] or [`Refusal::Crossing`] for neighbours that do not fit each other.
pub fn keyed(sections: &[Section], frame: &Frame) -> Result<Brep, Refusal> {
    let (Some(first), Some(last)) = (sections.first(), sections.last()) else { return Err(Refusal::Empty) };
    if sections.iter().any(|s| s.region.first().is_none_or(Vec::is_empty)) {
        return Err(Refusal::Empty);
    }
    if sections.iter().any(|s| s.to.is_nan() || s.to <= s.from) {
        return Err(Refusal::NotPositive);
    }
    if !sections.iter().zip(sections.iter().skip(1)).all(|(a, b)| (a.to - b.from).abs() < 1e-9) {
        return Err(Refusal::Disordered);
    }
    let mut maker = Maker::default();
    let base = Sheet::new(frame);
    let mut sheet = base.lifted(first.from);
    let mut low = plain(&mut maker, &sheet, &first.region);
    maker.face(sheet.plane(), false, low.loops(&first.region, false));
    for (section, next) in sections.iter().zip(sections.iter().skip(1)) {
        let over = base.lifted(section.to);
        let (high, begins) = join(&mut maker, &over, section.high(), &next.region)?;
        walls(&mut maker, &sheet, section, &low, &high)?;
        (sheet, low) = (over, begins);
    }
    let over = base.lifted(last.to);
    let high = plain(&mut maker, &over, last.high());
    walls(&mut maker, &sheet, last, &low, &high)?;
    maker.face(over.plane(), true, high.loops(last.high(), true));
    Ok(maker.body)
}

/// The walls of one section between its two rims.
fn walls(maker: &mut Maker, sheet: &Sheet, section: &Section, low: &Rim, high: &Rim) -> Result<(), Refusal> {
    let (n, m) = (low.starts.len(), high.starts.len());
    if n != m || section.region.len() != section.high().len() {
        return Err(Refusal::Taper);
    }
    let uprights: Vec<usize> = low.starts.iter().zip(&high.starts).map(|(a, b)| maker.line(*a, *b)).collect();
    let length = section.to - section.from;
    let mut done = 0;
    for (edges, ends) in section.region.iter().zip(section.high()) {
        for (k, (edge, end)) in edges.iter().zip(ends).enumerate() {
            let (surface, outward) = wall(sheet, edge, end, length)?;
            let upright = |k: usize| uprights.get(done + k % edges.len()).copied().unwrap_or_default();
            let mut bound = Vec::with_capacity(low.chain(done + k).len() + high.chain(done + k).len() + 2);
            bound.extend_from_slice(low.chain(done + k));
            bound.push(ahead(upright(k + 1)));
            bound.extend(against(high.chain(done + k)));
            bound.push(back(upright(k)));
            maker.face(surface, outward, vec![bound]);
        }
        done += edges.len();
    }
    Ok(())
}

/// The surface over an edge that becomes another along the axis, and whether its normal points to the right of the edge.
fn wall(sheet: &Sheet, edge: &Edge, end: &Edge, length: f64) -> Result<(Surface, bool), Refusal> {
    let swept = sheet.swept(edge);
    let (Surface::Cylinder(frame, r), Edge::Round { arc, .. }, Edge::Round { arc: over, .. }) = (swept.0, edge, end) else {
        return if edge == end { Ok(swept) } else { Err(Refusal::Taper) };
    };
    if (r - over.radii.x).abs() < 1e-9 {
        return Ok(swept);
    }
    if !edge.is_full() || !end.is_full() || arc.center != over.center || arc.sweep_angle != over.sweep_angle {
        return Err(Refusal::Taper);
    }
    Ok((Surface::Cone(frame, r, (over.radii.x - r) / length), swept.1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::brep::FLAT;
    use crate::solid::check::check;
    use crate::solid::mass::mass;
    use kurbo::Point;
    use std::f64::consts::PI;

    fn disc(d: f64) -> Vec<Loop> {
        vec![vec![Edge::circle(Point::ZERO, d / 2.0)]]
    }

    /// A shaft's section with a keyway at the top: `b` wide, its floor at height `floor`.
    fn keyway(d: f64, b: f64, floor: f64) -> Vec<Loop> {
        let r = d / 2.0;
        let top = (r * r - b * b / 4.0).sqrt();
        let sweep = 2.0 * PI - 2.0 * (b / d).asin();
        let c = |x: f64, y: f64, bulge: f64| (Point::new(x, y), bulge);
        vec![Edge::chain(&[c(-b / 2.0, top, (sweep / 4.0).tan()), c(b / 2.0, top, 0.0), c(b / 2.0, floor, 0.0), c(-b / 2.0, floor, 0.0)], true)]
    }

    /// Area of the notch: chord strip down to the floor plus the segment over the chord.
    fn notch(d: f64, b: f64, floor: f64) -> f64 {
        let r = d / 2.0;
        let half = (b / d).asin();
        b * (r * half.cos() - floor) + r * r * (half - half.sin() * half.cos())
    }

    #[test]
    fn a_shaft_with_two_keyways_is_round_less_its_notches() {
        let shaft = [
            Section::straight(0.0, 30.0, disc(50.0)),
            Section::straight(30.0, 70.0, disc(60.0)),
            Section::straight(70.0, 130.0, keyway(60.0, 18.0, 23.0)),
            Section::straight(130.0, 200.0, disc(60.0)),
            Section::straight(200.0, 240.0, keyway(50.0, 14.0, 19.5)),
        ];
        let body = keyed(&shaft, &FLAT).unwrap();
        assert_eq!(check(&body), vec![]);
        let round = PI / 4.0 * (2500.0 * 70.0 + 3600.0 * 170.0);
        let cut = notch(60.0, 18.0, 23.0) * 60.0 + notch(50.0, 14.0, 19.5) * 40.0;
        assert!((mass(&body).volume - round + cut).abs() < 1e-6);
    }

    /// A bolt: hexagon 24 wide over its flats, 10 high; shank of 16, then a chamfer to 13.
    #[test]
    fn a_bolt_is_hexagon_shank_and_chamfer() {
        let side = 24.0 / 3.0_f64.sqrt();
        let corner = |i: i32| (Point::ZERO + kurbo::Vec2::from_angle(f64::from(i) * PI / 3.0) * side, 0.0);
        let hexagon = Edge::chain(&[0, 1, 2, 3, 4, 5].map(corner), true);
        let tip = Section { from: 60.0, to: 61.5, region: disc(16.0), end: Some(disc(13.0)) };
        let body = keyed(&[Section::straight(0.0, 10.0, vec![hexagon]), Section::straight(10.0, 60.0, disc(16.0)), tip], &FLAT).unwrap();
        assert_eq!(check(&body), vec![]);
        let want = 1.5 * 3.0_f64.sqrt() * side * side * 10.0 + PI * 64.0 * 50.0 + PI * 1.5 / 3.0 * (64.0 + 52.0 + 42.25);
        assert!((mass(&body).volume - want).abs() < 1e-8);
    }

    /// A flat on a round bar, a blind hole beside its axis, a square end.
    #[test]
    fn flats_blind_holes_and_square_ends_join() {
        let r = 20.0_f64;
        let h = 15.0_f64;
        let half = (h / r).acos();
        let w = (r * r - h * h).sqrt();
        let flat = Edge::chain(&[(Point::new(w, h), 0.0), (Point::new(-w, h), ((2.0 * PI - 2.0 * half) / 4.0).tan())], true);
        let hole = vec![Edge::circle(Point::new(0.0, -5.0), 6.0).reversed()];
        let square = Edge::chain(&[(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)].map(|p| (Point::from(p), 0.0)), true);
        let body = keyed(
            &[
                Section::straight(-10.0, 0.0, vec![square]),
                Section::straight(0.0, 25.0, disc(40.0)),
                Section::straight(25.0, 40.0, vec![flat.clone()]),
                Section::straight(40.0, 60.0, vec![flat, hole]),
            ],
            &FLAT,
        )
        .unwrap();
        assert_eq!(check(&body), vec![]);
        let segment = r * r * (half - half.sin() * half.cos());
        let want = 4000.0 + PI * r * r * 60.0 - segment * 35.0 - PI * 36.0 * 20.0;
        assert!((mass(&body).volume - want).abs() < 1e-7);
    }

    #[test]
    fn sections_that_do_not_fit_are_refused() {
        let tube = vec![vec![Edge::circle(Point::ZERO, 30.0)], vec![Edge::circle(Point::ZERO, 20.0).reversed()]];
        let stack = |b: Vec<Loop>| keyed(&[Section::straight(0.0, 1.0, tube.clone()), Section::straight(1.0, 2.0, b)], &FLAT);
        assert_eq!(stack(disc(40.0)), Err(Refusal::BackToBack));
        let square = Edge::chain(&[(-28.0, -28.0), (28.0, -28.0), (28.0, 28.0), (-28.0, 28.0)].map(|p| (Point::from(p), 0.0)), true);
        assert_eq!(stack(vec![square]), Err(Refusal::Crossing));
        assert_eq!(keyed(&[Section::straight(0.0, 1.0, disc(2.0)), Section::straight(2.0, 3.0, disc(2.0))], &FLAT), Err(Refusal::Disordered));
        assert_eq!(keyed(&[], &FLAT), Err(Refusal::Empty));
    }
}
