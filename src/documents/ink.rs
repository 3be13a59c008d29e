//! The ink check: proves on finished marks that no text is crossed and nothing leaves the frame.

/// A conflict on a finished sheet; a bug of the program, never the user's fault.
#[derive(Debug, Clone, PartialEq)]
pub struct Defect {
    /// Kind of conflict.
    pub kind: DefectKind,
    /// Plain sentence with both parties.
    pub message: String,
    /// Where, paper mm.
    pub x: f64,
    /// Where, paper mm.
    pub y: f64,
}

/// Kind of conflict.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DefectKind {
    /// A text lies on another text.
    TextOnText,
    /// A line or hatch crosses a text.
    LineThroughText,
    /// A mark leaves the drawing space.
    OutsideFrame,
    /// Two views, tables or note blocks overlap.
    Overlap,
    /// Something asked for could not be placed.
    NotPlaced,
}
