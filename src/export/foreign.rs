//! Drawings that users bring: a company's title frame, the outline of a bucket.
//!
//! In: the bytes of a DXF. Out: its lines, arcs, circles, polylines and texts as marks in mm, the fields
//! in braces that its texts name (`{TITLE}`), and a count of what was left out. Model space is read, or
//! paper space when model space is empty. Coordinates stay where the file has them, times its unit.
//! Blocks, paragraph text, splines and mirrored entities are not read; they are counted, never guessed. Only text DXF is read, within the
//! limits of [`group_codes`](super::group_codes); a reader that comes to grief over it is a sentence, not the end of the program.

use crate::paper::mark::{Align, Mark, PaperPoint, Path, Shape, Text, Vertex};
use crate::paper::style::{Face, Pen};
use dxf::entities::{Entity, EntityType};
use dxf::enums::{HorizontalTextJustification as Across, Units, VerticalTextJustification as Upright};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::io::Cursor;

/// A drawing as read.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Foreign {
    /// What can be drawn, mm. Layers named like ours take our pen, else lines are [`Pen::Frame`] and texts [`Pen::Lettering`].
    pub marks: Vec<Mark>,
    /// Names in braces in its texts.
    pub fields: BTreeSet<String>,
    /// Kinds of entities that were not read, with their number.
    pub left_out: BTreeMap<String, usize>,
}

/// Largest bulge of an arc that is drawn (tangent of a quarter of its angle): nearer to a whole circle than anybody draws.
const MOST_BULGED: f64 = 1000.0;

/// Why a drawing was not taken; one sentence with what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ForeignError(pub String);

impl fmt::Display for ForeignError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for ForeignError {}

/// Reads a DXF.
///
/// # Errors
/// A file that is not DXF, that is beyond the limits, that holds nothing to draw, or whose unit is none of mm, cm, dm, m, inch, foot.
pub fn read(bytes: &[u8]) -> Result<Foreign, ForeignError> {
    let unreadable = |why: String| ForeignError(format!("this is not a DXF file that can be read: {why}"));
    let sieved = super::group_codes::sieved(bytes).map_err(unreadable)?;
    let loaded = std::panic::catch_unwind(move || dxf::Drawing::load(&mut Cursor::new(sieved)));
    let drawing = loaded.map_err(|_| unreadable("its reader gives up on it".into()))?.map_err(|e| unreadable(e.to_string()))?;
    let unit = match drawing.header.default_drawing_units {
        Units::Unitless | Units::Millimeters => 1.0,
        Units::Centimeters => 10.0,
        Units::Decimeters => 100.0,
        Units::Meters => 1000.0,
        Units::Inches => 25.4,
        Units::Feet => 304.8,
        other => return Err(ForeignError(format!("its drawing unit is {other:?}; save it in millimetres or inches"))),
    };
    let mut foreign = Foreign::default();
    let in_model = drawing.entities().any(|e| !e.common.is_in_paper_space);
    for entity in drawing.entities().filter(|e| e.common.is_in_paper_space != in_model) {
        match mark(entity, unit) {
            Ok(Some(mark)) => foreign.marks.push(mark),
            Ok(None) => {}
            Err(kind) => *foreign.left_out.entry(kind.into()).or_default() += 1,
        }
    }
    if foreign.marks.is_empty() {
        let left: Vec<String> = foreign.left_out.iter().map(|(kind, n)| format!("{n} × {kind}")).collect();
        let rest = if left.is_empty() { String::new() } else { format!(" (only {}; explode blocks and paragraph text)", left.join(", ")) };
        return Err(ForeignError(format!("it holds no line, arc, circle, polyline or text{rest}")));
    }
    foreign.fields = foreign.marks.iter().filter_map(|m| if let Mark::Text(t) = m { Some(t) } else { None }).flat_map(|t| names(&t.content)).collect();
    Ok(foreign)
}

impl Foreign {
    /// Lower left and upper right corner of the lines, mm; none without lines. Arcs count as far as they reach.
    pub fn extent(&self) -> Option<(PaperPoint, PaperPoint)> {
        let paths = self.marks.iter().filter_map(|m| if let Mark::Path(p) = m { Some(&p.shape) } else { None });
        let boxes = paths.flat_map(Shape::edges).map(|e| e.bounds());
        boxes.reduce(|a, b| a.union(b)).map(|r| (PaperPoint::new(r.x0, r.y0), PaperPoint::new(r.x1, r.y1)))
    }
}

/// Names in braces: capitals, digits, `_`, `.`, `-`.
fn names(content: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut rest = content;
    while let Some((_, after)) = rest.split_once('{') {
        if let Some((name, behind)) = after.split_once('}') {
            let plain = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || "_.-".contains(c);
            if !name.is_empty() && name.chars().all(plain) {
                found.push(name.to_owned());
                rest = behind;
                continue;
            }
        }
        rest = after;
    }
    found
}

/// The mark of an entity, none if it leaves no ink, or the kind that is not read.
fn mark(entity: &Entity, unit: f64) -> Result<Option<Mark>, &'static str> {
    let at = |p: &dxf::Point| PaperPoint::new(p.x * unit, p.y * unit);
    let pen = Pen::ALL.into_iter().find(|p| p.layer().eq_ignore_ascii_case(&entity.common.layer));
    let upright = |normal: &dxf::Vector, kind| if normal.z > 0.0 { Ok(()) } else { Err(kind) };
    let shape = match &entity.specific {
        EntityType::Line(l) => Shape::Line { from: at(&l.p1), to: at(&l.p2) },
        EntityType::Circle(c) => {
            upright(&c.normal, "mirrored CIRCLE")?;
            Shape::Circle { centre: at(&c.center), radius: c.radius * unit }
        }
        EntityType::Arc(a) => {
            upright(&a.normal, "mirrored ARC")?;
            let sweep = (a.end_angle - a.start_angle).rem_euclid(360.0);
            let sweep = if sweep == 0.0 { 360.0 } else { sweep };
            Shape::Arc { centre: at(&a.center), radius: a.radius * unit, start: a.start_angle.to_radians(), sweep: sweep.to_radians() }
        }
        EntityType::LwPolyline(p) => {
            upright(&p.extrusion_direction, "mirrored LWPOLYLINE")?;
            let corner = |v: &dxf::LwPolylineVertex| Vertex { at: PaperPoint::new(v.x * unit, v.y * unit), bulge: v.bulge };
            Shape::Polyline { vertices: p.vertices.iter().map(corner).collect(), closed: p.flags & 1 != 0 }
        }
        EntityType::Polyline(p) => {
            upright(&p.normal, "mirrored POLYLINE")?;
            // 3D polylines, meshes and curve-fitted polylines are flags above the first.
            if p.flags & !(1 | 128) != 0 {
                return Err("3D or curved POLYLINE");
            }
            let corner = |v: &dxf::entities::Vertex| Vertex { at: at(&v.location), bulge: v.bulge };
            Shape::Polyline { vertices: p.vertices().map(corner).collect(), closed: p.flags & 1 != 0 }
        }
        EntityType::Text(t) => return text(t, unit, pen),
        EntityType::MText(_) => return Err("MTEXT"),
        EntityType::Insert(_) => return Err("INSERT"),
        EntityType::Spline(_) => return Err("SPLINE"),
        EntityType::Ellipse(_) => return Err("ELLIPSE"),
        EntityType::AttributeDefinition(_) => return Err("ATTDEF"),
        _ => return Err("other entity"),
    };
    match &shape {
        Shape::Polyline { vertices, .. } if vertices.len() < 2 => return Ok(None),
        Shape::Polyline { vertices, .. } if vertices.iter().any(|v| v.bulge.abs() > MOST_BULGED) => return Err("polyline with an arc of no shape"),
        // There and back again: one line.
        Shape::Polyline { vertices, closed: true } if vertices.len() == 2 && vertices.iter().all(|v| v.bulge == 0.0) => {
            let shape = Shape::Polyline { vertices: vertices.clone(), closed: false };
            return Ok(Some(Mark::Path(Path { shape, pen: pen.unwrap_or(Pen::Frame) })));
        }
        Shape::Circle { radius, .. } | Shape::Arc { radius, .. } if *radius <= 0.0 => return Err("circle or arc without a radius"),
        _ => {}
    }
    Ok(Some(Mark::Path(Path { shape, pen: pen.unwrap_or(Pen::Frame) })))
}

fn text(t: &dxf::entities::Text, unit: f64, pen: Option<Pen>) -> Result<Option<Mark>, &'static str> {
    if t.normal.z <= 0.0 {
        return Err("mirrored TEXT");
    }
    if t.value.trim().is_empty() {
        return Ok(None);
    }
    let align = match t.horizontal_text_justification {
        Across::Left => Align::Left,
        Across::Center | Across::Middle => Align::Centre,
        Across::Right => Align::Right,
        Across::Aligned | Across::Fit => return Err("TEXT fitted between two points"),
    };
    // Aligned texts hang on their second point.
    let plain = align == Align::Left && t.vertical_text_justification == Upright::Baseline;
    let point = if plain { &t.location } else { &t.second_alignment_point };
    let below = match (t.horizontal_text_justification, t.vertical_text_justification) {
        (Across::Middle, _) | (_, Upright::Middle) => 0.5,
        (_, Upright::Top) => 1.0,
        (_, Upright::Baseline | Upright::Bottom) => 0.0,
    };
    let height = t.text_height * unit;
    let (sin, cos) = t.rotation.to_radians().sin_cos();
    Ok(Some(Mark::Text(Text {
        content: super::dxf::text::plain(&t.value),
        at: PaperPoint::new(point.x * unit + sin * below * height, point.y * unit - cos * below * height),
        height,
        angle: t.rotation,
        align,
        face: Face::Regular,
        pen: pen.unwrap_or(Pen::Lettering),
    })))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::dxf::writer::{Anchor, CadVersion, Drawing, DrawingUnit, Place, TextLine};

    fn frame(version: CadVersion, unit: DrawingUnit) -> Vec<u8> {
        let mut d = Drawing::new(version, unit, (420.0, 297.0)).unwrap();
        d.layer("TITLES", "", 7, "Continuous", 0.25).unwrap();
        d.text_style("T", "DejaVuSans.ttf", "DejaVu Sans", false).unwrap();
        d.polyline(Place::Model, "TITLES", &[((0.0, 0.0), 0.0), ((100.0, 0.0), 1.0), ((100.0, 50.0), 0.0), ((0.0, 50.0), 0.0)], true).unwrap();
        d.circle(Place::Model, "TITLES", (20.0, 20.0), 5.0).unwrap();
        d.arc(Place::Model, "TITLES", (20.0, 20.0), 7.0, 5.0, 1.0).unwrap();
        d.line(Place::Model, "TITLES", (0.0, 10.0), (100.0, 10.0)).unwrap();
        let line = |content, at, anchor| TextLine { content, left: at, at, height: 2.5, angle: 0.0, anchor, style: "T" };
        d.text(Place::Model, "TITLES", &line("No. {NUMBER} {x} {", (5.0, 5.0), Anchor::Left)).unwrap();
        d.text(Place::Model, "TITLES", &line("{TITLE} %%c", (50.0, 30.0), Anchor::Centre)).unwrap();
        d.to_dxf().unwrap()
    }

    #[test]
    fn a_title_frame_comes_back_with_its_fields() {
        let foreign = read(&frame(CadVersion::R2010, DrawingUnit::Millimetre)).unwrap();
        assert_eq!(foreign.marks.len(), 6);
        assert!(foreign.left_out.is_empty());
        assert_eq!(foreign.fields.iter().map(String::as_str).collect::<Vec<_>>(), ["NUMBER", "TITLE"]);
        let texts: Vec<&str> = foreign.marks.iter().filter_map(|m| if let Mark::Text(t) = m { Some(t.content.as_str()) } else { None }).collect();
        assert_eq!(texts, ["No. {NUMBER} {x} {", "{TITLE} ⌀"]);
        let (low, high) = foreign.extent().unwrap();
        assert!(low.x.abs() < 1e-6 && (high.x - 125.0).abs() < 1e-3, "the bulge of 1 bows out by half its chord: {high:?}");
    }

    #[test]
    fn inches_become_millimetres() {
        let foreign = read(&frame(CadVersion::R2000, DrawingUnit::Inch)).unwrap();
        assert!((foreign.extent().unwrap().1.x - 125.0 * 25.4).abs() < 0.1);
    }

    /// What once ended the program or took all memory: a date beyond the calendar, an arc of 1e300, circles of nothing.
    #[test]
    fn hostile_values_are_refused_or_counted() {
        let text = String::from_utf8(frame(CadVersion::R2000, DrawingUnit::Millimetre)).unwrap();
        let line_end = if text.contains("\r\n") { "\r\n" } else { "\n" };
        let date = format!("$TDCREATE{line_end} 40{line_end}99999999999999999999{line_end}  9{line_end}$INSUNITS");
        let dated = text.replacen("$INSUNITS", &date, 1);
        assert_ne!(dated, text);
        assert_eq!(read(dated.as_bytes()), read(text.as_bytes()));
        let entity = |pairs: &[(i32, &str)]| {
            let pairs: String =
                [(0, "SECTION"), (2, "ENTITIES")].iter().chain(pairs).chain(&[(0, "ENDSEC"), (0, "EOF")]).map(|(c, v)| format!("{c}\n{v}\n")).collect();
            read(pairs.as_bytes())
        };
        let two = |bulge: &'static str, closed: &'static str| {
            let corners = [(10, "0"), (20, "0"), (42, bulge), (10, "50"), (20, "0"), (42, bulge)];
            entity(&[&[(0, "LWPOLYLINE"), (8, "0"), (90, "2"), (70, closed)][..], &corners].concat())
        };
        assert!(two("1e300", "0").unwrap_err().0.contains("beyond any drawing"));
        assert!(two("1e6", "1").unwrap_err().0.contains("arc of no shape"));
        // A circle of two halves, and a line there and back.
        assert!((two("1", "1").unwrap().extent().unwrap().1.y - 25.0).abs() < 1e-9);
        assert_eq!(two("0", "1").unwrap().extent().unwrap().1, PaperPoint::new(50.0, 0.0));
        for (kind, radius) in [("CIRCLE", "0"), ("ARC", "-3")] {
            let why = entity(&[(0, kind), (8, "0"), (10, "0"), (20, "0"), (40, radius), (50, "0"), (51, "90")]).unwrap_err();
            assert!(why.0.contains("without a radius"), "{why}");
        }
    }

    #[test]
    fn files_cut_off_anywhere_never_panic() {
        let whole = frame(CadVersion::R2000, DrawingUnit::Millimetre);
        for end in (0..whole.len()).step_by(97) {
            let _ = read(&whole[..end]);
        }
        assert!(read(b"").is_err());
        assert!(read(b"  0\nSECTION\n").is_err());
    }
}
