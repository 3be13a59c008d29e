//! The north arrow of a plan, in a corner of the view that is still free, else beside it.

use super::canvas::Canvas;
use crate::paper::drafting::Lettering;
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Align, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::stroke::{Rect, mark_bounds};
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Item};

/// Draws the arrow if the view asks for one.
pub(super) fn draw(draft: &Draft, l: &Lettering, marks: &mut Vec<Mark>) {
    let Some(angle) = draft.items.iter().find_map(|i| if let Item::North { angle } = i { Some(*angle) } else { None }) else { return };
    let rect = marks.iter().fold(Rect::EMPTY, |r, m| r.union(&mark_bounds(m)));
    let mut canvas = Canvas::over(rect);
    marks.iter().for_each(|m| canvas.add(m));
    let reach = 12.0;
    let corner =
        [(rect.x1 - reach, rect.y1 - reach), (rect.x0 + reach, rect.y1 - reach), (rect.x1 - reach, rect.y0 + reach), (rect.x0 + reach, rect.y0 + reach)]
            .into_iter()
            .map(|(x, y)| PaperPoint::new(x, y))
            .find(|c| canvas.free(&TextBox::placed(PaperPoint::new(c.x, c.y - reach), Align::Centre, 0.0, 2.0 * reach, 2.0 * reach)));
    let c = corner.unwrap_or(PaperPoint::new(rect.x1 + reach + 3.0, rect.y1 - reach));
    let (s, k) = angle.to_radians().sin_cos();
    let at = |along: f64, across: f64| PaperPoint::new(c.x + k * along - s * across, c.y + s * along + k * across);
    marks.push(pencil::circle(Pen::Symbol, c, 5.0));
    marks.push(pencil::line(Pen::Symbol, at(-7.0, 0.0), at(7.0, 0.0)));
    marks.push(pencil::solid(Pen::Symbol, &[at(7.0, 0.0), at(-3.5, 2.4), at(-1.8, 0.0)]));
    marks.push(pencil::polygon(Pen::Symbol, &[at(7.0, 0.0), at(-3.5, -2.4), at(-1.8, 0.0)]));
    let n = at(9.6, 0.0);
    marks.push(pencil::bold(Pen::Symbol, "N", PaperPoint::new(n.x, n.y - l.text / 2.0), l.text, Align::Centre));
}
