//! What a viewer sees of placed bodies: whether a point is seen, and a point by which each body is best pointed at.
//!
//! In: bodies before a viewer, perhaps cut. Out: for each body the middle of the largest free patch that is seen of it, by
//! samples of its own picture; nothing of a body that is seen on no sample (a thin edge): its lines are left for that.

use glam::{DMat3, DVec2, DVec3};
use kurbo::{Point, Rect};

use super::Scene;
use super::front::Front;
use super::grid::{Grid, bounds};
use super::lines::{Plane, View};

/// Samples of a body's picture along its longer side; across there are as many as make cells square, and no fewer than [`FEW`].
const SAMPLES: usize = 28;
/// Least samples across.
const FEW: usize = 5;
/// A face must lie this far in front of a point to hide it, mm: the point may stand in a fillet's root or on a face that touches.
const BEFORE: f64 = 0.6;

/// Where a body is best seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// The id of the placed body.
    pub body: usize,
    /// The point, mm in the view plane.
    pub at: Point,
    /// How far the free patch reaches about it, mm.
    pub room: f64,
    /// How much of the body is seen, mm² in the view plane.
    pub area: f64,
}

/// Bodies before a viewer.
#[derive(Debug)]
pub struct Sight {
    fronts: Vec<Front>,
    /// By front, the id of its placed body.
    owners: Vec<usize>,
    /// Indices of the fronts, nearest first, as the grid counts them.
    order: Vec<u32>,
    hiders: Grid,
    matrix: DMat3,
    window: Option<Rect>,
}

impl Sight {
    /// Puts bodies before a viewer; `window` bounds what is drawn of them.
    pub fn new(scene: &Scene<'_>, view: &View, plane: Option<&Plane>, window: Option<Rect>) -> Self {
        let picture = scene.picture(view, plane);
        let (low, high) = bounds(picture.strands.iter().map(|strand| &strand.path));
        let (fronts, owners) = (picture.fronts, picture.owners);
        let mut order: Vec<u32> = (0..fronts.len() as u32).collect();
        order.sort_by(|a, b| fronts[*b as usize].nearest.total_cmp(&fronts[*a as usize].nearest));
        let mut hiders = Grid::over(low, high, fronts.len());
        hiders.fill(order.len(), |grid, item, put| {
            let (low, high) = fronts[order[item] as usize].bounds;
            grid.walk_box(low, high, put);
        });
        Self { fronts, owners, order, hiders, matrix: view.matrix(), window }
    }

    /// Whether a point of the model is seen.
    pub fn sees(&self, point: DVec3) -> bool {
        let p = self.matrix * point;
        let at = p.truncate();
        self.shows(at) && self.nearest(at, p.z + BEFORE).is_none()
    }

    /// The best spot of every body that is seen, by its id.
    pub fn spots(&self) -> Vec<Spot> {
        let mut bodies: Vec<(usize, DVec2, DVec2)> = Vec::new();
        for (front, owner) in self.fronts.iter().zip(&self.owners) {
            match bodies.iter_mut().find(|b| b.0 == *owner) {
                Some((_, low, high)) => (*low, *high) = (low.min(front.bounds.0), high.max(front.bounds.1)),
                None => bodies.push((*owner, front.bounds.0, front.bounds.1)),
            }
        }
        bodies.sort_by_key(|b| b.0);
        bodies.into_iter().filter_map(|(body, low, high)| self.spot(body, low, high)).collect()
    }

    fn shows(&self, at: DVec2) -> bool {
        self.window.is_none_or(|w| w.contains(Point::new(at.x, at.y)))
    }

    /// The nearest face in front of a depth, and whose it is.
    fn nearest(&self, at: DVec2, depth: f64) -> Option<(f64, usize)> {
        let mut found: Option<(f64, usize)> = None;
        for item in self.hiders.list(self.hiders.holding(at)) {
            let id = self.order[*item as usize] as usize;
            let front = &self.fronts[id];
            let beyond = found.map_or(depth, |f| f.0);
            if front.nearest <= beyond {
                break;
            }
            if let Some(there) = front.over(at, beyond) {
                found = Some((there, self.owners[id]));
            }
        }
        found
    }

    fn spot(&self, body: usize, low: DVec2, high: DVec2) -> Option<Spot> {
        let size = (high - low).max(DVec2::splat(1e-3));
        let cell = size.max_element() / SAMPLES as f64;
        let count = |length: f64| ((length / cell).round() as usize).clamp(FEW, SAMPLES);
        let (columns, rows) = (count(size.x), count(size.y));
        let step = DVec2::new(size.x / columns as f64, size.y / rows as f64);
        let at = |i: usize, k: usize| low + DVec2::new((i as f64 + 0.5) * step.x, (k as f64 + 0.5) * step.y);
        let own = |i: usize, k: usize| self.shows(at(i, k)) && self.nearest(at(i, k), f64::NEG_INFINITY).is_some_and(|(_, owner)| owner == body);
        let seen: Vec<bool> = (0..rows * columns).map(|n| own(n % columns, n / columns)).collect();
        let room = rooms(&seen, columns, step);
        let best = room.iter().copied().fold(0.0, f64::max);
        // The middle of a long strip rather than one of its ends.
        let middle = mean(&seen, columns, step, low)?;
        let off = |n: usize| at(n % columns, n / columns).distance(middle);
        let chosen = (0..room.len()).filter(|n| seen[*n] && room[*n] > 0.8 * best).min_by(|a, b| off(*a).total_cmp(&off(*b)))?;
        let p = at(chosen % columns, chosen / columns);
        let area = seen.iter().filter(|s| **s).count() as f64 * step.x * step.y;
        Some(Spot { body, at: Point::new(p.x, p.y), room: room[chosen], area })
    }
}

/// The middle of what is seen.
fn mean(seen: &[bool], columns: usize, step: DVec2, low: DVec2) -> Option<DVec2> {
    let all = seen
        .iter()
        .enumerate()
        .filter(|(_, s)| **s)
        .map(|(n, _)| low + DVec2::new(((n % columns) as f64 + 0.5) * step.x, ((n / columns) as f64 + 0.5) * step.y));
    let (sum, count) = all.fold((DVec2::ZERO, 0.0), |(sum, count), p| (sum + p, count + 1.0));
    (count > 0.0).then(|| sum / count)
}

/// For each sample how far it lies from the nearest one that is not seen, or from the edge: two sweeps over the samples.
fn rooms(seen: &[bool], columns: usize, step: DVec2) -> Vec<f64> {
    let rows = seen.len() / columns.max(1);
    let edge = step.min_element() / 2.0;
    let mut out: Vec<f64> = seen.iter().map(|s| if *s { f64::INFINITY } else { 0.0 }).collect();
    let ways: [(isize, isize, f64); 4] = [(-1, 0, step.x), (0, -1, step.y), (-1, -1, step.length()), (1, -1, step.length())];
    for back in [false, true] {
        for n in 0..seen.len() {
            let n = if back { seen.len() - 1 - n } else { n };
            if !seen[n] {
                continue;
            }
            let (i, k) = ((n % columns) as isize, (n / columns) as isize);
            for (di, dk, far) in ways {
                let (a, b) = if back { (i - di, k - dk) } else { (i + di, k + dk) };
                let inside = a >= 0 && b >= 0 && a < columns as isize && b < rows as isize;
                let there = if inside { out[b as usize * columns + a as usize] + far } else { far };
                out[n] = out[n].min(there);
            }
        }
    }
    out.iter().map(|r| if *r > 0.0 { (r - edge).max(0.0) } else { 0.0 }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Edge;
    use crate::solid::brep::FLAT;
    use crate::solid::build::extrude;
    use crate::solid::project::Placed;
    use glam::DAffine3;

    #[test]
    fn a_plate_is_pointed_at_where_the_one_before_it_leaves_it_free() {
        let plate = |x: f64, y: f64| {
            let corners = [(0.0, 0.0), (x, 0.0), (x, y), (0.0, y)].map(|p| (Point::from(p), 0.0));
            extrude(&[Edge::chain(&corners, true)], 5.0, &FLAT).unwrap()
        };
        let (back, front, lost) = (plate(280.0, 100.0), plate(200.0, 120.0), plate(50.0, 50.0));
        let at = |x: f64, y: f64, z: f64| DAffine3::from_translation(DVec3::new(x, y, z));
        let placed = |id, brep, at| Placed { brep, at, id, hidden: false, whole: false };
        let bodies = [placed(0, &back, at(0.0, 0.0, 0.0)), placed(1, &front, at(0.0, -10.0, 20.0)), placed(2, &lost, at(20.0, 20.0, 10.0))];
        let view = View { right: DVec3::X, up: DVec3::Y, toward: DVec3::Z };
        let sight = Sight::new(&Scene::new(&bodies), &view, None, None);
        let spots = sight.spots();
        assert_eq!(spots.iter().map(|s| s.body).collect::<Vec<_>>(), [0, 1]);
        // Of the plate behind, 80 × 100 are free from x = 200 on: by hand, their middle is (240, 50) and 40 from the edge.
        let spot = spots[0];
        assert!((spot.at.x - 240.0).abs() < 6.0 && (spot.at.y - 50.0).abs() < 12.0 && (spot.room - 40.0).abs() < 8.0, "{spot:?}");
        assert!((spot.area / 8000.0 - 1.0).abs() < 0.1, "{spot:?}");
        assert!(sight.sees(DVec3::new(250.0, 50.0, 5.0)) && !sight.sees(DVec3::new(100.0, 50.0, 5.0)));
    }
}
