//! The plate that a bucket is pressed from and the bolts that hold it on the belt, by its length.
//!
//! In: length across the belt. Out: thickness and places of the bolts in mm, their thread. Common practice, no source; the
//! bucket's maker has the last word.

use crate::tables::threads::{self, Thread};

/// Thickness, mm.
pub const fn thickness(length: f64) -> f64 {
    match length {
        l if l <= 250.0 => 2.0,
        l if l <= 400.0 => 2.5,
        _ => 3.0,
    }
}

/// Thread of the bolts.
pub fn bolt(length: f64, us: bool) -> Option<&'static Thread> {
    let metric = match length {
        l if l <= 160.0 => "M6",
        l if l <= 315.0 => "M8",
        l if l <= 500.0 => "M10",
        _ => "M12",
    };
    threads::of_job(metric, us)
}

/// Where the bolts stand across the belt, mm from the bucket's middle: two at least, one row, about 90 mm apart.
pub fn bolts(length: f64) -> Vec<f64> {
    let count = (length / 90.0).round().max(2.0);
    let pitch = length / count;
    (0..count as usize).map(|i| (i as f64 - (count - 1.0) / 2.0) * pitch).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bolts_stand_in_the_bucket_and_evenly() {
        for length in [60.0, 180.0, 280.0, 500.0, 1200.0] {
            let at = bolts(length);
            assert!(at.len() >= 2 && at.iter().all(|y| y.abs() < length / 2.0 - 10.0), "{at:?}");
            assert!((at.iter().sum::<f64>()).abs() < 1e-9);
        }
        assert_eq!(bolts(270.0), [-90.0, 0.0, 90.0]);
    }
}
