//! What wears comes out: every body that is moved passes every body that is still there, and stays inside the pit.
//!
//! In: a machine, its parts, the steps of taking apart, the pit's free space. Out: what is in the way of what, and how deep. What a body sweeps on a straight
//! way is built as a body of its own: a plate along its thickness and a round part along its axis by their own outline, a shaft seat
//! by seat, everything else by the box round it, which is never smaller.

use super::standing::{Piece, Position, Read, Stance};
use crate::geometry::Edge;
use crate::machine::Machine;
use crate::machine::removal::{Move, Step};
use crate::parts::shape::{Mount, Shape, region};
use crate::parts::{Part, Parts};
use crate::say::Statement;
use crate::solid::Brep;
use crate::solid::brep::{Curve, FLAT, Frame};
use crate::solid::build::extrude;
use crate::solid::overlap::{Stood, TOUCH, shared};
use crate::solid::plane::{Loop, reversed};
use crate::solid::within::{Bounds, Within};
use glam::{DAffine3, DVec3};
use kurbo::Point;

/// Id of what is in the way where that is the pit.
pub const PIT: &str = "pit";

/// A body in the way.
#[derive(Debug, Clone, PartialEq)]
pub struct InTheWay {
    /// The step, from 1.
    pub step: usize,
    /// Ids of what is moved and of what it meets.
    pub ids: [String; 2],
    /// What they are.
    pub names: [Statement; 2],
    /// How deep the one reaches into the other, mm.
    pub deep: f64,
    /// Where, model mm.
    pub at: [f64; 3],
}

/// A stretch along a body's own axis with the outline that it sweeps there.
struct Swept {
    region: Vec<Loop>,
    from: f64,
    to: f64,
}

fn circle(diameter: f64) -> Loop {
    vec![Edge::circle(Point::ZERO, diameter / 2.0)]
}

fn rectangle(low: [f64; 2], high: [f64; 2]) -> Loop {
    Edge::chain(&[[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]].map(|p| (Point::new(p[0], p[1]), 0.0)), true)
}

/// What a part is along its own z, where that is less than the box round it.
fn along_z(part: &Part, reach: &Bounds) -> Option<Vec<Swept>> {
    let whole = |region: Vec<Loop>| vec![Swept { region, from: reach.low.z, to: reach.high.z }];
    if let Some(flat) = part.flat.as_ref().filter(|f| f.bends.is_empty()) {
        return Some(whole(region(flat)));
    }
    match part.shape.as_ref()? {
        Shape::Shaft(shaft) => Some(shaft.seats.iter().map(|s| Swept { region: vec![circle(s.diameter)], from: s.from, to: s.to }).collect()),
        Shape::Ring { diameter, bore, .. } | Shape::Hub { diameter, bore, .. } => Some(whole(vec![circle(*diameter), reversed(&circle(*bore))])),
        Shape::Rod { diameter, .. } => Some(whole(vec![circle(*diameter)])),
        Shape::Unit(u) => {
            let clear = if u.mount == Mount::Base { reach.low.truncate() } else { -reach.high.truncate() };
            let outline = rectangle(clear.to_array(), reach.high.truncate().to_array());
            Some(whole(vec![outline, reversed(&circle(u.bore))]))
        }
        Shape::Gasket(_) => None,
        _ => None,
    }
}

/// The box round the whole ring that a rolled piece is of, in the model; nothing for others.
fn rolled(piece: &Piece<'_>, part: &Part) -> Option<Bounds> {
    let bend = part.flat.as_ref()?.bends.first().filter(|b| b.rolled && b.start == 0.0)?;
    let radius = bend.inside_radius + part.thickness;
    let reach = piece.stood.body.reach;
    let ends = [reach.low.y, reach.high.y].map(|y| piece.stood.at.transform_point3(DVec3::new(0.0, y, -bend.inside_radius)));
    let out = DVec3::new(radius, 0.0, radius);
    Some(Bounds::of(ends.into_iter().flat_map(|p| [p - out, p + out])))
}

/// The box round a piece that has straight edges alone, in the model.
fn straight_edged(piece: &Piece<'_>) -> Option<Bounds> {
    let brep = &piece.body.brep;
    let straight = brep.edges.iter().all(|e| matches!(e.curve, Curve::Line));
    straight.then(|| Bounds::of(brep.vertices.iter().map(|v| piece.stood.at.transform_point3(*v))))
}

/// What a piece sweeps when it is moved, in its own frame: placements turn bodies over, so what is swept is stood as the piece is.
fn swept(piece: &Piece<'_>, part: Option<&Part>, by: DVec3) -> Vec<(Brep, DAffine3)> {
    let own = piece.stood.at.matrix3.transpose() * by;
    let askew = own.abs().to_array().iter().filter(|c| **c > 1e-6 * own.length()).count() > 1;
    if let Some(round) = part.and_then(|p| rolled(piece, p)).or_else(|| if askew { straight_edged(piece) } else { None }) {
        // A ring about a level axis, or a plate that leans: the box round it in the model.
        let (low, high) = (round.low.min(round.low + by), round.high.max(round.high + by));
        let outline = rectangle(low.truncate().to_array(), high.truncate().to_array());
        return extrude(&[outline], high.z - low.z, &Frame { origin: DVec3::Z * low.z, ..FLAT }).into_iter().map(|b| (b, DAffine3::IDENTITY)).collect();
    }
    let own_frame = |brep: Brep| (brep, piece.stood.at);
    let reach = piece.stood.body.reach;
    let straight = own.truncate().length() < 1e-6 * own.z.abs();
    if let Some(all) = part.filter(|_| straight).and_then(|p| along_z(p, &reach)) {
        let body = |s: Swept| {
            let (from, to) = (s.from.min(s.from + own.z), s.to.max(s.to + own.z));
            extrude(&s.region, to - from, &Frame { origin: DVec3::Z * from, ..FLAT }).ok().map(own_frame)
        };
        return all.into_iter().filter_map(body).collect();
    }
    // The box in its own frame, as long as the way; askew to it larger than need be.
    let (low, high) = (reach.low.min(reach.low + own), reach.high.max(reach.high + own));
    let outline = rectangle(low.truncate().to_array(), high.truncate().to_array());
    extrude(&[outline], high.z - low.z, &Frame { origin: DVec3::Z * low.z, ..FLAT }).into_iter().map(own_frame).collect()
}

/// What is in the way of some steps; `pit` is the box that its walls leave, up to the plant floor, where there is one.
pub fn in_the_way(machine: &Machine, parts: &Parts, steps: &[Step], pit: Option<Bounds>) -> Vec<InTheWay> {
    let read = Read::new(machine);
    let mut there = read.pieces(Stance::at(Position::Lowest), 0.0);
    let mut out = Vec::new();
    for (number, step) in steps.iter().enumerate() {
        there.retain(|p| !step.undone.takes(&p.body.id, middle(p)));
        for way in &step.moves {
            // What is on its way; once it has moved it may be elsewhere than its group says.
            let going: Vec<bool> = there.iter().map(|p| way.group.takes(&p.body.id, middle(p))).collect();
            out.extend(met(&there, &going, parts, (number + 1, way), pit));
            for (piece, _) in there.iter_mut().zip(&going).filter(|(_, goes)| **goes) {
                piece.stood = piece.stood.moved(way.by);
            }
            // What is off is gone at once; a pulley that is lifted goes on.
            let last = step.moves.iter().rev().find(|m| m.group == way.group).is_some_and(|m| std::ptr::eq(m, way));
            if step.off && last {
                let mut goes = going.iter();
                there.retain(|_| goes.next() != Some(&true));
            }
        }
    }
    out
}

/// Middle of a piece, from the belt's middle plane toward the near side.
fn middle(piece: &Piece<'_>) -> f64 {
    f64::midpoint(piece.stood.reach.low.y, piece.stood.reach.high.y)
}

/// How far a box reaches out of a pit, mm, and where; what stands wholly over the plant floor does not.
fn beyond(reach: &Bounds, pit: &Bounds) -> Option<(f64, DVec3)> {
    let (low, high) = (pit.low - reach.low, reach.high - pit.high);
    let deep = low.x.max(low.y).max(high.x).max(high.y);
    (reach.low.z < pit.high.z && deep > TOUCH).then(|| (deep, reach.low.midpoint(reach.high)))
}

/// What the pieces of a move meet on their way.
fn met(there: &[Piece<'_>], going: &[bool], parts: &Parts, (step, way): (usize, &Move), pit: Option<Bounds>) -> Vec<InTheWay> {
    let mut out: Vec<InTheWay> = Vec::new();
    let mut note = |found: InTheWay| match out.iter_mut().find(|known| known.ids == found.ids) {
        Some(known) if known.deep >= found.deep => {}
        Some(known) => *known = found,
        None => out.push(found),
    };
    for (piece, _) in there.iter().zip(going).filter(|(_, goes)| **goes) {
        for (body, at) in swept(piece, parts.part(&piece.body.id), way.by) {
            let within = Within::new(&body);
            let stood = Stood::new(&within, at);
            if let Some((deep, at)) = pit.and_then(|pit| beyond(&stood.reach, &pit)) {
                let names = [piece.body.name.clone(), "the pit's walls".into()];
                note(InTheWay { step, ids: [piece.body.id.clone(), PIT.into()], names, deep, at: at.to_array() });
            }
            for (other, _) in there.iter().zip(going).filter(|(p, goes)| !**goes && p.stood.reach.meets(&stood.reach)) {
                let Some(shared) = shared(&stood, &other.stood) else { continue };
                let names = [piece.body.name.clone(), other.body.name.clone()];
                note(InTheWay { step, ids: [piece.body.id.clone(), other.body.id.clone()], names, deep: shared.deep, at: shared.at.to_array() });
            }
        }
    }
    out
}
