//! Areas of the foot's section in the main elevation: casing, pulleys, belt, buckets below a surface.
//!
//! In: the model, take-up at its lowest, and a straight surface of the product (level, or falling at an
//! angle from the sill). Out: areas in mm², volumes in litres. Straight edges and arcs are integrated in
//! closed form.

use super::assumed;
use crate::formulas::belt_path::Segment;
use crate::formulas::plugging;
use crate::geometry;
use crate::model::Foot;
use crate::model::casing::CasingBody;
use crate::model::inlets::FeedSide;
use crate::spec::Spec;
use crate::spec::pulleys::PulleyStyle;
use kurbo::{ParamCurveMoments as _, Shape as _};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Surface of the product: passes a point and falls from it at a slope toward −x or +x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// A point on it, (x, z) mm.
    pub at: [f64; 2],
    /// Rise per run toward +x: 0 level, positive when it climbs toward the up side.
    pub rise: f64,
}

impl Surface {
    /// Height at x, mm.
    fn height(&self, x: f64) -> f64 {
        self.at[1] + self.rise * (x - self.at[0])
    }

    /// Depth of a point below it, mm; negative above.
    fn depth(&self, p: [f64; 2]) -> f64 {
        self.height(p[0]) - p[1]
    }

    /// Share of the way from one point to another that lies below, and the mean depth over all of the way, mm; what lies above counts nothing.
    fn along(&self, from: [f64; 2], to: [f64; 2]) -> (f64, f64) {
        let (a, b) = (self.depth(from), self.depth(to));
        // Depths change linearly along a line.
        let share = match (a > 0.0, b > 0.0) {
            (true, true) => return (1.0, (a + b) / 2.0),
            (false, false) => return (0.0, 0.0),
            (true, false) => a / (a - b),
            (false, true) => b / (b - a),
        };
        (share, share * a.max(b) / 2.0)
    }
}

/// An arc of at most one turn, counter-clockwise.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Arc {
    centre: [f64; 2],
    radius: f64,
    /// Direction of its beginning from the centre, rad from +x.
    start: f64,
    /// rad, positive.
    sweep: f64,
}

impl Arc {
    const fn circle(centre: [f64; 2], radius: f64) -> Self {
        Self { centre, radius, start: 0.0, sweep: TAU }
    }

    /// The parts below a surface, as directions from and to, rad; an empty part where there is none.
    fn below(&self, surface: &Surface) -> [(f64, f64); 2] {
        let end = self.start + self.sweep;
        // Depth of the point in direction a: depth of the centre − R·√(1 + rise²)·sin(a − atan rise).
        let sine = surface.depth(self.centre) / (self.radius * surface.rise.hypot(1.0));
        if sine >= 1.0 {
            return [(self.start, end), (end, end)];
        }
        if sine <= -1.0 {
            return [(end, end); 2];
        }
        // Out of the surface it stands from `out` to `back`, the first time that it comes back after the beginning of the arc.
        let (tilt, half) = (surface.rise.atan(), sine.asin());
        let back = self.start + (tilt + PI - half - self.start).rem_euclid(TAU);
        let out = back - (PI - 2.0 * half);
        [(self.start, out.clamp(self.start, end)), (back.min(end), (out + TAU).clamp(back.min(end), end))]
    }

    /// Its length below a surface, mm.
    fn length_below(&self, surface: &Surface) -> f64 {
        self.radius * self.below(surface).iter().map(|(from, to)| to - from).sum::<f64>()
    }

    /// ∫ depth dx along what lies below a surface, mm²: the share of an area that this arc of its outline gives.
    fn area_below(&self, surface: &Surface) -> f64 {
        let (depth, r) = (surface.depth(self.centre), self.radius);
        let integral = |a: f64| {
            let (sin, cos) = a.sin_cos();
            r * (depth * cos + surface.rise * r * cos * cos / 2.0 + r * (a - sin * cos) / 2.0)
        };
        self.below(surface).iter().filter(|(from, to)| to > from).map(|(from, to)| integral(*to) - integral(*from)).sum()
    }
}

/// Area of a ring, positive whatever its direction, mm².
pub fn ring_area(ring: &[[f64; 2]]) -> f64 {
    moments(ring).0.abs()
}

/// Signed area of a ring, counter-clockwise positive, mm², and the same times its centroid's x, mm³.
fn moments(ring: &[[f64; 2]]) -> (f64, f64) {
    let path = geometry::ring(ring.iter().copied().map(geometry::point));
    (path.area(), path.moments().moment_x)
}

/// Inner outline of the casing in the main elevation: corners, and the arc of a curved bottom from the last of them to the first.
#[derive(Debug, Clone, PartialEq)]
struct Outline {
    corners: Vec<[f64; 2]>,
    bottom: Option<Arc>,
}

impl Outline {
    fn of(casing: &CasingBody, shaft_lowest: f64) -> Self {
        let bottom = casing.bottom_radius.zip(casing.bottom_arc).map(|(radius, [up, down])| Arc {
            centre: [0.0, shaft_lowest],
            radius,
            start: -FRAC_PI_2 - down,
            sweep: down + up,
        });
        Self { corners: casing.inner_outline(), bottom }
    }

    /// Area, mm², and x of its centroid, mm; 0 for an outline without area.
    fn area_and_middle(&self) -> (f64, f64) {
        let (mut area, mut moment) = moments(&self.corners);
        if let Some(arc) = self.bottom {
            // Circular segment below the chord between the arc's ends: its centroid lies 4 R sin³(θ/2) / (3 (θ − sin θ)) from the centre.
            let segment = arc.radius * arc.radius / 2.0 * (arc.sweep - arc.sweep.sin());
            let away = 2.0 / 3.0 * arc.radius.powi(3) * (arc.sweep / 2.0).sin().powi(3);
            area += segment;
            moment += segment * arc.centre[0] + away * (arc.start + arc.sweep / 2.0).cos();
        }
        if area == 0.0 { (0.0, 0.0) } else { (area, moment / area) }
    }

    fn area_below(&self, surface: &Surface) -> f64 {
        let strip = |from: [f64; 2], to: [f64; 2]| surface.along(from, to).1 * (to[0] - from[0]);
        let mut area: f64 = self.corners.windows(2).map(|w| if let [a, b] = w { strip(*a, *b) } else { 0.0 }).sum();
        area += match (self.bottom, self.corners.last(), self.corners.first()) {
            (Some(arc), ..) => arc.area_below(surface),
            (None, Some(last), Some(first)) => strip(*last, *first),
            _ => 0.0,
        };
        area.abs()
    }
}

/// Inside of the casing, side to side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inside {
    /// Area in the main elevation, mm².
    pub area_mm2: f64,
    /// x of its centroid, mm.
    pub middle_mm: f64,
}

/// What product can fill in a foot: casing less pulleys, belt and buckets, take-up at its lowest, where the pulley takes up most room.
///
/// A bucket counts as solid: on the up side it is full already, on the down side it holds air mouth down.
#[derive(Debug)]
pub struct FreeSpace<'a> {
    foot: &'a Foot,
    casing: Outline,
    /// Share of the foot pulley's circle that product cannot fill (1 for a drum).
    pulley_solidity: f64,
    /// Cross-section of the belt and, spread over the spacing, of its buckets, mm².
    belt_mm2: f64,
}

impl<'a> FreeSpace<'a> {
    /// Of a foot.
    pub fn of(spec: &Spec, foot: &'a Foot) -> Self {
        let (belt, bucket) = (&foot.belt, &foot.bucket);
        Self {
            foot,
            casing: Outline::of(&foot.casing, foot.shaft_lowest),
            pulley_solidity: match spec.foot_pulley.style.value {
                PulleyStyle::Drum => 1.0,
                PulleyStyle::Winged => assumed::WING_SOLIDITY.value,
            },
            belt_mm2: belt.thickness * belt.width + ring_area(&bucket.section) * bucket.length * f64::from(bucket.rows) / bucket.spacing,
        }
    }

    /// The casing alone.
    pub fn inside(&self) -> Inside {
        let (area_mm2, middle_mm) = self.casing.area_and_middle();
        Inside { area_mm2, middle_mm }
    }

    /// Free volume below a surface, l.
    pub fn below_l(&self, surface: &Surface) -> f64 {
        let foot = self.foot;
        let casing = self.casing.area_below(surface) * foot.casing.width.size();
        let pulley = |centre: [f64; 2], radius: f64, face: f64| Arc::circle(centre, radius).area_below(surface) * face;
        let mut solid = self.pulley_solidity * pulley([0.0, foot.shaft_lowest], foot.pulleys.foot.radius(), foot.pulleys.foot.face);
        if let Some(b) = &foot.pulleys.bend {
            solid += pulley([b.centre.x, b.centre.z], b.radius(), b.face);
        }
        solid += self.belt_below_mm(surface) * self.belt_mm2;
        ((casing - solid) / 1e6).max(0.0)
    }

    /// Product that lies in the foot while it runs, l.
    pub fn lying_l(&self) -> f64 {
        let level = |z: f64| self.below_l(&Surface { at: [0.0, z], rise: 0.0 });
        let below = |side: FeedSide, least: f64| self.foot.inlet(side).map_or(0.0, |i| level(i.sill.max(least)));
        plugging::lying_l(below(FeedSide::Up, 0.0), below(FeedSide::Down, self.foot.shaft_lowest))
    }

    /// Length of belt below a surface, mm.
    fn belt_below_mm(&self, surface: &Surface) -> f64 {
        let below = |segment: &Segment| match *segment {
            Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => {
                Arc { centre: [centre.x, centre.y], radius: radius_mm, start: start_rad, sweep: sweep_rad }.length_below(surface)
            }
            Segment::Line { from, to, .. } => surface.along([from.x, from.y], [to.x, to.y]).0 * segment.length_mm(),
        };
        self.foot.belt.lowest.segments.iter().map(below).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::starters_test::{STARTERS, job};

    fn outline(corners: Vec<[f64; 2]>, bottom: Option<Arc>) -> Outline {
        Outline { corners, bottom }
    }

    #[test]
    fn areas_of_known_shapes() {
        let ring = vec![[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]];
        let square = outline(ring.clone(), None);
        assert!((ring_area(&ring) - 1e4).abs() < 1e-9);
        assert_eq!(square.area_and_middle(), (1e4, 50.0));
        let below = |at: [f64; 2], rise: f64| square.area_below(&Surface { at, rise });
        assert!((below([0.0, 30.0], 0.0) - 3000.0).abs() < 1e-9);
        // A surface from (0, 0) at 45° leaves the lower right half.
        assert!((below([0.0, 0.0], 1.0) - 5000.0).abs() < 1e-9);
        assert!(below([0.0, -1.0], 0.0).abs() < 1e-9);
        assert!((below([0.0, 500.0], 0.0) - 1e4).abs() < 1e-9);
    }

    /// Rolled bottoms that meet the end plates with their arc, and one that goes on at 60°: the casing's area against thin strips
    /// from the bottom's lower edge to the top flange.
    #[test]
    fn casings_in_strips() {
        let narrow = "[casing]\nbottom = \"curved\"";
        let wide = "[casing]\nbottom = \"curved\"\nup_clearance = \"300 mm\"\ndown_clearance = \"200 mm\"";
        let grain = STARTERS[0].1;
        for text in [STARTERS[2].1.to_string(), grain.replace("[casing]", narrow), grain.replace("[casing]", wide)] {
            let (spec, foot, _) = job(&text);
            let c = &foot.casing;
            let down = c.down_outermost();
            assert!(c.bottom_arc.is_some() && c.down_bends().is_empty());
            let strips = 200_000;
            let width = (c.up_face - down) / f64::from(strips);
            let (mut area, mut moment) = (0.0, 0.0);
            for i in 0..strips {
                let x = down + (f64::from(i) + 0.5) * width;
                let strip = (c.top - c.lower_edge(x)) * width;
                (area, moment) = (area + strip, moment + strip * x);
            }
            let inside = FreeSpace::of(&spec, &foot).inside();
            assert!((inside.area_mm2 / area - 1.0).abs() < 1e-7, "{} {area}", inside.area_mm2);
            assert!((inside.middle_mm - moment / area).abs() < 1e-3, "{} {}", inside.middle_mm, moment / area);
        }
    }

    /// Half a circle lies below its centre, whatever the slope; the circular segment at half the radius is (π/3 − √3/4)·r².
    #[test]
    fn circle_segments() {
        let c = Arc::circle([7.0, -3.0], 250.0);
        let below = |at: [f64; 2], rise: f64| c.area_below(&Surface { at, rise }) / (250.0 * 250.0);
        let length = |at: [f64; 2], rise: f64| c.length_below(&Surface { at, rise }) / 250.0;
        for rise in [0.0, 0.7, -1.9] {
            assert!((below([7.0, -3.0], rise) - PI / 2.0).abs() < 1e-12 && (length([7.0, -3.0], rise) - PI).abs() < 1e-12);
        }
        assert!((below([0.0, -128.0], 0.0) - (PI / 3.0 - 3f64.sqrt() / 4.0)).abs() < 1e-12);
        assert!((length([0.0, -128.0], 0.0) - TAU / 3.0).abs() < 1e-12);
        assert!((below([0.0, 300.0], 0.0) - PI).abs() < 1e-12 && (length([0.0, 300.0], 0.0) - TAU).abs() < 1e-12);
        assert_eq!((below([0.0, -300.0], 0.0), length([0.0, -300.0], 0.0)), (0.0, 0.0));
    }

    /// Arcs of any place against the same arc cut into many chords.
    #[test]
    fn arcs_agree_with_chords() {
        for (start, sweep) in [(-2.8, 2.4), (-4.0, 3.3), (0.3, 6.1), (1.0, 0.5), (-7.0, TAU)] {
            for (at, rise) in [([0.0, 0.0], 0.0), ([40.0, 90.0], -0.5), ([-80.0, -30.0], 0.9), ([0.0, -99.0], 0.1), ([0.0, 60.0], 0.0)] {
                let (arc, surface) = (Arc { centre: [5.0, -8.0], radius: 100.0, start, sweep }, Surface { at, rise });
                let count = 100_000;
                let point = |i: i32| {
                    let a = start + sweep * f64::from(i) / f64::from(count);
                    [5.0 + 100.0 * a.cos(), -8.0 + 100.0 * a.sin()]
                };
                let (mut length, mut area) = (0.0, 0.0);
                for i in 0..count {
                    let (a, b) = (point(i), point(i + 1));
                    let (share, depth) = surface.along(a, b);
                    length += share * (b[0] - a[0]).hypot(b[1] - a[1]);
                    area += depth * (b[0] - a[0]);
                }
                assert!((arc.length_below(&surface) - length).abs() < 1e-5, "{start} {sweep} {at:?} {rise}: {length}");
                assert!((arc.area_below(&surface) - area).abs() < 1e-3, "{start} {sweep} {at:?} {rise}: {area}");
            }
        }
    }

    /// A half disc under a box, off the middle: area and centroid by hand, and the same cut into chords.
    #[test]
    fn a_round_bottom() {
        let arc = Arc { centre: [0.0, 0.0], radius: 100.0, start: -PI, sweep: PI };
        let box_above = outline(vec![[100.0, 0.0], [150.0, 50.0], [150.0, 200.0], [-100.0, 200.0], [-100.0, 0.0]], Some(arc));
        let half = PI * 1e4 / 2.0;
        let straight = 200.0 * 200.0 + 50.0 * 150.0 + 50.0 * 50.0 / 2.0;
        let moment = 50.0 * 150.0 * 125.0 + 1250.0 * (100.0 + 50.0 / 3.0);
        let (area, middle) = box_above.area_and_middle();
        assert!((area - half - straight).abs() < 1e-6 && (middle - moment / area).abs() < 1e-9, "{area} {middle}");
        assert!((box_above.area_below(&Surface { at: [0.0, 300.0], rise: 0.0 }) - area).abs() < 1e-6);
        assert!((box_above.area_below(&Surface { at: [0.0, 0.0], rise: 0.0 }) - half).abs() < 1e-6);
        // An arc that leans to one side: its segment's centroid leans with it.
        let leaning = Arc { start: -FRAC_PI_2 - 0.4, sweep: 1.3, ..arc };
        let ends = [leaning.start + leaning.sweep, leaning.start].map(|a| [100.0 * a.cos(), 100.0 * a.sin()]);
        let chords: Vec<[f64; 2]> = (0..=20_000)
            .map(|i| leaning.start + leaning.sweep * f64::from(i) / 20_000.0)
            .map(|a| [100.0 * a.cos(), 100.0 * a.sin()])
            .chain([[60.0, 80.0]])
            .collect();
        let (area, middle) = outline(vec![ends[0], [60.0, 80.0], ends[1]], Some(leaning)).area_and_middle();
        let (cut, moment) = moments(&chords);
        assert!((area - cut).abs() < 1e-3 && (middle - moment / cut).abs() < 1e-6, "{area} {cut} {middle}");
    }
}
