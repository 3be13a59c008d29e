//! What all views of a sheet share while they are laid out.

use crate::paper::drafting::{Lettering, SheetStyle};
use crate::say::Voice;

/// What all views of a sheet share.
pub struct Surroundings<'a> {
    /// Style of the set.
    pub style: &'a SheetStyle,
    /// Lettering of the sheet size.
    pub lettering: Lettering,
    /// Prints statements.
    pub voice: &'a Voice,
    /// Width of the drawing space, mm.
    pub room: f64,
    /// Height of the rows of tables, of what they otherwise have.
    pub rows: f64,
    /// How a scale is written.
    pub scale_text: &'a dyn Fn(f64) -> String,
}
