//! Where the panel lies through which the bare foot pulley comes out of an end plate.
//!
//! In: what the wall has from below, what is taken of it, how high the pulley may stand, all mm above the base. Out: the sill of an
//! opening that is free, with the least lift of the pulley. Used when places are decided, when they are judged and when a
//! change is proposed, so that all agree.

use crate::sources::Source;

/// Size and place of the opening.
pub const OPENING: Source = Source::practice("pulley diameter and a hand's room above and below, over the whole inside width");
/// Left above and below the pulley in an opening that is left to the program, mm (common practice).
pub const CLEAR: f64 = 25.0;
/// What must be left round the pulley in any opening, mm (common practice).
pub const LEAST: f64 = 10.0;
/// Beyond what a part that is drawn off has to clear, mm (common practice).
pub const PAST: f64 = 20.0;
/// From the panel's opening to a wall that the pulley is drawn out toward, beyond its diameter: frame, lid bolts, slings, mm
/// (common practice).
pub const BEFORE_PANEL: f64 = 100.0;
/// From a lifted pulley to the bend pulley's rim: belt, buckets and slings, mm (common practice).
pub const UNDER_BEND: f64 = 50.0;
/// Between two frames on one wall, mm: the legs of two seams and room between them.
pub const BETWEEN_FRAMES: f64 = 15.0;

/// An end wall and the pulley behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// Lowest and highest edge that an opening may have.
    pub wall: [f64; 2],
    /// Stretches in which no opening may lie.
    pub taken: Vec<[f64; 2]>,
    /// Where the pulley's axis is in the lowest and in the highest position of the take-up.
    pub standing: [f64; 2],
    /// Where the axis may be brought inside the casing, the shaft drawn.
    pub axis: [f64; 2],
}

/// A free place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Lowest edge of the opening.
    pub sill: f64,
    /// How far the pulley is lifted from what the take-up reaches; negative where it is lowered.
    pub lift: f64,
}

impl End {
    /// The free stretches of the wall, from below.
    fn free(&self) -> Vec<[f64; 2]> {
        let mut taken = self.taken.clone();
        taken.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let (mut out, mut from) = (Vec::new(), self.wall[0]);
        for [low, high] in taken {
            if low > from {
                out.push([from, low.min(self.wall[1])]);
            }
            from = from.max(high);
        }
        out.push([from, self.wall[1]]);
        out
    }

    /// How far an axis at a height is from where the take-up brings it.
    fn lift(&self, axis: f64) -> f64 {
        axis - axis.clamp(self.standing[0], self.standing[1].max(self.standing[0]))
    }

    /// The sill of an opening so high, in whole steps, for which the pulley is lifted least; the lowest of those.
    ///
    /// ```
    /// use footwell::formulas::removal::End;
    /// // Pulley ⌀800 about 783 to 1133; a clean-out below, an inlet above.
    /// let end = End { wall: [106.0, 2000.0], taken: vec![[0.0, 322.0], [1300.0, 2000.0]], standing: [783.0, 1133.0], axis: [506.0, 1600.0] };
    /// let place = end.place(850.0, 5.0).unwrap();
    /// // An axis at 783 asks for a sill at 358, in whole steps 360.
    /// assert_eq!((place.sill, place.lift), (360.0, 0.0));
    /// assert_eq!(end.place(1000.0, 5.0), None);
    /// ```
    pub fn place(&self, height: f64, step: f64) -> Option<Place> {
        let (up, down) = (|z: f64| (z / step - 1e-6).ceil() * step, |z: f64| (z / step + 1e-6).floor() * step);
        let half = height / 2.0;
        let sills = self.free().into_iter().filter_map(|[low, high]| {
            let range = [up(low.max(self.axis[0] - half)), down((high - height).min(self.axis[1] - half))];
            let wanted = up(self.standing[0] - half);
            (range[0] <= range[1]).then(|| wanted.clamp(range[0], range[1]))
        });
        let places = sills.map(|sill| Place { sill, lift: self.lift(sill + half) });
        places.min_by(|a, b| a.lift.abs().total_cmp(&b.lift.abs()).then(a.sill.total_cmp(&b.sill)))
    }
}

/// How much of an opening of that stretch a pulley has above and below, at the best height of its axis that may be reached, mm; negative
/// where it does not pass.
///
/// ```
/// use footwell::formulas::removal::room;
/// assert_eq!(room([358.0, 1208.0], 400.0, [506.0, 1600.0]), 25.0);
/// // Too low: the pulley would stand below the bottom.
/// assert_eq!(room([58.0, 908.0], 400.0, [506.0, 1600.0]), 2.0);
/// ```
pub fn room([low, high]: [f64; 2], radius: f64, axis: [f64; 2]) -> f64 {
    let at = f64::midpoint(low, high).clamp(axis[0], axis[1].max(axis[0]));
    (at - radius - low).min(high - at - radius)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The least lift wins, wherever it is; a wall without room has no place.
    #[test]
    fn least_lift() {
        let end = End { wall: [100.0, 3000.0], taken: vec![[600.0, 1300.0]], standing: [900.0, 1000.0], axis: [500.0, 2500.0] };
        // Below only 500 high, so above: sill 1300, axis 1700.
        assert_eq!(end.place(800.0, 10.0), Some(Place { sill: 1300.0, lift: 700.0 }));
        // Where both have room the nearer one.
        assert_eq!(end.place(200.0, 10.0), Some(Place { sill: 400.0, lift: -400.0 }));
        let full = End { taken: vec![[0.0, 3000.0]], ..end };
        assert_eq!(full.place(200.0, 10.0), None);
    }
}
