//! Bodies of the machine in a view: seen and hidden edges, cut faces with their hatch, axes, other positions.
//!
//! In: bodies, a direction, perhaps a cutting plane square to it, and which pieces take part. Out: marks of a draft.
//! Shafts, keys, bolts, nuts and ribs are not cut lengthwise (ISO 128-3, from memory). Edges between surfaces that go over
//! into each other are left out. Threads are drawn as their outer diameter.

use super::Look;
use super::body_ink;
use super::seen::{self, Seen};
use crate::geometry::{Edge, mean_width};
use crate::machine::moves;
use crate::machine::{Body, Machine, Material};
use crate::model::frame::ModelPoint;
use crate::paper::mark::PlanePoint;
use crate::paper::shown::{Shown, ShownPiece};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Material as Hatch};
use crate::solid::brep::{Brep, Curve};
use crate::solid::plug::plugged;
use crate::solid::project::{Cut, Kind, Placed, Plane, Scene, Section, Sight, View};
use glam::{DAffine3, DMat3, DVec3};
use kurbo::{Point, Rect};

/// Holes up to this radius are for bolts, mm: they are left out at the scale of the arrangement.
pub const BOLT_HOLES: f64 = 12.0;

/// How a piece takes part in a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Show {
    /// What is seen of it.
    Seen,
    /// Its hidden edges as well.
    Hidden,
    /// Its hidden edges alone, without those of holes for bolts.
    Behind,
}

/// A piece of a body where it stands.
#[derive(Debug, Clone, Copy)]
pub struct Piece<'a> {
    /// Its body.
    pub body: &'a Body,
    /// Least x, y and z of the model that it reaches, mm.
    pub low: DVec3,
    /// Largest.
    pub high: DVec3,
    /// Which of the machine's bodies it is of.
    pub index: usize,
    /// Which piece of its body it is.
    pub place: usize,
    at: DAffine3,
}

/// By body and piece, how far each is moved from where it stands, mm: a machine taken apart.
pub type Apart = Vec<Vec<DVec3>>;

impl Piece<'_> {
    /// Whether it belongs to a family: its id is the family's, or goes on after it with a point.
    pub fn of(&self, family: &str) -> bool {
        self.body.id.strip_prefix(family).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    }

    /// Whether it belongs to one of several families.
    pub fn of_any(&self, families: &[&str]) -> bool {
        families.iter().any(|f| self.of(f))
    }

    /// Whether it is left out at the scale of the arrangement: bolts, nuts, gaskets.
    pub const fn is_small(&self) -> bool {
        matches!(self.body.material, Material::Fastener | Material::Seal)
    }

    /// Its axis: the body's own z.
    pub fn axis(&self) -> DVec3 {
        self.at.matrix3.z_axis
    }

    /// Whether the foot shaft carries it along when the take-up moves.
    fn rises(&self) -> bool {
        moves::rises(&self.body.id, self.body.moves)
    }
}

/// What is drawn, and how.
#[derive(Debug, Clone, Copy)]
pub struct Picture<'a> {
    machine: &'a Machine,
    view: View,
    cut: Option<Plane>,
    raised: f64,
    beside: f64,
    phantom: bool,
    window: Option<Rect>,
    least: f64,
    fine: bool,
    through: bool,
    apart: Option<&'a Apart>,
}

impl<'a> Picture<'a> {
    /// The machine from one of the usual sides.
    pub fn new(machine: &'a Machine, look: Look) -> Self {
        Self::toward(machine, look.view())
    }

    /// The machine from any side.
    pub const fn toward(machine: &'a Machine, view: View) -> Self {
        Self { machine, view, cut: None, raised: 0.0, beside: 0.0, phantom: false, window: None, least: 0.0, fine: false, through: false, apart: None }
    }

    /// Cut by the plane through a model point that faces the viewer; what lies before it goes.
    #[must_use]
    pub const fn cut_at(self, x: f64, y: f64, z: f64) -> Self {
        Self { cut: Some(Plane { at: DVec3::new(x, y, z), away: self.view.toward }), ..self }
    }

    /// Another position of the take-up, `by` mm higher, or a neighbouring part: the outline alone, in phantom line; it hides
    /// nothing and nothing hides it.
    #[must_use]
    pub const fn phantom(self, by: f64) -> Self {
        Self { raised: by, phantom: true, ..self }
    }

    /// A machine like it that stands beside it, this far toward the near side, mm.
    #[must_use]
    pub const fn beside(self, y: f64) -> Self {
        Self { beside: y, ..self }
    }

    /// Broken off at the edges of a rectangle of the view plane.
    #[must_use]
    pub const fn within(self, window: Rect) -> Self {
        Self { window: Some(window), ..self }
    }

    /// Without round holes up to a radius, mm: those for bolts at a small scale.
    #[must_use]
    pub const fn without_holes(self, radius: f64) -> Self {
        Self { least: radius, ..self }
    }

    /// Cut also what a section shows whole lengthwise: a broken-out section of a shaft's end.
    #[must_use]
    pub const fn through(self) -> Self {
        Self { through: true, ..self }
    }

    /// In narrow lines throughout: a picture so small that wide ones would run together.
    #[must_use]
    pub const fn fine(self) -> Self {
        Self { fine: true, ..self }
    }

    /// The bodies as they are in this position.
    fn bodies(&self) -> Vec<&'a Body> {
        let raised = |body: &Body| self.machine.highest.iter().find(|b| self.raised > 0.0 && b.id == body.id);
        self.machine.bodies.iter().map(|body| raised(body).unwrap_or(body)).collect()
    }

    /// Each piece moved as far as it is taken apart.
    #[must_use]
    pub const fn apart(self, moves: &'a Apart) -> Self {
        Self { apart: Some(moves), ..self }
    }

    /// All pieces of the machine where they stand in the picture.
    pub fn pieces(&self) -> impl Iterator<Item = Piece<'a>> {
        let (raised, beside, apart) = (self.raised, self.beside, self.apart);
        self.bodies().into_iter().enumerate().flat_map(move |(index, body)| {
            body.places.iter().enumerate().map(move |(place, standing)| {
                let [x, y, z, o] = [standing.right, standing.up, standing.toward, standing.origin].map(DVec3::from_array);
                let at = DAffine3 { matrix3: DMat3::from_cols(x, y, z), translation: o };
                let mut piece = Piece { body, low: DVec3::ZERO, high: DVec3::ZERO, index, place, at };
                piece.at.translation.y += beside;
                piece.at.translation += apart.and_then(|a| a.get(index)?.get(place)).copied().unwrap_or_default();
                if piece.rises() {
                    piece.at.translation.z += raised;
                }
                (piece.low, piece.high) = reach(&body.brep, &piece.at);
                piece
            })
        })
    }

    /// Whether a direction of the model points to the viewer rather than across or away.
    pub fn faces(&self, direction: DVec3) -> bool {
        direction.dot(self.view.toward) > FACING
    }

    /// Where between two points of the model the cutting plane lies, as a share of the way.
    pub fn crosses(&self, a: DVec3, b: DVec3) -> Option<f64> {
        let [from, to] = self.cut.map(|cut| [a, b].map(|p| (p - cut.at).dot(cut.away)))?;
        (from * to < 0.0 || from == 0.0 && to != 0.0).then(|| from / (from - to))
    }

    /// A point of the model in the view plane.
    pub fn point(&self, p: ModelPoint) -> PlanePoint {
        let p = DVec3::new(p.x, p.y, p.z);
        PlanePoint::new(p.dot(self.view.right), p.dot(self.view.up))
    }

    /// The box of the chosen pieces along the axes of the model; none without any.
    pub fn reach(&self, choose: impl Fn(&Piece<'_>) -> bool) -> Option<(DVec3, DVec3)> {
        self.pieces().filter(choose).map(|p| (p.low, p.high)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
    }

    /// Draws the pieces that are chosen.
    pub fn draw(&self, d: &mut Draft, choose: impl Fn(&Piece<'_>) -> Option<Show>) {
        self.staged(choose, |pieces, scene| {
            let _ = self.ink(d, pieces, scene);
        });
    }

    /// Draws the pieces that are chosen, and finds where each item of the parts list is best pointed at.
    pub fn draw_seen(&self, d: &mut Draft, choose: impl Fn(&Piece<'_>) -> Option<Show>) -> Vec<Seen> {
        self.staged(choose, |pieces, scene| {
            let strokes = self.ink(d, pieces, scene);
            let sight = Sight::new(scene, &self.view, self.cut.as_ref(), self.window);
            let items: Vec<Option<u32>> = pieces.iter().map(|(p, show)| p.body.item.filter(|_| *show != Show::Behind)).collect();
            seen::items(&items, &sight.spots(), &strokes)
        })
    }

    /// Which points of the model are seen past the pieces that are chosen.
    pub fn sees(&self, choose: impl Fn(&Piece<'_>) -> Option<Show>, points: &[DVec3]) -> Vec<bool> {
        self.staged(choose, |_, scene| {
            let sight = Sight::new(scene, &self.view, self.cut.as_ref(), self.window);
            let kept = |p: DVec3| self.cut.is_none_or(|cut| (p - cut.at).dot(cut.away) < 1e-6);
            points.iter().map(|p| kept(*p) && sight.sees(*p)).collect()
        })
    }

    /// Puts the chosen pieces before the viewer.
    fn staged<R>(&self, choose: impl Fn(&Piece<'_>) -> Option<Show>, with: impl FnOnce(&[(Piece<'_>, Show)], &Scene<'_>) -> R) -> R {
        let pieces: Vec<(Piece<'_>, Show)> = self.pieces().filter_map(|p| choose(&p).map(|show| (p, show))).collect();
        let filled = |(index, body): (usize, &Body)| {
            let shown = pieces.iter().filter(|(p, _)| p.index == index);
            let behind = |show: &Show| if *show == Show::Behind { BOLT_HOLES } else { 0.0 };
            let radius = shown.map(|(_, show)| self.least.max(behind(show))).reduce(f64::max)?;
            (radius > 0.0).then(|| plugged(&body.brep, radius))
        };
        let breps: Vec<Option<Brep>> = self.bodies().into_iter().enumerate().map(filled).collect();
        let placed: Vec<Placed<'_>> = pieces
            .iter()
            .enumerate()
            .map(|(id, (p, show))| Placed {
                brep: breps.get(p.index).and_then(Option::as_ref).unwrap_or(&p.body.brep),
                at: p.at,
                id,
                hidden: *show != Show::Seen,
                whole: p.body.uncut.whole(p.axis().dot(self.view.toward)) && !self.through,
            })
            .collect();
        with(&pieces, &Scene::new(&placed))
    }

    /// Draws what is staged; gives the seen strokes with the number of their piece.
    fn ink(&self, d: &mut Draft, pieces: &[(Piece<'_>, Show)], scene: &Scene<'_>) -> Vec<(usize, Edge)> {
        let section = match &self.cut {
            Some(plane) => scene.section(&self.view, plane),
            None if self.phantom => Section { lines: scene.outline(&self.view), cuts: Vec::new() },
            None => Section { lines: scene.view(&self.view), cuts: Vec::new() },
        };
        d.shown.push(self.shown(pieces));
        self.hatch(d, pieces, &section.cuts);
        let mut strokes = Vec::new();
        for line in section.lines.iter().filter(|l| l.kind != Kind::Smooth) {
            let Some((piece, show)) = pieces.get(line.body) else { continue };
            if line.seen && *show == Show::Behind || !line.seen && self.phantom {
                continue;
            }
            let pen = if line.seen { self.pen(piece.body.material) } else { Pen::Hidden };
            for edge in body_ink::edges(&line.stroke) {
                for kept in self.stroke(d, pen, edge) {
                    strokes.extend(line.seen.then_some((line.body, kept)));
                }
            }
        }
        strokes
    }

    /// The picture in plain numbers.
    fn shown(&self, pieces: &[(Piece<'_>, Show)]) -> Shown {
        let View { right, up, toward } = self.view;
        let of = |(piece, show): &(Piece<'_>, Show)| {
            let DAffine3 { matrix3: turn, translation } = piece.at;
            let at = [turn.x_axis, turn.y_axis, turn.z_axis, translation].map(DVec3::into);
            ShownPiece { body: piece.body.id.clone(), place: piece.place, at, hidden: *show != Show::Seen }
        };
        Shown {
            right: right.into(),
            up: up.into(),
            toward: toward.into(),
            cut: self.cut.map(|plane| plane.at.into()),
            raised: self.raised,
            phantom: self.phantom,
            pieces: pieces.iter().map(of).collect(),
            over: false,
            lifted: 0.0,
        }
    }

    const fn pen(&self, material: Material) -> Pen {
        match material {
            _ if self.phantom => Pen::Phantom,
            Material::Belt | Material::Bucket => Pen::Bucket,
            Material::Fastener | Material::Seal | Material::Mesh => Pen::FineEdge,
            _ if self.fine => Pen::FineEdge,
            Material::Plate | Material::Turned | Material::Bought => Pen::Edge,
        }
    }

    /// Draws what of an edge lies in the window, and gives it.
    fn stroke(&self, d: &mut Draft, pen: Pen, edge: Edge) -> Vec<Edge> {
        if edge.length() < 0.01 {
            return Vec::new();
        }
        let kept = self.window.map_or_else(|| vec![edge], |window| body_ink::clipped(edge, window));
        kept.iter().for_each(|e| d.stroke(pen, body_ink::shape(e)));
        kept
    }

    /// Hatches the cut faces; bodies that lie beside each other are hatched in different directions as far as two are enough.
    fn hatch(&self, d: &mut Draft, pieces: &[(Piece<'_>, Show)], cuts: &[Cut]) {
        let mut faces: Vec<CutBody<'_>> = Vec::new();
        for cut in cuts {
            let Some((piece, _)) = pieces.get(cut.body) else { continue };
            let mut regions = Vec::new();
            for region in body_ink::regions(cut.loops.iter().map(|l| l.iter().flat_map(body_ink::edges).collect()).collect()) {
                let mut kept = Vec::new();
                for edges in region {
                    let (edges, breaks) = self.window.map_or_else(|| (edges.clone(), Vec::new()), |w| body_ink::broken_off(edges.clone(), w));
                    breaks.iter().for_each(|l| d.line(Pen::FineEdge, l.p0, l.p1));
                    kept.extend((!edges.is_empty()).then_some(edges));
                }
                regions.extend((!kept.is_empty()).then_some(kept));
            }
            let boxes = regions.iter().filter_map(|r| r.first()).filter_map(|l| l.iter().map(Edge::bounds).reduce(|a, b| a.union(b)));
            let boxes: Vec<Rect> = boxes.map(|r| r.inflate(NEIGHBOURS, NEIGHBOURS)).collect();
            match faces.iter_mut().find(|f| f.index == piece.index) {
                Some(face) => {
                    face.regions.extend(regions);
                    face.boxes.extend(boxes);
                }
                None => faces.push(CutBody { index: piece.index, body: piece.body, regions, boxes }),
            }
        }
        let mut done: Vec<(&CutBody<'_>, Hatch)> = Vec::new();
        for face in &faces {
            let material = match face.body.material {
                Material::Belt | Material::Seal => Hatch::Belt,
                Material::Mesh => continue,
                _ => {
                    let beside = |m: Hatch| done.iter().filter(|(other, with)| *with == m && other.touches(face)).count();
                    if beside(Hatch::Metal) > beside(Hatch::MetalOther) { Hatch::MetalOther } else { Hatch::Metal }
                }
            };
            let widest = face.regions.iter().map(|region| mean_width(region.iter().cloned())).fold(0.0, f64::max);
            for region in &face.regions {
                d.hatch_like(material, region.iter().map(|l| body_ink::contour(l)).collect(), widest);
            }
            done.push((face, material));
        }
    }

    /// Centre lines of chosen pieces: along the axis where it lies in the view plane, a cross where it faces the viewer.
    pub fn axes(&self, d: &mut Draft, choose: impl Fn(&Piece<'_>) -> bool) {
        let flat = |p: DVec3| Point::new(p.dot(self.view.right), p.dot(self.view.up));
        for piece in self.pieces().filter(|p| choose(p)) {
            let Some((low, high, radius)) = round(&piece.body.brep) else { continue };
            let [from, to] = [low, high].map(|z| flat(piece.at.transform_point3(DVec3::new(0.0, 0.0, z))));
            if from.distance(to) < 1e-6 {
                d.centre_cross(from, radius);
            } else {
                d.centre_line(from, to);
            }
        }
    }
}

/// A direction whose cosine with that to the viewer is no greater than this looks past the viewer.
const FACING: f64 = 0.1;

/// How near cut faces are neighbours, mm.
const NEIGHBOURS: f64 = 0.5;

/// The cut faces of all pieces of a body.
struct CutBody<'a> {
    index: usize,
    body: &'a Body,
    regions: Vec<Vec<Vec<Edge>>>,
    boxes: Vec<Rect>,
}

impl CutBody<'_> {
    fn touches(&self, other: &Self) -> bool {
        self.boxes.iter().any(|a| other.boxes.iter().any(|b| a.overlaps(*b)))
    }
}

/// The box of a placed body along the axes of the model.
fn reach(brep: &Brep, at: &DAffine3) -> (DVec3, DVec3) {
    let points = brep.vertices.iter().map(|v| (at.transform_point3(*v), DVec3::ZERO));
    let circles = brep.edges.iter().filter_map(|e| match e.curve {
        // An arc counts as its circle only where it is whole; the ends of others are vertices, and what bulges beyond is small.
        Curve::Circle(frame, r) if e.from == e.to => {
            let axis = at.transform_vector3(frame.axis);
            Some((at.transform_point3(frame.origin), (DVec3::ONE - axis * axis).max(DVec3::ZERO).map(f64::sqrt) * r))
        }
        _ => None,
    });
    points.chain(circles).fold((DVec3::INFINITY, DVec3::NEG_INFINITY), |(low, high), (p, by)| (low.min(p - by), high.max(p + by)))
}

/// Where a round body begins and ends along its own z, and its largest radius about it; none for a body without circles.
fn round(brep: &Brep) -> Option<(f64, f64, f64)> {
    let about = brep.edges.iter().filter_map(|e| match e.curve {
        Curve::Circle(frame, r) if frame.origin.truncate().length() < 1e-6 && frame.axis.z.abs() > 0.999 => Some((frame.origin.z, r)),
        _ => None,
    });
    about.fold(None, |found, (z, r)| {
        let (low, high, radius) = found.unwrap_or((z, z, r));
        Some((f64::min(low, z), f64::max(high, z), f64::max(radius, r)))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Job;
    use crate::paper::mark::Shape;
    use crate::paper::view::Item;

    fn grain_intake() -> Job {
        Job::of(include_str!("../../../templates/grain_intake.toml")).unwrap()
    }

    fn drawn(picture: Picture<'_>, families: &[&str]) -> Vec<Item> {
        let mut d = Draft::new("picture", "");
        picture.draw(&mut d, |p| p.of_any(families).then_some(Show::Seen));
        d.items
    }

    fn hatches(items: &[Item]) -> Vec<Hatch> {
        items.iter().filter_map(|i| if let Item::Hatch { material, .. } = i { Some(*material) } else { None }).collect()
    }

    #[test]
    fn a_shaft_is_whole_lengthwise_and_hatched_across() {
        let job = grain_intake();
        let cut = |look| Picture::new(job.machine(), look).cut_at(0.0, 0.0, job.foot().shaft_lowest);
        assert_eq!(hatches(&drawn(cut(Look::FromUp), &["shaft"])).len(), 0);
        assert_eq!(hatches(&drawn(cut(Look::Elevation), &["shaft"])).len(), 1);
    }

    #[test]
    fn a_hub_is_hatched_otherwise_than_its_disc() {
        let job = grain_intake();
        let cut = Picture::new(job.machine(), Look::FromUp).cut_at(0.0, 0.0, job.foot().shaft_lowest);
        let found = hatches(&drawn(cut, &["foot_pulley.disc", "foot_pulley.hub"]));
        let count = |m: Hatch| found.iter().filter(|h| **h == m).count();
        // Two of each, cut above and below the shaft.
        assert_eq!((count(Hatch::Metal), count(Hatch::MetalOther)), (4, 4));
    }

    #[test]
    fn the_rim_rises_by_the_travel_and_the_casing_stays() {
        let job = grain_intake();
        let (foot, machine) = (job.foot(), job.machine());
        let highest = Picture::new(machine, Look::Elevation).phantom(foot.rotating.travel);
        let rim = Shape::Circle { centre: PlanePoint::new(0.0, foot.shaft_highest), radius: foot.pulleys.foot.radius() };
        let near = |a: &Shape<PlanePoint>| match (a, &rim) {
            (Shape::Circle { centre: c, radius: r }, Shape::Circle { centre, radius }) => (c.x - centre.x).hypot(c.y - centre.y) + (r - radius).abs() < 1e-6,
            _ => false,
        };
        let strokes = drawn(highest, &["foot_pulley.rim"]);
        assert!(strokes.iter().any(|i| matches!(i, Item::Stroke { shape, pen: Pen::Phantom } if near(shape))), "{strokes:?}");
        let box_of = |p: Picture<'_>| p.reach(|p| p.of("end_plate")).unwrap();
        assert_eq!(box_of(highest), box_of(Picture::new(machine, Look::Elevation)));
    }
}
