//! Friction between belt and head pulley by lagging.
//!
//! Out: the running design value of the friction coefficient, dry, with its source.

use crate::sources::Source;

/// Running design values of bare and rubber-lagged pulleys.
pub const SOURCE: Source = Source::book("CEMA, Belt Conveyors for Bulk Materials").remark("design values for running");
/// Ceramic lagging, which the running design values leave out: the low end of 0.40 to 0.45.
pub const DIN_22101: Source = Source::standard("DIN 22101").remark("ceramic lagging, dry").from_memory();

/// Friction on one surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Friction {
    /// Coefficient.
    pub coefficient: f64,
    /// Where it comes from.
    pub source: Source,
}

/// Bare steel.
pub const BARE: Friction = Friction { coefficient: 0.25, source: SOURCE };
/// Rubber, grooved.
pub const RUBBER: Friction = Friction { coefficient: 0.35, source: SOURCE };
/// Ceramic.
pub const CERAMIC: Friction = Friction { coefficient: 0.40, source: DIN_22101 };

#[cfg(test)]
mod tests {
    use super::*;

    /// CEMA's wrap factors of an automatic take-up at 180° are these coefficients: 0.84 bare, 0.50 lagged.
    #[test]
    fn wrap_factors() {
        let wrap = |f: Friction| 1.0 / ((f.coefficient * std::f64::consts::PI).exp() - 1.0);
        assert!((wrap(BARE) - 0.84).abs() < 0.005 && (wrap(RUBBER) - 0.50).abs() < 0.005);
        const { assert!(CERAMIC.coefficient > RUBBER.coefficient) };
    }
}
