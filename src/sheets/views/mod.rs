//! Pieces of views that several sheets share.
//!
//! Everything is drawn as if the up side lay on the right; [`mirror`] turns a finished draft over for
//! readers who want it on the left. A [`Look`] says which plane a view shows and projects the model
//! into it; the model itself is never turned.

pub mod apart;
pub mod bodies;
pub mod body_ink;
pub mod chart;
pub mod elevation;
pub mod inlet;
pub mod isometric;
pub mod mirror;
pub mod outline;
pub mod pit_fittings;
pub mod pit_machine;
pub mod pit_section;
pub mod plan;
pub mod plate;
pub mod scribed;
pub mod seen;
pub mod shift;
pub mod side;
pub mod signs;
pub mod turned_pulley;
pub mod turned_shaft;

use crate::model::Foot;
use crate::model::frame::{FeatureKind, ModelPoint};
use crate::paper::mark::PlanePoint;
use crate::paper::request::DimensionRequest;
use crate::paper::view::{Draft, Side};
use crate::solid::project::View;
use glam::DVec3;

/// From where a view looks at the machine (up side drawn on the right).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// From the near side: x to the right, z up.
    Elevation,
    /// From the up side, which is the right of the elevation: far side on the right, z up.
    FromUp,
    /// From above: x to the right, near side at the bottom.
    FromAbove,
}

impl Look {
    /// The view's directions in the model.
    pub const fn view(self) -> View {
        match self {
            Self::Elevation => View { right: DVec3::X, up: DVec3::Z, toward: DVec3::Y },
            Self::FromUp => View { right: DVec3::NEG_Y, up: DVec3::Z, toward: DVec3::X },
            Self::FromAbove => View { right: DVec3::X, up: DVec3::NEG_Y, toward: DVec3::Z },
        }
    }

    /// A model point in the view's plane.
    pub fn point(self, p: ModelPoint) -> PlanePoint {
        match self {
            Self::Elevation => PlanePoint::new(p.x, p.z),
            Self::FromUp => PlanePoint::new(-p.y, p.z),
            Self::FromAbove => PlanePoint::new(p.x, -p.y),
        }
    }

    /// Asks for the dimension of a named feature beside the view; nothing when the machine lacks it or the view shows it as a point.
    pub fn dimension<'d>(self, d: &'d mut Draft, foot: &Foot, side: Side, id: &str) -> Option<&'d mut DimensionRequest> {
        let feature = foot.feature(id)?;
        let (from, to) = (self.point(feature.from), self.point(feature.to));
        let shown = if side.horizontal() { (to.x - from.x).abs() } else { (to.y - from.y).abs() };
        match feature.kind {
            FeatureKind::Length | FeatureKind::Height if shown > 0.05 => Some(d.dimension(side, id, from, to)),
            _ => None,
        }
    }

    /// The same for several features, each on a line of its own.
    pub fn each(self, d: &mut Draft, foot: &Foot, side: Side, ids: &[&str]) {
        for id in ids {
            let _ = self.dimension(d, foot, side, id);
        }
    }

    /// The same for several features that share a dimension line.
    pub fn chain(self, d: &mut Draft, foot: &Foot, side: Side, chain: &str, ids: &[&str]) {
        for id in ids {
            if let Some(r) = self.dimension(d, foot, side, id) {
                r.chain(chain);
            }
        }
    }
}
