//! From plans to finished sheets: collect, solve, commit.

pub mod block;
pub mod canvas;
pub mod dimension_text;
pub mod free_text;
pub mod label;
pub mod labels;
pub mod levels;
pub mod line_up;
pub mod oblique;
pub mod picture;
pub mod scale;
pub mod strip;
pub mod strip_ink;

use super::drafting::SheetStyle;
use super::sheet::{SetData, Sheet, SheetPlan};

/// Lays out a set of sheets. Work in progress: returns no sheet yet.
pub fn lay_out(plans: &[SheetPlan], set: &SetData, style: &SheetStyle) -> Vec<Sheet> {
    let _ = (plans, set, style);
    Vec::new()
}
