//! Enlarged details of the pit: an anchor in its grout, the sump with its grating, the edge of the opening.
//!
//! Each is circled and lettered in section A–A and stands at a scale of its own. Sizes that no key of the
//! spec gives are common practice and marked HOLD; makers of covers and rails detail theirs.

use super::Subject;
use super::hold::{dimension, on_hold};
use super::views::Look;
use crate::model::base::Pad;
use crate::model::frame::Extent;
use crate::model::pit::{PitBody, Sump};
use crate::model::pit_fittings::TUBES;
use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material, Side, ViewScale, rectangle};
use crate::say;
use crate::say::number;
use crate::say::{name, size};

/// Letters of the details, after the sections A and B.
const ANCHOR: &str = "C";
const SUMP: &str = "D";
const EDGE: &str = "E";
/// Base plate of a rail post as drawn, mm.
const PLATE: f64 = 10.0;

/// All details that the pit has.
pub fn all(subject: &Subject<'_>, pit: &PitBody) -> Vec<Draft> {
    let mut drafts = Vec::new();
    drafts.extend(pad(subject).map(|p| anchor(subject, pit, p)));
    if pit.sump.is_some() {
        drafts.push(sump(subject, pit));
    }
    if pit.fittings.seat.is_some() || pit.fittings.rail.is_some() {
        drafts.push(edge(subject, pit));
    }
    drafts
}

/// The pad that is enlarged: near and down side.
fn pad<'j>(subject: &Subject<'j>) -> Option<&'j Pad> {
    subject.foot.base.pads.iter().find(|p| p.name == "B")
}

/// The circles round the enlarged places in the section along the machine.
pub fn circles(subject: &Subject<'_>, d: &mut Draft, pit: &PitBody) {
    if let Some(p) = pad(subject) {
        d.detail_circle(ANCHOR, (p.anchor.x, -20.0), 140.0);
    }
    if let Some(s) = &pit.sump {
        d.detail_circle(SUMP, (s.x.middle(), -s.depth / 2.0), s.x.size().max(s.depth) * 0.75);
    }
    if pit.fittings.seat.is_some() || pit.fittings.rail.is_some() {
        d.detail_circle(EDGE, (pit.x.low - pit.wall / 2.0, pit.depth), pit.wall.max(150.0));
    }
}

fn points<const N: usize>(corners: [(f64, f64); N]) -> Shape<PlanePoint> {
    Shape::polygon(corners.into_iter().map(|(x, y)| PlanePoint::new(x, y)))
}

/// An anchor bolt through its pad, cast in below the grout; origin at its axis and the underside of the base.
fn anchor(subject: &Subject<'_>, pit: &PitBody, pad: &Pad) -> Draft {
    let base = &subject.foot.base;
    let a = &base.anchor;
    let mut d = Draft::new("detail-anchor", say!("DETAIL {letter}", letter = name(ANCHOR))).at_scale(ViewScale::Within { width: 110.0, height: 90.0 });
    let (r, t, half) = (a.diameter / 2.0, base.thickness, pad.x.size() / 2.0);
    let recess = half + a.margin;
    let (edge, end) = (recess + 70.0, -a.grout - a.embedment);
    let bottom = end - 60.0;
    // The bolt ends in a head of twice its diameter.
    let head = end + 0.7 * a.diameter;
    d.hatch(
        Material::Concrete,
        vec![points([
            (-edge, 0.0),
            (-recess, 0.0),
            (-recess, -a.grout),
            (-r, -a.grout),
            (-r, head),
            (-2.0 * r, head),
            (-2.0 * r, end),
            (2.0 * r, end),
            (2.0 * r, head),
            (r, head),
            (r, -a.grout),
            (recess, -a.grout),
            (recess, 0.0),
            (edge, 0.0),
            (edge, bottom),
            (-edge, bottom),
        ])],
    );
    d.polyline(Pen::Concrete, [(-edge, 0.0), (-recess, 0.0), (-recess, -a.grout), (recess, -a.grout), (recess, 0.0), (edge, 0.0)]);
    d.polyline(Pen::FineEdge, [(-edge, 0.0), (-edge, bottom), (edge, bottom), (edge, 0.0)]);
    for side in [-1.0, 1.0] {
        let box_of =
            |x0: f64, z0: f64, x1: f64, z1: f64| rectangle(PlanePoint::new((side * x0).min(side * x1), z0), PlanePoint::new((side * x0).max(side * x1), z1));
        d.hatch(Material::LeanConcrete, vec![box_of(r, -a.grout, recess, 0.0)]);
        let plate = box_of(base.hole / 2.0, 0.0, half, t);
        d.hatch(Material::Metal, vec![plate.clone()]);
        d.stroke(Pen::Edge, plate);
    }
    d.line(Pen::FineEdge, (-recess, 0.0), (recess, 0.0));
    d.polyline(Pen::Edge, [(-r, a.projection), (-r, head), (-2.0 * r, head), (-2.0 * r, end), (2.0 * r, end), (2.0 * r, head), (r, head), (r, a.projection)]);
    d.line(Pen::Edge, (-r, a.projection), (r, a.projection));
    let washer = t + a.washer[1];
    d.rectangle(Pen::Edge, (-a.washer[0] / 2.0, t), (a.washer[0] / 2.0, washer));
    // Seen across the corners.
    let corner = a.nut[0] / 3.0_f64.sqrt();
    for k in [0.0, 1.0] {
        let low = washer + k * a.nut[1];
        d.rectangle(Pen::Edge, (-corner, low), (corner, low + a.nut[1]));
    }
    d.centre_line((0.0, end), (0.0, a.projection));
    d.dimension(Side::Left, "base.anchor.grout", (-recess, -a.grout), (-recess, 0.0)).chain("depth").suffix(" HOLD");
    d.dimension(Side::Left, "base.anchor.embedment", (-2.0 * r, end), (-recess, -a.grout)).chain("depth").suffix(" HOLD");
    d.dimension(Side::Right, "base.anchor.projection", (half, 0.0), (r, a.projection));
    d.dimension(Side::Above, "base.pad.length", (-half, t), (half, t));
    d.dimension(Side::Below, "base.anchor.recess", (-recess, -a.grout), (recess, -a.grout)).suffix(" HOLD");
    d.leader(
        (0.9 * r, a.projection - 2.0),
        subject.say(say!("anchor {bolt} HOLD, nut, lock nut and washer; hole ⌀{hole} in the pad", bolt = name(base.bolt), hole = size(base.hole, 1))),
        Side::Right,
    );
    d.leader(
        (0.7 * half, t / 2.0),
        subject.say(say!("foot pad {pad} × {pad_2}, t = {t}", pad = size(pad.x.size(), 1), pad_2 = size(pad.y.size(), 1), t = size(t, 1))),
        Side::Right,
    );
    d.leader(
        (recess - 0.4 * a.margin, -a.grout / 2.0),
        subject.say(say!(
            "non-shrink grout in a recess {recess} × {margin}, 4 per elevator",
            recess = size(2.0 * recess, 1),
            margin = size(pad.y.size() + 2.0 * a.margin, 1)
        )),
        Side::Right,
    );
    d.level((-edge, 0.0), pit.level(0.0), subject.say("pit floor"), Side::Left);
    d
}

/// Lines of the sump's section, x along the machine and z, mm.
struct SumpSection {
    /// Inside of the sump.
    sump: Extent,
    /// Inner and outer face of the pit's wall, edge of the toe.
    wall: [f64; 3],
    /// Where the section ends.
    right: f64,
    /// Floor at the sump's seat and where the section ends.
    floor: [f64; 2],
    /// Bottom of the sump and underside of its concrete.
    bottom: [f64; 2],
    /// Width and depth of the grating's seat.
    seat: [f64; 2],
}

impl SumpSection {
    fn of(pit: &PitBody, s: &Sump) -> Self {
        let (drop, share) = pit.fittings.fall.map_or((0.0, 0.0), |f| (f.drop, f.share));
        let seat = pit.fittings.grating.map_or([0.0, 0.0], |g| [g.width, g.depth]);
        let right = s.x.high + pit.slab + 200.0;
        let rise = (-drop + (right - s.x.high - seat[0]) * share).min(0.0);
        let outer = pit.x.low - pit.wall;
        Self { sump: s.x, wall: [pit.x.low, outer, outer - pit.toe], right, floor: [-drop, rise], bottom: [-s.depth, -s.depth - pit.slab], seat }
    }

    /// Concrete of wall, slab and sump, and the lean concrete under them.
    fn concrete(&self, d: &mut Draft, pit: &PitBody) {
        let (Extent { low: a, high: b }, [inner, outer, toe], right) = (self.sump, self.wall, self.right);
        let ([floor, rise], [inside_bottom, bottom], [seat_wide, seat_deep], slab) = (self.floor, self.bottom, self.seat, pit.slab);
        let top = 250.0;
        let inside = [
            (inner, top),
            (inner, floor),
            (a - seat_wide, floor),
            (a - seat_wide, floor - seat_deep),
            (a, floor - seat_deep),
            (a, inside_bottom),
            (b, inside_bottom),
            (b, floor - seat_deep),
            (b + seat_wide, floor - seat_deep),
            (b + seat_wide, floor),
            (right, rise),
        ];
        let below = [
            (right, -slab),
            (b + slab, -slab),
            (b + slab, bottom),
            (a - slab, bottom),
            (a - slab, -slab),
            (toe, -slab),
            (toe, 0.0),
            (outer, 0.0),
            (outer, top),
        ];
        d.hatch(Material::Concrete, vec![Shape::polygon(inside.iter().chain(&below).map(|(x, y)| PlanePoint::new(*x, *y)))]);
        d.polyline(Pen::Concrete, inside);
        d.polyline(Pen::Concrete, below);
        d.line(Pen::FineEdge, (right, rise), (right, -slab));
        d.line(Pen::FineEdge, (outer, top), (inner, top));
        if pit.lean > 0.0 {
            for (x0, x1, z) in [(toe, a - slab, -slab), (a - slab, b + slab, bottom), (b + slab, right, -slab)] {
                if x1 - x0 > 1.0 {
                    let lean = rectangle(PlanePoint::new(x0, z - pit.lean), PlanePoint::new(x1, z));
                    d.hatch(Material::LeanConcrete, vec![lean.clone()]);
                    d.stroke(Pen::FineEdge, lean);
                }
            }
        }
    }

    /// The grating in its seat.
    fn grating(&self, d: &mut Draft) {
        let (Extent { low: a, high: b }, [floor, _], [wide, deep]) = (self.sump, self.floor, self.seat);
        d.rectangle(Pen::Edge, (a - wide, floor - deep), (b + wide, floor));
        let bars = (self.sump.size() / 45.0).round().max(2.0);
        for k in 1..bars as u32 {
            let x = a + self.sump.size() * f64::from(k) / bars;
            d.line(Pen::FineEdge, (x, floor - deep), (x, floor));
        }
    }

    /// Leaders, fall and levels.
    fn notes(&self, subject: &Subject<'_>, d: &mut Draft, pit: &PitBody, s: &Sump) {
        let (Extent { low: a, high: b }, [floor, _], [seat_wide, seat_deep]) = (self.sump, self.floor, self.seat);
        let share = pit.fittings.fall.map_or(0.0, |f| f.share);
        let bottom = self.bottom[1];
        d.leader(
            (a + 0.3 * s.x.size(), floor - seat_deep / 2.0),
            subject.say(say!(
                "grating {seat_wide} × {seat_wide_2}, {seat_deep} high, in a cast-in angle frame HOLD",
                seat_wide = size(s.x.size() + 2.0 * seat_wide, 1),
                seat_wide_2 = size(s.y.size() + 2.0 * seat_wide, 1),
                seat_deep = size(seat_deep, 1)
            )),
            Side::Left,
        );
        if let Some(sleeve) = pit.fittings.sleeves.iter().find(|v| v.purpose.contains("sump")) {
            d.leader(
                (a + 0.5 * s.x.size(), -0.6 * s.depth),
                subject.say(say!(
                    "pump by others; pressure pipe through the sleeve ⌀{diameter} in the far wall, level {at} HOLD",
                    diameter = size(sleeve.diameter, 1),
                    at = name(number::level(pit.level(sleeve.at.z), subject.style()))
                )),
                Side::Left,
            );
        }
        d.label(
            ((b + seat_wide + self.right) / 2.0, floor - 0.3 * pit.slab),
            subject.say(say!("fall {share} %", share = name(subject.number(share * 100.0, 1)))),
        );
        d.level((self.wall[0], floor), pit.level(floor), subject.say("floor at the sump"), Side::Left);
        d.level((a, -s.depth), pit.level(-s.depth), subject.say("sump"), Side::Left);
        d.level((a - pit.slab, bottom), pit.level(bottom), subject.say("underside of sump"), Side::Left);
    }
}

/// The sump cut along the machine, with the wall beside it.
fn sump(subject: &Subject<'_>, pit: &PitBody) -> Draft {
    let mut d = Draft::new("detail-sump", say!("DETAIL {letter}", letter = name(SUMP))).at_scale(ViewScale::Within { width: 190.0, height: 130.0 });
    let Some(s) = &pit.sump else { return d };
    let section = SumpSection::of(pit, s);
    section.concrete(&mut d, pit);
    section.grating(&mut d);
    let (Extent { low: a, high: b }, [floor, _], [inside_bottom, bottom], [seat_wide, _]) = (section.sump, section.floor, section.bottom, section.seat);
    let hold = on_hold(subject, "pit.slab");
    let mark = |r: &mut crate::paper::request::DimensionRequest| {
        if hold {
            r.suffix(" HOLD");
        }
    };
    let look = Look::Elevation;
    dimension(subject, &mut d, look, Side::Below, Some("across"), "pit.sump");
    mark(d.dimension(Side::Below, "pit.sump.shell", (b, bottom), (b + pit.slab, bottom)).chain("across"));
    dimension(subject, &mut d, look, Side::Right, Some("deep"), "pit.sump_depth");
    mark(d.dimension(Side::Right, "pit.sump.base", (b, bottom), (b, inside_bottom)).chain("deep"));
    d.dimension(Side::Above, "pit.grating.length", (a - seat_wide, floor), (b + seat_wide, floor));
    section.notes(subject, &mut d, pit, s);
    d
}

/// Head of the down-side wall: seat of the cover, foot of the guard rail.
fn edge(subject: &Subject<'_>, pit: &PitBody) -> Draft {
    let mut d = Draft::new("detail-edge", say!("DETAIL {letter}", letter = name(EDGE))).at_scale(ViewScale::Within { width: 150.0, height: 100.0 });
    let (inner, outer, top) = (pit.x.low, pit.x.low - pit.wall, pit.depth);
    let low = top - 200.0 - pit.cover.as_ref().map_or(0.0, |c| c.thickness);
    let (wide, deep) = pit.fittings.seat.map_or((0.0, 0.0), |s| (s.width, s.depth));
    let head = [(outer, low), (outer, top), (inner - wide, top), (inner - wide, top - deep), (inner, top - deep), (inner, low)];
    d.hatch(Material::Concrete, vec![points(head)]);
    d.polyline(Pen::Concrete, head);
    d.line(Pen::FineEdge, (outer, low), (inner, low));
    d.line(Pen::Ground, (outer - 60.0, top), (outer, top));
    if pit.fittings.seat.is_some() {
        // Angle frame in the recess, cover flush with plant floor on its leg.
        let leg = 0.12 * deep;
        d.polygon(
            Pen::Edge,
            [
                (inner - wide, top),
                (inner - wide + leg, top),
                (inner - wide + leg, top - deep + leg),
                (inner, top - deep + leg),
                (inner, top - deep),
                (inner - wide, top - deep),
            ],
        );
        d.polyline(
            Pen::Phantom,
            [(inner + 180.0, top), (inner - wide + 2.0 * leg, top), (inner - wide + 2.0 * leg, top - deep + leg), (inner + 180.0, top - deep + leg)],
        );
        if let Some(cover) = &pit.cover {
            // A beam in its pocket, in the near and the far wall: behind the cut.
            let (under, end) = (top - deep - cover.beam, inner - cover.bearing);
            d.polyline(Pen::Hidden, [(inner, under), (end, under), (end, top - deep), (inner - wide, top - deep)]);
            d.polyline(Pen::Phantom, [(inner, under), (inner + 180.0, under)]);
            d.dimension(Side::Below, "pit.cover.bearing", (end, under), (inner, under)).suffix(" HOLD");
            d.dimension(Side::Right, "pit.cover.beam", (inner, under), (inner, top - deep)).suffix(" HOLD");
        }
        d.dimension(Side::Below, "pit.seat.width", (inner - wide, top - deep), (inner, top - deep)).suffix(" HOLD");
        d.dimension(Side::Right, "pit.seat.depth", (inner, top - deep), (inner, top)).suffix(" HOLD");
        d.leader((inner + 100.0, top - deep / 2.0), subject.say("cover, flush; cast-in angle frame all round"), Side::Right);
    }
    if let Some(rail) = &pit.fittings.rail {
        // The post's foot, broken off above the toe board.
        let (x, [tube, _]) = (inner - rail.offset, TUBES);
        let end = top + rail.toe_gap + rail.toe_board + 60.0;
        for side in [-0.5, 0.5] {
            d.line(Pen::Edge, (x + side * tube, top + PLATE), (x + side * tube, end));
        }
        d.rectangle(Pen::Edge, (x - 1.2 * tube, top), (x + 1.2 * tube, top + PLATE));
        let board = x + tube / 2.0;
        d.rectangle(Pen::Edge, (board, top + rail.toe_gap), (board + 5.0, top + rail.toe_gap + rail.toe_board));
        d.centre_line((x, top), (x, end));
        d.dimension(Side::Left, "pit.rail.toe_board", (board, top + rail.toe_gap), (board, top + rail.toe_gap + rail.toe_board));
        d.dimension(Side::Above, "pit.rail.offset", (x, end), (inner, top)).suffix(" HOLD");
        d.leader((x, end - 20.0), subject.say("post of the guard rail on a base plate; its maker's drawing governs"), Side::Left);
    }
    d.level((inner, top), 0.0, subject.say("plant floor"), Side::Right);
    d
}
