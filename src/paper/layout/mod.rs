//! From plans to finished sheets: collect, solve, commit.
//!
//! For each plan: the smallest allowed sheet and the largest standard scale at which all of it fits. What
//! does not fit goes onto a continuation sheet. Everything is deterministic. The ink check runs last and its
//! findings travel with the sheet; a finding is a bug of this program.

pub mod arrangement;
pub mod balance;
pub mod block;
pub mod canvas;
pub mod changes;
pub mod closing;
pub mod compose;
pub mod dimension_strip;
pub mod dimension_strokes;
pub mod dimension_text;
pub mod free_text;
pub mod hatch_windows;
pub mod inner;
pub mod label;
pub mod labels;
pub mod levels;
pub mod line_up;
pub mod north_arrow;
pub mod oblique;
pub mod pack;
pub mod pages;
pub mod picture;
pub mod row_apart;
pub mod rows;
pub mod scale;
pub mod search;
pub mod signs;
pub mod surroundings;
pub mod text_block;
pub mod view_title;

#[cfg(test)]
mod properties;

use self::compose::{Composed, has_main};
use self::search::{Setting, largest};
use super::drafting::SheetStyle;
use super::frame;
use super::ink::{self, DefectKind, defect};
use super::mark::PaperPoint;
use super::sheet::{SetData, Sheet, SheetPlan};
use super::title_block::{self, SheetFields};
use crate::say::LengthUnit;
use crate::say::Voice;
use crate::say::number;

/// Kilograms in a pound, for masses on inch sheets.
const KG_PER_POUND: f64 = crate::units::KG_PER_POUND;

/// Lays out a set of sheets; sheets are numbered in order, continuation sheets follow their sheet.
pub fn lay_out(plans: &[SheetPlan], set: &SetData, style: &SheetStyle) -> Vec<Sheet> {
    let voice = Voice::new(&style.language, style.figures);
    let title_height = title_block::height(&set.title_block, &set.stamp, &voice);
    let setting = Setting { style, voice: &voice, title_height };
    let shared = |plan: &SheetPlan| pages::share(plan, &setting).into_iter().enumerate();
    let composed: Vec<(SheetPlan, Composed, usize)> = plans.iter().flat_map(shared).map(|(i, (plan, c))| (plan, c, i + 1)).collect();
    let pages = composed.len();
    composed.into_iter().enumerate().map(|(i, (plan, c, part))| finish(plan, part, c, (i + 1, pages), set, style, &voice)).collect()
}

/// Frame, title block, index, ink check.
fn finish(plan: SheetPlan, part: usize, c: Composed, page: (usize, usize), set: &SetData, style: &SheetStyle, voice: &Voice) -> Sheet {
    let space = frame::space(&c.format);
    let main = has_main(&plan);
    let scale_text = if main { scale::written(c.scale, style.standard, style.unit) } else { "–".into() };
    // A title names one sheet, in the bookmarks too.
    let title = if part > 1 { format!("{} ({part})", voice.say(&plan.title)) } else { voice.say(&plan.title) };
    let mass = match (plan.mass_kg, style.unit) {
        (Some(kg), LengthUnit::Mm) => format!("{} kg", number::decimal(kg, usize::from(kg < 100.0), style)),
        (Some(kg), _) => format!("{} lb", number::decimal(kg / KG_PER_POUND, 0, style)),
        // Many parts, each with its mass in the list; no mass where no part is shown.
        (None, _) if !plan.material.is_empty() => voice.word("see list").into_owned(),
        (None, _) => "–".into(),
    };
    let fields = SheetFields {
        title: title.clone(),
        document_type: voice.say(&plan.document_type),
        scale_text: scale_text.clone(),
        scale: main.then_some(c.scale),
        size: c.format.name,
        page,
        material: plan.material.clone(),
        mass,
        finish: plan.finish.clone(),
        tolerance: plan.tolerance.clone(),
    };
    let mut marks = vec![frame::draw(&c.format)];
    marks.push(title_block::draw(PaperPoint::new(space.x1 - title_block::WIDTH, space.y0), &set.title_block, &fields, &set.stamp, style, voice, &c.lettering));
    marks.extend(c.marks);
    let mut defects = c.defects;
    let (triangles, left_out) = changes::marks(&marks, &set.changes, &space);
    marks.extend(triangles);
    defects.extend(left_out.iter().map(|key| defect(DefectKind::NotPlaced, format!("no room for the mark of a change at {key}"), PaperPoint::default())));
    defects.extend(ink::check_inside(marks.get(1..).unwrap_or_default(), &space));
    defects.extend(ink::check_texts(&marks));
    if let Some(format) = style.size.filter(|f| *f != largest(style))
        && !defects.is_empty()
    {
        let message =
            format!("sheet {} does not fit on {} without {} conflict(s); give sheet.size a larger format or leave it out", plan.id, format.name, defects.len());
        defects = vec![defect(DefectKind::FormatTooSmall, message, PaperPoint::default())];
    }
    Sheet {
        id: plan.id,
        title,
        description: plan.description,
        number: set.title_block.number.clone(),
        page,
        format: c.format,
        width_mm: c.format.width,
        height_mm: c.format.height,
        scale: c.scale,
        scale_text,
        unit: style.unit,
        projection: style.projection,
        lines: c.lettering.lines,
        text_height: c.lettering.text,
        language: style.language.clone(),
        marks,
        views: c.views,
        dimensions: c.dimensions,
        defects,
    }
}
