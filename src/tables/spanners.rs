//! Room that spanners and sockets take up round a hexagon.
//!
//! In: width across flats in mm (ISO 272, ASME B18.2.1: those of [`threads`](super::threads)). Out: mm, about the axis of the bolt, from
//! the face that its head lies on. Envelopes: what the standards allow at most, in whole proportions of the width across flats.

use crate::sources::Source;

/// Jaws of open spanners.
pub const OPEN: Source = Source::standard("ISO 3318").remark("largest outside of an open end: 2.1 times the width across flats and 7 mm").from_memory();
/// Outside of sockets.
pub const SOCKETS: Source =
    Source::standard("ISO 2725-1").remark("largest outside of hand-operated sockets, about 1.25 times the width across flats and 4 mm").from_memory();
/// The rest.
pub const SWING: Source = Source::practice("a spanner ten times as long as its width across flats, turned by 30° at a time: its set jaw is turned over");

/// A tool with a handle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spanner {
    /// Radius of what goes round the hexagon, mm.
    pub jaw: f64,
    /// Its lower and upper face over the face that the head lies on, mm.
    pub deep: [f64; 2],
    /// Lower and upper face of the handle, mm.
    pub handle: [f64; 2],
    /// Half the width of the handle, mm.
    pub half: f64,
    /// From the bolt to the end of the handle, mm.
    pub long: f64,
}

/// From the face under a head to a spanner, mm.
const OVER: f64 = 0.3;
/// How far a spanner is turned at a time, degrees. Source: [`SWING`].
pub const TURN_DEG: f64 = 30.0;

/// An open spanner. Source: [`OPEN`], [`SWING`].
///
/// ```
/// // M8: 13 across flats.
/// let open = footwell::tables::spanners::open(13.0);
/// assert!((open.jaw - 17.15).abs() < 1e-9 && open.long == 130.0);
/// ```
pub fn open(flats: f64) -> Spanner {
    let deep = [OVER, 0.35 * flats + 2.0];
    Spanner { jaw: (2.1 * flats + 7.0) / 2.0, deep, handle: deep, half: 0.45 * flats, long: (10.0 * flats).max(100.0) }
}

/// A ring spanner, its handle over the heads beside it. Source: [`SWING`]; ring 1.5 times the width across flats and 1 mm (from memory of
/// ISO 3318: at most).
///
/// ```
/// // M12: 18 across flats.
/// let ring = footwell::tables::spanners::ring(18.0);
/// assert!((ring.jaw - 14.0).abs() < 1e-9 && (ring.deep[1] - 10.8).abs() < 1e-9);
/// ```
pub fn ring(flats: f64) -> Spanner {
    let low = 0.6 * flats;
    Spanner { jaw: 0.75 * flats + 0.5, deep: [OVER, low], handle: [low, low + 0.35 * flats + 2.0], ..open(flats) }
}

/// A cranked ring spanner, its handle higher. Source: [`SWING`].
pub fn cranked(flats: f64) -> Spanner {
    Spanner { handle: [0.9 * flats, 1.25 * flats + 2.0], ..ring(flats) }
}

/// Radius of a socket, and how far it stands over the face under the head with its ratchet, mm. Source: [`SOCKETS`].
pub fn socket(flats: f64) -> [f64; 2] {
    [(1.25 * flats + 4.0) / 2.0, if flats > 20.0 { 100.0 } else { 80.0 }]
}

/// Radius and length of a key for a countersunk screw, mm (common practice, no source).
pub const KEY: [f64; 2] = [6.0, 90.0];
