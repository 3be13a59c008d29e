//! `[head_pulley]`, `[foot_pulley]`, `[bend_pulley]`: the pulleys of the belt path.

use super::reader::{spec_table, words};
use crate::units::{Angle, Length, Mass, Ratio};

words!(
    /// Surface of the head pulley.
    Lagging {
        /// Bare steel.
        Bare = "bare",
        /// Rubber lagging.
        Rubber = "rubber",
        /// Ceramic lagging.
        Ceramic = "ceramic",
    }
);

words!(
    /// Build of the foot pulley.
    PulleyStyle {
        /// Closed drum.
        Drum = "drum",
        /// Wings with open spaces, so that spilt product falls out.
        Winged = "winged",
    }
);

spec_table!(
    /// Head pulley.
    HeadPulley, AskedHeadPulley, "head_pulley", {
        /// Diameter over the lagging.
        diameter: Length, 100.0 ..= 3500.0;
        /// Surface.
        lagging: Lagging;
        /// Friction coefficient belt on pulley.
        friction: Ratio, 0.05 ..= 1.0;
        /// Most that the drive pulls over the pull of the duty, where a converter or a coupling limits it; left out, nothing but the motor does.
        pull_limit: Option<Ratio>, 1.1 ..= 5.0;
    }
);

impl HeadPulley {
    /// What the drive is limited to as a multiple of the duty's pull; `None` where nothing but the motor limits it.
    pub fn limit(&self) -> Option<f64> {
        self.pull_limit.value.map(Ratio::value)
    }
}

spec_table!(
    /// Foot pulley.
    FootPulley, AskedFootPulley, "foot_pulley", {
        /// Diameter.
        diameter: Length, 100.0 ..= 3500.0;
        /// Face width.
        face: Length, 80.0 ..= 2800.0;
        /// Build.
        style: PulleyStyle;
        /// Mass without shaft, where a maker gives it; left out, the drawn pulley is weighed.
        mass: Option<Mass>, 2.0 ..= 10000.0;
        /// Distance between the two hub (end) discs.
        hub_spacing: Length, 40.0 ..= 2700.0;
    }
);

spec_table!(
    /// Bend pulley on the down side.
    BendPulley, AskedBendPulley, "bend_pulley", {
        /// Whether there is one.
        fitted: bool;
        /// Diameter.
        diameter: Length, 80.0 ..= 2000.0;
        /// Belt's angle to the vertical between bend and foot pulley, take-up in the middle; sets the height.
        angle: Angle, 3.0 ..= 50.0;
        /// Bend pulley centre above the foot base; sets the angle.
        height: Length, 200.0 ..= 20000.0;
        /// Face width.
        face: Length, 80.0 ..= 2800.0;
        /// Shaft diameter.
        shaft: Length, 20.0 ..= 300.0;
        /// Mass without shaft, where a maker gives it; left out, the drawn pulley is weighed.
        mass: Option<Mass>, 2.0 ..= 5000.0;
    }
);
