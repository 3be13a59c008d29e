//! A thin hand on the CAD library: layers, line types, styles, blocks and entities in, bytes out.
//!
//! The library checks nothing, so this module does: every layer, style and block must exist, every
//! number must be finite and is rounded, names are unique. Coordinates are drawing units. Sheets and
//! cutting files both write through it; nothing above it sees the library's types. Same calls, same
//! bytes. It does not know paper, pens or scales.

mod entity;

pub use entity::{Anchor, BlockId, DimensionEntity, Measured, Place, TextLine, Xy};

use acadrust::tables::{BlockRecord, DimStyle, Layer, LineType, LineTypeElement, TableEntry, TextStyle};
use acadrust::types::{Color, DxfVersion, LineWeight, Vector2, Vector3};
use acadrust::{CadDocument, DwgWriter, DxfWriter};
use std::collections::BTreeSet;
use std::fmt;

/// Versions of the CAD file formats that are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CadVersion {
    /// AC1009; cutting files only: it has no dimension variables, no hatch, no line widths.
    R12,
    /// AC1015.
    R2000,
    /// AC1024.
    R2010,
    /// AC1027.
    R2013,
    /// AC1032.
    R2018,
}

impl CadVersion {
    /// Versions offered for sheets.
    pub const SHEETS: [CadVersion; 4] = [Self::R2000, Self::R2010, Self::R2013, Self::R2018];

    /// Name as people say it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::R12 => "R12",
            Self::R2000 => "R2000",
            Self::R2010 => "R2010",
            Self::R2013 => "R2013",
            Self::R2018 => "R2018",
        }
    }

    const fn library(self) -> DxfVersion {
        match self {
            Self::R12 => DxfVersion::AC1009,
            Self::R2000 => DxfVersion::AC1015,
            Self::R2010 => DxfVersion::AC1024,
            Self::R2013 => DxfVersion::AC1027,
            Self::R2018 => DxfVersion::AC1032,
        }
    }
}

/// In which form the drawing is saved: readers differ in how they take texts of one byte a character.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// DXF: readers know the code page that the file names.
    Text,
    /// DWG: readers take the bytes for Latin-1; what the code page puts elsewhere goes as a code.
    Binary,
}

/// Drawing unit of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DrawingUnit {
    /// `$INSUNITS` 4, `$MEASUREMENT` 1; numbers kept to 1e-6 mm.
    Millimetre,
    /// `$INSUNITS` 1, `$MEASUREMENT` 0; numbers kept to 1e-8 in.
    Inch,
}

/// Why the file cannot be written: a defect of the caller, or the library's own message.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WriteError(pub String);

impl fmt::Display for WriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for WriteError {}

type Written = Result<(), WriteError>;

/// Sizes of dimensions in paper mm; the scale of the style brings them to drawing units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DimensionSizes {
    /// Drawing units for one paper mm.
    pub scale: f64,
    /// Text height.
    pub text: f64,
    /// Arrow length.
    pub arrow: f64,
    /// Gap between feature and extension line.
    pub offset: f64,
    /// How far extension lines go beyond the dimension line.
    pub overshoot: f64,
    /// Gap between dimension line and text.
    pub gap: f64,
    /// Distance between dimension lines.
    pub step: f64,
    /// Decimals, trailing zeros dropped.
    pub decimals: i16,
}

/// A CAD drawing being written.
pub struct Drawing {
    document: CadDocument,
    version: CadVersion,
    form: Form,
    decimals: f64,
    /// Distance of the lines of the pattern ANSI31, drawing units.
    ansi31: f64,
    blocks: BTreeSet<String>,
}

impl Drawing {
    /// An empty drawing. `extent` is its upper right corner (lower left is the origin), drawing units.
    ///
    /// # Errors
    /// An extent that is not finite.
    pub fn new(version: CadVersion, unit: DrawingUnit, extent: Xy) -> Result<Self, WriteError> {
        let mut document = CadDocument::with_version(version.library());
        // The library's default classes belong to objects that are never written here.
        document.classes.clear();
        let mut drawing = Self {
            document,
            version,
            form: Form::Text,
            decimals: match unit {
                DrawingUnit::Millimetre => 1e6,
                DrawingUnit::Inch => 1e8,
            },
            ansi31: match unit {
                DrawingUnit::Millimetre => 3.175,
                DrawingUnit::Inch => 0.125,
            },
            blocks: BTreeSet::new(),
        };
        let corner = drawing.point(extent)?;
        let header = &mut drawing.document.header;
        (header.insertion_units, header.measurement) = match unit {
            DrawingUnit::Millimetre => (4, 1),
            DrawingUnit::Inch => (1, 0),
        };
        header.lineweight_display = true;
        // Dashes run on around the corners of a polyline.
        header.polyline_linetype_generation = true;
        header.model_space_extents_min = Vector3::ZERO;
        header.model_space_extents_max = corner;
        header.model_space_limits_min = Vector2::new(0.0, 0.0);
        header.model_space_limits_max = Vector2::new(corner.x, corner.y);
        if let Some(view) = drawing.document.vports.get_mut("*Active") {
            view.view_center = Vector2::new(corner.x / 2.0, corner.y / 2.0);
            view.view_height = (corner.y * 1.05).max(1.0);
            view.aspect_ratio = if corner.y > 0.0 { corner.x / corner.y } else { 1.0 };
        }
        Ok(drawing)
    }

    /// Title and subject in the file's properties (R2004 and later).
    pub fn properties(&mut self, title: &str, subject: &str) {
        self.document.summary_info.title = title.into();
        self.document.summary_info.subject = subject.into();
    }

    /// Scale of all dash patterns.
    ///
    /// # Errors
    /// A scale that is not finite.
    pub fn line_type_scale(&mut self, scale: f64) -> Written {
        self.document.header.linetype_scale = self.number(scale)?;
        Ok(())
    }

    /// A line type: dashes positive, gaps negative; lengths times the line type scale are drawing units.
    ///
    /// # Errors
    /// A name that exists, a length that is not finite.
    pub fn line_type(&mut self, name: &str, about: &str, pattern: &[f64]) -> Written {
        if self.document.line_types.contains(name) {
            return Ok(());
        }
        let mut line_type = LineType::new(name);
        line_type.description = about.into();
        for length in pattern {
            let length = self.number(*length)?;
            line_type.add_element(if length < 0.0 { LineTypeElement::space(length) } else { LineTypeElement::dash(length) });
            line_type.pattern_length += length.abs();
        }
        line_type.pattern_length = self.number(line_type.pattern_length)?;
        self.document.line_types.add(line_type).map_err(library)
    }

    /// A layer: DXF colour number (group 62), line type by name, line width in paper mm (one of the standard widths).
    ///
    /// # Errors
    /// A line type that does not exist or a width that CAD files do not know.
    pub fn layer(&mut self, name: &str, about: &str, colour: u8, line_type: &str, width: f64) -> Written {
        if self.document.layers.contains(name) {
            return Ok(());
        }
        if !self.document.line_types.contains(line_type) {
            return Err(WriteError(format!("layer {name}: there is no line type {line_type}")));
        }
        let weight = LineWeight::from_value((width * 100.0).round() as i16);
        if LineWeight::from_dwg_index(weight.to_dwg_index()) != weight {
            return Err(WriteError(format!("layer {name}: CAD files know no line width of {width} mm")));
        }
        let mut layer = Layer::new(name);
        layer.color = Color::from_index(i16::from(colour));
        layer.line_type = line_type.into();
        layer.line_weight = weight;
        layer.description = about.into();
        self.document.layers.add(layer).map_err(library)
    }

    /// Sets the form that texts added from now on are meant for; DXF unless set.
    pub fn save_as(&mut self, form: Form) {
        self.form = form;
    }

    /// A text style of a TrueType font.
    ///
    /// # Errors
    /// The library's message.
    pub fn text_style(&mut self, name: &str, file: &str, family: &str, bold: bool) -> Written {
        let mut style = TextStyle::new(name);
        style.font_file = file.into();
        style.true_type_font = family.into();
        // Bit 25 is bold; the low byte says pitch and family (swiss, variable), as CAD programs write it.
        style.true_type_font_flags = if bold { (1 << 25) | 34 } else { 34 };
        self.document.text_styles.add(style).map_err(library)?;
        self.document.assign_table_entry_handles();
        Ok(())
    }

    /// A dimension style whose measurements are multiplied by `factor` (the enlargement of a detail undone).
    ///
    /// # Errors
    /// A text style that does not exist, a number that is not finite.
    pub fn dimension_style(&mut self, name: &str, text_style: &str, sizes: DimensionSizes, factor: f64) -> Written {
        let Some(text_handle) = self.document.text_styles.get(text_style).map(TableEntry::handle) else {
            return Err(WriteError(format!("dimension style {name}: there is no text style {text_style}")));
        };
        if self.document.dim_styles.contains(name) {
            return Ok(());
        }
        let mut s = DimStyle::new(name);
        s.dimscale = self.number(sizes.scale)?;
        s.dimtxt = self.number(sizes.text)?;
        s.dimasz = self.number(sizes.arrow)?;
        s.dimexo = self.number(sizes.offset)?;
        s.dimexe = self.number(sizes.overshoot)?;
        s.dimgap = self.number(sizes.gap)?;
        s.dimdli = self.number(sizes.step)?;
        s.dimlfac = ratio(factor)?;
        s.dimdec = sizes.decimals;
        s.dimtdec = sizes.decimals;
        s.dimadec = 1;
        s.dimazin = 2;
        s.dimcen = 0.0;
        s.dimsah = false;
        s.dimtofl = true;
        s.dimtmove = 2;
        s.dimtxsty = text_style.into();
        s.dimtxsty_handle = text_handle;
        self.document.dim_styles.add(s).map_err(library)?;
        self.document.assign_table_entry_handles();
        Ok(())
    }

    /// Makes a dimension style the current one and repeats it in the header, from which some readers draw.
    ///
    /// # Errors
    /// A style that does not exist.
    pub fn current_dimension_style(&mut self, name: &str) -> Written {
        let Some(s) = self.document.dim_styles.get(name).cloned() else {
            return Err(WriteError(format!("there is no dimension style {name}")));
        };
        let h = &mut self.document.header;
        h.current_dimstyle_name = s.name.clone();
        h.current_dimstyle_handle = s.handle;
        h.dim_scale = s.dimscale;
        h.dim_text_height = s.dimtxt;
        h.dim_arrow_size = s.dimasz;
        h.dim_ext_line_offset = s.dimexo;
        h.dim_ext_line_extension = s.dimexe;
        h.dim_line_gap = s.dimgap;
        h.dim_line_increment = s.dimdli;
        h.dim_linear_scale = s.dimlfac;
        h.dim_decimal_places = s.dimdec;
        h.dim_tolerance_decimal_places = s.dimtdec;
        h.dim_angular_decimal_places = s.dimadec;
        h.dim_zero_suppression = s.dimzin;
        h.dim_tolerance_zero_suppression = s.dimtzin;
        h.dim_center_mark = s.dimcen;
        h.dim_text_above = s.dimtad;
        h.dim_text_inside_horizontal = s.dimtih;
        h.dim_text_outside_horizontal = s.dimtoh;
        h.dim_force_line_inside = s.dimtofl;
        h.dim_text_movement = s.dimtmove;
        h.dim_text_style_name = s.dimtxsty.clone();
        h.dim_text_style_handle = s.dimtxsty_handle;
        h.current_text_style_name = s.dimtxsty;
        h.current_text_style_handle = s.dimtxsty_handle;
        h.text_height = h.dim_text_height * h.dim_scale;
        Ok(())
    }

    /// A new block with its base point at the origin.
    ///
    /// # Errors
    /// A name that exists.
    pub fn block(&mut self, name: &str) -> Result<BlockId, WriteError> {
        if !self.blocks.insert(name.to_uppercase()) {
            return Err(WriteError(format!("block {name} exists already")));
        }
        let mut record = BlockRecord::new(name);
        record.handle = self.document.allocate_handle();
        record.block_entity_handle = self.document.allocate_handle();
        record.block_end_handle = self.document.allocate_handle();
        record.flags.anonymous = name.starts_with('*');
        record.units = self.document.header.insertion_units;
        let id = BlockId::of(&record);
        self.document.block_records.add(record).map_err(library)?;
        Ok(id)
    }

    /// The drawing as ASCII DXF.
    ///
    /// # Errors
    /// The library's message.
    pub fn to_dxf(&self) -> Result<Vec<u8>, WriteError> {
        DxfWriter::new(&self.document).with_version(self.version.library()).write_to_vec().map_err(library)
    }

    /// The drawing as DWG.
    ///
    /// # Errors
    /// The library's message.
    pub fn to_dwg(&self) -> Result<Vec<u8>, WriteError> {
        DwgWriter::write_to_vec(&self.document).map_err(library)
    }

    fn point(&self, (x, y): Xy) -> Result<Vector3, WriteError> {
        Ok(Vector3::new(self.number(x)?, self.number(y)?, 0.0))
    }

    /// Rounded to what the file keeps, without a negative zero.
    fn number(&self, value: f64) -> Result<f64, WriteError> {
        if value.is_finite() { Ok((value * self.decimals).round() / self.decimals + 0.0) } else { Err(WriteError(format!("{value} is not a coordinate"))) }
    }
}

/// Radians, rounded to 1e-9 of a degree (the file holds degrees: 90, not 90.0000000000001), without a negative zero.
fn angle(value: f64) -> Result<f64, WriteError> {
    if value.is_finite() { Ok(((value.to_degrees() * 1e9).round() / 1e9).to_radians() + 0.0) } else { Err(WriteError(format!("{value} is not an angle"))) }
}

/// Numbers without a unit (bulges, factors): finite, to 1e-12, without a negative zero.
fn ratio(value: f64) -> Result<f64, WriteError> {
    if value.is_finite() { Ok((value * 1e12).round() / 1e12 + 0.0) } else { Err(WriteError(format!("{value} is not a ratio"))) }
}

fn library(error: impl fmt::Display) -> WriteError {
    WriteError(error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plate(version: CadVersion) -> Drawing {
        let mut d = Drawing::new(version, DrawingUnit::Millimetre, (100.0, 50.0)).unwrap();
        d.layer("CUT", "", 7, "Continuous", 0.25).unwrap();
        d.polyline(Place::Model, "CUT", &[((0.0, 0.0), 0.0), ((100.0, 0.0), 0.0), ((100.0, 50.0), 1.0), ((0.0, 50.0), 0.0)], true).unwrap();
        d.circle(Place::Model, "CUT", (20.0, 20.0), 7.0).unwrap();
        d.line(Place::Model, "CUT", (1.0, -0.0), (59.999_999_999_999_99, 2.0)).unwrap();
        d.arc(Place::Model, "CUT", (20.0, 20.0), 9.0, -1.0, 1.0).unwrap();
        d
    }

    #[test]
    fn every_version_is_the_one_asked_for() {
        for (version, code) in [
            (CadVersion::R12, "AC1009"),
            (CadVersion::R2000, "AC1015"),
            (CadVersion::R2010, "AC1024"),
            (CadVersion::R2013, "AC1027"),
            (CadVersion::R2018, "AC1032"),
        ] {
            let text = String::from_utf8(plate(version).to_dxf().unwrap()).unwrap();
            let lines: Vec<&str> = text.lines().map(str::trim).collect();
            let at = lines.iter().position(|l| *l == "$ACADVER").unwrap();
            assert_eq!(lines[at + 2], code, "{}", version.name());
            // R12 knows no light-weight polyline.
            assert_eq!(lines.contains(&"LWPOLYLINE"), version != CadVersion::R12);
            assert_eq!(lines.contains(&"POLYLINE"), version == CadVersion::R12);
            let entities = lines.iter().skip_while(|l| **l != "ENTITIES");
            assert!(lines.contains(&"60.0") && entities.clone().all(|l| *l != "-0.0"), "{}: numbers are not rounded", version.name());
        }
    }

    #[test]
    fn names_that_do_not_exist_are_refused() {
        let mut d = plate(CadVersion::R2010);
        assert!(d.line(Place::Model, "HOLES", (0.0, 0.0), (1.0, 0.0)).is_err());
        assert!(d.line(Place::Model, "0", (0.0, 0.0), (1.0, 0.0)).is_err());
        assert!(d.line(Place::Model, "CUT", (0.0, 0.0), (f64::NAN, 0.0)).is_err());
        assert!(d.layer("X", "", 7, "DOTTED", 0.25).is_err());
        assert!(d.layer("X", "", 7, "Continuous", 0.27).is_err());
        assert!(d.current_dimension_style("X").is_err());
        d.block("*D1").unwrap();
        assert!(d.block("*d1").is_err());
    }
}
