//! Where plates are set on other plates, and the lines that are scribed there.
//!
//! In: finished parts with their places, seams. Out: a [`Seat`] for each piece of a welded plate on the marked face of
//! another plate, its outline in that one's pattern; on the patterns the lines of it that keep off what is cut, and axes.
//! What stands on a bend, on a rolled plate or on the back of a plate is not looked for. Lines that differ between
//! pieces cut alike are not scribed: one file cannot tell them.

use super::flat::{Scribed, Stretch, Tells};
use super::placement::Placement;
use super::scribing::Room;
use super::{Part, Seat, Weld};
use crate::geometry::Edge;
use crate::model::Foot;
use crate::model::frame::ModelPoint;
use glam::DVec3;
use kurbo::Point;
use std::collections::BTreeSet;
use std::f64::consts::PI;

/// How near to a face an edge lies on it, mm.
const ON: f64 = 0.05;
/// Flat stretches of a bent plate shorter than this carry nothing, mm.
const FLAT: f64 = 1.0;

const fn vector(p: ModelPoint) -> DVec3 {
    DVec3::new(p.x, p.y, p.z)
}

/// Tells which parts are welded to others: a seam of the list is their own or that of their assembly, and no screws hold
/// them in tapped holes of another part.
#[derive(Debug)]
pub struct Welded<'a> {
    welds: &'a [Weld],
    /// What tapped holes are for.
    tapped: BTreeSet<String>,
}

impl<'a> Welded<'a> {
    /// Of all parts of a foot and its seams.
    pub fn of(items: &[Part], welds: &'a [Weld]) -> Self {
        Self { welds, tapped: holes(items, true).map(String::from).collect() }
    }
    /// Whether this one is.
    pub fn holds(&self, part: &Part) -> bool {
        let own = |w: &Weld| part.id.strip_prefix(w.of.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
        self.welds.iter().any(own) && !holes(std::slice::from_ref(part), false).any(|feature| self.tapped.contains(feature))
    }
}

/// What the tapped, or the other, holes of parts are for.
fn holes(parts: &[Part], tapped: bool) -> impl Iterator<Item = &str> {
    parts.iter().filter_map(|p| p.flat.as_ref()).flat_map(|f| &f.holes).filter(move |h| h.thread.is_some() == tapped).map(|h| h.feature.as_str())
}

/// An edge of a standing plate: its ends and its middle, model mm.
type Line = [DVec3; 3];

/// A standing piece.
struct Body<'a> {
    part: &'a Part,
    piece: usize,
    lines: Vec<Line>,
    low: DVec3,
    high: DVec3,
}

impl<'a> Body<'a> {
    fn of(part: &'a Part, piece: usize, place: &Placement) -> Option<Self> {
        let flat = part.flat.as_ref()?;
        let at = |p: Point, h: f64| vector(place.folded(&flat.bends, part.thickness, p.x, p.y, h));
        let contours = std::iter::once(&flat.outer).chain(flat.openings.iter().map(|o| &o.contour));
        let edges: Vec<Edge> = contours.flat_map(|c| c.edges()).flat_map(halves).collect();
        let mut lines: Vec<Line> = Vec::with_capacity(3 * edges.len());
        for edge in &edges {
            lines.extend([0.0, part.thickness].map(|h| [at(edge.start(), h), at(edge.middle(), h), at(edge.end(), h)]));
            let [foot, head] = [0.0, part.thickness].map(|h| at(edge.start(), h));
            lines.push([foot, foot.midpoint(head), head]);
        }
        let (low, high) = lines.iter().flatten().fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(a, b), p| (a.min(*p), b.max(*p)));
        Some(Self { part, piece, lines, low, high })
    }

    fn meets(&self, other: &Self) -> bool {
        (self.low - other.high).max_element() < 1.0 && (other.low - self.high).max_element() < 1.0
    }
}

/// A circle as two arcs, any other edge as it is.
fn halves(edge: Edge) -> Vec<Edge> {
    match edge {
        Edge::Round { arc, .. } if edge.is_full() => [0.0, PI].map(|start| Edge::arc(arc.center, arc.radii.x, start, PI)).to_vec(),
        _ => vec![edge],
    }
}

/// A flat stretch of a plate: from and to along x of the pattern, and the placement of its beginning.
struct Zone {
    from: f64,
    to: f64,
    place: Placement,
}

fn zones(part: &Part, place: &Placement) -> Vec<Zone> {
    let Some(flat) = &part.flat else { return Vec::new() };
    let (mut from, length) = (0.0, flat.size()[0]);
    let mut out = Vec::new();
    let ends = flat.bends.iter().map(|b| (b.start, b.start + b.flat_length)).chain([(length, length)]);
    for (to, next) in ends {
        if to - from > FLAT {
            out.push(Zone { from, to, place: place.from_x(&flat.bends, part.thickness, from) });
        }
        from = next;
    }
    out
}

impl Zone {
    /// Place in the pattern and height over the back face.
    fn seen(&self, p: DVec3) -> (Point, f64) {
        let by = p - DVec3::from_array(self.place.origin);
        let along = |d: [f64; 3]| by.dot(DVec3::from_array(d));
        (Point::new(self.from + along(self.place.right), along(self.place.up)), along(self.place.toward))
    }

    /// The edges of a body on the face `height` over the back; nothing of one that stands behind it.
    fn outline(&self, height: f64, body: &Body<'_>) -> Vec<Stretch> {
        let middle = body.lines.iter().map(|l| self.seen(l[1]).1).sum::<f64>() / body.lines.len().max(1) as f64;
        if middle < height {
            return Vec::new();
        }
        let mut out: Vec<Stretch> = Vec::new();
        for line in &body.lines {
            let [(from, a), (middle, b), (to, c)] = line.map(|p| self.seen(p));
            if [a, b, c].iter().any(|h| (h - height).abs() > ON) || from.distance(to) < ON {
                continue;
            }
            let chord = to - from;
            // Rise over half the chord, positive where the arc lies to the right of it.
            let bulge = -2.0 * chord.cross(middle - from.midpoint(to)) / chord.hypot2();
            let s = Stretch { from: [from.x, from.y], to: [to.x, to.y], bulge: if bulge.abs() < 1e-6 { 0.0 } else { bulge } };
            if !out.iter().any(|o| o.same(&s)) {
                out.push(s);
            }
        }
        out
    }

    /// The line in which a plane of the model meets the face, where it runs along or across the pattern.
    fn meets(&self, part: &Part, normal: DVec3, at: f64) -> Option<Stretch> {
        let share = |d: [f64; 3]| normal.dot(DVec3::from_array(d));
        let rest = at - share(self.place.origin) - share(self.place.toward) * part.thickness;
        let height = part.flat.as_ref()?.size()[1];
        if share(self.place.right).abs() > 0.999 {
            let x = self.from + rest / share(self.place.right);
            return Some(Stretch::straight([x, 0.0], [x, height]));
        }
        let y = rest / share(self.place.up);
        (share(self.place.up).abs() > 0.999).then(|| Stretch::straight([self.from, y], [self.to, y]))
    }
}

/// The axes that are scribed on a part: what they tell, normal and distance of the plane that they lie in.
fn axes(id: &str, foot: &Foot) -> Vec<(Tells, DVec3, f64)> {
    let shaft = (Tells::ShaftAxis, DVec3::X, 0.0);
    let lowest = (Tells::LowestShaft, DVec3::Z, foot.shaft_lowest);
    let belt = (Tells::BeltMiddle, DVec3::Y, 0.0);
    let of = |family: &str| id.strip_prefix(family).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
    match id {
        _ if of("side_plate") || of("sliding_plate") => vec![shaft, lowest],
        _ if of("end_plate") => vec![belt],
        _ if of("bottom") || of("top_flange") || of("top_cover") => vec![shaft, belt],
        _ => Vec::new(),
    }
}

/// Finds the seats of all welded plates and scribes their outlines, with the axes of the casing, on the patterns.
pub(super) fn scribe(items: &mut [Part], welds: &[Weld], foot: &Foot) -> Vec<Seat> {
    let bodies: Vec<Body<'_>> =
        items.iter().flat_map(|part| part.placements.iter().enumerate().filter_map(move |(piece, place)| Body::of(part, piece, place))).collect();
    let welds = Welded::of(items, welds);
    let welded: Vec<&Body<'_>> = bodies.iter().filter(|b| welds.holds(b.part)).collect();
    let mut seats = Vec::new();
    let mut scribed: Vec<Vec<Scribed>> = Vec::with_capacity(items.len());
    for part in items.iter() {
        let Some(room) = part.flat.as_ref().map(Room::of) else {
            scribed.push(Vec::new());
            continue;
        };
        let mut common: Option<Vec<Scribed>> = None;
        for (on_piece, place) in part.placements.iter().enumerate() {
            let mut lines = Vec::new();
            let own = bodies.iter().find(|b| b.part.id == part.id && b.piece == on_piece);
            for zone in zones(part, place) {
                let span = (zone.from, zone.to);
                for body in welded.iter().filter(|b| b.part.id != part.id && own.is_some_and(|o| o.meets(b))) {
                    let outline = zone.outline(part.thickness, body);
                    if !outline.iter().any(|s| room.touches(s, span)) {
                        continue;
                    }
                    lines.extend(outline.iter().map(|line| (Tells::Item(body.part.item), *line, span)));
                    let (id, on) = (body.part.id.clone(), part.id.clone());
                    seats.push(Seat { part: id, piece: body.piece, on, on_piece, outline });
                }
                let drawn = axes(&part.id, foot).into_iter().filter_map(|(tells, normal, at)| Some((tells, zone.meets(part, normal, at)?, span)));
                lines.extend(drawn);
            }
            let lines = room.scribed(lines);
            common = Some(match common {
                None => lines,
                Some(known) => known.into_iter().filter(|k| lines.iter().any(|l| l.tells == k.tells && l.line.same(&k.line))).collect(),
            });
        }
        scribed.push(common.unwrap_or_default());
    }
    for (part, lines) in items.iter_mut().zip(scribed) {
        if let Some(flat) = &mut part.flat {
            flat.scribed = lines;
        }
    }
    seats
}
