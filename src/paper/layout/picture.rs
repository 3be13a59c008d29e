//! The drawn part of a view: strokes, hatches, centre lines, arrows, at its scale, without any text.

use std::f64::consts::{PI, TAU};

use crate::geometry::mean_width;
use crate::paper::mark::{Hatch, Mark, PaperPoint, Path, PlanePoint, Shape};
use crate::paper::pencil;
use crate::paper::request::Side;
use crate::paper::stroke::{Rect, shape_bounds};
use crate::paper::style::{Pattern, Pen};
use crate::paper::view::{Draft, Item, Material};

/// Centre lines go this far past the outline, paper mm (common practice).
pub const OVERSHOOT: f64 = 3.0;
/// A cutting plane's end stands this far off the outline, paper mm.
const CUT_OFF: f64 = 3.0;
/// Length of the thick end of a cutting plane, paper mm.
const CUT_END: f64 = 7.0;
/// Room that a cutting plane's end and letter take off the outline, paper mm.
pub const CUT_ZONE: f64 = 15.0;
/// Plates thinner than this on paper are filled, as ISO 128-3 allows for narrow areas (from memory), mm.
const FILL_BELOW: f64 = 1.2;

/// One end of a cutting plane whose letter is still to be placed.
#[derive(Debug, Clone)]
pub struct CutEnd {
    /// The letter.
    pub letter: String,
    /// Outer end of the thick line.
    pub at: PaperPoint,
    /// Tail of the arrow.
    pub tail: PaperPoint,
    /// Side of the view on which the end stands.
    pub side: Side,
}

/// The strokes of a view, local paper mm (plane origin at 0, 0).
#[derive(Debug, Clone)]
pub struct Picture {
    /// The strokes.
    pub marks: Vec<Mark>,
    /// Bounds of the outline: what dimensions stand off from.
    pub outline: Rect,
    /// Ends of cutting planes.
    pub cuts: Vec<CutEnd>,
}

/// From the view's plane to local paper.
pub fn paper(p: PlanePoint, scale: f64) -> PaperPoint {
    PaperPoint::new(p.x / scale, p.y / scale)
}

/// Bounds of the outline in real mm; empty if nothing is drawn.
pub fn real_bounds(draft: &Draft) -> Rect {
    picture(draft, 1.0).outline
}

/// Draws the strokes at `scale` (real mm per paper mm).
pub fn picture(draft: &Draft, scale: f64) -> Picture {
    let mut marks = Vec::new();
    let mut outline = Rect::EMPTY;
    let on = |p: &PlanePoint| paper(*p, scale);
    for item in &draft.items {
        match item {
            Item::Stroke { shape, pen } => {
                let shape = shape.place(1.0 / scale, false, |p| paper(p, scale));
                outline = outline.union(&shape_bounds(&shape));
                marks.push(Mark::Path(Path { shape, pen: *pen }));
            }
            Item::Hatch { loops, material, widest } => {
                let loops: Vec<_> = loops.iter().map(|l| l.place(1.0 / scale, false, |p| paper(p, scale))).collect();
                loops.iter().for_each(|l| outline = outline.union(&shape_bounds(l)));
                hatch(loops, *material, widest / scale, &mut marks);
            }
            Item::Cross { centre, radius } => cross(on(centre), radius / scale, &mut marks),
            Item::Axis { from, to } => {
                let (a, b) = (on(from), on(to));
                outline.add(a);
                outline.add(b);
                let l = (b.x - a.x).hypot(b.y - a.y).max(1e-9);
                let (ux, uy) = ((b.x - a.x) / l * OVERSHOOT, (b.y - a.y) / l * OVERSHOOT);
                marks.push(pencil::line(Pen::Centre, PaperPoint::new(a.x - ux, a.y - uy), PaperPoint::new(b.x + ux, b.y + uy)));
            }
            Item::Flow { from, to, filled } => flow(on(from), on(to), *filled, &mut marks),
            Item::DetailCircle { centre, radius, .. } => {
                let c = on(centre);
                marks.push(pencil::circle(Pen::Leader, c, radius / scale));
                outline = outline.union(&Rect::new(c.x, c.y, c.x, c.y).grown(radius / scale));
            }
            Item::Origin { at } => origin(on(at), &mut marks),
            _ => {}
        }
    }
    if outline.is_empty() {
        outline = Rect::new(0.0, 0.0, 1.0, 1.0);
    }
    let mut cuts = Vec::new();
    for item in &draft.items {
        match item {
            Item::Cut { letter, from, to, look } => cut(letter, on(from), on(to), *look, &outline, &mut marks, &mut cuts),
            Item::Arrow { letter, at, side } => cuts.push(arrow_at(letter, on(at), *side, &outline, &mut marks)),
            _ => {}
        }
    }
    Picture { marks, outline, cuts }
}

fn hatch(loops: Vec<Shape<PaperPoint>>, material: Material, widest: f64, marks: &mut Vec<Mark>) {
    let thick = mean_width(loops.iter().map(Shape::edges)).max(widest);
    let fine = if thick < 4.0 { 1.5 } else { 2.5 };
    let lines = |angle: f64, spacing: f64| Pattern::Lines { angle, spacing };
    let thin = thick < FILL_BELOW;
    let patterns: Vec<Pattern> = match material {
        Material::Solid | Material::Belt => vec![Pattern::Solid],
        Material::Metal | Material::MetalOther if thin => vec![Pattern::Solid],
        Material::Metal => vec![lines(45.0, fine)],
        Material::MetalOther => vec![lines(135.0, fine)],
        Material::Concrete => vec![lines(45.0, if thick < 6.0 { 2.0 } else { 4.0 })],
        Material::LeanConcrete => vec![lines(135.0, 1.5)],
        Material::Earth => vec![lines(45.0, 6.0), lines(135.0, 6.0)],
        Material::Other => vec![lines(60.0, 4.0)],
        Material::Product => vec![lines(30.0, 5.0)],
    };
    for pattern in patterns {
        marks.push(Mark::Hatch(Hatch { loops: loops.clone(), pattern, pen: Pen::Hatch }));
    }
}

/// Centre cross; on small circles the overshoot shrinks so that the line stays a centre line, not a star.
fn cross(c: PaperPoint, r: f64, marks: &mut Vec<Mark>) {
    let reach = r + if r < 3.0 { (r * 0.6).clamp(0.8, OVERSHOOT) } else { OVERSHOOT };
    marks.push(pencil::line(Pen::Centre, PaperPoint::new(c.x - reach, c.y), PaperPoint::new(c.x + reach, c.y)));
    marks.push(pencil::line(Pen::Centre, PaperPoint::new(c.x, c.y - reach), PaperPoint::new(c.x, c.y + reach)));
}

fn flow(from: PaperPoint, to: PaperPoint, filled: bool, marks: &mut Vec<Mark>) {
    let l = (to.x - from.x).hypot(to.y - from.y);
    let (ux, uy) = if l > 1e-9 { ((to.x - from.x) / l, (to.y - from.y) / l) } else { (1.0, 0.0) };
    let length = l.max(9.0);
    let (shaft, head, wide) = (0.7, 4.5, 1.9);
    let at = |back: f64, side: f64| PaperPoint::new(to.x - ux * back - uy * side, to.y - uy * back + ux * side);
    let corners = [at(length, shaft), at(length, -shaft), at(head, -shaft), at(head, -wide), at(0.0, 0.0), at(head, wide), at(head, shaft)];
    marks.push(if filled { pencil::solid(Pen::Symbol, &corners) } else { pencil::polygon(Pen::Symbol, &corners) });
}

/// The marked origin: a circle with two opposite quadrants filled.
fn origin(c: PaperPoint, marks: &mut Vec<Mark>) {
    let r = 2.0;
    marks.push(pencil::circle(Pen::Symbol, c, r));
    for start in [0.0, PI] {
        let arc: Vec<PaperPoint> =
            (0..=6).map(|i| start + TAU / 4.0 * f64::from(i) / 6.0).map(|a| PaperPoint::new(c.x + r * a.cos(), c.y + r * a.sin())).collect();
        let corners: Vec<PaperPoint> = std::iter::once(c).chain(arc).collect();
        marks.push(pencil::solid(Pen::Symbol, &corners));
    }
}

/// Draws a reference arrow just off the outline, toward it.
fn arrow_at(letter: &str, at: PaperPoint, side: Side, outline: &Rect, marks: &mut Vec<Mark>) -> CutEnd {
    let out = side.outward();
    let p = |off: f64| match side {
        Side::Left => PaperPoint::new(outline.x0 - off, at.y),
        Side::Right => PaperPoint::new(outline.x1 + off, at.y),
        Side::Below => PaperPoint::new(at.x, outline.y0 - off),
        Side::Above => PaperPoint::new(at.x, outline.y1 + off),
    };
    let (tip, root) = (p(CUT_OFF), p(CUT_OFF + CUT_END));
    marks.push(pencil::line(Pen::Symbol, root, tip));
    let toward = if side.horizontal() { (0.0, -out) } else { (-out, 0.0) };
    marks.push(pencil::arrow(Pen::Symbol, tip, toward, 4.0));
    CutEnd { letter: letter.into(), at: root, tail: root, side }
}

/// Draws both ends of an upright or level cutting plane just off the outline, with arrows.
fn cut(letter: &str, from: PaperPoint, to: PaperPoint, look: Side, outline: &Rect, marks: &mut Vec<Mark>, cuts: &mut Vec<CutEnd>) {
    let upright = matches!(look, Side::Left | Side::Right);
    let step = look.outward();
    let ends = if upright {
        let x = (from.x + to.x) / 2.0;
        [(Side::Below, x, outline.y0.min(from.y).min(to.y) - CUT_OFF, -1.0), (Side::Above, x, outline.y1.max(from.y).max(to.y) + CUT_OFF, 1.0)]
    } else {
        let y = (from.y + to.y) / 2.0;
        [(Side::Left, y, outline.x0.min(from.x).min(to.x) - CUT_OFF, -1.0), (Side::Right, y, outline.x1.max(from.x).max(to.x) + CUT_OFF, 1.0)]
    };
    for (side, cross, inner, out) in ends {
        let p = |along: f64, across: f64| if upright { PaperPoint::new(across, along) } else { PaperPoint::new(along, across) };
        let (a, b) = (p(inner, cross), p(inner + out * CUT_END, cross));
        marks.push(pencil::line(Pen::CutPlane, a, b));
        let middle = inner + out * CUT_END * 0.7;
        let (root, tip) = (p(middle, cross), p(middle, cross + step * 8.0));
        marks.push(pencil::line(Pen::Symbol, root, tip));
        marks.push(pencil::arrow(Pen::Symbol, tip, (tip.x - root.x, tip.y - root.y), 4.0));
        cuts.push(CutEnd { letter: letter.into(), at: b, tail: p(middle, cross + step * 4.0), side });
    }
}
