//! Tables on a sheet: parts lists, hole tables, load tables, revision rows.
//!
//! A [`Table`] is words; the layout measures them, wraps what is too long and draws the lines.

use super::mark::Align;
use crate::say::Statement;

/// One column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Heading.
    pub heading: Statement,
    /// How cells are aligned.
    pub align: Align,
    /// Widest text before it is wrapped, paper mm.
    pub max_width: f64,
}

/// A table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Stable id, e.g. `parts`.
    pub id: String,
    /// Title over the table.
    pub title: Statement,
    /// The columns.
    pub columns: Vec<Column>,
    /// Rows of cells; short rows are filled with empty cells.
    pub rows: Vec<Vec<String>>,
    /// Where it would like to stand.
    pub stand: Stand,
    /// Id of the view that it belongs to, on sheets in rows.
    pub beside: Option<String>,
}

/// Where a table or note block would like to stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stand {
    /// In the column over the title block (parts lists, notes).
    OverTitleBlock,
    /// Wherever there is room.
    Anywhere,
}

impl Table {
    /// An empty table.
    pub fn new(id: impl Into<String>, title: impl Into<Statement>) -> Self {
        Self { id: id.into(), title: title.into(), columns: Vec::new(), rows: Vec::new(), stand: Stand::Anywhere, beside: None }
    }

    /// Adds a column.
    pub fn column(mut self, heading: impl Into<Statement>, align: Align, max_width: f64) -> Self {
        self.columns.push(Column { heading: heading.into(), align, max_width });
        self
    }

    /// Adds a row.
    pub fn row<S: Into<String>>(&mut self, cells: impl IntoIterator<Item = S>) {
        self.rows.push(cells.into_iter().map(Into::into).collect());
    }

    /// Stands with a view, on sheets in rows.
    pub fn beside(mut self, view: impl Into<String>) -> Self {
        self.beside = Some(view.into());
        self
    }

    /// Stands in the column over the title block.
    #[cfg(test)]
    pub(super) fn over_title_block(mut self) -> Self {
        self.stand = Stand::OverTitleBlock;
        self
    }
}
