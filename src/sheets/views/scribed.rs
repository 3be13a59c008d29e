//! What is marked on a plate besides its holes: scribed outlines and axes, the origin of its figures.
//!
//! In: a part with its pattern, the seats of what is set on it. Out: strokes, item numbers and two dimensions of a draft.

use crate::geometry::Edge;
use crate::lists::cutting;
use crate::paper::style::Pen;
use crate::paper::view::{Draft, Side};
use crate::parts::Part;
use crate::parts::flat::{FlatPattern, Tells};
use crate::sheets::Subject;

/// The origin of all figures, at the lower left of the outline's box. Where the plate has no corner there, lines lead to the
/// edges that it lies in line with.
pub fn origin(d: &mut Draft, flat: &FlatPattern) {
    d.origin((0.0, 0.0));
    let edges = flat.outer.edges();
    // Corners, and where a round edge is lowest or furthest to the left.
    let round = |e: &Edge| if let Edge::Round { arc, .. } = e { vec![[arc.center.x, e.bounds().y0], [e.bounds().x0, arc.center.y]] } else { Vec::new() };
    let points: Vec<[f64; 2]> = edges.iter().flat_map(|e| [e.start(), e.end()].map(|p| [p.x, p.y]).into_iter().chain(round(e))).collect();
    let first = |across: usize| {
        let on = points.iter().filter(|p| p[1 - across].abs() < 0.01);
        on.map(|p| p[across]).reduce(f64::min).filter(|v| *v > 0.01)
    };
    if let Some(x) = first(0) {
        d.line(Pen::Phantom, (0.0, 0.0), (x, 0.0));
    }
    if let Some(y) = first(1) {
        d.line(Pen::Phantom, (0.0, 0.0), (0.0, y));
    }
}

/// Scribed lines: outlines of parts with their item numbers, axes with their distance from the origin.
pub fn draw(subject: &Subject<'_>, d: &mut Draft, part: &Part, flat: &FlatPattern) {
    let key = |what: &str| format!("part.{}.{what}", part.id);
    for s in &flat.scribed {
        d.stroke(if matches!(s.tells, Tells::Item(_)) { Pen::FineEdge } else { Pen::Centre }, cutting::stretch(&s.line));
    }
    let first = |tells: Tells| flat.scribed.iter().find(|s| s.tells == tells).map(|s| s.line);
    if let Some(axis) = first(Tells::ShaftAxis).filter(|l| (l.from[0] - l.to[0]).abs() < 0.01) {
        d.dimension(Side::Above, key("shaft_axis"), (0.0, 0.0), (axis.from[0], axis.from[1].max(axis.to[1])));
    }
    if let Some(axis) = first(Tells::LowestShaft) {
        d.dimension(Side::Right, key("lowest_shaft"), (flat.size()[0], 0.0), (axis.from[0].max(axis.to[0]), axis.from[1]));
    }
    for seat in subject.parts.seats.iter().filter(|s| s.on == part.id && s.on_piece == 0) {
        let Some(item) = subject.parts.part(&seat.part).map(|p| p.item) else { continue };
        let bounds = seat.outline.iter().map(|s| s.edge().bounds()).reduce(|a, b| a.union(b)).unwrap_or_default().inflate(0.1, 0.1);
        let own = flat.scribed.iter().filter(|s| s.tells == Tells::Item(item)).map(|s| s.line.edge()).filter(|e| bounds.contains(e.middle()));
        // Beside its longest line.
        if let Some(longest) = own.max_by(|a, b| a.length().total_cmp(&b.length())) {
            d.tag(longest.middle(), 0.0, item.to_string());
        }
    }
}
