//! `[belt]`: the belt.

use super::reader::{spec_table, words};
use crate::units::{AreaMass, Length, LineForce, Ratio};

words!(
    /// What carries the tension in the belt.
    Carcass {
        /// Fabric plies.
        Fabric = "fabric",
        /// Steel cords.
        SteelCord = "steel cord",
    }
);

spec_table!(
    /// The belt.
    Belt, AskedBelt, "belt", {
        /// Width.
        width: Length, 80.0 ..= 2500.0;
        /// Thickness.
        thickness: Length, 2.0 ..= 40.0;
        /// Mass per area.
        mass: AreaMass, 1.0 ..= 80.0;
        /// What carries the tension.
        carcass: Carcass;
        /// Number of plies.
        plies: u32, 1.0 ..= 10.0;
        /// Lasting and elastic stretch that the take-up must take out, as a share of the belt length.
        stretch: Ratio, 0.0 ..= 0.05;
        /// Smallest pulley at full wrap.
        min_pulley: Length, 50.0 ..= 2500.0;
        /// Smallest pulley where the wrap is small (bend pulley).
        min_bend_pulley: Length, 50.0 ..= 2500.0;
        /// Tension that keeps the belt on the foot pulley, per belt width.
        tracking_tension: LineForce, 0.2 ..= 30.0;
        /// Allowed working tension per belt width.
        strength: LineForce, 5.0 ..= 2000.0;
        /// Whether the belt conducts static charge (surface resistance at most 300 MΩ).
        conductive: bool;
    }
);
