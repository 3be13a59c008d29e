//! Rectangles before other things in a view: which part of a line they hide, or show through an opening.
//!
//! In: a rectangle and a line in the plane of the view, mm. Out: pieces of the line.

use crate::model::frame::Extent;

type Flat = [f64; 2];

/// A rectangle that hides what lies behind it, or through which one looks.
#[derive(Debug, Clone, Copy)]
pub struct Window {
    /// Across the view, mm.
    pub u: Extent,
    /// Upright, mm.
    pub z: Extent,
}

impl Window {
    /// From the lower left round.
    pub fn corners(&self) -> [Flat; 4] {
        [[self.u.low, self.z.low], [self.u.high, self.z.low], [self.u.high, self.z.high], [self.u.low, self.z.high]]
    }

    /// From the lower one round.
    pub fn sides(&self) -> Vec<(Flat, Flat)> {
        let c = self.corners();
        c.into_iter().zip(c.into_iter().cycle().skip(1)).collect()
    }

    /// The stretch of a line that lies strictly inside, as shares of its length (Liang and Barsky 1984, from memory).
    fn span(&self, p: Flat, q: Flat) -> Option<(f64, f64)> {
        let (mut low, mut high) = (0.0_f64, 1.0_f64);
        for (from, to, e) in [(p[0], q[0], self.u), (p[1], q[1], self.z)] {
            let run = to - from;
            if run.abs() < 1e-9 {
                if from <= e.low + 1e-6 || from >= e.high - 1e-6 {
                    return None;
                }
                continue;
            }
            let (s, t) = ((e.low - from) / run, (e.high - from) / run);
            low = low.max(s.min(t));
            high = high.min(s.max(t));
        }
        (high - low > 1e-6).then_some((low, high))
    }

    /// What of a line lies inside.
    pub fn within(&self, p: Flat, q: Flat) -> Vec<(Flat, Flat)> {
        self.span(p, q).into_iter().map(|(s, t)| (between(p, q, s), between(p, q, t))).collect()
    }

    /// What of a line lies outside or on the outline.
    pub fn outside(&self, p: Flat, q: Flat) -> Vec<(Flat, Flat)> {
        let Some((s, t)) = self.span(p, q) else { return vec![(p, q)] };
        let pieces = [(0.0, s), (t, 1.0)].into_iter().filter(|(s, t)| t - s > 1e-6);
        pieces.map(|(s, t)| (between(p, q, s), between(p, q, t))).collect()
    }
}

fn between(p: Flat, q: Flat, share: f64) -> Flat {
    [p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_window_cuts_lines_at_its_outline() {
        let w = Window { u: Extent::new(0.0, 10.0), z: Extent::new(0.0, 10.0) };
        assert_eq!(w.within([-5.0, 5.0], [15.0, 5.0]), [([0.0, 5.0], [10.0, 5.0])]);
        assert_eq!(w.outside([-5.0, 5.0], [15.0, 5.0]), [([-5.0, 5.0], [0.0, 5.0]), ([10.0, 5.0], [15.0, 5.0])]);
        assert_eq!(w.outside([-5.0, 12.0], [15.0, 12.0]).len(), 1);
        // Along its edge nothing is hidden and nothing is seen through it.
        assert!(w.within([0.0, 0.0], [10.0, 0.0]).is_empty());
        assert_eq!(w.outside([0.0, 0.0], [10.0, 0.0]).len(), 1);
    }
}
