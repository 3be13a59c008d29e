//! SVG at true size: one file a sheet, for browsers, reports and the live page.
//!
//! In: pages. Out: SVG whose user unit is one paper mm and whose size is the sheet's. Text is real text;
//! its width is pinned, so that a viewer without the font squeezes another one into the same room. Groups
//! carry the ids of the layout, dimensions their key, strokes their pen as class. The font is not embedded.

use super::{ExportError, Exporter, File, Options, Page, hatching, preflight};
use crate::geometry::Edge;
use crate::paper::font;
use crate::paper::lettering::width;
use crate::paper::mark::{Align, Dimension, Hatch, Mark, PaperPoint, Path, Shape, Text};
use crate::paper::sheet::Sheet;
use crate::paper::style::{Face, Pattern, Pen};
use crate::units::plain_number;
use std::fmt::Write;
use svg::Node;
use svg::node::Text as Content;
use svg::node::element::Element;

/// The SVG exporter.
#[derive(Debug)]
pub struct Svg;

impl Exporter for Svg {
    fn id(&self) -> &'static str {
        "svg"
    }
    fn extension(&self) -> &'static str {
        "svg"
    }
    fn about(&self) -> &'static str {
        "one SVG a sheet at true size with searchable text, for browsers and reports"
    }
    fn export(&self, pages: &[Page], _: &Options) -> Result<Vec<File>, ExportError> {
        preflight::check(pages)?;
        Ok(pages.iter().map(|page| File { name: format!("{}.svg", page.stem), bytes: document(page).into_bytes() }).collect())
    }
}

/// A length or coordinate: at most four decimals of a mm.
fn number(value: f64) -> String {
    plain_number(value, 4)
}

fn document(page: &Page) -> String {
    cut_out(page, [0.0, 0.0, page.width_mm, page.height_mm], |_| true)
}

/// A picture of some views of a sheet and no more than the room that they take, at true size.
pub fn picture_of(sheet: &Sheet, views: &[&str]) -> String {
    let page = Page::from(sheet);
    let chosen = sheet.views.iter().filter(|v| views.contains(&v.id.as_str()));
    let (low, high) = chosen.fold(([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]), |(low, high), v| {
        ([low[0].min(v.low.x), low[1].min(v.low.y)], [high[0].max(v.high.x), high[1].max(v.high.y)])
    });
    let room = [low[0] - AROUND, page.height_mm - high[1] - AROUND, high[0] - low[0] + 2.0 * AROUND, high[1] - low[1] + 2.0 * AROUND];
    cut_out(&page, room, |mark| matches!(mark, Mark::Group(g) if views.iter().any(|id| g.id == format!("view.{id}"))))
}

/// White about a picture, mm.
const AROUND: f64 = 3.0;

/// The part of a page that lies in `room` (left, top, width, height, mm from its upper left corner), with the marks that are chosen.
fn cut_out(page: &Page, room: [f64; 4], choose: impl Fn(&Mark) -> bool) -> String {
    let [left, top, w, h] = room.map(number);
    let mut root = element(
        "svg",
        &[
            ("xmlns", "http://www.w3.org/2000/svg".into()),
            ("class", "sheet".into()),
            ("role", "img".into()),
            ("width", format!("{w}mm")),
            ("height", format!("{h}mm")),
            ("viewBox", format!("{left} {top} {w} {h}")),
        ],
    );
    for (name, content) in [("title", page.title), ("desc", page.description)] {
        let mut e = Element::new(name);
        e.append(Content::new(content));
        root.append(e);
    }
    let mut style = Element::new("style");
    style.append(Content::new(style_sheet(page)));
    root.append(style);
    let mut paper = vec![("class", "paper".into()), ("width", w), ("height", h)];
    if room[0] != 0.0 || room[1] != 0.0 {
        paper.extend([("x", left), ("y", top)]);
    }
    root.append(element("rect", &paper));
    let brush = Brush { height: page.height_mm };
    for mark in page.marks.iter().filter(|mark| choose(mark)) {
        brush.mark(&mut root, mark);
    }
    format!("{root}\n")
}

/// One class a pen. `line` and `fill` say what is done with it.
fn style_sheet(page: &Page) -> String {
    let mut css = String::from(".sheet .paper{fill:#fff}.sheet .line{fill:none;stroke:#000;stroke-linejoin:round}.sheet .fill{fill:#000;fill-rule:evenodd}");
    // Writing into a String cannot fail.
    let _ = write!(
        css,
        ".sheet text{{font-family:\"{}\",\"{}\",sans-serif;font-stretch:condensed;font-kerning:none;font-variant-ligatures:none;fill:#000;white-space:pre}}",
        font::FAMILY,
        font::FAMILY_NORMAL
    );
    for pen in Pen::ALL {
        let width = number(pen.width(page.line_group));
        let dashes: Vec<String> = pen.line_type().pattern().iter().map(|d| number(d.abs())).collect();
        let rest = if dashes.is_empty() { "stroke-linecap:round".into() } else { format!("stroke-dasharray:{}", dashes.join(" ")) };
        let _ = write!(css, ".sheet .line.{}{{stroke-width:{width};{rest}}}", pen.layer());
    }
    css
}

fn element(name: &str, attributes: &[(&str, String)]) -> Element {
    let mut e = Element::new(name);
    for (key, value) in attributes {
        // The writer escapes text; quotes would end the attribute.
        e.assign(*key, value.replace('"', "\u{201d}"));
    }
    e
}

struct Brush {
    height: f64,
}

impl Brush {
    fn x(&self, p: PaperPoint) -> String {
        number(p.x)
    }

    /// SVG counts downwards.
    fn y(&self, p: PaperPoint) -> String {
        number(self.height - p.y)
    }

    fn mark(&self, parent: &mut Element, mark: &Mark) {
        match mark {
            Mark::Path(path) => parent.append(self.path(path)),
            Mark::Text(text) if text.content.trim().is_empty() => {}
            Mark::Text(text) => parent.append(self.text(text)),
            Mark::Hatch(hatch) => parent.append(self.hatch(hatch)),
            Mark::Dimension(dimension) => parent.append(self.dimension(dimension)),
            Mark::Group(group) => {
                let mut g = element("g", &[("id", group.id.clone())]);
                group.marks.iter().for_each(|m| self.mark(&mut g, m));
                parent.append(g);
            }
        }
    }

    fn dimension(&self, d: &Dimension) -> Element {
        let mut g = element("g", &[("class", "dimension".into()), ("data-key", d.key.clone()), ("data-value", plain_number(d.value, 6))]);
        d.strokes.iter().for_each(|m| self.mark(&mut g, m));
        g
    }

    fn path(&self, path: &Path) -> Element {
        let class = ("class", format!("line {}", path.pen.layer()));
        match &path.shape {
            Shape::Line { from, to } => element("line", &[class, ("x1", self.x(*from)), ("y1", self.y(*from)), ("x2", self.x(*to)), ("y2", self.y(*to))]),
            Shape::Circle { centre, radius } => element("circle", &[class, ("cx", self.x(*centre)), ("cy", self.y(*centre)), ("r", number(*radius))]),
            shape => element("path", &[class, ("d", self.outline(shape))]),
        }
    }

    /// Path data of a shape; arcs stay arcs.
    fn outline(&self, shape: &Shape<PaperPoint>) -> String {
        let mut d = String::new();
        for (i, edge) in shape.edges().into_iter().enumerate() {
            let at = |p: kurbo::Point| (self.x(p.into()), self.y(p.into()));
            if i == 0 {
                let (x, y) = at(edge.start());
                let _ = write!(d, "M{x} {y}");
            }
            match edge {
                Edge::Straight(line) => {
                    let (x, y) = at(line.p1);
                    let _ = write!(d, "L{x} {y}");
                }
                Edge::Round { arc, .. } => {
                    // Arcs of more than half a turn are cut in two: a full circle has no arc in SVG.
                    let step = if arc.sweep_angle.abs() > 3.0 { arc.sweep_angle.abs() / 2.0 } else { std::f64::consts::PI };
                    for chord in edge.chords(step) {
                        let (x, y) = at(chord.p1);
                        let _ = write!(d, "A{r} {r} 0 0 {} {x} {y}", u8::from(arc.sweep_angle < 0.0), r = number(arc.radii.x));
                    }
                }
            }
        }
        if shape.is_loop() {
            d.push('Z');
        }
        d
    }

    fn hatch(&self, hatch: &Hatch) -> Element {
        match hatch.pattern {
            Pattern::Solid => {
                let d: String = hatch.loops.iter().map(|l| self.outline(l)).collect();
                element("path", &[("class", format!("fill {}", hatch.pen.layer())), ("d", d)])
            }
            Pattern::Lines { angle, spacing } => {
                let mut d = String::new();
                for (a, b) in hatching::lines(&hatch.loops, angle, spacing) {
                    let _ = write!(d, "M{} {}L{} {}", self.x(a), self.y(a), self.x(b), self.y(b));
                }
                element("path", &[("class", format!("line {}", hatch.pen.layer())), ("d", d)])
            }
        }
    }

    fn text(&self, text: &Text) -> Element {
        let (x, y) = (self.x(text.at), self.y(text.at));
        let mut e = element(
            "text",
            &[
                ("class", text.pen.layer().into()),
                ("font-size", number(text.height / font::CAP_HEIGHT)),
                ("textLength", number(width(&text.content, text.height, text.face))),
                ("lengthAdjust", "spacingAndGlyphs".into()),
            ],
        );
        match text.align {
            Align::Left => {}
            Align::Centre => e.assign("text-anchor", "middle"),
            Align::Right => e.assign("text-anchor", "end"),
        }
        if text.face == Face::Bold {
            e.assign("font-weight", "bold");
        }
        if text.angle != 0.0 {
            e.assign("transform", format!("rotate({} {x} {y})", number(-text.angle)));
        }
        e.assign("x", x);
        e.assign("y", y);
        e.append(Content::new(font::drawn(&text.content)));
        e
    }
}
