//! `[[door]]`, `[sensor_panels]`, `[clean_out]`, `[removal]`, `[monitoring]`: what people open and what watches the foot.

use super::reader::{spec_table, words};
use crate::units::{Length, Ratio, Time};

words!(
    /// The wall of the foot that an opening is in.
    Wall {
        /// End plate on the up side.
        UpEnd = "up end",
        /// End plate on the down side.
        DownEnd = "down end",
        /// Side plate toward the viewer.
        Near = "near side",
        /// Side plate away from the viewer.
        Far = "far side",
    }
);

words!(
    /// The end plate that the panel is in through which the foot pulley comes out.
    RemovalEnd {
        /// End plate on the up side.
        Up = "up end",
        /// End plate on the down side.
        Down = "down end",
        /// There is none.
        None = "none",
    }
);

impl RemovalEnd {
    /// The wall; nothing where there is no panel.
    pub const fn wall(self) -> Option<Wall> {
        match self {
            Self::Up => Some(Wall::UpEnd),
            Self::Down => Some(Wall::DownEnd),
            Self::None => None,
        }
    }
}

spec_table!(
    /// One inspection door. No `[[door]]` at all gives two by rule.
    Door, AskedDoor, "door", {
        /// Wall it is in.
        on: Wall;
        /// Clear width.
        width: Length, 80.0 ..= 1500.0;
        /// Clear height.
        height: Length, 80.0 ..= 2000.0;
        /// Lowest edge above the underside of the base.
        sill: Length, 0.0 ..= 20000.0;
        /// Middle of the door from the foot shaft (side plates, toward the up side) or from the belt's middle (end plates, toward the near side).
        offset: Length, -5000.0 ..= 5000.0;
        /// Whether a fixed steel mesh stays in place behind the leaf.
        mesh: bool;
        /// Clear opening of the mesh, side of the square.
        mesh_opening: Length, 1.0 ..= 200.0;
        /// Distance from the mesh to the nearest moving part.
        mesh_distance: Length, 0.0 ..= 3000.0;
    }
);

spec_table!(
    /// Panels for belt-alignment sensors, in the side plates.
    SensorPanels, AskedSensorPanels, "sensor_panels", {
        /// In the near side plate.
        near: bool;
        /// In the far side plate.
        far: bool;
        /// Side of the square opening.
        size: Length, 60.0 ..= 600.0;
    }
);

spec_table!(
    /// Clean-out doors at the bottom of the end plates.
    CleanOut, AskedCleanOut, "clean_out", {
        /// In the up-side end plate.
        up: bool;
        /// In the down-side end plate.
        down: bool;
        /// Clear height of the opening.
        height: Length, 40.0 ..= 1000.0;
    }
);

spec_table!(
    /// Bolted panel over the whole inside width of an end plate, through which the foot pulley comes out when its shaft is drawn.
    Removal, AskedRemoval, "removal", {
        /// End plate that it is in, or none.
        on: RemovalEnd;
        /// Clear height of the opening.
        height: Length, 100.0 ..= 4000.0;
        /// Lowest edge of the opening above the underside of the base.
        sill: Length, 0.0 ..= 20000.0;
    }
);

spec_table!(
    /// Monitoring of motion, alignment and bearings.
    Monitoring, AskedMonitoring, "monitoring", {
        /// Whether a motion sensor looks at the foot shaft.
        motion: bool;
        /// Whether belt alignment is watched.
        alignment: bool;
        /// Whether temperature or vibration of the foot bearings is watched.
        bearings: bool;
        /// Speed loss that raises the alarm.
        alarm_slip: Ratio, 0.01 ..= 0.5;
        /// Speed loss that stops the drive.
        stop_slip: Ratio, 0.02 ..= 0.6;
        /// Targets (pulses) per turn.
        pulses: u32, 1.0 ..= 60.0;
        /// Delay of the sensor until it trips.
        delay: Time, 0.0 ..= 120.0;
        /// How long the feeder runs on after the trip.
        feeder_run_on: Time, 0.0 ..= 600.0;
    }
);
