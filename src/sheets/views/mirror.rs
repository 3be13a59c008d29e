//! Turns a finished draft over, for readers who want the up side on the left.
//!
//! Points change sign in x, left and right change places, arcs run the other way, texts stay
//! readable because they are not strokes yet. Nothing of the model is touched.

use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::request::{DimensionRequest, Quantity};
use crate::paper::sheet::Placement;
use crate::paper::view::{Draft, Item, Side, Weld};

fn over(p: PlanePoint) -> PlanePoint {
    PlanePoint::new(-p.x, p.y)
}

fn shape(s: &Shape<PlanePoint>) -> Shape<PlanePoint> {
    s.place(1.0, true, over)
}

/// The other of left and right.
pub const fn side(s: Side) -> Side {
    match s {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
        other => other,
    }
}

/// The place of the same view when its main view is turned over.
pub const fn placement(p: Placement) -> Placement {
    match p {
        Placement::FromLeft => Placement::FromRight,
        Placement::FromRight => Placement::FromLeft,
        other => other,
    }
}

/// The draft seen in a mirror.
pub fn draft(mut d: Draft) -> Draft {
    d.items = d.items.into_iter().map(item).collect();
    d.dimensions = d.dimensions.into_iter().map(request).collect();
    d.shown.iter_mut().for_each(|s| s.over = !s.over);
    d
}

fn item(i: Item) -> Item {
    let opt = |s: Option<Side>| s.map(side);
    match i {
        Item::Stroke { shape: s, pen } => Item::Stroke { shape: shape(&s), pen },
        Item::Hatch { loops, material, widest } => Item::Hatch { loops: loops.iter().map(shape).collect(), material, widest },
        Item::Cross { centre, radius } => Item::Cross { centre: over(centre), radius },
        Item::Axis { from, to } => Item::Axis { from: over(from), to: over(to) },
        Item::Label { at, text } => Item::Label { at: over(at), text },
        Item::Tag { at, clear, text } => Item::Tag { at: over(at), clear, text },
        Item::Leader { at, text, side } => Item::Leader { at: over(at), text, side: opt(side) },
        Item::Balloon { at, item, side } => Item::Balloon { at: over(at), item, side: opt(side) },
        Item::Weld { at, weld, side } => {
            let from = weld.from.map(|[x, y]| [-x, y]);
            Item::Weld { at: over(at), weld: Weld { from, ..weld }, side: opt(side) }
        }
        Item::Sign { at, slide, sign, side: s } => Item::Sign { at: over(at), slide, sign, side: side(s) },
        Item::Level { at, level, text, side } => Item::Level { at: over(at), level, text, side: Some(opt(side).unwrap_or(Side::Left)) },
        Item::Flow { from, to, filled } => Item::Flow { from: over(from), to: over(to), filled },
        Item::Cut { letter, from, to, look } => Item::Cut { letter, from: over(from), to: over(to), look: side(look) },
        Item::Arrow { letter, at, side: s } => Item::Arrow { letter, at: over(at), side: side(s) },
        Item::DetailCircle { letter, centre, radius } => Item::DetailCircle { letter, centre: over(centre), radius },
        Item::North { angle } => Item::North { angle: 180.0 - angle },
        Item::Origin { at } => Item::Origin { at: over(at) },
    }
}

fn request(mut r: DimensionRequest) -> DimensionRequest {
    r.quantity = match r.quantity {
        Quantity::Linear { side: s, first, second } => Quantity::Linear { side: side(s), first: over(first), second: over(second) },
        Quantity::Aligned { first, second } => Quantity::Aligned { first: over(first), second: over(second) },
        Quantity::Diameter { centre, radius } => Quantity::Diameter { centre: over(centre), radius },
        Quantity::Radius { centre, on } => Quantity::Radius { centre: over(centre), on: over(on) },
        Quantity::Angle { corner, first, second } => Quantity::Angle { corner: over(corner), first: over(second), second: over(first) },
    };
    r.prefer = r.prefer.map(side);
    r
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paper::style::Pen;

    #[test]
    fn twice_over_is_the_same_and_values_stay() {
        let mut d = Draft::new("v", "");
        d.arc(Pen::Edge, (10.0, 5.0), 3.0, 30.0, 60.0);
        d.leader((1.0, 2.0), "a", Side::Left);
        d.angle("slope", (0.0, 0.0), (10.0, 0.0), (10.0, 10.0));
        d.dimension(Side::Right, "h", (4.0, 0.0), (4.0, 9.0));
        let once = draft(d.clone());
        assert_ne!(once, d);
        for (a, b) in d.dimensions.iter().zip(&once.dimensions) {
            assert!((a.value() - b.value()).abs() < 1e-12, "{}: {} and {}", a.key, a.value(), b.value());
        }
        let twice = draft(once);
        assert_eq!(twice.dimensions, d.dimensions);
        assert_eq!(twice.items[1], d.items[1]);
    }
}
