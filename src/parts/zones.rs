//! Which part of each wall is taken: openings with their frames, guides, brackets, throats.
//!
//! A zone is a rectangle in wall coordinates: across is x on side walls and y on end walls, up is z.
//! A claim succeeds when the rectangle lies on the wall and meets no earlier one, so that two cut-outs
//! never cross in a cutting file; a failed claim is the caller's to report.

use crate::geometry::{self, Edge, contains, point};
use crate::model::Foot;
use crate::model::frame::Extent;
use crate::say::Statement;
use crate::spec::openings::Wall;
use kurbo::{BezPath, Point};

/// How far the rolled bottom may be off, mm.
const ARC_ERROR: f64 = 1e-3;

/// A taken rectangle.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// The wall.
    pub wall: Wall,
    /// Who took it.
    pub owner: Statement,
    /// Across the wall.
    pub across: Extent,
    /// Above the base.
    pub up: Extent,
}

/// All walls.
pub struct Zones {
    taken: Vec<Zone>,
    side: BezPath,
    half_width: f64,
    ends: [Extent; 2],
}

impl Zones {
    /// Nothing taken yet.
    pub fn new(foot: &Foot) -> Self {
        let c = &foot.casing;
        let mut corners: Vec<(Point, f64)> = c.inner_outline().into_iter().map(|corner| (point(corner), 0.0)).collect();
        // The arc of a rolled bottom, from the last corner back to the first.
        if let (Some([up, down]), Some(last)) = (c.bottom_arc, corners.last_mut()) {
            last.1 = ((up + down) / 4.0).tan();
        }
        Self {
            taken: Vec::new(),
            side: geometry::path(&Edge::chain(&corners, true), true, ARC_ERROR),
            half_width: c.width.high + c.plate,
            ends: [Extent::new(c.up_shoulder.min(c.bottom_face), c.top), Extent::new(c.down_shoulder.min(c.bottom_face), c.top)],
        }
    }

    /// Claims a rectangle, or says what stands in the way.
    ///
    /// # Errors
    /// The owner of the zone that it meets, or `the edge of the wall`.
    pub fn claim(&mut self, wall: Wall, owner: impl Into<Statement>, across: Extent, up: Extent) -> Result<(), Statement> {
        let inside = match wall {
            Wall::Near | Wall::Far => [[across.low, up.low], [across.high, up.low], [across.high, up.high], [across.low, up.high], [across.middle(), up.low]]
                .iter()
                .all(|p| contains(&self.side, point(*p))),
            Wall::UpEnd => across.high <= self.half_width + 60.0 && across.low >= -self.half_width - 60.0 && up.high <= self.ends[0].high,
            Wall::DownEnd => across.high <= self.half_width + 60.0 && across.low >= -self.half_width - 60.0 && up.high <= self.ends[1].high,
        };
        if !inside {
            return Err("the edge of the wall".into());
        }
        if let Some(z) = self.taken.iter().find(|z| z.wall == wall && z.across.overlaps(&across) && z.up.overlaps(&up)) {
            return Err(z.owner.clone());
        }
        self.taken.push(Zone { wall, owner: owner.into(), across, up });
        Ok(())
    }
    /// Takes a rectangle whatever is there (fixed parts that come first).
    pub fn take(&mut self, wall: Wall, owner: impl Into<Statement>, across: Extent, up: Extent) {
        self.taken.push(Zone { wall, owner: owner.into(), across, up });
    }
    /// Whether a rectangle is free.
    pub fn free(&self, wall: Wall, across: Extent, up: Extent) -> bool {
        !self.taken.iter().any(|z| z.wall == wall && z.across.overlaps(&across) && z.up.overlaps(&up))
    }
}
