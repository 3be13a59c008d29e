//! How much paper a text takes, from the glyphs that are drawn for it ([`super::font`]).
//!
//! The height of a text is the height of its capitals. Widths are sums of advances without kerning, so the ink
//! is never wider than the box. Descenders hang below the box; whoever places a text leaves them room.

use super::font;
use super::mark::{Align, PaperPoint, Text};
use super::style::Face;
use crate::geometry::span_inside;
use kurbo::{Line, Rect};

/// Distance of base lines, as a share of the cap height; ISO 3098 asks for 1.4 to 1.6 between ink, from memory.
pub const LINE_PITCH: f64 = 1.8;

/// Width of a text in mm when its capitals are `height` mm high.
pub fn width(content: &str, height: f64, face: Face) -> f64 {
    font::width(content, face) * height
}

/// Breaks a text into lines of at most `limit` mm; a single longer word is broken where it must be.
pub fn wrap(content: &str, height: f64, face: Face, limit: f64) -> Vec<String> {
    let mut lines = Vec::new();
    for paragraph in content.split('\n') {
        let mut line = String::new();
        for word in words_that_stay_together(paragraph) {
            let longer = if line.is_empty() { word.clone() } else { format!("{line} {word}") };
            if width(&longer, height, face) <= limit {
                line = longer;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for c in word.chars() {
                line.push(c);
                if width(&line, height, face) > limit && line.chars().count() > 1 {
                    line.pop();
                    lines.push(std::mem::replace(&mut line, c.to_string()));
                }
            }
        }
        lines.push(line);
    }
    lines
}

/// Words of a text; sizes (`300 × 400`) and numbers with their units (`2.6 m/s`) are one word.
fn words_that_stay_together(text: &str) -> Vec<String> {
    const UNITS: [&str; 14] = ["mm", "m", "µm", "m/s", "t/h", "kg", "kN", "N", "N/mm", "MPa", "t/m³", "m³", "h", "%"];
    let mut out: Vec<String> = Vec::new();
    let mut glue = false;
    for word in text.split_whitespace() {
        let bare = word.trim_end_matches([',', '.', ';', ')', ':']);
        let sign = matches!(bare, "×" | "=" | "≥" | "≤");
        let unit = UNITS.contains(&bare) && out.last().is_some_and(|w| w.ends_with(|c: char| c.is_ascii_digit()));
        // `1 1/2"` and `7'-6 1/2"` are one size.
        let fraction = bare.split_once('/').is_some_and(|(top, _)| !top.is_empty() && top.chars().all(|c| c.is_ascii_digit()))
            && out.last().is_some_and(|w| w.ends_with(|c: char| c.is_ascii_digit()));
        match out.last_mut().filter(|_| glue || sign || unit || fraction) {
            Some(last) => {
                last.push(' ');
                last.push_str(word);
            }
            None => out.push(word.into()),
        }
        glue = sign;
    }
    out
}

/// Breaks a text into as few lines as `limit` allows, all about equally long.
pub fn wrap_even(content: &str, height: f64, face: Face, limit: f64) -> Vec<String> {
    let mut best = wrap(content, height, face, limit);
    let count = best.len();
    for k in 1..=8 {
        let tighter = wrap(content, height, face, limit * (1.0 - 0.06 * f64::from(k)));
        if tighter.len() > count {
            break;
        }
        best = tighter;
    }
    best
}

/// The ink box of a text: base line to cap height, full width, turned with the text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextBox {
    /// Centre, paper mm.
    pub centre: PaperPoint,
    /// Half the width along the base line, mm.
    pub half_width: f64,
    /// Half the height across it, mm.
    pub half_height: f64,
    /// Cosine and sine of the base line's direction.
    pub along: (f64, f64),
}

impl TextBox {
    /// The box of a placed text.
    pub fn of(text: &Text) -> Self {
        let w = width(&text.content, text.height, text.face);
        Self::placed(text.at, text.align, text.angle, w, text.height)
    }

    /// A box of known size at a reference point on its base line.
    pub fn placed(at: PaperPoint, align: Align, angle: f64, width: f64, height: f64) -> Self {
        let (s, c) = match angle {
            0.0 => (0.0, 1.0),
            90.0 => (1.0, 0.0),
            a => a.to_radians().sin_cos(),
        };
        let u = match align {
            Align::Left => width / 2.0,
            Align::Centre => 0.0,
            Align::Right => -width / 2.0,
        };
        let v = height / 2.0;
        let centre = PaperPoint::new(at.x + u * c - v * s, at.y + u * s + v * c);
        Self { centre, half_width: width / 2.0, half_height: height / 2.0, along: (c, s) }
    }

    /// The same box made larger (or smaller, if negative) on all sides, mm.
    pub fn grown(self, by: f64) -> Self {
        Self { half_width: (self.half_width + by).max(0.0), half_height: (self.half_height + by).max(0.0), ..self }
    }

    /// A point in the box's own axes, relative to its centre.
    pub fn local(&self, p: PaperPoint) -> (f64, f64) {
        let (dx, dy) = (p.x - self.centre.x, p.y - self.centre.y);
        (dx * self.along.0 + dy * self.along.1, -dx * self.along.1 + dy * self.along.0)
    }

    /// Left end of the base line.
    pub fn start(&self) -> PaperPoint {
        let (u, v) = (-self.half_width, -self.half_height);
        PaperPoint::new(self.centre.x + u * self.along.0 - v * self.along.1, self.centre.y + u * self.along.1 + v * self.along.0)
    }

    /// The four corners, counter-clockwise from the start of the base line.
    pub fn corners(&self) -> [PaperPoint; 4] {
        [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(i, j)| {
            let (u, v) = (i * self.half_width, j * self.half_height);
            PaperPoint::new(self.centre.x + u * self.along.0 - v * self.along.1, self.centre.y + u * self.along.1 + v * self.along.0)
        })
    }

    /// Upright bounds: low and high corner.
    pub fn bounds(&self) -> (PaperPoint, PaperPoint) {
        let ex = self.half_width * self.along.0.abs() + self.half_height * self.along.1.abs();
        let ey = self.half_width * self.along.1.abs() + self.half_height * self.along.0.abs();
        (PaperPoint::new(self.centre.x - ex, self.centre.y - ey), PaperPoint::new(self.centre.x + ex, self.centre.y + ey))
    }

    /// Length of the segment's part inside the box, mm.
    pub fn length_inside(&self, a: PaperPoint, b: PaperPoint) -> f64 {
        let line = Line::new(self.local(a), self.local(b));
        let inside = Rect::new(-self.half_width, -self.half_height, self.half_width, self.half_height);
        span_inside(line, inside).map_or(0.0, |(enters, leaves)| (leaves - enters) * line.length())
    }

    /// Whether two boxes overlap by more than a touch (separating axes).
    pub fn overlaps(&self, other: &TextBox) -> bool {
        let apart = |a: &TextBox, b: &TextBox| {
            let (mut lo, mut hi) = ((f64::MAX, f64::MAX), (f64::MIN, f64::MIN));
            for c in b.corners() {
                let (u, v) = a.local(c);
                lo = (lo.0.min(u), lo.1.min(v));
                hi = (hi.0.max(u), hi.1.max(v));
            }
            lo.0 >= a.half_width || hi.0 <= -a.half_width || lo.1 >= a.half_height || hi.1 <= -a.half_height
        };
        !apart(self, other) && !apart(other, self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_diameter_is_measured_with_the_sign_that_is_drawn() {
        assert_eq!(width("⌀14", 2.5, Face::Regular), width("Ø14", 2.5, Face::Regular));
    }

    #[test]
    fn a_wrapped_text_keeps_its_words_and_its_limit() {
        let text = "Weld all seams inside continuous and dust tight before painting";
        let lines = wrap(text, 2.5, Face::Regular, 40.0);
        assert!(lines.iter().all(|l| width(l, 2.5, Face::Regular) <= 40.0));
        assert_eq!(lines.join(" "), text);
        assert!(wrap("incomprehensibilities", 2.5, Face::Regular, 10.0).len() > 1);
        assert_eq!(words_that_stay_together("door 300 × 400, at 2.6 m/s."), ["door", "300 × 400,", "at", "2.6 m/s."]);
    }

    #[test]
    fn a_line_through_a_turned_text_is_measured() {
        let b = TextBox::placed(PaperPoint::new(10.0, 10.0), Align::Centre, 90.0, 8.0, 2.5);
        assert!((b.length_inside(PaperPoint::new(0.0, 10.0), PaperPoint::new(20.0, 10.0)) - 2.5).abs() < 1e-9);
        assert_eq!(b.length_inside(PaperPoint::new(11.0, 0.0), PaperPoint::new(11.0, 20.0)), 0.0);
    }
}
