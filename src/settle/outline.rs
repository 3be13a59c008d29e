//! The section of a bucket: a plain default outline, and what any outline holds.
//!
//! In: projection and height, or corners as the spec gives them (out from the belt, up from the
//! lowest point), all mm. Out: corners, the area under water level, and whether the polygon is simple.
//! Not promised: the shape of any particular make of bucket.

use crate::geometry::{area_below, point, ring};
use kurbo::{Point, Shape as _};

/// A corner: out from the belt, up from the bucket's lowest point, mm.
pub(super) type Corner = [f64; 2];

/// Corners of the plain default, as shares of projection and height: upright back, rounded bottom, sloping front, lip at 0.7 of the height.
const PLAIN: [Corner; 7] = [[0.0, 1.0], [0.0, 0.25], [0.12, 0.06], [0.3, 0.0], [0.55, 0.08], [0.8, 0.35], [1.0, 0.7]];

/// The default outline, as far out and up as the bucket is, else to whole millimetres.
pub(super) fn plain(projection: f64, height: f64) -> Vec<Corner> {
    let whole = |share: f64, of: f64| if share < 1.0 { (share * of).round().min(of) } else { of };
    PLAIN.iter().map(|[x, y]| [whole(*x, projection), whole(*y, height)]).collect()
}

fn edges(corners: &[Corner]) -> impl Iterator<Item = (Corner, Corner)> + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

/// Area of the section up to the level of the lip (the last corner), mm².
pub(super) fn water_level_area(corners: &[Corner]) -> f64 {
    let Some(lip) = corners.last() else { return 0.0 };
    let points: Vec<Point> = corners.iter().copied().map(point).collect();
    area_below(&points, |_| lip[1])
}

/// Length of sheet round the section, without the open top, mm.
pub(super) fn sheet_length(corners: &[Corner]) -> f64 {
    corners.windows(2).map(|w| (w[1][0] - w[0][0]).hypot(w[1][1] - w[0][1])).sum()
}

/// Whether no two edges cross or touch apart from neighbours at their corner, and the area is not zero.
pub(super) fn is_simple(corners: &[Corner]) -> bool {
    let all: Vec<(Corner, Corner)> = edges(corners).collect();
    let n = all.len();
    if n < 3 || ring(corners.iter().copied().map(point)).area().abs() < 5e-7 || all.iter().any(|(a, b)| (a[0] - b[0]).hypot(a[1] - b[1]) < 1e-9) {
        return false;
    }
    !(0..n).any(|i| {
        (i + 1..n).any(|j| {
            let neighbours = j == i + 1 || (i == 0 && j == n - 1);
            match (all.get(i), all.get(j)) {
                (Some(&e), Some(&f)) => {
                    if neighbours {
                        folds_back(e, f)
                    } else {
                        meet(e, f)
                    }
                }
                _ => false,
            }
        })
    })
}

fn side(a: Corner, b: Corner, p: Corner) -> f64 {
    (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
}

/// Whether two edges without a common corner meet.
fn meet((a, b): (Corner, Corner), (c, d): (Corner, Corner)) -> bool {
    let within = |a: Corner, b: Corner, p: Corner| {
        p[0] >= a[0].min(b[0]) - 1e-9 && p[0] <= a[0].max(b[0]) + 1e-9 && p[1] >= a[1].min(b[1]) - 1e-9 && p[1] <= a[1].max(b[1]) + 1e-9
    };
    let (s1, s2, s3, s4) = (side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b));
    (s1 * s2 < 0.0 && s3 * s4 < 0.0)
        || (s1.abs() < 1e-9 && within(a, b, c))
        || (s2.abs() < 1e-9 && within(a, b, d))
        || (s3.abs() < 1e-9 && within(c, d, a))
        || (s4.abs() < 1e-9 && within(c, d, b))
}

/// Whether two neighbouring edges lie on top of each other.
fn folds_back((a, b): (Corner, Corner), (c, d): (Corner, Corner)) -> bool {
    let (u, v) = ([b[0] - a[0], b[1] - a[1]], [d[0] - c[0], d[1] - c[1]]);
    (u[0] * v[1] - u[1] * v[0]).abs() < 1e-9 && u[0] * v[0] + u[1] * v[1] < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn water_level_of_simple_sections() {
        // A box 100 x 50 whose lip is its upper corner holds all of it; a triangle likewise.
        assert!((water_level_area(&[[0.0, 50.0], [0.0, 0.0], [100.0, 0.0], [100.0, 50.0]]) - 5000.0).abs() < 1e-9);
        assert!((water_level_area(&[[0.0, 80.0], [0.0, 0.0], [60.0, 40.0]]) - 60.0 * 40.0 / 2.0).abs() < 1e-9);
    }

    #[test]
    fn the_plain_outline_holds_half_its_box() {
        let corners = plain(200.0, 200.0);
        assert!(is_simple(&corners));
        assert!((water_level_area(&corners) / 40_000.0 - 0.507).abs() < 0.003);
    }

    #[test]
    fn crossed_and_folded_outlines_are_seen() {
        assert!(!is_simple(&[[0.0, 100.0], [100.0, 0.0], [0.0, 0.0], [100.0, 100.0]]), "bow tie");
        assert!(!is_simple(&[[0.0, 0.0], [50.0, 0.0], [100.0, 0.0]]), "no area");
        assert!(!is_simple(&[[0.0, 0.0], [100.0, 0.0], [50.0, 0.0], [50.0, 50.0]]), "folds back");
        assert!(is_simple(&[[0.0, 0.0], [50.0, 0.0], [100.0, 0.0], [50.0, 50.0]]), "a straight corner is fine");
    }
}
