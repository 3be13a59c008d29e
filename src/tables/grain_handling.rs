//! What US law asks of bucket elevators in grain handling, and what it stands for elsewhere.
//!
//! In: a clause, whether US federal rules apply and the product is grain or what is made of it. Out: the source to print. The law is for grain elevators, feed,
//! flour, rice and corn mills and the like; in a cement works or in another country the same is good practice, not law.

use crate::sources::Source;

/// Belts conduct.
pub const BELT: Source = Source::law("OSHA 29 CFR 1910.272(q)(2)");
/// Access to the boot for clean-out and for inspection.
pub const ACCESS: Source = Source::law("OSHA 29 CFR 1910.272(q)(3)");
/// Bearings outside, or watched.
pub const BEARINGS: Source = Source::law("OSHA 29 CFR 1910.272(q)(4)");
/// Motion detection.
pub const MOTION: Source = Source::law("OSHA 29 CFR 1910.272(q)(5)");
/// Belt alignment.
pub const ALIGNMENT: Source = Source::law("OSHA 29 CFR 1910.272(q)(6)");
/// The same where the law does not reach.
pub const ELSEWHERE: Source = Source::practice("what US law asks of elevators for grain (OSHA 29 CFR 1910.272(q))");

/// A clause where it is law, else what it stands for.
pub fn source(clause: Source, us: bool, grain: bool) -> Source {
    if us && grain { clause } else { ELSEWHERE }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_for_us_grain_alone() {
        assert_eq!(source(MOTION, true, true), MOTION);
        for (us, grain) in [(false, true), (true, false), (false, false)] {
            assert_eq!(source(MOTION, us, grain), ELSEWHERE);
        }
    }
}
