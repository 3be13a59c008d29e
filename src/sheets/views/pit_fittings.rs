//! Landing, hatch, guard rail and sleeves of the pit in plan and in the sections.
//!
//! Hatch and rail lie at plant floor, over the cut of the plan: phantom. The landing is a space, not a thing:
//! hidden line.

use crate::model::pit::PitBody;
use crate::model::pit_fittings::Area;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side};
use crate::spec::pit::AccessSide;

fn area(d: &mut Draft, pen: Pen, a: &Area) {
    d.rectangle(pen, (a.x.low, -a.y.high), (a.x.high, -a.y.low));
}

/// In plan, near side at the bottom.
pub fn from_above(d: &mut Draft, pit: &PitBody, landing: impl Into<String>, hatch: impl Into<String>) {
    let f = &pit.fittings;
    area(d, Pen::Hidden, &f.landing);
    let side = if f.landing.x.middle() > pit.x.middle() { Side::Right } else { Side::Left };
    d.leader((f.landing.x.middle(), -f.landing.y.middle()), landing, side);
    if let Some(h) = &f.hatch {
        area(d, Pen::Phantom, h);
        d.leader((if side == Side::Right { h.x.high } else { h.x.low }, -(h.y.low + 0.7 * h.y.size())), hatch, side);
    }
    if let Some(r) = &f.rail {
        area(d, Pen::Phantom, &Area { x: pit.x.grown(r.offset), y: pit.y.grown(r.offset) });
    }
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
