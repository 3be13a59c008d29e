//! `[bucket]`: the elevator bucket and how it is spaced on the belt.

use super::reader::{Outline, spec_table};
use crate::units::{Length, Mass, Volume};

spec_table!(
    /// The elevator bucket.
    Bucket, AskedBucket, "bucket", {
        /// Length across the belt.
        length: Length, 60.0 ..= 1200.0;
        /// Projection from the belt.
        projection: Length, 50.0 ..= 600.0;
        /// Height along the belt.
        height: Length, 40.0 ..= 600.0;
        /// Volume at water level.
        volume: Volume, 0.02 ..= 300.0;
        /// Mass with bolts.
        mass: Mass, 0.05 ..= 150.0;
        /// Rows side by side on the belt.
        rows: u32, 1.0 ..= 4.0;
        /// Distance along the belt from bucket to bucket of one row.
        spacing: Length, 60.0 ..= 2000.0;
        /// Gap between rows.
        row_gap: Length, 0.0 ..= 300.0;
        /// Section of the product space: corners as [out from the belt, up from the bucket's lowest point], from the upper end of the back round the bottom to the lip.
        outline: Outline;
    }
);
