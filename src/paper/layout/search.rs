//! The smallest sheet and the largest scale for a plan.

use super::compose::{self, Composed, Task, compose, has_main};
use super::scale;
use crate::paper::drafting::SheetStyle;
use crate::paper::sheet::SheetPlan;
use crate::say::Voice;
use crate::tables::sheets::Format;

/// What holds for all sheets of a set.
#[derive(Clone, Copy)]
pub struct Setting<'a> {
    /// Style of the set.
    pub style: &'a SheetStyle,
    /// Prints statements.
    pub voice: &'a Voice,
    /// Height of the title block, mm.
    pub title_height: f64,
}

/// How a plan is shared out over sheets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// Size of details and pictures, of what their sheet asks for.
    pub growth: f64,
    /// Height of the rows of tables, of what they otherwise have.
    pub rows: f64,
    /// How many sizes may be taken beyond the handy ones.
    pub further_sizes: usize,
    /// No sheet is filled beyond this, mm² of views, tables and notes.
    pub limit: f64,
}

impl Way {
    /// As the sheets ask.
    pub const AS_ASKED: Way = Way { growth: 1.0, rows: 1.0, further_sizes: 0, limit: f64::INFINITY };
}

/// The largest sheet of the family.
pub fn largest(style: &SheetStyle) -> Format {
    let family = Format::family(style.standard);
    family[family.len() - 1]
}

/// The smallest sheet and the largest scale at which the plan fits.
pub fn search(plan: &SheetPlan, setting: &Setting, way: &Way, any_scale: bool) -> Option<Composed> {
    let Setting { style, voice, title_height } = *setting;
    let formats: Vec<Format> = match style.size {
        Some(f) => vec![f],
        // The smallest sheet of each family is for single parts only; sets start one size up.
        None => Format::family(style.standard).iter().skip(1).take(handy(plan) + way.further_sizes).copied().collect(),
    };
    let task = Task { plan, style, voice, title_height, growth: way.growth, rows: way.rows };
    let scales = if has_main(plan) { scale::standard(style.standard, style.unit) } else { vec![1.0] };
    let coarsest = plan.coarsest_scale;
    let mut crowded: Option<Composed> = None;
    for format in &formats {
        for s in scales.iter().filter(|s| any_scale || **s <= coarsest * 1.3 || scales.len() == 1) {
            let smaller = || SMALLER.iter().filter(|_| any_scale).find_map(|g| compose(&Task { growth: *g, ..task }, format, *s, false));
            let Some(c) = compose(&task, format, *s, false).or_else(smaller) else { continue };
            if c.crossed == 0 {
                return Some(grown(&task, c, format, *s));
            }
            // A smaller scale would be more crowded still; a larger sheet may not.
            if crowded.as_ref().is_none_or(|known| c.crossed < known.crossed) {
                crowded = Some(c);
            }
            break;
        }
    }
    crowded
}

/// Largest first: how much larger details and pictures may come out where the sheet has room.
const GROWTH: [f64; 7] = [2.2, 1.8, 1.5, 1.25, 1.0, 0.8, 0.7];

/// How much smaller than asked they may come out on a forced format that holds nothing else.
const SMALLER: [f64; 4] = [0.7, 0.5, 0.35, 0.2];

/// The same sheet with its details and pictures as large as they fit.
fn grown(task: &Task, fitting: Composed, format: &Format, main: f64) -> Composed {
    if !compose::can_grow(task.plan) {
        return fitting;
    }
    let larger = |growth: f64| compose(&Task { growth, ..*task }, format, main, false).filter(|c| c.crossed == 0);
    // What it would fill as asked still tells how full it is.
    GROWTH.iter().filter(|g| **g > task.growth).find_map(|g| larger(*g)).map_or(fitting.clone(), |c| Composed { filled: fitting.filled, ..c })
}

/// How many sizes are tried. Sheets of words alone and rows of plates keep to handy ones and go on on a further sheet.
fn handy(plan: &SheetPlan) -> usize {
    match (plan.views.is_empty(), plan.in_rows) {
        (true, _) => 2,
        (false, true) => 3,
        (false, false) => plan.sizes,
    }
}
