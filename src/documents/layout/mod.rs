//! From plans to finished sheets: collect, solve, commit.

use super::drafting::SheetStyle;
use super::sheet::{SetData, Sheet, SheetPlan};

/// Lays out a set of sheets. Work in progress: returns no sheet yet.
pub fn lay_out(plans: &[SheetPlan], set: &SetData, style: &SheetStyle) -> Vec<Sheet> {
    let _ = (plans, set, style);
    Vec::new()
}
