//! The one font of the sheets: its file, its names, its glyphs, and which character is drawn for which.
//!
//! In: characters. Out: the glyph and advance of each as it is drawn. Layout measures with these and every
//! format draws them, without kerning, glyph beside glyph, so that a text is as wide in all files as it was
//! laid out. Nothing here promises that a viewer has the font installed.

use std::sync::LazyLock;
use ttf_parser::GlyphId;

use super::style::Face;

/// Family name under which viewers find the font.
pub const FAMILY: &str = "DejaVu Sans Condensed";

/// Family of the normal width, for viewers that file the condensed faces under it.
pub const FAMILY_NORMAL: &str = "DejaVu Sans";

/// Height of the capitals in em: 1493 of 2048 units (the outline of its H).
pub const CAP_HEIGHT: f64 = 1493.0 / 2048.0;

/// The sign that is drawn before a diameter. The font has ⌀ (U+2300) too, but the diameter code of CAD files is
/// drawn as this letter, and sheets shall be alike in all formats.
pub const DIAMETER: char = 'Ø';

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

/// The character that is drawn for a character of a text: the three diameter signs are one.
pub const fn drawn_for(c: char) -> char {
    match c {
        '⌀' | '∅' => DIAMETER,
        _ => c,
    }
}

/// The text with the characters that are drawn.
pub fn drawn(content: &str) -> String {
    content.chars().map(drawn_for).collect()
}

/// What is drawn for one character.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Glyph {
    /// Index in the font; `None` where the font lacks the character and draws its box.
    pub index: Option<u16>,
    /// Advance, em.
    pub advance: f64,
}

/// The glyph that is drawn for a character.
pub fn glyph(c: char, face: Face) -> Glyph {
    let font = font(face);
    font.kept.get(c as usize).copied().unwrap_or_else(|| font.look_up(c))
}

/// Width of a text in heights of its capitals.
pub fn width(content: &str, face: Face) -> f64 {
    content.chars().map(|c| glyph(c, face).advance).sum::<f64>() / CAP_HEIGHT
}

/// The first character of a text that one of the faces does not have.
pub fn lacking(content: &str) -> Option<char> {
    content.chars().find(|c| [Face::Regular, Face::Bold].iter().any(|face| glyph(*c, *face).index.is_none()))
}

/// A face with the glyphs of the characters that sheets are written with.
struct Font {
    face: Option<ttf_parser::Face<'static>>,
    /// By code point; looking each up in the font took more than half of a layout's time.
    kept: Vec<Glyph>,
}

/// First code point that is not kept: all letters, signs and arrows of the sheets lie below.
const KEPT: u32 = 0x2400;

/// Advance where the font cannot be read or lacks its own box, em.
const MISSING: f64 = 0.6;

impl Font {
    fn new(face: Face) -> Self {
        let mut font = Self { face: ttf_parser::Face::parse(bytes(face), 0).ok(), kept: Vec::new() };
        font.kept = (0..KEPT).map(|code| font.look_up(char::from_u32(code).unwrap_or(char::REPLACEMENT_CHARACTER))).collect();
        font
    }

    fn look_up(&self, c: char) -> Glyph {
        let Some(face) = &self.face else { return Glyph { index: None, advance: MISSING } };
        let index = face.glyph_index(drawn_for(c));
        let advance = face.glyph_hor_advance(index.unwrap_or(GlyphId(0))).map_or(MISSING, |a| f64::from(a) / f64::from(face.units_per_em()));
        Glyph { index: index.map(|i| i.0), advance }
    }
}

static REGULAR: LazyLock<Font> = LazyLock::new(|| Font::new(Face::Regular));
static BOLD: LazyLock<Font> = LazyLock::new(|| Font::new(Face::Bold));

fn font(face: Face) -> &'static Font {
    match face {
        Face::Regular => &REGULAR,
        Face::Bold => &BOLD,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_we_use_is_in_the_font() {
        for face in [Face::Regular, Face::Bold] {
            for c in "⌀R□×°±−–≤≥→½²³äöüßÄÖÜ\"'µρ·".chars() {
                assert!(glyph(c, face).index.is_some(), "{face:?} lacks {c}");
            }
        }
        assert_eq!(glyph('\u{4e00}', Face::Regular).index, None, "a Chinese character is not in DejaVu");
        assert_eq!((lacking("Größe ⌀ Ñ"), lacking("ab\u{4e00}\u{4e01}")), (None, Some('\u{4e00}')));
    }

    #[test]
    fn capitals_are_as_high_as_the_font_says() {
        for face in [REGULAR.face.as_ref(), BOLD.face.as_ref()].map(Option::unwrap) {
            let h = face.glyph_bounding_box(face.glyph_index('H').unwrap()).unwrap();
            assert_eq!((h.y_min, f64::from(h.y_max) / f64::from(face.units_per_em())), (0, CAP_HEIGHT));
        }
    }

    /// Outside value: fontTools 4.x, hmtx advances of DejaVuSansCondensed.ttf in 2048 units: a figure 1172, Ø 1450.
    #[test]
    fn advances_are_those_of_the_font() {
        let of = |text: &str| width(text, Face::Regular) * 1493.0;
        assert!((of("1") - 1172.0).abs() < 1e-6);
        assert!((of("8888") - 4.0 * 1172.0).abs() < 1e-6);
        assert!((of("Ø") - 1450.0).abs() < 1e-6, "{}", of("Ø"));
    }

    #[test]
    fn all_diameter_signs_are_one() {
        assert_eq!(drawn("⌀14 ∅3 Ø5"), "Ø14 Ø3 Ø5");
        for face in [Face::Regular, Face::Bold] {
            assert_eq!(glyph('⌀', face), glyph(DIAMETER, face));
            assert_eq!(glyph('∅', face), glyph(DIAMETER, face));
        }
    }
}
