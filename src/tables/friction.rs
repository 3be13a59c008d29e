//! Friction between belt and head pulley by lagging and condition.
//!
//! In: lagging and condition. Out: a range of the friction coefficient; take the low end for grip. The
//! wet values decide in damp places.

use crate::sources::Source;

/// Running design values.
pub const SOURCE: Source = Source::standard("CEMA, Belt Conveyors for Bulk Materials: 0.25 bare, 0.35 lagged");
/// By condition.
pub const DIN_22101: Source = Source::standard("DIN 22101").from_memory();

/// Surface of the pulley.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lagging {
    /// Bare steel.
    Bare,
    /// Rubber, grooved.
    Rubber,
    /// Ceramic.
    Ceramic,
}

impl Lagging {
    /// All laggings.
    pub const ALL: [Lagging; 3] = [Lagging::Bare, Lagging::Rubber, Lagging::Ceramic];
    /// The word in a spec.
    pub const fn word(self) -> &'static str {
        match self {
            Lagging::Bare => "bare",
            Lagging::Rubber => "rubber",
            Lagging::Ceramic => "ceramic",
        }
    }
    /// Running design value (CEMA); ceramic is taken as rubber, common practice.
    pub const fn design(self) -> f64 {
        match self {
            Lagging::Bare => 0.25,
            Lagging::Rubber | Lagging::Ceramic => 0.35,
        }
    }
}

/// Condition of the surfaces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Condition {
    /// Dry.
    Dry,
    /// Wet and clean.
    Wet,
    /// Wet with clay or loam.
    Muddy,
}

/// Low and high end of the friction coefficient (DIN 22101, from memory).
pub const fn range(lagging: Lagging, condition: Condition) -> (f64, f64) {
    match (lagging, condition) {
        (Lagging::Bare, Condition::Dry) => (0.35, 0.40),
        (Lagging::Bare, Condition::Wet) => (0.10, 0.10),
        (Lagging::Bare, Condition::Muddy) => (0.05, 0.10),
        (Lagging::Rubber, Condition::Dry) | (Lagging::Ceramic, Condition::Dry) => (0.40, 0.45),
        (Lagging::Rubber, Condition::Wet) => (0.35, 0.35),
        (Lagging::Rubber, Condition::Muddy) => (0.25, 0.30),
        (Lagging::Ceramic, Condition::Wet) => (0.35, 0.40),
        (Lagging::Ceramic, Condition::Muddy) => (0.35, 0.35),
    }
}

/// Wrap factor Cw of a hand-set take-up at 180° (CEMA, from memory): larger, because the tension sags.
pub const fn screw_take_up_wrap_factor(lagging: Lagging) -> f64 {
    match lagging {
        Lagging::Bare => 1.2,
        Lagging::Rubber | Lagging::Ceramic => 0.8,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values() {
        // CEMA running values as read
        assert_eq!((Lagging::Bare.design(), Lagging::Rubber.design(), Lagging::Ceramic.design()), (0.25, 0.35, 0.35));
        // DIN 22101 by condition
        use {Condition::*, Lagging::*};
        let rows = [
            (Bare, Dry, (0.35, 0.40)),
            (Bare, Wet, (0.10, 0.10)),
            (Bare, Muddy, (0.05, 0.10)),
            (Rubber, Dry, (0.40, 0.45)),
            (Rubber, Wet, (0.35, 0.35)),
            (Rubber, Muddy, (0.25, 0.30)),
            (Ceramic, Dry, (0.40, 0.45)),
            (Ceramic, Wet, (0.35, 0.40)),
            (Ceramic, Muddy, (0.35, 0.35)),
        ];
        for (lagging, condition, want) in rows {
            assert_eq!(range(lagging, condition), want, "{lagging:?} {condition:?}");
        }
        // CEMA: hand-set take-ups need more than the automatic 0.84 and 0.50 of Cw = 1/(e^{μπ} − 1)
        for l in Lagging::ALL {
            let automatic = 1.0 / ((l.design() * std::f64::consts::PI).exp() - 1.0);
            assert!(screw_take_up_wrap_factor(l) > automatic * 0.99 + 0.2);
        }
        assert_eq!((screw_take_up_wrap_factor(Bare), screw_take_up_wrap_factor(Rubber)), (1.2, 0.8));
        assert_eq!(Lagging::ALL.map(Lagging::word), ["bare", "rubber", "ceramic"]);
    }
}
