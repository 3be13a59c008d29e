//! What US law asks of bucket elevators in grain handling, and what it stands for elsewhere.
//!
//! In: a clause, whether US federal rules apply and the product is grain. Out: the source to print. Paragraph (q) is law in grain elevators alone, by
//! (b)(2): where raw grain, beans and seeds are received, stored and shipped (definition in (c), from memory). In a mill for meal or flour, in a cement
//! works, or in another country the same is good practice, not law. Whether a plant is a grain elevator the spec does not say; the source says so.

use crate::sources::Source;

/// Where paragraph (q) is law.
const SCOPE: &str = "law for elevators inside grain elevators, by (b)(2)";

/// Belts conduct.
pub const BELT: Source = Source::law("OSHA 29 CFR 1910.272(q)(2)").remark(SCOPE);
/// Access to the boot for clean-out and for inspection.
pub const ACCESS: Source = Source::law("OSHA 29 CFR 1910.272(q)(3)").remark(SCOPE);
/// Bearings outside, or watched.
pub const BEARINGS: Source = Source::law("OSHA 29 CFR 1910.272(q)(4)").remark(SCOPE);
/// Motion detection.
pub const MOTION: Source = Source::law("OSHA 29 CFR 1910.272(q)(5)").remark(SCOPE);
/// Belt alignment.
pub const ALIGNMENT: Source = Source::law("OSHA 29 CFR 1910.272(q)(6)").remark(SCOPE);
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
