//! The last touches on a view: north arrow, windows in the hatch, title.

use super::block::Surroundings;
use super::canvas::Canvas;
use crate::geometry::contains;
use crate::paper::drafting::{Lettering, Standard};
use crate::paper::lettering::{TextBox, width};
use crate::paper::mark::{Align, Mark, PaperPoint, Shape};
use crate::paper::pencil;
use crate::paper::stroke::{Rect, mark_bounds, rings};
use crate::paper::style::{Face, Pattern, Pen};
use crate::paper::view::{Draft, Item, ViewScale};

/// North arrow in a corner of the block that is still free, else beside it.
pub(super) fn north(draft: &Draft, l: &Lettering, marks: &mut Vec<Mark>) {
    let Some(angle) = draft.items.iter().find_map(|i| if let Item::North { angle } = i { Some(*angle) } else { None }) else { return };
    let rect = marks.iter().fold(Rect::EMPTY, |r, m| r.union(&mark_bounds(m)));
    let mut canvas = Canvas::over(rect);
    marks.iter().for_each(|m| canvas.add(m));
    let reach = 12.0;
    let corner =
        [(rect.x1 - reach, rect.y1 - reach), (rect.x0 + reach, rect.y1 - reach), (rect.x1 - reach, rect.y0 + reach), (rect.x0 + reach, rect.y0 + reach)]
            .into_iter()
            .map(|(x, y)| PaperPoint::new(x, y))
            .find(|c| canvas.free(&TextBox::placed(PaperPoint::new(c.x, c.y - reach), Align::Centre, 0.0, 2.0 * reach, 2.0 * reach)));
    let c = corner.unwrap_or(PaperPoint::new(rect.x1 + reach + 3.0, rect.y1 - reach));
    let (s, k) = angle.to_radians().sin_cos();
    let at = |along: f64, across: f64| PaperPoint::new(c.x + k * along - s * across, c.y + s * along + k * across);
    marks.push(pencil::circle(Pen::Symbol, c, 5.0));
    marks.push(pencil::line(Pen::Symbol, at(-7.0, 0.0), at(7.0, 0.0)));
    marks.push(pencil::solid(Pen::Symbol, &[at(7.0, 0.0), at(-3.5, 2.4), at(-1.8, 0.0)]));
    marks.push(pencil::polygon(Pen::Symbol, &[at(7.0, 0.0), at(-3.5, -2.4), at(-1.8, 0.0)]));
    let n = at(9.6, 0.0);
    marks.push(pencil::bold(Pen::Symbol, "N", PaperPoint::new(n.x, n.y - l.text / 2.0), l.text, Align::Centre));
}

/// Cuts a window into every line hatch around each text that stands on it.
pub(super) fn cut_hatches(marks: &mut [Mark]) {
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

/// Title over the view (under it on ANSI sheets), with its scale where it is not the main one.
pub(super) fn title(draft: &Draft, scale: f64, show_scale: bool, env: &Surroundings, marks: &mut Vec<Mark>) -> String {
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
