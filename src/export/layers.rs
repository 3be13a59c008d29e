//! Layer names and colours of the pens, ours or a drawing office's own.
//!
//! In: nothing, or a TOML table that maps pens (by our short layer names) to layers. Out: a row for
//! every pen. Pens that the table leaves out keep our name. Two pens may share a layer only when they
//! draw alike, because line type and width belong to the layer. Nothing is said about plot styles.

use crate::paper::style::Pen;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::fmt;

/// Names in the manner of ISO 13567-2, as a table that anybody can copy and change.
pub const ISO_13567: &str = include_str!("../../templates/layers.iso13567.toml");

/// Colour 7: black on white, white on black.
const NEUTRAL: u8 = 7;

/// Where a pen draws in a CAD file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Name of the layer.
    pub layer: String,
    /// DXF colour number (group 62 of the layer table), 1 to 255; 7 is black on white.
    pub colour: u8,
}

/// Layer of every pen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LayerMap {
    rows: BTreeMap<Pen, Row>,
}

/// Why a layer table was not taken; one sentence with what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LayerMapError(pub String);

impl fmt::Display for LayerMapError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for LayerMapError {}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    pens: BTreeMap<String, WrittenRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenRow {
    layer: String,
    #[serde(default)]
    colour: Option<u8>,
}

impl LayerMap {
    /// Our own short names, all in colour 7.
    pub fn own() -> Self {
        let rows = Pen::ALL.into_iter().map(|pen| (pen, Row { layer: pen.layer().into(), colour: NEUTRAL })).collect();
        Self { rows }
    }

    /// The built-in names after ISO 13567-2.
    ///
    /// # Errors
    /// Never with the table as shipped (a test reads it); the type says so because it is data.
    pub fn iso_13567() -> Result<Self, LayerMapError> {
        Self::parse(ISO_13567)
    }

    /// Reads a layer table:
    /// ```
    /// use footwell::export::layers::LayerMap;
    /// use footwell::paper::style::Pen;
    /// let map = LayerMap::parse("[pens]\nHIDDEN = { layer = 'OFFICE_HIDDEN', colour = 3 }\n").unwrap();
    /// assert_eq!(map.row(Pen::Hidden).layer, "OFFICE_HIDDEN");
    /// assert_eq!(map.row(Pen::Edge).layer, "EDGE");
    /// ```
    ///
    /// # Errors
    /// A table that is not TOML, an unknown pen, a name that CAD files do not take, a colour of 0,
    /// or two pens of different line type, width or colour on one layer.
    pub fn parse(text: &str) -> Result<Self, LayerMapError> {
        let written: Written = toml::from_str(text).map_err(|e| LayerMapError(format!("the layer table cannot be read: {e}")))?;
        let mut map = Self::own();
        for (name, row) in written.pens {
            let pen = Pen::ALL.into_iter().find(|p| p.layer() == name).ok_or_else(|| LayerMapError(unknown_pen(&name)))?;
            let layer = row.layer.trim();
            let colour = row.colour.unwrap_or(NEUTRAL);
            check_name(&name, layer)?;
            if colour == 0 {
                return Err(LayerMapError(format!("{name}: colour 0 means \"by block\"; a layer takes 1 to 255")));
            }
            map.rows.insert(pen, Row { layer: layer.into(), colour });
        }
        map.check_shared()?;
        Ok(map)
    }

    /// The row of a pen.
    pub fn row(&self, pen: Pen) -> Row {
        self.rows.get(&pen).cloned().unwrap_or_else(|| Row { layer: pen.layer().into(), colour: NEUTRAL })
    }

    fn check_shared(&self) -> Result<(), LayerMapError> {
        use crate::paper::style::LineGroup::{G05, G07};
        let mut first: BTreeMap<String, Pen> = BTreeMap::new();
        for pen in Pen::ALL {
            let row = self.row(pen);
            let other = *first.entry(row.layer.to_uppercase()).or_insert(pen);
            let same = other.line_type() == pen.line_type()
                && other.width(G05) == pen.width(G05)
                && other.width(G07) == pen.width(G07)
                && self.row(other).colour == row.colour;
            if !same {
                return Err(LayerMapError(format!(
                    "{} and {} share the layer {:?} but differ in line type, width or colour; give them two layers",
                    other.layer(),
                    pen.layer(),
                    row.layer
                )));
            }
        }
        Ok(())
    }
}

fn unknown_pen(name: &str) -> String {
    let near = Pen::ALL.into_iter().map(|p| (strsim::jaro_winkler(&name.to_uppercase(), p.layer()), p.layer()));
    let hint = near.filter(|(s, _)| *s > 0.75).max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, n)| format!("; did you mean {n}?"));
    let all: Vec<&str> = Pen::ALL.into_iter().map(Pen::layer).collect();
    format!("there is no pen {name:?}{} (pens: {})", hint.unwrap_or_default(), all.join(", "))
}

/// Names that every CAD file version takes: no `<>/\":;?*|=,` and backquote, not the reserved layer 0.
fn check_name(pen: &str, layer: &str) -> Result<(), LayerMapError> {
    let bad = layer.chars().find(|c| "<>/\\\":;?*|=,`".contains(*c) || c.is_control());
    match bad {
        Some(c) => Err(LayerMapError(format!("{pen}: a layer name cannot hold {c:?}"))),
        None if layer.is_empty() || layer.chars().count() > 255 => Err(LayerMapError(format!("{pen}: a layer name has 1 to 255 characters"))),
        None if layer == "0" || layer.eq_ignore_ascii_case("defpoints") => {
            Err(LayerMapError(format!("{pen}: the layer {layer:?} is reserved, nothing may be drawn on it")))
        }
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_iso_table_names_every_pen() {
        let map = LayerMap::iso_13567().unwrap();
        for pen in Pen::ALL {
            let name = map.row(pen).layer;
            // Mandatory part of ISO 13567-2: agent 2, element 6, presentation 2 characters (from memory).
            assert_eq!(name.len(), 10, "{name}");
            assert_ne!(name, pen.layer());
        }
    }

    #[test]
    fn wrong_tables_are_refused_with_what_is_wrong() {
        for (text, part) in [
            ("[pens]\nHIDEN = { layer = 'x' }", "did you mean HIDDEN"),
            ("[pens]\nHIDDEN = { layer = 'a/b' }", "cannot hold '/'"),
            ("[pens]\nHIDDEN = { layer = '0' }", "reserved"),
            ("[pens]\nHIDDEN = { layer = '' }", "1 to 255"),
            ("[pens]\nHIDDEN = { layer = 'x', colour = 0 }", "by block"),
            ("[pens]\nHIDDEN = { layer = 'edge' }", "share the layer"),
            ("[pens]\nHIDDEN = { layer = 'x', color = 1 }", "color"),
            ("[pens", "cannot be read"),
        ] {
            let error = LayerMap::parse(text).unwrap_err().to_string();
            assert!(error.contains(part), "{text}: {error}");
        }
    }

    #[test]
    fn pens_that_draw_alike_may_share_a_layer() {
        let map = LayerMap::parse("[pens]\nDIMENSION = { layer = 'ANNO' }\nLEADER = { layer = 'ANNO' }").unwrap();
        assert_eq!(map.row(Pen::Leader).layer, map.row(Pen::Dimension).layer);
    }
}
