//! The belt's neutral line along its path: what tangent points, wraps and lengths are measured on.
//!
//! Pure geometry in real mm of one plane; nothing here knows pens or paper.

use crate::formulas::belt_path::{BeltPath, Pulley, Segment};
use crate::paper::mark::{PlanePoint, Vertex};

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

/// The belt's neutral line below a height, in travel order.
pub fn neutral_line(path: &BeltPath, top: f64) -> Vec<Vertex<PlanePoint>> {
    let mut line: Vec<Vertex<PlanePoint>> = Vec::new();
    for s in pieces_below(path, top) {
        match s {
            Segment::Arc { centre, radius_mm: r, start_rad, sweep_rad, .. } => {
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
            Segment::Line { from: a, to: b, .. } => {
                if a.distance(b) < 1e-9 {
                    continue;
                }
                if line.last().is_none_or(|l| (l.at.x - a.x).hypot(l.at.y - a.y) > 1e-6) {
                    line.push(Vertex { at: PlanePoint::new(a.x, a.y), bulge: 0.0 });
                }
                line.push(Vertex { at: PlanePoint::new(b.x, b.y), bulge: 0.0 });
            }
        }
    }
    line
}
