//! A plain diagram: two axes with ticks and figures, curves, marked levels.
//!
//! Drawn in millimetres of paper inside a picture view, so that its lettering is the sheet's own.

use crate::paper::style::Pen;
use crate::paper::view::{Draft, ViewScale};

/// One axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// What it shows, with its unit.
    pub title: String,
    /// Value at its beginning.
    pub from: f64,
    /// Value at its end.
    pub to: f64,
    /// Values that get a tick, with their figures.
    pub ticks: Vec<(f64, String)>,
}

/// One curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Its name, written at its middle.
    pub name: String,
    /// Points (x, y).
    pub points: Vec<[f64; 2]>,
    /// How it is drawn.
    pub pen: Pen,
    /// Where along it the name points (0 to 1).
    pub named_at: f64,
}

/// A diagram.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// To the right.
    pub x: Axis,
    /// Up.
    pub y: Axis,
    /// The curves.
    pub curves: Vec<Curve>,
    /// Levels of y with their names, drawn across.
    pub levels: Vec<(f64, String)>,
    /// Width of the field between the axes, paper mm.
    pub width: f64,
    /// Height of the field, paper mm.
    pub height: f64,
}

/// Round steps that divide a range into at most `most` parts: 1, 2 or 5 times a power of ten.
pub fn step(range: f64, most: f64) -> f64 {
    let raw = (range / most).abs().max(1e-9);
    let power = 10_f64.powf(raw.log10().floor());
    let lead = raw / power;
    power
        * if lead <= 1.0 + 1e-9 {
            1.0
        } else if lead <= 2.0 + 1e-9 {
            2.0
        } else if lead <= 5.0 + 1e-9 {
            5.0
        } else {
            10.0
        }
}

impl Axis {
    fn share(&self, value: f64) -> f64 {
        (value - self.from) / (self.to - self.from)
    }

    /// Ticks at values from end to end that are round in units of so much, written by `write`.
    pub fn with_round_ticks(mut self, most: f64, unit: f64, write: impl Fn(f64) -> String) -> Self {
        let by = unit * step((self.to - self.from) / unit, most);
        let mut k = (self.from / by).ceil();
        while k * by <= self.to + 1e-9 {
            self.ticks.push((k * by, write(k * by)));
            k += 1.0;
        }
        self
    }
}

impl Chart {
    /// The diagram as a view.
    pub fn draft(&self, id: &str, title: &'static str) -> Draft {
        let (w, h) = (self.width, self.height);
        let mut d = Draft::new(id, title).at_scale(ViewScale::Picture { width: w + 60.0, height: h + 30.0 });
        let at = |x: f64, y: f64| (self.x.share(x) * w, self.y.share(y) * h);
        d.polyline(Pen::Edge, [(0.0, h + 4.0), (0.0, 0.0), (w + 4.0, 0.0)]);
        for (value, text) in &self.x.ticks {
            let x = self.x.share(*value) * w;
            d.line(Pen::FineEdge, (x, 0.0), (x, -1.5));
            if x > 0.1 {
                d.line(Pen::Dimension, (x, 0.0), (x, h));
            }
            d.label((x, -4.5), text.clone());
        }
        for (value, text) in &self.y.ticks {
            let y = self.y.share(*value) * h;
            d.line(Pen::FineEdge, (0.0, y), (-1.5, y));
            d.label((-8.0, y), text.clone());
        }
        d.label((w / 2.0, -10.5), self.x.title.clone());
        d.label((w * 0.25, h + 8.0), self.y.title.clone());
        for (value, name) in &self.levels {
            let y = self.y.share(*value) * h;
            d.line(Pen::Centre, (0.0, y), (w, y));
            d.leader((w, y), name.clone(), crate::paper::view::Side::Right);
        }
        for c in &self.curves {
            let points: Vec<(f64, f64)> = c.points.iter().map(|p| at(p[0], p[1])).collect();
            let last = points.len().saturating_sub(1) as f64;
            if let Some(p) = points.get((last * c.named_at).round() as usize) {
                d.leader(*p, c.name.clone(), crate::paper::view::Side::Right);
            }
            d.polyline(c.pen, points);
        }
        d
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_in_their_own_unit() {
        let axis = Axis { title: String::new(), from: -500.0, to: 500.0, ticks: Vec::new() }.with_round_ticks(8.0, 25.4, |v| format!("{:.3}", v / 25.4));
        let written: Vec<&str> = axis.ticks.iter().map(|t| t.1.as_str()).collect();
        assert_eq!(written, ["-15.000", "-10.000", "-5.000", "0.000", "5.000", "10.000", "15.000"]);
    }

    #[test]
    fn steps_are_round() {
        assert!((step(1000.0, 6.0) - 200.0).abs() < 1e-9);
        assert!((step(100.0, 5.0) - 20.0).abs() < 1e-9);
        assert!((step(0.9, 10.0) - 0.1).abs() < 1e-9);
    }
}
