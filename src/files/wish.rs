//! What the user wants drawn, and how.

use crate::export::{self, Exporter};
use crate::paper::own_block::OwnBlock;
use crate::sheets::SheetSet;

/// What the user wants drawn, and how.
#[derive(Clone)]
pub struct Wish {
    /// The whole set or a part of it.
    pub set: SheetSet,
    /// Formats of the drawings, each once.
    pub formats: Vec<&'static dyn Exporter>,
    /// How they are written; the title of the set comes from the spec.
    pub options: export::Options,
    /// The user's title block.
    pub own_block: Option<OwnBlock>,
}
