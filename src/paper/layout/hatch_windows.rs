//! Windows in the hatching around the texts that stand on it.

use crate::geometry::contains;
use crate::paper::lettering::TextBox;
use crate::paper::mark::{Mark, PaperPoint, Shape};
use crate::paper::stroke::rings;
use crate::paper::style::Pattern;

/// Cuts a window into every line hatch around each text that stands on it.
pub(super) fn cut(marks: &mut [Mark]) {
    let mut texts: Vec<TextBox> = Vec::new();
    marks.iter().for_each(|m| {
        m.walk(&mut |m| {
            if let Mark::Text(t) = m {
                texts.push(TextBox::of(t));
            }
        });
    });
    for m in marks.iter_mut() {
        if let Mark::Hatch(h) = m
            && h.pattern != Pattern::Solid
        {
            // Close to an edge of the region the window is smaller, so that it stays inside.
            let region = rings(&h.loops);
            let windows: Vec<Shape<PaperPoint>> = texts
                .iter()
                .filter_map(|t| [0.7, 0.35, 0.0].map(|by| t.grown(by).corners()).into_iter().find(|w| w.iter().all(|c| contains(&region, (*c).into()))))
                .map(Shape::polygon)
                .collect();
            h.loops.extend(windows);
        }
    }
}
