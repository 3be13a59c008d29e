//! Shafts as they are turned: seats, zones and their fit, keyways, tapped ends, chamfers; the body comes from there.
//!
//! In: sizes in mm along the shaft's own z. Out: its body. Shoulders are sharp in the body; drawings give their radius.

use crate::solid::brep::FLAT;
use crate::solid::build::{Slot, revolved, slotted};
use crate::solid::{Brep, Refusal};
use crate::tables::fits::Fit;
use serde::Serialize;

/// One cylindrical length of a shaft.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Seat {
    /// From, along the shaft, mm.
    pub from: f64,
    /// To, mm.
    pub to: f64,
    /// Diameter, mm.
    pub diameter: f64,
}

/// What sits on a length of a shaft.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Sits {
    /// The inner ring of a bearing.
    Bearing,
    /// A hub.
    Hub,
}

/// A length of a shaft that something sits on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Zone {
    /// From, along the shaft, mm.
    pub from: f64,
    /// To, mm.
    pub to: f64,
    /// What sits there.
    pub sits: Sits,
}

/// A keyway in a shaft or in a hub.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Keyway {
    /// Width, mm.
    pub width: f64,
    /// Depth below the shaft's or over the bore's own circle, mm.
    pub depth: f64,
    /// Length, of a shaft's keyway over its round ends, mm.
    pub length: f64,
}

/// A hole along the axis of a shaft end, tapped, with a countersink for the lathe's centre (DIN 332-2 form D).
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct EndHole {
    /// Its thread.
    pub thread: &'static str,
    /// Nominal diameter of the thread, mm.
    pub nominal: f64,
    /// Usable thread from the end face, mm.
    pub thread_depth: f64,
    /// Core drill, mm.
    pub diameter: f64,
    /// How deep it is drilled, without the drill's point, mm.
    pub depth: f64,
    /// Pilot bore, mm.
    pub pilot: f64,
    /// Depth of countersink and pilot bore, mm.
    pub pilot_depth: f64,
    /// Countersink at the end face, mm; 60° over both sides.
    pub sink: f64,
}

/// A turned shaft along z.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Shaft {
    /// Its seats in order.
    pub seats: Vec<Seat>,
    /// The fit of all its seats.
    pub fit: Fit,
    /// What sits where, in order.
    pub zones: Vec<Zone>,
    /// The keyways, which open toward y; middle of each along the shaft, mm.
    pub keyways: Option<(Keyway, [f64; 2])>,
    /// Holes in the end where it begins and in the end where it ends.
    pub holes: [Option<EndHole>; 2],
    /// Chamfer of both ends, mm × 45°.
    pub chamfer: f64,
}

/// Point of a twist drill, half its angle, degrees (118°, common practice).
const DRILL_POINT_DEG: f64 = 59.0;
/// Half angle of the countersink, degrees (DIN 332-2: 60° over both sides).
const SINK_DEG: f64 = 30.0;
/// Chisel edge of a drill as a share of its diameter.
const CHISEL: f64 = 0.1;

impl EndHole {
    /// How deep the countersink is, mm.
    pub fn sink_depth(&self) -> f64 {
        (self.sink - self.pilot) / 2.0 / SINK_DEG.to_radians().tan()
    }

    /// Radius and depth of its corners from the axis at its bottom to the end face, mm.
    fn corners(&self) -> [[f64; 2]; 6] {
        let core = self.diameter / 2.0;
        let point = core * (1.0 - CHISEL) / DRILL_POINT_DEG.to_radians().tan();
        let bottom = self.depth + point;
        [
            [0.0, bottom],
            [core * CHISEL, bottom],
            [core, self.depth],
            [core, self.pilot_depth],
            [self.pilot / 2.0, self.pilot_depth],
            [self.pilot / 2.0, self.sink_depth()],
        ]
    }
}

impl Shaft {
    /// Where it begins and ends, mm.
    pub fn ends(&self) -> [f64; 2] {
        [self.seats.first().map_or(0.0, |s| s.from), self.seats.last().map_or(0.0, |s| s.to)]
    }
    /// Overall, mm.
    pub fn length(&self) -> f64 {
        let [from, to] = self.ends();
        to - from
    }
    /// The largest diameter, mm.
    pub fn diameter(&self) -> f64 {
        self.seats.iter().map(|s| s.diameter).fold(0.0, f64::max)
    }

    /// Where its keyways begin and end, mm: as far as their seat holds them.
    pub fn ways(&self) -> Vec<[f64; 2]> {
        let Some((way, middles)) = &self.keyways else { return Vec::new() };
        let held = |middle: &f64| {
            let seat = self.seats.iter().find(|s| s.from < *middle && *middle < s.to)?;
            let room = self.chamfer + 1.0;
            let [from, to] = [(middle - way.length / 2.0).max(seat.from + room), (middle + way.length / 2.0).min(seat.to - room)];
            let deep = way.depth < seat.diameter / 2.0 && way.width < seat.diameter / 2.0;
            (deep && to - from > way.width + 1.0).then_some([from, to])
        };
        middles.iter().filter_map(held).collect()
    }

    /// Diameter of the seat at a place along it, mm.
    pub fn diameter_at(&self, z: f64) -> f64 {
        let held = self.seats.iter().find(|s| s.from - 1e-6 <= z && z <= s.to + 1e-6);
        held.map_or_else(|| self.diameter(), |s| s.diameter)
    }

    /// Its body.
    ///
    /// # Errors
    /// Seats that do not follow one another, sizes that leave no body.
    pub fn body(&self) -> Result<Brep, Refusal> {
        if !self.seats.iter().zip(self.seats.iter().skip(1)).all(|(a, b)| (a.to - b.from).abs() < 1e-6) {
            return Err(Refusal::Disordered);
        }
        let [begin, end] = self.ends();
        let (Some(first), Some(last)) = (self.seats.first(), self.seats.last()) else { return Err(Refusal::Empty) };
        let mut profile: Vec<[f64; 2]> = match &self.holes[0] {
            Some(hole) => hole.corners().iter().map(|[r, d]| [*r, begin + d]).chain([[hole.sink / 2.0, begin]]).collect(),
            None => vec![[0.0, begin]],
        };
        profile.push([first.diameter / 2.0 - self.chamfer, begin]);
        for (i, seat) in self.seats.iter().enumerate() {
            let r = seat.diameter / 2.0;
            profile.push([r, if i == 0 { seat.from + self.chamfer } else { seat.from }]);
            profile.push([r, if i + 1 == self.seats.len() { seat.to - self.chamfer } else { seat.to }]);
        }
        profile.push([last.diameter / 2.0 - self.chamfer, end]);
        match &self.holes[1] {
            Some(hole) => profile.extend([[hole.sink / 2.0, end]].into_iter().chain(hole.corners().iter().rev().map(|[r, d]| [*r, end - d]))),
            None => profile.push([0.0, end]),
        }
        let bar = revolved(&profile, &FLAT)?;
        let Some((way, _)) = &self.keyways else { return Ok(bar) };
        self.ways().into_iter().try_fold(bar, |body, [from, to]| {
            let floor = self.diameter_at(from.midpoint(to)) / 2.0 - way.depth;
            slotted(body, &Slot { from, to, width: way.width, floor })
        })
    }
}
