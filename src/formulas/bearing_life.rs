//! Rolling bearing life.
//!
//! In: ratings and loads in kN, speed in rev/min. Out: million revolutions and hours. Basic rating life
//! with the reliability factor; lubrication, dirt and fatigue limit (a_ISO) are not covered.

use crate::sources::Source;

/// Basic rating life.
pub const LIFE: Source = Source::standard("ISO 281:2007").from_memory();

/// Kind of rolling element, which sets the exponent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Element {
    /// Ball: p = 3.
    Ball,
    /// Roller: p = 10/3.
    Roller,
}

impl Element {
    /// Life exponent p.
    pub const fn exponent(self) -> f64 {
        match self {
            Element::Ball => 3.0,
            Element::Roller => 10.0 / 3.0,
        }
    }
}

/// Basic rating life in million revolutions: L10 = (C/P)^p. Source: [`LIFE`].
pub fn life_mrev(rating_kn: f64, load_kn: f64, element: Element) -> f64 {
    (rating_kn / load_kn).powf(element.exponent())
}

/// Basic rating life in hours: L10h = 10⁶/(60·n)·L10. Source: [`LIFE`].
///
/// ```
/// use footwell::formulas::bearing_life::{life_h, Element};
/// assert!((life_h(30.7, 4.0, 60.0, Element::Ball) - 125_584.0).abs() < 1.0);
/// ```
pub fn life_h(rating_kn: f64, load_kn: f64, rpm: f64, element: Element) -> f64 {
    1e6 / (60.0 * rpm) * life_mrev(rating_kn, load_kn, element)
}

/// Rating in kN that a life in hours needs: C = P·(60·n·L/10⁶)^{1/p}.
pub fn rating_needed_kn(load_kn: f64, rpm: f64, life_h: f64, element: Element) -> f64 {
    load_kn * (60.0 * rpm * life_h / 1e6).powf(1.0 / element.exponent())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Shigley Prob. 11-6: 5000 h, 900 rpm, 10.60 kN: x_D 270, C 68.51 kN. Prob. 11-1: 2.278·540^{1/3} = 18.550.
    #[test]
    fn shigley() {
        assert!((rating_needed_kn(10.60, 900.0, 5000.0, Element::Ball) - 68.51).abs() < 0.01);
        assert!((rating_needed_kn(2.278, 300.0, 30_000.0, Element::Ball) - 18.550).abs() < 0.001);
    }

    /// Computed: 30.7/4.0 at 60 rpm: 452.10 Mrev, 125 584 h; 35.1/5.0 at 80 rpm: 345.95, 72 073 h.
    #[test]
    fn computed() {
        assert!((life_mrev(30.7, 4.0, Element::Ball) - 452.10).abs() < 0.01);
        assert!((life_mrev(35.1, 5.0, Element::Ball) - 345.95).abs() < 0.01);
        assert!((life_h(35.1, 5.0, 80.0, Element::Ball) - 72_073.0).abs() < 1.0);
    }

    #[test]
    fn inverse_and_rollers() {
        for e in [Element::Ball, Element::Roller] {
            let c = rating_needed_kn(7.0, 55.0, 40_000.0, e);
            assert!((life_h(c, 7.0, 55.0, e) - 40_000.0).abs() < 1e-6);
        }
        assert!((life_mrev(2.0, 1.0, Element::Roller) - 2f64.powf(10.0 / 3.0)).abs() < 1e-12);
    }
}
