//! Belt stretch and the take-up travel that it needs.
//!
//! In: belt length in mm, stretch as a share, the pulleys. Out: travel of the foot pulley in mm. The
//! relation of length and travel is that of the real path, so inclined runs need more travel than half
//! the stretch.

use crate::formulas::belt_path::{PathError, Pulleys, belt_path};
use crate::sources::Source;

/// Stretch of a belt in service.
pub const STRETCH: Source = Source::practice("fabric belts stretch about 1 to 2 %, steel cord much less");
/// Travel from stretch.
pub const TRAVEL: Source = Source::physics("the belt path's length as a function of the foot pulley's level, inverted");

/// Customary travel.
pub const LEAST: Source = Source::standard("UFGS-15559A").remark("US government guide specification, least take-up travel");
/// Least travel of a take-up, mm. Source: [`LEAST`].
pub const LEAST_TRAVEL: f64 = 225.0;
/// Travel beyond which a belt is shortened instead.
pub const SHORTENED: Source = Source::practice("a belt that stretches more than the take-up's travel is shortened at its splice, in whole bucket spacings");

/// How often a belt is shortened while it stretches by `extra_mm`, when the travel takes out `taken_mm` of its length and it is closed in
/// steps of `splice_mm` (0: anywhere); nothing where the travel takes out less than one step. Source: [`SHORTENED`].
///
/// ```
/// use footwell::formulas::stretch::shortenings;
/// // 800 mm of travel length, steps of 230 mm: three steps, 690 mm, at a time; 1500 mm more than the travel takes out.
/// assert_eq!(shortenings(2300.0, 800.0, 230.0), Some(3));
/// assert_eq!(shortenings(700.0, 800.0, 230.0), Some(0));
/// assert_eq!(shortenings(2300.0, 200.0, 230.0), None);
/// ```
pub fn shortenings(extra_mm: f64, taken_mm: f64, splice_mm: f64) -> Option<u32> {
    let at_once = if splice_mm > 0.0 { (taken_mm / splice_mm + 1e-9).floor() * splice_mm } else { taken_mm };
    let more = (extra_mm - taken_mm).max(0.0);
    if at_once > 0.0 { Some((more / at_once - 1e-9).ceil().max(0.0) as u32) } else { (more <= 0.0 && splice_mm <= taken_mm).then_some(0) }
}

/// Extra length in mm of a belt of a given length (mm) after a stretch (share of one).
pub fn extra_length_mm(length_mm: f64, stretch: f64) -> f64 {
    length_mm * stretch
}

/// Travel in mm, downwards from the given position of the foot pulley, that takes up an extra belt
/// length in mm. Newton's method with the analytic derivative, to 1e-9 of the belt length.
/// Source: [`TRAVEL`].
///
/// # Errors
/// [`PathError`] when the pulleys make no path.
///
/// ```
/// use footwell::formulas::{belt_path::Pulleys, stretch::travel_for_mm};
/// // vertical runs: half the extra length
/// let p = Pulleys::usual(315.0, 0.0, 315.0, 20_000.0, None);
/// assert!((travel_for_mm(&p, 420.0).unwrap() - 210.0).abs() < 1e-6);
/// ```
pub fn travel_for_mm(pulleys: &Pulleys, extra_length_mm: f64) -> Result<f64, PathError> {
    let wanted = belt_path(pulleys)?.length_mm + extra_length_mm;
    let mut travel = 0.0;
    for _ in 0..20 {
        let path = belt_path(&pulleys.with_foot_at(pulleys.foot.centre.y - travel))?;
        let missing = wanted - path.length_mm;
        travel += missing / path.length_per_lowering;
        if missing.abs() < 1e-9 * wanted {
            break;
        }
    }
    Ok(travel)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn travel_takes_up_the_stretch() {
        // 60 m of fabric belt and 1.5 %
        assert!((extra_length_mm(60_000.0, 0.015) - 900.0).abs() < 1e-9);
        for pulleys in [
            Pulleys::usual(315.0, 0.0, 315.0, 20_000.0, None),
            Pulleys::usual(250.0, 0.0, 600.0, 9_000.0, None),
            Pulleys::usual(405.0, 0.0, 1105.0, 30_000.0, Some((255.0, 2600.0))),
        ] {
            let length = belt_path(&pulleys).unwrap().length_mm;
            let extra = extra_length_mm(length, 0.015);
            let travel = travel_for_mm(&pulleys, extra).unwrap();
            let after = belt_path(&pulleys.with_foot_at(-travel)).unwrap().length_mm;
            assert!((after - length - extra).abs() < 1e-5, "{}", after - length - extra);
            assert!(travel >= extra / 2.0 - 1e-9);
        }
        let leaning = Pulleys::usual(405.0, 0.0, 1105.0, 30_000.0, Some((255.0, 2600.0)));
        assert!(travel_for_mm(&leaning, 400.0).unwrap() > 205.0);
        assert!(travel_for_mm(&Pulleys::usual(-1.0, 0.0, 315.0, 20_000.0, None), 5.0).is_err());
    }
}
