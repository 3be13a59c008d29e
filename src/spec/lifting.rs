//! `[lifting]`: the points by which the foot is lifted.

use super::reader::spec_table;
use crate::units::{Angle, Length, Mass};

spec_table!(
    /// Lugs under the top flange, four in all, for slings with bow shackles.
    Lifting, AskedLifting, "lifting", {
        /// Whether there are lugs.
        lugs: bool;
        /// Thickness of a lug.
        thickness: Length, 5.0 ..= 80.0;
        /// Height of a lug on the end plate.
        height: Length, 50.0 ..= 500.0;
        /// Working load limit of the shackle in a lug.
        shackle: Mass, 100.0 ..= 25000.0;
        /// Least angle of a sling from the horizontal.
        angle: Angle, 45.0 ..= 90.0;
    }
);
