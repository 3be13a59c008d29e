//! Small finished marks that many parts of the layout draw: lines, arrow heads, dots, texts.

use crate::paper::mark::{Align, Hatch, Mark, PaperPoint, Path, Shape, Text};
use crate::paper::style::{Face, Pattern, Pen};

/// A straight line.
pub fn line(pen: Pen, from: PaperPoint, to: PaperPoint) -> Mark {
    Mark::Path(Path { shape: Shape::Line { from, to }, pen })
}

/// An open chain of lines.
pub fn chain(pen: Pen, points: &[PaperPoint]) -> Mark {
    match points {
        [a, b] => line(pen, *a, *b),
        _ => Mark::Path(Path { shape: Shape::chain(points.iter().copied()), pen }),
    }
}

/// A closed polygon, outlined.
pub fn polygon(pen: Pen, corners: &[PaperPoint]) -> Mark {
    Mark::Path(Path { shape: Shape::polygon(corners.iter().copied()), pen })
}

/// An upright rectangle.
pub fn rectangle(pen: Pen, x0: f64, y0: f64, x1: f64, y1: f64) -> Mark {
    polygon(pen, &[PaperPoint::new(x0, y0), PaperPoint::new(x1, y0), PaperPoint::new(x1, y1), PaperPoint::new(x0, y1)])
}

/// A circle.
pub fn circle(pen: Pen, centre: PaperPoint, radius: f64) -> Mark {
    Mark::Path(Path { shape: Shape::Circle { centre, radius }, pen })
}

/// A filled polygon.
pub fn solid(pen: Pen, corners: &[PaperPoint]) -> Mark {
    Mark::Hatch(Hatch { loops: vec![Shape::polygon(corners.iter().copied())], pattern: Pattern::Solid, pen })
}

/// A filled dot.
pub fn dot(pen: Pen, centre: PaperPoint, radius: f64) -> Mark {
    Mark::Hatch(Hatch { loops: vec![Shape::Circle { centre, radius }], pattern: Pattern::Solid, pen })
}

/// A filled arrow head with its tip at `tip`, pointing along `(dx, dy)`; width a third of the length.
pub fn arrow(pen: Pen, tip: PaperPoint, (dx, dy): (f64, f64), length: f64) -> Mark {
    let l = dx.hypot(dy).max(1e-12);
    let (ux, uy) = (dx / l, dy / l);
    let half = length / 6.0;
    let back = PaperPoint::new(tip.x - ux * length, tip.y - uy * length);
    solid(pen, &[tip, PaperPoint::new(back.x - uy * half, back.y + ux * half), PaperPoint::new(back.x + uy * half, back.y - ux * half)])
}

/// A line of lettering, regular face.
pub fn text(pen: Pen, content: impl Into<String>, at: PaperPoint, height: f64, align: Align) -> Mark {
    Mark::Text(Text { content: content.into(), at, height, angle: 0.0, align, face: Face::Regular, pen })
}

/// A line of lettering, bold.
pub fn bold(pen: Pen, content: impl Into<String>, at: PaperPoint, height: f64, align: Align) -> Mark {
    Mark::Text(Text { content: content.into(), at, height, angle: 0.0, align, face: Face::Bold, pen })
}

/// A turned line of lettering, regular face.
pub fn turned(pen: Pen, content: impl Into<String>, at: PaperPoint, height: f64, align: Align, angle: f64) -> Mark {
    Mark::Text(Text { content: content.into(), at, height, angle, align, face: Face::Regular, pen })
}
