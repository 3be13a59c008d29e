//! The one font of the sheets as an exporter needs it: its bytes, names and advance widths.
//!
//! In: a text. Out: how wide it stands, in heights of its capitals. All formats set the text without
//! kerning, glyph beside glyph, so that it is as wide everywhere. A character that the font lacks has
//! the width of the font's box; nothing here promises that a viewer has the font installed.

use crate::paper::mark::{Align, PaperPoint, Text};
use crate::paper::style::Face;
use std::sync::OnceLock;
use ttf_parser::GlyphId;

/// Family name under which viewers find the font.
pub const FAMILY: &str = "DejaVu Sans Condensed";

/// Family of the normal width, for viewers that file the condensed faces under it.
pub const FAMILY_NORMAL: &str = "DejaVu Sans";

/// Height of the capitals in em: 1493 of 2048 units (the outline of its H, read with fontTools).
pub const CAP_HEIGHT: f64 = 1493.0 / 2048.0;

/// The font file of a face.
pub fn bytes(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => dejavu::sans_condensed::regular(),
        Face::Bold => dejavu::sans_condensed::bold(),
    }
}

/// Usual file name of a face, as CAD files name fonts.
pub const fn file_name(face: Face) -> &'static str {
    match face {
        Face::Regular => "DejaVuSansCondensed.ttf",
        Face::Bold => "DejaVuSansCondensed-Bold.ttf",
    }
}

fn parsed(face: Face) -> Option<&'static ttf_parser::Face<'static>> {
    static REGULAR: OnceLock<Option<ttf_parser::Face<'static>>> = OnceLock::new();
    static BOLD: OnceLock<Option<ttf_parser::Face<'static>>> = OnceLock::new();
    let cell = match face {
        Face::Regular => &REGULAR,
        Face::Bold => &BOLD,
    };
    cell.get_or_init(|| ttf_parser::Face::parse(bytes(face), 0).ok()).as_ref()
}

/// A glyph with its advance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advance {
    /// Index of the glyph in the font.
    pub glyph: u32,
    /// Advance in em.
    pub em: f64,
    /// Where its character begins in the text, bytes.
    pub at: usize,
    /// Length of its character, bytes.
    pub len: usize,
}

/// The glyphs of a text, one for each character.
pub fn advances(content: &str, face: Face) -> Vec<Advance> {
    let font = parsed(face);
    content
        .char_indices()
        .map(|(at, c)| {
            let glyph = font.and_then(|f| f.glyph_index(c)).unwrap_or(GlyphId(0));
            let em = font.map_or(0.6, |f| f64::from(f.glyph_hor_advance(glyph).unwrap_or(0)) / f64::from(f.units_per_em()));
            Advance { glyph: u32::from(glyph.0), em, at, len: c.len_utf8() }
        })
        .collect()
}

/// The text as it is set: the diameter sign as Ø, which stands as high as the figures and is what CAD
/// programs draw for their diameter code, so that it is as wide in all formats.
pub fn drawn(content: &str) -> String {
    content.replace(['⌀', '∅'], "Ø")
}

/// Width of a text as it is set, in heights of its capitals.
pub fn width(content: &str, face: Face) -> f64 {
    advances(&drawn(content), face).iter().map(|a| a.em).sum::<f64>() / CAP_HEIGHT
}

/// Left end of a text's base line, paper mm.
pub fn left_end(text: &Text) -> PaperPoint {
    along(
        text,
        match text.align {
            Align::Left => 0.0,
            Align::Centre => -0.5,
            Align::Right => -1.0,
        },
    )
}

/// Middle of the capitals' box of a text, paper mm.
pub fn middle(text: &Text) -> PaperPoint {
    let base = along(
        text,
        match text.align {
            Align::Left => 0.5,
            Align::Centre => 0.0,
            Align::Right => -0.5,
        },
    );
    let (sin, cos) = text.angle.to_radians().sin_cos();
    PaperPoint::new(base.x - sin * text.height / 2.0, base.y + cos * text.height / 2.0)
}

fn along(text: &Text, widths: f64) -> PaperPoint {
    let way = widths * width(&text.content, text.face) * text.height;
    let (sin, cos) = text.angle.to_radians().sin_cos();
    PaperPoint::new(text.at.x + way * cos, text.at.y + way * sin)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_faces_parse_and_have_the_symbols_of_the_trade() {
        for face in [Face::Regular, Face::Bold] {
            for a in advances("⌀°±×−Ø≥≤→²³½äöüß", face) {
                assert_ne!(a.glyph, 0, "{face:?} lacks the character at byte {}", a.at);
            }
        }
    }

    #[test]
    fn digits_are_of_one_width() {
        // Figures of the condensed face advance by 1172 of 2048 units (its hmtx table, read with fontTools).
        let one = width("1", Face::Regular);
        assert!((one - 1172.0 / 1493.0).abs() < 1e-9, "{one}");
        assert!((width("8888", Face::Regular) - 4.0 * one).abs() < 1e-9);
    }

    #[test]
    fn all_diameter_signs_are_one() {
        assert_eq!(drawn("⌀14 ∅3 Ø5"), "Ø14 Ø3 Ø5");
        assert_eq!(width("⌀14", Face::Regular), width("Ø14", Face::Regular));
    }
}
