//! `[shaft]`, `[bearings]`, `[take_up]`: what turns in the foot and what tightens the belt.

use super::reader::{spec_table, words};
use crate::units::{Force, Length, Mass, Ratio, Stress, Time, Torque};

words!(
    /// Shaft ends that are drilled and tapped for a speed target.
    TappedEnd {
        /// The end at the near side.
        Near = "near",
        /// The end at the far side.
        Far = "far",
        /// Both ends.
        Both = "both",
        /// None.
        None = "none",
    }
);

words!(
    /// Kind of foot bearing.
    BearingKind {
        /// Two-bolt flange unit on a sliding plate.
        TwoBoltFlange = "two-bolt flange",
        /// Four-bolt flange unit on a sliding plate.
        FourBoltFlange = "four-bolt flange",
        /// Pillow block on a sliding bracket.
        PillowBlock = "pillow block",
        /// Take-up frame with its own bearing.
        TakeUpFrame = "take-up frame",
    }
);

words!(
    /// What tightens the belt.
    TakeUpKind {
        /// A threaded rod each side, turned by hand.
        Screw = "screw",
        /// A box of weights on each sliding plate.
        Gravity = "gravity",
    }
);

words!(
    /// How a take-up rod works.
    RodAction {
        /// The rod pulls the bearing plate.
        Pull = "pull",
        /// The rod pushes the bearing plate.
        Push = "push",
    }
);

spec_table!(
    /// Foot shaft.
    Shaft, AskedShaft, "shaft", {
        /// Diameter in the hubs.
        diameter: Length, 20.0 ..= 300.0;
        /// Diameter in the bearings.
        journal: Length, 20.0 ..= 300.0;
        /// Steel.
        steel: String;
        /// Distance between bearing centres.
        bearing_centres: Length, 100.0 ..= 4000.0;
        /// Shaft end beyond the bearing centre.
        projection: Length, 10.0 ..= 500.0;
        /// Which end is drilled and tapped for a speed target.
        tapped_end: TappedEnd;
        /// Thread of the tapped end, e.g. M20.
        thread: String;
        /// Usable depth of the thread.
        thread_depth: Length, 5.0 ..= 200.0;
        /// Depth of the drilled hole.
        drill_depth: Length, 5.0 ..= 250.0;
    }
);

impl Shaft {
    /// From end to end, mm.
    pub fn length(&self) -> f64 {
        self.bearing_centres.value.value() + 2.0 * self.projection.value.value()
    }
}

spec_table!(
    /// Foot bearings.
    Bearings, AskedBearings, "bearings", {
        /// Kind of unit.
        kind: BearingKind;
        /// Basic dynamic load rating C.
        rating: Force, 1000.0 ..= 2000000.0;
        /// Basic static load rating C0.
        static_rating: Force, 500.0 ..= 2000000.0;
        /// Wanted life L10h.
        life: Time, 3600000.0 ..= 1800000000.0;
        /// Whether the bearings sit outside the casing, with no part of the bearing or its inner seal in it.
        outside: bool;
    }
);

spec_table!(
    /// Take-up.
    TakeUp, AskedTakeUp, "take_up", {
        /// Screw or gravity.
        kind: TakeUpKind;
        /// Travel of the foot shaft, lowest to highest position.
        travel: Length, 20.0 ..= 3000.0;
        /// Length of belt kept for one new splice.
        splice: Length, 0.0 ..= 5000.0;
        /// Rod thread: trapezoidal, e.g. Tr30x6, or Acme, e.g. Acme 1-5; of a gravity take-up the rod of its stop and lock.
        rod: String;
        /// Whether the rod pushes the sliding plate down from a bracket above it, as drawn, or pulls it from below.
        action: RodAction;
        /// Yield strength of the rod.
        rod_yield: Stress, 150.0 ..= 1200.0;
        /// Thickness of the lug on the sliding plate that a rod is held in.
        lug: Length, 5.0 ..= 100.0;
        /// Thickness of the shelf on the side plate that a rod is held in.
        shelf: Length, 5.0 ..= 100.0;
        /// Height of the gussets under that shelf.
        gusset: Length, 20.0 ..= 500.0;
        /// Thread friction.
        friction: Ratio, 0.05 ..= 0.5;
        /// Torque at which the spanner that comes with the rods lets go: nobody tightens them harder.
        torque: Torque, 2.0 ..= 2000.0;
        /// Friction coefficient of the sliding plates of a gravity take-up in their guides.
        guide_friction: Ratio, 0.05 ..= 0.6;
        /// Gap of a gravity take-up's stop: how far the boxes fall before it catches them when the belt parts.
        stop_gap: Length, 1.0 ..= 200.0;
        /// Outer diameter of the ring of polyurethane under that stop.
        buffer: Length, 30.0 ..= 300.0;
        /// Mass of both weight boxes of a gravity take-up with what holds them, empty, where it is known; left out, the drawn ones are weighed.
        frame_mass: Option<Mass>, 0.0 ..= 5000.0;
        /// Mass of the weights in both boxes.
        weights: Mass, 0.0 ..= 20000.0;
        /// Weight box, one each side: length along the machine, outside.
        box_length: Length, 50.0 ..= 3000.0;
        /// Weight box, width out from the casing, outside.
        box_width: Length, 50.0 ..= 2000.0;
        /// Weight box, height, outside.
        box_height: Length, 50.0 ..= 2000.0;
    }
);
