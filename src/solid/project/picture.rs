//! From placed bodies to what a view works on: strands (pictures of edges and outlines) and fronts (faces that may
//! hide).
//!
//! Edges at round faces are cut where the face turns away from the viewer, so that along one strand each face beside
//! it either looks at the viewer or does not. A strand with no such face is hidden without asking; one with exactly
//! one of two is a contour, and only contours change what lies behind them.

use std::f64::consts::TAU;

use glam::DVec3;

use super::front::{Front, RoundFace};
use super::lines::{Cut, Kind, Placed};
use super::path::{Curve3, Path, angles, pictures};
use super::posed::{FACING, Posed, PosedFace};
use super::shape::NONE;
use crate::solid::section::{self, blade::Blade};

/// How far to both sides of an outline its face is asked for, rad.
const BESIDE: f64 = 1e-7;
/// A body that reaches less than this over a cutting plane only touches it, mm.
const TOUCH: f64 = 1e-4;

/// The picture of an edge, or of a piece of it, with what decides whether it is seen.
#[derive(Debug)]
pub(crate) struct Strand {
    /// Its picture.
    pub path: Path,
    /// Index of the placed body.
    pub body: u32,
    /// Index of the edge; outlines and bounds of cuts are counted on from there.
    pub edge: u32,
    /// Edge, smooth edge, outline or bound of a cut.
    pub kind: Kind,
    /// It is not to be drawn, but what lies just behind it is not to be drawn either.
    pub mute: bool,
    /// It may be seen; otherwise its own body hides it.
    pub open: bool,
    /// It bounds what the viewer sees of its body.
    pub contour: bool,
    /// Fronts that cannot hide it, because it lies on them.
    pub skip: [u32; 2],
}

/// A view before anything is hidden.
#[derive(Debug, Default)]
pub(crate) struct Picture {
    /// Pictures of edges, by body and edge.
    pub strands: Vec<Strand>,
    /// Faces that may hide.
    pub fronts: Vec<Front>,
    /// By front, the id of its placed body.
    pub owners: Vec<usize>,
    /// Cut regions.
    pub cuts: Vec<Cut>,
}

impl Picture {
    /// Adds a body; `blade` is a cutting plane in the space of the view.
    pub fn add(&mut self, index: u32, placed: &Placed<'_>, posed: &Posed<'_>, blade: Option<Blade>) {
        let mut clip = None;
        if let Some(blade) = blade {
            let (low, high) = posed.extent(blade.normal);
            if low > blade.level - TOUCH {
                return;
            }
            if high > blade.level + TOUCH && !placed.whole {
                clip = Some(blade);
            }
        }
        let edge = posed.curves.len() as u32;
        let mut job = Job { picture: self, index, placed, posed, edge, mute: false, clip: None, faces: Vec::new(), ids: Vec::new() };
        if let Some(blade) = clip {
            job.clip = Some(job.cut(blade));
        }
        job.fronts();
        job.edges();
        job.outlines();
    }
}

/// One body on its way into the picture.
struct Job<'a> {
    picture: &'a mut Picture,
    index: u32,
    placed: &'a Placed<'a>,
    posed: &'a Posed<'a>,
    /// The number of the edge at hand.
    edge: u32,
    /// It is not to be drawn.
    mute: bool,
    clip: Option<(DVec3, f64)>,
    faces: Vec<PosedFace<'a>>,
    ids: Vec<u32>,
}

impl Job<'_> {
    /// Adds the cut region; gives the clip that bounds what stays.
    fn cut(&mut self, blade: Blade) -> (DVec3, f64) {
        let (level, loops) = section::loops(self.posed, blade);
        let curves: Vec<Curve3> = loops.iter().flatten().map(|piece| piece.curve).collect();
        if curves.is_empty() {
            return (blade.normal, level);
        }
        let mut id = NONE;
        if blade.normal.z > FACING {
            id = self.picture.fronts.len() as u32;
            self.picture.fronts.push(Front::plane(blade.normal, &curves, None));
            let loops = loops.iter().map(|ring| ring.iter().filter_map(section::Piece::stroke).collect()).collect();
            self.picture.cuts.push(Cut { body: self.placed.id, loops });
        }
        for curve in curves {
            self.edge += 1;
            self.strand(&curve, Kind::Cut, (true, true), [id, NONE]);
        }
        (blade.normal, level)
    }

    /// Adds the faces that may hide.
    fn fronts(&mut self) {
        for index in 0..self.posed.brep.faces.len() {
            let face = self.posed.face(index);
            let mut id = NONE;
            if face.fronts() {
                id = self.picture.fronts.len() as u32;
                let bounds = self.posed.bounds(index);
                self.picture.fronts.push(match &face {
                    PosedFace::Plane(normal) => Front::plane(*normal, &bounds, self.clip),
                    PosedFace::Round(face) => Front::round(face, &bounds, self.clip),
                });
            }
            self.faces.push(face);
            self.ids.push(id);
        }
    }

    /// Adds the pictures of the edges.
    fn edges(&mut self) {
        let mut shares = Vec::new();
        let beyond = self.edge;
        for (index, note) in self.posed.shape.edges.iter().enumerate() {
            self.edge = index as u32;
            if note.seam {
                continue;
            }
            self.mute = note.blank;
            let curve = self.posed.curves[index];
            shares.clear();
            if let Some((normal, level)) = self.clip {
                curve.meets(normal, level, &mut shares);
            }
            if let Curve3::Round { x, y, .. } = curve {
                for face in note.faces {
                    if let Some(PosedFace::Round(face)) = self.faces.get(face as usize) {
                        turns(&curve, (x, y), face, &mut shares);
                    }
                }
            }
            if let Curve3::Saddle { .. } = curve {
                for face in note.faces.iter().filter_map(|face| self.faces.get(*face as usize)) {
                    curve.passes(|at| face.facing(at), &mut shares);
                }
            }
            self.parts(&curve, &mut shares, |job, part| job.edge(part, note.faces, note.smooth));
        }
        (self.edge, self.mute) = (beyond, false);
    }

    /// Calls back with each kept piece of a curve between the shares.
    fn parts(&mut self, curve: &Curve3, shares: &mut Vec<f64>, mut put: impl FnMut(&mut Self, &Curve3)) {
        if shares.is_empty() {
            if self.keeps(curve) {
                put(self, curve);
            }
            return;
        }
        shares.extend([0.0, 1.0]);
        shares.sort_by(f64::total_cmp);
        for pair in shares.windows(2) {
            if pair[1] - pair[0] > 1e-12 {
                let part = curve.part(pair[0], pair[1]);
                if self.keeps(&part) {
                    put(self, &part);
                }
            }
        }
    }

    /// Whether a curve that does not pass the cutting plane lies on the side that stays.
    fn keeps(&self, curve: &Curve3) -> bool {
        self.clip.is_none_or(|(normal, level)| normal.dot(curve.at(0.5)) <= level)
    }

    /// Adds one piece of an edge.
    fn edge(&mut self, curve: &Curve3, faces: [u32; 2], smooth: bool) {
        let at = curve.at(0.5);
        let (mut fronts, mut skip) = (0, [NONE; 2]);
        for (face, skip) in faces.iter().zip(&mut skip) {
            let Some(posed) = self.faces.get(*face as usize) else { continue };
            let facing = posed.facing(at);
            if facing > FACING {
                fronts += 1;
            }
            if facing > -FACING || matches!(posed, PosedFace::Plane(_)) {
                *skip = self.ids[*face as usize];
            }
        }
        let contour = fronts == 1;
        let kind = match (smooth, contour) {
            (true, true) => Kind::Outline,
            (true, false) => Kind::Smooth,
            _ => Kind::Edge,
        };
        self.strand(curve, kind, (fronts > 0, contour), skip);
    }

    /// Adds the outlines of the round faces.
    fn outlines(&mut self) {
        let mut shares = Vec::new();
        for index in 0..self.faces.len() {
            let PosedFace::Round(face) = &self.faces[index] else { continue };
            let face = *face;
            let skip = [self.ids[index], NONE];
            let mut roots = [0.0; 2];
            let count = angles(face.axes[1].z, face.axes[2].z, face.slope * face.axes[0].z, &mut roots);
            for angle in &roots[..count] {
                for line in generators(&face, *angle) {
                    shares.clear();
                    if let Some((normal, level)) = self.clip {
                        line.meets(normal, level, &mut shares);
                    }
                    self.edge += 1;
                    // A hollow face turns away inside the material: its outline is never seen.
                    let open = face.outward > 0.0;
                    self.parts(&line, &mut shares, |job, part| job.strand(part, Kind::Outline, (open, true), skip));
                }
            }
        }
    }

    /// Adds the pictures of a curve.
    fn strand(&mut self, curve: &Curve3, kind: Kind, (open, contour): (bool, bool), skip: [u32; 2]) {
        if !(open || contour || self.placed.hidden) {
            return;
        }
        let (body, edge, mute, strands) = (self.index, self.edge, self.mute, &mut self.picture.strands);
        pictures(curve, |path| strands.push(Strand { path, body, edge, kind, mute, open, contour, skip }));
    }
}

/// The straight lines of a round face at an angle. Where the face ends just there, it is asked on both sides, so that
/// no outline is lost between a flat and the rounding it goes over into.
fn generators(face: &RoundFace<'_>, angle: f64) -> Vec<Curve3> {
    let heights = |angle: f64| {
        let arcs = face.arcs.iter().filter(|arc| arc.holds(angle));
        let mut heights: Vec<f64> = arcs.map(|arc| arc.at(angle)).collect();
        heights.sort_by(f64::total_cmp);
        heights
    };
    let (before, after) = (heights(angle - BESIDE), heights(angle + BESIDE));
    let mut pairs: Vec<&[f64]> = before.chunks_exact(2).collect();
    if before != after {
        pairs.extend(after.chunks_exact(2));
    }
    pairs.iter().map(|pair| Curve3::Line(face.at(angle, pair[0]), face.at(angle, pair[1]))).collect()
}

/// Appends the shares of an arc where a round face about the same axis turns away from the viewer.
fn turns(curve: &Curve3, (x, y): (DVec3, DVec3), face: &RoundFace<'_>, out: &mut Vec<f64>) {
    let Curve3::Round { from, to, .. } = *curve else { return };
    let size = x.length();
    let mut roots = [0.0; 2];
    let count = angles(x.z / size, y.z / size, face.slope * face.axes[0].z, &mut roots);
    for root in &roots[..count] {
        let share = (root - from).rem_euclid(TAU) / (to - from);
        if share < 1.0 {
            out.push(share);
        }
    }
}
