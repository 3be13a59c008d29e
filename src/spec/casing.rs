//! `[casing]`: the steel foot casing and the trunking above it.

use super::reader::{spec_table, words};
use crate::units::Length;

words!(
    /// Shape of the casing's bottom.
    Bottom {
        /// Flat plate.
        Flat = "flat",
        /// Rolled round the bucket path.
        Curved = "curved",
    }
);

words!(
    /// Trunking above the foot.
    Trunk {
        /// One casing round both runs of the belt.
        Single = "single",
        /// One leg for each run.
        TwoLegs = "two legs",
    }
);

spec_table!(
    /// Foot casing.
    Casing, AskedCasing, "casing", {
        /// Plate thickness of sides and ends.
        plate: Length, 1.5 ..= 30.0;
        /// Plate thickness of the bottom.
        bottom_plate: Length, 2.0 ..= 40.0;
        /// Shape of the bottom.
        bottom: Bottom;
        /// Gap from the bucket tips to the bottom, take-up at its lowest.
        bottom_clearance: Length, -200.0 ..= 500.0;
        /// Gap from the bucket tips to the end plate on the up side.
        up_clearance: Length, -200.0 ..= 1000.0;
        /// Gap from the bucket tips to the end plate on the down side.
        down_clearance: Length, -200.0 ..= 1000.0;
        /// Gap from the widest of belt, pulley and bucket to each side plate.
        side_clearance: Length, -200.0 ..= 500.0;
        /// Feet under the bottom plate: underside of base to underside of bottom.
        feet: Length, 0.0 ..= 1000.0;
        /// Height of the top flange above the underside of the base.
        height: Length, 300.0 ..= 20000.0;
        /// Trunking above the foot.
        trunk: Trunk;
        /// Width of bolted flanges.
        flange: Length, 20.0 ..= 200.0;
        /// Steel.
        material: String;
        /// Surface finish and paint.
        finish: String;
    }
);
