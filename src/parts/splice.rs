//! Plates larger than the stock sheet are made in pieces with a butt-welded splice.
//!
//! A cut is straight, square to an edge of the pattern, near its middle, where it meets the outline
//! exactly twice and stays clear of openings, holes and pressed bends.

use super::flat::{Bend, Contour, FlatPattern, Node, Xy};
use super::placement::Placement;
use crate::geometry::Edge;
use kurbo::ParamCurve as _;
use std::ops::Range;

/// A pattern and its placements after cutting.
pub type Piece = (FlatPattern, Vec<Placement>);

/// A splice: its length, mm, and which of the pieces it joins to which.
#[derive(Debug, Clone, PartialEq)]
pub struct Splice {
    /// mm.
    pub length: f64,
    /// Pieces on one side and on the other.
    pub joins: [Range<usize>; 2],
}

/// Whether a plate fits the stock sheet, either way round.
pub fn fits(size: Xy, stock: Xy) -> bool {
    let (long, short) = (size[0].max(size[1]), size[0].min(size[1]));
    let (most, least) = (stock[0].max(stock[1]), stock[0].min(stock[1]));
    long <= most + 1e-6 && short <= least + 1e-6
}

/// Cuts a pattern into pieces that fit, at whole steps, mm; also the splices between them. `None` when no clear place for a splice is found.
pub fn split(flat: &FlatPattern, places: &[Placement], thickness: f64, stock: Xy, step: f64) -> Option<(Vec<Piece>, Vec<Splice>)> {
    let size = flat.size();
    if fits(size, stock) {
        return Some((vec![(flat.clone(), places.to_vec())], Vec::new()));
    }
    let most = stock[0].max(stock[1]);
    let longest = usize::from(size[1] > size[0]);
    let axis = if size[longest] > most { longest } else { 1 - longest };
    along(flat, places, thickness, stock, step, axis).or_else(|| along(flat, places, thickness, stock, step, 1 - axis))
}

/// Cuts square to one axis.
fn along(flat: &FlatPattern, places: &[Placement], thickness: f64, stock: Xy, step: f64, axis: usize) -> Option<(Vec<Piece>, Vec<Splice>)> {
    let size = flat.size();
    let most = stock[0].max(stock[1]);
    let gap = 1.5 * thickness + 10.0;
    // As few pieces as the stock allows, about equal: the first cut at a whole number of shares.
    let across = size[1 - axis];
    let limit = if across <= stock[0].min(stock[1]) { most } else { stock[0].min(stock[1]) };
    let shares = (size[axis] / limit).ceil().max(2.0);
    let target = (shares / 2.0).floor() / shares;
    // A plate seen from the far side is cut where its fellow on the near side is, and counted the same way.
    let turned = axis == 0 && flat.bends.is_empty() && places.iter().all(|p| p.right[0] < -0.5);
    let steps = 80_i32;
    for i in 0..=2 * steps {
        let off = f64::from((i + 1) / 2) * if i % 2 == 0 { 1.0 } else { -1.0 } / f64::from(steps) * 0.4;
        // What is rolled is halved as it is; flat plates are cut at whole steps.
        let rolled = flat.bends.iter().any(|b| b.rolled);
        let whole = size[axis] * (target + off);
        let whole = if rolled { whole } else { (whole / step).round() * step };
        let at = if turned { size[axis] - whole } else { whole };
        if at < 60.0 || at > size[axis] - 60.0 {
            continue;
        }
        if !clear(flat, axis, at, gap) {
            continue;
        }
        let Some((low, high, length)) = cut_outer(&flat.outer, axis, at) else { continue };
        let half = |outer: Contour, above: bool| -> Piece {
            let keep = |p: Xy| (p[axis] > at) == above;
            let shift = if above { at } else { 0.0 };
            let (b, _) = outer.bounds();
            let mut from = b;
            from[axis] = if above { at } else { b[axis] };
            let part = FlatPattern {
                outer,
                openings: flat.openings.iter().filter(|o| keep(o.contour.bounds().0)).cloned().collect(),
                holes: flat.holes.iter().filter(|h| keep(h.at)).cloned().collect(),
                bends: if axis == 0 { cut_bends(&flat.bends, at, above) } else { flat.bends.clone() },
                mark: None,
                scribed: Vec::new(),
            };
            let bends = part.bends.clone();
            let mut moved = part.mapped(false, |p| [p[0] - from[0], p[1] - from[1]]);
            moved.bends = bends;
            let placements = places
                .iter()
                .map(|p| if axis == 0 && !flat.bends.is_empty() { p.from_x(&flat.bends, thickness, shift).at(0.0, from[1]) } else { p.at(from[0], from[1]) })
                .collect();
            (moved, placements)
        };
        let mut pieces: Vec<Piece> = Vec::new();
        let mut splices = Vec::new();
        let mut begins = [0, 0];
        let mut halves = [(low, false), (high, true)];
        if turned {
            halves.reverse();
        }
        for ((outer, above), begin) in halves.into_iter().zip(&mut begins) {
            let (f, p) = half(outer, above);
            let (mut more, own) = split(&f, &p, thickness, stock, step)?;
            *begin = pieces.len();
            let moved = |r: &Range<usize>| r.start + *begin..r.end + *begin;
            splices.extend(own.iter().map(|s| Splice { length: s.length, joins: [moved(&s.joins[0]), moved(&s.joins[1])] }));
            pieces.append(&mut more);
        }
        splices.insert(0, Splice { length, joins: [0..begins[1], begins[1]..pieces.len()] });
        return Some((pieces, splices));
    }
    None
}

/// Bends on one side of a cut; a rolled zone may be cut through.
fn cut_bends(bends: &[Bend], at: f64, above: bool) -> Vec<Bend> {
    bends
        .iter()
        .filter_map(|b| {
            let end = b.start + b.flat_length;
            let (from, to) = if above { (b.start.max(at), end) } else { (b.start, end.min(at)) };
            (to - from > 1e-6).then(|| Bend {
                start: if above { from - at } else { from },
                flat_length: to - from,
                angle_deg: b.angle_deg * (to - from) / b.flat_length,
                ..b.clone()
            })
        })
        .collect()
}

fn clear(flat: &FlatPattern, axis: usize, at: f64, gap: f64) -> bool {
    let keeps = |low: f64, high: f64, by: f64| at < low - by || at > high + by;
    flat.openings.iter().all(|o| {
        let (a, b) = o.contour.bounds();
        keeps(a[axis], b[axis], gap)
    }) && flat.holes.iter().all(|h| keeps(h.at[axis] - h.diameter / 2.0, h.at[axis] + h.diameter / 2.0, gap))
        && (axis == 1 || flat.bends.iter().all(|b| b.rolled || keeps(b.start, b.start + b.flat_length, gap + 40.0)))
        && flat.outer.corners(0.0).iter().all(|c| (c.at[axis] - at).abs() > 1.0)
}

/// Splits an outline at a coordinate: the part below, the part above, and the length of the cut. `None` unless it crosses exactly twice.
pub fn cut_outer(outer: &Contour, axis: usize, at: f64) -> Option<(Contour, Contour, f64)> {
    let path = match outer {
        Contour::Path(_) => outer.clone(),
        Contour::Circle { centre, diameter } => {
            // As two half circles whose ends do not lie on a cut through the middle.
            let d = diameter / 2.0 * std::f64::consts::FRAC_1_SQRT_2;
            Contour::Path(vec![Node { at: [centre[0] + d, centre[1] + d], bulge: 1.0 }, Node { at: [centre[0] - d, centre[1] - d], bulge: 1.0 }])
        }
    };
    // Every edge cut at its crossings, so that each lies on one side.
    let mut nodes: Vec<(Node, bool)> = Vec::new();
    let Contour::Path(corners) = &path else { return None };
    // A crossing lies on the cut to the last digit.
    let on_cut = |p: kurbo::Point| if axis == 0 { [at, p.y] } else { [p.x, at] };
    let coordinate = |p: kurbo::Point| if axis == 0 { p.x } else { p.y };
    for (corner, edge) in corners.iter().zip(path.edges()) {
        nodes.push((*corner, false));
        match edge {
            Edge::Straight(line) => {
                let (a, b) = (coordinate(line.p0), coordinate(line.p1));
                if (a - at) * (b - at) < 0.0 {
                    nodes.push((Node { at: on_cut(line.eval((at - a) / (b - a))), bulge: 0.0 }, true));
                }
            }
            Edge::Round { arc, .. } => {
                let (start, sweep) = (arc.start_angle, arc.sweep_angle);
                let ratio = (at - coordinate(arc.center)) / arc.radii.x;
                if ratio.abs() >= 1.0 {
                    continue;
                }
                let base = if axis == 0 { ratio.acos() } else { ratio.asin() };
                let other = if axis == 0 { -base } else { std::f64::consts::PI - base };
                let mut shares: Vec<f64> = [base, other]
                    .into_iter()
                    .map(|angle| (angle - start) * sweep.signum())
                    .map(|d| d.rem_euclid(std::f64::consts::TAU) / sweep.abs())
                    .filter(|s| *s > 1e-9 && *s < 1.0 - 1e-9)
                    .collect();
                shares.sort_by(f64::total_cmp);
                let mut done = 0.0;
                for share in shares {
                    if let Some(last) = nodes.last_mut() {
                        last.0.bulge = (sweep * (share - done) / 4.0).tan();
                    }
                    nodes.push((Node { at: on_cut(arc.eval(share)), bulge: (sweep * (1.0 - share) / 4.0).tan() }, true));
                    done = share;
                }
            }
        }
    }
    let cuts: Vec<usize> = nodes.iter().enumerate().filter(|(_, n)| n.1).map(|(i, _)| i).collect();
    let &[i, j] = cuts.as_slice() else { return None };
    let (p, q) = (nodes.get(i)?.0, nodes.get(j)?.0);
    let closing = |n: Node| Node { bulge: 0.0, ..n };
    let mut one: Vec<Node> = nodes.get(i..j)?.iter().map(|n| n.0).collect();
    one.push(closing(q));
    let mut two: Vec<Node> = nodes.get(j..)?.iter().chain(nodes.get(..i)?).map(|n| n.0).collect();
    two.push(closing(p));
    let (one, two) = (Contour::Path(one), Contour::Path(two));
    let length = (p.at[0] - q.at[0]).hypot(p.at[1] - q.at[1]);
    let middle = |c: &Contour| {
        let (a, b) = c.bounds();
        (a[axis] + b[axis]) / 2.0
    };
    Some(if middle(&one) < at { (one, two, length) } else { (two, one, length) })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn halves_add_up() {
        let slot = Contour::upright_slot(0.0, 0.0, 100.0, 40.0);
        for (axis, at) in [(1, 50.0), (1, 10.0), (0, 3.0)] {
            let (a, b, length) = cut_outer(&slot, axis, at).unwrap();
            assert!((a.area() + b.area() - slot.area()).abs() < 1e-9, "{axis} {at}");
            assert!(length > 20.0);
        }
        let (a, b, length) = cut_outer(&Contour::Circle { centre: [5.0, 5.0], diameter: 10.0 }, 1, 5.0).unwrap();
        assert!((a.area() - b.area()).abs() < 1e-9 && (length - 10.0).abs() < 1e-9);
    }

    #[test]
    fn a_long_plate_is_cut_into_pieces_that_fit() {
        let flat = FlatPattern::new(Contour::rectangle([0.0, 0.0], [7000.0, 1800.0]));
        let (pieces, welds) = split(&flat, &[Placement::near(0.0)], 5.0, [3000.0, 1500.0], 1.0).unwrap();
        assert!(pieces.iter().all(|p| fits(p.0.size(), [3000.0, 1500.0])));
        assert!((pieces.iter().map(|p| p.0.area()).sum::<f64>() - flat.area()).abs() < 1e-6);
        assert!(welds.len() + 1 == pieces.len());
    }

    /// The far plate is the near one turned over: cut at the same places along the machine, pieces counted from the same end.
    #[test]
    fn near_and_far_are_cut_alike() {
        let mut near = FlatPattern::new(Contour::rectangle([0.0, 0.0], [4000.0, 1400.0]));
        near.open("slot", Contour::upright_slot(2010.0, 300.0, 900.0, 100.0));
        let far = near.mapped(true, |p| [4000.0 - p[0], p[1]]);
        let lengths = |flat: &FlatPattern, place: Placement| -> Vec<f64> {
            split(flat, &[place], 5.0, [3000.0, 1500.0], 1.0).unwrap().0.iter().map(|p| p.0.size()[0]).collect()
        };
        let (a, b) = (lengths(&near, Placement::near(0.0)), lengths(&far, Placement::far(0.0)));
        assert!(a.len() == b.len() && a.len() > 1, "{a:?} {b:?}");
        assert!(a.iter().zip(&b).all(|(a, b)| (a - b).abs() < 1e-9) && (a[0] - a[1]).abs() > 1.0, "{a:?} {b:?}");
    }
}
