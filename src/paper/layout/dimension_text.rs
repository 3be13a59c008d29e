//! The words of a dimension, and the few lengths that all dimensions are drawn with.

use crate::paper::drafting::{Lettering, SheetStyle};
use crate::paper::request::{DimensionRequest, Quantity};
use crate::say::Voice;
use crate::say::number::{self, Written};
use crate::say::{Figures, LengthUnit};

/// Gap between a measured point and its extension line, paper mm (bible of the project: 1 mm).
pub const EXTENSION_GAP: f64 = 1.0;
/// How far an extension line passes its dimension line, paper mm (2 mm).
pub const EXTENSION_OVERSHOOT: f64 = 2.0;
/// First dimension line off the outline, paper mm (ISO 129-1: at least 10, from memory).
pub const FIRST_TRACK: f64 = 10.0;

/// Decimals of an inch of a size with limits (ASME Y14.5: as many as its limits have).
const INCH_DECIMALS: usize = 4;

/// Gap between dimension line and text: room for descenders.
pub fn text_gap(l: &Lettering) -> f64 {
    0.4 * l.text
}

/// Length of an arrow head.
pub fn arrow_length(l: &Lettering) -> f64 {
    l.text.max(2.5)
}

/// Distance of parallel dimension lines: at least 7 mm (ISO 129-1, from memory), more for larger lettering.
pub fn track_pitch(l: &Lettering) -> f64 {
    (2.4 * l.text).max(7.0)
}

/// The text of a dimension that stands alone.
pub fn own_text(request: &DimensionRequest, style: &SheetStyle) -> String {
    dimension_text(request, request.value(), Written::asked(request.decimals), style)
}

/// The text of a dimension as it stands on paper, with the figure that its chain gives it.
pub fn dimension_text(request: &DimensionRequest, value: f64, written: Written, style: &SheetStyle) -> String {
    let number = match request.quantity {
        Quantity::Angle { .. } => number::angle(value, request.decimals, style),
        _ if request.toleranced && style.unit == LengthUnit::InchFraction => {
            let figures = Figures { unit: LengthUnit::InchDecimal, ..style.figures };
            number::length_as(value, &figures, Written { decimals: Some(INCH_DECIMALS), finer: 0, trimmed: false })
        }
        _ => number::length_as(value, style, written),
    };
    let body = match request.pitches {
        Some(n) if n > 1 => {
            let pitch = value / n as f64;
            // Who multiplies the printed pitch must come to the printed length; else the pitch is not printed.
            let closes = (number::as_read(pitch, style, written) * n as f64 - number::as_read(value, style, written)).abs() < 1e-6;
            let parts = if closes {
                format!("{n} × {}", number::length_as(pitch, style, written))
            } else {
                Voice::new(&style.language, style.figures).say(&crate::say!("{count} equal", count = n))
            };
            format!("{}{parts} = {number}{}", request.prefix, request.suffix)
        }
        _ => format!("{}{number}{}", request.prefix, request.suffix),
    };
    if request.reference { format!("({body})") } else { body }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paper::mark::PlanePoint;

    #[test]
    fn texts() {
        let style = SheetStyle::default();
        let mut d = DimensionRequest::new(
            "k",
            Quantity::Linear { side: crate::paper::request::Side::Above, first: PlanePoint::new(0.0, 3.0), second: PlanePoint::new(800.0, 9.0) },
        );
        assert_eq!(own_text(&d, &style), "800");
        assert_eq!(own_text(d.pitches(8), &style), "8 × 100 = 800");
        assert_eq!(own_text(d.reference(), &style), "(8 × 100 = 800)");
        // 800 in 7 is 114.28…: 7 × 114.3 would be 800.1.
        assert_eq!(own_text(d.pitches(7), &style), "(7 equal = 800)");
        let c = DimensionRequest::new("k", Quantity::Diameter { centre: PlanePoint::default(), radius: 325.0 });
        assert_eq!(own_text(&c, &style), "⌀650");
    }
}
