//! The title of a view, with its scale where it is not the main one.

use super::surroundings::Surroundings;
use crate::paper::drafting::Standard;
use crate::paper::lettering::width;
use crate::paper::mark::{Align, Mark, PaperPoint};
use crate::paper::pencil;
use crate::paper::stroke::{Rect, mark_bounds};
use crate::paper::style::{Face, Pen};
use crate::paper::view::{Draft, ViewScale};

/// Over the view, under it on ANSI sheets; returns the words.
pub(super) fn draw(draft: &Draft, scale: f64, show_scale: bool, env: &Surroundings, marks: &mut Vec<Mark>) -> String {
    let l = &env.lettering;
    let words = env.voice.say(&draft.title);
    let scale_text = if show_scale && !matches!(draft.scale, ViewScale::Picture { .. }) { (env.scale_text)(scale) } else { String::new() };
    if words.is_empty() && scale_text.is_empty() {
        return words;
    }
    let rect = marks.iter().fold(Rect::EMPTY, |r, m| r.union(&mark_bounds(m)));
    let gap = if words.is_empty() || scale_text.is_empty() { 0.0 } else { 4.0 };
    let h = l.view_title;
    let wide = width(&words, h, Face::Bold);
    let small = width(&scale_text, l.heading, Face::Regular);
    let x0 = (rect.x0 + rect.x1) / 2.0 - (wide + gap + small) / 2.0;
    let y = match env.style.standard {
        Standard::Iso => rect.y1 + 5.0,
        Standard::Ansi => rect.y0 - 5.0 - h,
    };
    if !words.is_empty() {
        marks.push(pencil::bold(Pen::Lettering, words.clone(), PaperPoint::new(x0, y), h, Align::Left));
    }
    if !scale_text.is_empty() {
        marks.push(pencil::text(Pen::Lettering, scale_text, PaperPoint::new(x0 + wide + gap, y), l.heading, Align::Left));
    }
    words
}
