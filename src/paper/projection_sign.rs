//! The sign of first or third angle projection.

use super::drafting::Projection;
use super::mark::{Mark, PaperPoint};
use super::pencil;
use super::style::Pen;

/// The projection sign (ISO 5456-2, from memory): a truncated cone from the side and from its end.
/// Third angle: the end view (seen from the left, small end) stands at the left of the side view; first angle: at the right.
pub(super) fn cone(cx: f64, cy: f64, projection: Projection, marks: &mut Vec<Mark>) {
    let (big, small, length) = (2.0, 1.0, 4.0);
    let p = PaperPoint::new;
    // The cone's small end faces left in both signs.
    let (circles, side) = match projection {
        Projection::First => (cx + 4.5, cx - 5.5),
        Projection::Third => (cx - 4.5, cx + 1.5),
    };
    marks.push(pencil::circle(Pen::Symbol, p(circles, cy), big));
    marks.push(pencil::circle(Pen::Symbol, p(circles, cy), small));
    marks.push(pencil::polygon(Pen::Symbol, &[p(side, cy - small), p(side + length, cy - big), p(side + length, cy + big), p(side, cy + small)]));
    marks.push(pencil::line(Pen::Centre, p(side - 1.0, cy), p(side + length + 1.0, cy)));
    marks.push(pencil::line(Pen::Centre, p(circles - big - 0.5, cy), p(circles + big + 0.5, cy)));
    marks.push(pencil::line(Pen::Centre, p(circles, cy - big - 0.5), p(circles, cy + big + 0.5)));
}
