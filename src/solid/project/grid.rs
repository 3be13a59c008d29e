//! A grid over the picture that finds what may meet what.

use glam::DVec2;

use super::path::{Conic, Path, SAME};

/// Square cells over a rectangle, each with a list of numbers.
#[derive(Debug)]
pub(crate) struct Grid {
    low: DVec2,
    cell: f64,
    columns: usize,
    rows: usize,
    starts: Vec<u32>,
    items: Vec<u32>,
}

impl Grid {
    /// An empty grid of about `count` cells over a rectangle.
    pub fn over(low: DVec2, high: DVec2, count: usize) -> Self {
        let size = (high - low).max(DVec2::splat(1.0));
        let cell = (size.x * size.y / count.max(1) as f64).sqrt().max(size.max_element() / 2000.0);
        let columns = (size.x / cell) as usize + 1;
        let rows = (size.y / cell) as usize + 1;
        Self { low, cell, columns, rows, starts: Vec::new(), items: Vec::new() }
    }

    /// Fills the lists; `walk` names the cells of item `0..count`, and each list keeps the order of the items.
    pub fn fill(&mut self, count: usize, mut walk: impl FnMut(&Self, usize, &mut dyn FnMut(usize))) {
        let mut starts = vec![0u32; self.columns * self.rows + 1];
        let mut pairs = Vec::new();
        for item in 0..count {
            let mut last = usize::MAX;
            walk(self, item, &mut |cell| {
                if cell != last {
                    last = cell;
                    starts[cell + 1] += 1;
                    pairs.push((cell as u32, item as u32));
                }
            });
        }
        for cell in 1..starts.len() {
            starts[cell] += starts[cell - 1];
        }
        let mut next = starts.clone();
        let mut items = vec![0; pairs.len()];
        for (cell, item) in pairs {
            let place = &mut next[cell as usize];
            items[*place as usize] = item;
            *place += 1;
        }
        (self.starts, self.items) = (starts, items);
    }

    /// How many cells there are.
    pub fn len(&self) -> usize {
        self.columns * self.rows
    }

    /// The list of a cell.
    pub fn list(&self, cell: usize) -> &[u32] {
        &self.items[self.starts[cell] as usize..self.starts[cell + 1] as usize]
    }

    /// The cell of a point, the nearest one when it lies outside.
    pub fn holding(&self, at: DVec2) -> usize {
        self.row(at.y) * self.columns + self.column(at.x)
    }

    /// The middle of a cell.
    pub fn middle(&self, cell: usize) -> DVec2 {
        let at = DVec2::new((cell % self.columns) as f64, (cell / self.columns) as f64);
        self.low + (at + 0.5) * self.cell
    }

    /// Width and height of a cell, mm.
    pub fn cell(&self) -> f64 {
        self.cell
    }

    fn column(&self, u: f64) -> usize {
        // A negative number becomes 0.
        (((u - self.low.x) / self.cell) as usize).min(self.columns - 1)
    }

    fn row(&self, v: f64) -> usize {
        (((v - self.low.y) / self.cell) as usize).min(self.rows - 1)
    }

    /// The cells of a rectangle.
    pub fn walk_box(&self, low: DVec2, high: DVec2, put: &mut (impl FnMut(usize) + ?Sized)) {
        let (first, last) = (self.column(low.x - SAME), self.column(high.x + SAME));
        for row in self.row(low.y - SAME)..=self.row(high.y + SAME) {
            for column in first..=last {
                put(row * self.columns + column);
            }
        }
    }

    /// The cells a picture runs through; a cell may be named twice.
    pub fn walk(&self, path: &Path, put: &mut (impl FnMut(usize) + ?Sized)) {
        match path {
            Path::Seg(seg) => self.walk_line(seg.a, seg.b, put),
            Path::Conic(conic) => self.walk_arc(conic, path, put),
        }
    }

    fn walk_line(&self, a: DVec2, b: DVec2, put: &mut (impl FnMut(usize) + ?Sized)) {
        let (low, high) = if a.y < b.y { (a, b) } else { (b, a) };
        let (first, last) = (self.row(low.y - SAME), self.row(high.y + SAME));
        if first == last {
            self.walk_box(a.min(b), a.max(b), put);
            return;
        }
        let slope = (high.x - low.x) / (high.y - low.y).max(SAME);
        for row in first..=last {
            let floor = self.low.y + row as f64 * self.cell - SAME;
            let ceiling = floor + self.cell + 2.0 * SAME;
            let enter = low.x + slope * (floor.clamp(low.y, high.y) - low.y);
            let leave = low.x + slope * (ceiling.clamp(low.y, high.y) - low.y);
            let (left, right) = if high.y - low.y < SAME { (low.x.min(high.x), low.x.max(high.x)) } else { (enter.min(leave), enter.max(leave)) };
            for column in self.column(left - SAME)..=self.column(right + SAME) {
                put(row * self.columns + column);
            }
        }
    }

    fn walk_arc(&self, conic: &Conic, path: &Path, put: &mut (impl FnMut(usize) + ?Sized)) {
        let (low, high) = path.bounds();
        let size = (high - low) / self.cell;
        if size.max_element() < 2.5 {
            self.walk_box(low, high, put);
            return;
        }
        let span = conic.to - conic.from;
        let long = conic.p.length();
        let pieces = (long * span / self.cell).ceil().clamp((span * 2.0).ceil(), 400.0);
        let step = span / pieces;
        let bulge = DVec2::splat(long * (1.0 - (step / 2.0).cos()));
        let mut old = conic.at(conic.from);
        for piece in 1..=pieces as usize {
            let new = conic.at(conic.from + step * piece as f64);
            self.walk_box(old.min(new) - bulge, old.max(new) + bulge, put);
            old = new;
        }
    }
}

/// Least and greatest corner of many pictures.
pub(crate) fn bounds<'a>(paths: impl Iterator<Item = &'a Path>) -> (DVec2, DVec2) {
    paths.map(Path::bounds).fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), (a, b)| (low.min(a), high.max(b)))
}
