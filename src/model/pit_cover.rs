//! The pit's cover: cut-outs round casing, trunking and spout, beams with their pockets, and where the guard rail gives way to the spout.
//!
//! In: spec, the foot, the pit's inner faces, hatch, seat. Out: an outline for the civil engineer and whoever makes the cover; beams are
//! as deep as a twentieth of their span (common practice, no source) and on hold.

use super::casing::CasingBody;
use super::customary::custom;
use super::frame::Extent;
use super::inlets::{FeedSide, InletBody};
use super::pit_fittings::Area;
use crate::spec::Spec;
use crate::spec::pit::AccessSide;

/// A beam under the cover, its axis in plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// One end: x and y.
    pub from: [f64; 2],
    /// The other end.
    pub to: [f64; 2],
}

impl Beam {
    /// Length of its axis, mm.
    pub fn span(&self) -> f64 {
        (self.to[0] - self.from[0]).hypot(self.to[1] - self.from[1])
    }
}

/// The cover as an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    /// Round what passes it: casing or trunking, spouts.
    pub cut_outs: Vec<Area>,
    /// Beams on which its plates lie.
    pub beams: Vec<Beam>,
    /// Height of the beams, mm.
    pub beam: f64,
    /// Bearing of a beam in its pocket in the wall, mm.
    pub bearing: f64,
    /// From plant floor to the underside of the beams, mm.
    pub thickness: f64,
}

/// Where the guard rail is interrupted for a spout of the first elevator; the others alike at the pitch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailGap {
    /// On which side.
    pub side: FeedSide,
    /// Across the machine.
    pub y: Extent,
}

/// Gap round casing, trunking and spout, mm and inches (common practice).
const AROUND: [f64; 2] = [25.0, 1.0];
/// Largest distance of beams under chequer plate, mm (common practice).
const PITCH: f64 = 1000.0;
/// Span over height of a beam (common practice).
const SLENDER: f64 = 20.0;
/// Bearing in a wall's pocket, mm and inches (common practice).
const BEARING: [f64; 2] = [150.0, 6.0];
/// Beside a spout through the rail, mm and inches (common practice).
const BESIDE: [f64; 2] = [100.0, 4.0];

/// What the cover goes round.
pub(super) struct Covered<'a> {
    pub spec: &'a Spec,
    pub casing: &'a CasingBody,
    pub inlets: &'a [InletBody],
    pub inner: Area,
}

impl Covered<'_> {
    fn custom(&self, sizes: [f64; 2]) -> f64 {
        custom(self.spec, sizes[0], sizes[1])
    }

    fn depth(&self) -> f64 {
        self.spec.pit.depth.value()
    }

    fn slope(&self) -> f64 {
        self.spec.pit.feed_slope.value().to_radians().tan()
    }

    /// From an inlet's flange outward to the wall's inner face, mm.
    fn to_wall(&self, inlet: &InletBody) -> f64 {
        if inlet.side == FeedSide::Up { self.inner.x.high - inlet.flange_face } else { inlet.flange_face - self.inner.x.low }
    }

    /// What passes plant floor: casing, or the trunking on it, and spouts.
    fn cut_outs(&self) -> Vec<Area> {
        let (c, around, depth) = (self.casing, self.custom(AROUND), self.depth());
        let mut all = if c.top > depth {
            vec![Area { x: Extent::new(c.down_outermost() - c.plate, c.up_face + c.plate).grown(around), y: c.width.grown(c.plate + around) }]
        } else {
            c.trunk.iter().map(|t| Area { x: t.x.grown(c.plate + around), y: t.y.grown(c.plate + around) }).collect()
        };
        for i in self.inlets {
            let run = self.to_wall(i).min(self.spec.pit.feed_distance.value());
            // Where its roof and its floor come through.
            let at = |z: f64| if self.slope() > 0.0 { ((depth - z) / self.slope()).max(0.0) } else { f64::INFINITY };
            let (from, to) = (at(i.flange_sill + i.opening.size()), at(i.flange_sill).min(run));
            if from < run && to > from {
                let x = [from, to].map(|d| i.flange_face + i.side.outward() * d);
                all.push(Area { x: Extent::new(x[0], x[1]).grown(around), y: i.width.grown(i.flange + around) });
            }
        }
        all
    }

    /// The cover of a pit of `elevators` at a pitch, over the way down's hatch at a wall; `seat` is the depth of its frame.
    pub(super) fn cover(&self, hatch: Option<Area>, side: AccessSide, (elevators, pitch): (u32, f64), seat: f64) -> Cover {
        let own = self.cut_outs();
        let cut_outs: Vec<Area> = (0..elevators)
            .flat_map(|k| own.iter().map(move |a| Area { x: a.x, y: Extent { low: a.y.low - f64::from(k) * pitch, high: a.y.high - f64::from(k) * pitch } }))
            .collect();
        let beams = self.beams(&own, hatch, side);
        let span = beams.iter().map(Beam::span).fold(0.0, f64::max);
        let step = self.custom([20.0, 1.0]);
        let beam = ((span / SLENDER).max(self.custom([120.0, 5.0])) / step - 1e-6).ceil() * step;
        Cover { cut_outs, beams, beam, bearing: self.custom(BEARING), thickness: seat + beam }
    }

    /// Across the pit beside every cut-out and between, and along the hatch.
    fn beams(&self, cut_outs: &[Area], hatch: Option<Area>, side: AccessSide) -> Vec<Beam> {
        let Area { x, y } = self.inner;
        let along = hatch.filter(|_| matches!(side, AccessSide::Near | AccessSide::Far));
        let across = hatch.filter(|_| matches!(side, AccessSide::Up | AccessSide::Down));
        // What no beam crosses.
        let mut taken: Vec<Extent> = cut_outs.iter().chain(&across).map(|a| a.x).collect();
        taken.sort_by(|a, b| a.low.total_cmp(&b.low));
        let mut places = Vec::new();
        let mut from = x.low;
        for t in taken.iter().copied().chain([Extent { low: x.high, high: x.high }]) {
            let room = t.low - from;
            if room > 0.0 {
                let bays = (room / PITCH).ceil().max(1.0);
                places.extend((0..=bays as u32).map(|k| from + room * f64::from(k) / bays));
            }
            from = from.max(t.high);
        }
        // The walls carry their own edges.
        places.retain(|p| *p > x.low + 1.0 && *p < x.high - 1.0);
        places.dedup_by(|a, b| (*a - *b).abs() < 1.0);
        let mut all: Vec<Beam> = places
            .into_iter()
            .map(|at| {
                let cut = along.filter(|h| h.x.low < at && at < h.x.high);
                let (low, high) = match (cut, side) {
                    (Some(h), AccessSide::Near) => (y.low, h.y.low),
                    (Some(h), _) => (h.y.high, y.high),
                    (None, _) => (y.low, y.high),
                };
                Beam { from: [at, low], to: [at, high] }
            })
            .collect();
        if let Some(h) = along {
            let at = if side == AccessSide::Near { h.y.low } else { h.y.high };
            all.push(Beam { from: [h.x.low.max(x.low), at], to: [h.x.high.min(x.high), at] });
        }
        all
    }

    /// Where a spout passes the rail that stands so far beyond the wall's inner face, under its top.
    pub(super) fn rail_gaps(&self, offset: f64, height: f64) -> Vec<RailGap> {
        let (pit, depth) = (&self.spec.pit, self.depth());
        let crosses = |i: &&InletBody| {
            // What comes from beyond passes the rail at the height at which its spout ends, or rises to.
            let run = (self.to_wall(i) + offset).min(pit.feed_distance.value());
            let floor = i.flange_sill + run * self.slope();
            floor < depth + height && floor + i.opening.size() > depth
        };
        self.inlets.iter().filter(crosses).map(|i| RailGap { side: i.side, y: i.width.grown(i.flange + self.custom(BESIDE)) }).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_beam_is_as_long_as_its_axis() {
        assert_eq!(Beam { from: [0.0, 0.0], to: [3000.0, 4000.0] }.span(), 5000.0);
    }
}
