//! Where views, tables and notes stand on a sheet: in projection around the main view, or in rows.

use super::balance::{Body, balance};
use super::block::Block;
use super::pack::{GAP, Packing, Piece, Spot, pack};
use super::rows;
use super::text_block::TextBlock;
use crate::paper::drafting::Projection;
use crate::paper::mark::PaperPoint;
use crate::paper::sheet::{Placement, SheetPlan};
use crate::paper::stroke::Rect;
use crate::paper::table::Stand;

/// A view as drawn, with how it stands to the main one.
pub type Drawn = (Placement, Block);

/// A table or note block.
pub struct Written {
    /// Its group's name.
    pub id: String,
    /// Where it wants to stand.
    pub stand: Stand,
    /// The shapes in which it may stand.
    pub shapes: Vec<TextBlock>,
}

impl Written {
    /// Width and height of each shape, mm.
    fn sizes(&self) -> Vec<(f64, f64)> {
        self.shapes.iter().map(|s| (s.width, s.height)).collect()
    }

    /// What its shape of this number takes at a spot.
    fn rect(&self, spot: &Spot) -> Rect {
        let (w, h) = self.shapes.get(spot.shape).map_or((0.0, 0.0), |s| (s.width, s.height));
        Rect::new(spot.x, spot.y, spot.x + w, spot.y + h)
    }
}

/// The empty sheet that things are arranged on.
pub struct Room<'a> {
    /// What is on the sheet.
    pub plan: &'a SheetPlan,
    /// Where projected views stand.
    pub projection: Projection,
    /// What may be filled.
    pub area: Rect,
    /// The title block.
    pub title: Rect,
    /// Whether everything is put down even where it overlaps.
    pub force: bool,
}

/// Where everything stands.
pub struct Arrangement {
    /// The rectangle of each view.
    pub views: Vec<Rect>,
    /// For each table or note block the number of its shape and its lower left corner.
    pub texts: Vec<(usize, PaperPoint)>,
}

impl Room<'_> {
    /// A place for everything, or `None` where it does not fit.
    pub fn arrange(&self, blocks: &[Drawn], texts: &[Written]) -> Option<Arrangement> {
        if self.plan.in_rows { self.in_rows(blocks, texts) } else { self.in_projection(blocks, texts) }
    }

    /// Projected views around the main one, the rest packed around them, all balanced.
    fn in_projection(&self, blocks: &[Drawn], texts: &[Written]) -> Option<Arrangement> {
        let group = projected(blocks, self.projection);
        let free: Vec<(usize, &Block)> =
            blocks.iter().enumerate().filter(|(i, _)| !group.iter().any(|g| g.0 == *i)).map(|(i, (_, block))| (i, block)).collect();
        let pieces: Vec<Piece> = texts
            .iter()
            .map(|t| Piece { shapes: t.sizes(), over_title: t.stand == Stand::OverTitleBlock })
            .chain(free.iter().map(|(_, b)| Piece { shapes: vec![(b.rect.width(), b.rect.height())], over_title: false }))
            .collect();
        let rects: Vec<Rect> = group.iter().map(|(_, r)| *r).collect();
        let packing = match pack(&rects, &pieces, &self.area, &self.title) {
            Some(p) => p,
            None if self.force => self.heap(&rects, pieces.len()),
            None => return None,
        };
        let mut bodies = tied(blocks, &group, packing.group);
        for (k, ((_, b), spot)) in free.iter().zip(packing.spots.iter().skip(texts.len())).enumerate() {
            let rect = Rect::new(spot.x, spot.y, spot.x + b.rect.width(), spot.y + b.rect.height());
            bodies.push(Body { rect, sideways: Some(1000 + k), upright: Some(1000 + k) });
        }
        for (k, (text, spot)) in texts.iter().zip(&packing.spots).enumerate() {
            let moves = if text.stand == Stand::OverTitleBlock { None } else { Some(2000 + k) };
            // Lists alone begin at the top of the sheet.
            bodies.push(Body { rect: text.rect(spot), sideways: moves, upright: moves.filter(|_| !self.plan.views.is_empty()) });
        }
        balance(&mut bodies, &[self.title], &self.area);
        let mut views: Vec<(usize, Rect)> = group.iter().map(|g| g.0).chain(free.iter().map(|f| f.0)).zip(bodies.iter().map(|b| b.rect)).collect();
        views.sort_by_key(|v| v.0);
        let low = |b: &Body| PaperPoint::new(b.rect.x0, b.rect.y0);
        Some(Arrangement {
            texts: packing.spots.iter().zip(bodies.iter().skip(views.len())).map(|(spot, b)| (spot.shape, low(b))).collect(),
            views: views.into_iter().map(|v| v.1).collect(),
        })
    }

    /// Everything from the upper left corner on: the overlaps are reported.
    fn heap(&self, projected: &[Rect], pieces: usize) -> Packing {
        let b = projected.iter().fold(Rect::EMPTY, |r, g| r.union(g));
        Packing { group: if b.is_empty() { (0.0, 0.0) } else { (self.area.x0 - b.x0, self.area.y1 - b.y1) }, spots: vec![self.corner(); pieces] }
    }

    const fn corner(&self) -> Spot {
        Spot { shape: 0, x: self.area.x0, y: self.area.y0 }
    }

    /// Views in rows, each with its table.
    fn in_rows(&self, blocks: &[Drawn], texts: &[Written]) -> Option<Arrangement> {
        let views = &self.plan.views;
        let belongs = |k: usize, stand: Stand| match self.plan.tables.get(k).and_then(|t| t.beside.as_ref()) {
            Some(id) => views.iter().position(|v| v.draft.id == *id).map_or(rows::Belongs::Alone, rows::Belongs::View),
            None if stand == Stand::OverTitleBlock => rows::Belongs::Title,
            None => rows::Belongs::Alone,
        };
        let shapes: Vec<rows::TextShapes> =
            texts.iter().enumerate().map(|(k, t)| rows::TextShapes { shapes: t.sizes(), belongs: belongs(k, t.stand) }).collect();
        let sizes: Vec<(f64, f64)> = blocks.iter().map(|(_, b)| (b.rect.width(), b.rect.height())).collect();
        let placed = match rows::place(&sizes, &shapes, &self.area, &self.title) {
            Some(p) => p,
            None if self.force => {
                let upper_left = |b: &Block| Rect::new(self.area.x0, self.area.y1 - b.rect.height(), self.area.x0 + b.rect.width(), self.area.y1);
                rows::Placed { views: blocks.iter().map(|(_, b)| upper_left(b)).collect(), texts: vec![self.corner(); texts.len()] }
            }
            None => return None,
        };
        Some(Arrangement { views: placed.views, texts: placed.texts.iter().map(|spot| (spot.shape, PaperPoint::new(spot.x, spot.y))).collect() })
    }
}

/// Projected views as bodies that keep their common axes.
fn tied(blocks: &[Drawn], group: &[(usize, Rect)], (dx, dy): (f64, f64)) -> Vec<Body> {
    let tie = |(k, (i, r)): (usize, &(usize, Rect))| {
        let (sideways, upright) = match blocks.get(*i).map_or(Placement::Main, |b| b.0) {
            Placement::FromLeft | Placement::FromRight => (100 + k, 0),
            Placement::FromAbove | Placement::FromBelow => (0, 100 + k),
            _ => (0, 0),
        };
        Body { rect: r.moved(dx, dy), sideways: Some(sideways), upright: Some(upright) }
    };
    group.iter().enumerate().map(tie).collect()
}

/// Stands the projected views around the main one; rectangles relative to the main view's origin.
fn projected(blocks: &[Drawn], projection: Projection) -> Vec<(usize, Rect)> {
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
