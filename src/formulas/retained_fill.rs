//! How much of its water-level fill a bucket can hold at each place of its way through the foot.
//!
//! In: the bucket's inner section, the pulley, the angle of friction, a position. Out: the share of the
//! water-level fill, 0 to 1. It is the most that *can* stay, for a plane section, product at rest in the
//! bucket; it says nothing of how the product gets in. Areas are exact to about 2e-5 of the share
//! (curves flattened to [`FLATNESS_MM`]).
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
use crate::sources::Source;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Retained fill by the pole construction.
pub const RETAINED_FILL: Source = Source::physics("pole construction: apparent weight ω²·(X − P), circles and logarithmic spirals about P through the lip");

/// Largest distance between a curve and its chords, mm.
pub const FLATNESS_MM: f64 = 1e-3;
/// Chords of the lobe's far side, which only has to stay clear of the bucket.
const INNER_CHORDS: u32 = 12;
/// Pole distances beyond this, mm, are taken as this: the surface is then flat to 1e-4 mm over a bucket.
const FARTHEST_POLE_MM: f64 = 1e8;
const MOST_CHORDS: f64 = 20_000.0;

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
        let (low, high, wide) = section.outline.iter().fold((level, level, 0.0_f64), |(l, h, wide), p| (l.min(p.y), h.max(p.y), wide.max(p.x.abs())));
        let (side, top) = (wide + 1.0, high + 1.0);
        let above = [[-side, level], [side, level], [side, top], [-side, top]];
        let water_level_mm2 = area_outside(&section.outline, &[above.to_vec()]);
        if water_level_mm2 < 1e-3 || low >= level {
            return Err(SectionError::HoldsNothing);
        }
        Ok(Self { water_level_mm2, ..section })
    }
    /// The corners, lip first.
    pub fn outline(&self) -> &[Point] {
        &self.outline
    }
    /// The lip.
    pub fn lip(&self) -> Point {
        self.rim()[0]
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
    let corners: Vec<Vec2> = section.outline.iter().map(|p| from_pole(*p)).collect();
    let rim = section.rim().map(from_pole);
    // Cut in coordinates relative to the lip: the pole may be very far away.
    let origin = rim[0];
    let lobes: Vec<Vec<[f64; 2]>> = rim.iter().map(|edge| lobe(*edge, friction_rad.tan(), &corners, origin)).collect();
    let local: Vec<Point> = corners.iter().map(|c| (*c - origin).to_point()).collect();
    (area_outside(&local, &lobes) / section.water_level_mm2).clamp(0.0, 1.0)
}

/// The region on the pole's side of the limit surface through one end of the opening, wide enough to
/// cover the bucket; coordinates relative to `origin`, everything else relative to the pole.
fn lobe(edge: Vec2, slope: f64, corners: &[Vec2], origin: Vec2) -> Vec<[f64; 2]> {
    let base = edge.atan2();
    let radius = edge.hypot();
    let turn = |v: Vec2| {
        let a = (v.atan2() - base).rem_euclid(TAU);
        if a > PI { a - TAU } else { a }
    };
    let (mut low, mut high) = corners.iter().map(|c| turn(*c)).fold((0.0_f64, 0.0_f64), |(l, h), a| (l.min(a), h.max(a)));
    let margin = 0.05 * (high - low);
    (low, high) = (low - margin, high + margin);
    if high - low > 0.95 * PI {
        // The pole is in or beside the bucket: take the whole turn.
        (low, high) = (-PI, PI);
    }
    let nearest = corners.iter().map(|c| c.hypot()).fold(radius, f64::min);
    let size = corners.iter().map(|c| (*c - edge).hypot()).fold(0.0, f64::max);
    let inner = if high - low > PI { 0.0 } else { (nearest - 3.0 * size).max(0.0) };
    let step = (8.0 * FLATNESS_MM / (radius * (1.0 + slope * slope).sqrt())).sqrt();
    let at = |angle: f64, r: f64| {
        let p = Vec2::from_angle(base + angle) * r - origin;
        [p.x, p.y]
    };
    let spread = |from: f64, to: f64| {
        let n = ((to - from).abs() / step).ceil().clamp(1.0, MOST_CHORDS);
        (0..n as usize).map(move |i| from + (to - from) * i as f64 / n)
    };
    let surface = spread(low, 0.0).chain(spread(0.0, high)).chain([high]).map(|a| at(a, radius * (-slope * a.abs()).exp()));
    if inner > 0.0 {
        let back = (0..=INNER_CHORDS).map(|i| high + (low - high) * f64::from(i) / f64::from(INNER_CHORDS));
        surface.chain(back.map(|a| at(a, inner.min(radius * (-slope * a.abs()).exp())))).collect()
    } else {
        surface.chain([at(0.0, 0.0)]).collect()
    }
}

/// Area of a polygon outside of all cutters, mm².
fn area_outside(polygon: &[Point], cutters: &[Vec<[f64; 2]>]) -> f64 {
    let subject: Vec<[f64; 2]> = polygon.iter().map(|p| [p.x, p.y]).collect();
    let left = subject.overlay(&cutters.to_vec(), OverlayRule::Difference, FillRule::NonZero);
    // An empty sum of floats is −0.
    0.0 + left.iter().map(|shape| shape.iter().map(|c| signed_area(c)).sum::<f64>().abs()).sum::<f64>()
}

fn signed_area(contour: &[[f64; 2]]) -> f64 {
    contour.iter().zip(contour.iter().cycle().skip(1)).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum::<f64>() / 2.0
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
            let o = section.outline();
            (0..o.len())
                .filter(|i| {
                    let (a, b) = (o[*i], o[(i + 1) % o.len()]);
                    (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x
                })
                .count()
                % 2
                == 1
        };
        let step = 0.4;
        let mut cells = 0.0;
        for i in 0..500 {
            for j in 0..500 {
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
        assert!((retained_share(&box_bucket(), &still, phi, Position::OnPulley(PI / 4.0)) - want).abs() < 1e-4);
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
        assert_eq!(bucket().lip(), Point::new(165.0, 60.0));
        assert_eq!(bucket().outline().len(), 6);
    }
}
