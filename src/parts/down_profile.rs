//! The down-side end plate in section: one plate, bent where the belt's inclined run begins and ends.
//!
//! In: the inner face from the model, thickness, bend radius, neutral line. Out: bends along the flat
//! pattern, the outer face that the side plates follow, and where a height lies on the pattern.
//! Distances `s` run up the plate along the neutral line. Sharp model corners become tangent arcs.

use super::flat::{Bend, BendSide, Node, Xy};
use super::shop::Shop;
use crate::formulas::bend_allowance;

/// One straight stretch between bends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Straight {
    /// Inner face at its lower end, (x, z).
    pub from: Xy,
    /// Unit direction up the plate.
    pub along: Xy,
    /// Length, mm.
    pub length: f64,
    /// s at its lower end.
    pub start: f64,
}

/// The plate in section.
#[derive(Debug, Clone, PartialEq)]
pub struct DownProfile {
    /// Straight stretches from the bottom up.
    pub straights: Vec<Straight>,
    /// Bends between them.
    pub bends: Vec<Bend>,
    /// Thickness, mm.
    pub thickness: f64,
    /// Flat length, mm; of all plates together when they are separate.
    pub flat_length: f64,
    /// Whether the stretches are separate plates, because one is too short for a press brake.
    pub separate: bool,
}

/// Direction square to the plate, away from the belt.
fn outward(along: Xy) -> Xy {
    [-along[1], along[0]]
}

impl DownProfile {
    /// The down-side end plate of this foot: bent, or from separate plates when a stretch is too short to bend.
    pub fn of(shop: &Shop) -> Self {
        let bent = Self::build(shop, false);
        let radius = bent.bends.first().map_or(0.0, |b| b.inside_radius);
        let least = bend_allowance::shortest_flange_mm(radius, bent.thickness);
        if bent.bends.is_empty() || bent.straights.iter().all(|s| s.length >= least) { bent } else { Self::build(shop, true) }
    }

    fn build(shop: &Shop, separate: bool) -> Self {
        let c = &shop.foot.casing;
        let t = c.plate;
        let mut corners: Vec<Xy> = vec![[c.down_x(c.down_shoulder), c.down_shoulder]];
        corners.extend(c.down_face.iter().copied().filter(|p| p[1] > c.down_shoulder + 1.0));
        corners.dedup_by(|a, b| (a[0] - b[0]).hypot(a[1] - b[1]) < 1.0);
        let direction = |a: Xy, b: Xy| {
            let l = (b[0] - a[0]).hypot(b[1] - a[1]);
            ([(b[0] - a[0]) / l, (b[1] - a[1]) / l], l)
        };
        let r = shop.bend_radius(t);
        let k = shop.k_factor(r, t);
        let mut straights: Vec<Straight> = Vec::new();
        let mut bends = Vec::new();
        let mut s = 0.0;
        let mut cut_back = 0.0; // by the bend below
        for (i, pair) in corners.windows(2).enumerate() {
            let &[a, b] = pair else { continue };
            let (along, length) = direction(a, b);
            // An inclined first stretch stands on its outer edge.
            let lift = if i == 0 { t * along[0].abs() / along[1].max(0.1) } else { 0.0 };
            let mut end_cut = 0.0;
            let mut bend = None;
            if let Some(&next) = corners.get(i + 2) {
                let (after, _) = direction(b, next);
                let turn = along[0] * after[1] - along[1] * after[0];
                let angle = turn.asin();
                // Turning away from the belt closes toward the marked outer face.
                let side = if angle > 0.0 { BendSide::Up } else { BendSide::Down };
                let inner_radius = if angle > 0.0 { r + t } else { r };
                if separate {
                    // Cut back until the outer faces meet where the plates lean toward each other.
                    end_cut = if angle > 0.0 { t * (angle / 2.0).tan() } else { 0.0 };
                } else {
                    end_cut = inner_radius * (angle.abs() / 2.0).tan();
                    bend = Some((angle.abs(), side));
                }
            }
            let straight = length - cut_back - end_cut - lift;
            let from = [a[0] + along[0] * (cut_back + lift), a[1] + along[1] * (cut_back + lift)];
            straights.push(Straight { from, along, length: straight, start: s });
            s += straight;
            cut_back = end_cut;
            if let Some((angle, side)) = bend {
                let flat = bend_allowance::arc_length_mm(r, t, std::f64::consts::PI - angle, k);
                bends.push(Bend { start: s, flat_length: flat, angle_deg: angle.to_degrees(), side, inside_radius: r, rolled: false });
                s += flat;
            }
        }
        if separate {
            // What is left of a stretch shorter than this is weld.
            straights.retain(|x| x.length > 5.0);
        }
        Self { straights, bends, thickness: t, flat_length: s, separate }
    }

    /// Outer face from the top down: nodes with bulges, ready for the side plate's counter-clockwise outline.
    pub fn outer_face_down(&self) -> Vec<Node> {
        let mut out = Vec::new();
        for (i, s) in self.straights.iter().enumerate().rev() {
            let n = outward(s.along);
            let foot = [s.from[0] + n[0] * self.thickness, s.from[1] + n[1] * self.thickness];
            let head = [foot[0] + s.along[0] * s.length, foot[1] + s.along[1] * s.length];
            let below = i.checked_sub(1).and_then(|b| self.bends.get(b));
            let bulge = below.map_or(0.0, |b| {
                let quarter = (b.angle_deg.to_radians() / 4.0).tan();
                if b.side == BendSide::Up { -quarter } else { quarter }
            });
            out.push(Node { at: head, bulge: 0.0 });
            out.push(Node { at: foot, bulge });
        }
        if let Some(last) = out.last_mut() {
            last.bulge = 0.0;
        }
        out
    }

    /// s of a height on the inner face and the stretch that it lies in; `None` in a bend or beyond the plate.
    pub fn at_height(&self, z: f64) -> Option<(f64, usize)> {
        self.straights.iter().enumerate().find_map(|(i, s)| {
            let along = (z - s.from[1]) / s.along[1];
            (along >= -1e-6 && along <= s.length + 1e-6).then_some((s.start + along, i))
        })
    }
}

/// The direction away from the belt of a stretch.
pub fn away(straight: &Straight) -> Xy {
    outward(straight.along)
}
