//! The pictures of bodies that drafts were drawn from, made again from the machine itself.

#![allow(clippy::unwrap_used)]

use footwell::job::Job;
use footwell::machine::{Body, Machine, Uncut};
use footwell::paper::shown::{Shown, ShownPiece};
use footwell::solid::Brep;
use footwell::solid::project::{Placed, Plane, Scene, Section, View};
use glam::{DAffine3, DMat3, DVec3};
use std::collections::BTreeMap;

/// Bodies by their ids.
pub fn by_id(machine: &Machine) -> BTreeMap<&str, &Body> {
    machine.bodies.iter().map(|b| (b.id.as_str(), b)).collect()
}

/// The machine that a view shows: both of the bend-pulley question are on the sheet that compares them.
pub fn machine<'a>(job: &'a Job, sheet: &str, view: &str) -> &'a Machine {
    let compared = job.comparison().filter(|_| sheet == "compare");
    compared.map_or_else(|| job.machine(), |c| if view == "bend" { &c.with_bend.machine } else { &c.without_bend.machine })
}

/// From where a picture looks.
pub fn view(shown: &Shown) -> View {
    View { right: shown.right.into(), up: shown.up.into(), toward: shown.toward.into() }
}

/// Where it cuts.
pub fn plane(shown: &Shown) -> Option<Plane> {
    shown.cut.map(|at| Plane { at: at.into(), away: shown.toward.into() })
}

/// Where a piece stands in a picture.
pub fn pose(piece: &ShownPiece) -> DAffine3 {
    let [x, y, z, o] = piece.at.map(DVec3::from_array);
    DAffine3 { matrix3: DMat3::from_cols(x, y, z), translation: o }
}

/// How far it has been moved there from where it stands in the machine, mm.
pub fn moved(piece: &ShownPiece, body: &Body) -> DVec3 {
    DVec3::from(piece.at[3]) - DVec3::from(body.places[piece.place].origin)
}

/// Whether a section leaves a piece whole (ISO 128-3: shafts, keys, bolts and nuts along their axis, ribs along their faces).
pub fn whole(shown: &Shown, piece: &ShownPiece, body: &Body) -> bool {
    let across = DVec3::from(piece.at[2]).dot(shown.toward.into()).abs();
    match body.uncut {
        Uncut::Never => false,
        Uncut::AlongAxis => across < 0.7,
        Uncut::AlongFaces => across > 0.7,
    }
}

/// The lines of a picture with the bodies as they are, no hole filled and nothing broken off; `hidden` asks for hidden ones too.
pub fn lines(shown: &Shown, bodies: &BTreeMap<&str, &Body>, hidden: bool) -> Section {
    let breps: Vec<&Brep> = shown.pieces.iter().map(|p| &bodies[p.body.as_str()].brep).collect();
    let placed: Vec<Placed<'_>> = (shown.pieces.iter().zip(&breps).enumerate())
        .map(|(id, (piece, brep))| Placed { brep, at: pose(piece), id, hidden, whole: whole(shown, piece, bodies[piece.body.as_str()]) })
        .collect();
    let scene = Scene::new(&placed);
    match plane(shown) {
        Some(plane) => scene.section(&view(shown), &plane),
        None => Section { lines: scene.view(&view(shown)), cuts: Vec::new() },
    }
}
