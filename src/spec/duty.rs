//! `[duty]`: what the elevator must do.

use super::reader::spec_table;
use crate::units::{Length, MassFlow, Ratio, Speed};

spec_table!(
    /// What the elevator must do.
    Duty, AskedDuty, "duty", {
        /// Product to be lifted per hour.
        capacity: MassFlow, 0.5 ..= 5000.0;
        /// Head shaft above foot shaft, take-up at its highest position (new belt).
        lift: Length, 2000.0 ..= 150000.0;
        /// Belt speed.
        belt_speed: Speed, 0.3 ..= 6.0;
        /// Share of the bucket volume that is filled in service.
        fill: Ratio, 0.1 ..= 1.2;
    }
);
