//! Shares a plan out over sheets, so that no sheet carries a short rest alone.
//!
//! First as the plan asks, on handy sizes. A last sheet that would be under a third as full as the fullest is not
//! put up with: smaller standard scales of the details, closer rows of lists, then a larger size, are tried for one that needs fewer sheets;
//! where none does and the rest is a single thing, the sheets are filled evenly.

use super::compose::{Composed, Task, compose, has_main};
use super::scale;
use super::search::{Setting, Way, largest, search};
use crate::paper::drafting::Lettering;
use crate::paper::frame;
use crate::paper::ink::{DefectKind, defect};
use crate::paper::mark::PaperPoint;
use crate::paper::notes::Notes;
use crate::paper::sheet::{PlacedDraft, Placement, SheetPlan};
use crate::paper::table::{Stand, Table};
use crate::say::Statement;

/// A sheet under way: what stands on it, and how.
type Page = (SheetPlan, Composed);

/// A last sheet under this share of the fullest is a short rest.
const SHORT: f64 = 0.33;

/// Sizes of details that are tried to save a sheet; smaller ones would leave no room for their figures.
const SMALLER_DETAILS: [f64; 3] = [0.8, 0.7, 0.65];

/// Height of the rows of lists, of what they otherwise have, that is tried to save a sheet; their text stays as large.
const CLOSE_ROWS: f64 = 0.87;

/// How much more paper fewer or fuller sheets may take: a small last sheet may become a large one, not a set twice its size.
const MORE_PAPER: f64 = 1.05;

/// How far above the mean a sheet may be filled when sheets are filled evenly, closest first.
const EVEN: [f64; 3] = [1.08, 1.2, 1.4];

/// The sheets of a plan.
pub fn share(plan: &SheetPlan, setting: &Setting) -> Vec<Page> {
    let asked = pages(plan, setting, &Way::AS_ASKED);
    // Views in projection with their details belong together; only rows and lists can be dealt out anew.
    if !ends_short(&asked) || !(plan.in_rows || plan.views.is_empty()) {
        return asked;
    }
    let smaller = SMALLER_DETAILS.iter().filter(|_| plan.in_rows).map(|g| Way { growth: *g, ..Way::AS_ASKED });
    let lists = [Way { rows: CLOSE_ROWS, ..Way::AS_ASKED }, Way { further_sizes: 1, ..Way::AS_ASKED }];
    let lists = lists.into_iter().filter(|way| plan.views.is_empty() && (way.further_sizes == 0 || setting.style.size.is_none()));
    let fewer = |way: Way| Some(pages(plan, setting, &way)).filter(|p| p.len() < asked.len()).map(|p| (way, p));
    let saving = smaller.chain(lists).filter_map(fewer).find_map(|(way, p)| {
        let even = evened(plan, &p, setting, &way);
        even.into_iter().chain((!ends_short(&p)).then_some(p)).find(|p| paper(p) < paper(&asked) * MORE_PAPER)
    });
    saving.or_else(|| alone(&asked).then(|| evened(plan, &asked, setting, &Way::AS_ASKED)).flatten()).unwrap_or(asked)
}

/// The same number of sheets, filled as evenly as they can be; `None` for one sheet.
fn evened(plan: &SheetPlan, known: &[Page], setting: &Setting, way: &Way) -> Option<Vec<Page>> {
    let mean = known.iter().map(|p| p.1.filled).sum::<f64>() / known.len() as f64;
    let ways = EVEN.iter().filter(|_| known.len() > 1).map(|more| Way { limit: mean * more, ..*way });
    ways.map(|way| pages(plan, setting, &way)).find(|p| p.len() == known.len() && !ends_short(p))
}

/// Whether the last sheet carries one thing, or too little for its own size.
fn alone(pages: &[Page]) -> bool {
    pages.last().is_some_and(|(plan, c)| {
        let space = frame::space(&c.format);
        count(plan) <= 1 || c.filled < space.width() * space.height() * 0.2
    })
}

/// Whether the last sheet carries a short rest.
fn ends_short(pages: &[Page]) -> bool {
    let fullest = pages.iter().map(|p| p.1.filled).fold(0.0, f64::max);
    pages.len() > 1 && pages.last().is_some_and(|p| p.1.filled < SHORT * fullest)
}

/// Paper used, mm².
fn paper(pages: &[Page]) -> f64 {
    pages.iter().map(|p| p.1.format.width * p.1.format.height).sum()
}

fn pages(plan: &SheetPlan, setting: &Setting, way: &Way) -> Vec<Page> {
    let mut out = Vec::new();
    let mut rest = Some(plan.clone());
    while let Some(now) = rest.take() {
        let (page, next) = place(now, setting, way);
        out.push(page);
        rest = next.map(|n| SheetPlan { id: format!("{}-{}", plan.id, out.len() + 1), ..n });
    }
    out
}

/// Places a plan; what did not fit comes back as a plan of its own.
fn place(plan: SheetPlan, setting: &Setting, way: &Way) -> (Page, Option<SheetPlan>) {
    let Setting { style, voice, title_height } = *setting;
    let whole = plan.clone();
    let mut now = plan;
    let mut later: Option<SheetPlan> = None;
    let mut crowded: Option<(SheetPlan, Composed, Option<SheetPlan>)> = None;
    loop {
        if let Some(c) = search(&now, setting, way, false) {
            if c.crossed == 0 && (c.filled <= way.limit || count(&now) <= 1) {
                return fill_up(now, c, later, setting, way);
            }
            // Too crowded: less on the sheet means a larger scale. The least crowded one is kept.
            if c.crossed > 0 && crowded.as_ref().is_none_or(|(_, known, _)| c.crossed < known.crossed) {
                crowded = Some((now.clone(), c, later.clone()));
            }
        }
        if let Some(moved) = take_one(&mut now) {
            put_back(&now, moved, &mut later);
            continue;
        }
        if let Some((plan, c, later)) = crowded {
            return ((plan, c), later);
        }
        // Nothing left to move away: coarser scales, and at last whatever overlaps is reported.
        for (plan, later) in [(&whole, None), (&now, later.clone())] {
            if let Some(c) = search(plan, setting, way, true) {
                return ((plan.clone(), c), later);
            }
        }
        let format = style.size.unwrap_or_else(|| largest(style));
        let task = Task { plan: &now, style, voice, title_height, growth: way.growth, rows: way.rows };
        let coarse = scale::standard(style.standard, style.unit).last().copied().unwrap_or(1.0);
        let main = if has_main(&now) { coarse } else { 1.0 };
        let lettering = Lettering::for_format(&format);
        let mut c = compose(&task, &format, main, true).unwrap_or_else(|| Composed::empty(format, lettering, main));
        c.defects.push(defect(DefectKind::NotPlaced, format!("sheet {} fits at no scale on {}", now.id, format.name), PaperPoint::default()));
        return ((now, c), later);
    }
}

/// Views, tables and note blocks of a plan.
fn count(plan: &SheetPlan) -> usize {
    plan.views.len() + plan.tables.len() + plan.notes.len()
}

/// Fewest rows of a table that are worth a heading of their own.
const FEW_ROWS: usize = 4;

/// A sheet of tables takes as many rows of the next tables as it holds: in the table that it ends with, or in the
/// corners beside it under a heading of their own.
fn fill_up(mut now: SheetPlan, mut c: Composed, later: Option<SheetPlan>, setting: &Setting, way: &Way) -> (Page, Option<SheetPlan>) {
    let Some(mut rest) = later else { return ((now, c), None) };
    while now.views.is_empty()
        && let Some((i, cut, more, d)) = (0..rest.tables.len()).find_map(|i| taken_up(&now, i, &rest, setting, way))
    {
        (now, c) = (more, d);
        if let Some(t) = rest.tables.get_mut(i) {
            t.rows.drain(..cut);
            t.title = continued(&t.title);
            if t.rows.is_empty() {
                rest.tables.remove(i);
            }
        }
    }
    ((now, c), (count(&rest) > 0).then_some(rest))
}

/// The sheet with as many rows of a table of the rest as it holds: which table, how many rows, plan, sheet.
fn taken_up(now: &SheetPlan, i: usize, rest: &SheetPlan, setting: &Setting, way: &Way) -> Option<(usize, usize, SheetPlan, Composed)> {
    let table = rest.tables.get(i)?;
    let rows = table.rows.len();
    let with = |cut: usize, own_heading: bool| {
        let mut more = now.clone();
        let mut head = table.clone();
        head.rows.truncate(cut);
        // Rows of a table that stands on the sheet already go on in it.
        match more.tables.iter_mut().rev().find(|t| t.id == head.id).filter(|_| !own_heading) {
            Some(t) => t.rows.extend(head.rows),
            None => more.tables.push(head),
        }
        search(&more, setting, way, false).filter(|d| d.crossed == 0 && d.filled <= way.limit).map(|d| (i, cut, more, d))
    };
    let known = now.tables.iter().any(|t| t.id == table.id);
    let ways: &[bool] = if known { &[false, true] } else { &[true] };
    ways.iter().find_map(|own| {
        let fewest = if *own { FEW_ROWS.min(rows) } else { 1 };
        if let Some(all) = with(rows, *own) {
            return Some(all);
        }
        let mut best = with(fewest, *own)?;
        let (mut low, mut high) = (fewest, rows);
        while high - low > 1 {
            let middle = usize::midpoint(low, high);
            match with(middle, *own) {
                Some(more) => (low, best) = (middle, more),
                None => high = middle,
            }
        }
        Some(best)
    })
}

/// The title of a table that goes on from another sheet.
fn continued(title: &Statement) -> Statement {
    const CONTINUED: &str = "{title} (continued)";
    if title.is_empty() || title.words == CONTINUED { title.clone() } else { Statement::new(CONTINUED, vec![("title", title.clone().into())]) }
}

/// Something that was taken off a sheet.
enum Taken {
    Unit(Vec<PlacedDraft>, Vec<Table>),
    View(PlacedDraft),
    Table(Table),
    Notes(Notes),
}

/// Takes the part off that is missed least; halves a table that stands alone. `None` if nothing can go.
fn take_one(plan: &mut SheetPlan) -> Option<Taken> {
    if plan.views.is_empty()
        && plan.tables.len() == 1
        && let Some(table) = plan.tables.first_mut().filter(|t| t.rows.len() > 1)
    {
        let mut rest = table.clone();
        rest.rows = table.rows.split_off(table.rows.len() * 3 / 4);
        rest.title = continued(&table.title);
        return Some(Taken::Table(rest));
    }
    if plan.views.len() + plan.tables.len() + plan.notes.len() <= 1 {
        return None;
    }
    if plan.in_rows && plan.views.len() > 1 {
        // A view goes with those that follow it, unless nothing else stands on the sheet.
        let leader = plan.views.iter().rposition(|v| !v.follows).filter(|i| *i > 0).unwrap_or(plan.views.len() - 1);
        let views = plan.views.split_off(leader);
        let ours = |t: &Table| views.iter().any(|v| t.beside.as_ref() == Some(&v.draft.id));
        let (own, others) = std::mem::take(&mut plan.tables).into_iter().partition(ours);
        plan.tables = others;
        return Some(Taken::Unit(views, own));
    }
    if let Some(i) = plan.tables.iter().rposition(|t| t.stand == Stand::Anywhere) {
        return Some(Taken::Table(plan.tables.remove(i)));
    }
    if let Some(views) = last_free(&plan.views) {
        return Some(Taken::Unit(plan.views.drain(views).collect(), Vec::new()));
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

/// The last view that stands free, with those that follow it; one that follows a view in projection goes where none else can.
fn last_free(views: &[PlacedDraft]) -> Option<std::ops::Range<usize>> {
    let leads = |i: &usize| views.get(*i).is_some_and(|v| v.placement == Placement::Free && !v.follows);
    let end = |i: usize| views.iter().skip(i + 1).position(|v| !v.follows).map_or(views.len(), |n| i + 1 + n);
    let alone = || views.iter().rposition(|v| v.placement == Placement::Free).map(|i| i..i + 1);
    // Not all that there is.
    (0..views.len()).rev().find(leads).map(|i| i..end(i)).filter(|r| r.len() < views.len()).or_else(alone)
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::paper::drafting::SheetStyle;
    use crate::paper::mark::Align;
    use crate::paper::view::{Draft, ViewScale};
    use crate::say::Voice;

    fn shared(plan: &SheetPlan) -> Vec<Page> {
        let (style, voice) = (SheetStyle::default(), Voice::plain());
        share(plan, &Setting { style: &style, voice: &voice, title_height: 60.0 })
    }

    /// Plates in rows, one after the other added: no sheet is left with a single plate, and none is lost.
    #[test]
    fn no_plate_stands_alone_on_a_last_sheet() {
        let mut split = 0;
        for n in [60, 66, 72, 80, 90, 104, 120] {
            let mut plan = SheetPlan::new("plates", "SMALL PLATES", "Plates");
            plan.in_rows = true;
            for i in 0..n {
                let mut d = Draft::new(format!("plate{i}"), crate::say!("{i} PLATE", i = i)).at_scale(ViewScale::Within { width: 70.0, height: 70.0 });
                d.rectangle(crate::paper::style::Pen::Edge, (0.0, 0.0), (300.0, 300.0));
                plan.view(Placement::Free, d);
            }
            let pages = shared(&plan);
            split += usize::from(pages.len() > 1);
            let drawn: Vec<String> = pages.iter().flat_map(|p| p.1.views.iter().map(|v| v.id.clone())).collect();
            assert_eq!(drawn, (0..n).map(|i| format!("plate{i}")).collect::<Vec<_>>());
            assert!(!ends_short(&pages), "{n}: {:?}", pages.iter().map(|p| p.1.views.len()).collect::<Vec<_>>());
        }
        assert!(split > 0, "no case needs a second sheet");
    }

    /// A section stays with the view that it is cut in, however many sheets there are.
    #[test]
    fn what_follows_a_view_goes_with_it() {
        let mut plan = SheetPlan::new("turned", "TURNED PARTS", "Turned parts");
        plan.sizes = 2;
        let view = |i: usize| {
            let mut d = Draft::new(format!("view{i}"), crate::say!("VIEW {i}", i = i)).at_scale(ViewScale::Within { width: 160.0, height: 160.0 });
            d.rectangle(crate::paper::style::Pen::Edge, (0.0, 0.0), (300.0, 300.0));
            d
        };
        plan.view(Placement::Main, view(0));
        for i in 1..13 {
            if i % 2 == 1 { plan.view(Placement::Free, view(i)) } else { plan.view_with_last(view(i)) }
        }
        let pages = shared(&plan);
        assert!(pages.len() > 1);
        for (page, _) in &pages {
            let on = |i: usize| page.views.iter().any(|v| v.draft.id == format!("view{i}"));
            assert!((1..13).step_by(2).all(|i| on(i) == on(i + 1)), "{:?}", page.views.iter().map(|v| &v.draft.id).collect::<Vec<_>>());
        }
    }

    /// Long tables go on from sheet to sheet and corner to corner: each row once, in order.
    #[test]
    fn every_row_of_a_long_table_stands_once() {
        for n in [60, 150, 260] {
            let mut plan = SheetPlan::new("calc", "CALCULATION", "Calculation");
            for id in ["first", "second"] {
                let mut t = Table::new(id, Statement::named(id.to_uppercase())).column("No.", Align::Left, 20.0).column("Text", Align::Left, 120.0);
                (0..n).for_each(|i| t.row([format!("{id}{i}"), "what stands here takes some room".to_string()]));
                plan.table(t);
            }
            let pages = shared(&plan);
            for id in ["first", "second"] {
                let rows: Vec<String> = pages.iter().flat_map(|p| &p.0.tables).filter(|t| t.id == id).flat_map(|t| &t.rows).map(|r| r[0].clone()).collect();
                assert_eq!(rows, (0..n).map(|i| format!("{id}{i}")).collect::<Vec<_>>());
            }
        }
    }
}
