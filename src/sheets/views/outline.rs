//! Plane outlines: chains beside a chain, the belt's line along its path.
//!
//! Pure geometry in real mm of one plane; nothing here knows pens or paper.

use crate::formulas::belt_path::{BeltPath, Pulley, Segment};
use crate::paper::mark::{PlanePoint, Vertex};

/// A corner in a plane, real mm.
pub type Corner = [f64; 2];

/// The line at a distance to the left of a chain (seen along it), mitred at its corners.
///
/// Coincident corners are skipped; a chain of fewer than two corners is returned as it is.
pub fn offset_left(chain: &[Corner], distance: f64) -> Vec<Corner> {
    let mut clean: Vec<Corner> = Vec::with_capacity(chain.len());
    for c in chain {
        if clean.last().is_none_or(|l| (l[0] - c[0]).hypot(l[1] - c[1]) > 1e-9) {
            clean.push(*c);
        }
    }
    let normals: Vec<Corner> = clean
        .iter()
        .zip(clean.iter().skip(1))
        .map(|(a, b)| {
            let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
            let length = dx.hypot(dy);
            [-dy / length, dx / length]
        })
        .collect();
    if normals.is_empty() {
        return clean;
    }
    clean
        .iter()
        .enumerate()
        .map(|(i, c)| {
            let before = i.checked_sub(1).and_then(|k| normals.get(k)).or_else(|| normals.first()).copied().unwrap_or_default();
            let after = normals.get(i).or_else(|| normals.last()).copied().unwrap_or_default();
            let (sx, sy) = (before[0] + after[0], before[1] + after[1]);
            let scale = 2.0 * distance / (sx * sx + sy * sy).max(1e-9);
            [c[0] + sx * scale, c[1] + sy * scale]
        })
        .collect()
}

/// The belt's pieces below a height, from the down run round the foot to the up run.
fn pieces_below(path: &BeltPath, top: f64) -> Vec<Segment> {
    let head = path.segments.iter().position(|s| matches!(s, Segment::Arc { pulley: Pulley::Head, .. }));
    let start = head.map_or(0, |h| h + 1);
    let in_order = path.segments.iter().skip(start).chain(path.segments.iter().take(start));
    in_order
        .filter_map(|s| match *s {
            Segment::Arc { pulley: Pulley::Head, .. } => None,
            Segment::Arc { centre, .. } => (centre.y < top).then_some(*s),
            Segment::Line { leaves, reaches, from, to } => {
                let clip = |p: kurbo::Point, other: kurbo::Point| if p.y <= top { p } else { p + (other - p) * ((p.y - top) / (p.y - other.y)) };
                (from.y.min(to.y) < top).then(|| Segment::Line { leaves, reaches, from: clip(from, to), to: clip(to, from) })
            }
        })
        .collect()
}

/// The line along the belt at a distance outside its neutral line, below a height, in travel order.
pub fn belt_line(path: &BeltPath, outside: f64, top: f64) -> Vec<Vertex<PlanePoint>> {
    let mut line: Vec<Vertex<PlanePoint>> = Vec::new();
    for s in pieces_below(path, top) {
        match s {
            Segment::Arc { centre, radius_mm, start_rad, sweep_rad, .. } => {
                let r = radius_mm + outside;
                let at = |a: f64| PlanePoint::new(centre.x + r * a.cos(), centre.y + r * a.sin());
                if let Some(last) = line.last_mut()
                    && (last.at.x - at(start_rad).x).hypot(last.at.y - at(start_rad).y) < 1e-6
                {
                    last.bulge = (sweep_rad / 4.0).tan();
                } else {
                    line.push(Vertex { at: at(start_rad), bulge: (sweep_rad / 4.0).tan() });
                }
                line.push(Vertex { at: at(start_rad + sweep_rad), bulge: 0.0 });
            }
            Segment::Line { from, to, .. } => {
                let length = from.distance(to);
                if length < 1e-9 {
                    continue;
                }
                let along = (to - from) / length;
                let shift = kurbo::Vec2::new(along.y, -along.x) * outside;
                let (a, b) = (from + shift, to + shift);
                if line.last().is_none_or(|l| (l.at.x - a.x).hypot(l.at.y - a.y) > 1e-6) {
                    line.push(Vertex { at: PlanePoint::new(a.x, a.y), bulge: 0.0 });
                }
                line.push(Vertex { at: PlanePoint::new(b.x, b.y), bulge: 0.0 });
            }
        }
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mitred_offset_keeps_its_distance() {
        let line = offset_left(&[[0.0, 0.0], [0.0, 100.0], [-100.0, 200.0]], 6.0);
        assert!((line[0][0] + 6.0).abs() < 1e-9);
        // Distance of the middle corner from both legs.
        assert!((line[1][0] + 6.0).abs() < 1e-9);
        let across = (line[1][0] - 0.0) * -std::f64::consts::FRAC_1_SQRT_2 + (line[1][1] - 100.0) * -std::f64::consts::FRAC_1_SQRT_2;
        assert!((across - 6.0).abs() < 1e-9, "{across}");
    }
}
