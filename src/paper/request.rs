//! A dimension as a sheet author asks for it: what is measured, what stands around the number.
//!
//! The value is always the drawn distance; nothing lets an author type a number of his own.

use super::mark::PlanePoint;

/// A side of a view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Over the view; measures horizontally.
    Above,
    /// Under the view; measures horizontally.
    Below,
    /// Left of the view; measures vertically.
    Left,
    /// Right of the view; measures vertically.
    Right,
}

impl Side {
    /// All four, in the order in which they are laid out.
    pub const ALL: [Side; 4] = [Side::Above, Side::Below, Side::Left, Side::Right];

    /// Whether dimension lines on this side run horizontally.
    pub const fn horizontal(self) -> bool {
        matches!(self, Side::Above | Side::Below)
    }

    /// +1 when outward is toward larger coordinates.
    pub const fn outward(self) -> f64 {
        match self {
            Side::Above | Side::Right => 1.0,
            Side::Below | Side::Left => -1.0,
        }
    }
}

/// What is measured, in the view's plane, real mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Quantity {
    /// Distance along the strip of a side.
    Linear {
        /// Where the dimension stands.
        side: Side,
        /// First measured point.
        first: PlanePoint,
        /// Second measured point.
        second: PlanePoint,
    },
    /// True distance of two points.
    Aligned {
        /// First measured point.
        first: PlanePoint,
        /// Second measured point.
        second: PlanePoint,
    },
    /// Diameter of a circle.
    Diameter {
        /// Its centre.
        centre: PlanePoint,
        /// Its radius.
        radius: f64,
    },
    /// Radius of an arc.
    Radius {
        /// Centre of the arc.
        centre: PlanePoint,
        /// Point of the arc to point at.
        on: PlanePoint,
    },
    /// Angle at a corner, counter-clockwise from `first` to `second`.
    Angle {
        /// Where the legs meet.
        corner: PlanePoint,
        /// A point on the first leg.
        first: PlanePoint,
        /// A point on the second leg.
        second: PlanePoint,
    },
}

/// Membership in a chain: dimensions of one chain share a dimension line.
pub type Chain = String;

/// A dimension as asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionRequest {
    /// Stable id of the measured feature, e.g. `inlet.up.sill`.
    pub key: String,
    /// What is measured.
    pub quantity: Quantity,
    /// Before the number: `⌀`, `R`, `□`, `t=`, `22 × ⌀`.
    pub prefix: String,
    /// After the number: ` H7`, ` TYP`.
    pub suffix: String,
    /// Dimensions of one chain share a line.
    pub chain: Option<Chain>,
    /// Outermost of its strip.
    pub overall: bool,
    /// A closing dimension, written in brackets.
    pub reference: bool,
    /// Number of equal pitches that make up the length: written `8 × 100 = 800`.
    pub pitches: Option<usize>,
    /// Wanted side of a diameter, radius or angle label.
    pub prefer: Option<Side>,
    /// Decimals other than the sheet's, e.g. for a slope angle.
    pub decimals: Option<usize>,
    /// Limits follow the number: fractions of an inch would be too coarse, so it is written in decimals of an inch.
    pub toleranced: bool,
}

impl DimensionRequest {
    /// A plain dimension; diameters and radii get their sign.
    pub fn new(key: impl Into<String>, quantity: Quantity) -> Self {
        let prefix = match quantity {
            Quantity::Diameter { .. } => "⌀",
            Quantity::Radius { .. } => "R",
            _ => "",
        };
        Self {
            key: key.into(),
            quantity,
            prefix: prefix.into(),
            suffix: String::new(),
            chain: None,
            overall: false,
            reference: false,
            pitches: None,
            prefer: None,
            decimals: None,
            toleranced: false,
        }
    }

    /// Text before the number.
    pub fn prefix(&mut self, text: impl Into<String>) -> &mut Self {
        self.prefix = text.into();
        self
    }

    /// Text after the number.
    pub fn suffix(&mut self, text: impl Into<String>) -> &mut Self {
        self.suffix = text.into();
        self
    }

    /// Shares a dimension line with the others of this chain.
    pub fn chain(&mut self, id: impl Into<String>) -> &mut Self {
        self.chain = Some(id.into());
        self
    }

    /// Outermost of its strip.
    pub fn overall(&mut self) -> &mut Self {
        self.overall = true;
        self
    }

    /// A closing dimension, in brackets.
    pub fn reference(&mut self) -> &mut Self {
        self.reference = true;
        self
    }

    /// Written as `count × pitch = total`.
    pub fn pitches(&mut self, count: usize) -> &mut Self {
        self.pitches = Some(count);
        self
    }

    /// Wanted side of a diameter, radius or angle label.
    pub fn prefer(&mut self, side: Side) -> &mut Self {
        self.prefer = Some(side);
        self
    }

    /// Decimals other than the sheet's.
    pub fn decimals(&mut self, decimals: usize) -> &mut Self {
        self.decimals = Some(decimals);
        self
    }

    /// Limits follow the number.
    pub fn toleranced(&mut self) -> &mut Self {
        self.toleranced = true;
        self
    }

    /// The measured value: real mm, or degrees for angles.
    pub fn value(&self) -> f64 {
        match self.quantity {
            Quantity::Linear { side, first, second } => {
                if side.horizontal() {
                    (second.x - first.x).abs()
                } else {
                    (second.y - first.y).abs()
                }
            }
            Quantity::Aligned { first, second } => (second.x - first.x).hypot(second.y - first.y),
            Quantity::Diameter { radius, .. } => 2.0 * radius,
            Quantity::Radius { centre, on } => (on.x - centre.x).hypot(on.y - centre.y),
            Quantity::Angle { corner, first, second } => {
                let a = (first.y - corner.y).atan2(first.x - corner.x);
                let b = (second.y - corner.y).atan2(second.x - corner.x);
                (b - a).to_degrees().rem_euclid(360.0)
            }
        }
    }
}
