//! From plans to finished sheets: collect, solve, commit.
//!
//! For each plan: the smallest allowed sheet and the largest standard scale at which all of it fits. What
//! does not fit goes onto a continuation sheet. Everything is deterministic. The ink check runs last and its
//! findings travel with the sheet; a finding is a bug of this program.

pub mod block;
pub mod canvas;
pub mod changes;
pub mod compose;
pub mod dimension_text;
pub mod free_text;
pub mod inner;
pub mod label;
pub mod labels;
pub mod levels;
pub mod line_up;
pub mod oblique;
pub mod pack;
pub mod picture;
pub mod rows;
pub mod scale;
pub mod slab;
pub mod spread;
pub mod strip;
pub mod strip_ink;
pub mod trim;

#[cfg(test)]
mod properties;

use self::compose::{Composed, Task, compose, has_main};
use super::drafting::{Lettering, SheetStyle, Unit};
use super::frame::{self, Format};
use super::ink::{self, DefectKind, defect};
use super::mark::PaperPoint;
use super::number;
use super::sheet::{Placement, SetData, Sheet, SheetPlan};
use super::table::Stand;
use super::title_block::{self, SheetFields};
use super::words::Words;

/// Kilograms in a pound, for masses on inch sheets.
const KG_PER_POUND: f64 = crate::units::KG_PER_POUND;

/// Lays out a set of sheets; sheets are numbered in order, continuation sheets follow their sheet.
pub fn lay_out(plans: &[SheetPlan], set: &SetData, style: &SheetStyle) -> Vec<Sheet> {
    let words = Words::of(&style.language);
    let title_height = title_block::height(&set.title_block, &set.stamp, &words);
    let mut composed: Vec<(SheetPlan, Composed, usize)> = Vec::new();
    for plan in plans {
        let mut rest = Some(plan.clone());
        let mut page = 1;
        while let Some(now) = rest.take() {
            let ((on_it, done), next) = place(now, style, &words, title_height);
            composed.push((on_it, done, page));
            page += 1;
            rest = next.map(|mut n| {
                n.id = format!("{}-{page}", plan.id);
                n
            });
        }
    }
    let pages = composed.len();
    composed.into_iter().enumerate().map(|(i, (plan, c, part))| finish(plan, part, c, (i + 1, pages), set, style, &words)).collect()
}

/// Places a plan; what did not fit comes back as a plan of its own.
fn place(plan: SheetPlan, style: &SheetStyle, words: &Words, title_height: f64) -> ((SheetPlan, Composed), Option<SheetPlan>) {
    let whole = plan.clone();
    let mut now = plan;
    let mut later: Option<SheetPlan> = None;
    let mut crowded: Option<(SheetPlan, Composed, Option<SheetPlan>)> = None;
    loop {
        if let Some(c) = search(&now, style, words, title_height, false) {
            if c.crossed == 0 {
                return fill_up(now, c, later, style, words, title_height);
            }
            // Too crowded: less on the sheet means a larger scale. The least crowded one is kept.
            if crowded.as_ref().is_none_or(|(_, known, _)| c.crossed < known.crossed) {
                crowded = Some((now.clone(), c, later.clone()));
            }
        }
        if let Some(moved) = take_one(&mut now, words) {
            put_back(&now, moved, &mut later);
            continue;
        }
        if let Some((plan, c, later)) = crowded {
            return ((plan, c), later);
        }
        // Nothing left to move away: coarser scales, and at last whatever overlaps is reported.
        for (plan, later) in [(&whole, None), (&now, later.clone())] {
            if let Some(c) = search(plan, style, words, title_height, true) {
                return ((plan.clone(), c), later);
            }
        }
        let format = style.size.unwrap_or_else(|| largest(style));
        let task = Task { plan: &now, style, words, title_height, growth: 1.0 };
        let coarse = scale::standard(style.standard, style.unit).last().copied().unwrap_or(1.0);
        let main = if has_main(&now) { coarse } else { 1.0 };
        let lettering = Lettering::for_format(&format);
        let mut c = compose(&task, &format, main, true).unwrap_or(Composed {
            format,
            lettering,
            scale: main,
            marks: Vec::new(),
            views: Vec::new(),
            dimensions: Vec::new(),
            crossed: 0,
            defects: Vec::new(),
        });
        c.defects.push(defect(DefectKind::NotPlaced, format!("sheet {} fits at no scale on {}", now.id, format.name), PaperPoint::default()));
        return ((now, c), later);
    }
}

/// A sheet of tables takes as many rows of the next tables as it holds.
fn fill_up(
    mut now: SheetPlan,
    mut c: Composed,
    later: Option<SheetPlan>,
    style: &SheetStyle,
    words: &Words,
    title_height: f64,
) -> ((SheetPlan, Composed), Option<SheetPlan>) {
    let Some(mut rest) = later else { return ((now, c), None) };
    while now.views.is_empty()
        && let Some(table) = rest.tables.first().filter(|t| t.rows.len() >= 2)
    {
        let eighths = (1..=8).rev().find_map(|k| {
            let cut = (table.rows.len() * k / 8).max(1);
            let mut more = now.clone();
            let mut head = table.clone();
            head.rows.truncate(cut);
            // Rows of the table that the sheet already ends with go on in it.
            match more.tables.last_mut().filter(|t| t.id == head.id) {
                Some(t) => t.rows.extend(head.rows),
                None => more.tables.push(head),
            }
            search(&more, style, words, title_height, false).map(|d| (cut, more, d))
        });
        let Some((cut, more, d)) = eighths else { break };
        (now, c) = (more, d);
        if let Some(t) = rest.tables.first_mut() {
            t.rows.drain(..cut);
            t.title = continued(&t.title, words);
            if t.rows.is_empty() {
                rest.tables.remove(0);
            }
        }
    }
    let empty = rest.views.is_empty() && rest.tables.is_empty() && rest.notes.is_empty();
    ((now, c), (!empty).then_some(rest))
}

/// The title of a table that goes on from another sheet.
fn continued(title: &str, words: &Words) -> String {
    let mark = format!("({})", words.say("continued"));
    if title.is_empty() || title.ends_with(&mark) { title.into() } else { format!("{} {mark}", words.say(title)) }
}

fn largest(style: &SheetStyle) -> Format {
    let family = Format::family(style.standard);
    family[family.len() - 1]
}

/// The smallest sheet and the largest scale at which the plan fits.
fn search(plan: &SheetPlan, style: &SheetStyle, words: &Words, title_height: f64, any_scale: bool) -> Option<Composed> {
    let formats: Vec<Format> = match style.size {
        Some(f) => vec![f],
        // The smallest sheet of each family is for single parts only; sets start one size up.
        None => Format::family(style.standard).iter().skip(1).take(handy(plan)).copied().collect(),
    };
    let task = Task { plan, style, words, title_height, growth: 1.0 };
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
const GROWTH: [f64; 4] = [2.2, 1.8, 1.5, 1.25];

/// How much smaller than asked they may come out on a forced format that holds nothing else.
const SMALLER: [f64; 4] = [0.7, 0.5, 0.35, 0.2];

/// The same sheet with its details and pictures as large as they fit.
fn grown(task: &Task, fitting: Composed, format: &Format, main: f64) -> Composed {
    if !compose::can_grow(task.plan) {
        return fitting;
    }
    let larger = |growth: f64| compose(&Task { growth, ..*task }, format, main, false).filter(|c| c.crossed == 0);
    GROWTH.iter().find_map(|g| larger(*g)).unwrap_or(fitting)
}

/// How many sizes are tried. Sheets of words alone and rows of plates keep to handy ones and go on on a further sheet.
fn handy(plan: &SheetPlan) -> usize {
    match (plan.views.is_empty(), plan.in_rows) {
        (true, _) => 2,
        (false, true) => 3,
        (false, false) => plan.sizes,
    }
}

/// Something that was taken off a sheet.
enum Taken {
    Unit(Vec<super::sheet::PlacedDraft>, Vec<super::table::Table>),
    View(super::sheet::PlacedDraft),
    Table(super::table::Table),
    Notes(super::notes::Notes),
}

/// Takes the part off that is missed least; halves a table that stands alone. `None` if nothing can go.
fn take_one(plan: &mut SheetPlan, words: &Words) -> Option<Taken> {
    if plan.views.is_empty()
        && plan.tables.len() == 1
        && let Some(table) = plan.tables.first_mut().filter(|t| t.rows.len() > 1)
    {
        let mut rest = table.clone();
        rest.rows = table.rows.split_off(table.rows.len() * 3 / 4);
        rest.title = continued(&table.title, words);
        return Some(Taken::Table(rest));
    }
    if plan.views.len() + plan.tables.len() + plan.notes.len() <= 1 {
        return None;
    }
    if plan.in_rows && plan.views.len() > 1 {
        // A view goes with those that follow it, unless nothing else stands on the sheet.
        let leader = plan.views.iter().rposition(|v| !v.follows).filter(|i| *i > 0).unwrap_or(plan.views.len() - 1);
        let views = plan.views.split_off(leader);
        let ours = |t: &super::table::Table| views.iter().any(|v| t.beside.as_ref() == Some(&v.draft.id));
        let (own, others) = std::mem::take(&mut plan.tables).into_iter().partition(ours);
        plan.tables = others;
        return Some(Taken::Unit(views, own));
    }
    if let Some(i) = plan.tables.iter().rposition(|t| t.stand == Stand::Anywhere) {
        return Some(Taken::Table(plan.tables.remove(i)));
    }
    if let Some(i) = plan.views.iter().rposition(|v| v.placement == Placement::Free) {
        return Some(Taken::View(plan.views.remove(i)));
    }
    if !plan.tables.is_empty() {
        return plan.tables.pop().map(Taken::Table);
    }
    if !plan.notes.is_empty() {
        return plan.notes.pop().map(Taken::Notes);
    }
    // Views in projection go last; on their own sheet they say where they are seen from.
    let i = plan.views.iter().rposition(|v| v.placement != Placement::Main)?;
    let mut view = plan.views.remove(i);
    if view.draft.title.is_empty() {
        view.draft.title = match view.placement {
            Placement::FromLeft => "VIEW FROM THE LEFT",
            Placement::FromRight => "VIEW FROM THE RIGHT",
            Placement::FromAbove => "VIEW FROM ABOVE",
            Placement::FromBelow => "VIEW FROM BELOW",
            Placement::Main | Placement::Free => "",
        }
        .into();
    }
    view.placement = Placement::Free;
    Some(Taken::View(view))
}

/// Puts a part in front of the continuation sheet.
fn put_back(plan: &SheetPlan, part: Taken, later: &mut Option<SheetPlan>) {
    let next = later.get_or_insert_with(|| SheetPlan { views: Vec::new(), tables: Vec::new(), notes: Vec::new(), ..plan.clone() });
    match part {
        Taken::View(v) => next.views.insert(0, v),
        Taken::Unit(views, mut own) => {
            next.views.splice(0..0, views);
            own.append(&mut next.tables);
            next.tables = own;
        }
        // Rows cut off one after the other come together again.
        Taken::Table(mut t) => match next.tables.first_mut().filter(|known| known.id == t.id) {
            Some(known) => {
                t.rows.append(&mut known.rows);
                known.rows = t.rows;
            }
            None => next.tables.insert(0, t),
        },
        Taken::Notes(n) => next.notes.insert(0, n),
    }
}

/// Frame, title block, index, ink check.
fn finish(plan: SheetPlan, part: usize, c: Composed, page: (usize, usize), set: &SetData, style: &SheetStyle, words: &Words) -> Sheet {
    let space = c.format.space();
    let main = has_main(&plan);
    let scale_text = if main { scale::written(c.scale, style.standard, style.unit) } else { "–".into() };
    // A title names one sheet, in the bookmarks too.
    let title = if part > 1 { format!("{} ({part})", words.say(&plan.title)) } else { words.say(&plan.title) };
    let mass = plan.mass_kg.map_or(String::new(), |kg| match style.unit {
        Unit::Mm => format!("{} kg", number::decimal(kg, usize::from(kg < 100.0), style)),
        _ => format!("{} lb", number::decimal(kg / KG_PER_POUND, 0, style)),
    });
    let fields = SheetFields {
        title: title.clone(),
        document_type: words.say(&plan.document_type),
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
    marks.push(title_block::draw(space.x1 - title_block::WIDTH, space.y0, &set.title_block, &fields, &set.stamp, style, words, &c.lettering));
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
