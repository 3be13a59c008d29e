//! One sheet at one size and one scale: views finished, arranged in projection, packed, balanced.

use super::arrangement::{Arrangement, Drawn, Room, Written};
use super::block::{self};
use super::picture::real_bounds;
use super::scale;
use super::surroundings::Surroundings;
use super::text_block;
use crate::paper::drafting::{Lettering, SheetStyle};
use crate::paper::frame;
use crate::paper::ink::{self, Defect};
use crate::paper::mark::{Group, Mark, PaperPoint};
use crate::paper::sheet::{DimensionEntry, PlacedDraft, PlacedView, Placement, SheetPlan};
use crate::paper::stroke::{Rect, moved};
use crate::paper::title_block;
use crate::paper::view::{Draft, ViewScale};
use crate::say::Voice;
use crate::tables::sheets::Format;

/// Distance of views, tables and notes from the frame, mm.
const INSET: f64 = 5.0;

/// A sheet with everything placed, before frame and title block are drawn.
#[derive(Debug, Clone)]
pub struct Composed {
    /// Sheet size.
    pub format: Format,
    /// Lettering of the size.
    pub lettering: Lettering,
    /// Main scale.
    pub scale: f64,
    /// Groups of marks.
    pub marks: Vec<Mark>,
    /// Views.
    pub views: Vec<PlacedView>,
    /// Dimensions.
    pub dimensions: Vec<DimensionEntry>,
    /// Texts inside views that something runs into: too much was asked for at this scale.
    pub crossed: usize,
    /// Paper that views, tables and notes take, mm².
    pub filled: f64,
    /// Blocks that overlap or leave the space.
    pub defects: Vec<Defect>,
}

impl Composed {
    /// A sheet with nothing on it.
    pub fn empty(format: Format, lettering: Lettering, scale: f64) -> Self {
        Self { format, lettering, scale, marks: Vec::new(), views: Vec::new(), dimensions: Vec::new(), crossed: 0, filled: 0.0, defects: Vec::new() }
    }
}

/// What does not change from try to try.
pub struct Task<'a> {
    /// The sheet.
    pub plan: &'a SheetPlan,
    /// Style of the set.
    pub style: &'a SheetStyle,
    /// Prints statements.
    pub voice: &'a Voice,
    /// Height of the title block, mm.
    pub title_height: f64,
    /// How much larger than asked details and pictures may come out.
    pub growth: f64,
    /// Height of the rows of tables, of what they otherwise have.
    pub rows: f64,
}

/// Lettering of a sheet; words alone are set as on A3, whatever the size, so that they fill fewer sheets.
pub fn lettering_of(plan: &SheetPlan, format: &Format) -> Lettering {
    let own = Lettering::for_format(format);
    if plan.views.is_empty() { Lettering { text: own.text.min(2.5), ..own } } else { own }
}

/// Whether the sheet has a view at the main scale.
pub fn has_main(plan: &SheetPlan) -> bool {
    plan.views.iter().any(|v| v.draft.scale == ViewScale::Main)
}

/// Whether details or pictures could be drawn larger.
pub fn can_grow(plan: &SheetPlan) -> bool {
    plan.views.iter().any(|v| matches!(v.draft.scale, ViewScale::Within { .. } | ViewScale::Picture { .. }))
}

/// The scale of a view when the sheet's main scale is `main`.
fn view_scale(draft: &Draft, main: f64, growth: f64, style: &SheetStyle) -> f64 {
    match draft.scale {
        ViewScale::Main => main,
        ViewScale::Ratio(r) => r.max(1e-6),
        ViewScale::Within { width, height } => {
            let r = real_bounds(draft);
            let need = (r.width() / width.max(1.0)).max(r.height() / height.max(1.0)) / growth;
            scale::standard(style.standard, style.unit).into_iter().find(|s| *s >= need).unwrap_or(need)
        }
        ViewScale::Picture { width, height } => {
            let r = real_bounds(draft);
            ((r.width() / width.max(1.0)).max(r.height() / height.max(1.0)) / growth).max(1e-6)
        }
    }
}

/// Places everything at this size and scale, or `None` if it does not fit. With `force`, everything is put
/// down even if it overlaps, and the overlaps are defects.
pub fn compose(task: &Task, format: &Format, main: f64, force: bool) -> Option<Composed> {
    let space = frame::space(format);
    let title = Rect::new(space.x1 - title_block::WIDTH, space.y0, space.x1, space.y0 + task.title_height);
    let room = Room { plan: task.plan, projection: task.style.projection, area: space.grown(-INSET), title, force };
    if !force && !may_fit(task, main, &room.area) {
        return None;
    }
    let lettering = lettering_of(task.plan, format);
    let scale_text = |s: f64| scale::written(s, task.style.standard, task.style.unit);
    let env = Surroundings { style: task.style, lettering, voice: task.voice, room: room.area.width(), rows: task.rows, scale_text: &scale_text };
    let draw = |finished: bool| -> Vec<Drawn> {
        let views = task.plan.views.iter().map(|PlacedDraft { draft, placement, .. }| {
            let s = view_scale(draft, main, task.growth, task.style);
            let show = draft.scale != ViewScale::Main && (s - main).abs() > 1e-9 || !has_main(task.plan);
            (*placement, if finished { block::finish(draft, s, show, &env) } else { block::sketch(draft, s, show, &env) })
        });
        views.collect()
    };
    let texts = texts(task.plan, &env);
    // A sketch that does not fit spares finishing the views.
    if !force {
        room.arrange(&draw(false), &texts)?;
    }
    let blocks = draw(true);
    let places = room.arrange(&blocks, &texts)?;
    Some(put_down(Composed::empty(*format, lettering, main), blocks, texts, places, &room))
}

/// Tables and notes of a sheet with the shapes in which they may stand.
fn texts(plan: &SheetPlan, env: &Surroundings) -> Vec<Written> {
    let tables = plan.tables.iter().enumerate().map(|(i, t)| {
        // Rows of a table may stand in several places of a sheet.
        let before = plan.tables.iter().take(i).filter(|o| o.id == t.id).count();
        let part = if before == 0 { String::new() } else { format!(".{}", before + 1) };
        Written { id: format!("table.{}{part}", t.id), stand: t.stand, shapes: text_block::table(t, env) }
    });
    tables.chain(plan.notes.iter().map(|n| Written { id: format!("notes.{}", n.id), stand: n.stand, shapes: text_block::notes(n, env) })).collect()
}

/// A quick look at outlines alone, before any view is finished.
fn may_fit(task: &Task, main: f64, area: &Rect) -> bool {
    let (mut wide, mut tall, mut sum) = (0.0_f64, 0.0_f64, 0.0_f64);
    for v in &task.plan.views {
        let s = view_scale(&v.draft, main, task.growth, task.style);
        let r = real_bounds(&v.draft);
        let (w, h) = (r.width() / s, r.height() / s);
        sum += w * h;
        match v.placement {
            Placement::Main => {
                wide += w;
                tall += h;
            }
            Placement::FromLeft | Placement::FromRight => wide += w,
            Placement::FromAbove | Placement::FromBelow => tall += h,
            Placement::Free if w > area.width() || h > area.height() => return false,
            Placement::Free => {}
        }
    }
    wide <= area.width() && tall <= area.height() && sum <= area.width() * area.height()
}

/// Moves everything to its place on the empty sheet.
fn put_down(mut out: Composed, blocks: Vec<Drawn>, texts: Vec<Written>, places: Arrangement, room: &Room) -> Composed {
    let mut areas: Vec<(String, Rect)> = vec![("title block".into(), room.title)];
    for (rect, (_, block)) in places.views.into_iter().zip(blocks) {
        let (dx, dy) = (rect.x0 - block.rect.x0, rect.y0 - block.rect.y0);
        let r = block.rect.moved(dx, dy);
        areas.push((format!("view {}", block.id), r));
        out.views.push(PlacedView {
            id: block.id.clone(),
            title: block.title,
            real_per_paper: block.scale,
            origin: PaperPoint::new(dx, dy),
            low: PaperPoint::new(r.x0, r.y0),
            high: PaperPoint::new(r.x1, r.y1),
        });
        out.dimensions.extend(block.entries);
        out.crossed += block.crossed;
        let marks = block.marks.into_iter().map(|m| moved(m, dx, dy)).collect();
        out.marks.push(Mark::Group(Group { id: format!("view.{}", block.id), marks }));
    }
    for (Written { id, mut shapes, .. }, (shape, at)) in texts.into_iter().zip(places.texts) {
        if shape >= shapes.len() {
            continue;
        }
        let s = shapes.swap_remove(shape);
        areas.push((id.clone(), Rect::new(at.x, at.y, at.x + s.width, at.y + s.height)));
        let marks = s.marks.into_iter().map(|m| moved(m, at.x, at.y)).collect();
        out.marks.push(Mark::Group(Group { id, marks }));
    }
    out.filled = areas.iter().skip(1).map(|(_, r)| r.width() * r.height()).sum();
    out.defects = ink::check_blocks(&areas, &frame::space(&out.format));
    out
}
