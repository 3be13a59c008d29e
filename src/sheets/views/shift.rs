//! Moves a finished draft up or down, so that two machines stand on one level line.
//!
//! Every point moves by the same height; texts, sides and values stay as they are.

use crate::paper::mark::{PlanePoint, Shape};
use crate::paper::request::{DimensionRequest, Quantity};
use crate::paper::view::{Draft, Item};

/// The draft, `by` real mm higher (negative: lower).
pub fn draft(mut d: Draft, by: f64) -> Draft {
    d.items = d.items.into_iter().map(|i| item(i, by)).collect();
    d.dimensions = d.dimensions.into_iter().map(|r| request(r, by)).collect();
    d.shown.iter_mut().for_each(|s| s.lifted += by);
    d
}

fn up(p: PlanePoint, by: f64) -> PlanePoint {
    PlanePoint::new(p.x, p.y + by)
}

fn shape(s: &Shape<PlanePoint>, by: f64) -> Shape<PlanePoint> {
    s.place(1.0, false, |p| up(p, by))
}

fn item(i: Item, by: f64) -> Item {
    let to = |p: PlanePoint| up(p, by);
    match i {
        Item::Stroke { shape: s, pen } => Item::Stroke { shape: shape(&s, by), pen },
        Item::Hatch { loops, material, widest } => Item::Hatch { loops: loops.iter().map(|s| shape(s, by)).collect(), material, widest },
        Item::Cross { centre, radius } => Item::Cross { centre: to(centre), radius },
        Item::Axis { from, to: end } => Item::Axis { from: to(from), to: to(end) },
        Item::Label { at, text } => Item::Label { at: to(at), text },
        Item::Tag { at, clear, text } => Item::Tag { at: to(at), clear, text },
        Item::Leader { at, text, side } => Item::Leader { at: to(at), text, side },
        Item::Balloon { at, item, side } => Item::Balloon { at: to(at), item, side },
        Item::Weld { at, weld, side } => Item::Weld { at: to(at), weld, side },
        Item::Sign { at, slide, sign, side } => Item::Sign { at: to(at), slide, sign, side },
        Item::Level { at, level, text, side } => Item::Level { at: to(at), level, text, side },
        Item::Flow { from, to: end, filled } => Item::Flow { from: to(from), to: to(end), filled },
        Item::Cut { letter, from, to: end, look } => Item::Cut { letter, from: to(from), to: to(end), look },
        Item::Arrow { letter, at, side } => Item::Arrow { letter, at: to(at), side },
        Item::DetailCircle { letter, centre, radius } => Item::DetailCircle { letter, centre: to(centre), radius },
        Item::North { angle } => Item::North { angle },
        Item::Origin { at } => Item::Origin { at: to(at) },
    }
}

fn request(mut r: DimensionRequest, by: f64) -> DimensionRequest {
    let to = |p: PlanePoint| up(p, by);
    r.quantity = match r.quantity {
        Quantity::Linear { side, first, second } => Quantity::Linear { side, first: to(first), second: to(second) },
        Quantity::Aligned { first, second } => Quantity::Aligned { first: to(first), second: to(second) },
        Quantity::Diameter { centre, radius } => Quantity::Diameter { centre: to(centre), radius },
        Quantity::Radius { centre, on } => Quantity::Radius { centre: to(centre), on: to(on) },
        Quantity::Angle { corner, first, second } => Quantity::Angle { corner: to(corner), first: to(first), second: to(second) },
    };
    r
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paper::style::Pen;
    use crate::paper::view::Side;

    #[test]
    fn values_stay() {
        let mut d = Draft::new("a", "");
        d.line(Pen::Edge, (0.0, 0.0), (10.0, 5.0));
        d.dimension(Side::Left, "h", (0.0, 0.0), (0.0, 5.0));
        let value = d.dimensions.first().map(DimensionRequest::value);
        let moved = draft(d, 100.0);
        assert_eq!(moved.dimensions.first().map(DimensionRequest::value), value);
        assert_eq!(
            moved.items.first(),
            Some(&Item::Stroke { shape: Shape::Line { from: PlanePoint::new(0.0, 100.0), to: PlanePoint::new(10.0, 105.0) }, pen: Pen::Edge })
        );
    }
}
