//! Sheet steel by its gauge.
//!
//! In: a gauge number. Out: the thickness in inches. The US standard gauge is a weight by law: so many ounces a square foot; makers take the
//! thickness of it at 41.82 lb a square foot and inch. Sources: weights 15 U.S.C. 206; the density of the manufacturers' standard
//! gauge for sheet steel, from memory.

/// Weight of gauges 3 to 26, ounces a square foot.
const OUNCES: [f64; 24] =
    [160.0, 150.0, 140.0, 130.0, 120.0, 110.0, 100.0, 90.0, 80.0, 70.0, 60.0, 50.0, 45.0, 40.0, 36.0, 32.0, 28.0, 24.0, 22.0, 20.0, 18.0, 16.0, 14.0, 12.0];

/// First gauge of the table.
const FIRST: usize = 3;

/// Pounds a square foot and inch of thickness.
const POUNDS: f64 = 41.82;

/// Thickness of a gauge in inches, to a ten thousandth as it is listed.
pub(super) fn thickness_in(gauge: usize) -> Option<f64> {
    let ounces = OUNCES.get(gauge.checked_sub(FIRST)?)?;
    Some((ounces / 16.0 / POUNDS * 1e4).round() / 1e4)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As lists of sheet steel print them (from memory).
    #[test]
    fn as_listed() {
        for (gauge, inch) in [(3, 0.2391), (7, 0.1793), (10, 0.1345), (11, 0.1196), (12, 0.1046), (14, 0.0747), (16, 0.0598), (20, 0.0359), (26, 0.0179)] {
            assert_eq!(thickness_in(gauge), Some(inch), "{gauge}");
        }
        assert_eq!((thickness_in(2), thickness_in(27)), (None, None));
    }
}
