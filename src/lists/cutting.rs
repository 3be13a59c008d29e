//! Parts as plates ready to be cut.
//!
//! In: the fabricated parts. Out: one [`CutPlate`] for each part with a flat pattern, in item order.
//! Holes to be drilled become centre crosses; rolled zones show their first and last line, pressed
//! bends the line in the middle.

use crate::geometry::Edge;
use crate::lists;
use crate::paper::cut_plate::{CutFormat, CutPlate};
use crate::paper::mark::{PlanePoint, Shape, Vertex};
use crate::paper::stroke_letters;
use crate::parts::Parts;
use crate::parts::flat::{Contour, FlatPattern, HoleMade, Stretch};
use crate::say::Voice;
use crate::spec::fabrication::CutProfile;

/// The file format for a spec's profile.
pub const fn format(profile: CutProfile) -> CutFormat {
    match profile {
        CutProfile::Polylines => CutFormat::Polylines,
        CutProfile::LinesAndArcs => CutFormat::LinesAndArcs,
        CutProfile::R12 => CutFormat::R12,
    }
}

/// All plates, their titles in the words of the job.
pub fn cut_plates(parts: &Parts, voice: &Voice) -> Vec<CutPlate> {
    lists::plates(parts)
        .map(|(part, flat)| CutPlate {
            name: lists::file_stem(part, parts),
            title: format!("{} {}", part.item, voice.say(&part.name)),
            contours: std::iter::once(shape(&flat.outer)).chain(flat.inner_contours().iter().map(shape)).collect(),
            marks: marks(flat),
            bends: bends(flat),
        })
        .collect()
}

/// A contour as a closed shape.
pub fn shape(contour: &Contour) -> Shape<PlanePoint> {
    match contour {
        Contour::Circle { centre, diameter } => Shape::Circle { centre: PlanePoint::new(centre[0], centre[1]), radius: diameter / 2.0 },
        Contour::Path(nodes) => {
            Shape::Polyline { vertices: nodes.iter().map(|n| Vertex { at: PlanePoint::new(n.at[0], n.at[1]), bulge: n.bulge }).collect(), closed: true }
        }
    }
}

/// A scribed line as a stroke.
pub fn stretch(s: &Stretch) -> Shape<PlanePoint> {
    match s.edge() {
        Edge::Straight(line) => Shape::Line { from: line.p0.into(), to: line.p1.into() },
        Edge::Round { arc, .. } => Shape::Arc { centre: arc.center.into(), radius: arc.radii.x, start: arc.start_angle, sweep: arc.sweep_angle },
    }
}

fn marks(flat: &FlatPattern) -> Vec<Shape<PlanePoint>> {
    let line = |a: [f64; 2], b: [f64; 2]| Shape::Line { from: PlanePoint::new(a[0], a[1]), to: PlanePoint::new(b[0], b[1]) };
    let mut out: Vec<Shape<PlanePoint>> =
        flat.mark.iter().flat_map(|m| stroke_letters::strokes(&m.text, PlanePoint::new(m.at[0], m.at[1]), m.height)).collect();
    for h in flat.holes.iter().filter(|h| h.made == HoleMade::Drilled) {
        let arm = (h.diameter / 2.0).min(4.0);
        out.push(line([h.at[0] - arm, h.at[1]], [h.at[0] + arm, h.at[1]]));
        out.push(line([h.at[0], h.at[1] - arm], [h.at[0], h.at[1] + arm]));
    }
    out.extend(flat.scribed.iter().map(|s| stretch(&s.line)));
    out
}

fn bends(flat: &FlatPattern) -> Vec<Shape<PlanePoint>> {
    let size = flat.size();
    let mut at = Vec::new();
    for b in &flat.bends {
        if b.rolled { at.extend([b.start, b.start + b.flat_length]) } else { at.push(b.start + b.flat_length / 2.0) }
    }
    // A zone that begins or ends on the edge needs no line there.
    at.into_iter()
        .filter(|x| *x > 0.01 && *x < size[0] - 0.01)
        .map(|x| Shape::Line { from: PlanePoint::new(x, 0.0), to: PlanePoint::new(x, size[1]) })
        .collect()
}
