//! A sheet before and after layout.
//!
//! A [`SheetPlan`] says which views, tables and notes belong together; [`Sheet`] is finished ink in
//! paper mm with everything an exporter needs. [`super::layout::lay_out`] turns one into the other.

use super::drafting::Projection;
use super::ink::Defect;
use super::layout::changes::Change;
use super::mark::{Mark, PaperPoint, PlanePoint};
use super::notes::Notes;
use super::style::LineGroup;
use super::table::Table;
pub use super::title_block::Stamp;
use super::title_block::TitleBlock;
use super::view::Draft;
use crate::say::LengthUnit;
use crate::say::Statement;
use crate::tables::sheets::Format;

/// Where a view stands among the others of its sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Placement {
    /// The main view that the others are projected from.
    Main,
    /// Seen from the left of the main view; same height axis.
    FromLeft,
    /// Seen from the right of the main view; same height axis.
    FromRight,
    /// Seen from above; same horizontal axis as the main view.
    FromAbove,
    /// Seen from below; same horizontal axis as the main view.
    FromBelow,
    /// Stands wherever there is room: details, sections out of projection, pictures.
    Free,
}

/// A view with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedDraft {
    /// The view.
    pub draft: Draft,
    /// Its place.
    pub placement: Placement,
    /// Stays on the sheet of the view before it: a section with the view that shows its cutting plane.
    pub follows: bool,
}

/// What stands on one sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetPlan {
    /// Stable id and file stem, e.g. `ga`, `pit`.
    pub id: String,
    /// Title, English, at most 25 characters (ISO 7200).
    pub title: Statement,
    /// Document type, English, e.g. `General arrangement`.
    pub document_type: Statement,
    /// One sentence on what the sheet shows.
    pub description: String,
    /// The views.
    pub views: Vec<PlacedDraft>,
    /// The tables.
    pub tables: Vec<Table>,
    /// Notes and cautions.
    pub notes: Vec<Notes>,
    /// Material, when one holds for the whole sheet.
    pub material: String,
    /// Mass of what is shown, kg; `None` for many parts, each with its own in the list, and where no part is shown.
    pub mass_kg: Option<f64>,
    /// Surface finish.
    pub finish: String,
    /// General tolerance, e.g. `ISO 2768-m, ISO 13920-B`.
    pub tolerance: String,
    /// Coarsest main scale (real mm per paper mm) before a larger sheet is taken, when the size is free.
    pub coarsest_scale: f64,
    /// Views stand in rows in the order of the plan, tables beside their views; nothing stands in projection.
    pub in_rows: bool,
    /// How many sizes, from the second smallest of the family on, may be taken before a part moves to a further sheet.
    pub sizes: usize,
}

impl SheetPlan {
    /// An empty sheet.
    pub fn new(id: impl Into<String>, title: impl Into<Statement>, document_type: impl Into<Statement>) -> Self {
        Self {
            id: id.into(),
            title: title.into(),
            document_type: document_type.into(),
            description: String::new(),
            views: Vec::new(),
            tables: Vec::new(),
            notes: Vec::new(),
            material: String::new(),
            mass_kg: None,
            finish: String::new(),
            tolerance: String::new(),
            coarsest_scale: 15.0,
            in_rows: false,
            sizes: 4,
        }
    }

    /// Adds a view.
    pub fn view(&mut self, placement: Placement, draft: Draft) {
        self.views.push(PlacedDraft { draft, placement, follows: false });
    }

    /// Adds a view that stays on the sheet of the one before it.
    pub fn view_with_last(&mut self, draft: Draft) {
        self.views.push(PlacedDraft { draft, placement: Placement::Free, follows: true });
    }

    /// Adds a table.
    pub fn table(&mut self, table: Table) {
        self.tables.push(table);
    }

    /// Adds a block of notes.
    pub fn note(&mut self, notes: Notes) {
        self.notes.push(notes);
    }
}

/// What all sheets of a set share.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SetData {
    /// Fields of the title block.
    pub title_block: TitleBlock,
    /// Outcome of the rules.
    pub stamp: Stamp,
    /// What the newest revision changed.
    pub changes: Vec<Change>,
}

/// A view on a finished sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedView {
    /// Id of the draft.
    pub id: String,
    /// Its title as drawn.
    pub title: String,
    /// Real mm per paper mm.
    pub real_per_paper: f64,
    /// Paper point of the plane's origin.
    pub origin: PaperPoint,
    /// Lower left corner of everything that belongs to the view, paper mm.
    pub low: PaperPoint,
    /// Upper right corner, paper mm.
    pub high: PaperPoint,
}

impl PlacedView {
    /// From the view's plane to paper.
    pub fn paper(&self, p: PlanePoint) -> PaperPoint {
        PaperPoint::new(self.origin.x + p.x / self.real_per_paper, self.origin.y + p.y / self.real_per_paper)
    }
}

/// Where a dimension's value stands, for tests, lists and the live page.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionEntry {
    /// Key of the measured feature.
    pub key: String,
    /// View it stands in.
    pub view: String,
    /// Model value, mm or degrees.
    pub value: f64,
    /// As drawn.
    pub text: String,
}

/// A finished sheet: all that an exporter needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Stable id and file stem, e.g. `ga`; continuation sheets end in `-2`, `-3`.
    pub id: String,
    /// Title as drawn.
    pub title: String,
    /// One sentence on what it shows.
    pub description: String,
    /// Drawing number as drawn.
    pub number: String,
    /// Sheet n of m.
    pub page: (usize, usize),
    /// Size and borders.
    pub format: Format,
    /// Trimmed width, paper mm.
    pub width_mm: f64,
    /// Trimmed height, paper mm.
    pub height_mm: f64,
    /// Main scale: real mm per paper mm.
    pub scale: f64,
    /// Main scale as written, e.g. `1:10`.
    pub scale_text: String,
    /// Unit of the dimensions.
    pub unit: LengthUnit,
    /// Projection.
    pub projection: Projection,
    /// Line widths.
    pub lines: LineGroup,
    /// Height of dimension text, paper mm.
    pub text_height: f64,
    /// Language of the fixed words.
    pub language: String,
    /// Everything drawn, in paper mm; one [`Mark::Group`] per view, table, note block, frame, title block.
    pub marks: Vec<Mark>,
    /// The views with their transforms.
    pub views: Vec<PlacedView>,
    /// Index of dimensions.
    pub dimensions: Vec<DimensionEntry>,
    /// Conflicts the layout could not avoid: bugs of the program, reported with the sheet.
    pub defects: Vec<Defect>,
}
