//! The closed belt path over foot pulley, head pulley and an optional bend pulley inside the loop.
//!
//! In: centres and radii to the belt's neutral line, mm, in the frame x to the up side, z up.
//! Out: arcs and straight runs in travel order, wraps, lengths, the derivative of the length and the
//! belt's angle at the bend. The path is the boundary of the convex hull of the circles; sag, belt
//! stiffness and crossing runs are not covered.

use crate::sources::Source;
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, TAU};

/// Path as hull of circles; for two pulleys it is the open-belt formula of Shigley eq. 17-1, 17-2.
pub const BELT_PATH: Source = Source::physics("convex hull of circles; open belt: Shigley, Mechanical Engineering Design, eq. 17-1 and 17-2");
/// Derivative of the belt length with the level of the foot pulley.
pub const LENGTH_DERIVATIVE: Source = Source::physics("the arcs' changes cancel (envelope theorem); only the runs' directions remain");

/// Which pulley.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pulley {
    /// At the bottom.
    Foot,
    /// At the top, drives.
    Head,
    /// Inside the loop on the down side.
    Bend,
}

/// A pulley's circle: its centre, and its radius to the belt's neutral line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circle {
    /// Centre, mm.
    pub centre: Point,
    /// Radius to the neutral line: D/2 + t/2, mm.
    pub radius_mm: f64,
}

/// The pulleys of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pulleys {
    /// Foot pulley.
    pub foot: Circle,
    /// Head pulley.
    pub head: Circle,
    /// Bend pulley, if there is one.
    pub bend: Option<Circle>,
}

/// Radius of the belt's neutral line on a pulley, mm: the middle of its thickness.
///
/// ```
/// assert_eq!(footwell::formulas::belt_path::neutral_radius(630.0, 9.0), 319.5);
/// ```
pub fn neutral_radius(pulley_diameter_mm: f64, belt_thickness_mm: f64) -> f64 {
    (pulley_diameter_mm + belt_thickness_mm) / 2.0
}

impl Pulleys {
    /// The usual layout: up run vertical at x = R_foot, so that the head stands at x = R_foot − R_head;
    /// down run vertical at x = R_foot − 2·R_head down to the bend pulley, which touches it from inside.
    /// The foot shaft is at (0, `foot_z_mm`). Radii to the neutral line; `bend` is (radius, level), mm.
    pub fn usual(foot_radius_mm: f64, foot_z_mm: f64, head_radius_mm: f64, head_z_mm: f64, bend: Option<(f64, f64)>) -> Self {
        let down_x = foot_radius_mm - 2.0 * head_radius_mm;
        Self {
            foot: Circle { centre: Point::new(0.0, foot_z_mm), radius_mm: foot_radius_mm },
            head: Circle { centre: Point::new(foot_radius_mm - head_radius_mm, head_z_mm), radius_mm: head_radius_mm },
            bend: bend.map(|(radius_mm, z)| Circle { centre: Point::new(down_x + radius_mm, z), radius_mm }),
        }
    }
    /// The same pulleys with the foot pulley at another level (the take-up moved), mm.
    pub fn with_foot_at(mut self, z_mm: f64) -> Self {
        self.foot.centre.y = z_mm;
        self
    }
    fn circle(&self, pulley: Pulley) -> Circle {
        match pulley {
            Pulley::Foot => self.foot,
            Pulley::Head => self.head,
            Pulley::Bend => self.bend.unwrap_or(self.foot),
        }
    }
}

/// A piece of the belt, in travel order (up on the +x side, counter-clockwise seen with x right, z up).
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// On a pulley.
    Arc {
        /// The pulley.
        pulley: Pulley,
        /// Its centre, mm.
        centre: Point,
        /// Radius to the neutral line, mm.
        radius_mm: f64,
        /// Direction from the centre where the belt arrives, radians from +x towards +z.
        start_rad: f64,
        /// Wrap, radians, counter-clockwise positive.
        sweep_rad: f64,
    },
    /// Straight between two pulleys.
    Line {
        /// The pulley that the belt leaves.
        leaves: Pulley,
        /// The pulley that it reaches.
        reaches: Pulley,
        /// Where it leaves, mm.
        from: Point,
        /// Where it arrives, mm.
        to: Point,
    },
}

impl Segment {
    /// Length of the piece, mm.
    pub fn length_mm(&self) -> f64 {
        match *self {
            Segment::Arc { radius_mm, sweep_rad, .. } => radius_mm * sweep_rad,
            Segment::Line { from, to, .. } => from.distance(to),
        }
    }
}

/// What the bend pulley does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bend {
    /// There is none.
    None,
    /// The belt lies on it.
    Touched {
        /// Wrap on the bend pulley; equals the belt's turn there, radians.
        wrap_rad: f64,
    },
    /// The belt passes it without touching.
    Clear {
        /// Free distance between the pulley's circle and the down run, mm.
        gap_mm: f64,
    },
}

/// Why there is no path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PathError {
    /// A radius is not positive, or a number is not finite.
    BadNumber(Pulley),
    /// One pulley's circle lies inside another one's.
    Inside(Pulley, Pulley),
    /// The head pulley is not above the foot pulley.
    HeadNotAbove,
    /// A pulley is touched twice or the bend pulley pushes on the up run: no elevator looks like that.
    Tangled,
}

impl std::fmt::Display for PathError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let name = |p: &Pulley| match p {
            Pulley::Foot => "foot pulley",
            Pulley::Head => "head pulley",
            Pulley::Bend => "bend pulley",
        };
        match self {
            PathError::BadNumber(p) => write!(f, "the {}'s radius or position is not a usable number", name(p)),
            PathError::Inside(a, b) => write!(f, "the {} lies inside the {}", name(a), name(b)),
            PathError::HeadNotAbove => write!(f, "the head pulley is not above the foot pulley"),
            PathError::Tangled => write!(f, "the bend pulley does not lie between foot and head on the down side"),
        }
    }
}

impl std::error::Error for PathError {}

/// The closed path.
#[derive(Debug, Clone, PartialEq)]
pub struct BeltPath {
    /// Pieces in travel order: foot arc, up run, head arc, down run, (bend arc, lower down run).
    pub segments: Vec<Segment>,
    /// Total length along the neutral line, mm.
    pub length_mm: f64,
    /// What the bend pulley does.
    pub bend: Bend,
    /// Change of length per lowering of the foot pulley, mm/mm: 2 for vertical runs, less for inclined ones.
    pub length_per_lowering: f64,
    /// Change of length per shift of the foot pulley towards the up side, mm/mm.
    pub length_per_shift: f64,
}

impl BeltPath {
    /// Wrap on a pulley, radians; 0 if the belt does not touch it.
    pub fn wrap_rad(&self, pulley: Pulley) -> f64 {
        self.segments
            .iter()
            .map(|s| match s {
                Segment::Arc { pulley: p, sweep_rad, .. } if *p == pulley => *sweep_rad,
                _ => 0.0,
            })
            .sum()
    }
    /// The straight run that leaves a pulley: from, to. The up run leaves the foot, the down run the head.
    pub fn run_leaving(&self, pulley: Pulley) -> Option<(Point, Point)> {
        self.segments.iter().find_map(|s| match s {
            Segment::Line { leaves, from, to, .. } if *leaves == pulley => Some((*from, *to)),
            _ => None,
        })
    }
    /// The straight run that reaches the foot pulley: from, to.
    pub fn run_to_foot(&self) -> Option<(Point, Point)> {
        self.segments.iter().find_map(|s| match s {
            Segment::Line { reaches: Pulley::Foot, from, to, .. } => Some((*from, *to)),
            _ => None,
        })
    }
    /// Angle between the run that reaches the foot pulley and the vertical, radians, 0 for vertical,
    /// positive when the run leans towards the up side on its way down.
    pub fn foot_run_angle_rad(&self) -> f64 {
        self.run_to_foot().map_or(0.0, |(from, to)| (to.x - from.x).atan2(from.y - to.y))
    }
}

/// Builds the path.
///
/// Every pulley is described by its support function h(θ) = c·n(θ) + R, n the outward normal; the hull
/// follows at each θ the pulley with the largest h. From pulley i it changes to j at
/// θ = ψ − acos((R_i − R_j)/d), ψ the direction from i to j, d their distance; the first such angle
/// counter-clockwise wins. Source: [`BELT_PATH`].
///
/// # Errors
/// [`PathError`] names what is wrong with the pulleys.
///
/// ```
/// use footwell::formulas::belt_path::{belt_path, Pulleys};
/// // equal pulleys: L = 2C + πD
/// let p = belt_path(&Pulleys::usual(315.0, 0.0, 315.0, 20_000.0, None)).unwrap();
/// assert!((p.length_mm - (40_000.0 + std::f64::consts::PI * 630.0)).abs() < 1e-6);
/// ```
pub fn belt_path(pulleys: &Pulleys) -> Result<BeltPath, PathError> {
    let mut present = vec![Pulley::Foot, Pulley::Head];
    present.extend(pulleys.bend.map(|_| Pulley::Bend));
    check(pulleys, &present)?;

    // Corners of the hull: which pulley is left for which, at which normal angle.
    let mut corners: Vec<(Pulley, Pulley, f64)> = Vec::new();
    let (mut at, mut theta) = (Pulley::Foot, -FRAC_PI_2);
    loop {
        let Some((next, turn)) = present
            .iter()
            .filter(|p| **p != at)
            .map(|p| (*p, (leave_angle(pulleys.circle(at), pulleys.circle(*p)) - theta).rem_euclid(TAU)))
            .min_by(|a, b| a.1.total_cmp(&b.1))
        else {
            return Err(PathError::Tangled);
        };
        theta += turn;
        corners.push((at, next, theta));
        at = next;
        if at == Pulley::Foot {
            break;
        }
        if corners.len() > 3 {
            return Err(PathError::Tangled);
        }
    }
    let order: Vec<Pulley> = corners.iter().map(|c| c.0).collect();
    let touched = match order.as_slice() {
        [Pulley::Foot, Pulley::Head] => false,
        [Pulley::Foot, Pulley::Head, Pulley::Bend] => true,
        _ => return Err(PathError::Tangled),
    };

    let mut segments = Vec::with_capacity(2 * corners.len());
    let mut arrival = corners.last().map_or(0.0, |c| c.2) - TAU;
    for &(leaves, reaches, angle) in &corners {
        let (a, b) = (pulleys.circle(leaves), pulleys.circle(reaches));
        segments.push(Segment::Arc { pulley: leaves, centre: a.centre, radius_mm: a.radius_mm, start_rad: arrival, sweep_rad: angle - arrival });
        let normal = Vec2::from_angle(angle);
        segments.push(Segment::Line { leaves, reaches, from: a.centre + normal * a.radius_mm, to: b.centre + normal * b.radius_mm });
        arrival = angle;
    }
    let length_mm = segments.iter().map(Segment::length_mm).sum();
    let bend = match (pulleys.bend, touched) {
        (None, _) => Bend::None,
        (Some(_), true) => Bend::Touched {
            wrap_rad: segments
                .iter()
                .map(|s| match s {
                    Segment::Arc { pulley: Pulley::Bend, sweep_rad, .. } => *sweep_rad,
                    _ => 0.0,
                })
                .sum(),
        },
        (Some(b), false) => {
            let normal = Vec2::from_angle(arrival);
            let line = pulleys.foot.centre.to_vec2().dot(normal) + pulleys.foot.radius_mm;
            Bend::Clear { gap_mm: line - b.centre.to_vec2().dot(normal) - b.radius_mm }
        }
    };
    // Moving the foot centre by e changes the length by Σ u·e, u pointing along each run towards the foot.
    let pull: Vec2 = segments
        .iter()
        .filter_map(|s| match *s {
            Segment::Line { leaves: Pulley::Foot, from, to, .. } => Some((from - to).normalize()),
            Segment::Line { reaches: Pulley::Foot, from, to, .. } => Some((to - from).normalize()),
            _ => None,
        })
        .fold(Vec2::ZERO, |sum, u| sum + u);
    Ok(BeltPath { segments, length_mm, bend, length_per_lowering: -pull.y, length_per_shift: pull.x })
}

fn leave_angle(i: Circle, j: Circle) -> f64 {
    let d = j.centre - i.centre;
    d.atan2() - ((i.radius_mm - j.radius_mm) / d.hypot()).clamp(-1.0, 1.0).acos()
}

fn check(pulleys: &Pulleys, present: &[Pulley]) -> Result<(), PathError> {
    for &p in present {
        let c = pulleys.circle(p);
        if !(c.radius_mm > 0.0 && c.radius_mm.is_finite() && c.centre.x.is_finite() && c.centre.y.is_finite()) {
            return Err(PathError::BadNumber(p));
        }
    }
    for &a in present {
        for &b in present {
            let (ca, cb) = (pulleys.circle(a), pulleys.circle(b));
            if a != b && ca.centre.distance(cb.centre) + ca.radius_mm <= cb.radius_mm {
                return Err(PathError::Inside(a, b));
            }
        }
    }
    if pulleys.head.centre.y <= pulleys.foot.centre.y {
        return Err(PathError::HeadNotAbove);
    }
    // The walk round the hull starts at the foot pulley's lowest point, which must lie on the hull.
    let lowest = |p: Pulley| pulleys.circle(p).centre.y - pulleys.circle(p).radius_mm;
    if present.iter().any(|p| lowest(*p) < lowest(Pulley::Foot)) {
        return Err(PathError::Tangled);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;
    use std::f64::consts::PI;

    fn two(r: f64, head_r: f64, c: f64) -> Pulleys {
        Pulleys { foot: Circle { centre: Point::ORIGIN, radius_mm: r }, head: Circle { centre: Point::new(0.0, c), radius_mm: head_r }, bend: None }
    }

    /// Shigley eq. 17-2, length of an open belt: L = √(4C² − (D−d)²) + ½(D·θ_D + d·θ_d), for 2C > |D−d|.
    fn open_belt_length(large: f64, small: f64, centres: f64) -> f64 {
        let (small_wrap, large_wrap) = open_belt_wraps_rad(large, small, centres);
        (4.0 * centres * centres - (large - small).powi(2)).sqrt() + 0.5 * (large * large_wrap + small * small_wrap)
    }

    /// Shigley eq. 17-1, wraps of an open belt: (small pulley, large pulley) = π ∓ 2·asin((D−d)/2C).
    fn open_belt_wraps_rad(large: f64, small: f64, centres: f64) -> (f64, f64) {
        let lean = 2.0 * ((large - small) / (2.0 * centres)).asin();
        (PI - lean, PI + lean)
    }

    /// Shigley, Mechanical Engineering Design, open belt: D 18, d 6, C 96 in.
    #[test]
    fn shigley_open_belt() {
        let p = belt_path(&two(3.0, 9.0, 96.0)).unwrap();
        assert!((p.length_mm - 230.074).abs() < 5e-4, "{}", p.length_mm);
        assert!((p.wrap_rad(Pulley::Foot) - 3.016_511).abs() < 1e-6);
        assert!((p.wrap_rad(Pulley::Head) - 3.266_674).abs() < 1e-6);
        let (small, large) = open_belt_wraps_rad(18.0, 6.0, 96.0);
        assert!((small - 3.016_511).abs() < 1e-6 && (large - 3.266_674).abs() < 1e-6);
    }

    /// Open belts: D 1.6, d 0.5, C 12 m is 27.32 m (published); the other two are computed.
    #[test]
    fn open_belts() {
        for (d, small, c, l) in [(1.6, 0.5, 12.0, 27.323_885), (0.63, 0.50, 20.0, 41.775_211), (1.0, 0.8, 3.0, 8.830_767)] {
            assert!((open_belt_length(d, small, c) - l).abs() < 1e-6, "{l}");
            assert!((belt_path(&two(small / 2.0, d / 2.0, c)).unwrap().length_mm - l).abs() < 1e-6, "{l}");
        }
        assert!((open_belt_wraps_rad(1.0, 0.8, 3.0).0.to_degrees() - 176.1796).abs() < 1e-4);
        // Shigley's approximation 2C + π(D + d)/2 + (D − d)²/(4C): 27.323881 m
        let (d, small, c) = (1.6, 0.5, 12.0);
        let nearly = 2.0 * c + PI * (d + small) / 2.0 + (d - small) * (d - small) / (4.0 * c);
        assert!((nearly - 27.323_881).abs() < 1e-6 && (open_belt_length(d, small, c) - nearly).abs() < 5e-6);
    }

    fn bent(z: f64) -> Pulleys {
        Pulleys::usual(405.0, z, 1105.0, 30_000.0, Some((255.0, z.max(0.0) + 2600.0)))
    }

    /// Identity: the wraps of a closed path add to a full turn; the head keeps 180° with vertical runs,
    /// and bend and foot share the other 180°.
    #[test]
    fn wraps_add_up() {
        let p = belt_path(&bent(0.0)).unwrap();
        let Bend::Touched { wrap_rad } = p.bend else { panic!("{:?}", p.bend) };
        assert!((p.wrap_rad(Pulley::Head) - PI).abs() < 1e-12);
        assert!((p.wrap_rad(Pulley::Foot) + wrap_rad - PI).abs() < 1e-12);
        assert!(wrap_rad > 0.1 && (p.foot_run_angle_rad() - wrap_rad).abs() < 1e-12);
        // straight part √(d² − (R_f − R_b)²)
        let (from, to) = p.run_to_foot().unwrap();
        let d = bent(0.0).bend.unwrap().centre.distance(Point::ORIGIN);
        assert!((from.distance(to) - (d * d - 150.0 * 150.0).sqrt()).abs() < 1e-9);
    }

    /// Identity: a parallel path at distance h is longer by exactly 2πh, whatever the number of pulleys.
    #[test]
    fn parallel_curve() {
        let base = bent(0.0);
        let mut wider = base;
        wider.foot.radius_mm += 7.0;
        wider.head.radius_mm += 7.0;
        wider.bend = wider.bend.map(|b| Circle { radius_mm: b.radius_mm + 7.0, ..b });
        let (a, b) = (belt_path(&base).unwrap(), belt_path(&wider).unwrap());
        assert!((b.length_mm - a.length_mm - TAU * 7.0).abs() < 1e-8);
    }

    #[test]
    fn segments_join_and_are_tangent() {
        for pulleys in [bent(0.0), two(250.0, 315.0, 9_000.0)] {
            let p = belt_path(&pulleys).unwrap();
            let ends: Vec<(Point, Point, Vec2, Vec2)> = p
                .segments
                .iter()
                .map(|s| match *s {
                    Segment::Line { from, to, .. } => (from, to, (to - from).normalize(), (to - from).normalize()),
                    Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => {
                        let at = |a: f64| centre + Vec2::from_angle(a) * radius_mm;
                        let along = |a: f64| Vec2::from_angle(a + FRAC_PI_2);
                        (at(start_rad), at(start_rad + sweep_rad), along(start_rad), along(start_rad + sweep_rad))
                    }
                })
                .collect();
            for (i, e) in ends.iter().enumerate() {
                let next = &ends[(i + 1) % ends.len()];
                assert!(e.1.distance(next.0) < 1e-8, "piece {i} does not join the next");
                assert!((e.3 - next.2).hypot() < 1e-8, "piece {i} has a kink");
            }
            // the walk begins where the down run meets the foot, and angles grow without a jump
            let Segment::Arc { start_rad, .. } = p.segments[0] else { panic!("{:?}", p.segments[0]) };
            assert!(start_rad > -1.5 * PI && start_rad < -FRAC_PI_2, "{start_rad}");
            // the first straight run goes up on the +x side
            let (from, to) = p.run_leaving(Pulley::Foot).unwrap();
            assert!(to.y > from.y && from.x > 0.0);
            assert!(p.run_leaving(Pulley::Head).unwrap().0.x < 0.0);
        }
    }

    /// Derivative: 2·cos(asin((D−d)/2C)) for two pulleys on one vertical; central difference otherwise.
    #[test]
    fn derivative() {
        let p = belt_path(&two(250.0, 315.0, 3000.0)).unwrap();
        assert!((p.length_per_lowering - 2.0 * (65.0f64 / 3000.0).asin().cos()).abs() < 1e-12);
        assert!((belt_path(&two(250.0, 250.0, 3000.0)).unwrap().length_per_lowering - 2.0).abs() < 1e-12);
        for base in [bent(0.0), Pulleys::usual(250.0, 0.0, 400.0, 5000.0, None)] {
            let at = |dx: f64, dz: f64| {
                let mut q = base;
                q.foot.centre += Vec2::new(dx, dz);
                belt_path(&q).unwrap().length_mm
            };
            let p = belt_path(&base).unwrap();
            assert!(((at(0.0, -1.0) - at(0.0, 1.0)) / 2.0 - p.length_per_lowering).abs() < 1e-6);
            assert!(((at(1.0, 0.0) - at(-1.0, 0.0)) / 2.0 - p.length_per_shift).abs() < 1e-6);
            assert!(p.length_per_lowering < 2.0);
        }
        assert_eq!(bent(0.0).with_foot_at(-50.0).foot.centre, Point::new(0.0, -50.0));
    }

    #[test]
    fn a_bend_pulley_can_be_out_of_reach() {
        let mut pulleys = Pulleys::usual(500.0, 0.0, 500.0, 20_000.0, Some((200.0, 3000.0)));
        pulleys.bend = pulleys.bend.map(|b| Circle { centre: b.centre + Vec2::new(12.0, 0.0), ..b });
        let p = belt_path(&pulleys).unwrap();
        let Bend::Clear { gap_mm } = p.bend else { panic!("{:?}", p.bend) };
        assert!((gap_mm - 12.0).abs() < 1e-9);
        assert_eq!(p.segments.len(), 4);
        assert_eq!(p.wrap_rad(Pulley::Bend), 0.0);
        assert_eq!(belt_path(&two(1.0, 1.0, 9.0)).unwrap().bend, Bend::None);
    }

    #[test]
    fn senseless_pulleys_are_refused() {
        assert_eq!(belt_path(&two(-1.0, 1.0, 9.0)).unwrap_err(), PathError::BadNumber(Pulley::Foot));
        assert_eq!(belt_path(&two(1.0, f64::NAN, 9.0)).unwrap_err(), PathError::BadNumber(Pulley::Head));
        assert_eq!(belt_path(&two(1.0, 20.0, 9.0)).unwrap_err(), PathError::Inside(Pulley::Foot, Pulley::Head));
        assert_eq!(belt_path(&two(0.0, 1.0, 9.0)).unwrap_err(), PathError::BadNumber(Pulley::Foot));
        assert_eq!(belt_path(&two(1.0, 2.0, -9.0)).unwrap_err(), PathError::HeadNotAbove);
        // a foot pulley that touches the head pulley from inside, and one that reaches out of it but not as low
        assert_eq!(belt_path(&two(2.0, 5.0, 3.0)).unwrap_err(), PathError::Inside(Pulley::Foot, Pulley::Head));
        assert_eq!(belt_path(&two(2.0, 5.5, 3.4)).unwrap_err(), PathError::Inside(Pulley::Foot, Pulley::Head));
        assert!(belt_path(&two(2.0, 5.0, 3.1)).is_ok());
        let beside = Pulleys { foot: Circle { centre: Point::new(6.0, 0.0), radius_mm: 2.0 }, ..two(2.0, 5.0, 2.5) };
        assert_eq!(belt_path(&beside).unwrap_err(), PathError::Tangled);
        // a bend pulley that pushes on the up run
        let mut p = two(300.0, 300.0, 9000.0);
        p.bend = Some(Circle { centre: Point::new(300.0, 4000.0), radius_mm: 100.0 });
        assert_eq!(belt_path(&p).unwrap_err(), PathError::Tangled);
        // one that is below the foot
        p.bend = Some(Circle { centre: Point::new(0.0, -1000.0), radius_mm: 300.0 });
        assert_eq!(belt_path(&p).unwrap_err(), PathError::Tangled);
        // one so big that it pushes on both runs
        p.bend = Some(Circle { centre: Point::new(0.0, 4000.0), radius_mm: 400.0 });
        assert_eq!(belt_path(&p).unwrap_err(), PathError::Tangled);
        assert!(PathError::Inside(Pulley::Bend, Pulley::Head).to_string().contains("bend pulley lies inside the head pulley"));
    }
}
