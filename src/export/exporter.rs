//! What a file format is: pages in, named files out, and why it may refuse.

use super::dxf::writer::CadVersion;
use super::layers::LayerMap;
use crate::paper::mark::Mark;
use crate::paper::sheet::Sheet;
use crate::paper::style::LineGroup;
use crate::say::LengthUnit;
use crate::units::MM_PER_INCH;
use std::fmt;

/// The unit in which a sheet's numbers are read; decides the drawing unit of CAD files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SheetUnit {
    /// 1 drawing unit is 1 mm.
    Millimetre,
    /// 1 drawing unit is 1 inch.
    Inch,
}

impl SheetUnit {
    /// Millimetres in one drawing unit.
    pub const fn mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Inch => MM_PER_INCH,
        }
    }
}

/// One finished sheet as every exporter takes it.
#[derive(Debug, Clone, Copy)]
pub struct Page<'a> {
    /// File name without its extension: letters, digits, `.`, `_`, `-`.
    pub stem: &'a str,
    /// Title of the sheet, one line.
    pub title: &'a str,
    /// What the sheet shows, a sentence or two.
    pub description: &'a str,
    /// Width of the trimmed sheet, paper mm.
    pub width_mm: f64,
    /// Height of the trimmed sheet, paper mm.
    pub height_mm: f64,
    /// Real mm for one paper mm in the main scale S of the sheet (10 for 1:10).
    pub real_per_paper: f64,
    /// Unit of the numbers on the sheet.
    pub unit: SheetUnit,
    /// The two line widths of the sheet.
    pub line_group: LineGroup,
    /// What is drawn, paper mm from the lower left corner of the sheet.
    pub marks: &'a [Mark],
}

impl Page<'_> {
    /// Drawing units of a CAD file for one paper mm: geometry in the main scale comes out at real size.
    pub fn units_per_mm(&self) -> f64 {
        self.real_per_paper / self.unit.mm()
    }
}

impl<'a> From<&'a Sheet> for Page<'a> {
    fn from(sheet: &'a Sheet) -> Self {
        Self {
            stem: &sheet.id,
            title: &sheet.title,
            description: &sheet.description,
            width_mm: sheet.width_mm,
            height_mm: sheet.height_mm,
            real_per_paper: sheet.scale,
            unit: match sheet.unit {
                LengthUnit::Mm => SheetUnit::Millimetre,
                LengthUnit::InchDecimal | LengthUnit::InchFraction => SheetUnit::Inch,
            },
            line_group: sheet.lines,
            marks: &sheet.marks,
        }
    }
}

/// What the caller may choose; the same for all formats, each takes what concerns it.
#[derive(Debug, Clone)]
pub struct Options {
    /// File version of DXF and DWG.
    pub version: CadVersion,
    /// Layer name and colour of each pen.
    pub layers: LayerMap,
    /// Title of the whole set (PDF document title).
    pub set_title: String,
    /// File name of the whole set without its extension (one PDF for all sheets).
    pub set_stem: String,
}

impl Default for Options {
    fn default() -> Self {
        Self { version: CadVersion::R2010, layers: LayerMap::own(), set_title: "Drawings".into(), set_stem: "drawings".into() }
    }
}

/// A finished file; the caller decides where it goes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct File {
    /// Name with extension, no folder.
    pub name: String,
    /// Content.
    pub bytes: Vec<u8>,
}

/// One file format.
pub trait Exporter: Sync + std::fmt::Debug {
    /// Word by which the format is asked for, e.g. `dxf`.
    fn id(&self) -> &'static str;
    /// File name extension without the dot.
    fn extension(&self) -> &'static str;
    /// What it is and for whom, one sentence.
    fn about(&self) -> &'static str;
    /// The files of these pages, in page order.
    ///
    /// # Errors
    /// A page that cannot be drawn truthfully (see [`preflight`](super::preflight)) or that the format cannot hold; nothing is written then.
    fn export(&self, pages: &[Page], options: &Options) -> Result<Vec<File>, ExportError>;
}

/// Why a set of sheets was not written. Each names the sheet; a defect of the program, or of a user's layer table.
#[derive(Debug, Clone, PartialEq)]
pub enum ExportError {
    /// A number that is not finite or beyond any sheet.
    Number {
        /// Stem of the sheet.
        sheet: String,
        /// What carries the number.
        what: String,
        /// The number.
        value: f64,
    },
    /// A mark or page that cannot be drawn.
    Refused {
        /// Stem of the sheet.
        sheet: String,
        /// What is wrong, with what would be right.
        why: String,
    },
    /// A dimension whose anchors, view scale and value disagree.
    Untrue {
        /// Stem of the sheet.
        sheet: String,
        /// Key of the dimension.
        key: String,
        /// What the anchors measure (mm or degrees).
        measured: f64,
        /// What it claims (mm or degrees).
        value: f64,
    },
    /// The library that writes the format refused.
    Format {
        /// Id of the format.
        format: &'static str,
        /// Stem of the sheet.
        sheet: String,
        /// Its message.
        why: String,
    },
    /// Read back, the file does not hold what was written.
    ReadBack {
        /// Stem of the sheet.
        sheet: String,
        /// Kind of entity.
        kind: String,
        /// How many were written.
        written: usize,
        /// How many a reader found.
        read: usize,
    },
}

impl fmt::Display for ExportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number { sheet, what, value } => write!(f, "sheet {sheet}: {what} is {value}, which no sheet can hold"),
            Self::Refused { sheet, why } => write!(f, "sheet {sheet}: {why}"),
            Self::Untrue { sheet, key, measured, value } => {
                write!(f, "sheet {sheet}: dimension {key} says {value} but its anchors measure {measured}")
            }
            Self::Format { format, sheet, why } => write!(f, "sheet {sheet}: cannot be written as {format}: {why}"),
            Self::ReadBack { sheet, kind, written, read } => {
                write!(f, "sheet {sheet}: {written} × {kind} were written but {read} are read back")
            }
        }
    }
}

impl std::error::Error for ExportError {}
