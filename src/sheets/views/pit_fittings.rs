//! Landing and sleeves of the pit in plan and in the sections; cover, hatch and guard rail at plant floor.
//!
//! The landing is a space, not a thing: hidden line.

use crate::model::inlets::FeedSide;
use crate::model::pit::PitBody;
use crate::model::pit_fittings::Area;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side};
use crate::spec::pit::AccessSide;

fn area(d: &mut Draft, pen: Pen, a: &Area) {
    d.rectangle(pen, (a.x.low, -a.y.high), (a.x.high, -a.y.low));
}

/// In plan, near side at the bottom.
pub fn from_above(d: &mut Draft, pit: &PitBody, landing: impl Into<String>) {
    let f = &pit.fittings;
    area(d, Pen::Hidden, &f.landing);
    let side = if f.landing.x.middle() > pit.x.middle() { Side::Right } else { Side::Left };
    d.leader((f.landing.x.middle(), -f.landing.y.middle()), landing, side);
    for s in &f.sleeves {
        let half = s.diameter / 2.0;
        let (x, v) = (s.at.x, -s.at.y);
        for side in [-half, half] {
            match s.wall {
                AccessSide::Up => d.line(Pen::FineEdge, (x, v + side), (x + pit.wall, v + side)),
                AccessSide::Down => d.line(Pen::FineEdge, (x - pit.wall, v + side), (x, v + side)),
                AccessSide::Near => d.line(Pen::FineEdge, (x + side, v - pit.wall), (x + side, v)),
                AccessSide::Far => d.line(Pen::FineEdge, (x + side, v), (x + side, v + pit.wall)),
            }
        }
    }
}

/// Cover and guard rail at plant floor, near side at the bottom: edge of the pit, cut-outs, beams, hatch, rail with its gaps.
pub fn at_floor(d: &mut Draft, pit: &PitBody) {
    area(d, Pen::Concrete, &pit.floor());
    if let (Some(cover), Some(seat)) = (&pit.cover, pit.fittings.seat) {
        area(d, Pen::Edge, &Area { x: pit.x.grown(seat.width), y: pit.y.grown(seat.width) });
        for beam in &cover.beams {
            d.line(Pen::Hidden, (beam.from[0], -beam.from[1]), (beam.to[0], -beam.to[1]));
        }
        cover.cut_outs.iter().for_each(|a| area(d, Pen::Edge, a));
    }
    if let Some(h) = &pit.fittings.hatch {
        area(d, Pen::Edge, h);
        d.line(Pen::FineEdge, (h.x.low, -h.y.low), (h.x.high, -h.y.high));
    }
    if let Some(r) = &pit.fittings.rail {
        let around = Area { x: pit.x.grown(r.offset), y: pit.y.grown(r.offset) };
        for v in [-around.y.high, -around.y.low] {
            d.line(Pen::Edge, (around.x.low, v), (around.x.high, v));
        }
        for (side, x) in [(FeedSide::Up, around.x.high), (FeedSide::Down, around.x.low)] {
            // What is left of the rail between the spouts, from the near side on.
            let mut from = -around.y.high;
            for gap in pit.rail_gaps.iter().filter(|g| g.side == side) {
                for k in 0..pit.elevators {
                    let row = f64::from(k) * pit.pitch;
                    d.line(Pen::Edge, (x, from), (x, row - gap.y.high));
                    from = row - gap.y.low;
                }
            }
            d.line(Pen::Edge, (x, from), (x, -around.y.low));
        }
    }
}

/// Sleeves as seen in the section along the machine: in the down-side wall cut, in the far wall as circles.
pub fn along(d: &mut Draft, pit: &PitBody) {
    for s in &pit.fittings.sleeves {
        let half = s.diameter / 2.0;
        match s.wall {
            AccessSide::Far => d.circle(Pen::FineEdge, (s.at.x, s.at.z), half),
            AccessSide::Down => {
                for z in [s.at.z - half, s.at.z + half] {
                    d.line(Pen::FineEdge, (s.at.x - pit.wall, z), (s.at.x, z));
                }
            }
            AccessSide::Up | AccessSide::Near => {}
        }
    }
}
