//! STEP files (AP242) of assemblies: named and coloured parts, defined once, placed often.
//!
//! In: parts with their bodies, groups of placed parts and groups. Out: the text of a file in mm; planes, cylinders,
//! cones and arcs stay true, the ends of milled slots are splines; the same bytes for the same input. Bodies are written as they are: `check` them first.

use crate::solid::brep::{Brep, Curve, Frame, Saddle, Surface, Use};
use glam::DVec3;
use std::collections::BTreeMap;
use std::f64::consts::PI;
use step_io::build::{self as io, CurveInput, FaceBoundInput, PartOptions, StepBuilder, StyleTarget, SurfaceInput, UnitsInput};
use step_io::scene::{NurbsCurve, Rgb};
use step_io::{AuthorError, Orientation};

/// Points nearer to each other than this are one for the reader, mm.
const UNCERTAINTY: f64 = 1e-6;

/// Files do not tell when they were written, so that the same input makes the same bytes.
const TIME_STAMP: &str = "2000-01-01T00:00:00Z";

/// A part, defined once.
#[derive(Debug, Clone, PartialEq)]
pub struct Part<'a> {
    /// Its number; no two parts or groups share one.
    pub id: &'a str,
    /// Its name.
    pub name: &'a str,
    /// Red, green, blue, 0 to 1.
    pub colour: [f64; 3],
    /// Its body.
    pub body: &'a Brep,
}

/// Where a member stands: right-handed, rigid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Where the member's origin goes, mm.
    pub origin: DVec3,
    /// Where its z points.
    pub axis: DVec3,
    /// Where its x points.
    pub x: DVec3,
}

/// What is placed in a group.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// A part, by its place in the list.
    Part(usize),
    /// A group, by its place in the list; one that stands after the group it is placed in.
    Group(usize),
}

/// A part or group as placed.
#[derive(Debug, Clone, PartialEq)]
pub struct Member<'a> {
    /// What is placed.
    pub what: What,
    /// Name of this piece.
    pub name: &'a str,
    /// Where it stands.
    pub place: Place,
}

/// Pieces that belong together; the first one is the whole.
#[derive(Debug, Clone, PartialEq)]
pub struct Group<'a> {
    /// Its number.
    pub id: &'a str,
    /// Its name.
    pub name: &'a str,
    /// Its pieces.
    pub members: Vec<Member<'a>>,
}

/// Why a file was not written.
#[derive(Debug)]
pub enum StepError {
    /// A member, vertex or edge that is not there; a group that is placed before it.
    Missing,
    /// The writer refused an input.
    Author(AuthorError),
    /// The writer could not put the text together.
    Write(String),
}

impl std::fmt::Display for StepError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Missing => f.write_str("a member, vertex or edge is not there"),
            Self::Author(e) => write!(f, "the STEP writer refused: {e}"),
            Self::Write(e) => write!(f, "the STEP file could not be written: {e}"),
        }
    }
}

impl std::error::Error for StepError {}

impl From<AuthorError> for StepError {
    fn from(e: AuthorError) -> Self {
        Self::Author(e)
    }
}

/// A STEP file of groups of parts; the first group is the assembly.
///
/// # Errors
/// [`StepError`]; none for sound bodies and members that are there.
pub fn step(parts: &[Part<'_>], groups: &[Group<'_>]) -> Result<String, StepError> {
    let mut builder = StepBuilder::new_with(&UnitsInput { uncertainty: UNCERTAINTY, ..UnitsInput::default() })?;
    builder.header_mut().time_stamp = TIME_STAMP.into();
    let options = |id: &str| PartOptions { id: Some(id.into()), ..PartOptions::default() };
    let wholes: Vec<io::Part> = groups.iter().map(|g| builder.part_with(g.name, &options(g.id))).collect();
    let mut products = Vec::with_capacity(parts.len());
    for part in parts {
        let product = builder.part_with(part.name, &options(part.id));
        solid(&mut builder, product, part)?;
        products.push(product);
    }
    let mut names = Vec::new();
    for (i, (group, whole)) in groups.iter().zip(&wholes).enumerate() {
        for member in &group.members {
            let product = match member.what {
                What::Part(k) => products.get(k),
                What::Group(k) if k > i => wholes.get(k),
                What::Group(_) => None,
            };
            let place = &member.place;
            builder.place(*whole, *product.ok_or(StepError::Missing)?, frame(place.origin, place.axis, place.x))?;
            names.push(member.name);
        }
    }
    let mut out = Vec::new();
    step_io::write(&builder.finish(), &mut out).map_err(|e| StepError::Write(format!("{e}")))?;
    let text = String::from_utf8(out).map_err(|e| StepError::Write(e.to_string()))?;
    Ok(named(&text, &names))
}

/// −0 would read as another byte than 0.
fn array(v: DVec3) -> [f64; 3] {
    v.to_array().map(|c| c + 0.0)
}

fn frame(origin: DVec3, axis: DVec3, x: DVec3) -> io::Frame {
    io::Frame { origin: array(origin), axis: array(axis), ref_dir: array(x) }
}

fn placed(f: &Frame) -> io::Frame {
    frame(f.origin, f.axis, f.x)
}

/// Writes the body of a part.
fn solid(builder: &mut StepBuilder, product: io::Part, part: &Part<'_>) -> Result<(), StepError> {
    let body = part.body;
    let vertices = body.vertices.iter().map(|v| builder.vertex(array(*v))).collect::<Result<Vec<_>, _>>()?;
    let mut edges = Vec::with_capacity(body.edges.len());
    for edge in &body.edges {
        let curve = match &edge.curve {
            Curve::Line => CurveInput::Line,
            Curve::Circle(circle, r) => CurveInput::Circle(placed(circle), *r),
            Curve::Saddle(saddle) => CurveInput::Nurbs(spline(saddle)),
        };
        let at = |i: usize| vertices.get(i).copied().ok_or(StepError::Missing);
        edges.push(builder.edge(at(edge.from)?, at(edge.to)?, curve)?);
    }
    let used = |u: &Use| {
        let orientation = if u.forward { Orientation::Forward } else { Orientation::Reversed };
        edges.get(u.edge).map(|e| (*e, orientation)).ok_or(StepError::Missing)
    };
    let mut faces = Vec::with_capacity(body.faces.len());
    for face in &body.faces {
        let surface = match &face.surface {
            Surface::Plane(f) => SurfaceInput::Plane(placed(f)),
            Surface::Cylinder(f, r) => SurfaceInput::Cylinder(placed(f), *r),
            // A cone of STEP grows along its axis.
            Surface::Cone(f, r, slope) if *slope < 0.0 => SurfaceInput::Cone(frame(f.origin, -f.axis, f.x), *r, (-slope).atan()),
            Surface::Cone(f, r, slope) => SurfaceInput::Cone(placed(f), *r, slope.atan()),
        };
        let mut bounds = Vec::with_capacity(face.loops.len());
        for (i, uses) in face.loops.iter().enumerate() {
            let uses = uses.iter().map(used).collect::<Result<Vec<_>, _>>()?;
            bounds.push(if i == 0 { FaceBoundInput::outer(uses) } else { FaceBoundInput::inner(uses) });
        }
        let sense = if face.outward { Orientation::Forward } else { Orientation::Reversed };
        faces.push(builder.face(surface, sense, bounds)?);
    }
    let whole = builder.solid(product, part.name, faces)?;
    let [red, green, blue] = part.colour;
    builder.style(StyleTarget::Solid(whole), Rgb { red, green, blue }, None)?;
    Ok(())
}

/// Pieces of a saddle's spline: it strays less than 1e-7 mm from the two cylinders of a keyway.
const PIECES: u32 = 64;

/// A saddle as a cubic spline through points of it, with its own tangents there.
fn spline(saddle: &Saddle) -> NurbsCurve {
    let step = PI / f64::from(PIECES);
    let mut control_points = vec![array(saddle.at(0.0))];
    let mut knots = vec![0.0; 4];
    for i in 0..PIECES {
        let [a, b] = [i, i + 1].map(|i| f64::from(i) * step);
        control_points.push(array(saddle.at(a) + saddle.rate(a) * (step / 3.0)));
        control_points.push(array(saddle.at(b) - saddle.rate(b) * (step / 3.0)));
        knots.extend([b; 2]);
    }
    control_points.push(array(saddle.at(PI)));
    knots.extend([PI; 2]);
    NurbsCurve { degree: 3, weights: vec![1.0; control_points.len()], control_points, knots }
}

/// Names of the placed pieces: the writer leaves them empty and counts the pieces in the order of its calls.
fn named(text: &str, names: &[&str]) -> String {
    const TAG: &str = "NEXT_ASSEMBLY_USAGE_OCCURRENCE('";
    let names: BTreeMap<String, &str> = names.iter().enumerate().map(|(i, n)| ((i + 1).to_string(), *n)).collect();
    let mut out = String::with_capacity(text.len() + 32 * names.len());
    let mut rest = text;
    while let Some(at) = rest.find(TAG) {
        let (before, after) = rest.split_at(at + TAG.len());
        out.push_str(before);
        rest = after;
        // After the tag: number',''
        if let Some((number, tail)) = after.split_once("','")
            && let Some(name) = names.get(number)
            && let Some(tail) = tail.strip_prefix('\'')
        {
            out.push_str(number);
            out.push_str("','");
            out.push_str(&escaped(name));
            out.push('\'');
            rest = tail;
        }
    }
    out.push_str(rest);
    out
}

/// A string as ISO 10303-21 writes it: quotes and backslashes doubled, what is not ASCII by its hexadecimal code.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            ' '..='~' => out.push(c),
            _ => {
                let code = u32::from(c);
                out.push_str(&if code <= 0xFFFF { format!("\\X2\\{code:04X}\\X0\\") } else { format!("\\X4\\{code:08X}\\X0\\") });
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::build::{Segment, turned};

    const HERE: Place = Place { origin: DVec3::ZERO, axis: DVec3::Z, x: DVec3::X };

    #[test]
    fn the_same_machine_makes_the_same_bytes_with_every_name() {
        let body = turned(&[Segment { from: 0.0, to: 5.0, diameters: [30.0, 20.0], bores: [8.0; 2] }], &crate::solid::brep::FLAT).unwrap();
        let part = Part { id: "601", name: "Ø30 \"disc\"", colour: [0.2, 0.4, 0.8], body: &body };
        let member = |what, name| Member { what, name, place: HERE };
        let groups = [
            Group { id: "1", name: "foot", members: vec![member(What::Group(1), "pulley's"), member(What::Part(0), "far ⌀")] },
            Group { id: "600", name: "pulley", members: vec![member(What::Part(0), "near")] },
        ];
        let text = step(std::slice::from_ref(&part), &groups).unwrap();
        assert_eq!(text, step(std::slice::from_ref(&part), &groups).unwrap());
        for name in ["'1','pulley''s'", "'2','far \\X2\\2300\\X0\\'", "'3','near'", "CONICAL_SURFACE", "'2000-01-01T00:00:00Z'"] {
            assert!(text.contains(name), "{name}");
        }
        let looped = [Group { id: "1", name: "foot", members: vec![member(What::Group(0), "itself")] }];
        assert!(matches!(step(&[part], &looped), Err(StepError::Missing)));
    }
}
