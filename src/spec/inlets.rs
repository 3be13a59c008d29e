//! `[inlet.up]`, `[inlet.down]`, `[shovel_pocket]`: where material gets in.

use super::reader::{spec_table, words};
use crate::units::{Angle, Length};

words!(
    /// What brings the material to an inlet.
    FedBy {
        /// A sloping spout.
        Spout = "spout",
        /// A conveyor with its own outlet.
        Conveyor = "conveyor",
    }
);

words!(
    /// One of the two long sides of the foot.
    Side {
        /// Toward the viewer of the main elevation (+y).
        Near = "near",
        /// Away from the viewer (−y).
        Far = "far",
    }
);

spec_table!(
    /// One inlet.
    Inlet, AskedInlet, "inlet", {
        /// Whether there is one.
        fitted: bool;
        /// Sill: lowest edge of the opening above the underside of the foot base.
        sill: Length, 0.0 ..= 20000.0;
        /// Clear width of the throat.
        width: Length, 30.0 ..= 2500.0;
        /// Clear height of the opening, measured up the end plate.
        height: Length, 50.0 ..= 3000.0;
        /// Slope of the throat's floor.
        slope: Angle, 0.0 ..= 85.0;
        /// Horizontal reach of the throat from the end plate to its flange.
        reach: Length, 50.0 ..= 3000.0;
        /// Width of the flange.
        flange: Length, 20.0 ..= 200.0;
        /// What brings the material.
        fed_by: FedBy;
        /// Free fall of the material onto the throat's floor.
        drop: Length, 0.0 ..= 30000.0;
        /// Clear width of a spout or outlet of another size; a transition leads from it to the throat's flange.
        from_width: Option<Length>, 50.0 ..= 3000.0;
        /// Clear height of that spout or outlet.
        from_height: Option<Length>, 50.0 ..= 3000.0;
        /// Length of the transition between the faces of its flanges.
        from_length: Option<Length>, 120.0 ..= 3000.0;
    }
);

spec_table!(
    /// Shovel pocket: the hand-fed inlet on the side of the foot.
    ShovelPocket, AskedShovelPocket, "shovel_pocket", {
        /// Whether there is one.
        fitted: bool;
        /// On which side of the foot.
        side: Side;
        /// Clear width.
        width: Length, 150.0 ..= 1500.0;
        /// Clear height of its opening in the side plate.
        height: Length, 100.0 ..= 1500.0;
        /// Slope of its floor.
        slope: Angle, 20.0 ..= 80.0;
        /// Lip above the pit floor, over which is shovelled.
        lip: Length, 200.0 ..= 2500.0;
    }
);
