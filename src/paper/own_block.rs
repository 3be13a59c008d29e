//! A title block that users bring in place of the fields of ours: lines and texts with names in braces.
//!
//! In: its marks, paper mm, and the names that its texts use. Out: the same marks at the lower right of a sheet, with
//! every name replaced by its value. The outcome of the rules, the scale bar and the revision rows stay the program's
//! own and stand above it; no name is filled in for whoever approves.

use super::drafting::Projection;
use super::lettering::width;
use super::mark::{Align, Mark, PaperPoint, Shape, Text};
use super::projection_sign;
use super::stroke::{moved, segments};
use crate::tables::sheets::TITLE_BLOCK_WIDTH;
use std::collections::{BTreeMap, BTreeSet};

/// The names that may stand in braces, with what replaces each.
pub const FIELDS: [(&str, &str); 22] = [
    ("OWNER", "legal owner, project.owner"),
    ("NUMBER", "drawing number, project.number"),
    ("REV", "index of the newest revision"),
    ("SHEET", "number of the sheet"),
    ("SHEETS", "how many sheets the set has"),
    ("LANGUAGE", "code of the language"),
    ("TITLE", "title of the sheet"),
    ("SUBJECT", "what the set is about, project.title"),
    ("TYPE", "document type"),
    ("CREATOR", "who made it, project.creator"),
    ("DATE", "date of issue, project.date"),
    ("PROJECT", "project or plant, project.site"),
    ("SCALE", "main scale"),
    ("PROJECTION", "the projection sign is drawn here, 12 mm wide"),
    ("SIZE", "size of the sheet"),
    ("UNIT", "unit of the dimensions"),
    ("TOLERANCES", "general tolerances"),
    ("MATERIAL", "material of what is shown"),
    ("FINISH", "surface finish"),
    ("MASS", "mass of what is shown"),
    ("HASH", "first characters of the spec's hash"),
    ("PROGRAM", "program and version"),
];

/// Without these a sheet cannot be told from another or read (ISO 7200 and 5456-2).
const NEEDED: [&str; 6] = ["NUMBER", "TITLE", "SHEET", "SCALE", "UNIT", "PROJECTION"];

/// Tallest block that is taken, mm: half the height of an upright A4.
const TALLEST: f64 = 150.0;

/// A block with its lower left corner at the origin.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnBlock {
    /// Width, mm.
    pub width: f64,
    /// Height, mm.
    pub height: f64,
    marks: Vec<Mark>,
    fields: BTreeSet<String>,
}

impl OwnBlock {
    /// Takes a block as drawn anywhere on paper: `low` and `high` are the corners of its lines, mm.
    ///
    /// # Errors
    /// A block that is too large, that uses a name there is no value for, or that lacks a name every sheet needs.
    pub fn new(marks: Vec<Mark>, fields: BTreeSet<String>, low: PaperPoint, high: PaperPoint) -> Result<Self, String> {
        let (width, height) = (high.x - low.x, high.y - low.y);
        if width > TITLE_BLOCK_WIDTH + 0.01 || height > TALLEST || width < 1.0 || height < 1.0 {
            return Err(format!(
                "its lines are {width:.1} mm wide and {height:.1} mm high; a title block is at most {:.0} mm wide (ISO 5457) and {TALLEST:.0} mm high, drawn 1:1",
                TITLE_BLOCK_WIDTH
            ));
        }
        if let Some(unknown) = fields.iter().find(|f| !FIELDS.iter().any(|k| k.0 == f.as_str())) {
            let known: Vec<&str> = FIELDS.iter().map(|k| k.0).collect();
            return Err(format!("there is no value for {{{unknown}}}; write one of {}, or leave the field empty", known.join(", ")));
        }
        let lacking: Vec<String> = NEEDED.iter().filter(|n| !fields.contains(**n)).map(|n| format!("{{{n}}}")).collect();
        if !lacking.is_empty() {
            return Err(format!("it lacks a text with {}; every sheet needs these", lacking.join(", ")));
        }
        Ok(Self { width, height, marks: marks.into_iter().map(|m| moved(m, -low.x, -low.y)).collect(), fields })
    }

    /// The block with its lower left corner at `(x, y)`; a value too long for its field is written smaller, down to 1.8 mm.
    pub fn draw(&self, x: f64, y: f64, values: &BTreeMap<&'static str, String>, projection: Projection) -> Vec<Mark> {
        let mut out = Vec::new();
        for mark in &self.marks {
            match mark {
                Mark::Text(t) if t.content.contains("{PROJECTION}") => projection_sign::cone(x + t.at.x + 5.5, y + t.at.y + 2.0, projection, &mut out),
                Mark::Text(t) => {
                    let content = self
                        .fields
                        .iter()
                        .fold(t.content.clone(), |text, field| text.replace(&format!("{{{field}}}"), values.get(field.as_str()).map_or("", String::as_str)));
                    if content.trim().is_empty() {
                        continue;
                    }
                    let height = self.fitting(t, &content);
                    out.push(moved(Mark::Text(Text { content, height, ..t.clone() }), x, y));
                }
                other => out.push(moved(other.clone(), x, y)),
            }
        }
        out
    }

    /// Height at which a filled text ends before the next upright line at its right.
    fn fitting(&self, text: &Text, content: &str) -> f64 {
        let mut end = self.width;
        for mark in &self.marks {
            let Mark::Path(path) = mark else { continue };
            if matches!(path.shape, Shape::Line { .. } | Shape::Polyline { .. }) {
                segments(&path.shape, &mut |a, b| {
                    let upright = (a.x - b.x).abs() < 1e-6 && a.y.min(b.y) <= text.at.y && a.y.max(b.y) >= text.at.y;
                    if upright && a.x > text.at.x {
                        end = end.min(a.x);
                    }
                });
            }
        }
        let room = end - text.at.x - 0.8;
        let wide = width(content, text.height, text.face);
        let fits = text.align != Align::Left || text.angle != 0.0 || wide <= room;
        if fits { text.height } else { (text.height * room / wide).max(1.8_f64.min(text.height)) }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::paper::pencil;
    use crate::paper::style::Pen;

    fn block(texts: &[(&str, f64, f64)]) -> Result<OwnBlock, String> {
        let mut marks =
            vec![pencil::rectangle(Pen::Frame, 50.0, 20.0, 170.0, 60.0), pencil::line(Pen::Table, PaperPoint::new(90.0, 20.0), PaperPoint::new(90.0, 60.0))];
        marks.extend(texts.iter().map(|(t, x, y)| pencil::text(Pen::Lettering, *t, PaperPoint::new(*x, *y), 3.5, Align::Left)));
        let fields = texts.iter().flat_map(|(t, ..)| t.split('{').skip(1).filter_map(|s| s.split_once('}').map(|f| f.0.to_string()))).collect();
        OwnBlock::new(marks, fields, PaperPoint::new(50.0, 20.0), PaperPoint::new(170.0, 60.0))
    }

    const ALL: [(&str, f64, f64); 5] = [
        ("No. {NUMBER}", 52.0, 22.0),
        ("{TITLE}", 92.0, 22.0),
        ("{SHEET} of {SHEETS}", 52.0, 30.0),
        ("{SCALE} {UNIT}", 92.0, 30.0),
        ("{PROJECTION}", 120.0, 40.0),
    ];

    #[test]
    fn fields_are_filled_and_long_values_shrink() {
        let own = block(&ALL).unwrap();
        assert_eq!((own.width, own.height), (120.0, 40.0));
        let long = "A-1 of a longer name";
        let values = BTreeMap::from([
            ("NUMBER", long.to_string()),
            ("TITLE", "PIT".into()),
            ("SHEET", "2".into()),
            ("SHEETS", "9".into()),
            ("SCALE", "1:5".into()),
            ("UNIT", "mm".into()),
        ]);
        let marks = own.draw(600.0, 10.0, &values, Projection::First);
        let texts: Vec<&Text> = marks.iter().filter_map(|m| if let Mark::Text(t) = m { Some(t) } else { None }).collect();
        assert_eq!(texts.iter().map(|t| t.content.as_str()).collect::<Vec<_>>(), [&format!("No. {long}"), "PIT", "2 of 9", "1:5 mm"]);
        assert_eq!(texts[0].at, PaperPoint::new(602.0, 12.0));
        assert!(texts[0].height < 3.5 && 602.0 + width(&texts[0].content, texts[0].height, texts[0].face) < 640.0, "ends before the line at 640");
        assert_eq!(texts[1].height, 3.5);
        // Two circles of the projection sign.
        assert_eq!(marks.iter().filter(|m| matches!(m, Mark::Path(p) if matches!(p.shape, Shape::Circle { .. }))).count(), 2);
    }

    #[test]
    fn what_is_wrong_is_said() {
        assert!(block(&ALL[1..]).unwrap_err().contains("{NUMBER}"));
        assert!(block(&[("{APPROVED}", 52.0, 40.0)]).unwrap_err().contains("no value for {APPROVED}"));
        let far = OwnBlock::new(Vec::new(), BTreeSet::new(), PaperPoint::new(0.0, 0.0), PaperPoint::new(420.0, 297.0));
        assert!(far.unwrap_err().contains("at most 180 mm"));
    }
}
