//! A coarse grid over paper that finds what lies near a rectangle without looking at everything.
//!
//! Deterministic: answers come in the order of insertion.

use super::stroke::Rect;

/// Cell size, paper mm: about the length of a dimension text.
const CELL: f64 = 12.0;

/// Items by cell.
#[derive(Debug, Clone)]
pub struct Grid {
    origin: (f64, f64),
    columns: usize,
    rows: usize,
    cells: Vec<Vec<u32>>,
}

impl Grid {
    /// A grid over this area; what lies outside is kept in the border cells.
    pub fn over(area: Rect) -> Self {
        let area = if area.is_empty() { Rect::new(0.0, 0.0, CELL, CELL) } else { area };
        let columns = ((area.width() / CELL).ceil() as usize).clamp(1, 400);
        let rows = ((area.height() / CELL).ceil() as usize).clamp(1, 400);
        Self { origin: (area.x0, area.y0), columns, rows, cells: vec![Vec::new(); columns * rows] }
    }

    fn span(&self, r: &Rect) -> (usize, usize, usize, usize) {
        let cell = |v: f64, o: f64, n: usize| (((v - o) / CELL).floor().max(0.0) as usize).min(n - 1);
        (
            cell(r.x0, self.origin.0, self.columns),
            cell(r.x1, self.origin.0, self.columns),
            cell(r.y0, self.origin.1, self.rows),
            cell(r.y1, self.origin.1, self.rows),
        )
    }

    /// Puts item `id` wherever its bounds reach.
    pub fn insert(&mut self, id: usize, bounds: &Rect) {
        let (i0, i1, j0, j1) = self.span(bounds);
        for j in j0..=j1 {
            for i in i0..=i1 {
                if let Some(cell) = self.cells.get_mut(j * self.columns + i) {
                    cell.push(id as u32);
                }
            }
        }
    }

    /// Ids of the items that may reach into the rectangle; an id may come twice.
    pub fn near(&self, bounds: &Rect, see: &mut dyn FnMut(usize)) {
        let (i0, i1, j0, j1) = self.span(bounds);
        for j in j0..=j1 {
            for i in i0..=i1 {
                if let Some(cell) = self.cells.get(j * self.columns + i) {
                    cell.iter().for_each(|id| see(*id as usize));
                }
            }
        }
    }
}
