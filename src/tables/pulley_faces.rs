//! How much wider than its belt a pulley is.
//!
//! In: belt width in mm. Out: mm more. Wider belts wander further.

use crate::sources::Source;

/// Faces of belt pulleys.
pub const SOURCE: Source = Source::practice("face 50 mm wider than the belt up to 600 mm, 100 mm above");

/// What a pulley's face has more than the belt, mm. Source: [`SOURCE`].
pub const fn wider_mm(belt_mm: f64) -> f64 {
    if belt_mm <= 600.0 { 50.0 } else { 100.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_belts_wander_further() {
        assert_eq!([300.0, 600.0, 601.0, 1200.0].map(wider_mm), [50.0, 50.0, 100.0, 100.0]);
    }
}
