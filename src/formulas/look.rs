//! Room before an inspection door: a head, a hand and a lamp.
//!
//! In: mm, rad. Out: mm. A throat rises outward from its opening, and the spout goes on with it: what it takes away before a wall is a
//! strip that begins at the sill and is the higher the further out one looks.

use crate::sources::Source;

/// What stands before a door.
pub const ROOM: Source =
    Source::practice("a head, a hand and a lamp get in front of an inspection door: clear before the whole of it as far as a head is deep");
/// Clear depth before a door, mm (about 16 in). Source: [`ROOM`].
pub const HEAD: f64 = 400.0;

/// Cover of a pit with its bearers under plant floor, mm (common practice, no source).
pub const PIT_COVER: f64 = 100.0;

/// What a throat with its spout takes away before a wall up to [`HEAD`] out from it: from its sill to its roof there, mm.
///
/// ```
/// let taken = footwell::formulas::look::behind_throat([1000.0, 1300.0], 45f64.to_radians());
/// assert!((taken[0] - 1000.0).abs() < 1e-9 && (taken[1] - 1700.0).abs() < 1e-9);
/// ```
pub fn behind_throat([sill, top]: [f64; 2], slope_rad: f64) -> [f64; 2] {
    [sill, top + HEAD * slope_rad.tan()]
}
