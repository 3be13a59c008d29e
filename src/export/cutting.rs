//! Cutting files: one plate a DXF, contours on CUT, marks on MARK, bend lines on BEND, nothing else.
//!
//! In: plates as closed shapes in mm. Out: a file for each, 1:1, origin at the lower left corner.
//! Every file is read back by an independent reader and its entities counted. It does not check that
//! contours keep clear of each other; whoever makes the plates does.

use super::dxf::writer::{CadVersion, Drawing, DrawingUnit, Place, WriteError, Xy};
use super::{ExportError, File, readback};
use crate::paper::cut_plate::{CutFormat, CutPlate};
use crate::paper::mark::{PlanePoint, Shape, Vertex};

/// Layers with colour number and what is on them; the only ones.
pub const LAYERS: [(&str, u8, &str); 3] = [("CUT", 7, "contours to be cut"), ("MARK", 3, "marks to be scribed"), ("BEND", 5, "bend lines")];

/// Writes all plates.
///
/// # Errors
/// A plate without contour, a number that is not finite, or a file that does not read back as written.
pub fn files(plates: &[CutPlate], format: CutFormat) -> Result<Vec<File>, ExportError> {
    plates.iter().map(|p| file(p, format)).collect()
}

fn file(plate: &CutPlate, format: CutFormat) -> Result<File, ExportError> {
    let refused = |e: WriteError| ExportError::Format { format: "dxf", sheet: plate.name.clone(), why: e.to_string() };
    if plate.contours.is_empty() {
        return Err(ExportError::Refused { sheet: plate.name.clone(), why: "a plate without an outline cannot be cut".into() });
    }
    let (bytes, written) = draw(plate, format).map_err(refused)?;
    readback::verify(&plate.name, &bytes, &written)?;
    Ok(File { name: format!("{}.dxf", plate.name), bytes })
}

fn draw(plate: &CutPlate, format: CutFormat) -> Result<(Vec<u8>, readback::Counts), WriteError> {
    let version = if format == CutFormat::R12 { CadVersion::R12 } else { CadVersion::R2010 };
    let mut corner = (1.0_f64, 1.0_f64);
    for shape in &plate.contours {
        let reach = match shape {
            Shape::Circle { centre, radius } => (centre.x + radius, centre.y + radius),
            Shape::Polyline { vertices, .. } => vertices.iter().fold((0.0_f64, 0.0_f64), |m, v| (m.0.max(v.at.x), m.1.max(v.at.y))),
            _ => (0.0, 0.0),
        };
        corner = (corner.0.max(reach.0), corner.1.max(reach.1));
    }
    let mut pen = Pen {
        drawing: Drawing::new(version, DrawingUnit::Millimetre, corner)?,
        written: readback::Counts::new(),
        exploded: format == CutFormat::LinesAndArcs,
        r12: format == CutFormat::R12,
    };
    if !pen.r12 {
        pen.drawing.properties(&plate.title, "");
    }
    for (name, colour, about) in LAYERS {
        pen.drawing.layer(name, about, colour, "Continuous", 0.25)?;
    }
    for (layer, shapes) in [("CUT", &plate.contours), ("MARK", &plate.marks), ("BEND", &plate.bends)] {
        for shape in shapes {
            pen.shape(layer, shape)?;
        }
    }
    Ok((pen.drawing.to_dxf()?, pen.written))
}

struct Pen {
    drawing: Drawing,
    written: readback::Counts,
    exploded: bool,
    r12: bool,
}

const fn xy(p: PlanePoint) -> Xy {
    (p.x, p.y)
}

impl Pen {
    fn count(&mut self, kind: &'static str) {
        *self.written.entry(kind).or_default() += 1;
    }

    fn shape(&mut self, layer: &str, shape: &Shape<PlanePoint>) -> Result<(), WriteError> {
        match shape {
            Shape::Line { from, to } => {
                self.count("LINE");
                self.drawing.line(Place::Model, layer, xy(*from), xy(*to))
            }
            Shape::Circle { centre, radius } => {
                self.count("CIRCLE");
                self.drawing.circle(Place::Model, layer, xy(*centre), *radius)
            }
            Shape::Arc { centre, radius, start, sweep } => {
                self.count("ARC");
                let (from, to) = if *sweep >= 0.0 { (*start, start + sweep) } else { (start + sweep, *start) };
                self.drawing.arc(Place::Model, layer, xy(*centre), *radius, from, to)
            }
            Shape::Polyline { vertices, closed } if self.exploded || !closed => self.edges(layer, vertices, *closed),
            Shape::Polyline { vertices, closed } => {
                self.count(if self.r12 { "POLYLINE" } else { "LWPOLYLINE" });
                let corners: Vec<(Xy, f64)> = vertices.iter().map(|v| (xy(v.at), v.bulge)).collect();
                self.drawing.polyline(Place::Model, layer, &corners, *closed)
            }
        }
    }

    /// Open chains and exploded contours as single lines and arcs.
    fn edges(&mut self, layer: &str, vertices: &[Vertex<PlanePoint>], closed: bool) -> Result<(), WriteError> {
        let n = if closed { vertices.len() } else { vertices.len().saturating_sub(1) };
        for (a, b) in vertices.iter().zip(vertices.iter().cycle().skip(1)).take(n) {
            let (p, q, bulge) = (a.at, b.at, a.bulge);
            if bulge.abs() < 1e-12 {
                self.shape(layer, &Shape::Line { from: p, to: q })?;
                continue;
            }
            let (dx, dy) = (q.x - p.x, q.y - p.y);
            let off = (1.0 - bulge * bulge) / (4.0 * bulge);
            let centre = PlanePoint::new((p.x + q.x) / 2.0 - off * dy, (p.y + q.y) / 2.0 + off * dx);
            let radius = (p.x - centre.x).hypot(p.y - centre.y);
            self.shape(layer, &Shape::Arc { centre, radius, start: (p.y - centre.y).atan2(p.x - centre.x), sweep: 4.0 * bulge.atan() })?;
        }
        Ok(())
    }
}
