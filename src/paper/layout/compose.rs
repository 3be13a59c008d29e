//! One sheet at one size and one scale: views finished, arranged in projection, packed, balanced.

use super::block::{self, Block, Surroundings};
use super::pack::{GAP, Piece, pack};
use super::picture::real_bounds;
use super::rows;
use super::scale;
use super::slab::{self, Slab};
use super::spread::{Body, spread};
use crate::paper::drafting::{Lettering, Projection, SheetStyle};
use crate::paper::frame;
use crate::paper::ink::{self, Defect};
use crate::paper::mark::{Group, Mark, PaperPoint};
use crate::paper::sheet::{DimensionEntry, PlacedDraft, PlacedView, Placement, SheetPlan};
use crate::paper::stroke::{Rect, moved};
use crate::paper::table::Stand;
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
    let style = task.style;
    let lettering = lettering_of(task.plan, format);
    let space = frame::space(format);
    let area = space.grown(-INSET);
    let title = Rect::new(space.x1 - title_block::WIDTH, space.y0, space.x1, space.y0 + task.title_height);
    if !force && !may_fit(task, main, &area) {
        return None;
    }
    let scale_text = |s: f64| scale::written(s, style.standard, style.unit);
    let env = Surroundings { style, lettering, voice: task.voice, room: area.width(), rows: task.rows, scale_text: &scale_text };

    let draw = |finished: bool| -> Vec<(Placement, Block)> {
        let views = task.plan.views.iter().map(|PlacedDraft { draft, placement, .. }| {
            let s = view_scale(draft, main, task.growth, style);
            let show = draft.scale != ViewScale::Main && (s - main).abs() > 1e-9 || !has_main(task.plan);
            (*placement, if finished { block::finish(draft, s, show, &env) } else { block::sketch(draft, s, show, &env) })
        });
        views.collect()
    };
    let slabs: Vec<(String, Stand, Vec<Slab>)> = task
        .plan
        .tables
        .iter()
        .enumerate()
        .map(|(i, t)| {
            // Rows of a table may stand in several places of a sheet.
            let before = task.plan.tables.iter().take(i).filter(|o| o.id == t.id).count();
            let part = if before == 0 { String::new() } else { format!(".{}", before + 1) };
            (format!("table.{}{part}", t.id), t.stand, slab::table(t, &env))
        })
        .chain(task.plan.notes.iter().map(|n| (format!("notes.{}", n.id), n.stand, slab::notes(n, &env))))
        .collect();
    if task.plan.in_rows {
        return in_rows(task, format, main, lettering, &draw, slabs, &area, &title, force);
    }
    // A sketch that does not fit spares finishing the views.
    if !force {
        packed(&draw(false), &slabs, style, &area, &title)?;
    }
    let blocks = draw(true);
    let (group, free, pieces) = parts(&blocks, &slabs, style);
    let rects: Vec<Rect> = group.iter().map(|(_, r)| *r).collect();
    let packing = match pack(&rects, &pieces, &area, &title) {
        Some(p) => p,
        None if force => super::pack::Packing {
            group: {
                let b = rects.iter().fold(Rect::EMPTY, |r, g| r.union(g));
                if b.is_empty() { (0.0, 0.0) } else { (area.x0 - b.x0, area.y1 - b.y1) }
            },
            spots: pieces.iter().map(|_| super::pack::Spot { shape: 0, x: area.x0, y: area.y0 }).collect(),
        },
        None => return None,
    };

    // Bodies: projected views, free views, then slabs.
    let mut bodies: Vec<Body> = Vec::new();
    for (k, (i, r)) in group.iter().enumerate() {
        let place = blocks.get(*i).map_or(Placement::Main, |b| b.0);
        let (sideways, upright) = match place {
            Placement::FromLeft | Placement::FromRight => (100 + k, 0),
            Placement::FromAbove | Placement::FromBelow => (0, 100 + k),
            _ => (0, 0),
        };
        bodies.push(Body { rect: r.moved(packing.group.0, packing.group.1), sideways: Some(sideways), upright: Some(upright) });
    }
    for (k, i) in free.iter().enumerate() {
        if let (Some(spot), Some((_, b))) = (packing.spots.get(slabs.len() + k), blocks.get(*i)) {
            let rect = Rect::new(spot.x, spot.y, spot.x + b.rect.width(), spot.y + b.rect.height());
            bodies.push(Body { rect, sideways: Some(1000 + k), upright: Some(1000 + k) });
        }
    }
    for (k, (_, stand, shapes)) in slabs.iter().enumerate() {
        if let Some(spot) = packing.spots.get(k)
            && let Some(s) = shapes.get(spot.shape)
        {
            let rect = Rect::new(spot.x, spot.y, spot.x + s.width, spot.y + s.height);
            let moves = if *stand == Stand::OverTitleBlock { None } else { Some(2000 + k) };
            // Lists alone begin at the top of the sheet.
            bodies.push(Body { rect, sideways: moves, upright: moves.filter(|_| !task.plan.views.is_empty()) });
        }
    }
    spread(&mut bodies, &[title], &area);
    Some(commit(task, format, main, lettering, blocks, &group, &free, slabs, &packing.spots, &bodies, &title))
}

/// A sheet whose views stand in rows.
#[expect(clippy::too_many_arguments, reason = "one way of compose, cut off for length")]
fn in_rows(
    task: &Task,
    format: &Format,
    main: f64,
    lettering: Lettering,
    draw: &dyn Fn(bool) -> Vec<(Placement, Block)>,
    slabs: Vec<(String, Stand, Vec<Slab>)>,
    area: &Rect,
    title: &Rect,
    force: bool,
) -> Option<Composed> {
    let views = &task.plan.views;
    let belongs = |k: usize, stand: Stand| match task.plan.tables.get(k).and_then(|t| t.beside.as_ref()) {
        Some(id) => views.iter().position(|v| v.draft.id == *id).map_or(rows::Belongs::Alone, rows::Belongs::View),
        None if stand == Stand::OverTitleBlock => rows::Belongs::Title,
        None => rows::Belongs::Alone,
    };
    let words: Vec<rows::Words> = slabs
        .iter()
        .enumerate()
        .map(|(k, (_, stand, shapes))| rows::Words { shapes: shapes.iter().map(|s| (s.width, s.height)).collect(), belongs: belongs(k, *stand) })
        .collect();
    let placed = |blocks: &[(Placement, Block)]| {
        let sizes: Vec<(f64, f64)> = blocks.iter().map(|(_, b)| (b.rect.width(), b.rect.height())).collect();
        rows::place(&sizes, &words, area, title)
    };
    if !force {
        placed(&draw(false))?;
    }
    let blocks = draw(true);
    let fallback = || {
        // Everything in the upper left corner: the overlaps are reported.
        let corner = |b: &Block| Rect::new(area.x0, area.y1 - b.rect.height(), area.x0 + b.rect.width(), area.y1);
        rows::Placed {
            views: blocks.iter().map(|(_, b)| corner(b)).collect(),
            words: vec![super::pack::Spot { shape: 0, x: area.x0, y: area.y0 }; words.len()],
        }
    };
    let placed = match placed(&blocks) {
        Some(p) => p,
        None if force => fallback(),
        None => return None,
    };
    let fixed = |rect: Rect| Body { rect, sideways: None, upright: None };
    let mut bodies: Vec<Body> = placed.views.iter().copied().map(fixed).collect();
    for ((_, _, shapes), spot) in slabs.iter().zip(&placed.words) {
        let (w, h) = shapes.get(spot.shape).map_or((0.0, 0.0), |s| (s.width, s.height));
        bodies.push(fixed(Rect::new(spot.x, spot.y, spot.x + w, spot.y + h)));
    }
    let free: Vec<usize> = (0..blocks.len()).collect();
    Some(commit(task, format, main, lettering, blocks, &[], &free, slabs, &placed.words, &bodies, title))
}

/// Projected views with their rectangles, indices of the free views, and the pieces to pack: slabs, then free views.
fn parts(blocks: &[(Placement, Block)], slabs: &[(String, Stand, Vec<Slab>)], style: &SheetStyle) -> (Vec<(usize, Rect)>, Vec<usize>, Vec<Piece>) {
    let group = arrange(blocks, style.projection);
    let free: Vec<usize> = blocks.iter().enumerate().filter(|(i, _)| !group.iter().any(|g| g.0 == *i)).map(|(i, _)| i).collect();
    let mut pieces: Vec<Piece> = slabs
        .iter()
        .map(|(_, stand, shapes)| Piece { shapes: shapes.iter().map(|s| (s.width, s.height)).collect(), over_title: *stand == Stand::OverTitleBlock })
        .collect();
    pieces.extend(free.iter().filter_map(|i| blocks.get(*i)).map(|(_, b)| Piece { shapes: vec![(b.rect.width(), b.rect.height())], over_title: false }));
    (group, free, pieces)
}

fn packed(blocks: &[(Placement, Block)], slabs: &[(String, Stand, Vec<Slab>)], style: &SheetStyle, area: &Rect, title: &Rect) -> Option<super::pack::Packing> {
    let (group, _, pieces) = parts(blocks, slabs, style);
    let rects: Vec<Rect> = group.iter().map(|(_, r)| *r).collect();
    pack(&rects, &pieces, area, title)
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

/// Stands the projected views around the main one; rectangles relative to the main view's origin.
fn arrange(blocks: &[(Placement, Block)], projection: Projection) -> Vec<(usize, Rect)> {
    let Some(main) = blocks.iter().position(|b| b.0 == Placement::Main) else { return Vec::new() };
    let Some(core) = blocks.get(main).map(|b| b.1.rect) else { return Vec::new() };
    let mut out = vec![(main, core)];
    let (mut left, mut right, mut low, mut high) = (core.x0, core.x1, core.y0, core.y1);
    let third = projection == Projection::Third;
    for (i, (place, b)) in blocks.iter().enumerate() {
        let r = b.rect;
        let at_left = (*place == Placement::FromLeft) == third;
        let at_top = (*place == Placement::FromAbove) == third;
        match place {
            Placement::FromLeft | Placement::FromRight => {
                let x0 = if at_left { left - GAP - r.width() } else { right + GAP };
                if at_left {
                    left = x0
                } else {
                    right = x0 + r.width()
                }
                out.push((i, r.moved(x0 - r.x0, 0.0)));
            }
            Placement::FromAbove | Placement::FromBelow => {
                let y0 = if at_top { high + GAP } else { low - GAP - r.height() };
                if at_top {
                    high = y0 + r.height()
                } else {
                    low = y0
                }
                out.push((i, r.moved(0.0, y0 - r.y0)));
            }
            // A second main view stands free under the first.
            Placement::Main if i != main => {
                let y0 = low - GAP - r.height();
                low = y0;
                out.push((i, r.moved(0.0, y0 - r.y0)));
            }
            _ => {}
        }
    }
    out
}

#[expect(clippy::too_many_arguments, reason = "one step of compose, cut off for length")]
fn commit(
    task: &Task,
    format: &Format,
    main: f64,
    lettering: Lettering,
    blocks: Vec<(Placement, Block)>,
    group: &[(usize, Rect)],
    free: &[usize],
    slabs: Vec<(String, Stand, Vec<Slab>)>,
    spots: &[super::pack::Spot],
    bodies: &[Body],
    title: &Rect,
) -> Composed {
    let space = frame::space(format);
    let mut out = Composed::empty(*format, lettering, main);
    let mut areas: Vec<(String, Rect)> = vec![("title block".into(), *title)];
    let order: Vec<usize> = group.iter().map(|g| g.0).chain(free.iter().copied()).collect();
    let mut targets: Vec<(usize, Rect)> = order.iter().copied().zip(bodies.iter().map(|b| b.rect)).collect();
    targets.sort_by_key(|t| t.0);
    for ((i, rect), (_, block)) in targets.into_iter().zip(blocks.into_iter().enumerate().filter(|(i, _)| order.contains(i)).map(|(_, b)| b)) {
        let _ = i;
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
    for ((k, (id, _, mut shapes)), body) in slabs.into_iter().enumerate().zip(bodies.iter().skip(order.len())) {
        let shape = spots.get(k).map_or(0, |s| s.shape);
        if shape >= shapes.len() {
            continue;
        }
        let s = shapes.swap_remove(shape);
        areas.push((id.clone(), Rect::new(body.rect.x0, body.rect.y0, body.rect.x0 + s.width, body.rect.y0 + s.height)));
        let marks = s.marks.into_iter().map(|m| moved(m, body.rect.x0, body.rect.y0)).collect();
        out.marks.push(Mark::Group(Group { id, marks }));
    }
    let _ = task;
    out.filled = areas.iter().skip(1).map(|(_, r)| r.width() * r.height()).sum();
    out.defects = ink::check_blocks(&areas, &space);
    out
}
