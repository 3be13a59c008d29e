//! How much of its water-level fill a bucket can hold at each place of its way through the foot.
//!
//! In: the bucket's inner section, the pulley, the angle of friction, a position. Out: the share of the
//! water-level fill, 0 to 1. It is the most that *can* stay, for a plane section, product at rest in the
//! bucket; it says nothing of how the product gets in. Areas are exact: straight edges against circles and
//! spirals in closed form.
//!
//! # Which side of the surface stays
//! In the frame that turns with the pulley a particle at X feels, per mass, weight and centrifugal
//! force: ω²·(X − O) − g·ẑ = ω²·(X − P), with the pole P at h = g/ω² above the centre O. So the
//! apparent weight everywhere points **away from the pole**: "down" is outwards, a free surface without
//! friction is a circle about P, and product flows to larger distance from P. The opening of the bucket
//! is a straight edge between lip and top of back; the distance from P is largest at one of its ends
//! (distance is a convex function along a line). Product farther from P than that end cannot reach the
//! opening, because it would have to move inwards; product nearer can flow out over that end. Hence the
//! part of the section **farther from P than the circle through the lip** stays (and than the one
//! through the top of the back, which in the foot lies nearer to P and does not count).
//! At the bottom of the pulley the lip is the point of the bucket farthest from P, or nearly so:
//! next to nothing stays. Where the belt has left the pulley ω = 0, the pole is at infinity, the surface
//! is level, and the water-level fill stays by definition.
//!
//! With friction a slope may stand up to the angle φ against that circle. Its limit surface keeps
//! the angle φ to the circle at every point: dr/dψ = −r·tan φ away from the lip, a logarithmic spiral
//! r = r_lip·exp(−tan φ·|ψ − ψ_lip|) about P. It rises from the lip towards the pole, so more stays.

use crate::formulas::pole::pole_distance_mm;
use crate::geometry::area_below;
use crate::sources::Source;
use kurbo::common::solve_itp;
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, TAU};

/// Retained fill by the pole construction.
pub const RETAINED_FILL: Source = Source::physics("pole construction: apparent weight ω²·(X − P), circles and logarithmic spirals about P through the lip");

/// Pole distances beyond this, mm, are taken as this: the surface is then flat to 1e-4 mm over a bucket.
const FARTHEST_POLE_MM: f64 = 1e8;
/// A corner this close to a surface, as a share of its distance from the pole, lies on it.
const ROUNDING: f64 = 1e-13;

/// Inner section of a bucket in the bucket's frame: x = u, distance out from the belt's outer face;
/// y = w, along the belt's travel, w = 0 at the bolts. mm.
#[derive(Debug, Clone, PartialEq)]
pub struct BucketSection {
    outline: Vec<Point>,
    water_level_mm2: f64,
}

/// Why an outline is no bucket.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SectionError {
    /// Fewer than three corners.
    TooFewCorners,
    /// A coordinate is not a finite number.
    NotFinite,
    /// Nothing lies below the water level: the lip is at the bottom, or the corners are in a wrong order.
    HoldsNothing,
}

impl std::fmt::Display for SectionError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            SectionError::TooFewCorners => "a bucket section needs at least three corners",
            SectionError::NotFinite => "a corner of the bucket section is not a finite number",
            SectionError::HoldsNothing => {
                "the bucket section holds nothing below its lip; list the corners from the lip round the bottom to the top of the back"
            }
        })
    }
}

impl std::error::Error for SectionError {}

impl BucketSection {
    /// Takes the corners from the **lip** round front, bottom and back to the **top of the back**; the
    /// closing edge from the last corner to the first is the opening.
    ///
    /// # Errors
    /// [`SectionError`].
    pub fn new(outline: Vec<Point>) -> Result<Self, SectionError> {
        if outline.len() < 3 {
            return Err(SectionError::TooFewCorners);
        }
        if outline.iter().any(|p| !p.is_finite()) {
            return Err(SectionError::NotFinite);
        }
        let section = Self { water_level_mm2: 0.0, outline };
        let level = section.rim().iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
        let water_level_mm2 = area_below(&section.outline, |_| level);
        if water_level_mm2 < 1e-3 {
            return Err(SectionError::HoldsNothing);
        }
        Ok(Self { water_level_mm2, ..section })
    }
    /// Area of the water-level fill on the straight run, mm².
    pub fn water_level_area_mm2(&self) -> f64 {
        self.water_level_mm2
    }
    /// Lip and top of back, the two ends of the opening.
    fn rim(&self) -> [Point; 2] {
        let first = self.outline.first().copied().unwrap_or(Point::ORIGIN);
        [first, self.outline.last().copied().unwrap_or(first)]
    }
}

/// The pulley that a bucket goes round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wheel {
    /// Radius to the belt's outer face, where the bucket's back lies: D/2 + t, mm.
    pub radius_mm: f64,
    /// Angular speed, rad/s.
    pub omega_rad_per_s: f64,
}

/// Where a bucket's bolts are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Position {
    /// On the pulley, at this angle from the bottom towards the up side, radians; π/2 is level with the shaft.
    OnPulley(f64),
    /// On the straight up run, this far above the shaft, mm.
    OnUpRun(f64),
}

/// A point of the curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Retained {
    /// Where.
    pub position: Position,
    /// Height of the bucket's bolts above the shaft, mm (negative below).
    pub above_shaft_mm: f64,
    /// Share of the water-level fill that can stay, 0 to 1.
    pub share: f64,
}

/// Share of the water-level fill that can stay at a position. `friction_rad` is the angle of internal
/// friction, 0 for none, below π/2. Source: [`RETAINED_FILL`].
///
/// ```
/// use footwell::formulas::retained_fill::*;
/// use kurbo::Point;
/// // a box 150 × 100 mm, standing still at 45°: the level surface cuts a triangle, 1/3 stays
/// let bucket = BucketSection::new(vec![Point::new(150.0, 100.0), Point::new(150.0, 0.0), Point::new(0.0, 0.0), Point::new(0.0, 100.0)]).unwrap();
/// let wheel = Wheel { radius_mm: 300.0, omega_rad_per_s: 0.0 };
/// let share = retained_share(&bucket, &wheel, 0.0, Position::OnPulley(std::f64::consts::FRAC_PI_4));
/// assert!((share - 1.0 / 3.0).abs() < 1e-5, "{share}");
/// ```
pub fn retained_share(section: &BucketSection, wheel: &Wheel, friction_rad: f64, position: Position) -> f64 {
    let angle = match position {
        Position::OnPulley(angle) => angle,
        Position::OnUpRun(_) => return 1.0,
    };
    // World frame with the pulley centre as origin: outwards n, along the travel t.
    let out = Vec2::new(angle.sin(), -angle.cos());
    let along = Vec2::new(angle.cos(), angle.sin());
    let pole = Vec2::new(0.0, pole_distance_mm(wheel.omega_rad_per_s).min(FARTHEST_POLE_MM));
    let from_pole = |p: Point| out * (wheel.radius_mm + p.x) + along * p.y - pole;
    let surfaces = Surfaces::new(section.rim().map(from_pole), friction_rad.tan());
    let corners = || section.outline.iter().map(|p| from_pole(*p));
    let kept: f64 = corners().zip(corners().cycle().skip(1)).map(|(a, b)| surfaces.area_kept_by_edge(a, b)).sum();
    let share = (kept.abs() / section.water_level_mm2).clamp(0.0, 1.0);
    // What the arithmetic leaves of nothing is nothing.
    if share < 1e-9 { 0.0 } else { share }
}

/// The limit surfaces through the two ends of the opening, relative to the pole: r = R·exp(−tan φ·|ψ|), ψ from that end.
struct Surfaces {
    ends: [Vec2; 2],
    slope: f64,
    /// Directions in which an edge may pass from one law to another: through the ends, and where the surfaces meet.
    breaks: [Vec2; 4],
}

/// Angle from `from` to `to`, −π to π.
fn turn(from: Vec2, to: Vec2) -> f64 {
    from.cross(to).atan2(from.dot(to))
}

impl Surfaces {
    fn new(ends: [Vec2; 2], slope: f64) -> Self {
        let [a, b] = ends;
        // Between the ends one surface falls as the other rises, so they meet once on the short way and once on the long way round.
        let apart = turn(a, b);
        let meet = |way: f64| Vec2::from_angle(a.atan2() + way.signum() * ((a.hypot() / b.hypot()).ln() / slope + way.abs()) / 2.0);
        let breaks = if slope > 0.0 { [a, b, meet(apart), meet(apart - apart.signum() * TAU)] } else { [a, b, a, b] };
        Self { ends, slope, breaks }
    }

    /// ln(distance of a point from the pole over that of a surface in the same direction): negative where product flows out over that end.
    fn height(&self, end: Vec2, p: Vec2) -> f64 {
        let rise = (p.hypot2() / end.hypot2()).ln() / 2.0;
        if self.slope > 0.0 { rise + self.slope * turn(end, p).abs() } else { rise }
    }

    /// Signed area between an edge of the section and the surface below it, in the directions in which the edge lies outside of both surfaces, mm².
    fn area_kept_by_edge(&self, from: Vec2, to: Vec2) -> f64 {
        let run = to - from;
        let mut cuts = [0.0, 1.0, 1.0, 1.0, 1.0, 1.0];
        for (cut, direction) in cuts[1..5].iter_mut().zip(self.breaks) {
            let s = -direction.cross(from) / direction.cross(run);
            *cut = if s > 0.0 && s < 1.0 { s } else { 1.0 };
        }
        cuts.sort_by(f64::total_cmp);
        let pieces = cuts.iter().zip(&cuts[1..]).filter(|(s, e)| e > s);
        pieces.map(|(s, e)| self.area_kept_by_piece(from + run * *s, from + run * *e)).sum()
    }

    /// The same for a piece of an edge along which neither surface bends back and the outer one stays the same.
    fn area_kept_by_piece(&self, from: Vec2, to: Vec2) -> f64 {
        let middle = from + to; // only its direction counts
        let [a, b] = self.ends;
        let end = if self.height(a, middle) < self.height(b, middle) { a } else { b };
        let side = turn(end, middle).signum();
        let run = to - from;
        let at = |s: f64| from + run * s;
        // height along the piece; convex in the direction, so that it is negative on one stretch at most
        let height = |s: f64| self.height(end, at(s));
        let lowest = (-(from.dot(run) + self.slope * side * from.cross(run)) / run.hypot2()).clamp(0.0, 1.0);
        if height(lowest) >= 0.0 {
            return self.area_outside(end, side, from, to);
        }
        let mut kept = 0.0;
        if height(0.0) > ROUNDING {
            kept += self.area_outside(end, side, from, at(root(height, lowest, 0.0)));
        }
        if height(1.0) > ROUNDING {
            kept += self.area_outside(end, side, at(root(height, lowest, 1.0)), to);
        }
        kept
    }

    /// Signed area between a straight line outside of a surface and that surface, seen from the pole, mm².
    fn area_outside(&self, end: Vec2, side: f64, from: Vec2, to: Vec2) -> f64 {
        // At the direction opposite to the end the sign of the turn is that of the whole piece.
        let turns = [from, to].map(|p| side * turn(end, p).abs());
        let radii = turns.map(|a| (-self.slope * a.abs()).exp() * end.hypot());
        let [below_from, below_to] = [(from, radii[0]), (to, radii[1])].map(|(p, r)| p * (r / p.hypot()));
        // Corners relative to one of them: the pole may be very far away.
        let ring = [to - from, below_to - from, below_from - from];
        let straight = (ring[0].cross(ring[1]) + ring[1].cross(ring[2])) / 2.0;
        let swept = turns[1] - turns[0];
        straight - radii[0] * radii[1] / 2.0 * bulge(swept, self.slope)
    }
}

/// sinh(t·δ)/t − sin δ: twice the area between the spiral r = exp(−t·ψ) swept by δ and its chord, over the product of the two radii.
fn bulge(swept: f64, slope: f64) -> f64 {
    let (square, slope2) = (swept * swept, slope * slope);
    let (mut power, mut hyperbolic, mut sine, mut sum) = (swept, 1.0, 1.0, 0.0);
    // The last of these terms is below 1e-17 of the sum for a whole turn and slopes up to 2.
    for n in 1..=30_u32 {
        power *= square / f64::from(2 * n * (2 * n + 1));
        hyperbolic *= slope2;
        sine = -sine;
        sum += power * (hyperbolic - sine);
    }
    sum
}

/// Place between `inside`, where the height is negative, and `outside`, where it is positive, at which it is 0.
fn root(height: impl Fn(f64) -> f64, inside: f64, outside: f64) -> f64 {
    let at = |share: f64| inside + (outside - inside) * share;
    at(solve_itp(|share| height(at(share)), 0.0, 1.0, 1e-12, 1, 0.2, height(inside), height(outside)))
}

/// Share at a height of the bucket's bolts above the shaft, mm: on the pulley below the shaft, on the
/// straight run from the shaft up. Below the pulley's lowest point the bottom counts.
pub fn retained_share_at_height(section: &BucketSection, wheel: &Wheel, friction_rad: f64, above_shaft_mm: f64) -> Retained {
    let position =
        if above_shaft_mm >= 0.0 { Position::OnUpRun(above_shaft_mm) } else { Position::OnPulley((-above_shaft_mm / wheel.radius_mm).clamp(0.0, 1.0).acos()) };
    Retained { position, above_shaft_mm, share: retained_share(section, wheel, friction_rad, position) }
}

/// The curve from the bottom of the pulley to `top_mm` above the shaft, with `steps` equal angles on the
/// pulley (at least 1). At the shaft's level there are two points: just before and just after the belt
/// leaves the pulley.
pub fn retained_curve(section: &BucketSection, wheel: &Wheel, friction_rad: f64, top_mm: f64, steps: usize) -> Vec<Retained> {
    let steps = steps.max(1);
    let on_pulley = (0..=steps).map(|i| {
        let angle = FRAC_PI_2 * i as f64 / steps as f64;
        let above = if i == steps { 0.0 } else { -wheel.radius_mm * angle.cos() };
        let position = Position::OnPulley(angle);
        Retained { position, above_shaft_mm: above, share: retained_share(section, wheel, friction_rad, position) }
    });
    let straight = [0.0, top_mm.max(0.0)].map(|above| Retained { position: Position::OnUpRun(above), above_shaft_mm: above, share: 1.0 });
    on_pulley.chain(straight).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::units::GRAVITY;
    use std::f64::consts::PI;

    fn bucket() -> BucketSection {
        // A usual deep bucket: sloping front, rounded bottom, back higher than the lip.
        BucketSection::new([(165.0, 60.0), (120.0, -20.0), (80.0, -55.0), (20.0, -60.0), (0.0, -45.0), (0.0, 95.0)].map(Point::from).to_vec()).unwrap()
    }

    fn box_bucket() -> BucketSection {
        BucketSection::new([(150.0, 100.0), (150.0, 0.0), (0.0, 0.0), (0.0, 100.0)].map(Point::from).to_vec()).unwrap()
    }

    const FAST: Wheel = Wheel { radius_mm: 320.0, omega_rad_per_s: 8.1 };

    /// Plain counting of cells of a grid: apparent potential g·z − ω²·|X|²/2, no pole needed.
    fn counted(section: &BucketSection, wheel: &Wheel, angle: f64) -> f64 {
        let potential = |p: Point| {
            let x = Vec2::new(angle.sin(), -angle.cos()) * (wheel.radius_mm + p.x) + Vec2::new(angle.cos(), angle.sin()) * p.y;
            9806.65 * x.y - 0.5 * wheel.omega_rad_per_s.powi(2) * x.hypot2()
        };
        let limit = section.rim().map(potential).into_iter().fold(f64::INFINITY, f64::min);
        let inside = |p: Point| {
            let o = section.outline.as_slice();
            (0..o.len())
                .filter(|i| {
                    let (a, b) = (o[*i], o[(i + 1) % o.len()]);
                    (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x
                })
                .count()
                % 2
                == 1
        };
        let step = 0.8;
        let mut cells = 0.0;
        for i in 0..250 {
            for j in 0..250 {
                let p = Point::new(-10.0 + step * (f64::from(i) + 0.5), -80.0 + step * (f64::from(j) + 0.5));
                if inside(p) && potential(p) < limit {
                    cells += 1.0;
                }
            }
        }
        (cells * step * step / section.water_level_area_mm2()).min(1.0)
    }

    #[test]
    fn agrees_with_counting_cells_of_the_potential() {
        let mut seen_between = 0;
        for omega in [1.0, 3.0, 5.0, 8.1] {
            for degrees in [0.0f64, 30.0, 60.0, 80.0, 90.0] {
                let wheel = Wheel { omega_rad_per_s: omega, ..FAST };
                let exact = retained_share(&bucket(), &wheel, 0.0, Position::OnPulley(degrees.to_radians()));
                let count = counted(&bucket(), &wheel, degrees.to_radians());
                assert!((exact - count).abs() < 4e-3, "omega {omega}, {degrees}°: {exact} against {count}");
                seen_between += usize::from(exact > 0.05 && exact < 0.95);
            }
        }
        assert!(seen_between >= 4);
    }

    /// Rays from the pole, one after the other: what of the section lies on each beyond both surfaces.
    fn swept(section: &BucketSection, wheel: &Wheel, friction: f64, angle: f64) -> f64 {
        let (out, along) = (Vec2::new(angle.sin(), -angle.cos()), Vec2::new(angle.cos(), angle.sin()));
        let pole = Vec2::new(0.0, 1000.0 * GRAVITY / wheel.omega_rad_per_s.powi(2));
        let at = |p: &Point| out * (wheel.radius_mm + p.x) + along * p.y - pole;
        let corners: Vec<Vec2> = section.outline.as_slice().iter().map(at).collect();
        let ends = [corners[0], corners[corners.len() - 1]];
        // All directions in which the section is seen, or the whole turn when the pole is in or beside it.
        let (low, high) = corners.iter().map(|c| turn(ends[0], *c)).fold((0.0, 0.0), |(l, h), a| (a.min(l), a.max(h)));
        let (start, width) = if high - low < 3.0 { (ends[0].atan2() + low, high - low) } else { (0.0, TAU) };
        let rays = if width < TAU { 2000 } else { 40_000 };
        let step = width / f64::from(rays);
        let mut area = 0.0;
        for i in 0..rays {
            let direction = start + (f64::from(i) + 0.5) * step;
            let ray = Vec2::from_angle(direction);
            let surface = ends
                .iter()
                .map(|e| {
                    let away = (direction - e.atan2()).rem_euclid(TAU);
                    e.hypot() * (-friction.tan() * away.min(TAU - away)).exp()
                })
                .fold(0.0, f64::max);
            for (k, a) in corners.iter().enumerate() {
                let b = corners[(k + 1) % corners.len()];
                let (side_a, side_b) = (ray.cross(*a), ray.cross(b));
                if (side_a > 0.0) != (side_b > 0.0) {
                    let r = ray.dot(a.lerp(b, side_a / (side_a - side_b)));
                    let beyond = (r * r - surface * surface).max(0.0) / 2.0;
                    area += if r > 0.0 { step * beyond * if side_b > side_a { 1.0 } else { -1.0 } } else { 0.0 };
                }
            }
        }
        (area.abs() / section.water_level_area_mm2()).min(1.0)
    }

    #[test]
    fn agrees_with_rays_from_the_pole() {
        // A back lower than the lip, so that either end may be the one that spills.
        let low_back = BucketSection::new([(165.0, 60.0), (120.0, -40.0), (0.0, -45.0), (0.0, 30.0)].map(Point::from).to_vec()).unwrap();
        let (mut partly, mut most) = (0, 0.0_f64);
        for section in [bucket(), box_bucket(), low_back] {
            for omega in [0.6, 2.0, 3.5, 4.9, 7.0] {
                for friction in [0.0, 0.2, 0.5, 0.8] {
                    for angle in [0.0, 0.4, 0.9, 1.3, 1.55, 2.4, 3.0, 4.2] {
                        let wheel = Wheel { omega_rad_per_s: omega, ..FAST };
                        let share = retained_share(&section, &wheel, friction, Position::OnPulley(angle));
                        let by_rays = swept(&section, &wheel, friction, angle);
                        assert!((share - by_rays).abs() < 1e-5, "omega {omega}, friction {friction}, at {angle}: {share} against {by_rays}");
                        most = most.max((share - by_rays).abs());
                        partly += usize::from(share > 0.02 && share < 0.98);
                    }
                }
            }
        }
        assert!(partly > 150, "{partly} of 480 partly filled; largest difference {most}");
    }

    /// sinh(t·δ)/t − sin δ as it is written, where that does not cancel; half the area of a quarter disc beyond its chord.
    #[test]
    fn area_between_spiral_and_chord() {
        for (swept, slope) in [(1.0, 0.3), (2.0, 0.7), (-1.5, 1.2), (3.0, 0.9)] {
            assert!((bulge(swept, slope) - ((slope * swept).sinh() / slope - swept.sin())).abs() < 1e-13, "{swept} {slope}");
        }
        assert!((bulge(FRAC_PI_2, 0.0) - (FRAC_PI_2 - 1.0)).abs() < 1e-14);
        // small: (1 + t²)·δ³/6
        assert!((bulge(1e-5, 0.5) / (1.25e-15 / 6.0) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn nothing_stays_at_the_bottom_and_everything_on_the_straight_run() {
        let at = |p| retained_share(&bucket(), &FAST, 0.0, p);
        assert!(at(Position::OnPulley(0.0)) < 0.02, "{}", at(Position::OnPulley(0.0)));
        assert_eq!(at(Position::OnUpRun(0.0)), 1.0);
        // The circle about the centre through the lip of a box leaves nothing.
        let very_fast = Wheel { radius_mm: 300.0, omega_rad_per_s: 1000.0 };
        assert!(retained_share(&box_bucket(), &very_fast, 0.0, Position::OnPulley(0.3)) < 1e-9);
    }

    #[test]
    fn standing_still_the_surface_is_level() {
        let still = Wheel { radius_mm: 300.0, omega_rad_per_s: 0.0 };
        assert!((retained_share(&box_bucket(), &still, 0.0, Position::OnPulley(FRAC_PI_2)) - 1.0).abs() < 1e-4);
        assert!((box_bucket().water_level_area_mm2() - 15_000.0).abs() < 1e-2);
        // Upside down nothing stays.
        assert!(retained_share(&box_bucket(), &still, 0.0, Position::OnPulley(-FRAC_PI_2)) < 1e-4);
        // With friction φ at 45°: the slope through the lip stands φ steeper: w = u·tan(45° − φ)-line from the lip.
        let phi = 20f64.to_radians();
        let rise = (PI / 4.0 - phi).tan();
        let want = (150.0 * 100.0 - 150.0 * 150.0 * rise / 2.0) / 15_000.0;
        assert!((retained_share(&box_bucket(), &still, phi, Position::OnPulley(PI / 4.0)) - want).abs() < 1e-5);
    }

    /// Water-level fill of sections with a sloping back and a sloping front, as trapezoids: 150 or 175 less 25 at the level, 150 at the bottom.
    #[test]
    fn water_level_fill_of_sloping_sections() {
        for (corners, want) in [
            ([(150.0, 100.0), (150.0, 0.0), (0.0, 0.0), (40.0, 160.0)], 100.0 * (150.0 + 125.0) / 2.0),
            ([(190.0, 160.0), (150.0, 0.0), (0.0, 0.0), (0.0, 100.0)], 100.0 * (150.0 + 175.0) / 2.0),
        ] {
            let section = BucketSection::new(corners.map(Point::from).to_vec()).unwrap();
            assert!((section.water_level_area_mm2() - want).abs() < 1e-9, "{}", section.water_level_area_mm2());
        }
    }

    #[test]
    fn friction_holds_more_and_rising_buckets_hold_more() {
        let mut last = -1.0;
        for degrees in [0.0f64, 20.0, 40.0, 60.0, 80.0, 90.0] {
            let p = Position::OnPulley(degrees.to_radians());
            let wheel = Wheel { omega_rad_per_s: 3.0, ..FAST };
            let smooth = retained_share(&bucket(), &wheel, 0.0, p);
            let rough = retained_share(&bucket(), &wheel, 0.5, p);
            assert!(rough >= smooth && smooth >= last - 1e-9, "{degrees}: {smooth} {rough}");
            last = smooth;
        }
        let p = Position::OnPulley(1.2);
        assert!(retained_share(&bucket(), &FAST, 0.6, p) > retained_share(&bucket(), &FAST, 0.3, p) + 0.02);
    }

    #[test]
    fn the_curve_runs_from_the_bottom_to_above_the_shaft() {
        let curve = retained_curve(&bucket(), &FAST, 0.0, 400.0, 30);
        assert_eq!(curve.len(), 33);
        assert_eq!((curve[0].above_shaft_mm, curve[30].above_shaft_mm, curve[31].above_shaft_mm, curve[32].above_shaft_mm), (-320.0, 0.0, 0.0, 400.0));
        assert!(curve[30].share < curve[31].share && curve[31].share == 1.0);
        let mid = retained_share_at_height(&bucket(), &FAST, 0.0, -160.0);
        assert_eq!(mid.share, retained_share(&bucket(), &FAST, 0.0, Position::OnPulley(PI / 3.0)));
        assert_eq!(retained_share_at_height(&bucket(), &FAST, 0.0, -900.0).position, Position::OnPulley(0.0));
        assert_eq!(retained_share_at_height(&bucket(), &FAST, 0.0, 0.0).share, 1.0);
        assert_eq!(retained_curve(&bucket(), &FAST, 0.0, -5.0, 0).len(), 4);
        // A third of the quarter turn is 30°; half the radius below the shaft is 60°, where shares lie between 0 and 1.
        let slow = Wheel { omega_rad_per_s: 3.0, ..FAST };
        let third = retained_curve(&bucket(), &slow, 0.5, 0.0, 30)[10];
        let at = |degrees: f64| retained_share(&bucket(), &slow, 0.5, Position::OnPulley(degrees.to_radians()));
        assert!((third.above_shaft_mm + 320.0 * 30f64.to_radians().cos()).abs() < 1e-9 && (third.share - at(30.0)).abs() < 1e-12);
        assert!((retained_share_at_height(&bucket(), &slow, 0.5, -160.0).share - at(60.0)).abs() < 1e-9 && at(60.0) > at(30.0) + 0.05);
    }

    #[test]
    fn a_pole_inside_the_bucket_does_no_harm() {
        // Over the top of a slow pulley the pole comes to lie in the bucket.
        for omega in [4.6, 4.8, 5.0, 5.2] {
            for angle in [2.9, 3.0, PI, 3.3] {
                let share = retained_share(&bucket(), &Wheel { omega_rad_per_s: omega, ..FAST }, 0.4, Position::OnPulley(angle));
                assert!((0.0..=1.0).contains(&share));
            }
        }
    }

    #[test]
    fn senseless_sections_are_refused() {
        let make = |p: &[(f64, f64)]| BucketSection::new(p.iter().copied().map(Point::from).collect());
        assert_eq!(make(&[(1.0, 1.0), (0.0, 0.0)]).unwrap_err(), SectionError::TooFewCorners);
        assert_eq!(make(&[(1.0, f64::NAN), (0.0, 0.0), (0.0, 1.0)]).unwrap_err(), SectionError::NotFinite);
        assert_eq!(make(&[(100.0, 0.0), (50.0, 50.0), (0.0, 100.0)]).unwrap_err(), SectionError::HoldsNothing);
        assert!(SectionError::HoldsNothing.to_string().contains("from the lip"));
        assert_eq!(bucket().rim()[0], Point::new(165.0, 60.0));
        assert_eq!(bucket().outline.len(), 6);
    }
}
