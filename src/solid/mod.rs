//! Bodies as their boundary: how they are built, what they weigh, whether they are sound.
//!
//! In: plane regions, profiles and flat patterns, mm. Out: closed bodies of planes, cylinders and cones bounded by lines
//! and circular arcs, exact; their volume, centre, surface and inertia; views of them with what is
//! hidden, and sections; what two of them share. Knows no machine and no format.

pub mod brep;
pub mod build;
pub mod check;
pub mod mass;
pub mod overlap;
pub mod plane;
pub mod plug;
pub mod project;
mod section;
pub mod touch;
pub mod within;

pub use brep::{Brep, Frame};
pub use build::Refusal;
