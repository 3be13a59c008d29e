//! `[pit]`: the concrete pit, the feed that sets its depth, and the ground it stands in.

use super::inlets::Side;
use super::reader::{spec_table, words};
use crate::units::{Angle, Density, Length, Ratio};

words!(
    /// The way down.
    Access {
        /// Fixed ladder.
        Ladder = "ladder",
        /// Stair.
        Stair = "stair",
    }
);

words!(
    /// Where the pit opening is.
    AccessSide {
        /// At the up side.
        Up = "up",
        /// At the down side.
        Down = "down",
        /// At the near side.
        Near = "near",
        /// At the far side.
        Far = "far",
    }
);

spec_table!(
    /// The pit.
    Pit, AskedPit, "pit", {
        /// Whether the foot stands in a pit.
        fitted: bool;
        /// Pit floor below plant floor level ±0.000.
        depth: Length, 0.0 ..= 15000.0;
        /// Incoming feed: level of the spout or conveyor outlet (bottom) above floor level; negative below. Sets the depth when no depth is given.
        feed_level: Length, -10000.0 ..= 10000.0;
        /// Horizontal distance from the feed outlet to the inlet flange.
        feed_distance: Length, 0.0 ..= 30000.0;
        /// Slope of the spout between them.
        feed_slope: Angle, 0.0 ..= 85.0;
        /// Clear space from casing (or inlet) to the wall on the up side; left out, at least what the rule names (see module).
        up_space: Length, 0.0 ..= 10000.0;
        /// Clear space on the down side.
        down_space: Length, 0.0 ..= 10000.0;
        /// Clear space on the near side.
        near_space: Length, 0.0 ..= 10000.0;
        /// Clear space on the far side.
        far_space: Length, 0.0 ..= 10000.0;
        /// Step to which the walls of spaces that are left out are set, from the foot shaft axis and the belt's middle plane; 0 for none.
        module: Length, 0.0 ..= 500.0;
        /// Wall thickness, as an outline only.
        wall: Length, 50.0 ..= 2000.0;
        /// Slab thickness, as an outline only.
        slab: Length, 50.0 ..= 2500.0;
        /// Lean concrete under the slab.
        lean: Length, 0.0 ..= 500.0;
        /// Side of the square sump.
        sump: Length, 0.0 ..= 2000.0;
        /// Depth of the sump below the floor.
        sump_depth: Length, 0.0 ..= 2000.0;
        /// Fall of the floor to the sump.
        floor_fall: Ratio, 0.0 ..= 0.1;
        /// The way down.
        access: Access;
        /// At which wall.
        access_side: AccessSide;
        /// Clear width between the ladder's sides.
        ladder_width: Length, 200.0 ..= 1200.0;
        /// Largest distance of the ladder's rungs; they divide the depth evenly.
        rung_pitch: Length, 100.0 ..= 500.0;
        /// Clear width of the stair.
        stair_width: Length, 300.0 ..= 3000.0;
        /// Largest rise of the stair; the risers divide the depth evenly.
        stair_rise: Length, 80.0 ..= 350.0;
        /// Going of the stair.
        stair_going: Length, 100.0 ..= 500.0;
        /// Hatch in the cover over the way down: from the wall, or along the stair.
        hatch_length: Length, 200.0 ..= 12000.0;
        /// The same across the way down.
        hatch_width: Length, 200.0 ..= 4000.0;
        /// Side where the shaft is pulled out.
        shaft_pull: Side;
        /// Whether the opening is covered.
        cover: bool;
        /// Whether a guard rail stands round the opening.
        rail: bool;
        /// Height of the top rail above plant floor.
        rail_height: Length, 500.0 ..= 2000.0;
        /// Groundwater below floor level.
        groundwater: Option<Length>, 0.0 ..= 50000.0;
        /// Base slab beyond the walls all round (toe).
        toe: Length, 0.0 ..= 3000.0;
        /// Density of the soil above water.
        soil_density: Density, 1.0 ..= 2.6;
        /// Density of the saturated soil.
        soil_density_wet: Density, 1.2 ..= 2.8;
        /// Working space beyond the concrete at the foot of the excavation.
        working_space: Length, 0.0 ..= 3000.0;
        /// Slope of the excavation's sides.
        batter: Angle, 20.0 ..= 90.0;
        /// Elevators in a row in one pit.
        elevators: u32, 1.0 ..= 8.0;
        /// Distance between them.
        pitch: Length, 500.0 ..= 20000.0;
        /// Compass direction of the up side (+x), clockwise from north.
        up_side_bearing: Option<Angle>, 0.0 ..= 360.0;
        /// Where the setting-out point lies in the building's grid, like "axis 3 + 1250, axis C − 800".
        grid: Option<String>;
        /// Plant floor level ±0 above the site's datum.
        site_level: Option<Length>, -500_000.0 ..= 9_000_000.0;
    }
);
